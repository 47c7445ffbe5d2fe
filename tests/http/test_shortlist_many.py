"""Of very many adverts some alone are looked at closely: is the list the same as if all were, and is the rest told?"""

from typing import Any

import pytest

from tests.http.client import post
from tests.http.shortlist_asked import PATH, SMALL, answered, reason
from tests.shortlist_kinds import INVERTER, SHEET, inverter_advert, panel_advert

NARROW = {**INVERTER["inputs"][0], "max_current_a": 14, "max_short_circuit_current_a": 16}
WIDE = {**INVERTER["inputs"][0], "max_current_a": 20, "max_short_circuit_current_a": 30}


def listed(answer: dict[str, Any]) -> list[list[str]]:
    return [one["adverts"] for one in answer["shortlist"]]


def with_all_looked_at(request: dict[str, Any], monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    monkeypatch.setattr("service.core.shortlist.screen.LOOKED_PANELS", 200)
    return answered(request)


def panels_of(name: str, count: int, each: float, power_w: float, pieces: int) -> list[dict[str, Any]]:
    return [
        panel_advert(f"{name}{at}", each + at / 10, power_w=power_w + at / 10, quantity_available=pieces)
        for at in range(count)
    ]


def test_panels_of_which_no_input_takes_so_many_do_not_crowd_out_those_that_can_be_had(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """There is room for four and an inverter with two inputs for one panel each: three of 300 W cannot be hung."""
    weak, strong = panels_of("weak", 60, 15, 300, 6), panels_of("strong", 12, 30, 360, 2)
    one_each = {**INVERTER["inputs"][0], "max_short_circuit_current_a": 16.5}
    room = [{**SMALL["places"][0], "count": 4}]
    request = {**SMALL, "places": room, "wish": "most_value", "limit": 10, "adverts": [
        *weak, *strong, inverter_advert("i", 90, inputs=[one_each])]}  # fmt: skip
    bounded = answered(request)
    assert "not_looked_at" in {reason(bounded, one["id"]) for one in weak}
    assert listed(bounded)[0][0].startswith("strong")
    assert listed(bounded) == listed(with_all_looked_at(request, monkeypatch))


def test_an_inverter_that_few_of_the_first_panels_fit_is_asked_about_more(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = {**SHEET, "rated_power_w": 420, "short_circuit_current_a": 18.0, "max_power_current_a": 13.46}
    large = [panel_advert(f"large{at}", 15 + at / 10, panel=sheet) for at in range(60)]
    small = panels_of("small", 15, 40, 350, 2)
    inverters = [inverter_advert("wide", 200, inputs=[WIDE]), inverter_advert("narrow", 20, inputs=[NARROW])]
    request = {**SMALL, "adverts": [*large, *small, *inverters], "limit": 10}
    bounded = answered(request)
    narrow = [names for names in listed(bounded) if "narrow" in names]
    assert narrow
    assert all(names[0].startswith("small") for names in narrow)
    assert listed(bounded) == listed(with_all_looked_at(request, monkeypatch))


def test_a_panel_that_was_asked_about_with_some_inverters_alone_is_not_said_to_fit_none() -> None:
    """Those of 350 W are asked about with the narrow one, which refuses them; the wide one would take them."""
    sheet = {**SHEET, "rated_power_w": 420, "short_circuit_current_a": 18.0, "max_power_current_a": 13.46}
    large = [panel_advert(f"large{at}", 15 + at / 10, panel=sheet) for at in range(60)]
    small = panels_of("small", 5, 40, 350, 2)
    tight = {**NARROW, "max_short_circuit_current_a": 15}
    inverters = [inverter_advert("wide", 200, inputs=[WIDE]), inverter_advert("narrow", 20, inputs=[tight])]
    answer = answered({**SMALL, "adverts": [*large, *small, *inverters], "limit": 3})
    assert {reason(answer, one["id"]) for one in small} == {"not_looked_at"}
    assert reason(answer, "narrow") == "does_not_fit"


def test_what_was_not_looked_at_is_told_its_place_and_that_this_proves_nothing() -> None:
    panels = panels_of("p", 70, 20, 400, 4)
    answer = answered({**SMALL, "adverts": [*panels, inverter_advert("i", 90, inputs=[WIDE])], "limit": 5})
    passed = [one["because"] for one in answer["adverts"] if reason(answer, one["advert"]) == "not_looked_at"]
    places = [one["facts"]["place"] for one in passed]
    assert sorted(places) == list(range(71 - len(places), 71))
    assert {one["facts"]["of"] for one in passed} == {70}
    assert all("proves nothing" in one["text"] for one in passed)
    [note] = [note for note in answer["notes"] if note["code"] == "looked_at"]
    assert note["facts"]["left"] == len(passed)
    assert "not proven" in note["text"]


def test_a_page_of_two_hundred_panels_goes_with_inverters_from_another() -> None:
    panels = panels_of("p", 200, 20, 400, 4)
    inverters = [inverter_advert(f"i{at}", 90 + at, inputs=[WIDE]) for at in range(20)]
    answer = answered({**SMALL, "adverts": [*panels, *inverters], "limit": 3})
    assert len(answer["adverts"]) == 220
    beyond = post(PATH, {**SMALL, "adverts": [*panels, *inverters, inverter_advert("more", 99)]})
    assert (beyond.status_code, beyond.json()["errors"][0]["code"]) == (422, "wrong_count")
