"""How far an assumption may be off is asked again, and only of those that the energy hangs on."""

import pytest

from service.core.completion import moves
from service.core.completion.moves import moved
from service.core.model.pointer import value_at
from tests.requests import FULL, asked, with_panel


def dirty(setup):
    return 500 * (1 - setup.arrays[0].dirt_share)


def test_an_assumption_moves_the_year_by_its_farther_end():
    completed = asked(with_panel())
    found = moves(completed.setup, completed.assumptions, dirty)
    assert found["/arrays/0/dirt_share"] == pytest.approx((0.06 - 0.02) / 0.98)
    assert found["/downtime_days_per_year"] == 0


def test_what_energy_does_not_hang_on_is_not_asked():
    completed = asked(with_panel())
    found = moves(completed.setup, completed.assumptions, dirty)
    assert not any(pointer.startswith(("/money", "/household", "/tariff")) for pointer in found)
    assert "/arrays/0/panel/weight_kg" not in found
    assert "/inverter/inputs/0/max_short_circuit_current_a" not in found


def test_nothing_moves_where_nothing_was_assumed():
    completed = asked(FULL)
    assert moves(completed.setup, completed.assumptions, dirty) == {}


def test_a_year_without_energy_is_not_moved():
    completed = asked(with_panel())
    assert moves(completed.setup, completed.assumptions, lambda _: 0.0) == {}


def test_a_panels_assumed_figures_move_together_and_keep_the_rated_power():
    completed = asked(with_panel())
    for name in ("open_circuit_voltage_v", "short_circuit_current_a", "cells_in_series"):
        pointer = f"/arrays/0/panel/{name}"
        assumption = completed.assumptions.by_pointer[pointer]
        panel = moved(completed.setup, completed.assumptions, assumption, assumption.value * 1.1).arrays[0].panel
        assert panel.max_power_voltage_v * panel.max_power_current_a == pytest.approx(410, rel=0.002)
        assert panel.max_power_voltage_v < panel.open_circuit_voltage_v
        assert panel.max_power_current_a < panel.short_circuit_current_a
        assert getattr(panel, name) == pytest.approx(assumption.value * 1.1, abs=0.5)


def test_a_given_figure_stays_while_an_assumed_one_moves():
    completed = asked(with_panel(max_power_voltage_v=31.0))
    pointer = "/arrays/0/panel/open_circuit_voltage_v"
    assumption = completed.assumptions.by_pointer[pointer]
    changed = moved(completed.setup, completed.assumptions, assumption, assumption.high)
    assert value_at(changed, pointer) == assumption.high
    assert value_at(changed, "/arrays/0/panel/max_power_voltage_v") == 31.0
