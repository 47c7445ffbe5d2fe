"""POST /v1/logbook/review: what does a cause cost, in the time logged and in a year?"""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from functools import cache
from typing import Any

import numpy as np
import pytest

from tests.http.client import post

PATH = "/v1/logbook/review"
FIRST = datetime(2025, 6, 1, tzinfo=UTC)
PANEL = {"panel": {"rated_power_w": 410}, "mount": "ground_frame", "plane": {"tilt_deg": 35, "azimuth_deg": 180}}
SET: dict[str, Any] = {
    "site": {"latitude_deg": 48.1, "longitude_deg": 11.6, "time_zone": "Europe/Berlin"},
    "arrays": [{**PANEL, "input": 1}, {**PANEL, "input": 2}],
    "inverter": {"ac_power_w": 800, "input_count": 2},
    "as_of": "2026-11-25",
}


@cache
def june_w() -> np.ndarray:
    """The set's hours of 60 days from 1 June of the typical year."""
    hours = np.array(post("/v1/energy", {**SET, "include": ["hours"]}).json()["energy"]["hours"]["ac_w"])
    first = (31 + 28 + 31 + 30 + 31) * 24 + 1
    return hours[first : first + 60 * 24]


def year_kwh(limit_w: float) -> float:
    """A usual year of the set under a limit."""
    inverter = {**SET["inverter"], "set_limit_w": limit_w}
    answer = post("/v1/energy", {**SET, "inverter": inverter}).json()
    return float(answer["energy"]["year_kwh"]["middle"])


def suspect(code: str, readings: dict[str, Any]) -> dict[str, Any]:
    """That suspect of the review."""
    found = post(PATH, {**SET, "readings": readings}).json()["logbook"]
    one: dict[str, Any] = next(one for one in found["suspects"] if one["code"] == code)
    return one


@pytest.mark.parametrize("limit_w", [480.0, 600.0])
def test_a_lower_limit_costs_what_it_took_of_the_log_and_what_the_chain_says_of_a_year(limit_w: float) -> None:
    free = june_w()
    kept = np.minimum(free, limit_w)
    rows = [[(FIRST + timedelta(hours=k)).isoformat(), round(float(watts), 1)] for k, watts in enumerate(kept)]
    one = suspect("limit_lower_than_stated", {"kind": "interval", "unit": "wh", "stamp": "start", "rows": rows})
    assert one["effect_share"] == pytest.approx(1.0 - kept.sum() / free.sum(), rel=0.35)
    assert one["effect_kwh_per_year"] == pytest.approx(year_kwh(800.0) - year_kwh(limit_w), rel=0.1)


def by_input(left: float, from_day: int) -> dict[str, Any]:
    """Two inputs logged apart, the second at a share from a day on."""
    half = june_w() / 2.0
    second = half * np.where(np.arange(half.size) < 24 * from_day, 1.0, left)
    each = [{"input": number, "first": FIRST.isoformat(), "step_minutes": 60, "values": np.round(values, 1).tolist()}
            for number, values in ((1, half), (2, second))]  # fmt: skip
    return {"kind": "interval", "unit": "wh", "by_input": each}


def of_both(left: float, from_day: int) -> dict[str, Any]:
    """The same as one log of the set, under days of changing sky."""
    sky = np.repeat(np.random.default_rng(5).uniform(0.7, 1.1, 60), 24)
    gone = np.where(np.arange(sky.size) < 24 * from_day, 1.0, 0.5 + left / 2.0)
    told = [[(FIRST + timedelta(hours=k)).isoformat(), round(float(one), 2)]
            for k, one in enumerate(june_w() * sky * gone)]  # fmt: skip
    return {"kind": "interval", "unit": "wh", "stamp": "start", "rows": told}


@pytest.mark.parametrize(
    ("logged", "left", "from_day", "lost"),
    [(by_input, 0.0, 30, 0.5), (by_input, 0.3, 30, 0.35), (of_both, 0.0, 25, 0.5)],
)
def test_a_year_with_a_cause_that_began_within_the_log_counts_from_its_day_on(
    logged: Callable[[float, int], dict[str, Any]], left: float, from_day: int, lost: float
) -> None:
    one = suspect("input_dead", logged(left, from_day))
    assert one["effect_share"] < 0.75 * lost
    assert one["effect_kwh_per_year"] == pytest.approx(lost * year_kwh(800.0), rel=0.06)


@pytest.mark.parametrize("truly", [{"tilt_deg": 35, "azimuth_deg": 140}, {"tilt_deg": 65, "azimuth_deg": 180}])
def test_another_plane_costs_what_the_chain_says_of_the_days_logged_and_of_a_year(truly: dict[str, float]) -> None:
    turned = {**SET, "arrays": [{**array, "plane": truly} for array in SET["arrays"]]}
    stated, found = (post("/v1/energy", {**one, "include": ["hours"]}).json()["energy"] for one in (SET, turned))
    first = (31 + 28 + 31 + 30 + 31) * 24 + 1
    june = [np.array(one["hours"]["ac_w"])[first : first + 60 * 24] for one in (stated, found)]
    rows = [[(FIRST + timedelta(hours=k)).isoformat(), round(float(watts), 1)] for k, watts in enumerate(june[1])]
    one = suspect("plane_differs", {"kind": "interval", "unit": "wh", "stamp": "start", "rows": rows})
    assert one["effect_share"] == pytest.approx(1.0 - june[1].sum() / june[0].sum(), abs=0.03)
    a_year = stated["year_kwh"]["middle"] - found["year_kwh"]["middle"]
    assert one["effect_kwh_per_year"] == pytest.approx(a_year, abs=0.02 * stated["year_kwh"]["middle"])
