"""Is the sun where it should be, and is a long series as good as single moments?"""

import numpy as np
import pytest

from service.core.sky.sun import geocentric_sun, pressure_at, sun_position
from tests.climates import SUN_DAYS


def hours_of_2025(count: int = 8760) -> np.ndarray:
    """Mid-hours of the year in universal time."""
    return np.datetime64("2025-01-01T00:30", "s") + np.arange(count) * np.timedelta64(3600, "s")


def test_where_two_days_of_the_table_meet_the_sun_does_not_jump() -> None:
    midnight = np.datetime64("2025-06-01T00:00:00", "ms") + np.array([-1, 0, 1]) * np.timedelta64(1000, "ms")
    sun = geocentric_sun(SUN_DAYS, midnight)
    assert np.diff(sun.greenwich_hour_angle_deg % 360.0) == pytest.approx([360 / 86400] * 2, abs=1e-6)
    assert np.abs(np.diff(sun.declination_deg)).max() < 1e-5


def test_at_midnight_the_sun_is_the_table_s_row() -> None:
    sun = geocentric_sun(SUN_DAYS, np.array(["2025-03-20"], dtype="datetime64[D]"))
    row = int((np.datetime64("2025-03-20") - SUN_DAYS.first_day).astype(int))
    assert sun.declination_deg[0] == SUN_DAYS.declination_deg[row]
    assert sun.greenwich_hour_angle_deg[0] == SUN_DAYS.greenwich_hour_angle_deg[row]


@pytest.mark.parametrize("moment", ["2024-12-30T23:59:59", "2026-01-02T00:00:00", "2003-10-17T19:30:30", "NaT"])
def test_a_moment_outside_the_table_is_refused(moment: str) -> None:
    with pytest.raises(ValueError, match="outside"):
        sun_position(SUN_DAYS, np.array([moment], dtype="datetime64[s]"), 50.0, 10.0)


def test_every_time_zone_s_year_lies_in_the_table() -> None:
    ends = np.array(["2024-12-31T00:00:00", "2026-01-01T23:59:59"], dtype="datetime64[s]")
    assert np.isfinite(sun_position(SUN_DAYS, ends, 50.0, 10.0).zenith_deg).all()


def test_the_sun_stands_south_at_noon_in_the_north_and_north_at_noon_in_the_south() -> None:
    noon = np.array(["2025-03-20T12:07:30"], dtype="datetime64[s]")
    assert sun_position(SUN_DAYS, noon, 50.0, 0.0).azimuth_deg[0] == pytest.approx(180.0, abs=0.5)
    northward = (sun_position(SUN_DAYS, noon, -50.0, 0.0).azimuth_deg[0] + 180.0) % 360.0 - 180.0
    assert northward == pytest.approx(0.0, abs=0.5)


def test_the_sun_does_not_rise_in_polar_night_nor_set_in_the_midnight_sun() -> None:
    day = np.datetime64("2025-12-21T00:00", "s") + np.arange(24) * np.timedelta64(3600, "s")
    assert sun_position(SUN_DAYS, day, 71.0, 25.0).apparent_zenith_deg.min() > 90.0
    assert sun_position(SUN_DAYS, day - np.timedelta64(183, "D"), 71.0, 25.0).apparent_zenith_deg.max() < 90.0


def test_refraction_lifts_the_sun_by_half_a_degree_at_the_horizon_and_not_overhead() -> None:
    sun = sun_position(SUN_DAYS, hours_of_2025(), 52.4, 13.1)
    lifted = sun.zenith_deg - sun.apparent_zenith_deg
    low = np.abs(sun.apparent_zenith_deg - 90.0) < 0.5
    assert low.any()
    assert np.all((lifted[low] > 0.3) & (lifted[low] < 0.7))
    assert lifted[sun.zenith_deg < 35.0].max() < 0.015
    assert np.all(lifted[sun.zenith_deg > 91.0] == 0.0)


def test_the_earth_is_nearest_the_sun_in_early_january() -> None:
    distance = sun_position(SUN_DAYS, hours_of_2025(24 * 200), 0.0, 0.0).distance_au
    assert int(np.argmin(distance)) // 24 in range(1, 5)
    assert distance.min() == pytest.approx(0.98333, abs=2e-5)  # perihelion 2025 (Astronomical Almanac, from memory)


def test_pressure_falls_with_height_as_in_the_standard_atmosphere() -> None:
    assert pressure_at(0.0) == 1013.25
    assert pressure_at(1000.0) == pytest.approx(898.76, abs=0.05)  # ISO 2533, table of geopotential heights
    assert pressure_at(3000.0) == pytest.approx(701.1, abs=0.3)
