"""The hours of a plant that stands on the roof already."""

import numpy as np
import pytest

from service.core.model.facts import OtherGeneration
from service.core.model.place import Plane, SkylinePoint
from service.core.sky import plane_light
from service.core.worth import other_generation_w
from tests.builders import array, household, setup
from tests.skies import mixed_year, north_for_south

SKY = mixed_year(54.2, 12.3)
ROOF = Plane(tilt_deg=35, azimuth_deg=180)


def plant(panel_power_w=3000.0, plane=ROOF, year_kwh=None, values_w=None):
    return OtherGeneration(panel_power_w=panel_power_w, plane=plane, year_kwh=year_kwh, values_w=values_w)


def hours(one, sky=SKY):
    return other_generation_w(setup(household=household(other_generation=one)), sky)


def test_no_plant_has_no_hours():
    assert hours(None) is None


def test_its_own_hours_are_taken_as_they_are():
    values = tuple(float(v) for v in range(8760))
    np.testing.assert_array_equal(hours(plant(None, None, None, values)), values)


def test_a_known_year_is_met():
    assert hours(plant(year_kwh=2700)).sum() / 1000 == pytest.approx(2700)
    assert hours(plant(panel_power_w=None, year_kwh=2700)).sum() / 1000 == pytest.approx(2700)


def test_a_plant_of_known_size_gives_what_such_plants_give():
    """Performance ratio of rooftop plants: 0.75 to 0.9 of light times rated power (IEA-PVPS T13-05:2014)."""
    light = plane_light(SKY, array(plane=ROOF), 0.2).open_w_per_m2.sum() / 1000
    assert 0.75 < hours(plant()).sum() / 1000 / (3.0 * light) < 0.92


def test_twice_the_panels_give_twice_the_power():
    np.testing.assert_allclose(hours(plant(6000.0)), 2 * hours(plant()))


def test_a_plant_that_looks_away_from_the_sun_gives_less():
    away = hours(plant(plane=Plane(tilt_deg=35, azimuth_deg=0))).sum()
    assert away < 0.8 * hours(plant()).sum()
    assert hours(plant(plane=Plane(tilt_deg=35, azimuth_deg=0)), north_for_south(SKY)).sum() > away


def test_what_stands_around_the_set_does_not_shade_the_roof():
    walled = array(skyline=(SkylinePoint(azimuth_deg=0, height_deg=80), SkylinePoint(azimuth_deg=359, height_deg=80)))
    home = household(other_generation=plant())
    np.testing.assert_allclose(
        other_generation_w(setup(household=home, arrays=(walled,)), SKY),
        other_generation_w(setup(household=home), SKY),
    )
