"""Outside values: NREL/TP-560-34302 (revised January 2008), table A5.1, and pvlib's implementation of that algorithm.

The table: 17 October 2003, 12:30:30, 7 hours behind universal time; 39.742476 N, 105.1786 W, 1830.14 m; 820 mbar, 11 C;
terrestrial less universal time 67 s. Its geocentric values, as printed, and pvlib's for that moment both
lead to all its digits (values of the table from memory).

A whole year over thirteen places, with pvlib's own defaults (67 s, where the table of the sun's days was made for
69.2 s): zenith, with and without refraction, and azimuth, counted along the sky, within 0.000027 degrees; of that
0.000025 is the difference of 2.2 s.
"""

import numpy as np
import pandas as pd
import pytest
from pvlib import solarposition, spa

from service.core.model.place import Plane
from service.core.sky import incidence_angle_deg
from service.core.sky.sun import GeocentricSun, geocentric_sun, sun_of_any_year, sun_position, topocentric_sun
from service.data.sun import load_sun_days

LONGITUDE_DEG = -105.1786
DECLINATION_DEG, LOCAL_HOUR_ANGLE_DEG, DISTANCE_AU = -9.31434, 11.105900, 0.9965422974  # table A5.1


def sun_of_the_table() -> GeocentricSun:
    """The table's intermediate values."""
    return GeocentricSun(
        declination_deg=np.array([DECLINATION_DEG]),
        greenwich_hour_angle_deg=np.array([LOCAL_HOUR_ANGLE_DEG - LONGITUDE_DEG]),
        distance_au=np.array([DISTANCE_AU]),
    )


def sun_of_the_library(utc: np.ndarray, delta_t_s: float) -> GeocentricSun:
    """The same from pvlib, at any moments (n,)."""
    moments = utc.astype("datetime64[ms]").astype(np.float64) / 1000.0
    nowhere = (0.0, 0.0, 0.0, 1013.25, 12.0, delta_t_s, 0.5667, 1)
    sidereal, right_ascension, declination = spa.solar_position_numpy(moments, *nowhere, sst=True)
    return GeocentricSun(
        declination_deg=declination,
        greenwich_hour_angle_deg=(sidereal - right_ascension) % 360.0,
        distance_au=spa.solar_position_numpy(moments, *nowhere, esd=True)[0],
    )


def test_the_library_s_geocentric_sun_is_that_of_the_table() -> None:
    sun = sun_of_the_library(np.array(["2003-10-17T19:30:30"], dtype="datetime64[s]"), 67.0)
    assert sun.declination_deg[0] == pytest.approx(DECLINATION_DEG, abs=5e-6)
    assert sun.greenwich_hour_angle_deg[0] + LONGITUDE_DEG == pytest.approx(LOCAL_HOUR_ANGLE_DEG, abs=5e-6)
    assert sun.distance_au[0] == pytest.approx(DISTANCE_AU, abs=5e-10)


@pytest.mark.parametrize(
    "sun",
    [sun_of_the_table(), sun_of_the_library(np.array(["2003-10-17T19:30:30"], dtype="datetime64[s]"), 67.0)],
    ids=["from the table's own values", "from the library's"],
)
def test_the_sun_over_the_place_is_that_of_the_table(sun: GeocentricSun) -> None:
    over = topocentric_sun(sun, 39.742476, LONGITUDE_DEG, 1830.14, pressure_hpa=820.0, air_c=11.0)
    assert over.apparent_zenith_deg[0] == pytest.approx(50.11162, abs=6e-6)
    assert over.azimuth_deg[0] == pytest.approx(194.34024, abs=6e-6)
    assert 90.0 - over.zenith_deg[0] == pytest.approx(39.872046, abs=6e-6)
    plane = Plane(tilt_deg=30, azimuth_deg=170)  # the table turns its slope by -10 degrees from south
    assert incidence_angle_deg(over.apparent_zenith_deg, over.azimuth_deg, plane)[0] == pytest.approx(
        25.18700, abs=6e-6
    )


