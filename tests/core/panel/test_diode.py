"""The five parameters: datasheet points come back, and agreement with the library's own fit of the same equations."""

import pytest
from pvlib.ivtools.sdm import fit_desoto

from service.core.errors import ContradictionError
from service.core.panel import current_at, curve_at, diode_of, max_power, open_circuit_voltage_v, voltage_at
from service.core.panel.diode import BOLTZMANN_EV_PER_K
from tests.builders import panel

# Invented sheets of the usual formats; each has a solution of the five equations.
SHEETS = {
    "108 half cells": panel(),
    "60 cells of 2017": panel(
        rated_power_w=307.5, open_circuit_voltage_v=40.7, short_circuit_current_a=9.72, max_power_voltage_v=33.5,
        max_power_current_a=9.18, cells_in_series=60, voc_coefficient_pct_per_k=-0.29, isc_coefficient_pct_per_k=0.05,
    ),
    "36 cells": panel(
        rated_power_w=101.9, open_circuit_voltage_v=22.3, short_circuit_current_a=6.05, max_power_voltage_v=18.2,
        max_power_current_a=5.6, cells_in_series=36, voc_coefficient_pct_per_k=-0.33, isc_coefficient_pct_per_k=0.055,
    ),
}  # fmt: skip
# Sheets that the five equations cannot meet, and what is used for them.
FALLBACKS = {
    "no_shunt": panel(
        rated_power_w=435, open_circuit_voltage_v=38.9, short_circuit_current_a=14.02, max_power_voltage_v=32.4,
        max_power_current_a=13.43, voc_coefficient_pct_per_k=-0.25,
    ),
    "power_only": panel(
        rated_power_w=280, open_circuit_voltage_v=39.3, short_circuit_current_a=9.23, max_power_voltage_v=31.0,
        max_power_current_a=9.03, cells_in_series=60, voc_coefficient_pct_per_k=-0.3,
    ),
}  # fmt: skip


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS.keys())
def test_the_datasheets_points_come_back(sheet):
    diode = diode_of(sheet)
    assert diode.how == "de_soto"
    point, curve = max_power(diode, 1000, 25), curve_at(diode, 1000, 25)
    assert point.voltage_v[0] == pytest.approx(sheet.max_power_voltage_v, rel=1e-6)
    assert point.current_a[0] == pytest.approx(sheet.max_power_current_a, rel=1e-6)
    assert voltage_at(curve, 0.0)[0] == pytest.approx(sheet.open_circuit_voltage_v, rel=1e-9)
    assert current_at(curve, 0.0)[0] == pytest.approx(sheet.short_circuit_current_a, rel=1e-9)


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS.keys())
def test_the_open_circuit_voltage_moves_as_the_sheet_says(sheet):
    cold = open_circuit_voltage_v(diode_of(sheet), 1000, -10)[0]
    by_coefficient = sheet.open_circuit_voltage_v * (1 + sheet.voc_coefficient_pct_per_k / 100 * -35)
    assert cold == pytest.approx(by_coefficient, rel=0.01)


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS.keys())
def test_the_parameters_are_those_of_the_librarys_fit(sheet):
    """Same five equations, another solver: pvlib 0.16.1, root method 'lm'. True agreement: 5e-10."""
    fitted, result = fit_desoto(
        v_mp=sheet.max_power_voltage_v, i_mp=sheet.max_power_current_a, v_oc=sheet.open_circuit_voltage_v,
        i_sc=sheet.short_circuit_current_a,
        alpha_sc=sheet.isc_coefficient_pct_per_k / 100 * sheet.short_circuit_current_a,
        beta_voc=sheet.voc_coefficient_pct_per_k / 100 * sheet.open_circuit_voltage_v,
        cells_in_series=sheet.cells_in_series, root_kwargs={"method": "lm"},
    )  # fmt: skip
    assert result.success
    diode = diode_of(sheet)
    assert diode.photocurrent_a == pytest.approx(fitted["I_L_ref"], rel=1e-8)
    assert diode.voltage_scale_v == pytest.approx(fitted["a_ref"], rel=1e-8)
    assert diode.series_resistance_ohm == pytest.approx(fitted["R_s"], rel=1e-8)
    assert 1 / diode.shunt_conductance_s == pytest.approx(fitted["R_sh_ref"], rel=1e-7)
    assert diode.saturation_current_a == pytest.approx(fitted["I_o_ref"], rel=1e-7)


@pytest.mark.parametrize(("how", "sheet"), FALLBACKS.items())
def test_a_sheet_without_a_physical_solution_keeps_its_power_and_says_so(how, sheet):
    diode = diode_of(sheet)
    assert diode.how == how
    assert diode.shunt_conductance_s == 0
    assert diode.series_resistance_ohm >= 0
    printed = sheet.max_power_voltage_v * sheet.max_power_current_a
    assert max_power(diode, 1000, 25).power_w[0] == pytest.approx(printed, rel=1e-6)
    assert open_circuit_voltage_v(diode, 1000, 25)[0] == pytest.approx(sheet.open_circuit_voltage_v, rel=1e-9)


@pytest.mark.parametrize("sheet", FALLBACKS.values(), ids=FALLBACKS.keys())
def test_a_fallback_still_moves_its_voltage_as_the_sheet_says(sheet):
    warm = open_circuit_voltage_v(diode_of(sheet), 1000, 35)[0]
    by_coefficient = sheet.open_circuit_voltage_v * (1 + sheet.voc_coefficient_pct_per_k / 100 * 10)
    assert warm == pytest.approx(by_coefficient, rel=0.001)


def test_thin_film_has_a_curve_too():
    sheet = panel(
        rated_power_w=114.7, open_circuit_voltage_v=88.7, short_circuit_current_a=1.89, max_power_voltage_v=69.5,
        max_power_current_a=1.65, cells_in_series=154, voc_coefficient_pct_per_k=-0.29,
        isc_coefficient_pct_per_k=0.04, cell_kind="cdte",
    )  # fmt: skip
    assert max_power(diode_of(sheet), 1000, 25).power_w[0] == pytest.approx(69.5 * 1.65, rel=1e-6)


def test_an_ideality_near_one_comes_out_for_crystalline_cells():
    diode = diode_of(panel())
    thermal_v = diode.cells_in_series * BOLTZMANN_EV_PER_K * 298.15
    assert 0.8 < diode.voltage_scale_v / thermal_v < 1.3


@pytest.mark.parametrize(
    ("changes", "pointer"),
    [
        ({"max_power_voltage_v": 39.4}, "/max_power_voltage_v"),
        ({"max_power_current_a": 15.0}, "/max_power_current_a"),
        ({"max_power_voltage_v": 10.0}, "/max_power_voltage_v"),
    ],
)
def test_four_points_that_make_no_curve_are_refused_where_they_stand(changes, pointer):
    with pytest.raises(ContradictionError) as caught:
        diode_of(panel(**changes))
    assert caught.value.pointer == pointer
