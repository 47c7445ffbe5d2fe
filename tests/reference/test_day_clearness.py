"""Outside values: how bright the days of real years are, from the darkest hundredth to the brightest tenth.

Measured: two years of light on a slope of 40 degrees to the south at Golden, Colorado, as daily sums over those of a
cloudless sky (the file and its source: measured/SOURCES.md). Ours is given the months' light. May differ, from outside:

- twice what two such years scatter: drawn anew week by week from the file itself (2000 times) its quantiles have
  standard deviations of 0.022, 0.030, 0.024, 0.021, 0.009, 0.009 and 0.005;
- 2 % for the cloudless sky, which is a model's.

True agreement: the twentieth 0.250 (measured 0.242), the tenth 0.357 (0.386), quartiles 0.602, 0.816 and 0.958 (0.598,
0.818, 0.966), nine tenths 1.039 (1.022). Expected limit, marked as failing: the darkest hundredth 0.137 (0.088), as the
table knows no day darker than a month's darkest twelfth in the mean.

Modelled: three NREL typical years (hours_extract.json), their days' clearness over outside the air. Quartiles and nine
tenths may differ by 0.05: twice the scatter of a single year, by Golden's, is 0.02 to 0.04, and these are months of
several years. The twentieth and the tenth may lie 0.10 below: these years are reckoned from clouds and their darkest
hundredth is 0.17 to 0.26, which is 0.07 where it was measured (Potsdam). True agreement: 0.01 to 0.08 below, the rest
within 0.04.

Potsdam, measured (a test reference year of the DWD, scored only): quantiles within 0.02, in winter within 0.05; before
days were spread by their odds the hundredth and the twentieth were 0.07 and 0.05 too dark, in winter the tenth 0.07.
"""

import json
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from service.bench.measured_systems import read
from service.core.model.climate import PlaceClimate
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.sky import extraterrestrial, hay_davies, typical_year
from service.core.sky.clear_sky import MONTH_DAYS
from service.core.sky.cloudless import cloudless_hours
from service.core.sky.sun import sun_of_any_year
from service.data.climate import load_climate

HERE = Path(__file__).parent
FILES: dict[str, Any] = json.loads((HERE / "hours_extract.json").read_text(encoding="utf-8"))
CHANCES = (0.01, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9)
MONTH = np.repeat(np.arange(12), MONTH_DAYS)
MONTH_OF_ROW = np.repeat(MONTH, 24)

SLOPE = Plane(tilt_deg=40, azimuth_deg=180)
GOLDEN, GOLDEN_ZONE, GOLDEN_OFFSET_H = (39.7406, -105.1774, 1790.0), "America/Denver", 7
SCATTER = np.array([0.022, 0.030, 0.024, 0.021, 0.009, 0.009, 0.005])
CLOUDLESS_SHARE = 0.02


def on_slope(zenith_deg: Any, azimuth_deg: Any, light: tuple[Any, Any, Any], outside: Any) -> np.ndarray:
    return hay_davies(SLOPE, zenith_deg, azimuth_deg, light, outside, 0.2).total_w_per_m2()


def cloudless_days(place: PlaceClimate) -> np.ndarray:
    """(365,) on the slope, Wh/m2, by standard time."""
    utc = np.datetime64("2011-01-01T00:00:00") + np.arange(8760) * np.timedelta64(3600, "s")
    utc = (utc + np.timedelta64(GOLDEN_OFFSET_H, "h")).astype("datetime64[s]")
    clear = cloudless_hours(utc, place)
    sun = sun_of_any_year(place.sun_days, utc + np.timedelta64(1800, "s"), *GOLDEN)
    zenith = sun.apparent_zenith_deg
    beam = clear.dni_w_per_m2 * np.maximum(np.cos(np.deg2rad(zenith)), 0.0)
    light = (clear.ghi_w_per_m2, clear.dni_w_per_m2, np.maximum(clear.ghi_w_per_m2 - beam, 0.0))
    return on_slope(zenith, sun.azimuth_deg, light, extraterrestrial(sun.distance_au)).reshape(365, 24).sum(axis=1)


