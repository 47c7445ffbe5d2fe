"""The promise: whatever is put around or in front of a panel, it never gets more light for it, in any hour."""

from dataclasses import fields, replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from service.core.model.hours import SkyYear
from service.core.model.place import Cover, HandRail, Overhang, Plane, RowInFront, SideWall, SkylinePoint
from service.core.sky import PlaneLight, plane_light, skyline_height_deg
from tests.builders import array, panel
from tests.properties.around import (
    SKIES,
    azimuth_of,
    mirrored,
    points_off_north,
    shadows,
    shares,
    skies,
    slabs,
    surrounded_arrays,
    walls,
)
from tests.skies import east_for_west, north_for_south, overcast

# Rounding of one hour's sum, W/m2.
HAIR = 1e-9
rails = st.builds(
    HandRail, above_top_edge_m=st.floats(0, 1), distance_m=st.floats(0.02, 2), thickness_m=st.floats(0, 0.5)
)
rows = st.builds(RowInFront, above_bottom_edge_m=st.floats(0, 2), distance_m=st.floats(0.1, 3))
# How a panel's cells lie.
cells = st.fixed_dictionaries(
    {
        "orientation": st.sampled_from(["upright", "lengthwise"]),
        "panel": st.builds(
            panel,
            half_cells=st.sampled_from([None, False, True]),
            length_mm=st.floats(100, 3000),
            width_mm=st.floats(100, 2000),
        ),
    }
)


def stages(light: PlaneLight):
    return {field.name: getattr(light, field.name) for field in fields(PlaneLight) if field.name.endswith("_w_per_m2")}


def assert_never_more(sky: SkyYear, before, after, first_stage: str, reflectance: float = 0.2):
    """In every hour, from the stage at which the change acts onwards."""
    had, has = stages(plane_light(sky, before, reflectance)), stages(plane_light(sky, after, reflectance))
    names = list(had)
    for name in names[names.index(first_stage) :]:
        assert (has[name] <= had[name] + HAIR).all(), name


@given(sky=skies, one=surrounded_arrays(), reflectance=shares)
def test_the_account_only_falls_and_never_below_nought(sky, one, reflectance):
    light = list(stages(plane_light(sky, one, reflectance)).values())
    for before, after in pairwise(light):
        assert (after <= before).all()
    assert (light[-1] >= 0.0).all()


@given(sky=skies, one=surrounded_arrays(), azimuth=st.floats(0, 359), above=st.floats(0, 30))
def test_a_point_added_on_or_above_the_skyline_never_gives_more_light(sky, one, azimuth, above):
    height = min(float(skyline_height_deg(one.skyline, azimuth)) + above, 90.0)
    added = (*one.skyline, SkylinePoint(azimuth_deg=azimuth, height_deg=height))
    assert_never_more(sky, one, replace(one, skyline=added), "after_skyline_w_per_m2")


@given(
    sky=skies,
    one=surrounded_arrays(),
    row=st.none() | rows,
    rail=st.none() | rails,
    azimuth=st.floats(0, 359),
    above=st.floats(0, 30),
    reflectances=st.tuples(shares, shares),
    cells=cells,
)
def test_behind_a_rail_and_a_row_before_faces_that_throw_back_a_higher_skyline_never_gives_more_light(
    sky, one, row, rail, azimuth, above, reflectances, cells
):
    """Without shadows by the clock: hard ones and a row's take the last glow of a low sun twice."""
    faces, ground = reflectances
    one = replace(one, **cells, shade=(), row_in_front=row, hand_rail=rail, facing_reflectance_share=faces)
    height = min(float(skyline_height_deg(one.skyline, azimuth)) + above, 90.0)
    higher = replace(one, skyline=(*one.skyline, SkylinePoint(azimuth_deg=azimuth, height_deg=height)))
    assert_never_more(sky, one, higher, "after_skyline_w_per_m2", ground)


@given(sky=skies, one=surrounded_arrays(), row=rows, higher=st.floats(0, 1), cells=cells)
def test_a_higher_row_never_gives_more_light(sky, one, row, higher, cells):
    low = replace(one, **cells, row_in_front=row)
    high = replace(low, row_in_front=replace(row, above_bottom_edge_m=row.above_bottom_edge_m + higher))
    assert_never_more(sky, replace(low, row_in_front=None), low, "after_shade_w_per_m2")
    assert_never_more(sky, low, high, "after_shade_w_per_m2")


