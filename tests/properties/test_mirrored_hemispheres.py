"""The promise: north and south of the equator the same question has the mirrored answer, from the climate to the plane.

Twice: with the sun itself mirrored, where all must agree to rounding; and with the real sun and the seasons shifted by
half a year, where the earth's distance (3.4 % more light in January) and the equation of time remain.
"""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.sky import typical_year
from service.core.tilt import PlaneBounds, TiltWish, best_plane, tilt_advice
from service.core.worth import AtTheMeter
from service.data.households import load_demand_shape
from tests.builders import array, inverter, setup, site
from tests.climates import SUN_DAYS, climate
from tests.properties.around import mirrored, planes, points_off_north, surrounded_arrays

ZONE = "Etc/GMT-1"  # no summer time: its dates have no mirror
SUN_OF_THE_SOUTH = replace(SUN_DAYS, declination_deg=-SUN_DAYS.declination_deg)
latitudes = st.floats(1, 60)
OTHER_SEASON = {"winter": "summer", "spring": "autumn", "summer": "winter", "autumn": "spring"}


def mirrored_climate(here):
    return replace(here, latitude_deg=-here.latitude_deg, sun_days=SUN_OF_THE_SOUTH)


def half_a_year_later(here):
    months = {
        name: np.roll(getattr(here, name), 6, axis=0)
        for name in ("clear_sky_index", "day_quantiles", "linke_turbidity", "air_c", "air_swing_k")
    }
    return replace(here, latitude_deg=-here.latitude_deg, **months)


def across(azimuth_deg):
    return 180.0 - azimuth_deg


def year(one, place, limit_w):
    asked = setup(arrays=(one,), site=site(latitude_deg=place.latitude_deg), inverter=inverter(set_limit_w=limit_w))
    return energy_year(asked, typical_year(place, ZONE), place, Assumptions.of(()))


@settings(max_examples=6)
@given(latitudes, surrounded_arrays(st.lists(points_off_north, max_size=3, unique_by=lambda p: p.azimuth_deg)),
       st.floats(50, 800))  # fmt: skip
def test_under_a_mirrored_sun_the_mirrored_set_gives_the_same_year(latitude, one, limit_w):
    here = climate(latitude_deg=latitude)
    north, south = year(one, here, limit_w), year(mirrored(one, across), mirrored_climate(here), limit_w)
    # A sun within rounding of an edge may fall on either side of it.
    assert (np.abs(north.ac_w - south.ac_w) > 1e-4).sum() <= 3
    assert south.year_kwh.middle == pytest.approx(north.year_kwh.middle, rel=1e-3, abs=0.3)
    turned = {(OTHER_SEASON[kind.season], kind.kind): kind.days for kind in south.day_kinds}
    assert {(kind.season, kind.kind): kind.days for kind in north.day_kinds} == turned


@settings(max_examples=6)
@given(latitudes, planes, st.floats(50, 800))
def test_with_the_real_sun_and_the_seasons_shifted_the_year_agrees_within_a_few_per_cent(latitude, plane, limit_w):
    """The distance alone moves a month's light by up to 3.4 % either way, so that a plane's year moves by less."""
    one = array(plane=plane)
    here = climate(latitude_deg=latitude)
    north = year(one, here, limit_w).year_kwh.middle
    south = year(mirrored(one, across), half_a_year_later(here), limit_w).year_kwh.middle
    assert south == pytest.approx(north, rel=0.034)


@settings(max_examples=8)
@given(latitudes)
def test_the_best_plane_of_a_mirrored_place_is_the_mirrored_plane(latitude):
    here = climate(latitude_deg=latitude)
    free = PlaneBounds(low_tilt_deg=15.0, high_tilt_deg=60.0)
    north, south = (
        best_plane(array(mount="ground_frame"), typical_year(place, ZONE), 0.2, free)
        for place in (here, mirrored_climate(here))
    )
    assert south.tilt_deg == pytest.approx(north.tilt_deg, abs=1.0)
    turned = (across(north.azimuth_deg) - south.azimuth_deg + 180.0) % 360.0 - 180.0
    assert abs(turned) <= 2.0


@settings(max_examples=4, deadline=None)
@given(st.floats(5, 60), st.sampled_from([250.0, 800.0]))
def test_the_advice_of_a_mirrored_place_is_the_mirrored_advice(latitude, limit_w):
    here = climate(latitude_deg=latitude)
    north, south = (_advice(place, limit_w) for place in (here, mirrored_climate(here)))
    assert south.best_brings.year_kwh == pytest.approx(north.best_brings.year_kwh, rel=5e-4)
    assert south.apart_brings.year_kwh == pytest.approx(north.apart_brings.year_kwh, rel=5e-4)
    assert south.schedules[0].gain_kwh == pytest.approx(north.schedules[0].gain_kwh, abs=1e-3 * 800)
    if north.best.tilt_deg >= 8.0:  # nearer to flat the direction says nothing
        turned = (across(north.best.azimuth_deg) - south.best.azimuth_deg + 180.0) % 360.0 - 180.0
        assert abs(turned) <= 5.0
        assert south.best.tilt_deg == pytest.approx(north.best.tilt_deg, abs=2.0)


def _advice(place, limit_w):
    """Two panels in the yard, free to stand in any plane."""
    one = array(mount="ground_frame")
    asked = setup(
        arrays=(one, replace(one, input=2)),
        site=site(latitude_deg=place.latitude_deg),
        inverter=inverter(set_limit_w=limit_w),
    )
    sky = typical_year(place, ZONE)

    def year_of(other):
        return energy_year(other, sky, place, Assumptions.of(()))

    meter = AtTheMeter.of(year_of(asked), asked, sky.calendar, load_demand_shape(), None)
    wish = TiltWish(low_tilt_deg=0, high_tilt_deg=90, changes_per_year=(2,))
    said = [{"tilt_deg": 1, "azimuth_deg": 1}] * 2
    return tilt_advice(asked, sky, said, wish, meter, lambda other: year_of(other).ac_w, date(2026, 11, 25))
