"""What is filled in is written down, and what decides about harm is never guessed in silence."""

from dataclasses import fields

import pytest

from service.core.completion import default_rows
from service.core.completion.defaults import pattern_of
from service.core.errors import ContradictionError
from service.core.model.pointer import value_at
from tests.requests import FULL, SMALLEST, asked, with_array, with_inverter, with_panel


def test_the_smallest_request_becomes_complete():
    setup = asked(SMALLEST).setup
    assert setup.arrays[0].panel.rated_power_w == 410
    assert setup.inverter.set_limit_w == 600
    assert setup.socket_circuit is None
    assert setup.outlay is None
    assert setup.site.rule_area == "DE"
    assert setup.tariff.periods[0].import_price_per_kwh == 0.3325  # 0.38 less an eighth: fixed charges inside


def test_nothing_of_a_full_request_is_assumed_or_changed():
    completed = asked(FULL)
    assert completed.assumptions.by_pointer == {}
    setup = completed.setup
    assert setup.arrays[0].panel.open_circuit_voltage_v == 39.4
    assert setup.arrays[0].joined == "parallel"
    assert setup.inverter.inputs == (setup.inverter.inputs[0],) * 2
    assert setup.inverter.inputs[1].max_input_power_w == 500
    assert setup.socket_circuit.other_sets[0].panel_power_w == 380
    assert setup.household.at_home.weekend == ((8, 23),)
    assert setup.money.inverter_swap.amount == 130


def test_every_pointer_of_an_assumption_resolves_to_its_value():
    completed = asked(SMALLEST)
    for pointer, assumption in completed.assumptions.by_pointer.items():
        found = value_at(completed.setup, pointer)
        assert (list(found) if isinstance(found, tuple) else found) == assumption.value, pointer


def test_every_assumption_has_a_row_a_reason_and_a_source():
    rows = {(row.pointer, row.code) for row in default_rows()}
    for assumption in asked(SMALLEST).assumptions.by_pointer.values():
        assert (pattern_of(assumption.pointer), assumption.code) in rows
        assert assumption.source


def test_a_range_holds_the_value_that_was_taken():
    for pointer, assumption in asked(with_panel()).assumptions.by_pointer.items():
        if assumption.low is not None and assumption.value is not None:
            assert assumption.low <= assumption.value <= assumption.high, pointer


def test_ratings_that_nobody_gave_are_none_or_written_down_never_silent():
    completed = asked(SMALLEST)
    panel, entry = completed.setup.arrays[0].panel, completed.setup.inverter.inputs[0]
    for prefix, thing in (("/arrays/0/panel", panel), ("/inverter/inputs/0", entry)):
        for field in fields(thing):
            pointer = f"{prefix}/{field.name}"
            if pointer == "/arrays/0/panel/rated_power_w":
                continue
            assert getattr(thing, field.name) is None or completed.assumptions.assumed(pointer), pointer
    assert entry.max_short_circuit_current_a is None
    limit, at_work = (
        completed.assumptions.by_pointer[f"/inverter/inputs/0/{name}"]
        for name in ("max_short_circuit_current_a", "max_current_a")
    )
    assert limit.low == at_work.low  # it stands what it works with, and no more is sure


def test_a_described_circuit_keeps_its_gaps_and_an_undescribed_one_is_none():
    bare = asked({**with_panel(), "socket_circuit": {"breaker_a": 16}})
    circuit = bare.setup.socket_circuit
    assert (circuit.breaker_a, circuit.cable_mm2, circuit.laying, circuit.dedicated) == (16, None, None, None)
    assert circuit.plug == "not_known"
    assert bare.assumptions.assumed("/socket_circuit/residual_current_device")
    assert asked(with_panel()).setup.socket_circuit is None


def test_null_counts_as_not_given():
    request = {**with_panel(), "household": None, "meter": {"counts": None}, "socket_circuit": None}
    completed = asked(request)
    assert completed.setup.socket_circuit is None
    assert completed.assumptions.assumed("/meter/counts")


def test_a_zero_that_was_given_is_kept():
    request = with_array(plane={"tilt_deg": 0, "azimuth_deg": 0}, dirt_share=0, lead_length_m=0)
    completed = asked(request)
    array = completed.setup.arrays[0]
    assert (array.plane.tilt_deg, array.plane.azimuth_deg, array.dirt_share, array.lead_length_m) == (0, 0, 0, 0)
    assert not completed.assumptions.assumed("/arrays/0/dirt_share")


@pytest.mark.parametrize(
    "edge",
    [
        {"hand_rail": {"distance_m": 0.15}}, {"row_in_front": {"above_bottom_edge_m": 0.2, "distance_m": 1}},
        {"overhang": {"reaches_out_m": 0.5}}, {"side_walls": [{"side": "left"}]},
    ],
)  # fmt: skip
def test_beside_what_casts_a_shadow_on_some_rows_whole_cells_are_taken_and_written_down_where_nobody_tells(edge):
    pointer = "/arrays/0/panel/half_cells"
    taken = asked(with_array(**edge)).assumptions.by_pointer[pointer]
    assert (taken.value, taken.code) == (False, "whole_cells")
    assert not asked(with_array(**edge, panel={"rated_power_w": 410, "half_cells": True})).assumptions.assumed(pointer)
    assert not asked(SMALLEST).assumptions.assumed(pointer)


@pytest.mark.parametrize("missing", ["/arrays/0/panel/rated_power_w", "/inverter/ac_power_w", "/arrays"])
def test_what_must_be_there_is_asked_for(missing):
    request = with_inverter()
    if missing == "/arrays":
        request["arrays"] = []
    elif missing.endswith("rated_power_w"):
        del request["arrays"][0]["panel"]["rated_power_w"]
    else:
        del request["inverter"]["ac_power_w"]
    with pytest.raises(ContradictionError) as error:
        asked(request)
    assert error.value.pointer == missing
    assert error.value.accepted
