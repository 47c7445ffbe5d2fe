"""The promise: whatever is put around a panel whose rear counts, the rear never gets more light for it, in any hour."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.model.hours import SkyYear
from service.core.model.place import HandRail, Overhang, RowInFront, SideWall, SkylinePoint
from service.core.sky import plane_light, rear_light, skyline_height_deg
from tests.builders import panel
from tests.properties.around import shadows, shares, skies, slabs, surrounded_arrays, walls

# Rounding of one hour's sum, W/m2.
HAIR = 1e-9
stands = st.fixed_dictionaries(
    {
        "mount": st.sampled_from(["ground_frame", "fence", "hung_on_rail", "wall"]),
        "panel": st.builds(panel, bifaciality_share=st.just(0.8), half_cells=st.sampled_from([False, True])),
        "orientation": st.sampled_from(["upright", "lengthwise"]),
        "count_rear_light": st.just(True),
    }
)
BARE = {"skyline": (), "overhang": None, "side_walls": (), "shade": ()}


def rear_of(sky: SkyYear, one, reflectance: float):
    return rear_light(sky, one, reflectance, plane_light(sky, one, reflectance).effective_w_per_m2)


def assert_never_more(sky: SkyYear, before, after, reflectance: float):
    had, has = rear_of(sky, before, reflectance), rear_of(sky, after, reflectance)
    assert (has <= had + HAIR).all()
    assert (has >= 0.0).all()


@given(sky=skies, one=surrounded_arrays(), stand=stands, azimuth=st.floats(0, 359), above=st.floats(0, 30), back=shares)
def test_a_point_added_on_or_above_the_skyline(sky, one, stand, azimuth, above, back):
    one = replace(one, **stand)
    height = min(float(skyline_height_deg(one.skyline, azimuth)) + above, 90.0)
    added = (*one.skyline, SkylinePoint(azimuth_deg=azimuth, height_deg=height))
    assert_never_more(sky, one, replace(one, skyline=added), back)


@given(sky=skies, one=surrounded_arrays(), stand=stands, slab=slabs, deeper=st.floats(0, 2), back=shares)
def test_a_slab_or_a_deeper_one(sky, one, stand, slab, deeper, back):
    shallow = replace(one, **stand, overhang=slab)
    assert_never_more(sky, replace(shallow, overhang=None), shallow, back)
    deep = replace(shallow, overhang=replace(slab, reaches_out_m=slab.reaches_out_m + deeper))
    assert_never_more(sky, shallow, deep, back)


@given(sky=skies, one=surrounded_arrays(), stand=stands, wall=walls, longer=st.floats(0, 2), back=shares)
def test_a_wall_or_a_longer_one(sky, one, stand, wall, longer, back):
    one = replace(one, **stand)
    walled = replace(one, side_walls=(*one.side_walls, wall))
    grown = replace(one, side_walls=(*one.side_walls, replace(wall, reaches_out_m=wall.reaches_out_m + longer)))
    assert_never_more(sky, one, walled, back)
    assert_never_more(sky, walled, grown, back)


@given(sky=skies, one=surrounded_arrays(), stand=stands, shade=shadows, back=shares)
def test_a_shadow_by_the_clock(sky, one, stand, shade, back):
    one = replace(one, **stand)
    assert_never_more(sky, one, replace(one, shade=(*one.shade, shade)), back)


@given(sky=skies, one=surrounded_arrays(), stand=stands, high=st.floats(0, 2), near=st.floats(0.2, 2), back=shares)
def test_a_row_or_a_rail_in_front(sky, one, stand, high, near, back):
    one = replace(one, **stand)
    assert_never_more(sky, one, replace(one, row_in_front=RowInFront(above_bottom_edge_m=high, distance_m=near)), back)
    rail = HandRail(above_top_edge_m=0.0, distance_m=near, thickness_m=0.05)
    assert_never_more(sky, one, replace(one, hand_rail=rail), back)


@given(sky=skies, one=surrounded_arrays(), stand=stands, back=shares)
def test_what_takes_nothing_leaves_the_rear_as_with_nothing_around(sky, one, stand, back):
    bare = replace(one, **stand, **BARE)
    level = tuple(SkylinePoint(azimuth_deg=azimuth, height_deg=0.0) for azimuth in (0, 180))
    no_slab = Overhang(above_top_edge_m=0.5, reaches_out_m=0.0)
    no_wall = SideWall(side="left", distance_m=0.5, reaches_out_m=0.0)
    told = replace(bare, skyline=level, overhang=no_slab, side_walls=(no_wall,))
    lit = sky.sun_zenith_deg < 90.0
    wanted, got = rear_of(sky, bare, back), rear_of(sky, told, back)
    assert got[lit] == pytest.approx(wanted[lit], abs=2e-3 * float(np.max(sky.ghi_w_per_m2)) / 1000.0 + 0.1)
