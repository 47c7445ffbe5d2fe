"""Maps and rankings at nearest cells: where they are read so, and that rear, rim and flicker are not forgotten."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy.kernel import (
    dc_w,
    input_table,
    nearest_array,
    nearest_output,
    open_planes,
    output_table,
    place_record,
)
from service.core.model.place import Plane
from tests.builders import array, inverter, one_input, panel
from tests.kernel_cases import typical

SKY = typical(54.2, 12.3)
PLANES = [Plane(tilt_deg=90, azimuth_deg=20), Plane(tilt_deg=30, azimuth_deg=180), Plane(tilt_deg=0, azimuth_deg=0)]
EASY = one_input(start_voltage_v=16, tracking_min_v=12, max_panel_power_w=None)


def both(asked, sky, limits=EASY):
    """By nearest cells and by the finer tables."""
    record, table = place_record(sky), input_table(asked, limits, 1.0)
    opened = open_planes(asked, record, PLANES, 0.2)
    cells = nearest_array(asked, record, opened, table, 0.2)
    assert cells is not None
    return cells.dc_of(opened).sum(axis=1), dc_w(opened.light(), table).sum(axis=1)


@pytest.mark.parametrize("asked", [
    array(),
    array(mount="ground_frame"),
    array(panel=panel(bifaciality_share=0.9), mount="ground_frame", count_rear_light=True),
    array(panel=panel(bifaciality_share=0.9), mount="ground_frame", count_rear_light=True, rear_light_share=0.2),
    array(dirt_share=0.2),
])  # fmt: skip
def test_a_plane_is_read_at_nearest_cells_as_by_the_finer_tables(asked):
    roughly, finely = both(asked, SKY)
    assert roughly == pytest.approx(finely, abs=3e-4 * float(finely.max()))


def test_light_beyond_the_table_counts_as_its_edge():
    glaring = replace(SKY, dni_w_per_m2=SKY.dni_w_per_m2 * 3, air_c=SKY.air_c * 3)
    roughly, finely = both(array(), glaring)
    assert roughly == pytest.approx(finely, abs=5e-4 * float(finely.max()))


@pytest.mark.parametrize("limits", [
    one_input(start_voltage_v=37, max_panel_power_w=None),
    one_input(start_voltage_v=16, tracking_min_v=12, tracking_max_v=36, max_current_a=40, max_panel_power_w=None),
    one_input(start_voltage_v=16, tracking_min_v=12, tracking_max_v=30, max_panel_power_w=None),
])  # fmt: skip
def test_where_power_jumps_or_a_window_bends_it_no_cell_is_enough(limits):
    record, table = place_record(SKY), input_table(array(), limits, 1.0)
    assert nearest_array(array(), record, open_planes(array(), record, PLANES, 0.2), table, 0.2) is None


def test_what_comes_and_goes_is_cut_by_the_limit_hour_by_hour():
    record = place_record(SKY)
    assert record.flicker_share.max() > 0.3
    output = output_table(inverter(set_limit_w=400), 900)
    dc = np.linspace(0, 900, record.air_c.size, dtype=np.float32)[None]
    finely = output.of(dc, record.flicker_share)[0] * 0.9
    roughly = nearest_output(output, record, 0.9).of(dc)[0]
    assert roughly == pytest.approx(finely, abs=400 * 0.03)
    assert roughly.sum() == pytest.approx(finely.sum(), rel=1e-4)
    assert roughly[0] == 0


def test_without_flicker_or_light_there_is_an_output_too():
    steady = replace(place_record(SKY), flicker_share=None)
    output = output_table(inverter(set_limit_w=400), 900)
    dc = np.linspace(0, 900, steady.air_c.size, dtype=np.float32)[None]
    assert nearest_output(output, steady, 1.0).of(dc) == pytest.approx(output.of(dc), abs=0.5)
    dark = place_record(replace(SKY, ghi_w_per_m2=np.zeros(8760)))
    assert nearest_output(output, dark, 1.0).of(np.zeros((3, dark.air_c.size), np.float32)).sum() == 0