@given(sky=skies, one=surrounded_arrays(), darker=shares, brighter=shares)
def test_brighter_faces_never_give_less_light(sky, one, darker, brighter):
    darker, brighter = sorted((darker, brighter))
    dim, bright = (stages(plane_light(sky, replace(one, facing_reflectance_share=f), 0.2)) for f in (darker, brighter))
    for name, light in bright.items():
        assert (light >= dim[name] - HAIR).all(), name


@given(sky=skies, one=surrounded_arrays(), slab=slabs, deeper=st.floats(0, 2), cells=cells)
def test_a_slab_or_a_deeper_one_never_gives_more_light(sky, one, slab, deeper, cells):
    one = replace(one, **cells)
    none, shallow = replace(one, overhang=None), replace(one, overhang=slab)
    deep = replace(one, overhang=replace(slab, reaches_out_m=slab.reaches_out_m + deeper))
    assert_never_more(sky, none, shallow, "after_overhang_w_per_m2")
    assert_never_more(sky, shallow, deep, "after_overhang_w_per_m2")


@example(
    sky=SKIES["54 N"],
    one=array(overhang=Overhang(above_top_edge_m=1.0, reaches_out_m=5e-324)),  # once overflowed
    wall=SideWall(side="left", distance_m=1.0, reaches_out_m=5e-324),
    longer=1.0,
    cells={},
)
@given(sky=skies, one=surrounded_arrays(), wall=walls, longer=st.floats(0, 2), cells=cells)
def test_a_wall_or_a_longer_one_never_gives_more_light(sky, one, wall, longer, cells):
    one = replace(one, **cells)
    walled = replace(one, side_walls=(*one.side_walls, wall))
    grown = replace(one, side_walls=(*one.side_walls, replace(wall, reaches_out_m=wall.reaches_out_m + longer)))
    assert_never_more(sky, one, walled, "after_overhang_w_per_m2")
    assert_never_more(sky, walled, grown, "after_overhang_w_per_m2")


@given(sky=skies, one=surrounded_arrays(), slab=slabs, wall=walls, facade=st.none() | st.floats(0, 360), cells=cells)
def test_a_slab_and_a_wall_that_do_not_reach_out_are_as_if_not_told(sky, one, slab, wall, facade, cells):
    bare = replace(one, **cells, facade_azimuth_deg=facade)
    told = replace(bare, overhang=replace(slab, reaches_out_m=0.0))
    told = replace(told, side_walls=(*one.side_walls, replace(wall, reaches_out_m=0.0)))
    without, with_ = (stages(plane_light(sky, each, 0.2)) for each in (replace(bare, overhang=None), told))
    for name in without:
        assert (without[name] == with_[name]).all(), name


@given(sky=skies, slab=slabs, tilt=st.floats(0, 90), turns=st.tuples(st.floats(0, 180), st.floats(0, 180)), cells=cells)
def test_the_further_a_panel_is_turned_out_of_its_facade_the_less_of_the_sky_a_slab_leaves(
    sky, slab, tilt, turns, cells
):
    """Flat ones get the same bare light whichever way they are turned, so that of these it holds in every hour."""
    flat = replace(array(**cells), overhang=slab, facade_azimuth_deg=150.0)
    less, more = (
        replace(flat, plane=Plane(tilt_deg=0.0, azimuth_deg=(150.0 + turn) % 360.0)) for turn in sorted(turns)
    )
    assert_never_more(sky, less, more, "after_overhang_w_per_m2")
    leaning = replace(flat, plane=Plane(tilt_deg=tilt, azimuth_deg=(150.0 + turns[0]) % 360.0))
    whole, half = (replace(leaning, panel=replace(leaning.panel, half_cells=cut)) for cut in (False, True))
    assert_never_more(sky, half, whole, "after_overhang_w_per_m2")


@given(sky=skies, one=surrounded_arrays(), slab=slabs, higher=st.floats(0, 2), cells=cells)
def test_a_slab_further_up_never_leaves_less_light(sky, one, slab, higher, cells):
    low = replace(one, **cells, overhang=slab)
    high = replace(low, overhang=replace(slab, above_top_edge_m=slab.above_top_edge_m + higher))
    assert_never_more(sky, high, low, "after_overhang_w_per_m2")


