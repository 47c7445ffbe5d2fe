"""Who knows less of a panel's age is promised no more, and no more surely."""

from typing import Any

import pytest

from tests.http.client import SMALLEST, post

UNKNOWN: list[dict[str, Any]] = [{}, {"history": "not_known"}, {"history": "roof"}, {"history": "storage"}]


def asked(path: str = "/v1/energy", **panel: Any) -> dict[str, Any]:
    stand = {"mount": "ground_frame", "plane": {"tilt_deg": 30, "azimuth_deg": 180}}
    answer = post(path, SMALLEST | {"arrays": [stand | {"panel": {"rated_power_w": 410} | panel}]})
    assert answer.status_code == 200, answer.text
    return answer.json()  # type: ignore[no-any-return]


def year(answer: dict[str, Any]) -> tuple[float, float]:
    """The middle, and the band's width over it."""
    band = answer["energy"]["year_kwh"]
    return band["middle"], (band["hopeful"] - band["cautious"]) / band["middle"]


def age_assumed(answer: dict[str, Any]) -> list[dict[str, Any]]:
    return [one for one in answer["assumptions"] if one["pointer"].endswith("/age_years")]


@pytest.mark.parametrize("panel", UNKNOWN, ids=str)
@pytest.mark.parametrize("rated_power_w", [160, 200, 250, 300, 410, 440])
def test_no_age_within_the_range_makes_a_wider_year_and_a_new_panel_gives_more(
    panel: dict[str, Any], rated_power_w: float
) -> None:
    told = {"rated_power_w": rated_power_w, "open_circuit_voltage_v": 37.0} | panel
    answer = asked(**told)
    middle, width = year(answer)
    [taken] = age_assumed(answer)
    assert taken["code"] == "made_then"
    assert taken["low"] < taken["value"] < taken["high"]
    for age in (taken["low"], taken["value"] - 1, taken["value"] + 1, taken["high"]):
        known, narrower = year(asked(**told, age_years=age))
        assert width > narrower
        assert (middle < known) == (age < taken["value"])


@pytest.mark.parametrize(
    ("rated_power_w", "built"),
    [(230, (2009, 2013)), (250, (2011, 2016)), (280, (2015, 2019)), (330, (2015, 2019)), (410, (2021, 2024))],
)
def test_panels_are_as_old_as_their_power_tells(rated_power_w: float, built: tuple[int, int]) -> None:
    """Years in which most panels of these powers were put up: common practice, no source."""
    [taken] = age_assumed(asked(rated_power_w=rated_power_w))
    assert taken["low"] <= 2026 - built[1] < 2026 - built[0] <= taken["high"]
    assert taken["value"] == (taken["low"] + taken["high"]) / 2
    assert abs(taken["value"] - (2026 - sum(built) / 2)) <= 4


@pytest.mark.parametrize("rated_power_w", [200, 220, 250, 260, 300])
@pytest.mark.parametrize("said", [{"history": "unused"}, {"age_years": 0}, {"age_years": 5}])
def test_panels_of_a_format_that_ended_are_of_that_format_however_late_they_are_put_up(
    rated_power_w: float, said: dict[str, Any]
) -> None:
    untold, told = (asked(rated_power_w=rated_power_w, **one)["energy"]["year_kwh"] for one in ({}, said))
    assert told["cautious"] >= untold["cautious"] - 0.5
    assert told["middle"] > untold["middle"]


def test_a_panel_of_no_known_format_is_of_middle_age() -> None:
    [taken] = age_assumed(asked(cell_kind="cdte", rated_power_w=120))
    assert (taken["low"], taken["value"], taken["high"], taken["code"]) == (0, 5, 10, "middle_age")


def test_an_unused_panel_is_new_and_sure_of_it() -> None:
    unused = asked(history="unused")
    assert year(unused) == year(asked(history="unused", age_years=0))
    [taken] = age_assumed(unused)
    assert (taken["value"], taken["low"], taken["code"]) == (0, None, "taken_as_new")


def test_an_age_that_was_taken_asks_for_no_faulty_share_of_used_panels() -> None:
    pointers = [
        [one["pointer"] for one in asked("/v1/appraisal", **panel)["assumptions"]] for panel in ({}, {"age_years": 5})
    ]
    assert ["/outlay/faulty_share" in told for told in pointers] == [False, False]
    outlay = {"outlay": {"items": [{"what": "panels", "amount": 80}]}}
    for panel, counts in (({}, False), ({"age_years": 5}, True), ({"history": "roof"}, True)):
        request = SMALLEST | outlay | {"arrays": [{"panel": {"rated_power_w": 410} | panel}]}
        told = [one["pointer"] for one in post("/v1/appraisal", request).json()["assumptions"]]
        assert ("/outlay/faulty_share" in told) is counts


@pytest.mark.parametrize("ac_power_w", [600, 800])
@pytest.mark.parametrize("array", [{}, {"count": 2, "joined": "parallel"}], ids=str)
def test_a_told_age_does_not_lower_the_cautious_year_by_a_kind_of_panel_that_untold_ones_may_be(
    array: dict[str, Any], ac_power_w: float
) -> None:
    """Of a 200 W panel that may have 48 cells or 72: ten years old it has 48, and a late input leaves 69 kWh."""
    stand = {"mount": "ground_frame", "plane": {"tilt_deg": 30, "azimuth_deg": 180}} | array

    def cautious(**panel: float) -> tuple[float, dict[str, Any]]:
        request = {"arrays": [stand | {"panel": {"rated_power_w": 200} | panel}]}
        found = post("/v1/energy", SMALLEST | request | {"inverter": {"ac_power_w": ac_power_w}}).json()
        return found["energy"]["year_kwh"]["cautious"], found

    untold, answer = cautious()
    [taken] = age_assumed(answer)
    for age in (taken["low"], 10, taken["value"], taken["high"]):
        assert untold <= cautious(age_years=age)[0] + 0.1, age
