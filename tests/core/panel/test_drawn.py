"""What an input draws: window, current, power and start, alone and with several branches."""

import numpy as np
import pytest

from service.core.panel import (
    Branch,
    diode_of,
    drawn_power,
    drawn_together,
    excluded_from_w_per_m2,
    max_power,
    running_power_w,
)
from service.core.panel.curve import curve_at
from service.core.panel.joined import Part, opens_above, voltage_at_current
from tests.builders import one_input, panel

WIDE = {"tracking_min_v": 10, "tracking_max_v": 100, "start_voltage_v": 10, "max_current_a": 60}
PANEL = panel()
SMALL = panel(
    rated_power_w=101.9, open_circuit_voltage_v=22.3, short_circuit_current_a=6.05, max_power_voltage_v=18.2,
    max_power_current_a=5.6, cells_in_series=36, voc_coefficient_pct_per_k=-0.33, isc_coefficient_pct_per_k=0.055,
)  # fmt: skip


def drawn(irradiance, cell_c, *, in_series=1, in_parallel=1, **limits):
    return drawn_power(
        diode_of(PANEL), irradiance, cell_c, in_series=in_series, in_parallel=in_parallel,
        limits=one_input(**{**WIDE, **limits}),
    )  # fmt: skip


def branch(sheet, irradiance, cell_c, in_series=1, strings=1.0):
    return Branch(
        diode=diode_of(sheet), irradiance_w_per_m2=np.array([irradiance]), cell_c=np.array([cell_c]),
        in_series=in_series, strings=strings,
    )  # fmt: skip


def losses(one):
    return one.lost_to_window_w, one.lost_to_current_w, one.lost_to_power_limit_w


def test_within_all_limits_everything_available_is_drawn():
    one = drawn([800.0, 200.0], [40.0, 20.0])
    assert one.power_w == pytest.approx(one.available_w)
    assert np.all(np.array(losses(one)) == 0)


@pytest.mark.parametrize(
    "limits", [{}, {"tracking_min_v": 31}, {"tracking_max_v": 30}, {"max_current_a": 8}, {"max_input_power_w": 200},
               {"start_voltage_v": 38}, {"tracking_max_v": 33, "max_current_a": 6}]
)  # fmt: skip
def test_available_power_is_drawn_or_named_as_lost(limits):
    irradiance, cell = np.linspace(0, 1200, 60), np.linspace(-10, 70, 60)
    one = drawn(irradiance, cell, **limits)
    assert one.available_w == pytest.approx(one.power_w + sum(losses(one)), abs=1e-9)
    assert all(np.all(part >= -1e-9) for part in (one.power_w, *losses(one)))


def test_a_window_above_the_peak_is_met_at_its_edge_and_not_given_up():
    one = drawn(1000, 65, tracking_min_v=31)
    assert 0 < one.lost_to_window_w[0] < 0.3 * one.available_w[0]
    assert one.lost_to_current_w[0] == 0


def test_two_in_series_double_the_voltage_and_two_in_parallel_the_current():
    window = {"tracking_min_v": 55, "tracking_max_v": 75, "start_voltage_v": 60}
    assert drawn(900, 30, in_series=2, **window).power_w[0] == pytest.approx(2 * drawn(900, 30).power_w[0])
    assert drawn(900, 30, in_parallel=2, **window).power_w[0] == 0
    one, two = drawn(900, 30, max_current_a=9), drawn(900, 30, in_parallel=2, max_current_a=18)
    assert two.power_w[0] == pytest.approx(2 * one.power_w[0])


def test_window_and_current_limit_that_exclude_each_other_leave_nothing_and_count_for_the_window():
    one = drawn(1000, 25, tracking_max_v=34, max_current_a=6)
    assert one.power_w[0] == 0
    assert one.lost_to_window_w[0] == pytest.approx(one.available_w[0])
    assert not one.running[0]


def test_a_window_far_above_the_open_circuit_voltage_leaves_nothing():
    one = drawn([200.0, 1000.0], [10.0, 30.0], tracking_min_v=800, tracking_max_v=900, start_voltage_v=10)
    assert np.all(one.power_w == 0)


def test_an_input_that_started_in_the_cool_morning_runs_on_when_the_panel_is_warm():
    cool_first = drawn([150.0, 250.0, 250.0], [5.0, 60.0, 60.0], start_voltage_v=35)
    assert cool_first.running.tolist() == [True, True, True]


def test_an_input_forgets_its_start_over_night():
    through_a_night = drawn([150.0, 250.0, 0.0, 250.0], [5.0, 60.0, 20.0, 60.0], start_voltage_v=35)
    assert through_a_night.running.tolist() == [True, True, False, False]
    assert through_a_night.lost_to_window_w[3] == pytest.approx(through_a_night.available_w[3])


def test_the_power_limit_cuts_to_itself():
    one = drawn([1000.0, 300.0], [25.0, 25.0], max_input_power_w=350)
    assert one.power_w[0] == pytest.approx(350)
    assert one.lost_to_power_limit_w[1] == 0


def test_a_maximum_panel_power_is_about_the_rating_and_cuts_nothing():
    for kind in ("recommended", "maximum"):
        one = drawn(1000, 25, max_panel_power_w=200, max_panel_power_kind=kind)
        assert one.power_w == pytest.approx(one.available_w)


def test_equal_branches_in_equal_light_share_without_loss():
    both = drawn_together([branch(PANEL, 700.0, 35.0)] * 2, one_input(**WIDE))
    alone = max_power(diode_of(PANEL), 700, 35).power_w[0]
    assert [one.available_w[0] for one in both] == pytest.approx([alone, alone], rel=1e-9)


