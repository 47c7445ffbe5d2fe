"""May arrays that stand alike share their light, and inputs that hold the same their hours?"""

from dataclasses import fields, replace

import numpy as np
import pytest

from service.core.energy import Lights, direct_current
from service.core.energy.cells import cell_year
from service.core.energy.lights import MOST_KEPT
from service.core.model.facts import Array
from service.core.model.place import Cover, HandRail, Overhang, Plane, RowInFront, Shade, SideWall, SkylinePoint
from service.core.sky import plane_light
from tests.builders import array, inverter, one_input, panel, setup
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
# How an array stands, changed so that its light changes; every other field of an array leaves it as it is.
STANDS = {
    "plane": Plane(tilt_deg=35.0, azimuth_deg=200.0),
    "skyline": (SkylinePoint(azimuth_deg=0.0, height_deg=20.0), SkylinePoint(azimuth_deg=180.0, height_deg=20.0)),
    "overhang": Overhang(above_top_edge_m=0.2, reaches_out_m=1.2),
    "side_walls": (SideWall(side="right", distance_m=0.2, reaches_out_m=1.5),),
    "cover": Cover(material="glass", light_through_share=0.8),
    "shade": (Shade(cause="tree", edge="soft", months=(6,), from_clock="08:00", to_clock="18:00", blocked_share=0.5),),
    "hand_rail": HandRail(above_top_edge_m=0.0, distance_m=0.1, thickness_m=0.1),
    "row_in_front": RowInFront(above_bottom_edge_m=1.0, distance_m=0.8),
}


@pytest.mark.parametrize("name", STANDS)
def test_what_changes_the_light_is_told_apart(name: str) -> None:
    lights = Lights()
    plain, changed = array(), replace(array(), **{name: STANDS[name]})
    first, other = lights.on(SKY, plain, 0.2), lights.on(SKY, changed, 0.2)
    assert not np.array_equal(first.effective_w_per_m2, other.effective_w_per_m2)
    np.testing.assert_array_equal(other.effective_w_per_m2, plane_light(SKY, changed, 0.2).effective_w_per_m2)


@pytest.mark.parametrize(
    ("before", "changed"),
    [
        ("hand_rail", {"orientation": "lengthwise"}),
        ("hand_rail", {"panel": panel(half_cells=True)}),
        ("row_in_front", {"panel": panel(length_mm=1200)}),
        ("overhang", {"orientation": "lengthwise"}),
        ("overhang", {"panel": panel(half_cells=True)}),
        ("overhang", {"facade_azimuth_deg": 120.0}),
        ("side_walls", {"orientation": "lengthwise"}),
        ("side_walls", {"panel": panel(width_mm=800)}),
        ("skyline", {"facing_reflectance_share": 0.5}),
    ],
)
def test_what_matters_beside_an_edge_or_a_skyline_is_told_apart_there(before: str, changed: dict[str, object]) -> None:
    lights = Lights()
    plain = replace(array(orientation="upright"), **{before: STANDS[before]})
    first, other = lights.on(SKY, plain, 0.2), lights.on(SKY, replace(plain, **changed), 0.2)
    assert not np.array_equal(first.effective_w_per_m2, other.effective_w_per_m2)


def test_panels_of_one_size_and_cut_share_the_light_under_a_slab() -> None:
    lights, under = Lights(), replace(array(), overhang=STANDS["overhang"])
    other = replace(under, panel=panel(rated_power_w=300))
    assert lights.on(SKY, other, 0.2) is lights.on(SKY, under, 0.2)


def test_everything_else_of_an_array_leaves_it_as_it_is_and_it_is_kept() -> None:
    lights = Lights()
    plain = array()
    other: dict[str, object] = {
        "name": "b", "input": 2, "count": 3, "joined": "parallel", "mount": "wall", "orientation": "lengthwise",
        "height_above_ground_m": 30.0, "dirt_share": 0.2, "mismatch_share": 0.1, "lead_length_m": 30.0, "lead_mm2": 2.5,
        "panel": panel(rated_power_w=200), "hottest_cell_c": 80.0, "rear_light_share": 0.3, "count_rear_light": True,
        "string_fuse_a": 15.0,
    }  # fmt: skip
    with_others = {
        "fixing",
        "facade_azimuth_deg",
        "facing_reflectance_share",
    }  # beside walls, a skyline
    assert {one.name for one in fields(Array)} - set(other) - set(STANDS) == with_others
    changed = replace(plain, **other)
    assert lights.on(SKY, changed, 0.2) is lights.on(SKY, plain, 0.2)
    np.testing.assert_array_equal(
        plane_light(SKY, changed, 0.2).effective_w_per_m2, plane_light(SKY, plain, 0.2).effective_w_per_m2
    )
    assert lights.on(SKY, plain, 0.5) is not lights.on(SKY, plain, 0.2)


def test_cells_go_by_the_way_of_mounting_and_are_kept_with_the_light() -> None:
    lights = Lights()
    plain, other = array(mount="ground_frame"), array(mount="wall")
    (light, cells), (same, warmer) = (lights.with_cells(SKY, one, 0.2) for one in (plain, other))
    assert same is light
    assert warmer.hottest_c > cells.hottest_c
    np.testing.assert_array_equal(warmer.by_hour_c, cell_year("wall", light, SKY).by_hour_c)
    assert lights.with_cells(SKY, plain, 0.2)[1] is cells


def test_light_of_another_year_is_another() -> None:
    lights, shifted = Lights(), replace(SKY, sun_azimuth_deg=SKY.sun_azimuth_deg + 30.0)
    lights.on(SKY, array(), 0.2)
    found = lights.on(shifted, array(), 0.2)
    np.testing.assert_array_equal(found.effective_w_per_m2, plane_light(shifted, array(), 0.2).effective_w_per_m2)


def test_equal_inputs_give_the_same_hours_and_unlike_ones_their_own() -> None:
    twins = (array(name="a", input=1), array(name="b", input=2))
    alike = direct_current(setup(arrays=twins), SKY)
    alone = direct_current(setup(arrays=twins[:1]), SKY)
    for hours in alike:
        np.testing.assert_array_equal(hours.dc_w, alone[0].dc_w)
    small = inverter(inputs=(one_input(), one_input(max_current_a=5.0)))
    first, second = direct_current(setup(arrays=twins, inverter=small), SKY)
    assert second.dc_w.sum() < first.dc_w.sum()


def test_the_last_stands_are_kept_and_no_more() -> None:
    lights, first = Lights(), array()
    kept = lights.on(SKY, first, 0.2)
    for tilt in range(MOST_KEPT - 1):
        lights.on(SKY, replace(first, plane=Plane(tilt_deg=float(tilt), azimuth_deg=170.0)), 0.2)
    assert lights.on(SKY, first, 0.2) is kept
    for tilt in range(MOST_KEPT):
        lights.on(SKY, replace(first, plane=Plane(tilt_deg=float(tilt), azimuth_deg=190.0)), 0.2)
    assert lights.on(SKY, first, 0.2) is not kept
