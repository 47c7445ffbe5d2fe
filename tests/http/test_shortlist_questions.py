"""What is asked of a seller: nothing that the advert says, all else in the words of the advert's language."""

from typing import Any

import pytest

from service.data.seller_questions import load_seller_questions
from tests.http.client import post
from tests.http.shortlist_asked import EXAMPLE, answered
from tests.shortlist_kinds import HOME, INVERTER, panel_advert

GERMAN = "395 Wp, Voc 36,9 V, Isc 13,7 A, Vmp 30,6 V, Imp 12,91 A, Temperaturkoeffizient Voc -0,26 %/K, 54 Zellen. "
ENGLISH = "395 Wp, Voc 36.9 V, Isc 13.7 A, Vmp 30.6 V, Imp 12.91 A, temp. coefficient of Voc -0.26 %/K, 54 cells. "


def asked(title: str, body: str, *, inverter: Any = INVERTER, mount: str = "hung_on_rail", **more: Any) -> list[Any]:
    advert = {"id": "p", "title": title, "body": body, **more}
    places = [{"mount": mount, "count": 2}]
    answer = answered({**HOME, "places": places, "at_hand": {"inverter": inverter}, "adverts": [advert]})
    return list(answer["shortlist"][0]["ask"])


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("2 Solarmodule 395 W", f"{GERMAN}Gebraucht. 45 € pro Stück, nur Abholung."),
        ("2 Solarmodule 395 W", f"{GERMAN}Neu. 45 € pro Stück, Versand 15 €."),
        ("2 Solarmodule 395 W", f"{GERMAN}Gebraucht. Nur komplett für 90 €, Abholung."),
        ("2 solar panels 395 W", f"{ENGLISH}Used. 45 € each, collection only."),
        ("2 solar panels 395 W", f"{ENGLISH}Used. 90 € for both, will not split. Collection only."),
    ],
)
def test_an_advert_that_says_all_is_asked_nothing(title: str, body: str) -> None:
    assert asked(title, body, distance_km=5) == []


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("", "bifaciality_share"),
        (", bifazial", "bifaciality_pct"),
        (", nicht bifazial", None),
    ],
)
def test_a_panel_that_is_said_to_be_two_sided_is_asked_how_much_and_not_whether(said: str, code: str | None) -> None:
    near_its_limit = {**INVERTER, "inputs": [{**INVERTER["inputs"][0], "max_short_circuit_current_a": 18}]}
    body = f"{GERMAN}Gebraucht. 45 € pro Stück, nur Abholung."
    asks = asked(f"2 Solarmodule 395 W{said}", body, inverter=near_its_limit, mount="ground_frame", distance_km=5)
    assert [one["code"] for one in asks if one["code"].startswith("bifac")] == ([] if code is None else [code])


@pytest.mark.parametrize("language", ["en", "de", "nl", "fr", "es", "it", "pl", "pt", "cs", "da"])
def test_the_seller_is_asked_in_the_language_of_the_advert(language: str) -> None:
    questions = load_seller_questions()
    asks = asked("2 x 395 W", "395 W panel solar modul 45 € / 1", price_text="45 €", language=language)
    assert asks
    for one in asks:
        assert one["seller_language"] == language
        assert one["seller_text"] == questions[one["code"]][language]
        assert one["text"]


def test_who_is_near_is_asked_of_the_caller_and_the_way_is_told_to_cost_nothing_so_far() -> None:
    here, there = panel_advert("here", 45), {**panel_advert("there", 40), "distance_km": None}
    answer = answered({**HOME, "at_hand": {"inverter": INVERTER}, "adverts": [here, there], "limit": 20})
    assert ("distance", "/adverts/1/distance_km") in {(one["code"], one["pointer"]) for one in answer["questions"]}
    assert (
        "How far away is the advert there, and" in {one["code"]: one["text"] for one in answer["questions"]}["distance"]
    )
    for one in answer["shortlist"]:
        taken = {(which["pointer"], which["code"], which["value"]) for which in one["assumptions"]}
        assert taken == ({("/adverts/1/distance_km", "way_not_counted", 0)} if "there" in one["adverts"] else set())
    told = answered({**HOME, "at_hand": {"inverter": INVERTER}, "adverts": [here], "limit": 20})
    assert "distance" not in {one["code"] for one in told["questions"]}


def test_what_figures_contradict_is_told_in_words() -> None:
    """305 W from 27.3 V x 10 A: more than the corner of the curve."""
    body = "2 Module je 305 Wp, Voc 27,3 V, Isc 10 A, gebraucht. 45 € pro Stück. Abholung."
    advert = {"id": "p", "title": "2 Solarmodule 305 W", "body": body}
    [one] = answered({**HOME, "at_hand": {"inverter": INVERTER}, "adverts": [advert]})["adverts"]
    assert one["because"]["code"] == "figures_contradict"
    assert "the panel's rated power" in one["because"]["text"]
    assert "_w" not in one["because"]["text"]


def test_questions_of_one_language_are_not_those_of_another() -> None:
    """No cell of the table was filled with the English one."""
    for texts in load_seller_questions().values():
        assert len(set(texts.values())) == len(texts), texts


def test_a_reading_sent_back_is_listed_as_its_text_is() -> None:
    body = f"{GERMAN}Gebraucht. 45 € pro Stück, Abholung."
    more = [
        {"id": f"more{at}", "title": f"2 Solarmodule 39{at} W{said}", "body": body, "distance_km": 5}
        for at, said in enumerate(("", ", bifazial", ", nicht bifazial"))
    ]
    adverts = [*EXAMPLE["adverts"], *more]
    texts = {"id", "title", "body", "price_text", "language"}
    read = post("/v1/adverts/reading", {"adverts": [{k: one[k] for k in texts & set(one)} for one in adverts]}).json()
    back = [
        {"reading": reading, **{k: v for k, v in one.items() if k == "id" or k not in texts}}
        for one, reading in zip(adverts, read["readings"], strict=True)
    ]
    first, second = (answered({**EXAMPLE, "adverts": some, "limit": 20}) for some in (adverts, back))
    assert first["shortlist"] == second["shortlist"]
    for one, other in zip(first["adverts"], second["adverts"], strict=True):
        assert (one["best_set"], one["because"]) == (other["best_set"], other["because"])
