"""One hour from the light to the socket, and inputs that cannot follow: worked cases by another program.

Panel power: De Soto five-parameter model (Solar Energy 80 (2006) 78-88), equations from memory, fitted and evaluated
by an own program and checked there by a table of 400 001 points of each curve. True agreement: 1e-5 where the five
equations have a solution. Case tolerances (about 1 %) are kept so that another sound fit may take this one's place.
Sheets are invented, and the worked model knows no power coefficient:
the five parameters alone are compared.
"""

import numpy as np
import pytest

from service.core.inverter import (
    WEIGHTINGS,
    ac_from_dc,
    clipped,
    curve_from_points,
    night_draw_kwh,
    output_of,
    weighted_efficiency,
)
from service.core.panel import (
    Branch,
    cell_temperature_c,
    drawn_power,
    drawn_together,
    five_parameters_of,
    max_power,
    open_circuit_voltage_v,
)
from tests.builders import one_input, panel


def sheet(cells, voc, isc, vmp, imp, voc_pct, isc_pct):
    return panel(
        rated_power_w=vmp * imp, open_circuit_voltage_v=voc, short_circuit_current_a=isc, max_power_voltage_v=vmp,
        max_power_current_a=imp, voc_coefficient_pct_per_k=voc_pct, isc_coefficient_pct_per_k=isc_pct,
        cells_in_series=cells,
    )  # fmt: skip


A = sheet(54, 38.6, 14.05, 32.1, 13.4, -0.265, 0.045)
B = sheet(60, 40.7, 9.72, 33.5, 9.18, -0.29, 0.05)
E = sheet(60, 40.1, 9.05, 32.6, 8.5, -0.31, 0.055)
SMALL = sheet(36, 22.3, 6.05, 18.2, 5.6, -0.33, 0.055)
STRONG = sheet(54, 39.4, 14.55, 32.8, 13.75, -0.25, 0.045)
NO_ROOT = sheet(54, 38.9, 14.02, 32.4, 13.43, -0.25, 0.045)

CURVE = curve_from_points(
    [(0.05, 0.885), (0.1, 0.925), (0.2, 0.951), (0.3, 0.96), (0.5, 0.965), (0.75, 0.963), (1.0, 0.957)]
)


def limits(**changes):
    return one_input(
        **{"tracking_min_v": 16, "tracking_max_v": 60, "start_voltage_v": 22, "max_current_a": 60} | changes
    )


@pytest.mark.parametrize(
    ("one", "on_panel", "effective", "air", "wind", "mount", "watts", "tolerance"),
    [
        (A, 914.445, 909.937, 22, 2.0, "free_standing", 365.985, 4.39),
        (A, 749.263, 747.068, -2, 1.5, "free_standing", 328.839, 3.95),
        (A, 92.9921, 87.8231, 24, 1.0, "free_standing", 35.9158, 0.43),
        (B, 645.752, 634.241, 29, 2.5, "free_standing", 182.964, 2.2),
        (A, 748.256, 740.318, -6, 1.0, "free_standing", 327.691, 3.93),
        (A, 755.609, 744.957, 31, 0.8, "wall", 271.627, 3.26),
        (B, 88.1278, 84.2227, 9, 2.0, "free_standing", 26.182, 0.4),
    ],
    ids=[
        "south 30, clear noon",
        "south rail, low winter sun",
        "sun behind the plane",
        "west 20, even sky",
        "rail above snow",
        "flat against a wall",
        "overcast",
    ],
)
def test_an_hour_of_light_gives_the_worked_power(one, on_panel, effective, air, wind, mount, watts, tolerance):
    cell = cell_temperature_c(on_panel, air, wind, mount)
    assert max_power(five_parameters_of(one), effective, cell).power_w[0] == pytest.approx(watts, abs=tolerance)


def test_in_the_dark_the_panel_gives_nothing_and_the_socket_gives_the_night_draw():
    assert max_power(five_parameters_of(A), 0.0, 10.0).power_w[0] == 0
    assert night_draw_kwh(np.zeros(1), 0.6) * 1000 == pytest.approx(0.6, abs=1e-6)


def test_a_good_modern_sheet_without_a_physical_root_still_answers():
    """The five equations have a shunt of -2121 ohm. Least squares with the shunt run off gave 434.9, 381.6, 85.9 W."""
    diode = five_parameters_of(NO_ROOT)
    stc, hot, dim = max_power(diode, [1000, 1000, 200], [25, 65, 25]).power_w
    assert diode.how != "de_soto"
    assert stc == pytest.approx(435.132, abs=2.2)
    assert hot == pytest.approx(381.644, abs=5.0)
    assert dim == pytest.approx(85.944, abs=1.7)


