"""Bands of shadow across a panel's face, by hand: a hand rail above it, a row in front, and which cells they reach."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.model.place import HandRail, Plane, RowInFront, SkylinePoint
from service.core.sky import plane_light
from service.core.sky.edge_shadow import sky_behind_row, with_edges
from service.core.sky.incidence import direction
from service.core.sky.light import open_surroundings
from tests.builders import array, panel
from tests.skies import mixed_year, overcast

SKY = mixed_year(54.2, 12.3)
RAIL = HandRail(above_top_edge_m=0.0, distance_m=0.1, thickness_m=0.05)


def shadows(one, height_deg, azimuth_deg=150.0):
    """Part of the panel whose sections are reached, and how much of the row of cells lies in the shadow."""
    sun = direction(np.array([90.0 - height_deg]), np.array([azimuth_deg]))
    tilt, azimuth = np.array([one.plane.tilt_deg]), np.array([one.plane.azimuth_deg])
    cosine = np.maximum(direction(tilt, azimuth).T @ sun, 0.0)
    found = with_edges(one, azimuth, sun, cosine, open_surroundings(1).shading)
    return float(found.sections_lost_share.ravel()[0]), float(found.hard_time_share.ravel()[0])


def test_a_rail_at_45_degrees_dims_the_top_row_between_5_and_10_cm_under_the_edge():
    """A rail 5 cm thick, 10 cm in front of the upper edge and level with it: 5 of a cell's 17 cm lie in its shadow."""
    lost, dimmed = shadows(array(hand_rail=RAIL, orientation="lengthwise"), 45.0)
    assert dimmed == pytest.approx(0.05 / 0.17)
    assert lost == pytest.approx(1 / 3)


@pytest.mark.parametrize(
    ("orientation", "half_cells", "share"),
    [("lengthwise", None, 1 / 3), ("lengthwise", True, 1 / 3), ("upright", None, 1.0), ("upright", True, 1 / 2)],
)
def test_a_shaded_row_costs_the_sections_that_it_reaches(orientation, half_cells, share):
    cut = array(hand_rail=RAIL, orientation=orientation, panel=panel(half_cells=half_cells))
    assert shadows(cut, 45.0)[0] == pytest.approx(share)


def test_a_low_sun_shines_under_the_rail_and_one_from_behind_casts_no_shadow():
    above = array(hand_rail=replace(RAIL, above_top_edge_m=0.1))
    assert shadows(above, 30.0) == (0.0, 0.0)
    assert shadows(above, 50.0, azimuth_deg=330.0) == (0.0, 0.0)
    assert shadows(above, 60.0)[1] > 0


@pytest.mark.parametrize(("height_deg", "reached"), [(15, 2 / 3), (25, 1 / 3), (30, 0.0)])
def test_a_row_in_front_shades_from_below_until_the_sun_stands_over_its_edge(height_deg, reached):
    """Rows 1 m apart, lengthwise at 30 degrees, 0.567 m high: shadow to atan(0.567) = 29.6 degrees.

    At 25 degrees it ends (0.567 - tan 25) / (sin 30 + tan 25 cos 30) = 0.11 of 1.134 m up the slope, at 15 it is 0.41.
    """
    row = RowInFront(above_bottom_edge_m=0.567, distance_m=1.0)
    one = array(plane=Plane(tilt_deg=30, azimuth_deg=150), orientation="lengthwise", row_in_front=row)
    assert shadows(one, height_deg)[0] == pytest.approx(reached)


def test_an_upright_row_hides_the_sky_under_its_edge_from_one_behind():
    """From the middle of the panel, 0.567 m up, an edge at 1.567 m and 1 m out stands 45 degrees high."""
    behind = array(orientation="lengthwise", row_in_front=RowInFront(above_bottom_edge_m=1.567, distance_m=1.0))
    assert sky_behind_row(behind, np.array([90.0]))[0] == pytest.approx(np.sin(np.pi / 4) / 2)
    dull = overcast(SKY)
    open_, hidden = plane_light(dull, array(orientation="lengthwise"), 0.0), plane_light(dull, behind, 0.0)
    assert hidden.after_overhang_w_per_m2.sum() == pytest.approx(
        open_.after_overhang_w_per_m2.sum() * (1 - np.sin(np.pi / 4)), rel=1e-9
    )


def test_a_rail_takes_beam_only_and_never_more_than_the_rows_of_cells_behind_it():
    bare, railed = plane_light(SKY, array(), 0.2), plane_light(SKY, array(hand_rail=RAIL), 0.2)
    assert 0 < railed.after_shade_w_per_m2.sum() < bare.after_shade_w_per_m2.sum()
    dull = overcast(SKY)
    assert plane_light(dull, array(hand_rail=RAIL), 0.2).after_shade_w_per_m2.sum() == pytest.approx(
        plane_light(dull, array(), 0.2).after_shade_w_per_m2.sum()
    )


def test_a_bright_house_in_front_gives_back_a_part_of_what_it_hides():
    house = (SkylinePoint(azimuth_deg=0, height_deg=30),)
    bare, black, bright = (
        float(plane_light(SKY, array(skyline=skyline, facing_reflectance_share=back), 0.2).effective_w_per_m2.sum())
        for skyline, back in (((), None), (house, None), (house, 0.5))
    )
    assert black < bright < bare


def test_a_house_that_throws_back_half_its_light_stands_for_a_quarter_of_the_sky_that_it_hides():
    """By hand, under an even sky and over black ground: an upright face gets half the sky's light, gives back half."""
    dull, house = overcast(SKY), (SkylinePoint(azimuth_deg=0, height_deg=30),)
    bare = plane_light(dull, array(), 0.0).after_skyline_w_per_m2.sum()
    black = plane_light(dull, array(skyline=house), 0.0).after_skyline_w_per_m2.sum()
    bright = plane_light(dull, array(skyline=house, facing_reflectance_share=0.5), 0.0).after_skyline_w_per_m2.sum()
    assert bright - black == pytest.approx((bare - black) / 4, rel=1e-6)
