"""One string of unlike panels is bound by one current; a weak panel is passed by where that gives more."""

import numpy as np
import pytest

from service.core.panel import Branch, drawn_in_string, drawn_power, five_parameters_of, max_power, voltage_at
from service.core.panel.curve import curve_at
from service.core.panel.knees import PASSED_BY_V
from tests import builders

OPEN = builders.one_input(
    max_input_voltage_v=600, tracking_min_v=1, tracking_max_v=500, start_voltage_v=5, max_current_a=50,
)  # fmt: skip
STRONG = five_parameters_of(builders.panel())
# Fennwerk FW-300 (invented): 60 cells, a smaller current
WEAK = five_parameters_of(
    builders.panel(
        rated_power_w=300, open_circuit_voltage_v=39.8, short_circuit_current_a=9.7, max_power_voltage_v=32.6,
        max_power_current_a=9.2, cells_in_series=60,
    )
)  # fmt: skip
MANY = 400_000
LIGHT = np.array([0.0, 60.0, 250.0, 600.0, 1000.0, 1150.0])
CELL = np.array([5.0, 10.0, 20.0, 35.0, 55.0, 65.0])


def branch(diode, light=LIGHT, in_series=1, strings=1.0):
    return Branch(diode=diode, irradiance_w_per_m2=light, cell_c=CELL, in_series=in_series, strings=strings)


def total(drawn, name="power_w"):
    return sum(getattr(one, name) for one in drawn)


def densest(branches, limits=OPEN):
    """The highest power on a fine line of currents: the plain way, one row at a time."""
    found = []
    for row in range(LIGHT.size):
        if not any(b.irradiance_w_per_m2[row] > 0 for b in branches):
            found.append(0.0)
            continue
        curves = [
            curve_at(b.diode, np.full(MANY, max(b.irradiance_w_per_m2[row], 1e-3)), b.cell_c[row]) for b in branches
        ]
        amps = np.linspace(0, max(float(c.light_a[0]) for c in curves), MANY + 2)[1:-1]
        volts = sum(
            np.where(
                amps < c.light_a,
                np.maximum(voltage_at(c, np.minimum(amps, 0.999999 * c.light_a)), -PASSED_BY_V),
                -PASSED_BY_V,
            )
            for c in curves
        )
        good = (volts >= limits.tracking_min_v) & (volts <= limits.tracking_max_v) & (amps <= limits.max_current_a)
        found.append(float(np.max(np.where(good, volts * amps, 0.0))))
    return np.array(found)


def test_two_equal_panels_in_one_string_give_what_an_array_of_two_gives():
    together = total(drawn_in_string([branch(STRONG), branch(STRONG)], OPEN))
    array = drawn_power(STRONG, LIGHT, CELL, in_series=2, in_parallel=1, limits=OPEN)
    assert together == pytest.approx(array.power_w, rel=1e-9)


def test_unlike_panels_give_the_highest_power_of_their_joint_curve():
    branches = [branch(STRONG), branch(WEAK)]
    assert total(drawn_in_string(branches, OPEN)) == pytest.approx(densest(branches), rel=1e-5)


def test_a_window_and_a_current_limit_bind_the_string_as_they_bind_its_curve():
    tight = builders.one_input(tracking_min_v=20, tracking_max_v=60, start_voltage_v=22, max_current_a=6)
    branches = [branch(STRONG), branch(WEAK)]
    drawn = drawn_in_string(branches, tight)
    assert total(drawn) == pytest.approx(densest(branches, tight), rel=3e-4, abs=0.01)
    assert (total(drawn) <= total(drawn, "available_w") + 1e-9).all()


def test_the_string_stays_below_both_panels_apart_and_not_below_the_stronger_alone():
    drawn = total(drawn_in_string([branch(STRONG), branch(WEAK)], OPEN))
    apart = [max_power(diode, LIGHT, CELL).power_w for diode in (STRONG, WEAK)]
    assert (drawn <= sum(apart) + 1e-9).all()
    passed = PASSED_BY_V * LIGHT / 1000 * 14.2
    assert (drawn >= np.maximum(*apart) * (1 - 1e-3) - passed).all()


def test_a_panel_in_the_shade_is_passed_by_for_a_volt_and_a_half():
    dark = np.zeros_like(LIGHT)
    drawn = drawn_in_string([branch(STRONG), branch(STRONG, dark)], OPEN)
    alone = max_power(STRONG, LIGHT, CELL)
    assert total(drawn) == pytest.approx(alone.power_w - PASSED_BY_V * alone.current_a, rel=1e-3, abs=1e-6)
    assert (drawn[1].power_w <= 1e-9).all()


def test_the_account_of_every_member_adds_up_and_night_gives_nothing():
    tight = builders.one_input(tracking_min_v=20, tracking_max_v=60, max_current_a=6, max_input_power_w=300)
    for one in drawn_in_string([branch(STRONG), branch(WEAK)], tight):
        lost = one.lost_to_window_w + one.lost_to_current_w + one.lost_to_power_limit_w
        assert one.power_w + lost == pytest.approx(one.available_w, abs=1e-9)
        assert one.power_w[0] == 0


def test_a_string_starts_by_the_sum_of_its_voltages():
    late = builders.one_input(tracking_min_v=1, tracking_max_v=500, start_voltage_v=60, max_current_a=50)
    assert total(drawn_in_string([branch(STRONG), branch(WEAK)], late))[4] > 0
    assert total(drawn_in_string([branch(STRONG)], late))[4] == 0


def test_panels_that_are_lit_alike_share_what_their_string_gives():
    alike = drawn_in_string([branch(STRONG), branch(STRONG, in_series=2), branch(WEAK)], OPEN)
    assert alike[1].power_w == pytest.approx(2 * alike[0].power_w, rel=1e-12)
    three = drawn_in_string([branch(STRONG, in_series=3), branch(WEAK)], OPEN)
    assert total(alike) == pytest.approx(total(three), rel=1e-12)
