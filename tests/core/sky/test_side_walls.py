"""How far over the panel a side wall's shadow reaches: by hand, and by rays from points on a panel that is turned."""

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from service.core.model.place import SideWall
from service.core.sky import open_half_angle_deg
from service.core.sky.side_walls import face_of, may_reach, stands, wall_shadows_m

ACROSS_M, DOWN_M = 1.1, 1.7
turns = st.floats(-85, 85)
tilts = st.floats(0, 90)
heights, asides = st.floats(1, 89), st.floats(-180, 180)
walls = st.builds(
    SideWall, side=st.sampled_from(["left", "right"]), distance_m=st.floats(0, 2), reaches_out_m=st.floats(0.05, 3)
)


def wall(side, distance_m, reaches_out_m):
    return SideWall(side=side, distance_m=distance_m, reaches_out_m=reaches_out_m)


def to_sun(height_deg, aside_deg):
    """Out of the facade and to the right, of a sun so far to the right of straight out."""
    height, aside = np.radians(height_deg), np.radians(aside_deg)
    return np.cos(height) * np.cos(aside), np.cos(height) * np.sin(aside)


def shadow_m(walls, side, height_deg, aside_deg, tilt_deg=90.0, turned_deg=0.0, ends_m=(0.0, DOWN_M)):
    out, right = (np.array([one]) for one in to_sun(height_deg, aside_deg))
    panels = stands(tilt_deg, turned_deg, ACROSS_M)
    reach = wall_shadows_m(walls, panels, ends_m, out, right)[("left", "right").index(side)]
    return 0.0 if reach is None else float(np.maximum(reach, 0.0)[0, 0])


def hidden_by_rays(one, tilt_deg, turned_deg, height_deg, aside_deg, down, aside):
    """Is the sun hidden from points so far down and to the right of the middle? The wall stands still."""
    out, right = to_sun(height_deg, aside_deg)
    tilt, turned = np.radians(tilt_deg), np.radians(turned_deg)
    lies_out = down * np.cos(tilt) * np.cos(turned) - aside * np.sin(turned)
    lies_right = down * np.cos(tilt) * np.sin(turned) + aside * np.cos(turned)
    sign = 1.0 if one.side == "right" else -1.0
    if sign * right <= 1e-12:
        return np.zeros(np.broadcast_shapes(np.shape(down), np.shape(aside)), bool)
    away = ACROSS_M / 2 + one.distance_m - sign * lies_right
    length = away / (sign * right)  # of the ray, to the plane of the wall
    return (lies_out + length * out < one.reaches_out_m) & (away > 0.0)


def test_left_and_right_are_as_one_looks_out():
    """45 degrees to the left a wall on the left shades as far in as it reaches out, less its distance."""
    left, right = [wall("left", 0.1, 0.4)], [wall("right", 0.1, 0.4)]
    assert shadow_m(left, "left", 30.0, -45.0) == pytest.approx(0.3)
    assert shadow_m(right, "right", 30.0, 45.0) == pytest.approx(0.3)
    for walls, side, aside in ((left, "left", 45.0), (left, "right", -45.0), (right, "right", -45.0)):
        assert shadow_m(walls, side, 30.0, aside) == 0.0


def test_how_high_the_sun_stands_makes_no_difference_to_a_wall():
    walls = [wall("left", 0.0, 0.5)]
    assert shadow_m(walls, "left", 10.0, -30.0) == pytest.approx(shadow_m(walls, "left", 70.0, -30.0))


def test_the_nearest_wall_of_a_side_counts():
    walls = (wall("left", 2.0, 1.0), wall("left", 0.5, 0.5), wall("right", 1.0, 0.0))
    assert shadow_m(walls, "left", 30.0, -60.0) == pytest.approx(0.5 * np.sqrt(3.0) - 0.5)
    assert open_half_angle_deg(walls, "left") == pytest.approx(45.0)
    assert open_half_angle_deg(walls, "right") == 90.0
    assert open_half_angle_deg((), "left") == 180.0


def test_from_further_in_one_sees_further_past_a_wall():
    walls = [wall("left", 0.5, 1.0)]
    assert open_half_angle_deg(walls, "left", 0.5) == pytest.approx(45.0)


def test_a_wall_hides_the_sun_behind_the_facade_on_its_side_alone():
    walls = [wall("left", 3.0, 0.1)]
    assert shadow_m(walls, "left", 30.0, -100.0) == np.inf
    assert shadow_m(walls, "left", 30.0, 100.0) == 0.0


