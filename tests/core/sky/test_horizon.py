import numpy as np
import pytest

from service.core.model.place import SkylinePoint
from service.core.sky import above_skyline, clockwise, skyline_height_deg


def points(*pairs):
    return tuple(SkylinePoint(azimuth_deg=a, height_deg=h) for a, h in pairs)


def test_the_skyline_runs_straight_between_points_and_through_north():
    skyline = points((90, 10), (180, 20), (270, 0))
    heights = skyline_height_deg(skyline, [90, 135, 225, 0, 45, 315])
    np.testing.assert_allclose(heights, [10, 15, 10, 5, 7.5, 2.5])


def test_the_order_of_the_points_does_not_matter():
    there, back = points((20, 3), (150, 30), (200, 5)), points((200, 5), (20, 3), (150, 30))
    around = np.arange(0.0, 360.0, 7.0)
    np.testing.assert_array_equal(skyline_height_deg(there, around), skyline_height_deg(back, around))


def test_one_point_alone_is_a_skyline_all_around():
    assert skyline_height_deg(points((90, 12)), [0, 90, 271]).tolist() == [12, 12, 12]


def test_no_points_leave_the_level_horizon():
    assert skyline_height_deg((), [0.0, 200.0]).tolist() == [0.0, 0.0]


def test_two_points_at_one_azimuth_are_an_upright_edge():
    tower = points((150, 0), (150, 40), (210, 40), (210, 0))
    np.testing.assert_allclose(skyline_height_deg(tower, [0, 149.9, 150.1, 180, 209.9, 210.1]), [0, 0, 40, 40, 40, 0])


@pytest.mark.parametrize("closing", [0.0, 360.0])
def test_a_ring_closed_at_north_may_be_written_with_0_or_360(closing):
    ring = points((0, 8), (180, 8), (closing, 8)) if closing else points((0, 8), (180, 8))
    np.testing.assert_allclose(skyline_height_deg(ring, [0, 90, 270, 359.9, 360]), 8.0)


def test_the_sun_is_hidden_while_it_stands_below_the_skyline():
    hill = points((170, 25), (190, 25))
    seen = above_skyline(hill, [64.0, 65.0, 66.0], [180.0, 180.0, 180.0])
    assert seen.tolist() == [True, True, False]


def test_a_ring_with_upright_edges_is_the_same_wherever_and_whichever_way_one_begins():
    tower = points((20, 3), (150, 0), (150, 40), (210, 40), (210, 0), (300, 7))
    for first in range(len(tower)):
        begun = tower[first:] + tower[:first]
        assert clockwise(begun) == clockwise(begun[::-1]) == tower


def test_an_edge_among_points_in_no_order_is_no_skyline_and_without_edges_any_order_is():
    assert clockwise(points((200, 30), (95, 20), (300, 5), (150, 9), (200, 0))) is None
    scattered = points((200, 30), (95, 20), (300, 5), (150, 9), (200, 30))
    assert [one.azimuth_deg for one in clockwise(scattered)] == [95, 150, 200, 200, 300]
