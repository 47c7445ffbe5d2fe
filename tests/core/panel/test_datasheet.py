"""What is hard to believe in a datasheet, and how many cells are in series."""

import pytest

from service.core.panel import cells_in_series_of, datasheet_doubts
from tests.builders import panel


def codes(**changes):
    return [doubt.code for doubt in datasheet_doubts(panel(**changes))]


def test_a_plausible_sheet_raises_no_doubt():
    assert codes() == []


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"cells_in_series": 108}, "half_cells_counted"),
        ({"cells_in_series": 72, "open_circuit_voltage_v": 30.0, "max_power_voltage_v": 25.0, "rated_power_w": 334.5},
         "voltage_per_cell"),
        ({"rated_power_w": 460}, "power_product"),
        ({"power_coefficient_pct_per_k": -0.6}, "power_coefficient"),
        ({"max_power_voltage_v": 26.0, "rated_power_w": 347.9}, "fill_factor"),
    ],
)  # fmt: skip
def test_what_is_hard_to_believe_is_doubted(changes, code):
    assert code in codes(**changes)


def test_swapped_voltages_are_told_alone():
    assert codes(open_circuit_voltage_v=32.9, max_power_voltage_v=39.4) == ["voltages_swapped"]


def test_swapped_currents_are_told_alone():
    assert codes(short_circuit_current_a=13.38, max_power_current_a=14.1) == ["currents_swapped"]


def test_a_fill_factor_of_068_is_genuine_for_thin_film_and_doubtful_for_silicon():
    sheet = {"open_circuit_voltage_v": 88.7, "short_circuit_current_a": 1.89, "max_power_voltage_v": 67.5,
             "max_power_current_a": 1.69, "cells_in_series": 154, "rated_power_w": 114.1}  # fmt: skip
    assert "fill_factor" not in codes(cell_kind="cdte", **sheet)
    assert "fill_factor" in codes(cell_kind="mono", **sheet)


def test_a_doubt_carries_the_figure_and_its_band():
    doubt = next(d for d in datasheet_doubts(panel(rated_power_w=460)) if d.code == "power_product")
    assert doubt.measured == pytest.approx(440.2, abs=0.05)
    assert (doubt.low, doubt.high, doubt.unit) == (pytest.approx(446.2), pytest.approx(473.8), "W")


@pytest.mark.parametrize(
    ("visible", "in_series"),
    [(36, 36), (54, 54), (60, 60), (72, 72), (96, 96), (108, 54), (120, 60), (132, 66), (144, 72), (156, 78), (33, 33)],
)
def test_half_cells_count_half(visible, in_series):
    assert cells_in_series_of(visible) == in_series


@pytest.mark.parametrize(("visible", "voltage", "in_series"), [(96, 33.2, 48), (96, 64.0, 96), (120, 41.0, 60)])
def test_the_open_circuit_voltage_decides_where_it_is_known(visible, voltage, in_series):
    assert cells_in_series_of(visible, voltage) == in_series