@pytest.mark.parametrize(("turned_deg", "inwards_m"), [(30.0, 0.6598), (-30.0, 0.9598)])
def test_over_a_turned_upright_panel_the_shadow_ends_where_the_ray_past_the_walls_front_meets_it(turned_deg, inwards_m):
    """By hand, the sun at 45 degrees, a wall on the right 0.1 m away and 0.8 m out, so 0.65 m aside of the middle.

    Turned by the angle t to it, a point x metres right of the middle lies x sin t behind it and x cos t aside. The ray
    past the wall's front meets it where 0.8 + x sin t = 0.65 - x cos t: at 30 degrees 0.1098 m left of the middle, so
    0.6598 m from the right edge; turned the other way 0.9598 m from it.
    """
    one = [wall("right", 0.1, 0.8)]
    assert shadow_m(one, "right", 30.0, 45.0, turned_deg=turned_deg) == pytest.approx(inwards_m, abs=1e-4)
    mirrored = [wall("left", 0.1, 0.8)]
    assert shadow_m(mirrored, "left", 30.0, -45.0, turned_deg=-turned_deg) == pytest.approx(inwards_m, abs=1e-4)


@example(wall("right", 0.1, 0.8), 60.0, 40.0, 45.0)
@given(walls, turns, heights, asides)
def test_over_an_upright_panel_the_shadow_ends_where_rays_say(one, turned, height, aside):
    inwards = (np.arange(200) + 0.5) / 200 * ACROSS_M  # from the left edge
    by_ray = hidden_by_rays(one, 90.0, turned, height, aside, 0.5, inwards - ACROSS_M / 2)
    left, right = (shadow_m([one], side, height, aside, turned_deg=turned) for side in ("left", "right"))
    dark = (inwards < left) | (inwards > ACROSS_M - right)
    facing = np.cos(np.radians(aside - turned))
    assert abs(facing) < 0.02 or np.abs(dark.mean() - by_ray.mean()) <= 0.005 + 1e-9
    assert abs(facing) < 0.02 or (dark == by_ray).sum() >= 199


@example(wall("right", 0.75, 2.0), 30.0, 30.0, 40.0, 15.0)  # dark at the lower end alone
@given(walls, tilts, turns, heights, asides)
def test_over_a_leaning_panel_no_point_that_rays_find_hidden_lies_outside_the_shadow(one, tilt, turned, height, aside):
    """Of stands that fit beside the wall; and the shadow ends no further in than at the darker of the two ends."""
    down = np.linspace(0.0, DOWN_M, 12)[:, None]
    inwards = (np.arange(100) + 0.5) / 100 * ACROSS_M
    sign = 1.0 if one.side == "right" else -1.0
    corner = max(
        sign * (far * np.cos(np.radians(tilt)) * np.sin(np.radians(turned)) + x * np.cos(np.radians(turned)))
        for far in (0.0, DOWN_M)
        for x in (-ACROSS_M / 2, ACROSS_M / 2)
    )
    if corner >= ACROSS_M / 2 + one.distance_m or abs(np.cos(np.radians(aside - turned))) < 0.02:
        return
    by_ray = hidden_by_rays(one, tilt, turned, height, aside, down, inwards - ACROSS_M / 2)
    left, right = (shadow_m([one], side, height, aside, tilt, turned) for side in ("left", "right"))
    dark = (inwards < left + 1e-9) | (inwards > ACROSS_M - right - 1e-9)
    assert (dark | ~by_ray).all()
    ends = by_ray[[0, -1]].any(axis=0)
    assert np.abs(dark.mean() - ends.mean()) <= 0.0101


@pytest.mark.parametrize(("down_m", "inwards_m"), [(0.0, 0.7), (0.4, 0.5), (1.0, 0.2)])
def test_over_a_leaning_panel_the_shadow_of_a_plumb_edge_is_slanted(down_m, inwards_m):
    """By hand, tilted by 60 degrees, 0.1 m from a wall 0.8 m out, the sun at 45 degrees aside.

    So far down the panel lies half as far out, and the ray past the edge falls on it so much less far in: 0.8 - 0.1
    at the upper edge, 0.8 - 0.2 - 0.1 at 0.4 m. All of the string between two of them lies in the longer shadow.
    """
    for side, aside in (("left", -45.0), ("right", 45.0)):
        one = [wall(side, 0.1, 0.8)]
        assert shadow_m(one, side, 30.0, aside, 60.0, 0.0, (down_m, down_m)) == pytest.approx(inwards_m)
        assert shadow_m(one, side, 30.0, aside, 60.0, 0.0, (down_m, 1.7)) == pytest.approx(inwards_m)


def test_from_further_down_a_leaning_panel_one_sees_further_past_a_wall():
    """Flat, 0.5 m from a wall 1 m out: from 0.5 m down its edge is as far out as aside; from 1 m down it is abreast."""
    panels, walls = stands(0.0, 0.0, ACROSS_M), [wall("left", 0.5, 1.0)]
    seen = [float(open_half_angle_deg(walls, "left", 0.0, panels, (down,))[0, 0]) for down in (0.0, 0.5, 1.0)]
    assert seen == pytest.approx([np.degrees(np.arctan(0.5)), 45.0, 90.0])


