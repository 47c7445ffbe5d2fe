"""Is the cloudless sky the published one, and do its monthly means agree with the hours?"""

import numpy as np
import pytest
from pvlib import atmosphere, clearsky

from service.core.sky.clear_sky import (
    absolute_air_mass,
    clear_sky,
    clear_sky_months,
    extraterrestrial_months,
    months_by_day,
)
from tests.climates import SUN_DAYS


@pytest.mark.parametrize(("elevation", "turbidity"), [(0.0, 3.0), (2500.0, 2.2), (-300.0, 6.5), (120.0, 4.1)])
def test_the_clear_sky_is_the_library_s(elevation: float, turbidity: float) -> None:
    zenith = np.linspace(0.0, 89.5, 300)
    mass = atmosphere.get_absolute_airmass(atmosphere.get_relative_airmass(zenith), atmosphere.alt2pres(elevation))
    library = clearsky.ineichen(zenith, mass, turbidity, elevation, 1366.1)
    ours = clear_sky(zenith, elevation, turbidity, 1366.1)
    assert ours.ghi_w_per_m2 == pytest.approx(library["ghi"], abs=0.002)
    assert ours.dni_w_per_m2 == pytest.approx(library["dni"], abs=0.01)
    assert ours.dhi_w_per_m2 == pytest.approx(library["dhi"], abs=0.01)


def test_there_is_no_light_with_the_sun_under_the_horizon() -> None:
    dark = clear_sky(np.array([90.0, 95.0, 140.0]), 0.0, 3.0, 1366.1)
    assert dark.ghi_w_per_m2 == pytest.approx([0.0, 0.0, 0.0], abs=1e-9)
    assert np.all(dark.dni_w_per_m2 == 0.0)


def test_haze_takes_beam_and_gives_diffuse() -> None:
    clean, hazy = (clear_sky(np.array([40.0]), 0.0, t, 1366.1) for t in (2.0, 6.0))
    assert hazy.dni_w_per_m2 < clean.dni_w_per_m2
    assert hazy.dhi_w_per_m2 > clean.dhi_w_per_m2


def test_air_mass_at_the_horizon_and_overhead() -> None:
    mass = absolute_air_mass(np.array([0.0, 60.0, 90.0]), 0.0)
    assert mass == pytest.approx([1.0, 1.994, 37.92], rel=0.002)  # Kasten and Young 1989, table II


def test_monthly_values_are_read_straight_between_mid_months() -> None:
    months = np.array([1.0, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])
    assert months_by_day(months, np.array([15.5, 45.0])) == pytest.approx([1.0, 2.0])
    across_new_year = months_by_day(months, np.array([0.0]))[0]
    assert 1.0 < across_new_year < 12.0


def test_light_outside_the_air_agrees_with_the_textbook_table() -> None:
    # Duffie & Beckman, Solar Engineering of Thermal Processes, table 1.10.1 (solar constant 1367), MJ/m2 a day;
    # theirs is for a mean day of each month: agreement within 1.5 %.
    textbook = np.array([36.2, 37.5, 37.9, 36.8, 34.8, 33.5, 34.0, 35.7, 37.2, 37.3, 36.3, 35.7])
    assert extraterrestrial_months(SUN_DAYS, 0.0) * 3.6 == pytest.approx(textbook, rel=0.015)


def test_the_sun_does_not_rise_in_december_at_seventy_degrees_north() -> None:
    clear = clear_sky_months(SUN_DAYS, 70.5, np.array([0.0]), np.full((1, 12), 2.5))[0]
    assert clear[11] == pytest.approx(0.0, abs=1e-3)
    assert clear[5] > 7.0


def test_hemispheres_mirror_each_other_but_for_the_earth_s_distance() -> None:
    north = clear_sky_months(SUN_DAYS, 40.0, np.array([0.0]), np.full((1, 12), 3.0))[0]
    south = clear_sky_months(SUN_DAYS, -40.0, np.array([0.0]), np.full((1, 12), 3.0))[0]
    assert np.roll(south, 6) == pytest.approx(north, rel=0.09)
    assert south[0] > north[6]  # the earth is nearest the sun in January
