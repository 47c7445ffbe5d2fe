"""Outside values: three years of hourly weather, given only their monthly sums. Data: hours_extract.json, made by
make_hours_extract.py from three NREL typical years of US public domain
(Seattle, Las Vegas, Miami; radiation mostly modelled). Ours takes the file's monthly sums and the table's daily
quantiles.

True agreement, ours over the file's: 35 degrees south -0.7 to +0.4 %; upright south -2.1 to +1.4; upright west -4.2 to
-1.7; upright east -8.3 to -0.6 (mornings are clearer than afternoons there, ours are alike); 20 west -1.1 to +0.7.
Diffuse share 0.01 to 0.04 too high. Energy above 600 W/m2 on 35 south 0.95 to 1.01 of the file's, Miami 1.13; above
800 W/m2 0.92 to 1.07, Miami 1.49: clipping is overstated in the moist subtropics. The bounds below stand around these
figures: they guard against getting worse, and are no outside tolerance.
"""

import json
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.sky import hay_davies, typical_year
from service.core.sky.clear_sky import MONTH_DAYS
from service.data.climate import load_climate

FILES: dict[str, Any] = json.loads((Path(__file__).parent / "hours_extract.json").read_text(encoding="utf-8"))
MONTH_OF_ROW = np.repeat(np.arange(12), np.asarray(MONTH_DAYS) * 24)


@cache
def our_year(name: str) -> SkyYear:
    """The typical year of the place with the file's monthly sums."""
    place = load_climate().at(*FILES[name]["at"])
    clear = np.bincount(MONTH_OF_ROW, typical_year(place, FILES[name]["zone"]).clear_ghi_w_per_m2) / 1000.0
    index = np.asarray(FILES[name]["ghi_kwh_per_m2"]) / clear
    return typical_year(replace(place, clear_sky_index=index), FILES[name]["zone"])


def on_plane(name: str, tilt: float, azimuth: float) -> np.ndarray:
    """Our light on a plane, W/m2."""
    sky = our_year(name)
    return hay_davies(
        Plane(tilt_deg=tilt, azimuth_deg=azimuth),
        sky.sun_zenith_deg,
        sky.sun_azimuth_deg,
        (sky.ghi_w_per_m2, sky.dni_w_per_m2, sky.dhi_w_per_m2),
        sky.extraterrestrial_w_per_m2,
        0.2,
    ).total_w_per_m2()


def of_file(name: str, tilt: float, azimuth: float) -> dict[str, float]:
    """The file's energies on the same plane."""
    return next(p for p in FILES[name]["planes"] if (p["tilt_deg"], p["azimuth_deg"]) == (tilt, azimuth))


@pytest.mark.parametrize("name", sorted(FILES))
@pytest.mark.parametrize(
    ("tilt", "azimuth", "low", "high"),
    [
        (0, 180, 0.995, 1.005),
        (35, 180, 0.985, 1.015),
        (90, 180, 0.97, 1.025),
        (90, 270, 0.945, 1.01),
        (20, 270, 0.98, 1.02),
    ],
)
def test_a_plane_gets_the_year_s_light(name: str, tilt: float, azimuth: float, low: float, high: float) -> None:
    ratio = on_plane(name, tilt, azimuth).sum() / 1000.0 / of_file(name, tilt, azimuth)["kwh"]
    assert low < ratio < high


@pytest.mark.parametrize("name", sorted(FILES))
def test_east_and_west_together_get_the_year_s_light_within_nine_per_cent(name: str) -> None:
    ours = sum(on_plane(name, 90, azimuth).sum() / 1000.0 for azimuth in (90, 270))
    files = sum(of_file(name, 90, azimuth)["kwh"] for azimuth in (90, 270))
    assert 0.91 < ours / files < 1.02


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("seattle_us", 0.9, 1.1), ("las_vegas_us", 0.95, 1.05), ("miami_us", 0.95, 1.2)],
)
def test_as_much_light_stands_above_600_watts(name: str, low: float, high: float) -> None:
    ours = np.maximum(on_plane(name, 35, 180) - 600.0, 0.0).sum() / 1000.0
    assert low < ours / of_file(name, 35, 180)["above_600_kwh"] < high


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("seattle_us", 0.85, 1.1), ("las_vegas_us", 0.95, 1.15), ("miami_us", 0.9, 1.55)],
)
def test_as_much_light_stands_above_800_watts(name: str, low: float, high: float) -> None:
    ours = np.maximum(on_plane(name, 35, 180) - 800.0, 0.0).sum() / 1000.0
    assert low < ours / of_file(name, 35, 180)["above_800_kwh"] < high


@pytest.mark.parametrize("name", sorted(FILES))
def test_the_diffuse_share_is_the_file_s_within_four_hundredths(name: str) -> None:
    sky = our_year(name)
    share = sky.dhi_w_per_m2.sum() / sky.ghi_w_per_m2.sum()
    assert share == pytest.approx(FILES[name]["diffuse_share"], abs=0.04)


@pytest.mark.parametrize("name", sorted(FILES))
def test_the_air_is_as_warm_as_in_the_file(name: str) -> None:
    place = load_climate().at(*FILES[name]["at"])
    away = place.air_c - np.asarray(FILES[name]["air_c"])
    assert np.abs(away).max() < 3.0  # worst: March in Las Vegas, 2.6 K; typical months are not long means
    assert abs(float(away.mean())) < 1.1
    swing = place.air_swing_k - np.asarray(FILES[name]["air_swing_k"])
    assert abs(float(swing.mean())) < 2.5
