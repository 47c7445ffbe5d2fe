"""Which town does an advert name for fetching, in ten languages, and when are two names one place?"""

from collections.abc import Iterable, Mapping

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.core.shortlist import place_of as place_by
from service.core.shortlist import places_of as places_by
from service.core.shortlist import towns_of
from service.core.shortlist.town import far_apart
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
SAINTS = WORDS.small.saint
FETCHED = {
    "de": "2 Solarmodule 395 Wp, gebraucht, 45 € pro Stück. Abholung in {town}.",
    "en": "2 solar panels 395 W, used, £45 each. Collection from {town} only.",
    "nl": "2 zonnepanelen 395 Wp, gebruikt, 45 € per stuk. Ophalen in {town}.",
    "fr": "2 panneaux solaires 395 W, occasion, 45 € pièce. À venir chercher à {town}.",
    "es": "2 paneles solares 395 W, usados, 45 € cada uno. Recogida en {town}.",
    "it": "2 pannelli solari 395 W, usati, 45 € l'uno. Ritiro a {town}.",
    "pl": "2 panele 395 W, używane, 150 zł za sztukę. Odbiór osobisty w {town}.",
    "pt": "2 painéis solares 395 W, usados, 45 € cada. Recolha em {town}.",
    "cs": "2 solární panely 395 W, použité, 900 Kč za kus. Osobní odběr v {town}.",
    "da": "2 solpaneler 395 W, brugte, 300 kr. stykket. Afhentes i {town}.",
}


def towns(body: str, language: str | None = None) -> frozenset[str]:
    advert = Advert(title="", body=body, language=language)
    return towns_of(advert, read_advert(advert, WORDS), WORDS.small)


def place_of(name: str | None) -> str | None:
    return place_by(name, SAINTS)


def places_of(names: Iterable[str | None]) -> Mapping[str, str]:
    return places_by(names, SAINTS)


@pytest.mark.parametrize("language", FETCHED)
def test_the_town_stands_behind_the_words_of_fetching(language: str) -> None:
    here, there = (FETCHED[language].format(town=town) for town in ("Nordmole", "47110 Südkai"))
    assert towns(here, language) == {"nordmole"}
    assert towns(there, language) == {"47110", "suedkai"}
    assert far_apart(towns(here, language), towns(there, language))


@pytest.mark.parametrize(
    "body",
    [
        "2 Module 395 Wp in Kisten, 45 € pro Stück, Versand möglich.",
        "2 Module 395 Wp, 45 € pro Stück, Abholung. In Nordmole war es schön.",
        "2 Module 395 Wp, 45 € pro Stück.",
        "",
    ],
)
def test_where_no_words_of_fetching_stand_before_it_no_town_is_named(body: str) -> None:
    assert towns(body, "de") == set()


def test_two_names_that_share_a_word_may_be_one_town_and_one_that_is_not_told_any() -> None:
    assert not far_apart(frozenset({"47110", "südkai"}), frozenset({"südkai"}))
    assert not far_apart(frozenset(), frozenset({"südkai"}))


@pytest.mark.parametrize("other", ["nordmole", " Nordmole", "NORDMOLE ", "Ｎordmole", "nordmole\t"])
def test_a_place_is_known_whatever_its_capitals_and_outer_blanks(other: str) -> None:
    assert place_of(other) == place_of("Nordmole")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Südkai", "Suedkai"),
        ("SÜDKAI", "su\u0308dkai"),
        ("Rødkaj", "Roedkaj"),
        ("St. Anna", "St Anna"),
        ("St.Anna", "Sankt Anna"),
        ("Nord\u200bmole", "Nordmole"),
        ("Saint-Anna", "St. Anna"),
        ("Saint Anna", "ST.ANNA"),
        ("Sainte-Anna", "Ste Anna"),
        ("Sint-Anna", "St Anna"),
        ("Sint Anna", "Sankt Anna"),
        ("Skt. Anna", "Sankt Anna"),
        ("Santa Anna", "Sta. Anna"),
        ("Sant'Anna", "Sant’Anna"),
        ("San Kai", "Santo Kai"),
        ("São Kai", "SA\u0303O KAI"),
        ("Święta Anna", "Św. Anna"),
        ("Svatá Anna", "Sv. Anna"),
        ("Bad-Kai", "Bad Kai"),
    ],
)
def test_a_place_is_known_however_its_name_is_spelled(one: str, other: str) -> None:
    assert place_of(one) == place_of(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Sudkai", "Südkai"),
        ("Stanna", "St. Anna"),
        ("West. Kai", "Westkai"),
        ("Saintanna", "Saint Anna"),
        ("Sandkai", "San Dkai"),
        ("Anna", "Sint Anna"),
        ("Santander", "Sant Ander"),
        ("Sint", "Sankt"),
        ("Ste. Kai", "Kai"),
    ],
)
def test_what_may_be_another_name_is_another_place(one: str, other: str) -> None:
    assert place_of(one) != place_of(other)