def test_branches_that_are_lit_alike_share_by_their_strings():
    parts = [branch(PANEL, 700.0, 35.0, strings=s) for s in (1.0, 1.9)] + [branch(SMALL, 700.0, 35.0)]
    one, other, _ = drawn_together(parts, one_input(**WIDE))
    assert other.power_w == pytest.approx(1.9 * one.power_w, rel=1e-12)
    merged = drawn_together([branch(PANEL, 700.0, 35.0, strings=2.9), parts[2]], one_input(**WIDE))
    assert merged[0].power_w == pytest.approx(one.power_w + other.power_w, rel=1e-12)


def test_in_the_cold_a_hot_panel_in_the_dark_takes_what_the_joint_point_says():
    """So much flows backwards through it that the joint peak lies below the lit one's own."""
    parts = [branch(PANEL, 866.0, -7.0), branch(PANEL, 0.0, 75.0)]
    found = sum(one.power_w[0] for one in drawn_together(parts, one_input(**WIDE)))
    held = []
    for voltage in np.linspace(20, 40, 201):
        limits = one_input(**{**WIDE, "tracking_min_v": voltage, "tracking_max_v": voltage})
        held.append(sum(one.power_w[0] for one in drawn_together(parts, limits)))
    assert found == pytest.approx(max(held), rel=1e-3)
    assert found >= max(held)


def test_the_joint_maximum_is_the_highest_of_a_fine_scan():
    parts = [branch(PANEL, 800.0, 40.0), branch(SMALL, 900.0, 30.0, in_series=2)]
    found = sum(one.available_w[0] for one in drawn_together(parts, one_input(**WIDE)))
    held = []
    for voltage in np.linspace(24, 40, 161):
        limits = one_input(**{**WIDE, "tracking_min_v": voltage, "tracking_max_v": voltage})
        held.append(sum(one.power_w[0] for one in drawn_together(parts, limits)))
    assert max(held) <= found + 1e-9
    assert max(held) == pytest.approx(found, rel=2e-4)


def test_a_small_panel_beside_two_in_series_drags_them_down():
    """54 cells twice in series against 36 cells: the small one holds the voltage, the pair can give little."""
    parts = [branch(PANEL, 800.0, 40.0, in_series=2), branch(SMALL, 800.0, 40.0)]
    joint = sum(one.available_w[0] for one in drawn_together(parts, one_input(**WIDE)))
    alone = 2 * max_power(diode_of(PANEL), 800, 40).power_w[0] + max_power(diode_of(SMALL), 800, 40).power_w[0]
    assert joint < 0.5 * alone


def test_a_branch_in_the_dark_costs_its_neighbour_little():
    parts = [branch(PANEL, 800.0, 40.0), branch(PANEL, 0.0, 10.0)]
    joint = sum(one.available_w[0] for one in drawn_together(parts, one_input(**WIDE)))
    assert joint == pytest.approx(max_power(diode_of(PANEL), 800, 40).power_w[0], rel=0.01)


def test_branches_share_one_current_limit():
    parts = [branch(PANEL, 900.0, 40.0), branch(PANEL, 600.0, 35.0)]
    both = drawn_together(parts, one_input(**{**WIDE, "max_current_a": 14}))
    assert sum(one.power_w[0] for one in both) < sum(one.available_w[0] for one in both)
    assert sum(one.power_w[0] for one in both) > 14 * 30


def test_the_power_of_an_input_that_runs_is_what_it_draws():
    diode, light, cells = diode_of(panel()), np.array([0.0, 30.0, 400.0, 1000.0]), np.array([5.0, 5.0, 20.0, 45.0])
    limits = one_input(max_current_a=9, start_voltage_v=10)
    branch = Branch(diode=diode, irradiance_w_per_m2=light, cell_c=cells, in_series=1, strings=1)
    assert running_power_w(branch, limits) == pytest.approx(
        drawn_power(diode, light, cells, in_series=1, in_parallel=1, limits=limits).power_w
    )


@pytest.mark.parametrize("strings", [1, 2])
def test_above_the_excluding_light_an_input_draws_nothing_and_below_it_something(strings):
    limits = one_input(tracking_max_v=55, max_current_a=10 * strings, start_voltage_v=10)
    edge = excluded_from_w_per_m2(diode_of(panel()), 25.0, 2, strings, limits)[0]
    light = np.array([0.999, 1.001]) * edge
    drawn = drawn_power(diode_of(panel()), light, 25.0, in_series=2, in_parallel=strings, limits=limits)
    assert drawn.power_w[0] == pytest.approx(550 * strings, rel=0.01)
    assert drawn.power_w[1] == 0


def test_what_window_and_current_exclude_stands_in_a_table_as_the_windows_end_without_the_limit():
    limits, light = one_input(tracking_max_v=55, max_current_a=8, start_voltage_v=10), np.array([500.0, 700.0, 900.0])
    branch = Branch(diode=diode_of(panel()), irradiance_w_per_m2=light, cell_c=np.full(3, 25.0), in_series=2, strings=1)
    power = running_power_w(branch, limits)
    assert power[2] > 1.2 * 55 * 8
    assert power[2] - power[1] == pytest.approx(power[1] - power[0], rel=0.01)


@pytest.mark.parametrize("start_v", [10.0, 34.0, 37.5, 38.5, 60.0])
def test_branches_start_where_their_joint_open_circuit_voltage_reaches_the_start_voltage(start_v):
    diode = diode_of(PANEL)
    light, cells = np.array([1.0, 30.0, 200.0, 500.0, 900.0]), np.array([5.0, 60.0, 20.0, 45.0, 10.0])
    parts = (Part(curve_at(diode, light, cells), 1, 1.0), Part(curve_at(diode, light[::-1], cells), 1, 2.0))
    assert opens_above(parts, start_v).tolist() == (voltage_at_current(parts, 0.0) >= start_v).tolist()