@given(sky=skies, one=surrounded_arrays(), wall=walls, further=st.floats(0, 2), cells=cells)
def test_a_wall_further_away_never_leaves_less_light(sky, one, wall, further, cells):
    near = replace(one, **cells, side_walls=(*one.side_walls, wall))
    far = replace(near, side_walls=(*one.side_walls, replace(wall, distance_m=wall.distance_m + further)))
    assert_never_more(sky, far, near, "after_overhang_w_per_m2")


@given(
    sky=skies,
    one=surrounded_arrays(),
    wall=walls,
    longer=st.floats(0, 2),
    nearer=shares,
    facade=st.floats(0, 360),
    cells=cells,
)
def test_before_its_facade_a_wall_or_a_longer_or_a_nearer_one_never_gives_a_turned_panel_more_light(
    sky, one, wall, longer, nearer, facade, cells
):
    one = replace(one, **cells, facade_azimuth_deg=facade)
    walled = replace(one, side_walls=(*one.side_walls, wall))
    grown, close = (
        replace(one, side_walls=(*one.side_walls, replace(wall, **change)))
        for change in (
            {"reaches_out_m": wall.reaches_out_m + longer},
            {"distance_m": wall.distance_m * nearer},
        )
    )
    assert_never_more(sky, one, walled, "after_overhang_w_per_m2")
    assert_never_more(sky, walled, grown, "after_overhang_w_per_m2")
    assert_never_more(sky, walled, close, "after_overhang_w_per_m2")
    half, whole = (replace(walled, panel=replace(one.panel, half_cells=cut)) for cut in (True, False))
    assert_never_more(sky, half, whole, "after_overhang_w_per_m2")


@given(sky=skies, one=surrounded_arrays(), slab=slabs, facade=st.floats(0, 360), rail=rails, row=rows, more=shares)
def test_a_rail_and_a_row_never_give_a_panel_before_its_facade_more_light_nor_does_a_slab_over_them(
    sky, one, slab, facade, rail, row, more
):
    one = replace(one, facade_azimuth_deg=facade)
    railed = replace(one, hand_rail=rail)
    thicker = replace(one, hand_rail=replace(rail, thickness_m=rail.thickness_m + more))
    with_row = replace(thicker, row_in_front=row)
    under = replace(with_row, overhang=slab)
    deeper = replace(under, overhang=replace(slab, reaches_out_m=slab.reaches_out_m + more))
    for before, after in pairwise((one, railed, thicker, with_row)):
        assert_never_more(sky, before, after, "after_shade_w_per_m2")
    for before, after in pairwise((replace(with_row, overhang=None), under, deeper)):
        assert_never_more(sky, before, after, "after_overhang_w_per_m2")


@given(sky=skies, one=surrounded_arrays(), cells=cells)
def test_a_rail_and_a_row_far_away_and_walls_far_aside_take_nothing(sky, one, cells):
    """A rail of no thickness; a row below the lower edge."""
    bare = replace(one, **cells, facade_azimuth_deg=150.0)
    rail = HandRail(above_top_edge_m=0.1, distance_m=0.2, thickness_m=0.0)
    far = replace(bare, hand_rail=rail, row_in_front=RowInFront(above_bottom_edge_m=0.0, distance_m=0.5))
    without, with_ = (stages(plane_light(sky, each, 0.2)) for each in (bare, far))
    for name, light in without.items():
        np.testing.assert_allclose(with_[name], light, atol=HAIR)


@given(sky=skies, one=surrounded_arrays(), slab=slabs, beside=st.lists(walls, min_size=1, max_size=2), cells=cells)
def test_slab_and_walls_together_never_leave_more_light_than_either(sky, one, slab, beside, cells):
    one = replace(one, **cells)
    both = replace(one, overhang=slab, side_walls=tuple(beside))
    assert_never_more(sky, replace(both, side_walls=()), both, "after_overhang_w_per_m2")
    assert_never_more(sky, replace(both, overhang=None), both, "after_overhang_w_per_m2")


