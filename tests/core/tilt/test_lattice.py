"""Is a smooth map read rightly between the planes that were computed?"""

import numpy as np
import pytest

from service.core.tilt.bounds import PlaneBounds
from service.core.tilt.lattice import compass, lattice_of_map, lattice_within, spline, spline_all_around, steps_within

ANYWHERE = PlaneBounds(low_tilt_deg=0, high_tilt_deg=90)


@pytest.mark.parametrize("degree", [1, 2, 3])
def test_a_spline_goes_through_any_cubic(degree):
    knots, at = np.array([0.0, 7.0, 15.0, 30.0, 41.0]), np.linspace(0, 41, 50)
    assert spline(knots, at) @ knots**degree == pytest.approx(at**degree, abs=1e-7)


@pytest.mark.parametrize("knots", [[5.0], [5.0, 9.0], [5.0, 9.0, 20.0]])
def test_few_knots_give_the_polynomial_through_them(knots):
    knots = np.array(knots)
    at = np.linspace(5, 20, 7)
    power = knots.size - 1
    assert spline(knots, at) @ knots**power == pytest.approx(at**power)


def test_on_a_circle_north_is_no_edge():
    knots, at = np.arange(0.0, 360.0, 10.0), np.array([0.0, 3.0, 181.0, 355.0, 359.9, 360.0])
    wave = np.cos(np.radians(knots - 20))
    assert spline_all_around(knots, at) @ wave == pytest.approx(np.cos(np.radians(at - 20)), abs=2e-5)


@pytest.mark.parametrize("bounds", [ANYWHERE, PlaneBounds(low_tilt_deg=20, high_tilt_deg=70, low_azimuth_deg=300,
                                                          high_azimuth_deg=60)])  # fmt: skip
def test_the_light_of_a_far_sun_is_read_to_a_thousandth(bounds):
    lattice = lattice_within(bounds)

    def light(tilt, azimuth):
        return 2 + np.cos(np.radians(tilt)) + np.sin(np.radians(tilt)) * np.cos(np.radians(azimuth - 190))

    values = np.array([light(plane.tilt_deg, plane.azimuth_deg) for plane in lattice.planes()])
    tilts = np.linspace(bounds.low_tilt_deg, bounds.high_tilt_deg, 40)
    turns = np.linspace(0, min(bounds.azimuth_span_deg(), 359), 60)
    true = light(tilts[:, None], bounds.low_azimuth_deg + turns[None, :])
    assert lattice.read(values, tilts, turns) == pytest.approx(true, rel=1e-3)


def test_a_spline_all_around_goes_through_uneven_knots_and_follows_a_smooth_ring():
    knots, at = (
        np.array([3.0, 10.0, 25.0, 41.0, 60.0, 90.0, 120.0, 150.0, 180.0, 220.0, 260.0, 300.0, 330.0]),
        np.arange(360.0),
    )
    weights = spline_all_around(knots, at)
    ring = np.cos(np.radians(at)) + 0.3 * np.sin(np.radians(at))
    read = weights @ (np.cos(np.radians(knots)) + 0.3 * np.sin(np.radians(knots)))
    assert read[knots.astype(int)] == pytest.approx(ring[knots.astype(int)], abs=1e-12)
    assert np.abs(read - ring).max() < 2e-3


def test_before_a_slabs_facade_planes_are_closest_where_they_are_turned_least_flat_ones_too():
    lattice = lattice_within(ANYWHERE, "before_facade", facades_deg=(173.0,))
    for row in lattice.turned_deg:
        assert {173.0, 263.0, 83.0, 353.0} <= set(row.round(6).tolist())
        assert np.diff(row).min() == pytest.approx(0.7)
        assert np.diff(row, append=row[0] + 360.0).max() <= 20.0
    two = lattice_within(ANYWHERE, "before_facade", bands=True, facades_deg=(173.0, 80.0))
    assert all(np.diff(row).min() > 0.1 for row in two.turned_deg)


def test_the_planes_of_a_lattice_lie_within_bounds_and_reach_their_ends():
    bounds = PlaneBounds(low_tilt_deg=10.5, high_tilt_deg=62, low_azimuth_deg=350, high_azimuth_deg=10)
    planes = lattice_within(bounds).planes()
    tilts = {plane.tilt_deg for plane in planes}
    assert (min(tilts), max(tilts)) == (10.5, 62)
    turned = {(plane.azimuth_deg - 350) % 360 for plane in planes}
    assert (min(turned), max(turned)) == (0, 20)


def test_steps_end_on_the_end():
    assert steps_within(0.0, 2.5, 1.0).tolist() == [0, 1, 2, 2.5]
    assert steps_within(4.0, 4.0, 1.0).tolist() == [4]
    assert (compass(370.0), compass(-10.0), compass(360.0)) == (10, 350, 360)


def test_a_map_over_edges_is_computed_at_each_azimuth_that_it_tells():
    tilts, azimuths = np.arange(0.0, 91.0), np.arange(0.0, 360.0, 7.0)
    lattice = lattice_of_map(tilts, azimuths, "behind_rail")
    assert all((row == azimuths).all() for row in lattice.turned_deg)
    assert {0.0, 1.0, 2.0, 90.0} <= set(lattice.tilt_deg.tolist())
    assert np.diff(lattice.tilt_deg).max() <= 3.0
    planes = lattice.planes()
    values = np.random.default_rng(3).normal(size=len(planes))
    read = lattice.read(values, lattice.tilt_deg, azimuths)
    assert read.ravel() == pytest.approx(values)
    few = lattice_of_map(np.array([0.0, 13.0, 90.0]), azimuths, "before_facade", (173.0,))
    assert few.tilt_deg.tolist() == [0.0, 13.0, 90.0]
    fine = lattice_of_map(tilts, np.arange(0.0, 360.0), "before_facade", (173.0,))
    assert {173.0, 83.0} <= set(fine.turned_deg[0].round(6).tolist())
    assert len(fine.turned_deg[0]) < 90
