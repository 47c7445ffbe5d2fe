"""Outside values: three years of hourly weather, given only their monthly sums. Data: hours_extract.json, made by
make_hours_extract.py from three NREL typical years of US public domain
(Seattle, Las Vegas, Miami; radiation mostly modelled). Ours takes the file's monthly sums and the table's daily
quantiles.

What may differ, from outside:

- a plane's year by 5 %: these files' radiation is modelled from clouds, and their makers hold yearly sums to be sure to
  some 5 % (user's manual of the third collection, NREL/TP-581-43156, 2008; from memory);
- light above 600 and 800 W/m2 by 2.5 % of the plane's whole year: so much differ years in the world's median
  (GLDAS-2.1, 2012 to 2022, see service/data/climate/accuracy.py). It is what clipping can be wrong by in the yield;
- the diffuse share by a tenth of the beam: what the better published separation models differ by at a single place
  (Gueymard and Ruiz-Arias, Solar Energy 124 (2016); from memory);
- monthly air by 3 K and the year's by 1.2 K: two standard deviations of single months and years about their long means
  at mid-latitude stations (1.5 and 0.6 K, from memory); typical months are single months.

True agreement, ours over the file's: 35 degrees south -0.6 to +0.1 %; upright south -1.2 to +1.6; upright west +1.6 to
+3.4; upright east -2.5 to +5.5; 20 west -0.4 to +1.3; east and west walls together +0.4 to +3.5. Diffuse share 0.01 to
0.04 too high. Energy above 600 W/m2 on 35 south 0.90 to 0.98 of the file's, Miami 1.10; above 800 W/m2 0.81 and 1.01,
Miami 1.37, which is 1.0 % of its year.

Against Potsdam's test reference year with measured radiation (sun moved to local mean solar time; scored only, it
stands nowhere here): 35 south -1.1 %, upright south -1.6, 0.89 of the light above 600 W/m2 and 0.96 above 800. Given
the file's own daily sums it is -0.7 and -0.7 %, given its hours -0.5 and -0.7: the parting into sun and sky has some
0.02 to 0.04 too much from the sky. With days stretched about their mean, six of which at Munich and fourteen at Rostock
were black, both errors cancelled: -0.5 and -0.5. Days themselves: test_day_clearness.py. East and west walls of five
such years were -7.9 and -5.1 % with the course of the day that made the sums (-8.3 and -6.4 in the east in Las Vegas
and Miami), -1.9 +- 2.1 and +1.1 +- 1.6 with the one in use.

Expected limit: an upright east plane in Seattle (+5.5 %), where mornings are cloudier than afternoons (in Las Vegas and
Miami it is the other way round) and ours are alike: marked as failing. Clipping at 800 W in the moist subtropics is
more than a third too much.
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


PLANE_SHARE, CLIPPED_SHARE, BEAM_SHARE = 0.05, 0.025, 0.10


DULL_MORNINGS = pytest.mark.xfail(reason="mornings are cloudier than afternoons there, ours are alike", strict=True)
PLANES = [
    pytest.param(name, *plane, marks=DULL_MORNINGS if plane == (90, 90) and name == "seattle_us" else ())
    for name in sorted(FILES)
    for plane in [(35, 180), (90, 180), (90, 90), (90, 270), (20, 270)]
]


@pytest.mark.parametrize(("name", "tilt", "azimuth"), PLANES)
def test_a_plane_gets_the_year_s_light(name: str, tilt: float, azimuth: float) -> None:
    ratio = on_plane(name, tilt, azimuth).sum() / 1000.0 / of_file(name, tilt, azimuth)["kwh"]
    assert ratio == pytest.approx(1.0, abs=PLANE_SHARE)


@pytest.mark.parametrize("name", sorted(FILES))
def test_an_east_and_a_west_wall_together_get_the_year_s_light(name: str) -> None:
    """Clouds of mornings or afternoons cancel: what is left is how much light a low sun gives."""
    ours = sum(on_plane(name, 90, azimuth).sum() / 1000.0 for azimuth in (90, 270))
    file = sum(of_file(name, 90, azimuth)["kwh"] for azimuth in (90, 270))
    assert ours == pytest.approx(file, rel=PLANE_SHARE)


@pytest.mark.parametrize("name", sorted(FILES))
def test_level_ground_gets_just_the_light_that_was_given(name: str) -> None:
    """The monthly sums are the file's own; 0.5 % for what a low sun does to a flat plane's arithmetic."""
    assert on_plane(name, 0, 180).sum() / 1000.0 == pytest.approx(of_file(name, 0, 180)["kwh"], rel=0.005)


@pytest.mark.parametrize("name", sorted(FILES))
@pytest.mark.parametrize("limit", [600, 800])
def test_as_much_light_stands_above_a_limit(name: str, limit: int) -> None:
    file = of_file(name, 35, 180)
    ours = np.maximum(on_plane(name, 35, 180) - limit, 0.0).sum() / 1000.0
    assert ours == pytest.approx(file[f"above_{limit}_kwh"], abs=CLIPPED_SHARE * file["kwh"])


@pytest.mark.parametrize("name", sorted(FILES))
def test_the_diffuse_share_is_the_file_s_within_a_tenth_of_the_beam(name: str) -> None:
    sky = our_year(name)
    share = sky.dhi_w_per_m2.sum() / sky.ghi_w_per_m2.sum()
    file = FILES[name]["diffuse_share"]
    assert share == pytest.approx(file, abs=BEAM_SHARE * (1.0 - file))


@pytest.mark.parametrize("name", sorted(FILES))
def test_the_air_is_as_warm_as_in_the_file(name: str) -> None:
    place = load_climate().at(*FILES[name]["at"])
    away = place.air_c - np.asarray(FILES[name]["air_c"])
    assert np.abs(away).max() < 3.0  # true agreement: 2.6 K, March in Las Vegas
    assert abs(float(away.mean())) < 1.2
    swing = place.air_swing_k - np.asarray(FILES[name]["air_swing_k"])
    assert abs(float(swing.mean())) < 2.5


@pytest.mark.parametrize("name", sorted(FILES))
def test_the_extremes_of_the_air_enclose_those_of_a_typical_year(name: str) -> None:
    """Extremes of many years lie beyond a typical one's: ours by 4 (Miami) to 21 K of cold, by 5 to 9 K of heat."""
    place = load_climate().at(*FILES[name]["at"])
    assert 0.0 < FILES[name]["coldest_air_c"] - place.coldest_air_c < 25.0
    assert 0.0 < place.hottest_air_c - FILES[name]["hottest_air_c"] < 10.0
