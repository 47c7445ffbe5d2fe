"""Closed forms: with t the tilt and p the profile angle, a long slab leaves (cos t - cos(p + t)) / 2 of an even sky."""

import numpy as np
import pytest

from service.core.model.place import HandRail, Overhang, RowInFront, SideWall, SkylinePoint
from service.core.sky import sky_seen
from service.core.sky.cell_layout import Places, Rows
from service.core.sky.dome import sky_behind
from service.core.sky.in_front import InFront

FULL_SKY = 1.0


def under_slab(tilt_deg, profile_deg):
    slab = Overhang(above_top_edge_m=float(np.tan(np.radians(profile_deg))), reaches_out_m=1.0)
    return float(sky_seen(tilt_deg, 180.0, (), slab, ()).after_overhang_share[0])


def level_skyline(height_deg):
    return tuple(SkylinePoint(azimuth_deg=a, height_deg=height_deg) for a in (0, 120, 240))


def by_brute_force(tilt_deg, hidden, steps=1440):
    """Share of an even sky by summing small pieces of the dome that ``hidden`` (height, angle from front) leaves."""
    height = (np.arange(steps // 4) + 0.5) / (steps // 4) * np.pi / 2.0
    front = (np.arange(steps) + 0.5) / steps * 2.0 * np.pi - np.pi
    h, a = np.meshgrid(height, front, indexing="ij")
    tilt = np.radians(tilt_deg)
    cosine = np.maximum(np.sin(h) * np.cos(tilt) + np.cos(h) * np.sin(tilt) * np.cos(a), 0.0)
    piece = cosine * np.cos(h) * (np.pi / 2.0 / (steps // 4)) * (2.0 * np.pi / steps)
    return float(piece[~hidden(np.degrees(h), np.degrees(a))].sum() / np.pi)


@pytest.mark.parametrize("profile_deg", [5, 30, 45, 60, 85])
def test_an_upright_plane_under_a_long_slab_sees_half_the_sine_of_its_profile_angle(profile_deg):
    assert under_slab(90.0, profile_deg) == pytest.approx(np.sin(np.radians(profile_deg)) / 2.0, abs=1e-4)


def test_thirty_degrees_leave_a_quarter_of_an_even_sky_out_of_a_half():
    assert under_slab(90.0, 30.0) == pytest.approx(0.25, abs=1e-4)


@pytest.mark.parametrize("tilt_deg", [10.0, 35.0, 60.0, 80.0])
@pytest.mark.parametrize("profile_deg", [20.0, 45.0, 80.0])
def test_a_tilted_plane_under_a_long_slab_sees_the_wedge_between_horizon_and_edge(tilt_deg, profile_deg):
    t, p = np.radians(tilt_deg), np.radians(profile_deg)
    assert under_slab(tilt_deg, profile_deg) == pytest.approx((np.cos(t) - np.cos(p + t)) / 2.0, abs=1e-4)


@pytest.mark.parametrize("height_deg", [0.0, 10.0, 40.0])
def test_a_level_skyline_takes_sine_squared_of_its_height_from_a_flat_plane(height_deg):
    seen = sky_seen(0.0, 180.0, level_skyline(height_deg), None, ())
    assert seen.after_skyline_share[0] == pytest.approx(1.0 - np.sin(np.radians(height_deg)) ** 2, abs=1e-4)
    assert seen.bare_share[0] == FULL_SKY


@pytest.mark.parametrize("angle_deg", [20.0, 45.0, 73.3])
def test_a_wall_beside_an_upright_plane_leaves_the_view_up_to_its_edge(angle_deg):
    wall = SideWall(side="left", distance_m=float(np.tan(np.radians(angle_deg))), reaches_out_m=1.0)
    share = sky_seen(90.0, 180.0, (), None, (wall,)).after_overhang_share[0]
    assert share == pytest.approx((1.0 + np.sin(np.radians(angle_deg))) / 4.0, abs=2e-4)


def test_a_slab_a_wall_and_a_hill_together_are_counted_once_where_they_overlap():
    slab = Overhang(above_top_edge_m=1.6, reaches_out_m=0.9)
    wall = SideWall(side="right", distance_m=0.5, reaches_out_m=1.0)
    hill = level_skyline(15.0)

    def hidden(height, front):
        edge = np.degrees(np.arctan(1.6 / 0.9 * np.maximum(np.cos(np.radians(front)), 0.0)))
        return (height < 15.0) | (height > edge) | (front > np.degrees(np.arctan(0.5)))

    seen = sky_seen(70.0, 200.0, hill, slab, (wall,))
    assert seen.after_overhang_share[0] == pytest.approx(by_brute_force(70.0, hidden), abs=1e-3)


@pytest.mark.parametrize(("wall_side", "hidden_by_the_wall"), [("left", "east"), ("right", "west")])
def test_a_hill_behind_a_side_wall_takes_nothing_more(wall_side, hidden_by_the_wall):
    """Looking out to the south, east is on the left. A wall to the right angle hides all of its side."""
    slopes = {"east": (1, 5, 175, 179), "west": (181, 185, 355, 359)}
    wall = SideWall(side=wall_side, distance_m=0.0, reaches_out_m=1.0)

    def seen(side):
        first, foot, top, last = slopes[side]
        hill = tuple(
            SkylinePoint(azimuth_deg=a, height_deg=h) for a, h in ((first, 0), (foot, 60), (top, 60), (last, 0))
        )
        return float(sky_seen(90.0, 180.0, hill, None, (wall,)).after_overhang_share[0])

    quarter = float(sky_seen(90.0, 180.0, (), None, (wall,)).after_overhang_share[0])
    other = {"east": "west", "west": "east"}[hidden_by_the_wall]
    assert quarter == pytest.approx(0.25, abs=1e-3)
    assert seen(hidden_by_the_wall) == pytest.approx(quarter, abs=5e-3)
    assert seen(other) < 0.5 * quarter


def test_many_planes_at_once_see_what_each_sees_alone():
    hill = (SkylinePoint(azimuth_deg=90, height_deg=20), SkylinePoint(azimuth_deg=200, height_deg=2))
    slab = Overhang(above_top_edge_m=1.0, reaches_out_m=0.5)
    together = sky_seen([30.0, 90.0], [100.0, 250.0], hill, slab, ())
    for at, (tilt, azimuth) in enumerate([(30.0, 100.0), (90.0, 250.0)]):
        alone = sky_seen(tilt, azimuth, hill, slab, ())
        assert together.after_skyline_share[at] == alone.after_skyline_share[0]
        assert together.after_overhang_share[at] == alone.after_overhang_share[0]


def test_without_obstacles_the_share_is_exact():
    seen = sky_seen([0.0, 90.0], 10.0, (), None, ())
    assert seen.after_overhang_share.tolist() == [1.0, 0.5]


def test_a_flat_panel_sees_the_same_sky_however_it_is_turned_before_a_facade():
    slab = Overhang(above_top_edge_m=1.0, reaches_out_m=0.8)
    wall = SideWall(side="left", distance_m=0.3, reaches_out_m=1.0)
    seen = sky_seen([0.0] * 5, [0.0, 77.5, 140.0, 200.2, 359.9], (), slab, (wall,), 140.0).after_overhang_share
    assert seen == pytest.approx(seen[2], abs=1e-3)


@pytest.mark.parametrize("turned", [-120.0, -35.0, 0.0, 35.0, 160.0])
def test_a_panel_turned_before_its_facade_sees_what_slab_and_wall_leave_of_its_own_sky(turned):
    slab = Overhang(above_top_edge_m=1.6, reaches_out_m=0.9)
    wall = SideWall(side="right", distance_m=0.5, reaches_out_m=1.0)

    def hidden(height, front):
        out = (front + turned + 180.0) % 360.0 - 180.0
        edge = np.degrees(np.arctan(1.6 / 0.9 * np.maximum(np.cos(np.radians(out)), 0.0)))
        return (height > edge) | (out > np.degrees(np.arctan(0.5)))

    seen = sky_seen(50.0, 150.0 + turned, (), slab, (wall,), 150.0)
    assert seen.after_overhang_share[0] == pytest.approx(by_brute_force(50.0, hidden), abs=1e-3)


@pytest.mark.parametrize("turned", [0.0, 35.0])
def test_what_slab_wall_rail_and_row_hide_counts_once_where_they_overlap(turned):
    """From a place 0.2 m down a panel 1 m long; rail and row turn with it, slab and wall stay."""
    slab, wall = (
        Overhang(above_top_edge_m=0.6, reaches_out_m=0.9),
        SideWall(side="right", distance_m=0.5, reaches_out_m=1),
    )
    rail, row = (
        HandRail(above_top_edge_m=0.1, distance_m=0.5, thickness_m=0.2),
        RowInFront(above_bottom_edge_m=1.0, distance_m=1.0),
    )
    down, tilt = 0.2, np.radians(70.0)
    lower, upper = (0.1 + down * np.sin(tilt) + thick for thick in (0.0, 0.2))
    to_rail, to_row = 0.5 - down * np.cos(tilt), 1.0 + 0.8 * np.cos(tilt)

    def hidden(height, front):
        out = (front + turned + 180.0) % 360.0 - 180.0
        h, ahead, from_facade = (
            np.radians(height),
            np.cos(np.radians(front)),
            np.maximum(np.cos(np.radians(out)), 0.0),
        )
        reach = 0.9 - down * np.cos(tilt) * np.cos(np.radians(turned))
        under = np.tan(h) * reach > (0.6 + down * np.sin(tilt)) * from_facade
        by_rail = (ahead > 0) & (np.tan(h) * to_rail > lower * ahead) & (np.tan(h) * to_rail < upper * ahead)
        by_row = (ahead > 0) & (np.tan(h) * to_row < (1.0 - 0.8 * np.sin(tilt)) * ahead)
        level, turn = down * np.cos(tilt), np.radians(turned)
        past_wall = np.degrees(np.arctan2(0.5 - level * np.sin(turn), 1.0 - level * np.cos(turn)))
        return under | by_rail | by_row | (out > past_wall)

    before = InFront(rail=rail, row=row, rows=Rows((down,) * 6, halves=False, cut=False), slope_m=1.0)
    places = Places((down,), ((0.0, 0.0),), ((0,),))
    seen = sky_seen(70.0, 150.0 + turned, (), slab, (wall,), 150.0, places, before)
    assert seen.past_all_share[0] == pytest.approx([by_brute_force(70.0, hidden)] * 3, abs=1e-3)
    assert seen.past_all_share[0, 0] < seen.after_overhang_share[0]


@pytest.mark.parametrize("height_deg", [0.0, 15.0, 40.0, 75.0])
def test_past_a_level_skyline_an_upright_rear_sees_half_the_sky_less_a_closed_form(height_deg):
    h = np.radians(height_deg)
    wanted = 0.5 - (h + np.sin(h) * np.cos(h)) / np.pi
    assert sky_behind(90.0, 180.0, level_skyline(height_deg))[0] == pytest.approx(wanted, abs=1e-4)


@pytest.mark.parametrize("tilt_deg", [0.0, 20.0, 50.0, 90.0])
def test_a_rear_sees_what_pieces_of_the_dome_behind_it_leave_past_an_uneven_skyline(tilt_deg):
    """The rear of a south plane is one that faces north and leans over: 180 less its tilt, by the same pieces."""
    around = (SkylinePoint(azimuth_deg=0, height_deg=40), SkylinePoint(azimuth_deg=120, height_deg=5))
    behind = (SkylinePoint(azimuth_deg=240, height_deg=15),)
    ring_deg, ring = [-120.0, 0.0, 120.0, 240.0], [15.0, 40.0, 5.0, 15.0]
    wanted = by_brute_force(180.0 - tilt_deg, lambda h, a: h < np.interp(a % 360.0, ring_deg, ring) * (a % 360 <= 240)
                            + np.interp(a % 360.0 - 360.0, ring_deg, ring) * (a % 360 > 240))  # fmt: skip
    assert sky_behind(tilt_deg, 180.0, (*around, *behind))[0] == pytest.approx(wanted, abs=5e-4)


def test_a_skyline_in_front_alone_takes_nothing_from_an_upright_rear():
    edge = [
        SkylinePoint(azimuth_deg=azimuth, height_deg=height)
        for azimuth, height in ((90, 0), (90, 60), (270, 60), (270, 0))
    ]
    assert sky_behind(90.0, 180.0, edge)[0] == pytest.approx(0.5, abs=1e-4)
    assert sky_behind(90.0, 0.0, edge)[0] < 0.1
