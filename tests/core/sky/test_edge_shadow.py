"""Bands of shadow across a panel's face, by hand: a hand rail above it, a row in front, and which cells they reach."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.model.place import HandRail, Plane, RowInFront, SkylinePoint
from service.core.sky import after_shading, plane_light
from service.core.sky.cell_layout import Parts
from service.core.sky.daylight import open_surroundings
from service.core.sky.edge_shadow import ways_past_edges
from service.core.sky.in_front import in_front_of
from service.core.sky.incidence import direction
from tests import builders
from tests.skies import mixed_year, overcast

SKY = mixed_year(54.2, 12.3)
RAIL = HandRail(above_top_edge_m=0.0, distance_m=0.1, thickness_m=0.05)
TALL_RAIL = replace(RAIL, thickness_m=0.5, distance_m=0.2)


def panel(**changes):
    """1.722 by 1.134 m, of a number of cells that fits no six columns: 17 cm are taken as a cell's pitch."""
    return builders.panel(**{"cells_in_series": 40, **changes})


def array(**changes):
    return builders.array(**{"panel": panel(), **changes})


def lost_share(one, height_deg, azimuth_deg=150.0, beam_share=1.0):
    """The share of a panel's light that bands take, of which so much comes from the sun."""
    sun = direction(np.array([90.0 - height_deg]), np.array([azimuth_deg]))
    tilt, azimuth = np.array([one.plane.tilt_deg]), np.array([one.plane.azimuth_deg])
    shading = replace(open_surroundings(1).shading, ways_past_bands=ways_past_edges(one, tilt, azimuth, sun))
    return 1.0 - float(after_shading(np.ones((1, 1)), np.full((1, 1), beam_share), shading)[0, 0])


def year_light(**changes):
    return float(plane_light(SKY, array(**changes), 0.2).effective_w_per_m2.sum())


@pytest.mark.parametrize("half_cells", [None, False, True])
@pytest.mark.parametrize("orientation", ["lengthwise", "upright"])
def test_a_rail_at_45_degrees_dims_the_top_row_between_5_and_10_cm_under_the_edge(orientation, half_cells):
    """A rail 5 cm thick, 10 cm in front of the upper edge and level with it: 5 of a cell's 17 cm lie in its shadow.

    Of a half cell's 8.5 cm that is twice as much, in one half of an upright panel.
    """
    one = array(hand_rail=RAIL, orientation=orientation, panel=panel(half_cells=half_cells))
    assert lost_share(one, 45.0) == pytest.approx(0.05 / 0.17)
    assert lost_share(one, 45.0, beam_share=0.6) == pytest.approx(0.6 * 0.05 / 0.17)


@pytest.mark.parametrize(
    ("orientation", "half_cells", "share", "under_haze"),
    [
        ("lengthwise", None, 1 / 3, 0.2), ("lengthwise", True, 1 / 3, 0.2),
        ("upright", None, 1.0, 0.2), ("upright", False, 1.0, 0.2), ("upright", True, 1 / 2, 0.1),
    ],
)  # fmt: skip
def test_a_row_of_cells_in_the_shadow_costs_a_section_lengthwise_and_a_half_or_all_upright(
    orientation, half_cells, share, under_haze
):
    """Where but a fifth of the light comes from the sun, the whole panel runs on without it, or one half does."""
    cut = array(hand_rail=TALL_RAIL, orientation=orientation, panel=panel(half_cells=half_cells))
    assert lost_share(cut, 45.0) == pytest.approx(share)
    assert lost_share(cut, 45.0, beam_share=0.2) == pytest.approx(under_haze)


@pytest.mark.parametrize(
    ("size_mm", "cells", "orientation", "half_cells", "row_m"),
    [
        ((1580, 808), 72, "upright", False, 1.54 / 12),
        ((808, 1580), 72, "upright", False, 1.54 / 12),
        ((1580, 808), 72, "lengthwise", False, 0.768 / 6),
        ((1722, 1134), 54, "upright", False, 1.682 / 9),
        ((1722, 1134), 54, "upright", True, 1.682 / 18),
        ((1722, 1134), 54, "lengthwise", True, 1.094 / 6),
        ((1722, 1134), 108, "upright", False, 0.17),  # half cells, counted as whole ones
        ((1580, 808), 32, "upright", False, 0.17),  # four columns
        ((2000, 500), 36, "upright", False, 0.17),
    ],
)
def test_a_row_is_as_high_as_size_and_number_of_cells_make_it(size_mm, cells, orientation, half_cells, row_m):
    """By hand: 2 cm of margin on each side, six columns; a shadow over 4 cm of the top row takes 4 of its height."""
    told = panel(length_mm=size_mm[0], width_mm=size_mm[1], cells_in_series=cells, half_cells=half_cells)
    one = array(orientation=orientation, panel=told, hand_rail=replace(RAIL, thickness_m=0.04))
    assert lost_share(one, 45.0) == pytest.approx(
        0.04 / row_m * (0.5 if half_cells and orientation == "upright" else 1)
    )


