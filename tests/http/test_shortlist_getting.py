"""Where things are and how they come: places by name, adverts of two towns, and what nobody tells of the way."""

from typing import Any

import pytest

from tests.http.client import post
from tests.http.shortlist_asked import PATH, SMALL, answered, same_as_an_appraisal
from tests.shortlist_kinds import INVERTER, inverter_advert, panel_advert

ONE_PANEL = "Ein Modul 395 Wp, Voc 36,9 V, Isc 13,7 A, gebraucht. 45 €, Abholung{where}."


def one_panel(name: str, where: str, **more: Any) -> dict[str, Any]:
    return {"id": name, "title": "1 Solarmodul 395 W", "body": ONE_PANEL.format(where=where), **more}


@pytest.mark.parametrize(
    ("name", "again"),
    [
        ("Nordmole", "nordmole"),
        ("Nordmole", "Nordmole "),
        ("Nordmole", " NORDMOLE"),
        ("Nord mole", "Nord  mole"),
        ("Nordhöft", "Nordhoeft"),
        ("Nordmole", "18055 Nordmole"),
        ("18055 Nordmole", "Nordmole"),
    ],
)
def test_adverts_of_one_place_are_fetched_on_one_trip_however_it_is_written(name: str, again: str) -> None:
    def outlay(place: str) -> float:
        adverts = [
            panel_advert("p", 45, fetched_at=name, distance_km=12),
            {**inverter_advert("i", 95), "delivery_cost": None, "distance_km": 13, "fetched_at": place},
        ]
        return float(answered({**SMALL, "adverts": adverts})["shortlist"][0]["outlay"])

    assert outlay(again) == outlay(name) < outlay("Südkai")


def test_how_far_a_place_is_need_be_told_of_one_advert_there() -> None:
    told = {"fetched_at": "Nordmole", "distance_km": 12}
    adverts = [panel_advert("p", 45, **told), {**inverter_advert("i", 95), "delivery_cost": None, **told}]
    adverts[1]["reading"]["delivery"] = {"kind": "pickup"}
    whole = answered({**SMALL, "adverts": adverts})["shortlist"][0]
    del adverts[1]["distance_km"]
    answer = answered({**SMALL, "adverts": adverts})
    assert answer["shortlist"][0]["outlay"] == whole["outlay"]
    assert answer["shortlist"][0]["assumptions"] == []
    assert "distance" not in {one["code"] for one in answer["questions"]}


TWO = "2 Module je 395 Wp, Voc 36,9 V, Isc 13,7 A, gebraucht, nicht bifazial. 45 € pro Stück, nur Abholung."


@pytest.mark.parametrize(
    "told", [{"fetched_at": "Nordmole"}, {"delivery_cost": 30}, {"fetched_at": "Nordmole", "posted_on": "2026-11-20"}]
)
def test_an_advert_told_twice_is_one_thing_whatever_is_told_of_how_one_of_them_comes(told: dict[str, Any]) -> None:
    def adverts(one: dict[str, Any], other: dict[str, Any]) -> list[dict[str, Any]]:
        said = {"title": "2 Solarmodule 395 W", "body": TWO, "distance_km": 12}
        return [{"id": "u", **said, **one}, {"id": "v", **said, **other}, inverter_advert("i", 95, input_count=2)]

    room = {**SMALL, "wish": "most_value", "places": [{**SMALL["places"][0], "count": 4}]}
    alone = answered({**room, "adverts": [one for one in adverts({}, told) if one["id"] != "v"]})["shortlist"][0]
    for pair in (adverts({}, told), adverts(told, {})):
        answer = answered({**room, "adverts": pair})
        first = answer["shortlist"][0]
        assert sum(on["count"] for on in first["panels"]) == 2
        assert first["net_present_value"] == alone["net_present_value"]
        assert len([one for one in answer["adverts"] if one["double_of"]]) == 1


@pytest.mark.parametrize(
    ("here", "there"),
    [
        ({"where": " in Nordmole"}, {"where": " in Südkai"}),
        ({"where": " in Nordmole", "distance_km": 5}, {"where": " in Südkai", "distance_km": 9}),
        ({"where": "", "distance_km": 5}, {"where": "", "distance_km": 9}),
        ({"where": "", "fetched_at": "Nordmole"}, {"where": "", "fetched_at": "Südkai"}),
    ],
)
def test_alike_panels_of_two_places_make_a_set_together(here: dict[str, Any], there: dict[str, Any]) -> None:
    adverts = [one_panel("a", **here), one_panel("b", **there)]
    answer = answered({**SMALL, "adverts": adverts, "at_hand": {"inverter": INVERTER}, "wish": "most_value"})
    assert {"a", "b"} in [set(one["adverts"]) for one in answer["shortlist"]]
    assert [one["double_of"] for one in answer["adverts"]] == [None, None]


def test_one_place_told_in_two_ways_is_one() -> None:
    adverts = [
        one_panel("a", " in Nordmole", distance_km=5, fetched_at="Nordmole"),
        one_panel("b", " in 47110 Nordmole", distance_km=6, fetched_at="nordmole "),
    ]
    answer = answered({**SMALL, "adverts": adverts, "at_hand": {"inverter": INVERTER}})
    assert [one["double_of"] for one in answer["adverts"]] == [None, "a"]


SAID = {"unknown": "", "either": "Versand möglich.", "shipping": "Nur Versand.", "pickup": "Nur Abholung."}


@pytest.mark.parametrize("kind", SAID)
def test_what_getting_it_costs_is_never_free_for_not_being_told_and_has_its_range(kind: str) -> None:
    body = "2 Module 395 Wp, Voc 36,9 V, Isc 13,7 A, gebraucht. 45 € pro Stück. " + SAID[kind]
    advert = {"id": "p", "title": "2 Solarmodule 395 W", "body": body}
    request = {**SMALL, "adverts": [advert], "at_hand": {"inverter": INVERTER}}
    answer = answered(request)
    one = answer["shortlist"][0]
    [told] = one["assumptions"]
    assert told["low"] < told["value"] < told["high"]
    assert ("It has to be sent" in told["text"]) == (kind == "shipping")
    outlay = one["request"]["outlay"]
    assert 0 < outlay["freight_less"] < outlay["freight"]
    assert outlay["freight_more"] > 0
    same_as_an_appraisal(one)
    asked_of_the_seller = {"delivery", "sending_cost"} & {ask["code"] for ask in one["ask"]}
    assert bool(asked_of_the_seller) == (kind != "pickup")
    assert ("distance" in {ask["code"] for ask in answer["questions"]}) == (kind != "shipping")
    page = post(PATH, request, "text/plain").text
    assert "Assumed" in page


def test_who_says_nothing_of_sending_stands_no_better_than_who_says_that_it_is_possible() -> None:
    def best(said: str, **more: Any) -> dict[str, Any]:
        body = "2 Module 395 Wp, Voc 36,9 V, Isc 13,7 A, gebraucht. 45 € pro Stück. " + said
        advert = {"id": "p", "title": "2 Solarmodule 395 W", "body": body, **more}
        return dict(answered({**SMALL, "adverts": [advert], "at_hand": {"inverter": INVERTER}})["shortlist"][0])

    silent, possible = best(SAID["unknown"]), best(SAID["either"])
    assert silent["outlay"] == possible["outlay"]
    for end in ("cautious", "middle"):
        assert silent["simple_payback_years"][end] == possible["simple_payback_years"][end]
    assert best(SAID["either"], distance_km=12)["outlay"] < possible["outlay"]