def test_two_inputs_of_437_w_under_800_w_are_cut_after_conversion():
    out = output_of(np.array([874.0]), 800, 800, CURVE)
    assert out.ac_w[0] == pytest.approx(800, abs=0.001)
    assert out.conversion_loss_w[0] == pytest.approx(37.582, abs=0.001)
    assert out.clipped_w[0] == pytest.approx(36.418, abs=0.001)


def test_efficiency_lies_on_the_line_between_two_points():
    assert CURVE.efficiency_share(196 / 600) == pytest.approx(0.960667, abs=1e-6)
    assert ac_from_dc(np.array([196.0]), 600, CURVE)[0] == pytest.approx(188.291, abs=0.001)


def test_both_weighted_efficiencies_of_the_same_points():
    assert weighted_efficiency(CURVE, "european") == pytest.approx(0.95628, abs=1e-9)
    assert weighted_efficiency(CURVE, "californian") == pytest.approx(0.96064, abs=1e-9)


def test_published_weights():
    """Weights of EN 50530:2010 and of the Californian commission's test protocol (2005), both read on trade pages."""
    assert WEIGHTINGS["european"] == (
        (0.05, 0.03), (0.10, 0.06), (0.20, 0.13), (0.30, 0.10), (0.50, 0.48), (1.00, 0.20),
    )  # fmt: skip
    assert WEIGHTINGS["californian"] == (
        (0.10, 0.04), (0.20, 0.05), (0.30, 0.12), (0.50, 0.21), (0.75, 0.53), (1.00, 0.05),
    )  # fmt: skip
    loads = (0.1, 0.2, 0.3, 0.5, 0.75, 1.0)
    curve = curve_from_points(list(zip(loads, (0.94, 0.96, 0.965, 0.967, 0.965, 0.96), strict=True)))
    assert weighted_efficiency(curve, "californian") == pytest.approx(0.96392, abs=1e-5)


def test_east_and_west_under_one_limit_are_not_cut_although_their_ratings_are_twice_it():
    east, west = (max_power(five_parameters_of(B), light, cell).power_w[0] for light, cell in ((740, 41), (130, 27)))
    assert east == pytest.approx(216.042, abs=2.5)
    assert west == pytest.approx(38.6484, abs=0.8)
    ac, cut = clipped(ac_from_dc(np.array([east + west]), 300, CURVE), 300)
    assert ac[0] == pytest.approx(244.662, abs=3.0)
    assert cut[0] == 0


@pytest.mark.parametrize(
    ("one", "in_parallel", "light", "cell", "most_a", "watts", "tolerance"),
    [
        (STRONG, 1, 950, 48, 11.0, 361.61, 4.0),
        (STRONG, 1, 1000, 25, 12.5, 431.632, 4.0),
        (E, 2, 1000, 25, 12.5, 451.934, 8.0),
    ],
)
def test_over_the_current_limit_the_point_moves_up_in_voltage(one, in_parallel, light, cell, most_a, watts, tolerance):
    taken = drawn_power(
        five_parameters_of(one), light, cell, in_series=1, in_parallel=in_parallel, limits=limits(max_current_a=most_a)
    )
    assert taken.power_w[0] == pytest.approx(watts, abs=tolerance)
    assert taken.lost_to_current_w[0] == pytest.approx(taken.available_w[0] - watts, abs=tolerance)


def test_an_input_power_limit_is_each_inputs_own():
    taken = drawn_power(
        five_parameters_of(A), 900, 30, in_series=1, in_parallel=1, limits=limits(max_input_power_w=350)
    )
    assert taken.power_w[0] == pytest.approx(350.0, abs=0.01)
    assert taken.lost_to_power_limit_w[0] == pytest.approx(31.7604, abs=5.0)


def test_no_grid_no_output():
    out = output_of(np.array([620.0]), 800, 800, CURVE, grid=False)
    assert (out.ac_w[0], out.not_drawn_w[0], out.conversion_loss_w[0]) == (0, 620, 0)


def test_a_small_panel_does_not_reach_a_start_voltage_of_24_v():
    cool, warm = open_circuit_voltage_v(five_parameters_of(SMALL), [1000, 800], [5, 45])
    assert cool == pytest.approx(23.7718, abs=0.05)
    assert warm == pytest.approx(20.6129, abs=0.5)
    taken = drawn_power(
        five_parameters_of(SMALL), [1000, 800], [5, 45], in_series=1, in_parallel=1,
        limits=limits(tracking_min_v=18, tracking_max_v=55, start_voltage_v=24, max_current_a=15),
    )  # fmt: skip
    assert np.all(taken.power_w == 0)


