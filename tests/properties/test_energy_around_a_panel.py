"""The promise, on energy: whatever is put around or in front of a panel, the set never yields more for it.

It is made for a panel that stays in its plane, on an input whose window and start voltage it meets in any weather. An
input whose window the warm panel leaves is no such thing: shade cools the cells, their voltage comes back into the
window, and the set does yield more. Where the plane is left open, see ``test_open_planes``.
"""

from dataclasses import replace
from itertools import pairwise

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.model.place import Cover, SkylinePoint
from service.core.sky import skyline_height_deg
from tests.builders import array, inverter, one_input, panel, setup
from tests.climates import climate
from tests.properties.around import shadows, shares, skies, slabs, surrounded_arrays, walls
from tests.properties.strategies import sheets

HAIR_W = 1e-6
# Light that the glass throws back drives no current, yet it counts as warming the cells (Faiman's coefficients were
# measured so). Shade that takes mostly such light (grazing beam; beam beside a hard shadow) cools more than it dims and
# can leave an hour a little more power: at most 0.14 % of a bright hour were found and 0.4 % of one with 0.2 W; of a
# whole year a ten-millionth.
GRAZING_SHARE, GRAZING_W, GRAZING_SHARE_OF_YEAR = 0.003, 0.01, 1e-5
REACHED = one_input(tracking_min_v=5, tracking_max_v=1000, start_voltage_v=5, max_current_a=60)
limits_w = st.floats(0, 1000)


def ac_w(sky, one, limit_w):
    """The year of one panel in these surroundings and the same one at a bare railing."""
    other = array(name="right", input=2, panel=one.panel)
    box = inverter(ac_power_w=1000, set_limit_w=limit_w, inputs=(REACHED, REACHED))
    asked = setup(arrays=(one, other), inverter=box)
    year = energy_year(asked, sky, climate(), Assumptions.of(()))
    return np.array([year.ac_w, year.ac_at(year.light_ends()[0]), year.ac_at(year.light_ends()[1])])


def assert_never_more(sky, limit_w, *from_most_to_least):
    """Neither in the year nor, but for grazing light, in any hour of it.

    The middle: what stands around widens the band, whose hopeful end may rise for it.
    """
    years = [ac_w(sky, one, limit_w) for one in from_most_to_least]
    for more, less in pairwise(years):
        assert less[0].sum() <= more[0].sum() * (1 + GRAZING_SHARE_OF_YEAR) + HAIR_W
        assert np.all(less[0] <= more[0] * (1 + GRAZING_SHARE) + GRAZING_W)


surroundings = st.builds(lambda one, sheet: replace(one, panel=sheet), surrounded_arrays(), sheets() | st.just(panel()))


@given(skies, surroundings, limits_w, st.floats(0, 359), st.floats(0, 30))
def test_a_point_added_to_the_skyline_never_gives_more_energy(sky, one, limit_w, azimuth, above):
    height = min(float(skyline_height_deg(one.skyline, azimuth)) + above, 90.0)
    added = (*one.skyline, SkylinePoint(azimuth_deg=azimuth, height_deg=height))
    assert_never_more(sky, limit_w, one, replace(one, skyline=added))


@given(skies, surroundings, limits_w, slabs, st.floats(0, 2))
def test_a_slab_or_a_deeper_one_never_gives_more_energy(sky, one, limit_w, slab, deeper):
    deep = replace(slab, reaches_out_m=slab.reaches_out_m + deeper)
    assert_never_more(sky, limit_w, *(replace(one, overhang=over) for over in (None, slab, deep)))


@given(skies, surroundings, limits_w, slabs, st.floats(0, 2), walls, st.floats(0, 2))
def test_a_slab_further_up_and_a_wall_further_away_never_give_less_energy(
    sky, one, limit_w, slab, higher, wall, further
):
    near = replace(one, overhang=slab, side_walls=(wall,))
    high = replace(near, overhang=replace(slab, above_top_edge_m=slab.above_top_edge_m + higher))
    far = replace(high, side_walls=(replace(wall, distance_m=wall.distance_m + further),))
    assert_never_more(sky, limit_w, far, high, near)


@given(skies, surroundings, limits_w, slabs, st.lists(walls, max_size=2))
def test_under_a_slab_and_beside_walls_half_cells_never_give_less_energy(sky, one, limit_w, slab, beside):
    stands = replace(one, overhang=slab, side_walls=tuple(beside))
    half, whole = (replace(stands, panel=replace(one.panel, half_cells=cut)) for cut in (True, False))
    assert_never_more(sky, limit_w, half, whole)


@given(skies, surroundings, limits_w, walls, st.floats(0, 2))
def test_a_side_wall_or_a_longer_one_never_gives_more_energy(sky, one, limit_w, wall, longer):
    long = replace(wall, reaches_out_m=wall.reaches_out_m + longer)
    assert_never_more(sky, limit_w, *(replace(one, side_walls=beside) for beside in ((), (wall,), (long,))))


@given(skies, surroundings, limits_w, shadows)
def test_a_shadow_never_gives_more_energy(sky, one, limit_w, shadow):
    assert_never_more(sky, limit_w, one, replace(one, shade=(*one.shade, shadow)))


@given(skies, surroundings, limits_w, shares, shares)
def test_a_darker_cover_never_gives_more_energy(sky, one, limit_w, first, second):
    dark, light = sorted((first, second))
    covers = [None, *(Cover(material="glass", light_through_share=through) for through in (light, dark))]
    assert_never_more(sky, limit_w, *(replace(one, cover=cover) for cover in covers))


@given(skies, surroundings, limits_w, shares)
def test_more_sun_never_gives_less_energy(sky, one, limit_w, share):
    dimmer = replace(
        sky,
        ghi_w_per_m2=sky.ghi_w_per_m2 * share,
        dni_w_per_m2=sky.dni_w_per_m2 * share,
        dhi_w_per_m2=sky.dhi_w_per_m2 * share,
    )
    assert np.all(ac_w(dimmer, one, limit_w)[0] <= ac_w(sky, one, limit_w)[0] + HAIR_W)


@given(skies, surroundings, limits_w, shares)
def test_a_lower_limit_never_gives_more_energy_nor_a_more_hopeful_end(sky, one, limit_w, share):
    high, low = ac_w(sky, one, limit_w), ac_w(sky, one, limit_w * share)
    assert np.all(low[0] <= high[0] + HAIR_W)
    # Another plane brings its more in hours that are not cut: under a lower limit fewer, and each of them more.
    assert np.all(low.sum(axis=1) <= high.sum(axis=1) + HAIR_W)
