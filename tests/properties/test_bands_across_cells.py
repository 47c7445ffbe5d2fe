"""The promise: a rail or a row before a panel gives no light, a larger one no more, half cells never lose more."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
from hypothesis import example, given
from hypothesis import strategies as st

from service.core.model.place import HandRail, Plane, RowInFront, Shade
from service.core.sky import after_shading, plane_light
from service.core.sky.daylight import open_surroundings
from service.core.sky.edge_shadow import ways_past_bands
from tests.builders import array, panel
from tests.properties.around import SKIES, skies, surrounded_arrays

HAIR = 1e-9  # rounding of one hour's sum, W/m2

rails = st.builds(
    HandRail, above_top_edge_m=st.floats(0, 0.2), distance_m=st.floats(0.02, 1), thickness_m=st.floats(0.01, 0.3)
)
rows = st.builds(RowInFront, above_bottom_edge_m=st.floats(0, 2), distance_m=st.floats(0.05, 3))
cuts = st.sampled_from([None, False, True])
orientations = st.sampled_from(["upright", "lengthwise"])
shares = st.floats(0, 1)


def hours_light(sky, one):
    light = plane_light(sky, one, 0.2)
    return np.concatenate([light.after_shade_w_per_m2, light.effective_w_per_m2])


def assert_falling(sky, *arrays):
    """Each array in the row gets no more light than the one before, in any hour."""
    for more, less in pairwise(hours_light(sky, one) for one in arrays):
        assert (less <= more + HAIR).all()


@given(sky=skies, one=surrounded_arrays(), rail=rails, thicker=st.floats(0, 0.5), cut=cuts, orientation=orientations)
def test_a_rail_or_a_thicker_one_never_gives_more_light(sky, one, rail, thicker, cut, orientation):
    bare = replace(one, orientation=orientation, panel=panel(half_cells=cut))
    thick = replace(rail, thickness_m=rail.thickness_m + thicker)
    assert_falling(sky, bare, replace(bare, hand_rail=rail), replace(bare, hand_rail=thick))


@given(sky=skies, one=surrounded_arrays(), row=rows, higher=st.floats(0, 1), cut=cuts, orientation=orientations)
def test_a_row_in_front_or_a_higher_one_never_gives_more_light(sky, one, row, higher, cut, orientation):
    bare = replace(one, orientation=orientation, panel=panel(half_cells=cut))
    high = replace(row, above_bottom_edge_m=row.above_bottom_edge_m + higher)
    assert_falling(sky, bare, replace(bare, row_in_front=row), replace(bare, row_in_front=high))


@example(  # a hard shadow by the clock and bands took the sun twice, behind both less than behind the row alone
    sky=SKIES["equator"],
    one=array(
        plane=Plane(tilt_deg=36.892707192519936, azimuth_deg=0.0),
        shade=(
            Shade(
                cause="mast", edge="hard", months=(1, 4, 7, 9), from_clock="22:37", to_clock="10:31",
                blocked_share=0.5163264642037042,
            ),
        ),
    ),
    rail=HandRail(above_top_edge_m=7.2e-05, distance_m=0.6274, thickness_m=0.01000007787516799),
    row=RowInFront(above_bottom_edge_m=1.0255218264528554, distance_m=2.446842766781282),
    cut=False,
    orientation="lengthwise",
)  # fmt: skip
@given(sky=skies, one=surrounded_arrays(), rail=rails, row=rows, cut=cuts, orientation=orientations)
def test_a_rail_above_and_a_row_below_never_cost_less_than_either(sky, one, rail, row, cut, orientation):
    railed = replace(one, orientation=orientation, panel=panel(half_cells=cut), hand_rail=rail)
    both = replace(railed, row_in_front=row)
    assert_falling(sky, railed, both)
    assert_falling(sky, replace(both, hand_rail=None), both)


@example(  # once lost twice as much
    sky=SKIES["54 N"],
    one=array(),
    rail=HandRail(above_top_edge_m=0.0, distance_m=0.15, thickness_m=0.05),
    row=None,
    orientation="upright",
)
@example(  # two thin bands, one in each half
    sky=SKIES["54 N"],
    one=array(),
    rail=HandRail(above_top_edge_m=0.0, distance_m=0.15, thickness_m=0.05),
    row=RowInFront(above_bottom_edge_m=0.8, distance_m=1.0),
    orientation="upright",
)
@given(sky=skies, one=surrounded_arrays(), rail=st.none() | rails, row=st.none() | rows, orientation=orientations)
def test_half_cells_never_lose_more_than_whole_ones(sky, one, rail, row, orientation):
    before = replace(one, orientation=orientation, hand_rail=rail, row_in_front=row)
    half, whole, not_told = (replace(before, panel=panel(half_cells=cut)) for cut in (True, False, None))
    assert_falling(sky, half, whole, not_told)


@given(dimmed=st.lists(shares, min_size=1, max_size=3), deeper=shares, sun=shares, stacked=st.booleans())
def test_bands_leave_the_skys_light_and_deeper_ones_never_more(dimmed, deeper, sun, stacked):
    """Of parallel halves each counts by its own band, and what the others get is kept."""
    none = open_surroundings(1).shading
    left = []
    for shares_dimmed in (dimmed, [max(one, deeper) for one in dimmed]):
        parts = [np.array([one]) for one in shares_dimmed]
        ways = ways_past_bands(parts, []) if stacked else ways_past_bands([], parts)
        shading = replace(none, ways_past_bands=ways)
        left.append(float(after_shading(np.ones(1), np.array([sun]), shading)[0]))
        assert 1.0 - sun - HAIR <= left[-1] <= 1.0
        if not stacked:
            assert left[-1] >= 1.0 - sun * float(np.mean(shares_dimmed)) - HAIR
    assert left[1] <= left[0] + HAIR
