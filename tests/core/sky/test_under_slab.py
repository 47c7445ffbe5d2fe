"""What slab and side walls leave of a panel's light, by hand: by rows, halves and sections, and of the sky."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.model.place import HandRail, Overhang, Plane, SideWall
from service.core.sky import PlaneLight, after_shading, plane_light
from service.core.sky.daylight import open_surroundings
from service.core.sky.edge_shadow import ways_past_edges
from service.core.sky.incidence import direction
from tests import builders
from tests.skies import mixed_year, overcast

SKY = mixed_year(54.2, 12.3)
LOOKS_DEG = 150.0
UPRIGHT = Plane(tilt_deg=90, azimuth_deg=LOOKS_DEG)


def panel(**changes):
    """1.722 by 1.134 m, of a number of cells that fits no six columns: 17 cm are taken as a cell's pitch."""
    return builders.panel(**{"cells_in_series": 40, **changes})


def array(**changes):
    return builders.array(**{"panel": panel(), **changes})


# 1.722 m by 1.134 m: halves begin 0.02 and 0.861 m under the upper edge, sections are 0.3647 m wide.
WHOLE, HALF = panel(half_cells=False), panel(half_cells=True)


def slab(above_m, reaches_m):
    return Overhang(above_top_edge_m=above_m, reaches_out_m=reaches_m)


def left_wall(distance_m, reaches_m):
    return (SideWall(side="left", distance_m=distance_m, reaches_out_m=reaches_m),)


def lost_share(one, height_deg=45.0, aside_deg=0.0, beam_share=1.0):
    """What a panel's edges take of its light, of which so much comes from a sun so far to the right of straight out."""
    sun = direction(np.array([90.0 - height_deg]), np.array([LOOKS_DEG + aside_deg]))
    ways = ways_past_edges(one, np.array([one.plane.tilt_deg]), np.array([one.plane.azimuth_deg]), sun)
    shading = replace(open_surroundings(1).shading, ways_past_bands=ways)
    return 1.0 - float(after_shading(np.ones((1, 1)), np.full((1, 1), beam_share), shading)[0, 0])


def year(**changes) -> PlaneLight:
    return plane_light(SKY, array(**changes), 0.2)


def under(**changes):
    return float(year(**changes).after_overhang_w_per_m2.sum())


@pytest.mark.parametrize(
    ("cells", "orientation", "lost"),
    [(WHOLE, "upright", 0.05 / 0.17), (HALF, "upright", 0.05 / 0.17), (WHOLE, "lengthwise", 0.05 / 0.17)],
)
def test_a_shadow_over_5_cm_of_the_top_row_costs_what_it_covers_of_it(cells, orientation, lost):
    """Of a half cell's 8.5 cm that is twice as much, in one of two halves."""
    one = array(plane=UPRIGHT, overhang=slab(0.0, 0.07), orientation=orientation, panel=cells)
    assert lost_share(one) == pytest.approx(lost)


@pytest.mark.parametrize(
    ("cells", "orientation", "lost"),
    [(WHOLE, "upright", 1.0), (HALF, "upright", 0.5), (WHOLE, "lengthwise", 1 / 3), (HALF, "lengthwise", 1 / 3)],
)
def test_a_shadow_over_some_rows_costs_a_half_a_section_or_the_whole_string(cells, orientation, lost):
    one = array(plane=UPRIGHT, overhang=slab(0.0, 0.3), orientation=orientation, panel=cells)
    assert lost_share(one) == pytest.approx(lost)
    assert lost_share(one, beam_share=0.2) == pytest.approx(min(lost, 1.0) * 0.2 if orientation == "upright" else 0.2)