def test_a_band_over_the_middle_dims_both_halves():
    """A panel 1.722 m long has its middle at 0.861: of a band of 10 cm, 5 above and 5 below, 5 of 8.5 cm in each."""
    middle = array(hand_rail=replace(RAIL, distance_m=0.911, thickness_m=0.1), panel=panel(half_cells=True))
    assert lost_share(middle, 45.0) == pytest.approx(0.05 / 0.085)


@pytest.mark.parametrize("half_cells", [None, False, True])
def test_a_rail_over_one_half_and_a_row_under_the_other_add_up_and_cost_all_cells_alike(half_cells):
    """3 cm each: 3 of 8.5 in both halves, or twice 3 of 17; of the row's 5 cm at 45 degrees 2 lie on the margin."""
    row = RowInFront(above_bottom_edge_m=1.05, distance_m=1.0)
    one = array(hand_rail=replace(RAIL, thickness_m=0.03), row_in_front=row, panel=panel(half_cells=half_cells))
    assert lost_share(one, 45.0) == pytest.approx(0.03 / 0.085)


def test_a_low_sun_shines_under_the_rail_and_one_from_behind_casts_no_shadow():
    above = array(hand_rail=replace(RAIL, above_top_edge_m=0.1))
    assert lost_share(above, 30.0) == 0.0
    assert lost_share(above, 50.0, azimuth_deg=330.0) == 0.0
    assert lost_share(above, 60.0) > 0


def test_a_sun_from_behind_shines_over_a_rail_on_a_panel_that_leans_out_past_it():
    """Flat, the rail 0.1 m over it and 0.3 m out, the sun behind at 45 degrees: 5 cm of shadow from 0.4 m out on.

    Those lie within the section from 0.385 to 0.749 m, in its first row of 17 cm.
    """
    rail = HandRail(above_top_edge_m=0.1, distance_m=0.3, thickness_m=0.05)
    flat = array(plane=Plane(tilt_deg=0, azimuth_deg=150), orientation="lengthwise", hand_rail=rail)
    assert lost_share(flat, 45.0, azimuth_deg=330.0) == pytest.approx(0.05 / 0.17)


@pytest.mark.parametrize(("height_deg", "share"), [(15, 0.427), (25, 1 / 3), (30, 0.0)])
def test_a_row_in_front_shades_from_below_until_the_sun_stands_over_its_edge(height_deg, share):
    """Rows 1 m apart, lengthwise at 30 degrees, 0.567 m high: shadow to atan(0.567) = 29.6 degrees.

    At 25 degrees it ends (0.567 - tan 25) / (sin 30 + tan 25 cos 30) = 0.11 m up the slope, at 15 at 0.4085 m: 2.4 cm
    into the second section, which begins a third of 1.094 m above the margin of 2 cm. So the other two run without
    2.4 of 17 cm: 1/3 + 2/3 x 0.14.
    """
    row = RowInFront(above_bottom_edge_m=0.567, distance_m=1.0)
    one = array(plane=Plane(tilt_deg=30, azimuth_deg=150), orientation="lengthwise", row_in_front=row)
    assert lost_share(one, height_deg) == pytest.approx(share, abs=5e-4)


def test_a_rail_costs_a_year_of_half_cells_less_than_whole_ones():
    """A thin one as much of the sun, but of the sky only what the touched half loses."""
    whole, half = panel(half_cells=False), panel(half_cells=True)
    bare = year_light(panel=whole)
    thin = [year_light(hand_rail=replace(RAIL, distance_m=0.15), panel=one) for one in (whole, half)]
    thick = [year_light(hand_rail=replace(RAIL, distance_m=0.15, thickness_m=0.15), panel=one) for one in (whole, half)]
    assert thick[0] < thick[1] < thin[1] < bare
    assert thick[0] < thin[0] < thin[1]


def test_a_row_in_front_costs_half_cells_less_than_whole_ones():
    row = RowInFront(above_bottom_edge_m=0.4, distance_m=0.5)
    flat = {"plane": Plane(tilt_deg=30, azimuth_deg=180), "row_in_front": row}
    whole, half = (year_light(panel=panel(half_cells=cut), **flat) for cut in (False, True))
    assert whole < half < year_light(plane=flat["plane"])


