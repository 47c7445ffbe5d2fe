"""Is what the grids say corrected only where it was learned, and blended without steps?"""

import numpy as np
import pytest

from service.core.sky.clear_sky import clear_sky_months
from service.data.climate import load_climate
from service.data.climate.recipe import (
    COLD_LN_PER_10_K,
    LOW_SUN_LN,
    cold_depth,
    cold_ln,
    low_sun_depth,
    low_sun_ln,
    satellite_share,
)


def test_months_above_five_degrees_are_left_alone() -> None:
    assert np.all(cold_ln(np.array([5.0, 12.0, 31.0])) == 0.0)


def test_colder_months_get_less_and_never_more_than_the_coldest_that_was_seen() -> None:
    by_air = cold_ln(np.linspace(-50.0, 10.0, 200))
    assert np.all(np.diff(by_air) >= 0.0)
    assert by_air.min() == pytest.approx(-2.0 * COLD_LN_PER_10_K)
    assert cold_depth(np.array([-5.0]))[0] == pytest.approx(1.0)


def test_the_table_dims_cold_months_alone() -> None:
    """Minnesota: the grids' own index in July, less in January by what the air there asks for."""
    table = load_climate()
    place = table.at(47.4, -92.5, 421.0)
    clear = np.ones(12)  # only asked whether a month is dark
    by_grids = table.grids_ln(47.4, -92.5, 421.0, clear)
    assert by_grids is not None
    away = np.log(place.clear_sky_index) - by_grids
    assert away[6] == pytest.approx(0.0, abs=1e-12)
    assert away[0] == pytest.approx(-COLD_LN_PER_10_K * cold_depth(place.air_c)[0])
    assert away[0] < -0.05


def test_the_satellite_counts_half_inside_its_box_and_nothing_at_its_border() -> None:
    assert satellite_share(50.0, 10.0) == satellite_share(45.6, 5.6) == 0.5
    assert satellite_share(45.25, 10.0) == pytest.approx(0.25)
    assert satellite_share(45.0, 10.0) == satellite_share(44.0, 10.0) == 0.0


def test_the_satellite_is_dimmed_by_how_low_the_sun_is_and_never_by_more_than_was_learned() -> None:
    by_light = low_sun_ln(np.linspace(0.0, 9.0, 200))
    assert np.all(np.diff(by_light) >= 0.0)
    assert by_light[0] == pytest.approx(-LOW_SUN_LN)
    assert low_sun_ln(np.array([2.5, 4.0, 8.0])) == pytest.approx(np.zeros(3))
    assert low_sun_depth(np.array([2.0]))[0] == pytest.approx(0.5)


def test_the_table_dims_the_satellite_alone() -> None:
    """Hanover: half grids, half satellite; December by half of what is learned, July not at all."""
    table = load_climate()
    place = table.at(52.4, 9.8, 54.0)
    clear = clear_sky_months(
        table.sun_days, 52.4, np.asarray([54.0]), place.linke_turbidity[np.newaxis], days_a_month=2
    )[0]
    by_grids = table.grids_ln(52.4, 9.8, 54.0, clear)
    assert by_grids is not None
    undimmed = 0.5 * (by_grids + cold_ln(place.air_c)) + 0.5 * table.satellite_index.at(52.4, 9.8)
    away = np.log(place.clear_sky_index) - undimmed
    assert away[[3, 4, 5, 6, 7, 8]] == pytest.approx(np.zeros(6), abs=1e-12)
    assert away[11] == pytest.approx(-0.5 * LOW_SUN_LN)