@pytest.mark.parametrize(
    ("reaches_m", "lost"),
    [
        (0.05, 0.03 / 0.17),
        (0.3, 1 / 3),
        (0.02 + 1.094 / 3 + 0.05, 1 / 3 + 2 / 3 * 0.05 / 0.17),
        (0.7, 2 / 3),
        (1.2, 1.0),
    ],
)  # fmt: skip
@pytest.mark.parametrize("cells", [WHOLE, HALF])
def test_beside_an_upright_panel_sections_fall_one_after_the_other(cells, reaches_m, lost):
    """45 degrees to the left the wall's shadow reaches as far in as the wall reaches out."""
    one = array(plane=UPRIGHT, side_walls=left_wall(0.0, reaches_m), panel=cells)
    assert lost_share(one, 30.0, -45.0) == pytest.approx(lost)
    assert lost_share(one, 30.0, 45.0) == 0.0
    mirrored = replace(one, side_walls=(replace(one.side_walls[0], side="right"),))
    assert lost_share(mirrored, 30.0, 45.0) == pytest.approx(lost)


@pytest.mark.parametrize(("cells", "lost"), [(WHOLE, 1.0), (HALF, 0.5)])
def test_beside_a_lengthwise_panel_one_half_falls_or_all_whole_cells(cells, lost):
    one = array(plane=UPRIGHT, side_walls=left_wall(0.0, 0.3), orientation="lengthwise", panel=cells)
    assert lost_share(one, 30.0, -45.0) == pytest.approx(lost)


def test_where_a_slabs_and_a_walls_shadow_cross_a_cell_keeps_what_neither_covers():
    """The sun 45 degrees to the left, its profile angle 45 degrees: 5 of 17 cm of the top row, 3.4 of a column."""
    height = np.degrees(np.arctan(np.cos(np.radians(45.0))))
    one = array(plane=UPRIGHT, overhang=slab(0.0, 0.07), side_walls=left_wall(0.0, 0.054), panel=WHOLE)
    row, column = 0.05 / 0.17, 0.2
    assert lost_share(one, height, -45.0) == pytest.approx(1.0 - (1.0 - row) * (1.0 - column))


@pytest.mark.parametrize("cells", [WHOLE, HALF])
@pytest.mark.parametrize(("distance_m", "thickness_m", "reaches_m"), [(0.06, 0.03, 0.07), (0.08, 0.04, 0.08)])
def test_a_rail_whose_shadow_joins_the_slabs_covers_what_both_cover_once(distance_m, thickness_m, reaches_m, cells):
    rail = HandRail(above_top_edge_m=0.0, distance_m=distance_m, thickness_m=thickness_m)
    one = array(plane=UPRIGHT, overhang=slab(0.0, 0.07), panel=cells, hand_rail=rail)
    alone = replace(one, hand_rail=None, overhang=slab(0.0, reaches_m))
    assert lost_share(one) == pytest.approx(lost_share(alone))


@pytest.mark.parametrize(("distance_m", "lost"), [(0.2, 0.5), (0.92, 0.5 + 0.5 * 0.05 / 0.085)])
def test_a_rail_in_the_shadow_of_a_slab_takes_nothing_more_and_one_over_the_other_half_adds_its_own(distance_m, lost):
    rail = HandRail(above_top_edge_m=0.0, distance_m=distance_m, thickness_m=0.05)
    one = array(plane=UPRIGHT, overhang=slab(0.0, 0.3), panel=HALF, hand_rail=rail)
    assert lost_share(one) == pytest.approx(lost)


@pytest.mark.parametrize("tilt_deg", [0.0, 30.0, 90.0])
def test_a_slab_or_a_wall_that_does_not_reach_out_is_as_none_however_the_panel_leans(tilt_deg):
    bare = {"plane": Plane(tilt_deg=tilt_deg, azimuth_deg=LOOKS_DEG), "panel": HALF}
    assert under(**bare, overhang=slab(0.0, 0.0)) == under(**bare, side_walls=left_wall(0.1, 0.0)) == under(**bare)


