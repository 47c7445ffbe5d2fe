"""A greatest input voltage that nobody told: the year's band holds what telling any of its stated range gives."""

from typing import Any

import pytest

from tests.http.client import post

POINTER = "/inverter/inputs/0/max_input_voltage_v"


def asked(power_w: float, count: int, inverter: dict[str, Any], **array: Any) -> dict[str, Any]:
    stand = {"mount": "ground_frame", "plane": {"tilt_deg": 30, "azimuth_deg": 180}, "count": count}
    return post("/v1/energy", {  # type: ignore[no-any-return]
        "site": {"latitude_deg": 48, "longitude_deg": 11}, "inverter": inverter, "as_of": "2026-11-25",
        "arrays": [{"panel": {"rated_power_w": power_w}, **stand, **array}],
    }).json()  # fmt: skip


@pytest.mark.parametrize(("power_w", "count"), [(200, 1), (410, 1), (410, 2), (600, 2)])
@pytest.mark.parametrize("inverter", [
    {"ac_power_w": 1600}, {"ac_power_w": 1600, "input_count": 1}, {"ac_power_w": 2000, "input_count": 2},
    {"ac_power_w": 800},
])  # fmt: skip
def test_the_band_holds_what_telling_it_gives(power_w: float, count: int, inverter: dict[str, Any]) -> None:
    """Of one 410 W panel at 1600 W the range went to 150 V, at which it never starts, and the band from 419 to 540."""
    untold = asked(power_w, count, inverter)
    band = untold["energy"]["year_kwh"]
    [range_v] = [(one["low"], one["high"]) for one in untold["assumptions"] if one["pointer"] == POINTER]
    for volts in (range_v[0], *(one for one in (65, 80, 100, 120) if range_v[0] < one < range_v[1]), range_v[1]):
        told = asked(power_w, count, {**inverter, "inputs": [{"max_input_voltage_v": volts}]})["energy"]["year_kwh"]
        assert band["cautious"] - 0.1 <= told["middle"] <= band["hopeful"] + 0.1, volts


def test_inputs_of_one_panel_each_are_not_taken_for_those_of_strings() -> None:
    for inverter, high in (({"ac_power_w": 1600}, 65), ({"ac_power_w": 1600, "input_count": 2}, 150)):
        [found] = [one for one in asked(410, 1, inverter)["assumptions"] if one["pointer"] == POINTER]
        assert found["high"] == high
