"""The solved curve against an independent solution: pvlib's Lambert-W form. True agreement: 1e-10 of power."""

import numpy as np
import pytest
from pvlib.pvsystem import calcparams_desoto, i_from_v, singlediode

from service.core.panel import (
    current_at,
    curve_at,
    five_parameters_of,
    irradiance_through_w_per_m2,
    max_power,
    open_circuit_voltage_v,
    voltage_at,
)
from tests.builders import panel

IRRADIANCE, CELL_C = (
    part.ravel() for part in np.meshgrid(np.r_[0.01, 1, np.linspace(25, 1400, 40)], np.arange(-30, 91, 6.0))
)
SHEETS = {
    "de_soto": panel(),
    "no_shunt": panel(open_circuit_voltage_v=38.9, short_circuit_current_a=14.02, max_power_voltage_v=32.4,
                      max_power_current_a=13.43, voc_coefficient_pct_per_k=-0.25),
    "poor fill factor": panel(open_circuit_voltage_v=40, short_circuit_current_a=10, max_power_voltage_v=28,
                              max_power_current_a=8.2, cells_in_series=60, voc_coefficient_pct_per_k=-0.3),
}  # fmt: skip


def of_library(diode):
    shunt = 1 / diode.shunt_conductance_s if diode.shunt_conductance_s else np.inf
    return calcparams_desoto(
        IRRADIANCE, CELL_C, diode.isc_coefficient_a_per_k, diode.voltage_scale_v, diode.photocurrent_a,
        diode.saturation_current_a, shunt, diode.series_resistance_ohm, diode.band_gap_ev,
        diode.band_gap_change_per_k,
    )  # fmt: skip


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS.keys())
def test_the_maximum_power_point_is_the_librarys(sheet):
    diode = five_parameters_of(sheet)
    theirs, ours = singlediode(*of_library(diode)), max_power(diode, IRRADIANCE, CELL_C)
    assert ours.power_w == pytest.approx(np.asarray(theirs["p_mp"]), rel=1e-8)
    assert ours.voltage_v == pytest.approx(np.asarray(theirs["v_mp"]), abs=1e-5)
    assert open_circuit_voltage_v(diode, IRRADIANCE, CELL_C) == pytest.approx(np.asarray(theirs["v_oc"]), abs=1e-7)


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS.keys())
def test_the_current_at_a_voltage_is_the_librarys(sheet):
    diode = five_parameters_of(sheet)
    voltage = open_circuit_voltage_v(diode, IRRADIANCE, CELL_C) * np.resize([0.1, 0.5, 0.8, 0.97], IRRADIANCE.size)
    assert current_at(curve_at(diode, IRRADIANCE, CELL_C), voltage) == pytest.approx(
        i_from_v(voltage, *of_library(diode)), abs=1e-7
    )


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS.keys())
def test_the_voltage_at_a_current_gives_that_current(sheet):
    diode = five_parameters_of(sheet)
    curve = curve_at(diode, IRRADIANCE, CELL_C)
    current = 0.9 * max_power(diode, IRRADIANCE, CELL_C).current_a
    assert current_at(curve, voltage_at(curve, current)) == pytest.approx(current, rel=1e-7, abs=1e-10)


def test_a_dark_panel_gives_nothing_and_no_warning():
    point = max_power(five_parameters_of(panel()), [0.0, 500.0], [10.0, 30.0])
    assert (point.power_w[0], point.voltage_v[0], point.current_a[0]) == (0, 0, 0)
    assert point.power_w[1] > 0


def test_a_panel_held_far_above_its_open_circuit_voltage_is_driven_backwards_with_a_finite_current():
    backwards = current_at(curve_at(five_parameters_of(panel()), 500.0, 30.0), 500.0)[0]
    assert np.isfinite(backwards)
    assert backwards < 0


@pytest.mark.parametrize("current_a", [0.0, 5.0])
def test_the_light_through_a_point_brings_the_curve_there(current_a):
    diode, cells = five_parameters_of(panel()), np.array([-10.0, 25.0, 60.0])
    light = irradiance_through_w_per_m2(diode, 30.0, current_a, cells)
    assert np.all(np.isfinite(light) & (light > 0))
    assert voltage_at(curve_at(diode, light, cells), current_a) == pytest.approx(30.0, abs=1e-6)


def test_no_light_brings_a_voltage_far_beyond_the_panels():
    assert irradiance_through_w_per_m2(five_parameters_of(SHEETS["de_soto"]), 1500.0, 0.0, 25.0)[0] > 1e100
