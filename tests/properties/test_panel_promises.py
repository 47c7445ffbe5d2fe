"""Panels and inputs: what holds for any plausible sheet."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.panel import current_at, curve_at, diode_of, drawn_power, max_power, open_circuit_voltage_v
from tests.builders import one_input
from tests.properties.strategies import cell_temperatures, inputs, irradiances, sheets

ANYTHING_GOES = one_input(tracking_min_v=5, tracking_max_v=1500, start_voltage_v=5, max_current_a=60)


@given(sheets())
def test_the_labels_power_comes_back_whatever_the_fit(sheet):
    assert max_power(diode_of(sheet), 1000, 25).power_w[0] == pytest.approx(sheet.rated_power_w, rel=0.005)


@given(sheets(), st.lists(irradiances, min_size=2, max_size=20), cell_temperatures)
def test_more_light_never_gives_less(sheet, light, cell_c):
    power = max_power(diode_of(sheet), np.sort(light), cell_c).power_w
    assert np.all(np.diff(power) >= -1e-9)


@given(sheets(), irradiances, st.lists(cell_temperatures, min_size=2, max_size=20))
def test_colder_never_lowers_the_open_circuit_voltage(sheet, light, cells_c):
    voltage = open_circuit_voltage_v(diode_of(sheet), light, np.sort(cells_c))
    assert np.all(np.diff(voltage) <= 1e-9)


@given(sheets(), irradiances, cell_temperatures)
def test_no_point_of_the_curve_gives_more_than_the_maximum(sheet, light, cell_c):
    diode = diode_of(sheet)
    voltages = np.linspace(0, open_circuit_voltage_v(diode, light, cell_c)[0], 50)
    curve = curve_at(diode, np.full(50, light), np.full(50, cell_c))
    assert np.all(voltages * current_at(curve, voltages) <= max_power(diode, light, cell_c).power_w[0] + 1e-6)


@given(sheets(), irradiances, cell_temperatures, inputs(), st.integers(1, 3), st.integers(1, 3))
def test_an_input_draws_what_is_there_or_names_why_not(sheet, light, cell_c, limits, in_series, in_parallel):
    one = drawn_power(diode_of(sheet), light, cell_c, in_series=in_series, in_parallel=in_parallel, limits=limits)
    named = one.lost_to_window_w + one.lost_to_current_w + one.lost_to_power_limit_w
    assert one.available_w[0] == pytest.approx((one.power_w + named)[0], abs=1e-9)
    assert min(one.power_w[0], one.lost_to_window_w[0], one.lost_to_current_w[0], one.lost_to_power_limit_w[0]) >= -1e-6
    assert limits.max_input_power_w is None or one.power_w[0] <= limits.max_input_power_w + 1e-9


@given(sheets(), irradiances, cell_temperatures, inputs())
def test_no_more_current_is_drawn_than_the_input_takes(sheet, light, cell_c, limits):
    """Power over the window's upper edge is a lower bound of the current."""
    one = drawn_power(diode_of(sheet), light, cell_c, in_series=1, in_parallel=2, limits=limits)
    assert one.power_w[0] <= limits.max_current_a * limits.tracking_max_v * (1 + 1e-9)


@given(sheets(), irradiances, cell_temperatures, st.integers(1, 11), st.sampled_from(["in_series", "in_parallel"]))
def test_more_panels_never_give_less(sheet, light, cell_c, count, wired):
    few, many = (
        drawn_power(
            diode_of(sheet), light, cell_c, limits=replace(ANYTHING_GOES, max_current_a=1000),
            **{"in_series": 1, "in_parallel": 1, wired: n},
        ).power_w[0]
        for n in (count, count + 1)
    )  # fmt: skip
    assert many >= few > 0
    assert many / few == pytest.approx((count + 1) / count, rel=1e-6)


@given(sheets(), irradiances, cell_temperatures, inputs(), st.floats(0.1, 1))
def test_a_lower_current_limit_never_draws_more(sheet, light, cell_c, limits, share):
    lower = replace(limits, max_current_a=limits.max_current_a * share)
    more, less = (
        drawn_power(diode_of(sheet), light, cell_c, in_series=1, in_parallel=1, limits=one).power_w[0]
        for one in (limits, lower)
    )
    assert less <= more + 1e-6
