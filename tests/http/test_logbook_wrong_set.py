"""POST /v1/logbook/review of a set that was described wrongly."""

from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np

from tests.http.client import post

PATH = "/v1/logbook/review"
FIRST = datetime(2025, 6, 1, tzinfo=UTC)
SET: dict[str, Any] = {
    "site": {"latitude_deg": 48.1, "longitude_deg": 11.6, "time_zone": "Europe/Berlin"},
    "arrays": [{"panel": {"rated_power_w": 280}, "count": 8, "joined": "series",
                "plane": {"tilt_deg": 20, "azimuth_deg": 180}}],
    "inverter": {"ac_power_w": 2500, "input_count": 1,
                 "inputs": [{"max_input_voltage_v": 600, "tracking_min_v": 100, "tracking_max_v": 500,
                             "start_voltage_v": 120, "max_current_a": 20}]},
    "as_of": "2026-11-25",
}  # fmt: skip


def test_rows_of_a_set_that_cannot_work_as_told_count_and_the_set_is_doubted() -> None:
    hours = np.array(post("/v1/energy", {**SET, "include": ["hours"]}).json()["energy"]["hours"]["ac_w"])
    june = hours[(31 + 28 + 31 + 30 + 31) * 24 + 1 :][: 60 * 24]
    june = np.where(np.arange(june.size) < 45 * 24, june, 0.0)  # dead at the end: that is told first
    rows = [[(FIRST + timedelta(hours=k)).isoformat(), round(float(watts), 1)] for k, watts in enumerate(june)]
    narrow = {"max_input_voltage_v": 60, "tracking_min_v": 16, "tracking_max_v": 55, "start_voltage_v": 20}
    wrong = {**SET, "inverter": {**SET["inverter"], "inputs": [{**narrow, "max_current_a": 20}]}}
    readings = {"kind": "interval", "unit": "wh", "stamp": "start", "rows": rows}
    found = post(PATH, {**wrong, "readings": readings}).json()["logbook"]
    assert abs(found["logged_kwh"] - june.sum() / 1000.0) < 0.05
    codes = {one["code"] for one in found["findings"]}
    assert not {"unit_in_doubt", "unit_too_large", "impossible"} & codes
    assert "more_than_told" in codes or found["because"]["code"] == "more_than_expected"
    right = post(PATH, {**SET, "readings": readings}).json()["logbook"]
    assert "more_than_told" not in {one["code"] for one in right["findings"]}
