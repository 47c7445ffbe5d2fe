"""Light measured on panels' planes alone: what comes to rears that see another part of the sky, and how sure is it?"""

from functools import cache
from typing import Any

import numpy as np
import pytest
from pvlib.irradiance import get_total_irradiance

from service.core.model.hours import SkyYear
from service.core.sky import typical_year
from service.data.climate import load_climate
from tests.http.client import SMALLEST, post

PLACE = (36.1, -115.1)  # clear hours, in which planes that look away tell least
EAST, WEST, SOUTH, NORTH = ({"tilt_deg": 90, "azimuth_deg": azimuth} for azimuth in (90, 270, 180, 0))
PANEL = {"rated_power_w": 410, "bifaciality_share": 0.8}


@cache
def sky() -> SkyYear:
    return typical_year(load_climate().at(*PLACE, None), "America/Phoenix")


@cache
def on_plane(tilt_deg: float, azimuth_deg: float) -> list[float]:
    """Hay and Davies as a library has it: what a sensor on the plane would have seen of this sky."""
    one = sky()
    found = get_total_irradiance(
        tilt_deg, azimuth_deg, one.sun_zenith_deg, one.sun_azimuth_deg, one.dni_w_per_m2, one.ghi_w_per_m2,
        one.dhi_w_per_m2, dni_extra=one.extraterrestrial_w_per_m2, model="haydavies", albedo=0.2,
    )["poa_global"]  # fmt: skip
    return [round(float(light), 1) for light in np.maximum(np.nan_to_num(found), 0.0)]


def answer(
    planes: tuple[dict[str, float], ...], *, measured: bool, reflectance: float | None = None, **array: Any
) -> dict[str, Any]:
    one = sky()
    series: dict[str, Any] = {"first": "2025-01-01T00:00:00-07:00", "step_minutes": 60, "stamp": "start"}
    if measured:
        series["plane_w_per_m2"] = [on_plane(**plane) for plane in planes]
    else:
        light = ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2")
        series |= {name: [round(float(value), 1) for value in getattr(one, name)] for name in light}
    stand = {"panel": PANEL, "mount": "ground_frame", "count_rear_light": True} | array
    return post("/v1/energy", SMALLEST | {  # type: ignore[no-any-return]
        "site": {"latitude_deg": PLACE[0], "longitude_deg": PLACE[1], "ground_reflectance_share": reflectance},
        "arrays": [stand | {"plane": plane} for plane in planes],
        "inverter": {"ac_power_w": 800, "input_count": len(planes)},
        "weather": {"source": "given", "series": series},
    }).json()  # fmt: skip


@pytest.mark.parametrize("plane", [EAST, NORTH, SOUTH])
def test_the_year_of_the_whole_sky_lies_in_the_band_of_one_plane_s_light(plane: dict[str, float]) -> None:
    """To the north 246 kWh was told, at most 322, of 479."""
    truth, found = (answer((plane,), measured=measured) for measured in (False, True))
    band = found["energy"]["year_kwh"]
    assert band["cautious"] <= truth["energy"]["year_kwh"]["middle"] <= band["hopeful"]
    [guess] = [one for one in found["assumptions"] if one["code"] == "level_from_plane"]
    level = truth["energy"]["weather"]["level_ground_kwh_per_m2"]
    assert guess["low"] <= level <= guess["high"]
    assert guess["value"] == pytest.approx(found["energy"]["weather"]["level_ground_kwh_per_m2"], abs=0.1)
    assert f"{guess['low']:.0f} to {guess['high']:.0f}" in guess["text"]


def test_two_planes_tell_the_hours_that_each_of_them_sees() -> None:
    truth, found = (answer((EAST, WEST), measured=measured)["energy"] for measured in (False, True))
    assert found["year_kwh"]["middle"] == pytest.approx(truth["year_kwh"]["middle"], rel=0.03)
    level = truth["weather"]["level_ground_kwh_per_m2"]
    assert found["weather"]["level_ground_kwh_per_m2"] == pytest.approx(level, rel=0.1)


def test_a_rear_whose_share_was_told_or_that_is_not_counted_has_no_doubt_of_the_sky_behind() -> None:
    for told in ({"rear_light_share": 0.1}, {"count_rear_light": False}):
        spread = answer((NORTH,), measured=True, **told)["energy"]["spread"]
        assert all("upward_sd_share" not in part for part in spread if part["code"] == "rear_light")


@pytest.mark.parametrize("plane", [SOUTH, NORTH, {"tilt_deg": 30, "azimuth_deg": 180}])
def test_the_ground_that_the_sensor_saw_is_no_doubt_beyond_what_telling_it_moves(plane: dict[str, float]) -> None:
    """It counted 3.6 % of an upright plane whose year moves by 0.6 % with any ground."""
    untold = answer((plane,), measured=True, count_rear_light=False)["energy"]
    [part] = [one for one in untold["spread"] if one["code"] == "reflectance"]
    assert part["relative_sd_share"] < 0.01
    for share in (0.1, 0.35):
        told = answer((plane,), measured=True, count_rear_light=False, reflectance=share)["energy"]["year_kwh"]
        moved = abs(told["middle"] / untold["year_kwh"]["middle"] - 1)
        assert moved < max(4 * part["relative_sd_share"], 0.001)