def test_where_nobody_tells_they_count_as_whole_which_is_the_dearer_of_both():
    for rail in (RAIL, TALL_RAIL):
        not_told, whole, half = (year_light(hand_rail=rail, panel=panel(half_cells=cut)) for cut in (None, False, True))
        assert not_told == whole <= half


# Middles of the two half rows that share a string's darkest row, from an edge; lengthwise of the three sections.
FIRST = (0.0625, 0.1475)
SECTIONS = [[0.02 + section * 1.094 / 3 + half for half in (0.0425, 0.1275)] for section in range(3)]
DARKEST = [("upright", False, FIRST), ("upright", True, (0.0625, 0.861 + 0.0425)), ("lengthwise", False, None),
           ("lengthwise", True, None)]  # fmt: skip


def left_of_sky(one, rail_or_row):
    """What rail or row leave of a panel's light under an even sky, over black ground."""
    dull = overcast(SKY)
    bare, left = plane_light(dull, one, 0.0), plane_light(dull, replace(one, **rail_or_row), 0.0)
    assert left.after_overhang_w_per_m2.sum() == bare.after_overhang_w_per_m2.sum()
    return left.after_shade_w_per_m2.sum() / bare.after_shade_w_per_m2.sum()


def left_by_hand(places_m, hidden_at):
    """By what is hidden from places: of a string their mean; lengthwise dark sections are given up where that pays."""
    if places_m is not None:
        return 1 - np.mean([hidden_at(place) for place in places_m])
    seen = sorted(1 - np.mean([hidden_at(place) for place in section]) for section in SECTIONS)
    return max(seen[0], seen[1] * 2 / 3, seen[2] / 3)


@pytest.mark.parametrize(("orientation", "half_cells", "up_m"), DARKEST)
@pytest.mark.parametrize(("above_m", "distance_m"), [(1.0, 1.0), (0.3, 0.2), (0.6, 0.3)])
def test_behind_a_row_the_sky_is_what_the_lowest_cells_of_each_string_see(
    above_m, distance_m, orientation, half_cells, up_m
):
    """By hand: 1 - sin(profile angle) of an upright panel's sky, in the mean of two half rows that share a string."""
    row = RowInFront(above_bottom_edge_m=above_m, distance_m=distance_m)
    by_hand = left_by_hand(up_m, lambda up: np.sin(np.arctan2(max(above_m - up, 0.0), distance_m)))
    one = array(orientation=orientation, panel=panel(half_cells=half_cells))
    assert left_of_sky(one, {"row_in_front": row}) == pytest.approx(by_hand, rel=1e-9)


def test_under_an_overcast_sky_a_lengthwise_panel_close_behind_a_row_gives_up_its_lowest_third():
    """A row 0.35 m high right before it hides most of the sky from the lowest third, and none from the others."""
    row = RowInFront(above_bottom_edge_m=0.35, distance_m=0.05)
    left = left_of_sky(array(orientation="lengthwise"), {"row_in_front": row})
    assert left_by_hand(FIRST, lambda up: np.sin(np.arctan2(0.35 - up, 0.05))) < 0.05
    assert left == pytest.approx(2 / 3)


def test_a_flat_panel_behind_a_row_sees_the_sky_over_its_edge():
    """Flat, 0.0625 and 0.1475 m in from its edge: (1 - cos(profile angle)) / 2 of an even sky is hidden."""
    flat = array(panel=panel(half_cells=False), row_in_front=RowInFront(above_bottom_edge_m=0.5, distance_m=0.4))
    hidden = np.mean([1 - np.cos(np.arctan2(0.5, 0.4 + inwards)) for inwards in (0.0625, 0.1475)]) / 2
    assert in_front_of(flat).hidden_share(np.array([0.0]))[0, 0] == pytest.approx(hidden)


@pytest.mark.parametrize(("orientation", "half_cells", "down_m"), DARKEST)
@pytest.mark.parametrize(
    "rail", [RAIL, TALL_RAIL, HandRail(above_top_edge_m=0.05, distance_m=0.05, thickness_m=0.1)], ids=str
)
def test_behind_a_rail_an_upright_panel_loses_the_sky_between_its_edges_from_the_upmost_cells(
    rail, orientation, half_cells, down_m
):
    """By hand: sin q - sin p of an upright panel's sky between the profile angles of the rail's edges."""

    def hidden(down):
        lower = rail.above_top_edge_m + down
        return np.diff(np.sin(np.arctan2([lower, lower + rail.thickness_m], rail.distance_m)))[0]

    one = array(orientation=orientation, panel=panel(half_cells=half_cells))
    assert left_of_sky(one, {"hand_rail": rail}) == pytest.approx(left_by_hand(down_m, hidden), rel=1e-9)