@pytest.mark.parametrize("coded", ["47110 Südkai", "D-47110 Südkai", "47-110 Suedkai", "471 10 SÜDKAI"])
def test_a_postcode_before_the_name_parts_no_place_from_itself(coded: str) -> None:
    places = places_of([coded, "Südkai", None, "Nordmole"])
    assert places[coded] == places["Südkai"] != places["Nordmole"]


@pytest.mark.parametrize(
    "coded",
    [
        "1234 AB Südkai", "1234AB Südkai", "1234ab südkai", "NL-1234 AB Südkai", "1234 AB, SüdKai", "Südkai 1234 AB",
        "Südkai, 1234AB", "Suedkai (1234 AB)", "NM1 2AB Südkai", "nm12ab südkai", "NM1A 2AB, SÜDKAI", "Südkai NM1 2AB",
        "SÜDKAI,NM1 2AB", "Südkai (NM12 3AB)", "n1 2ab suedkai",
    ],
)  # fmt: skip
def test_a_dutch_or_british_postcode_before_or_behind_the_name_parts_no_place_from_itself(coded: str) -> None:
    places = places_of([coded, "Südkai", "Nordmole"])
    assert places[coded] == places["Südkai"] != places["Nordmole"]


@pytest.mark.parametrize(
    ("one", "other"),
    [("1234 AB Südkai", "5678 AB Südkai"), ("NM1 2AB Südkai", "Südkai NM2 2AB"), ("1234 AB Südkai", "NM1 2AB Südkai")],
)
def test_two_dutch_or_british_postcodes_are_two_towns(one: str, other: str) -> None:
    assert len(set(places_of([one, other, "Südkai"]).values())) == 3


def test_of_one_town_the_letters_that_tell_streets_part_nothing() -> None:
    assert len(set(places_of(["1234 AB Südkai", "1234 CD Südkai", "NM1 2AB Kai", "NM1 9ZZ Kai"]).values())) == 2


@pytest.mark.parametrize("name", ["1234 La Mole", "1234 LA MOLE", "1234 la mole"])
def test_a_short_word_of_a_town_is_no_end_of_a_postcode(name: str) -> None:
    places = places_of([name, "La Mole", "Mole"])
    assert places[name] == places["La Mole"] != places["Mole"]


@pytest.mark.parametrize("name", ["Kai B6", "A7 Kai", "Kai 1234", "Kai NM1", "M25 Kai"])
def test_a_pier_or_a_road_of_letter_and_number_is_no_postcode(name: str) -> None:
    assert len(set(places_of([name, "Kai"]).values())) == 2


@pytest.mark.parametrize(
    ("body", "language", "named"),
    [
        ("2 zonnepanelen 395 Wp, gebruikt, 45 € per stuk. Ophalen in 1234 AB Nordmole.", "nl", {"1234", "nordmole"}),
        ("2 zonnepanelen 395 Wp, gebruikt, 45 € per stuk. Ophalen in Sint-Anna.", "nl", {"anna"}),
        ("2 Solarmodule 395 Wp, gebraucht, 45 € pro Stück. Abholung in St. Anna.", "de", {"anna"}),
        ("2 panneaux solaires 395 W, occasion, 45 € pièce. À venir chercher à Ste-Anna.", "fr", {"anna"}),
        ("2 painéis solares 395 W, usados, 45 € cada. Recolha em São Kai.", "pt", {"kai"}),
        ("2 solar panels 395 W, used, £45 each. Collection from Nordmole NM1 2AB.", "en", {"nordmole", "nm1", "2ab"}),
    ],
)  # fmt: skip
def test_the_word_for_a_saint_and_letters_of_a_postcode_are_no_town(body: str, language: str, named: set[str]) -> None:
    assert towns(body, language) == named


def test_two_towns_of_two_saints_or_with_the_same_letters_in_their_postcodes_are_two() -> None:
    for one, other in (("St. Anna", "St. Jakob"), ("Sankt Anna", "Sint Jakob"), ("1234 AB Nordmole", "5678 AB Kai")):
        here, there = (FETCHED["de"].format(town=town) for town in (one, other))
        assert far_apart(towns(here, "de"), towns(there, "de"))


def test_one_saints_town_written_in_two_ways_is_one() -> None:
    here, there = (FETCHED["de"].format(town=town) for town in ("St. Anna", "Sankt Anna"))
    assert towns(here, "de") == towns(there, "de") == {"anna"}


def test_two_postcodes_are_two_towns_and_neither_is_the_one_without() -> None:
    names = ["47110 Südkai", "47210 Südkai", "Südkai"]
    assert len(set(places_of(names).values())) == 3


def test_a_number_alone_or_with_a_street_is_no_postcode() -> None:
    names = ["47110", "Kai 47110", "47110 Kai 3", "Kai"]
    assert len(set(places_of(names).values())) == 4


def test_adverts_that_spell_one_town_in_two_ways_are_not_of_two() -> None:
    here, there = (FETCHED["de"].format(town=town) for town in ("Südkai", "Suedkai"))
    assert not far_apart(towns(here, "de"), towns(there, "de"))


def test_places_of_other_names_are_other_places() -> None:
    assert place_of("Bad  Kai") == place_of("bad kai") != place_of("badkai")
    assert place_of("  ") is place_of(None) is None
