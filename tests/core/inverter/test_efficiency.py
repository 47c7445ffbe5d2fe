"""The efficiency curve from one weighted figure, and from points."""

import numpy as np
import pytest

from service.core.inverter import WEIGHTINGS, curve_from_points, curve_through, weighted_efficiency

POINTS = [(0.05, 0.885), (0.1, 0.925), (0.2, 0.951), (0.3, 0.96), (0.5, 0.965), (0.75, 0.963), (1.0, 0.957)]


@pytest.mark.parametrize("weighting", ["european", "californian"])
@pytest.mark.parametrize("share", [0.7, 0.9, 0.955, 0.98, 0.999])
def test_the_weighted_figure_comes_back(weighting, share):
    assert weighted_efficiency(curve_through(share, weighting), weighting) == pytest.approx(share, abs=1e-12)


def test_the_californian_weighting_flatters_the_same_curve():
    curve = curve_through(0.955, "european")
    assert weighted_efficiency(curve, "californian") > 0.955


def test_an_inverter_is_best_at_part_load_and_poor_at_the_least():
    shares = curve_through(0.955, "european").efficiency_share([0.02, 0.1, 0.5, 1.0])
    assert shares[0] < shares[1] < shares[3] < shares[2]


def test_no_output_is_left_at_next_to_no_load_and_none_is_below_nought():
    assert curve_through(0.955, "european").efficiency_share([0.0, 1e-6, 0.003]).tolist() == [0, 0, 0]
    assert curve_from_points(POINTS).efficiency_share([0.0, 1e-6, 0.003]).tolist() == [0, 0, 0]


@pytest.mark.parametrize("curve", [curve_through(0.955, "european"), curve_from_points(POINTS)])
def test_more_direct_current_never_sends_less_out(curve):
    load = np.linspace(0, 3, 3001)
    assert np.all(np.diff(load * curve.efficiency_share(load)) >= -1e-12)


def test_above_full_load_the_efficiency_of_full_load_holds():
    curve = curve_through(0.955, "european")
    assert curve.efficiency_share(1.5) == curve.efficiency_share(1.0)
    assert curve_from_points(POINTS).efficiency_share(1.4) == pytest.approx(0.957)


def test_the_order_of_the_points_does_not_matter():
    assert curve_from_points(POINTS[::-1]) == curve_from_points(POINTS)


def test_an_unknown_weighting_is_refused():
    with pytest.raises(KeyError):
        curve_through(0.955, "lunar")


@pytest.mark.parametrize("weighting", WEIGHTINGS)
def test_weights_add_to_one(weighting):
    assert sum(weight for _, weight in WEIGHTINGS[weighting]) == pytest.approx(1)