@example(  # a thin shadow on both halves
    sky=SKIES["54 N"],
    one=array(orientation="lengthwise"),
    slab=Overhang(above_top_edge_m=0.0, reaches_out_m=0.05),
    beside=[SideWall(side=side, distance_m=0.0, reaches_out_m=0.05) for side in ("left", "right")],
    orientation="lengthwise",
)
@given(
    sky=skies,
    one=surrounded_arrays(),
    slab=st.none() | slabs,
    beside=st.lists(walls, max_size=2),
    orientation=st.sampled_from(["upright", "lengthwise"]),
)
def test_under_a_slab_and_beside_walls_half_cells_never_get_less_light(sky, one, slab, beside, orientation):
    one = replace(one, orientation=orientation, overhang=slab, side_walls=tuple(beside))
    half, whole, not_told = (replace(one, panel=panel(half_cells=cut)) for cut in (True, False, None))
    assert_never_more(sky, half, whole, "after_overhang_w_per_m2")
    assert_never_more(sky, whole, not_told, "after_overhang_w_per_m2")


@given(sky=skies, one=surrounded_arrays(), shade=shadows, more=shares)
def test_a_shadow_or_a_darker_one_never_gives_more_light(sky, one, shade, more):
    shaded = replace(one, shade=(*one.shade, shade))
    darker = replace(shade, blocked_share=shade.blocked_share + more * (1.0 - shade.blocked_share))
    assert_never_more(sky, one, shaded, "after_shade_w_per_m2")
    assert_never_more(sky, shaded, replace(one, shade=(*one.shade, darker)), "after_shade_w_per_m2")


@given(sky=skies, one=surrounded_arrays(), shade=shadows)
def test_a_hard_edge_is_never_kinder_than_a_soft_one(sky, one, shade):
    soft, hard = (replace(one, shade=(*one.shade, replace(shade, edge=edge))) for edge in ("soft", "hard"))
    if not any(other.edge == "hard" for other in one.shade):
        assert_never_more(sky, soft, hard, "after_shade_w_per_m2")
    assert_never_more(sky, one, hard, "after_shade_w_per_m2")


@given(sky=skies, one=surrounded_arrays(), lighter=shares, darker=shares)
def test_a_darker_cover_never_gives_more_light(sky, one, lighter, darker):
    darker, lighter = sorted((lighter, darker))
    covered = [replace(one, cover=Cover(material="glass", light_through_share=s)) for s in (lighter, darker)]
    assert_never_more(sky, replace(one, cover=None), covered[0], "after_cover_w_per_m2")
    assert_never_more(sky, *covered, "after_cover_w_per_m2")


@given(sky=skies, one=surrounded_arrays(), low=shares, high=shares)
def test_brighter_ground_never_gives_less_light(sky, one, low, high):
    low, high = sorted((low, high))
    dim, bright = stages(plane_light(sky, one, low)), stages(plane_light(sky, one, high))
    for name, light in bright.items():
        assert (light >= dim[name] - HAIR).all(), name


@pytest.mark.parametrize(
    ("sky_turned", "turn"),
    [(north_for_south, lambda azimuth: 180.0 - azimuth), (east_for_west, lambda azimuth: 360.0 - azimuth)],
    ids=["north for south", "east for west"],
)
@given(sky=skies, one=surrounded_arrays(st.lists(points_off_north, max_size=4, unique_by=azimuth_of)))
def test_mirrored_sun_and_mirrored_panel_give_the_same_light(sky_turned, turn, sky, one):
    here = stages(plane_light(sky, one, 0.2))
    there = stages(plane_light(sky_turned(sky), mirrored(one, turn), 0.2))
    for name, light in here.items():
        apart = np.abs(there[name] - light) > 1e-6 * (1.0 + light)
        # A sun within rounding of an edge may fall on either side of it.
        assert apart.sum() <= 3, name


@given(sky=skies, azimuth=st.floats(0, 360), reflectance=shares)
def test_a_flat_plane_gets_the_light_of_level_ground_and_no_ground(sky, azimuth, reflectance):
    light = plane_light(sky, array(plane=Plane(tilt_deg=0, azimuth_deg=azimuth)), reflectance).open_w_per_m2
    high = sky.sun_zenith_deg < 89.0
    np.testing.assert_allclose(light[high], sky.ghi_w_per_m2[high], atol=1e-9)


@given(sky=skies, azimuth=st.floats(0, 360))
def test_an_upright_plane_sees_half_of_an_even_sky(sky, azimuth):
    light = plane_light(overcast(sky), array(plane=Plane(tilt_deg=90, azimuth_deg=azimuth)), 0.0).open_w_per_m2
    np.testing.assert_allclose(light, 0.5 * sky.ghi_w_per_m2, atol=1e-9)