@example(wall("right", 0.75, 2.0), 30.0, 30.0, 0.0, 15.0)
@given(walls, tilts, turns, st.floats(0, ACROSS_M), asides)
def test_one_looks_past_the_wall_as_far_as_rays_do_from_the_end_that_sees_less(one, tilt, turned, inwards, aside):
    """``inwards`` from the side next to the wall; rays turned to that side, short of the wall by less or more."""
    sign = 1.0 if one.side == "right" else -1.0
    x = sign * (ACROSS_M / 2 - inwards)
    to_wall = [
        ACROSS_M / 2 + one.distance_m
        - sign * (far * np.cos(np.radians(tilt)) * np.sin(np.radians(turned)) + x * np.cos(np.radians(turned)))
        for far in (0.0, DOWN_M)
    ]  # fmt: skip
    ends = (0.0, DOWN_M)
    edge = float(open_half_angle_deg([one], one.side, inwards, stands(tilt, turned, ACROSS_M), ends)[0, 0])
    if min(to_wall) <= 0.01 or not 1.0 < edge < 89.0:
        return
    ends = np.array(ends)
    free = ~hidden_by_rays(one, tilt, turned, 20.0, sign * (edge - 0.1), ends, x)
    hidden = hidden_by_rays(one, tilt, turned, 20.0, sign * (edge + 0.1), ends, x)
    assert free.all()
    assert hidden.any()


def test_of_a_panel_that_would_go_through_a_wall_as_much_counts_as_fits_before_it():
    """Flat and turned by 45 degrees its right edge meets the wall 0.211 / sin 45 = 0.2986 m down.

    There 0.05 m and what the turn takes off its half width, 0.55 (1 - cos 45) = 0.161, are used up.
    """
    out, right = (np.array([one]) for one in to_sun(30.0, 20.0))
    fits_m = (0.05 + 0.55 * (1.0 - np.sqrt(0.5))) / np.sqrt(0.5)
    long, fits = (
        wall_shadows_m([wall("right", 0.05, 1.0)], stands(0.0, 45.0, ACROSS_M), (0.0, down), out, right)[1]
        for down in (DOWN_M, fits_m)
    )
    assert long == pytest.approx(fits)
    assert 0.0 < long < ACROSS_M


@example(wall("right", 0.1, 0.8), 90.0, 0.0, 30.0, 45.0)
@example(wall("right", 0.0, 1.2), 0.0, 0.0, 30.0, 60.0)  # the upper end all dark, the lower one free
@given(walls, tilts, st.floats(-180, 180), heights, asides)
def test_what_may_be_reached_bounds_every_plane(one, tilt, turned, height, aside):
    out, right = (np.array([each]) for each in to_sun(height, aside))
    every, any_ = may_reach([one], ACROSS_M, DOWN_M, out, right)[:, 0]
    for ends_m in ((0.0, DOWN_M), (0.0, 0.0), (DOWN_M, DOWN_M)):
        reach = sum(shadow_m([one], side, height, aside, tilt, turned, ends_m) for side in ("left", "right"))
        assert not every or reach >= ACROSS_M * (1 - 1e-6)
        assert any_ or reach <= 1e-6


@example(wall("right", 0.75, 2.0), 30.0, 30.0, 20.0, 40.0)
@given(walls, tilts, st.floats(-180, 180), heights, asides)
def test_where_the_rear_does_not_count_the_front_is_as_dark_as_ever(one, tilt, turned, height, aside):
    out, right = (np.array([each]) for each in to_sun(height, aside))
    panels = stands(tilt, turned, ACROSS_M)
    if np.cos(np.radians(aside - turned)) <= 1e-6:  # behind it
        return
    both = wall_shadows_m([one], panels, (0.1, DOWN_M), out, right, face_of(panels, out, right))
    front = wall_shadows_m([one], panels, (0.1, DOWN_M), out, right, face_of(panels, out, right, rear=False))
    at = ("left", "right").index(one.side)
    assert front[at] == pytest.approx(both[at])
    assert front[1 - at] is both[1 - at] is None


def test_suns_of_each_plane_and_suns_for_all_planes_cast_one_shadow():
    out, right = (np.array(each) for each in zip(*(to_sun(height, 25.0) for height in (5.0, 40.0, 70.0)), strict=True))
    panels = stands([20.0, 60.0], [10.0, -30.0], ACROSS_M)
    one = wall("right", 0.2, 1.5)
    rows = wall_shadows_m([one], panels, (0.1, DOWN_M), out, right)[1]
    each = wall_shadows_m([one], panels, (0.1, DOWN_M), np.tile(out, (2, 1)), np.tile(right, (2, 1)))[1]
    assert rows == pytest.approx(each, rel=1e-12)
