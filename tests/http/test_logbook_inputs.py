"""POST /v1/logbook/review of sound sets whose inputs were logged apart: one decision, as of a set logged whole."""

from datetime import UTC, datetime, timedelta
from functools import cache
from typing import Any

import numpy as np
import pytest

from tests.http.client import post

FIRST, DAYS = datetime(2026, 4, 30, 23, tzinfo=UTC), 60
PANEL: dict[str, Any] = {
    "rated_power_w": 410, "open_circuit_voltage_v": 37.3, "short_circuit_current_a": 13.9,
    "max_power_voltage_v": 31.2, "max_power_current_a": 13.14, "cells_in_series": 54,
}  # fmt: skip
INPUT = {
    "max_input_voltage_v": 60, "tracking_min_v": 16, "tracking_max_v": 55, "start_voltage_v": 20,
    "max_current_a": 16, "max_short_circuit_current_a": 60,
}  # fmt: skip


def array(number: int, azimuth: float, tilt: float, count: int = 1) -> dict[str, Any]:
    made = {
        "input": number, "count": count, "panel": PANEL, "plane": {"tilt_deg": tilt, "azimuth_deg": azimuth},
    }  # fmt: skip
    return made if count == 1 else {**made, "joined": "parallel"}


def a_set(*arrays: dict[str, Any], ac_w: float = 800) -> dict[str, Any]:
    return {
        "site": {"latitude_deg": 48.1, "longitude_deg": 11.6, "time_zone": "Europe/Berlin"},
        "arrays": list(arrays), "inverter": {"ac_power_w": ac_w, "input_count": 2, "inputs": [INPUT]},
        "as_of": "2026-11-25",
    }  # fmt: skip


SETS = {
    "equal": a_set(array(1, 180, 35), array(2, 180, 35)),
    "unlike": a_set(array(1, 110, 90), array(2, 250, 90)),
    "one and three": a_set(array(1, 180, 35), array(2, 180, 35, 3), ac_w=1600),
}


@cache
def power_w(name: str, step_s: int, seed: int) -> np.ndarray:
    """(inputs, steps): days of the typical year of about the season, each a few per cent off, under passing clouds."""
    hours = np.array(post("/v1/energy", {**SETS[name], "include": ["hours"]}).json()["energy"]["hours"]["dc_w"])
    rng = np.random.default_rng(seed)
    days = 120 + np.arange(DAYS) + rng.integers(-8, 9, DAYS)
    hourly = hours.reshape(hours.shape[0], 365, 24)[:, days] * rng.uniform(0.93, 1.03, DAYS)[:, np.newaxis]
    hourly = 0.95 * hourly.reshape(hours.shape[0], -1)
    if step_s == 3600:
        return hourly
    at_h = (np.arange(DAYS * 86_400 // step_s) + 0.5) * step_s / 3600.0
    power = np.array([np.interp(at_h, np.arange(DAYS * 24) + 0.5, one) for one in hourly])
    cloud = np.convolve(rng.standard_normal(at_h.size + 8), np.ones(3) / 3, "same")[: at_h.size]
    return power * np.clip(1.0 + 0.08 * cloud, 0.4, 1.2)


def readings(name: str, kind: str, step_s: int, seed: int, gap: range = range(0)) -> dict[str, Any]:
    """Rows of each input; of the second without some days."""
    each = []
    for number, watts in enumerate(power_w(name, step_s, seed), start=1):
        ends = [FIRST + timedelta(seconds=step_s * (at + (kind == "counter"))) for at in range(watts.size)]
        wh = watts * step_s / 3600.0
        values = 100.0 + np.cumsum(wh) / 1000.0 if kind == "counter" else wh
        rows = [
            [moment.isoformat(), round(float(value), 4)]
            for at, (moment, value) in enumerate(zip(ends, values, strict=True))
            if number == 1 or at * step_s // 86_400 not in gap
        ]
        each.append({"input": number, "rows": rows})
    more = {"unit": "kwh"} if kind == "counter" else {"unit": "wh", "stamp": "start"}
    return {"kind": kind, **more, "by_input": each}


def found(name: str, kind: str, step_s: int, seed: int, gap: range = range(0)) -> dict[str, Any]:
    answer = post("/v1/logbook/review", {**SETS[name], "readings": readings(name, kind, step_s, seed, gap)})
    assert answer.status_code == 200, answer.text
    log: dict[str, Any] = answer.json()["logbook"]
    return log


@pytest.mark.parametrize("gap", [range(0), range(20, 28)], ids=["whole", "days of one input missing"])
@pytest.mark.parametrize(("name", "kind", "step_s", "seed"), [
    ("equal", "counter", 900, 1), ("unlike", "interval", 3600, 2), ("one and three", "interval", 3600, 1),
])  # fmt: skip
def test_a_sound_set_logged_by_input_is_called_sound(name: str, kind: str, step_s: int, seed: int, gap: range) -> None:
    log = found(name, kind, step_s, seed, gap)
    assert log["conclusion"] == "nothing_unusual", log["suspects"]
    if gap:
        assert {one["input"] for one in log["gaps"]} == {2}
    facts = log["because"]["facts"]
    if log["suspects"]:
        assert facts["sure_pct"] == pytest.approx(100.0 * log["suspects"][0]["sureness_share"], abs=0.1)
        assert facts["wrong_pct"] >= facts["sure_pct"] - 0.1


def test_a_shadow_on_one_input_is_told_by_that_input_s_log() -> None:
    made = readings("equal", "interval", 3600, 3)
    afternoon = [row for row in made["by_input"][1]["rows"] if 12 <= int(row[0][11:13]) < 16]
    for row in afternoon:
        row[1] = round(0.35 * row[1], 4)
    log = post("/v1/logbook/review", {**SETS["equal"], "readings": made}).json()["logbook"]
    assert log["conclusion"] == "something_wrong"
    assert (log["suspects"][0]["code"], log["suspects"][0]["input"]) == ("undeclared_shade", 2)
    assert log["because"]["facts"]["wrong_pct"] >= log["because"]["facts"]["sure_pct"]