@pytest.mark.parametrize("reaches_m", [1e-9, 1e-5])
def test_a_slab_and_walls_that_hardly_reach_out_leave_what_the_facade_behind_them_leaves(reaches_m):
    """By hand (cos t + sin t) / 2 of it at the tilt t, for behind is the facade, without end.

    So an upright panel keeps all of its half, and nothing jumps where the reach goes to nought; one that leans by 30
    degrees keeps 0.73 of its sky and a flat one half, whatever is told to reach out a little, for the house is there.
    """
    walls = (*left_wall(0.5, reaches_m), SideWall(side="right", distance_m=0.5, reaches_out_m=reaches_m))
    for around in ({"overhang": slab(1.0, reaches_m)}, {"side_walls": walls}):
        seen = [
            plane_light(
                overcast(SKY), array(plane=replace(UPRIGHT, tilt_deg=tilt), panel=HALF, **around), 0.0
            ).after_overhang_w_per_m2.sum()
            for tilt in (90.0, 60.0, 30.0, 0.0)
        ]
        tilts = np.radians([90.0, 60.0, 30.0, 0.0])
        by_hand = (np.cos(tilts) + np.sin(tilts)) / 2.0
        assert np.array(seen) / SKY.ghi_w_per_m2.sum() == pytest.approx(by_hand, abs=2e-4)


def test_an_upright_panel_keeps_its_year_as_the_reach_of_slab_and_walls_goes_to_nought():
    bare = under(plane=UPRIGHT, panel=HALF)
    for reaches_m in (1e-3, 1e-6):
        walls = (*left_wall(0.5, reaches_m), SideWall(side="right", distance_m=0.5, reaches_out_m=reaches_m))
        hardly = under(plane=UPRIGHT, panel=HALF, overhang=slab(0.5, reaches_m), side_walls=walls)
        assert hardly == pytest.approx(bare, rel=2.0 * reaches_m + 2e-4)


def test_under_a_slab_without_end_there_is_no_sun_and_no_sky():
    light = plane_light(SKY, array(plane=UPRIGHT, overhang=slab(0.0, 1e9)), 0.0)
    assert light.after_overhang_w_per_m2.sum() == pytest.approx(0.0, abs=1e-3)


@pytest.mark.parametrize("reaches_m", [0.05, 0.1, 0.3])
@pytest.mark.parametrize("cells", [WHOLE, HALF])
def test_a_slab_takes_of_the_sun_what_a_rail_of_its_shape_takes(reaches_m, cells):
    """A rail so thick that its shadow goes on beyond the panel's upper edge."""
    rail = HandRail(above_top_edge_m=0.0, distance_m=reaches_m, thickness_m=50.0)
    for height in (10.0, 30.0, 55.0):
        for aside in (0.0, -50.0):
            by_slab = lost_share(array(plane=UPRIGHT, panel=cells, overhang=slab(0.0, reaches_m)), height, aside)
            by_rail = lost_share(array(plane=UPRIGHT, panel=cells, hand_rail=rail), height, aside)
            assert by_slab == pytest.approx(by_rail, abs=1e-9)


def test_a_shallow_slab_right_above_leaves_most_of_the_year():
    """It once took nine tenths of it, as much as a shadow over all of the panel."""
    bare = under(plane=UPRIGHT, panel=HALF)
    by_rail = float(
        year(
            plane=UPRIGHT,
            panel=HALF,
            hand_rail=HandRail(above_top_edge_m=0.0, distance_m=0.05, thickness_m=5.0),
        ).after_shade_w_per_m2.sum()
    )
    shallow = under(plane=UPRIGHT, panel=HALF, overhang=slab(0.0, 0.05))
    assert 0.8 * bare < shallow < by_rail < bare
    assert by_rail - shallow < 0.05 * bare  # the sky, of which a rail takes nothing


def sky_under(above_m, reaches_m, cells, plane=UPRIGHT, **changes):
    light = plane_light(
        overcast(SKY), array(plane=plane, panel=cells, overhang=slab(above_m, reaches_m), **changes), 0.0
    )
    return float(light.after_overhang_w_per_m2.sum() / SKY.ghi_w_per_m2.sum())


