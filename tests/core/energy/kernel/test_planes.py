"""Light by planes, d.c. power with its thresholds, a.c. power from the table."""

import numpy as np
import pytest

from service.core.energy.kernel import (
    STEP_W_PER_M2,
    dc_w,
    input_table,
    light_among,
    open_planes,
    output_table,
    place_record,
)
from service.core.inverter import ac_from_dc, clipped, curve_through
from service.core.model.place import Plane
from tests.builders import array, inverter, one_input, panel
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
PLANES = [Plane(tilt_deg=90, azimuth_deg=150), Plane(tilt_deg=30, azimuth_deg=180), Plane(tilt_deg=0, azimuth_deg=0)]


def test_under_an_open_sky_both_ways_to_the_light_agree():
    record = place_record(SKY)
    products = open_planes(array(), record, PLANES, 0.2).light()
    among = light_among(array(), SKY, record, PLANES, 0.2)
    assert products.nodes == pytest.approx(among.nodes, abs=0.05 / STEP_W_PER_M2)
    assert products.steps == pytest.approx(among.steps, abs=0.005)


def test_a_panel_that_never_reaches_the_start_voltage_gives_nothing():
    light = open_planes(array(), place_record(SKY), PLANES, 0.2).light()
    assert dc_w(light, input_table(array(), one_input(start_voltage_v=55), 1.0)).max() == 0


def test_an_input_that_started_in_the_cool_runs_on_when_the_panel_warms():
    light = open_planes(array(), place_record(SKY), PLANES[1:2], 0.2).light()
    table = input_table(array(), one_input(start_voltage_v=37), 1.0)
    running = dc_w(light, table)[0] > 0
    reached = light.nodes[0] * STEP_W_PER_M2 >= np.interp(
        (light.steps[0] - 0.5) * 2 - 50, np.arange(-50, 116.5), table.starts_from.by_degree_w_per_m2
    )
    assert np.all(running[reached])
    assert np.count_nonzero(running & ~reached) > 50


def test_hours_of_too_much_current_for_the_window_give_nothing():
    two = array(count=2, joined="series")
    light = open_planes(two, place_record(SKY), PLANES[1:2], 0.2).light()
    power = dc_w(light, input_table(two, one_input(tracking_max_v=55, max_current_a=9), 1.0))
    assert power[light.nodes > 320].max() == 0  # 800 W/m2: more than 9 A at 55 V, 11 at the best point
    assert power[(light.nodes > 80) & (light.nodes < 200)].min() > 0


def test_the_output_is_the_inverters_up_to_its_limit():
    box = inverter(set_limit_w=600)
    dc = np.array([0, 20, 100, 400, 900], np.float32)
    curve = curve_through(box.weighted_efficiency_share, box.efficiency_weighting)
    expected = np.minimum(ac_from_dc(dc.astype(float), box.ac_power_w, curve), 600)
    assert output_table(box, 1000).of(dc) == pytest.approx(expected, abs=0.13)  # a bin is 0.12 W wide


def test_what_flickers_above_the_limit_is_cut_as_the_inverter_cuts_it():
    box = inverter(set_limit_w=600)
    dc, flicker = np.array([0, 100, 500, 620, 900, 900], np.float32), np.array([1, 1, 0.4, 0.4, 0.1, 1], np.float32)
    curve = curve_through(box.weighted_efficiency_share, box.efficiency_weighting)
    expected, _ = clipped(ac_from_dc(dc.astype(float), box.ac_power_w, curve), 600, flicker.astype(float))
    assert output_table(box, 1000).of(dc, flicker) == pytest.approx(expected, abs=0.2)
    assert expected[2] < 0.95 * output_table(box, 1000).of(dc)[2]


@pytest.mark.parametrize("rear", [{"mount": "ground_frame"}, {"mount": "wall"}, {"rear_light_share": 0.1}])
def test_both_ways_to_the_light_agree_on_a_rear_that_counts_and_it_adds(rear):
    both = array(panel=panel(bifaciality_share=0.8), count_rear_light=True, **rear)
    record = place_record(SKY)
    products = open_planes(both, record, PLANES, 0.2).light()
    among = light_among(both, SKY, record, PLANES, 0.2)
    front = open_planes(array(mount=both.mount), record, PLANES, 0.2).light()
    assert products.nodes == pytest.approx(among.nodes, abs=0.05 / STEP_W_PER_M2)
    assert np.all(products.nodes.sum(axis=1) > 1.005 * front.nodes.sum(axis=1))
    assert np.array_equal(products.steps, front.steps)  # the rear's light is not taken to warm the cells
