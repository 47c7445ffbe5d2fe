"""Do the right cells count, and how much?"""

import numpy as np
import pytest

from service.data.climate.grid import Field, arc_deg, grid_of
from service.data.climate.packing import pack_ln, pack_quantiles, unpack_ln, unpack_quantiles

WHOLE = grid_of(np.repeat([-3.0, 0.0, 3.0], 120), np.tile(np.arange(-180.0, 180.0, 3.0), 3), 3.0)


def test_a_place_between_four_centres_weighs_them_by_distance() -> None:
    assert Field(WHOLE, WHOLE.longitude_deg).at(1.0, 10.0) == pytest.approx(10.0)
    assert Field(WHOLE, WHOLE.latitude_deg).at(1.0, 10.0) == pytest.approx(1.0)


def test_the_grid_closes_at_the_date_line() -> None:
    weights = WHOLE.around(0.0, 179.0)
    assert sum(weight for _, weight in weights) == pytest.approx(1.0)
    by_longitude = {WHOLE.longitude_deg[cell]: weight for cell, weight in weights}
    assert by_longitude == pytest.approx({177.0: 1 / 3, -180.0: 2 / 3})


def test_cells_without_data_leave_their_weight_to_the_others() -> None:
    three = grid_of(np.array([0.0, 0.0, 1.0]), np.array([0.0, 1.0, 0.0]), 1.0)
    assert [weight for _, weight in three.around(0.5, 0.5)] == pytest.approx([1 / 3, 1 / 3, 1 / 3])


def test_far_from_every_cell_nothing_counts_and_the_nearest_is_known() -> None:
    assert WHOLE.around(50.0, 10.0) == []
    cell, away_deg = WHOLE.nearest(5.0, 9.0)
    assert (WHOLE.latitude_deg[cell], WHOLE.longitude_deg[cell]) == (3.0, 9.0)
    assert away_deg == pytest.approx(2.0)
    assert Field(WHOLE, WHOLE.latitude_deg).at(50.0, 9.0) == 3.0


def test_a_degree_of_longitude_is_shorter_near_the_pole() -> None:
    assert arc_deg(60.0, 10.0, np.array([60.0]), np.array([11.0]))[0] == pytest.approx(0.5, abs=1e-4)
    assert arc_deg(0.0, 179.5, np.array([0.0]), np.array([-179.5]))[0] == pytest.approx(1.0)


def test_packing_keeps_an_index_within_four_tenths_of_a_per_cent() -> None:
    index = np.linspace(0.28, 1.5, 500)
    assert np.exp(unpack_ln(pack_ln(np.log(index)))) == pytest.approx(index, rel=0.004)
    assert np.isnan(unpack_ln(pack_ln(np.array([np.nan]))))[0]


def test_packing_keeps_quantiles_up_to_seven_times_the_mean() -> None:
    quantiles = np.array([[0.01, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.9, 1.04, 7.2]])
    back = unpack_quantiles(pack_quantiles(quantiles))
    assert back.mean() == pytest.approx(1.0)
    assert back[0, -1] == pytest.approx(7.2, rel=0.03)
    assert back[0, :-1] == pytest.approx(quantiles[0, :-1], abs=0.03)
