"""How far an assumption may be off is asked again, and only of those that the energy hangs on."""

from dataclasses import replace

import pytest

from service.core.completion import moves, unmoved, with_facade_told
from service.core.completion.moves import moved
from service.core.energy import energy_year
from service.core.model.pointer import replaced_at, value_at
from tests.climates import climate
from tests.requests import FULL, asked, with_array, with_panel
from tests.skies import mixed_year


def dirty(setup):
    return 500 * (1 - setup.arrays[0].dirt_share)


def test_an_assumption_moves_the_year_by_its_farther_end():
    completed = asked(with_panel())
    found = moves(completed.setup, completed.assumptions, dirty)
    assert found["/arrays/0/dirt_share"] == pytest.approx((0.06 - 0.02) / 0.98)
    assert found["/downtime_days_per_year"] == 0


def test_what_energy_does_not_hang_on_is_not_asked():
    completed = asked(with_panel(history="unused"))
    found = moves(completed.setup, completed.assumptions, dirty)
    assert not any(pointer.startswith(("/money", "/household", "/tariff")) for pointer in found)
    assert "/arrays/0/panel/weight_kg" not in found
    assert "/inverter/inputs/0/connector_pairs" not in found


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


@pytest.mark.parametrize(("mount", "turned"), [("hung_on_rail", 120), ("balcony_floor", 200)])
def test_a_facade_taken_square_to_a_panel_turns_with_it_and_takes_along_what_hangs_on_it(mount, turned):
    plane = {"tilt_deg": 90, "azimuth_deg": 200}
    completed = with_facade_told(asked(with_array(mount=mount, plane=plane, side_walls=[{}])))
    taken = completed.assumptions.by_pointer["/arrays/0/facade_azimuth_deg"]
    changed = moved(completed.setup, completed.assumptions, taken, 120).arrays[0]
    assert (changed.facade_azimuth_deg, changed.plane.azimuth_deg) == (120, turned)
    panel = replace(taken, pointer="/arrays/0/plane/azimuth_deg")
    both = moved(completed.setup, completed.assumptions, panel, 120).arrays[0]
    assert both.facade_azimuth_deg == both.plane.azimuth_deg == 120
    told = asked(with_array(mount=mount, plane=plane, side_walls=[{}], facade_azimuth_deg=200))
    alone = moved(told.setup, told.assumptions, panel, 120).arrays[0]
    assert (alone.facade_azimuth_deg, alone.plane.azimuth_deg) == (200, 120)


def test_a_given_figure_stays_while_an_assumed_one_moves():
    completed = asked(with_panel(max_power_voltage_v=31.0))
    pointer = "/arrays/0/panel/open_circuit_voltage_v"
    assumption = completed.assumptions.by_pointer[pointer]
    changed = moved(completed.setup, completed.assumptions, assumption, assumption.high)
    assert value_at(changed, pointer) == assumption.high
    assert value_at(changed, "/arrays/0/panel/max_power_voltage_v") == 31.0


def test_every_assumption_has_a_figure_or_a_reason_and_none_has_both():
    for request in (with_panel(), with_array(count=2), {**FULL, "household": {}}):
        completed = asked(request)
        found = moves(completed.setup, completed.assumptions, dirty)
        reasons = unmoved(completed.setup, completed.assumptions)
        assert found.keys() | reasons.keys() == completed.assumptions.by_pointer.keys()
        assert not found.keys() & reasons.keys()
        assert set(reasons.values()) <= {"no_range", "does_not_move_the_year"}


def test_choices_with_other_common_values_are_tried():
    completed = asked(with_array(count=2))
    found = moves(
        completed.setup, completed.assumptions, lambda setup: 500.0 - 50.0 * (setup.arrays[0].joined != "series")
    )
    assert found["/arrays/0/joined"] == pytest.approx(0.1)
    assert {"/arrays/0/mount", "/arrays/0/orientation", "/inverter/efficiency_weighting"} <= found.keys()
    assert "/arrays/0/joined" not in moves(asked(with_array()).setup, asked(with_array()).assumptions, dirty)


def test_what_is_said_not_to_move_the_year_does_not():
    sky = mixed_year(54.2, 12.3)
    completed = asked({**FULL, "arrays": with_array(mount="wall")["arrays"], "inverter": {"ac_power_w": 350}}, sky=sky)
    setup, assumptions = completed.setup, completed.assumptions

    def year_kwh(changed):
        return energy_year(changed, sky, climate(), assumptions).year_kwh.middle

    base, tried = year_kwh(setup), []
    for pointer, reason in unmoved(setup, assumptions).items():
        one = assumptions.by_pointer[pointer]
        if reason == "does_not_move_the_year" and one.value is not None:
            for end in (one.low, one.high):
                if end is not None:
                    tried.append(pointer)
                    assert year_kwh(replaced_at(setup, pointer, end)) == pytest.approx(base, rel=1e-12), pointer
    assert {"/arrays/0/panel/weight_kg", "/inverter/night_draw_w"} <= set(tried)


def test_the_homes_use_counts_only_under_an_export_limit():
    free, held = (
        {**FULL, "household": {}, "inverter": {**FULL["inverter"], "export_limit_w": limit}} for limit in (None, 0)
    )
    demand = "/household/demand_kwh_per_year"
    assert unmoved(asked(free).setup, asked(free).assumptions)[demand] == "does_not_move_the_year"
    assert demand in moves(asked(held).setup, asked(held).assumptions, dirty)


def test_the_rate_of_ageing_counts_only_for_a_panel_with_an_age():
    pointer = "/money/ageing_share_per_year"
    for told, counts in (
        ({"age_years": 0}, False),
        ({"age_years": 6}, True),
        ({"history": "unused"}, False),
        ({}, True),
    ):
        completed = asked(with_panel(**told))
        assert (pointer in moves(completed.setup, completed.assumptions, dirty)) is counts


@pytest.mark.parametrize(("name", "hanging"), [
    ("max_input_voltage_v", ("tracking_min_v", "tracking_max_v", "start_voltage_v")),
    ("max_short_circuit_current_a", ("max_current_a",)),
])  # fmt: skip
def test_a_limit_by_which_others_were_taken_moves_the_year_as_telling_it_does(name, hanging):
    """It was said that the year does not depend on it, and told it moved a year by up to all of it."""
    beside = {"max_current_a": 11, "tracking_min_v": 20}
    of_input = {one: value for one, value in beside.items() if one not in hanging}
    completed = asked(with_panel() | {"inverter": {"ac_power_w": 600, "inputs": [of_input]}})
    pointer = f"/inverter/inputs/0/{name}"
    assumption = completed.assumptions.by_pointer[pointer]
    for end in (assumption.low, assumption.high):
        told = asked(with_panel() | {"inverter": {"ac_power_w": 600, "inputs": [of_input | {name: end}]}})
        found = moved(completed.setup, completed.assumptions, assumption, end)
        assert found.inverter.inputs[0] == told.setup.inverter.inputs[0]

    def of_them(setup):
        return sum(getattr(setup.inverter.inputs[0], one) for one in hanging)

    assert moves(completed.setup, completed.assumptions, of_them)[pointer] > 0
    assert pointer not in unmoved(completed.setup, completed.assumptions)
    limits = {one: getattr(completed.setup.inverter.inputs[0], one) for one in hanging}
    known = asked(with_panel() | {"inverter": {"ac_power_w": 600, "inputs": [limits]}})
    assert unmoved(known.setup, known.assumptions)[pointer] == "does_not_move_the_year"
