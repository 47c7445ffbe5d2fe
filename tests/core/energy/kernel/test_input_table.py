"""The table of an input against the input itself."""

import numpy as np
import pytest

from service.core.energy.kernel import input_table
from service.core.energy.kernel.input_table import COLDEST_C, IRRADIANCES, STEP_C, STEP_W_PER_M2, TEMPERATURES
from service.core.energy.leads import lead_resistance_ohm
from service.core.panel import diode_of, drawn_power, with_series_resistance
from tests.builders import array, one_input, panel


def table_w(table, irradiance_w_per_m2, cell_c):
    """What the table says at a node's temperature."""
    node = irradiance_w_per_m2 / STEP_W_PER_M2
    cell = int(node) * TEMPERATURES + round((cell_c - COLDEST_C) / STEP_C)
    return table.by_step_w[cell] * node


@pytest.mark.parametrize("limits", [one_input(), one_input(max_current_a=9), one_input(tracking_min_v=31)])
@pytest.mark.parametrize(("light", "cell_c"), [(40, 4), (203, 12), (555, 30), (997, 52), (1200, 70)])
def test_a_table_gives_what_the_input_draws(limits, light, cell_c):
    of_panel = array(dirt_share=0)
    leads = lead_resistance_ohm(of_panel.lead_length_m, of_panel.lead_mm2)
    diode = with_series_resistance(diode_of(of_panel.panel), leads)
    drawn = drawn_power(diode, light, cell_c, in_series=1, in_parallel=1, limits=limits).power_w[0]
    assert table_w(input_table(of_panel, limits, 1.0), light, cell_c) == pytest.approx(drawn, rel=1e-3, abs=0.05)


def test_ageing_lowers_the_table():
    fresh, aged = (input_table(array(), one_input(), left).most_w for left in (1.0, 0.9))
    assert aged < fresh
    fresh, aged = (table_w(input_table(array(), one_input(), left), 500, 30) for left in (1.0, 0.9))
    assert aged / fresh == pytest.approx(0.9, abs=0.005)


def test_a_start_voltage_that_dusk_reaches_needs_no_threshold():
    assert input_table(array(), one_input(start_voltage_v=16), 1.0).starts_from is None


def test_a_start_voltage_near_the_open_circuit_voltage_needs_more_light_on_a_warm_panel():
    starts = input_table(array(), one_input(start_voltage_v=38), 1.0).starts_from
    assert starts is not None
    assert np.all(np.diff(starts.by_degree_w_per_m2) > 0)


def test_a_window_below_a_strong_string_is_left_above_some_light():
    two = array(count=2, joined="series", panel=panel())
    excluded = input_table(two, one_input(tracking_max_v=55, max_current_a=12), 1.0).excluded_from
    assert excluded is not None
    assert (
        700 < excluded.by_degree_w_per_m2[75] < 1000
    )  # 12 of 14.1 A at 25 C, a little more for what the voltage costs


def test_no_limit_excludes_where_the_window_reaches_above_the_panel():
    assert input_table(array(), one_input(tracking_max_v=60), 1.0).excluded_from is None


def test_the_table_covers_its_lattice():
    assert input_table(array(), one_input(), 1.0).by_step_w.shape == (IRRADIANCES * TEMPERATURES,)
