"""How far a slab's shadow reaches over a panel, by hand."""

import numpy as np
import pytest

from service.core.model.place import Overhang
from service.core.sky import profile_angle_deg
from service.core.sky.overhang import down_the_panel, slab_shadow_m, turned_m


def to_sun(height_deg, aside_deg=0.0):
    """Out of the facade, to the right and up; ``aside_deg`` to the right of straight out."""
    height, aside = np.radians(height_deg), np.radians(aside_deg)
    return np.cos(height) * np.cos(aside), np.cos(height) * np.sin(aside), np.sin(height)


def slab_m(above_m, reaches_m, height_deg, aside_deg=0.0, tilt_deg=90.0):
    out, _, up = to_sun(height_deg, aside_deg)
    slab = Overhang(above_top_edge_m=above_m, reaches_out_m=reaches_m)
    return float(slab_shadow_m(slab, *down_the_panel(tilt_deg), out, up))


def test_the_profile_angle_is_that_of_the_slabs_edge_above_the_panels_upper_edge():
    assert profile_angle_deg(Overhang(above_top_edge_m=1.0, reaches_out_m=1.0)) == pytest.approx(45.0)
    assert profile_angle_deg(Overhang(above_top_edge_m=0.0, reaches_out_m=0.5)) == 0.0
    assert profile_angle_deg(Overhang(above_top_edge_m=0.0, reaches_out_m=0.0)) == 90.0


def test_at_45_degrees_a_slab_shades_as_far_down_an_upright_panel_as_it_reaches_out():
    assert slab_m(0.0, 0.3, 45.0) == pytest.approx(0.3)
    assert slab_m(0.1, 0.3, 45.0) == pytest.approx(0.2)
    assert slab_m(0.0, 0.3, 60.0) == pytest.approx(0.3 * np.sqrt(3.0))


@pytest.mark.parametrize(("height_deg", "shaded"), [(44.0, False), (46.0, True)])
def test_the_shadow_begins_where_the_sun_passes_the_profile_angle(height_deg, shaded):
    assert (slab_m(1.0, 1.0, height_deg) > 0.0) is shaded


@pytest.mark.parametrize(("height_deg", "shaded"), [(26.0, False), (27.0, True)])
def test_a_sun_aside_must_stand_lower_to_shine_below_a_long_slab(height_deg, shaded):
    """tan(profile angle) = tan(height) / cos(angle from the front): 60 deg aside the edge lies at atan(1/2) = 26.57."""
    assert (slab_m(1.0, 1.0, height_deg, 60.0) > 0.0) is shaded


def test_the_lower_part_of_a_leaning_panel_comes_out_from_under_the_slab():
    """At 30 degrees and t down the panel a slab at its upper edge is t/2 above and reaches 0.3 - 0.866 t out.

    A sun 45 degrees high shines in under the edge where these are equal.
    """
    assert slab_m(0.0, 0.3, 45.0, tilt_deg=30.0) == pytest.approx(0.3 / (0.5 + np.sqrt(0.75)))
    assert slab_m(0.1, 0.3, 45.0, tilt_deg=30.0) == pytest.approx(0.2 / (0.5 + np.sqrt(0.75)))


def test_no_sun_comes_from_behind_a_slab():
    assert slab_m(5.0, 0.1, 30.0, 170.0) == np.inf
    assert slab_m(0.0, 0.0, 30.0, 170.0) == np.inf


def test_a_slab_that_does_not_reach_out_leaves_the_sun_in_front():
    assert slab_m(0.0, 0.0, 89.0) <= 0.0


def test_turned_panels_count_by_the_corner_that_is_turned_in_and_come_out_less_further_down():
    """By hand: half a metre aside of the middle, turned by 30 degrees, a corner lies 0.25 m further in."""
    down, outwards, further_in = turned_m([60.0, 60.0, 60.0, 60.0], [0.0, 30.0, -30.0, 90.0], 0.5)
    assert down == pytest.approx(np.sqrt(0.75))
    assert outwards == pytest.approx([0.5, 0.5 * np.sqrt(0.75), 0.5 * np.sqrt(0.75), 0.0])
    assert further_in == pytest.approx([0.0, 0.25, 0.25, 0.5])
    assert turned_m(60.0, 150.0, 0.5) == pytest.approx(turned_m(60.0, 90.0, 0.5), abs=1e-12)


def test_before_a_turned_panel_a_slab_is_as_one_that_reaches_further_out():
    out, _, up = to_sun(45.0)
    slab = Overhang(above_top_edge_m=0.1, reaches_out_m=0.3)
    shadow = slab_shadow_m(slab, *(np.asarray(one) for one in turned_m(90.0, 30.0, 0.5)[:2]), out, up, 0.25)
    assert float(shadow) == pytest.approx(slab_m(0.1, 0.55, 45.0))