@pytest.mark.parametrize(
    ("cells", "orientation", "places_m"),
    [
        (WHOLE, "upright", (0.0625, 0.1475)),
        (HALF, "upright", (0.0625, 0.861 + 0.0425)),
        (WHOLE, "lengthwise", (0.0625, 0.1475)),
        (HALF, "lengthwise", (0.0625, 0.1475)),
    ],
)
@pytest.mark.parametrize(("above_m", "reaches_m"), [(0.0, 0.05), (0.2, 0.3), (1.0, 3.0**0.5)])
def test_an_upright_panel_sees_half_the_sine_of_the_profile_angle_from_its_darkest_rows(
    cells, orientation, places_m, above_m, reaches_m
):
    """By hand: sin(profile angle) / 2 of an even sky, in the mean of two half rows of cells that share a string."""
    sines = [np.sin(np.arctan2(above_m + down, reaches_m)) for down in places_m]
    assert sky_under(above_m, reaches_m, cells, orientation=orientation) == pytest.approx(
        np.mean(sines) / 2.0, abs=1e-4
    )


def test_far_under_a_long_slab_it_is_half_the_sine_of_the_slabs_profile_angle():
    assert sky_under(100.0, 100.0 * 3.0**0.5, HALF) == pytest.approx(0.25, abs=2e-3)


@pytest.mark.parametrize(
    ("cells", "orientation", "places_m"),
    [
        (WHOLE, "upright", (0.0625, 0.1475)),
        (HALF, "upright", (0.0625, 0.1475)),
        (WHOLE, "lengthwise", (0.0625, 0.1475)),
        (HALF, "lengthwise", (0.0625, 0.861 + 0.0425)),
    ],
)
def test_beside_a_wall_an_upright_plane_sees_the_sky_up_to_its_edge_from_its_darkest_columns(
    cells, orientation, places_m
):
    """By hand: (1 + sin a) / 4 of an even sky, where the wall leaves the angle a from straight out."""
    one = array(plane=UPRIGHT, panel=cells, orientation=orientation, side_walls=left_wall(0.1, 0.5))
    sines = [np.sin(np.arctan2(0.1 + inwards, 0.5)) for inwards in places_m]
    seen = plane_light(overcast(SKY), one, 0.0).after_overhang_w_per_m2.sum() / SKY.ghi_w_per_m2.sum()
    assert seen == pytest.approx((1.0 + np.mean(sines)) / 4.0, abs=2e-4)


def test_between_two_walls_the_darker_end_of_a_string_counts_and_each_half_has_its_own():
    """Of an upright panel 1.134 m wide, from its left end: by hand (sin a + sin b) / 4, the right wall further away."""
    walls = (*left_wall(0.1, 0.5), SideWall(side="right", distance_m=0.4, reaches_out_m=0.5))
    left, right = (np.array(places) for places in ((0.0625, 0.1475), (1.134 - 0.0625, 1.134 - 0.1475)))
    seen = [
        plane_light(overcast(SKY), array(plane=UPRIGHT, orientation=turned, panel=cells, side_walls=walls), 0.0)
        .after_overhang_w_per_m2.sum() / SKY.ghi_w_per_m2.sum()
        for turned, cells in (("upright", HALF), ("lengthwise", HALF), ("lengthwise", WHOLE))
    ]  # fmt: skip

    def sine(metres):
        return np.sin(np.arctan2(metres, 0.5))

    assert seen[0] == pytest.approx(np.mean(sine(0.1 + left) + sine(0.4 + right)) / 4.0, abs=3e-4)
    ends = [sine(0.1 + 0.0625) + sine(0.4 + 1.722 - 0.0625), sine(0.1 + 1.722 - 0.0625) + sine(0.4 + 0.0625)]
    assert seen[1] == pytest.approx(np.mean(ends) / 4.0, abs=3e-4)
    assert seen[2] < seen[1]


def test_what_slab_and_walls_take_is_told_apart_from_what_a_rail_takes():
    rail = HandRail(above_top_edge_m=0.0, distance_m=0.1, thickness_m=0.05)
    alone = year(plane=UPRIGHT, overhang=slab(0.3, 0.4))
    both = year(plane=UPRIGHT, overhang=slab(0.3, 0.4), hand_rail=rail)
    assert both.after_overhang_w_per_m2 == pytest.approx(alone.after_overhang_w_per_m2)
    assert alone.after_shade_w_per_m2 == pytest.approx(alone.after_overhang_w_per_m2)
    assert both.after_shade_w_per_m2.sum() < 0.999 * alone.after_shade_w_per_m2.sum()
