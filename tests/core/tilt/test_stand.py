"""Does a set ready to be asked about planes give what the plain chain gives?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy import alternating_current_w, direct_current
from service.core.errors import ContradictionError
from service.core.model.place import Overhang, Plane
from service.core.tilt.bounds import PlaneBounds
from service.core.tilt.search import best_apart, best_together, surveyed
from service.core.tilt.stand import before_its_facade, stand_key, stand_of
from service.core.tilt.sums import Together
from tests.builders import array, inverter, one_input, setup
from tests.kernel_cases import typical

SKY = typical(54.2, 12.3)
PLANES = [Plane(tilt_deg=tilt, azimuth_deg=azimuth) for tilt in (0, 35, 90) for azimuth in (90, 180, 300)]
YARD = array(mount="ground_frame")


def year_kwh(asked, planes):
    arrays = tuple(replace(one, plane=plane) for one, plane in zip(asked.arrays, planes, strict=True))
    moved = replace(asked, arrays=arrays)
    return alternating_current_w(moved, direct_current(moved, SKY), SKY).sum() / 1000


def within_kwh(asked, plain):
    """What tables may be off by: of the best plane's year, or of 1000 h of rated power where all years are poorer.

    Behind a slab most hours are dim, and stand near the light below which nothing is given: as in ``kernel.nearest``.
    """
    rated_kwh = sum(one.count * one.panel.rated_power_w for one in asked.arrays)
    return 4e-4 * max(*plain, rated_kwh)


def together(asked, moving=None):
    still = tuple(one.plane for one in asked.arrays)
    return Together(stand=stand_of(asked, SKY), home=None, moving=moving or dict.fromkeys(range(len(still)), 0.0),
                    still=still)  # fmt: skip


@pytest.mark.parametrize("one", [
    YARD,
    replace(YARD, overhang=Overhang(above_top_edge_m=0.5, reaches_out_m=1.0), facade_azimuth_deg=200),
    replace(YARD, dirt_share=0.1, lead_length_m=30),
    replace(YARD, panel=replace(YARD.panel, bifaciality_share=0.8), count_rear_light=True),
])  # fmt: skip
def test_two_arrays_moved_together_give_what_the_plain_chain_gives(one):
    asked = setup(arrays=(one, replace(one, name="b", input=2)), inverter=inverter(set_limit_w=500))
    found, _ = together(asked).year_sums(PLANES)
    plain = [year_kwh(asked, (plane, plane)) for plane in PLANES]
    assert found == pytest.approx(plain, abs=within_kwh(asked, plain))


def test_a_slab_of_which_nobody_told_how_it_stands_stays_square_to_the_plane_as_it_is():
    slab = replace(YARD, overhang=Overhang(above_top_edge_m=0.5, reaches_out_m=1.0))
    kept, told = setup(arrays=(slab,)), setup(arrays=(replace(slab, facade_azimuth_deg=slab.plane.azimuth_deg),))
    assert before_its_facade(kept) == told
    assert stand_key(kept) == stand_key(told)
    assert stand_key(kept) != stand_key(setup(arrays=(replace(slab, plane=PLANES[0]),)))
    found, _ = together(kept).year_sums(PLANES)
    plain = [year_kwh(told, (plane,)) for plane in PLANES]
    assert found == pytest.approx(plain, abs=within_kwh(kept, plain))


def test_an_array_that_stays_gives_what_it_gives_and_one_with_an_offset_is_turned():
    asked = setup(arrays=(YARD, replace(YARD, input=2, plane=Plane(tilt_deg=70, azimuth_deg=240))))
    staying, _ = together(asked, {0: 0.0}).year_sums(PLANES)
    turned, _ = together(asked, {0: 0.0, 1: 90.0}).year_sums(PLANES)
    for at, plane in enumerate(PLANES):
        other = Plane(tilt_deg=plane.tilt_deg, azimuth_deg=(plane.azimuth_deg + 90) % 360)
        assert staying[at] == pytest.approx(year_kwh(asked, (plane, asked.arrays[1].plane)), rel=4e-4)
        assert turned[at] == pytest.approx(year_kwh(asked, (plane, other)), rel=4e-4)


def test_arrays_that_share_an_input_share_its_limits_when_they_look_the_same_way():
    """Two panels of 14 A on one input of 14 A: nearly half of the sun is cut."""
    asked = setup(arrays=(YARD, replace(YARD, name="b")), inverter=inverter(inputs=(one_input(),) * 2))
    found, _ = together(asked).year_sums(PLANES)
    plain = [year_kwh(asked, (plane, plane)) for plane in PLANES]
    assert found == pytest.approx(plain, rel=0.01)


def test_the_sums_by_day_add_up_to_the_year():
    moved = together(setup(arrays=(YARD,)))
    daily = moved.sums(PLANES).energy
    assert daily.shape == (len(PLANES), 365)
    hourly = moved.stand.ac_w(moved.dc_w(PLANES))
    assert daily.sum(axis=1) == pytest.approx(hourly.sum(axis=1) / 1000, rel=1e-5)
    assert np.all(daily >= 0)


def test_a_map_is_read_at_nearest_cells_and_stays_within_half_a_thousandth_of_the_finer_tables():
    moved = together(setup(arrays=(YARD, replace(YARD, name="b", input=2)), inverter=inverter(set_limit_w=500)))
    assert all(moved.stand.nearest())
    roughly, _ = moved.year_sums(PLANES)
    finely = moved.sums(PLANES).energy.sum(axis=1)
    assert roughly == pytest.approx(finely, abs=5e-4 * finely.max())
    assert np.any(roughly != pytest.approx(finely, rel=1e-6))


def test_a_set_keeps_its_key_in_other_planes_and_changes_it_with_its_limit():
    asked = setup(arrays=(YARD,))
    assert stand_key(asked) == stand_key(setup(arrays=(replace(YARD, plane=PLANES[0]),)))
    assert stand_key(asked) != stand_key(setup(arrays=(YARD,), inverter=inverter(set_limit_w=300)))


def test_light_measured_in_the_planes_tells_nothing_of_others():
    with pytest.raises(ContradictionError, match="tells nothing of others"):
        stand_of(setup(arrays=(YARD,)), replace(SKY, plane_w_per_m2=(SKY.ghi_w_per_m2,)))


def test_bounds_that_leave_one_plane_give_that_plane_together_and_apart():
    moved = together(setup(arrays=(YARD, replace(YARD, name="b", input=2))))
    only = Plane(tilt_deg=30, azimuth_deg=180)
    bounds = PlaneBounds(low_tilt_deg=30, high_tilt_deg=30, low_azimuth_deg=180, high_azimuth_deg=180)
    assert best_together(surveyed(moved, bounds), "energy") == only
    assert best_apart(moved.stand, None, (bounds, bounds), (only, only), "energy") == (only, only)