def measured_days() -> tuple[np.ndarray, np.ndarray]:
    """Days of the year from 0, and their light; days with fewer than eight hours of it and 29 February left out."""
    stamps, columns = read(HERE / "measured" / "golden_hours.csv.gz")
    dates, at, hours = np.unique(stamps.astype("datetime64[D]"), return_inverse=True, return_counts=True)
    light = np.bincount(at, np.maximum(columns["poa_w_m2"], 0.0))
    year = dates.astype("datetime64[Y]")
    day = (dates - year.astype("datetime64[D]")).astype(np.int64)
    leap = (year.astype(np.int64) + 1970) % 4 == 0
    kept = (hours >= 8) & np.isfinite(light) & ~(leap & (day == 59))
    return (day - (leap & (day > 59)))[kept], light[kept]


def slope_days(sky: SkyYear) -> np.ndarray:
    light = (sky.ghi_w_per_m2, sky.dni_w_per_m2, sky.dhi_w_per_m2)
    hours = on_slope(sky.sun_zenith_deg, sky.sun_azimuth_deg, light, sky.extraterrestrial_w_per_m2)
    return hours.reshape(365, 24).sum(axis=1)


@cache
def golden() -> tuple[np.ndarray, np.ndarray]:
    """Quantiles of days over cloudless ones: measured, and ours with the measured months' light."""
    place = load_climate().at(*GOLDEN)
    clear = cloudless_days(place)
    day, light = measured_days()
    wanted = np.bincount(MONTH[day], light) / np.bincount(MONTH[day], clear[day])
    ours = np.zeros(365)
    for _ in range(6):
        ours = slope_days(typical_year(place, GOLDEN_ZONE))
        found = np.bincount(MONTH, ours) / np.bincount(MONTH, clear)
        place = replace(place, clear_sky_index=place.clear_sky_index * (wanted / found) ** 0.8)
    assert found == pytest.approx(wanted, rel=0.01)
    return np.quantile(light / clear[day], CHANCES), np.quantile(ours / clear, CHANCES)


NO_DARKER = pytest.mark.xfail(reason="the table knows no day darker than its darkest twelfth", strict=True)
AT = [pytest.param(at, id=f"{chance:.0%}", marks=NO_DARKER if at == 0 else ()) for at, chance in enumerate(CHANCES)]


@pytest.mark.parametrize("at", AT)
def test_days_on_a_measured_slope_are_as_dull_and_as_bright(at: int) -> None:
    measured, ours = golden()
    assert ours[at] == pytest.approx(measured[at], abs=2.0 * SCATTER[at] + CLOUDLESS_SHARE * measured[at])


@cache
def clearness(name: str) -> np.ndarray:
    """Quantiles of our days with the file's monthly light, as ``make_hours_extract`` takes the file's."""
    place, zone = load_climate().at(*FILES[name]["at"]), FILES[name]["zone"]
    clear = np.bincount(MONTH_OF_ROW, typical_year(place, zone).clear_ghi_w_per_m2) / 1000.0
    sky = typical_year(replace(place, clear_sky_index=np.asarray(FILES[name]["ghi_kwh_per_m2"]) / clear), zone)
    outside = sky.extraterrestrial_w_per_m2 * np.maximum(np.cos(np.deg2rad(sky.sun_zenith_deg)), 0.0)
    by_day = (hours.reshape(365, 24).sum(axis=1) for hours in (sky.ghi_w_per_m2, outside))
    return np.quantile(np.divide(*by_day), CHANCES)


@pytest.mark.parametrize("name", sorted(FILES))
def test_days_of_modelled_years_are_spread_alike(name: str) -> None:
    away = clearness(name) - np.asarray(FILES[name]["day_clearness"])
    assert away[1:3].min() > -0.10
    assert away[1:3].max() < 0.05
    assert np.abs(away[3:]).max() < 0.05
