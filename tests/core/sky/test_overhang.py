import numpy as np
import pytest

from service.core.model.place import Overhang, Plane, SideWall
from service.core.sky import clear_of_slab, clear_of_walls, open_half_angle_deg, profile_angle_deg

SOUTH = Plane(tilt_deg=90, azimuth_deg=180)


def wall(side, distance_m, reaches_out_m):
    return SideWall(side=side, distance_m=distance_m, reaches_out_m=reaches_out_m)


def test_the_profile_angle_is_that_of_the_slabs_edge_above_the_panels_upper_edge():
    assert profile_angle_deg(Overhang(above_top_edge_m=1.0, reaches_out_m=1.0)) == pytest.approx(45.0)
    assert profile_angle_deg(Overhang(above_top_edge_m=0.0, reaches_out_m=0.5)) == 0.0
    assert profile_angle_deg(Overhang(above_top_edge_m=0.0, reaches_out_m=0.0)) == 90.0


def test_a_slab_cuts_the_beam_above_its_profile_angle():
    slab = Overhang(above_top_edge_m=1.0, reaches_out_m=1.0)
    assert clear_of_slab(slab, SOUTH, [44.0, 46.0], [180.0, 180.0]).tolist() == [False, True]


def test_a_sun_aside_must_stand_lower_to_shine_below_a_long_slab():
    slab = Overhang(above_top_edge_m=1.0, reaches_out_m=1.0)
    # tan(profile angle) = tan(height) / cos(angle from the front); at 60 deg aside the edge lies at atan(1/2) = 26.57.
    height = np.array([26.0, 27.0])
    assert clear_of_slab(slab, SOUTH, 90.0 - height, [240.0, 240.0]).tolist() == [True, False]


def test_no_sun_comes_from_behind_a_slab():
    for slab in (Overhang(above_top_edge_m=5.0, reaches_out_m=0.1), Overhang(above_top_edge_m=0.0, reaches_out_m=0.0)):
        assert not clear_of_slab(slab, SOUTH, [60.0], [5.0]).any()


def test_a_slab_that_does_not_reach_out_leaves_the_sun_in_front():
    assert clear_of_slab(Overhang(above_top_edge_m=0.0, reaches_out_m=0.0), SOUTH, [1.0], [180.0]).all()


def test_left_and_right_are_as_one_looks_out():
    # Looking south, the left hand points east.
    left = (wall("left", 1.0, 1.0),)
    assert clear_of_walls(left, SOUTH, [60.0, 60.0, 60.0], [134.0, 136.0, 226.0]).tolist() == [False, True, True]
    right = (wall("right", 1.0, 1.0),)
    assert clear_of_walls(right, SOUTH, [60.0, 60.0, 60.0], [134.0, 224.0, 226.0]).tolist() == [True, True, False]
    west = Plane(tilt_deg=90, azimuth_deg=270)
    assert clear_of_walls(left, west, [60.0, 60.0], [224.0, 226.0]).tolist() == [False, True]


def test_the_nearest_wall_of_a_side_counts():
    walls = (wall("left", 2.0, 1.0), wall("left", 0.5, 0.5), wall("right", 1.0, 0.0))
    assert open_half_angle_deg(walls, "left") == pytest.approx(45.0)
    assert open_half_angle_deg(walls, "right") == 90.0
    assert open_half_angle_deg((), "left") == 180.0


def test_a_wall_touching_the_panel_hides_its_whole_side():
    assert not clear_of_walls((wall("left", 0.0, 1.0),), SOUTH, [60.0], [179.0]).any()


def test_a_wall_in_the_east_takes_the_morning_and_one_in_the_west_the_afternoon():
    """Looking out to the south, east is on the left. Sun 70 deg aside of south, walls cut from 45 deg on."""
    morning_and_afternoon = ([60.0, 60.0], [110.0, 250.0])
    left, right = ([wall(side, 1.0, 1.0)] for side in ("left", "right"))
    assert clear_of_walls(left, SOUTH, *morning_and_afternoon).tolist() == [False, True]
    assert clear_of_walls(right, SOUTH, *morning_and_afternoon).tolist() == [True, False]
