"""Which town does an advert name for fetching, in ten languages, and when are two names one place?"""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.core.shortlist import place_of, places_of, towns_of
from service.core.shortlist.town import far_apart
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
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
    return towns_of(advert, read_advert(advert, WORDS))


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
    ],
)
def test_a_place_is_known_however_its_name_is_spelled(one: str, other: str) -> None:
    assert place_of(one) == place_of(other)


@pytest.mark.parametrize(("one", "other"), [("Sudkai", "Südkai"), ("Stanna", "St. Anna"), ("West. Kai", "Westkai")])
def test_what_may_be_another_name_is_another_place(one: str, other: str) -> None:
    assert place_of(one) != place_of(other)


@pytest.mark.parametrize("coded", ["47110 Südkai", "D-47110 Südkai", "47-110 Suedkai", "471 10 SÜDKAI"])
def test_a_postcode_before_the_name_parts_no_place_from_itself(coded: str) -> None:
    places = places_of([coded, "Südkai", None, "Nordmole"])
    assert places[coded] == places["Südkai"] != places["Nordmole"]


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
