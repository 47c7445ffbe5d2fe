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
@pytest.mark.parametrize("told", [0, 5, 10])
def test_no_age_within_the_range_makes_a_wider_year_and_a_new_panel_gives_more(
    panel: dict[str, Any], told: float
) -> None:
    middle, width = year(asked(**panel))
    known, narrower = year(asked(**panel, age_years=told))
    assert width > narrower
    assert (middle < known) == (told < 5)
    [taken] = age_assumed(asked(**panel))
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
