"""The kernel gives the energy of the plain chain, whatever the place, the planes, the panels and the inverter."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.energy.kernel import around_of, dc_w, input_table, nearest_array, open_planes, place_record
from service.core.model.facts import Array, Inverter
from service.core.model.fixing import Fixing
from service.core.model.place import HandRail, Overhang, Plane, RowInFront, Shade, SideWall, SkylinePoint
from tests.builders import array, inverter, one_input, panel
from tests.kernel_cases import PLACES, flickering, kernel_ac_w, nearest_ac_w, plain_ac_w, typical
from tests.skies import mixed_year

SKIES = st.builds(
    lambda year, at: year(*at), st.sampled_from([mixed_year, flickering, typical]), st.sampled_from(PLACES)
)
REARS = st.sampled_from([{}, {"count_rear_light": True}, {"count_rear_light": True, "rear_light_share": 0.1}])
SOFT = Shade(
    cause="tree", edge="soft", months=(4, 5, 6, 7, 8, 9), from_clock="14:30", to_clock="18:00", blocked_share=0.6
)
HARD = Shade(
    cause="mast", edge="hard", months=tuple(range(1, 13)), from_clock="09:20", to_clock="11:00", blocked_share=0.4
)
SURROUNDINGS = st.sampled_from(
    [
        {},
        {},
        {"overhang": Overhang(above_top_edge_m=1.5, reaches_out_m=1.2)},
        {"side_walls": (SideWall(side="left", distance_m=0.5, reaches_out_m=1.5),)},
        {"hand_rail": HandRail(above_top_edge_m=0.0, distance_m=0.1, thickness_m=0.05), "orientation": "lengthwise"},
        {"row_in_front": RowInFront(above_bottom_edge_m=0.6, distance_m=1.5)},
        {
            "hand_rail": HandRail(above_top_edge_m=0.05, distance_m=0.15, thickness_m=0.1),
            "row_in_front": RowInFront(above_bottom_edge_m=0.4, distance_m=0.8),
            "shade": (SOFT, HARD),
        },
        {"skyline": (SkylinePoint(azimuth_deg=100, height_deg=20), SkylinePoint(azimuth_deg=220, height_deg=5))},
        {
            "overhang": Overhang(above_top_edge_m=0.1, reaches_out_m=0.6),
            "side_walls": (
                SideWall(side="left", distance_m=0.2, reaches_out_m=0.5),
                SideWall(side="right", distance_m=0.0, reaches_out_m=0.3),
            ),
            "orientation": "lengthwise",
            "facade_azimuth_deg": 200.0,
        },
        {
            "overhang": Overhang(above_top_edge_m=0.1, reaches_out_m=0.6),
            "hand_rail": HandRail(above_top_edge_m=0.0, distance_m=0.1, thickness_m=0.05),
            "facade_azimuth_deg": 200.0,
        },
        {
            "overhang": Overhang(above_top_edge_m=1.5, reaches_out_m=1.2),
            "side_walls": (SideWall(side="left", distance_m=0.5, reaches_out_m=1.5),),
            "shade": (SOFT,),
            "facade_azimuth_deg": 160.0,
        },
        {"skyline": (SkylinePoint(azimuth_deg=120, height_deg=15),), "shade": (SOFT, HARD)},
    ]
)

STANDS = st.sampled_from(
    [
        {"overhang": Overhang(above_top_edge_m=0.2, reaches_out_m=0.4)},
        {"side_walls": (SideWall(side="right", distance_m=0.1, reaches_out_m=0.6),)},
        {
            "overhang": Overhang(above_top_edge_m=0.5, reaches_out_m=0.8),
            "side_walls": (
                SideWall(side="left", distance_m=0.2, reaches_out_m=0.5),
                SideWall(side="right", distance_m=0.0, reaches_out_m=0.3),
            ),
        },
    ]
)


@st.composite
def arrays(draw: st.DrawFn) -> Array:
    power = draw(st.floats(250, 700))
    panels = panel(
        rated_power_w=power,
        short_circuit_current_a=14.1 * power / 440,
        max_power_current_a=13.38 * power / 440,
        voc_coefficient_pct_per_k=draw(st.floats(-0.34, -0.22)),
        bifaciality_share=draw(st.floats(0, 0.9)),
        half_cells=draw(st.sampled_from([None, False, True])),
    )
    count = draw(st.sampled_from([1, 1, 2]))
    joined = draw(st.sampled_from(["series", "parallel"])) if count > 1 else "series"
    return array(
        panel=panels,
        count=count,
        joined=joined,
        mount=draw(st.sampled_from(["ground_frame", "hung_on_rail", "wall"])),
        plane=Plane(tilt_deg=draw(st.floats(0, 90)), azimuth_deg=draw(st.floats(0, 360))),
        dirt_share=draw(st.floats(0, 0.1)),
        height_above_ground_m=draw(st.floats(0, 20)),
        fixing=draw(st.sampled_from([None, Fixing(building_height_m=9.0), Fixing(building_height_m=25.0)])),
        **draw(SURROUNDINGS),
        **draw(REARS),
    )


@st.composite
def inverters(draw: st.DrawFn) -> Inverter:
    limits = one_input(
        tracking_min_v=draw(st.floats(12, 32)),
        tracking_max_v=draw(st.sampled_from([55, 60, 120])),
        start_voltage_v=draw(st.one_of(st.floats(16, 30), st.floats(33, 40.5), st.floats(66, 81))),
        max_current_a=draw(st.floats(8, 20)),
        max_panel_power_w=None,
    )
    return inverter(inputs=(limits, limits), set_limit_w=draw(st.floats(200, 800)))


@given(SKIES, st.lists(arrays(), min_size=1, max_size=2), inverters())
def test_the_year_is_that_of_the_plain_chain_within_two_parts_in_ten_thousand(sky, drawn, box):
    plain_kwh = plain_ac_w(drawn, box, sky).sum() / 1000
    # Of what the panels would give in 1000 h of full light, where dim light or an input leaves less than that.
    rated_kwh = sum(one.count * one.panel.rated_power_w for one in drawn)
    assert kernel_ac_w(drawn, box, sky).sum() / 1000 == pytest.approx(plain_kwh, rel=2e-4, abs=2e-4 * rated_kwh)


@given(SKIES, st.lists(arrays(), min_size=1, max_size=2), inverters())
def test_at_nearest_cells_the_year_is_that_of_the_plain_chain_within_five_parts_in_ten_thousand(sky, drawn, box):
    plain_kwh = plain_ac_w(drawn, box, sky).sum() / 1000
    rated_kwh = sum(one.count * one.panel.rated_power_w for one in drawn)
    assert nearest_ac_w(drawn, box, sky).sum() / 1000 == pytest.approx(plain_kwh, rel=5e-4, abs=5e-4 * rated_kwh)


@given(SKIES, arrays(), st.floats(250, 800))
def test_at_nearest_cells_an_open_panel_behind_usual_inputs_is_as_near_and_never_read_otherwise(sky, drawn, limit):
    bare = array(
        panel=drawn.panel, plane=drawn.plane, dirt_share=drawn.dirt_share, count_rear_light=drawn.count_rear_light
    )
    box = inverter(
        inputs=(one_input(start_voltage_v=16, tracking_min_v=12, max_panel_power_w=None),), set_limit_w=limit
    )
    record, table = place_record(sky), input_table(bare, box.inputs[0], 1.0)
    assert nearest_array(bare, record, open_planes(bare, record, [bare.plane], 0.2), table, 0.2) is not None
    plain_kwh = plain_ac_w([bare], box, sky).sum() / 1000
    rated_kwh = bare.panel.rated_power_w
    assert nearest_ac_w([bare], box, sky).sum() / 1000 == pytest.approx(plain_kwh, rel=5e-4, abs=5e-4 * rated_kwh)


@given(SKIES, arrays(), STANDS, st.sampled_from(["upright", "lengthwise"]), st.floats(0, 90))
def test_at_nearest_cells_a_panel_under_a_slab_or_beside_walls_is_as_near_and_never_read_otherwise(
    sky, drawn, stands, orientation, tilt
):
    one = array(
        panel=drawn.panel, plane=Plane(tilt_deg=tilt, azimuth_deg=170), dirt_share=drawn.dirt_share,
        orientation=orientation, facade_azimuth_deg=180.0, **stands,
    )  # fmt: skip
    box = inverter(inputs=(one_input(start_voltage_v=16, tracking_min_v=12, max_panel_power_w=None),))
    record, table = place_record(sky), input_table(one, box.inputs[0], 1.0)
    opened = open_planes(one, record, [one.plane], 0.2, around_of(one, sky, record))
    assert nearest_array(one, record, opened, table, 0.2) is not None
    plain_kwh = plain_ac_w([one], box, sky).sum() / 1000
    rated_kwh = one.panel.rated_power_w
    assert nearest_ac_w([one], box, sky).sum() / 1000 == pytest.approx(plain_kwh, rel=5e-4, abs=5e-4 * rated_kwh)


@given(SKIES, arrays(), st.floats(0.85, 1.02), st.floats(0.3, 0.83))
def test_a_start_voltage_at_the_edge_of_what_the_panel_reaches_costs_no_accuracy(sky, drawn, start, window):
    open_v = drawn.panel.open_circuit_voltage_v
    edge = one_input(start_voltage_v=start * open_v, tracking_min_v=window * open_v, max_panel_power_w=None)
    box, single = inverter(inputs=(edge,)), replace(drawn, count=1, joined="series")
    plain_kwh = plain_ac_w([single], box, sky).sum() / 1000
    within = 2e-4 * drawn.panel.rated_power_w
    assert kernel_ac_w([single], box, sky).sum() / 1000 == pytest.approx(plain_kwh, rel=2e-4, abs=within)


@given(SKIES, arrays(), inverters())
def test_each_hour_is_that_of_the_plain_chain_within_a_watt_and_a_half(sky, drawn, box):
    apart = np.abs(kernel_ac_w([drawn], box, sky) - plain_ac_w([drawn], box, sky))
    assert apart.max() < 1.5 + 0.003 * drawn.count * drawn.panel.rated_power_w


@given(SKIES, arrays())
def test_a_plane_among_others_gives_what_it_gives_alone(sky, drawn):
    bare = array(panel=drawn.panel, mount=drawn.mount)
    record, table = place_record(sky), input_table(bare, one_input(), 1.0)
    planes = [drawn.plane, Plane(tilt_deg=30, azimuth_deg=180), Plane(tilt_deg=90, azimuth_deg=10)]
    together = dc_w(open_planes(bare, record, planes, 0.2).light(), table)
    for plane, power in zip(planes, together, strict=True):
        alone = dc_w(open_planes(bare, record, [plane], 0.2).light(), table)[0]
        assert power == pytest.approx(alone, abs=0.6)
        assert power.sum() == pytest.approx(alone.sum(), rel=1e-5)
