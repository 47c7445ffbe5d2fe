"""Outside value: NREL/TP-560-34302 (revised January 2008), table A5.1, the worked example of the algorithm.

17 October 2003, 12:30:30, 7 hours behind universal time; 39.742476 N, 105.1786 W, 1830.14 m; 820 mbar, 11 C;
terrestrial less universal time 67 s. All digits of the table are met.
"""

import numpy as np
import pytest

from service.core.sky.ephemeris import geocentric_sun
from service.core.sky.sun import sun_position

JULIAN_DAY = 2452930.0 + 27030.0 / 86400.0  # the table prints 2452930.312847, rounded to 0.04 s


def test_the_sun_from_the_earth_s_centre_is_that_of_the_table() -> None:
    sun = geocentric_sun(np.array([JULIAN_DAY]), 67.0)
    assert sun.declination_deg[0] == pytest.approx(-9.31434, abs=5e-6)
    assert sun.distance_au[0] == pytest.approx(0.9965422974, abs=5e-10)
    local_hour_angle = (sun.greenwich_hour_angle_deg[0] - 105.1786) % 360.0
    assert local_hour_angle == pytest.approx(11.105900, abs=5e-6)


def test_the_sun_over_the_place_is_that_of_the_table() -> None:
    at = np.array(["2003-10-17T19:30:30"], dtype="datetime64[s]")
    sun = sun_position(at, 39.742476, -105.1786, 1830.14, pressure_hpa=820.0, air_c=11.0, delta_t_s=67.0)
    assert sun.apparent_zenith_deg[0] == pytest.approx(50.11162, abs=5e-6)
    assert sun.azimuth_deg[0] == pytest.approx(194.34024, abs=5e-6)
    assert 90.0 - sun.zenith_deg[0] == pytest.approx(39.872046, abs=5e-6)