def test_a_hot_panel_below_the_window_works_at_its_edge():
    assert max_power(five_parameters_of(A), 1000, 65).voltage_v[0] == pytest.approx(27.8088, abs=0.7)
    taken = drawn_power(
        five_parameters_of(A), 1000, 65, in_series=1, in_parallel=1,
        limits=limits(tracking_min_v=30, tracking_max_v=58, start_voltage_v=32, max_current_a=15),
    )  # fmt: skip
    assert taken.power_w[0] == pytest.approx(346.391, abs=7)
    assert 100 * taken.lost_to_window_w[0] / taken.available_w[0] == pytest.approx(7.4109, abs=2.5)


def test_a_start_voltage_passed_in_the_cool_morning_holds_for_the_hot_dim_afternoon():
    cool, hot = open_circuit_voltage_v(five_parameters_of(A), [100, 200], [12, 60])
    assert cool == pytest.approx(36.8817, abs=0.5)
    assert hot == pytest.approx(32.5105, abs=0.5)
    taken = drawn_power(
        five_parameters_of(A), [100, 200], [12, 60], in_series=1, in_parallel=1,
        limits=limits(tracking_min_v=22, tracking_max_v=58, start_voltage_v=33, max_current_a=15),
    )  # fmt: skip
    assert np.all(taken.power_w > 0)


@pytest.mark.parametrize(
    ("first", "second", "lost_pct", "tolerance"),
    [
        ((B, 1000.0, 25.0), (E, 1000.0, 25.0), 0.184257, 0.5),
        ((B, 600.0, 35.0), (B, 150.0, 22.0), 0.0731097, 0.8),
    ],
    ids=["unlike 60-cell panels", "east and west"],
)
def test_branches_in_parallel_lose_little_by_their_common_voltage(first, second, lost_pct, tolerance):
    branches = [
        Branch(
            diode=five_parameters_of(one),
            irradiance_w_per_m2=np.array([light]),
            cell_c=np.array([cell]),
            in_series=1,
            strings=1,
        )
        for one, light, cell in (first, second)
    ]
    joint = sum(one.available_w[0] for one in drawn_together(branches, limits(max_current_a=20)))
    alone = sum(max_power(five_parameters_of(one), light, cell).power_w[0] for one, light, cell in (first, second))
    assert 100 * (1 - joint / alone) == pytest.approx(lost_pct, abs=tolerance)


# Public CEC panel list (library's copy of 2019-03-05), silicon above 280 W, 5 and 95 %: Vmp/Voc 0.789 to 0.839,
# Imp/Isc 0.923 to 0.962; by format the 10, 50 and 90 % values of Voc, Vmp, Isc, Imp.
FORMATS = [
    (60, (39.27, 39.8, 41.0), (31.8, 32.57, 33.7), (9.47, 9.72, 10.12), (8.96, 9.2, 9.59)),
    (72, (46.61, 47.5, 48.7), (38.1, 38.9, 40.1), (9.45, 9.68, 10.05), (8.94, 9.16, 9.5)),
    (60, (39.5, 39.98, 40.69), (32.2, 32.7, 33.45), (9.55, 9.83, 10.13), (9.02, 9.3, 9.59)),
    (72, (46.95, 47.9, 49.95), (38.65, 39.4, 41.85), (9.27, 9.48, 10.42), (8.83, 9.12, 9.65)),
    (72, (44.43, 45.31, 46.2), (35.7, 36.72, 37.78), (8.42, 8.78, 9.21), (7.91, 8.26, 8.68)),
]


@pytest.mark.parametrize(("cells", "voc", "vmp", "isc", "imp"), FORMATS)
def test_the_public_lists_middle_panels_are_met_at_stc_and_their_ratios_stay_in_the_lists_range_in_the_sun(
    cells, voc, vmp, isc, imp
):
    """With the list's median coefficients, -0.337 and 0.051 %/K; power coefficient in the list: -0.527 to -0.383."""
    diode = five_parameters_of(sheet(cells, voc[1], isc[1], vmp[1], imp[1], -0.337, 0.051))
    assert max_power(diode, 1000, 25).power_w[0] == pytest.approx(vmp[1] * imp[1], rel=0.005)
    cool, warm = max_power(diode, 1000, [25.0, 65.0]).power_w
    assert -0.527 <= (warm / cool - 1) / 40 * 100 <= -0.383