def test_over_a_flat_panel_a_rail_hides_most_of_the_sky_where_it_stands_slantwise_ahead():
    """Flat, it hides (cos p - cos q) / 2 of a level's sky: from the row that is best for it, found on a fine grid."""
    rail = HandRail(above_top_edge_m=0.3, distance_m=0.9, thickness_m=0.2)
    flat = array(panel=panel(half_cells=True), hand_rail=rail)
    upper, lower = np.linspace(0.0625, 0.861 - 0.0425, 2001), np.linspace(0.861 + 0.0425, 1.722 - 0.0625, 2001)
    hidden = [np.abs(np.cos(np.arctan2(0.3, 0.9 - d)) - np.cos(np.arctan2(0.5, 0.9 - d))) / 2 for d in (upper, lower)]
    assert in_front_of(flat).hidden_share(np.array([0.0]))[0, 0] == pytest.approx(
        np.mean(np.max(hidden, axis=1)), rel=0.01
    )
    assert np.argmax(hidden[0]) > 0  # not the upmost


def test_a_rail_in_front_of_a_parapet_hides_nothing_of_the_sky_that_the_parapet_does_not_hide():
    parapet = RowInFront(above_bottom_edge_m=2.5, distance_m=1.0)
    behind = array(row_in_front=parapet, panel=panel(half_cells=True))
    railed = replace(behind, hand_rail=HandRail(above_top_edge_m=0.1, distance_m=1.0, thickness_m=0.3))
    both, one = (in_front_of(each).hidden_share(np.array([90.0]))[0, 0] for each in (railed, behind))
    assert both == one


@pytest.mark.parametrize(("from_m", "to_m"), [(0.03, 0.07), (0.15, 0.2), (0.15, 0.35), (0.19, 0.53), (0.4, 0.3)])
def test_what_a_band_covers_of_the_darkest_row_is_told_by_where_it_lies(from_m, to_m):
    rows = 0.02 + 0.085 * np.arange(9)
    covered = np.clip(np.minimum(to_m, rows + 0.085) - np.maximum(from_m, rows), 0.0, None) / 0.085
    parts = Parts(((0.02, 0.02 + 9 * 0.085),), 0.085)
    assert parts.dark_by_band(np.array(from_m), np.array(to_m))[0] == pytest.approx(covered.max())


def test_a_band_across_two_whole_rows_costs_them_no_less_than_half_cells_that_lie_in_both_halves():
    """Ten rows of 17 cm: the middle lies between two, and 6 cm across it cover 3 of 17 of each, 3 of 8.5 in each half.

    The sun at 45 degrees, the panel's half 0.87 m down: from 0.84 to 0.9 m.
    """
    size = {"length_mm": 1740, "width_mm": 1060, "cells_in_series": 60}
    rail = HandRail(above_top_edge_m=0.0, distance_m=0.9, thickness_m=0.06)
    whole, half = (array(panel=panel(half_cells=cut, **size), hand_rail=rail) for cut in (False, True))
    assert lost_share(half, 45.0) == pytest.approx(0.03 / 0.085)
    assert lost_share(whole, 45.0) == pytest.approx(0.03 / 0.085)


def test_a_bright_house_in_front_gives_back_a_part_of_what_it_hides():
    house = (SkylinePoint(azimuth_deg=0, height_deg=30),)
    bare, black, bright = (
        float(plane_light(SKY, array(skyline=skyline, facing_reflectance_share=back), 0.2).effective_w_per_m2.sum())
        for skyline, back in (((), None), (house, None), (house, 0.5))
    )
    assert black < bright < bare


def test_a_house_that_throws_back_half_its_light_stands_for_a_quarter_of_the_sky_that_it_hides():
    """By hand, under an even sky and over black ground: an upright face gets half the sky's light, gives back half.

    A straight wall without end; in the plan of sectors it is a little hollow and sees 1 % of itself.
    """
    dull = overcast(SKY)
    rise = np.tan(np.radians(30.0))
    house = tuple(
        SkylinePoint(
            azimuth_deg=azimuth, height_deg=float(np.degrees(np.arctan(rise * max(-np.cos(np.radians(azimuth)), 0))))
        )
        for azimuth in range(0, 360, 2)
    )
    bare = plane_light(dull, array(), 0.0).after_skyline_w_per_m2.sum()
    black = plane_light(dull, array(skyline=house), 0.0).after_skyline_w_per_m2.sum()
    bright = plane_light(dull, array(skyline=house, facing_reflectance_share=0.5), 0.0).after_skyline_w_per_m2.sum()
    assert bright - black == pytest.approx((bare - black) / 4, rel=0.01)