def test_between_the_days_of_the_table_the_sun_is_where_the_library_sees_it() -> None:
    utc = np.datetime64("2024-12-31T00:00", "s") + np.arange(367 * 24) * np.timedelta64(3600, "s")
    ours, library = geocentric_sun(load_sun_days(), utc), sun_of_the_library(utc, 69.2)
    assert ours.declination_deg == pytest.approx(library.declination_deg, abs=1e-6)
    turn = (ours.greenwich_hour_angle_deg - library.greenwich_hour_angle_deg + 180.0) % 360.0 - 180.0
    assert turn == pytest.approx(np.zeros(utc.size), abs=1e-6)
    assert ours.distance_au == pytest.approx(library.distance_au, abs=1e-8)


PLACES = {
    "Potsdam": (52.38, 13.06, 81.0),
    "Tromso": (69.65, 18.95, 10.0),
    "the table's north end": (72.0, -150.0, 0.0),
    "Ushuaia": (-54.8, -68.3, 20.0),
    "the table's south end": (-57.0, 100.0, 0.0),
    "Singapore": (1.3, 103.8, 15.0),
    "Quito": (-0.2, -78.5, 2850.0),
    "Lhasa": (29.65, 91.1, 3650.0),
    "Dead Sea": (31.5, 35.45, -430.0),
    "Auckland": (-36.8, 174.8, 50.0),
    "Taveuni, at the date line": (-16.9, -179.95, 10.0),
    "Honolulu": (21.3, -157.86, 5.0),
    "Denver": (39.74, -105.18, 1830.0),
}


@pytest.mark.parametrize("place", PLACES.values(), ids=PLACES)
def test_over_a_year_the_sun_is_where_the_library_sees_it(place: tuple[float, float, float]) -> None:
    latitude, longitude, elevation = place
    utc = np.datetime64("2025-01-01T00:30", "s") + np.arange(8760) * np.timedelta64(3600, "s")
    library = solarposition.get_solarposition(pd.DatetimeIndex(utc, tz="UTC"), latitude, longitude, elevation)
    ours = sun_position(load_sun_days(), utc, latitude, longitude, elevation)
    assert np.abs(ours.zenith_deg - library["zenith"].to_numpy()).max() < 5e-5
    up = ours.apparent_zenith_deg < 90.0
    assert np.abs(ours.apparent_zenith_deg - library["apparent_zenith"].to_numpy())[up].max() < 5e-5
    turn = (ours.azimuth_deg - library["azimuth"].to_numpy() + 180.0) % 360.0 - 180.0
    assert np.abs(turn * np.sin(np.deg2rad(ours.zenith_deg))).max() < 5e-5


@pytest.mark.parametrize("year", [1990, 2000, 2012, 2024, 2031, 2040])
def test_the_sun_of_other_years_is_within_a_fiftieth_of_a_degree_of_the_library_s(year: int) -> None:
    """Hours of the year by sevens, by day; zenith and azimuth along the sky: 0.009 (2024) to 0.021 degrees (1990)."""
    utc = np.datetime64(f"{year}-01-01T00:30:00") + np.arange(0, 8760, 7) * np.timedelta64(3600, "s")
    here = sun_of_any_year(load_sun_days(), utc, 39.74, -105.18, 1790.0)
    known = solarposition.get_solarposition(pd.DatetimeIndex(utc, tz="UTC"), 39.74, -105.18, 1790.0)
    zenith, azimuth = known["zenith"].to_numpy(), known["azimuth"].to_numpy()
    turned = (here.azimuth_deg - azimuth + 180.0) % 360.0 - 180.0
    assert np.abs(here.zenith_deg - zenith).max() < 0.022
    assert np.abs(turned * np.sin(np.radians(zenith))).max() < 0.022
