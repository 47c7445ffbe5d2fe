from dataclasses import fields, replace
from itertools import pairwise

import numpy as np
import pytest

from service.core.model.place import Cover, HandRail, Overhang, Plane, RowInFront, Shade, SideWall, SkylinePoint
from service.core.sky import (
    PlaneLight,
    daylight_of,
    effective_light,
    hay_davies,
    light_of_planes,
    open_surroundings,
    plane_light,
    surroundings_of,
)
from tests.builders import array
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
NORTH_WALL = tuple(SkylinePoint(azimuth_deg=a, height_deg=h) for a, h in ((100, 0), (110, 30), (250, 30), (260, 0)))
TREE = Shade(cause="tree", edge="soft", months=(5, 6, 7), from_clock="15:00", to_clock="18:00", blocked_share=0.6)
MAST = replace(TREE, cause="mast", edge="hard", from_clock="10:30", to_clock="12:00", blocked_share=0.2)
CROWDED = array(
    plane=Plane(tilt_deg=75, azimuth_deg=160),
    skyline=NORTH_WALL,
    overhang=Overhang(above_top_edge_m=1.6, reaches_out_m=0.6),
    side_walls=(SideWall(side="left", distance_m=0.4, reaches_out_m=1.2),),
    cover=Cover(material="glass", light_through_share=0.8),
    shade=(TREE, MAST),
)


def stages(light):
    return [getattr(light, field.name) for field in fields(PlaneLight) if field.name.endswith("_w_per_m2")]


def test_each_obstacle_takes_something_and_the_account_only_falls():
    light = stages(plane_light(SKY, CROWDED, 0.2))
    for before, after in pairwise(light):
        assert (after <= before).all()
        assert after.sum() < before.sum()
    assert (light[-1] >= 0.0).all()


def test_a_bare_plane_gets_what_the_transposition_says():
    plane = Plane(tilt_deg=60, azimuth_deg=150)
    light = plane_light(SKY, array(plane=plane), 0.3)
    bare = hay_davies(
        plane,
        SKY.sun_zenith_deg,
        SKY.sun_azimuth_deg,
        (SKY.ghi_w_per_m2, SKY.dni_w_per_m2, SKY.dhi_w_per_m2),
        SKY.extraterrestrial_w_per_m2,
        0.3,
    ).total_w_per_m2()
    for stage in stages(light)[:-1]:
        np.testing.assert_allclose(stage, bare, atol=1e-9)
    assert 0.9 < light.effective_w_per_m2.sum() / bare.sum() < 0.98


def test_nights_are_dark_and_the_year_has_all_its_hours():
    light = plane_light(SKY, CROWDED, 0.2)
    assert light.open_w_per_m2.shape == SKY.ghi_w_per_m2.shape
    assert (light.open_w_per_m2[SKY.ghi_w_per_m2 == 0.0] == 0.0).all()


def test_the_answer_cannot_be_written_to():
    light = plane_light(SKY, array(), 0.2)
    with pytest.raises(ValueError, match="read-only"):
        light.open_w_per_m2[0] = 1.0


def test_the_skyline_hides_beam_and_glow_of_a_low_sun_and_its_part_of_the_sky():
    noon = int(np.argmax(np.where(SKY.calendar.month == 12, SKY.dni_w_per_m2, -1.0)))
    assert 90.0 - SKY.sun_zenith_deg[noon] < 30.0
    south = array(plane=Plane(tilt_deg=90, azimuth_deg=180), skyline=NORTH_WALL)
    light = plane_light(SKY, south, 0.0)
    even = SKY.dhi_w_per_m2[noon] * (1.0 - SKY.dni_w_per_m2[noon] / SKY.extraterrestrial_w_per_m2[noon])
    # A wall 30 deg high all across the front of an upright plane leaves it under half of its half of the sky.
    assert 0.1 * even < light.after_skyline_w_per_m2[noon] < 0.25 * even
    assert light.open_w_per_m2[noon] > 5.0 * light.after_skyline_w_per_m2[noon]


def test_the_cover_lets_through_its_share():
    light = plane_light(SKY, CROWDED, 0.2)
    np.testing.assert_allclose(light.after_cover_w_per_m2, 0.8 * light.after_shade_w_per_m2)


def test_shade_follows_the_wall_clock_through_summer_time():
    light = plane_light(SKY, array(plane=Plane(tilt_deg=30, azimuth_deg=180), shade=(TREE,)), 0.2)
    shaded = light.after_shade_w_per_m2 < light.after_overhang_w_per_m2
    assert set(SKY.calendar.clock_h[shaded]) == {15.0, 16.0, 17.0}
    assert set(SKY.calendar.month[shaded]) == {5, 6, 7}


def test_many_planes_at_once_get_what_each_gets_alone():
    planes = [Plane(tilt_deg=20, azimuth_deg=90), Plane(tilt_deg=90, azimuth_deg=200)]
    daylight = daylight_of(SKY)
    many = effective_light(CROWDED, planes, daylight, surroundings_of(CROWDED, SKY, daylight), 0.2)
    for row, plane in zip(many, planes, strict=True):
        alone = plane_light(SKY, replace(CROWDED, plane=plane), 0.2).effective_w_per_m2
        np.testing.assert_allclose(row, alone[daylight.rows], atol=1e-9)


@pytest.mark.parametrize("orientation", ["upright", "lengthwise"])
@pytest.mark.parametrize("around", [
    {"hand_rail": HandRail(above_top_edge_m=0.05, distance_m=0.1, thickness_m=0.06)},
    {"row_in_front": RowInFront(above_bottom_edge_m=0.5, distance_m=1.0), "facade_azimuth_deg": 170.0,
     "side_walls": (SideWall(side="left", distance_m=0.3, reaches_out_m=1.5),)},
    {"overhang": Overhang(above_top_edge_m=0.4, reaches_out_m=0.8), "facade_azimuth_deg": 170.0,
     "side_walls": (SideWall(side="right", distance_m=0.1, reaches_out_m=0.8),)},
])  # fmt: skip
def test_in_single_precision_the_years_light_is_the_same_to_a_millionth_of_the_bare_one(around, orientation):
    one = replace(CROWDED, overhang=None, side_walls=(), orientation=orientation)
    one = replace(one, **around)
    planes = [Plane(tilt_deg=tilt, azimuth_deg=azimuth) for tilt in (0, 25, 90) for azimuth in (80, 170, 200)]
    daylight = daylight_of(SKY)
    surroundings = surroundings_of(one, SKY, daylight)
    bare = light_of_planes(array(), planes, daylight, open_surroundings(daylight.rows.size), 0.2)[0].sum()
    exact = light_of_planes(one, planes, daylight, surroundings, 0.2)
    single = light_of_planes(one, planes, daylight.in_single(), surroundings.in_single(), 0.2)
    for light, same in zip(exact, single, strict=True):
        assert same.dtype == np.float32
        assert same.sum(axis=1, dtype=np.float64) == pytest.approx(light.sum(axis=1), abs=1e-6 * bare / len(planes))
