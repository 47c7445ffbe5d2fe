"""Promises of completion: nothing is filled in silence, nothing crashes, and what is complete stays as it is."""

from copy import deepcopy

from hypothesis import example, given
from hypothesis import strategies as st

from service.core.completion import as_request
from service.core.errors import ContradictionError
from service.core.model.bounds import BOUNDS
from service.core.model.pointer import value_at
from tests.requests import FULL, asked, with_inverter, with_panel

NEEDED = {
    "/site/latitude_deg", "/site/longitude_deg", "/arrays/0/panel/rated_power_w", "/inverter/ac_power_w",
    "/storage/usable_kwh",
}  # fmt: skip
WITHOUT = {"/arrays", "/arrays/0", "/arrays/0/panel", "/site", "/inverter"}  # hold what must be there


def members(node, pointer=""):
    """Every member of every object of a request, by pointer."""
    if isinstance(node, dict):
        for name, value in node.items():
            yield f"{pointer}/{name}"
            yield from members(value, f"{pointer}/{name}")
    elif isinstance(node, list):
        for i, entry in enumerate(node):
            if isinstance(entry, dict):
                yield from members(entry, f"{pointer}/{i}")


OPTIONAL = sorted(set(members(FULL)) - NEEDED - WITHOUT)


def without(request, pointers):
    request = deepcopy(request)
    for pointer in pointers:
        *way, last = pointer.split("/")[1:]
        node = request
        for part in way:
            node = (node[int(part)] if isinstance(node, list) else node.get(part)) if node is not None else None
        if node is not None:
            node.pop(last, None)
    return request


def is_open_or_told(completed, pointer):
    if completed.assumptions.assumed(pointer):
        return True
    if any(told.startswith(pointer + "/") for told in completed.assumptions.by_pointer):
        return True
    try:
        return value_at(completed.setup, pointer) is None
    except (KeyError, AttributeError):
        return True  # it went with the object around it


@given(st.sets(st.sampled_from(OPTIONAL), min_size=1, max_size=12))
def test_whatever_is_dropped_is_assumed_and_told_or_stays_open(dropped):
    completed = asked(without(FULL, dropped))
    for pointer in dropped:
        assert is_open_or_told(completed, pointer), pointer


@given(st.sets(st.sampled_from(OPTIONAL), max_size=12))
def test_a_completed_request_is_complete(dropped):
    once = asked(without(FULL, dropped)).setup
    assert asked(as_request(once)).setup == once


def figures(*names):
    """Any of these fields, within its own bounds, or absent."""
    return st.fixed_dictionaries(
        {},
        optional={
            name: (
                st.integers(int(BOUNDS[name].low), int(BOUNDS[name].high))
                if BOUNDS[name].whole
                else st.floats(BOUNDS[name].low, BOUNDS[name].high, allow_nan=False)
            )
            for name in names
        },
    )


def tried(request):
    """The completed request and None, or None and the refusal."""
    try:
        return asked(request), None
    except ContradictionError as error:
        return None, error


PANEL = figures("rated_power_w", "open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v",
                "max_power_current_a", "cells_in_series", "voc_coefficient_v_per_k", "isc_coefficient_a_per_k",
                "length_mm", "width_mm", "age_years")  # fmt: skip
KINDS = st.sampled_from(["mono", "poly", "topcon", "hjt", "back_contact", "cdte", "cigs", "amorphous"])


def followed(panel, kind, refusal):
    """What is refused next, once the example of a refusal is taken; the panel is mended in place."""
    panel[refusal.pointer.rpartition("/")[2]] = refusal.example
    return tried(with_panel(**panel, cell_kind=kind))[1]


@given(PANEL, KINDS)
@example({"open_circuit_voltage_v": 4.0, "short_circuit_current_a": 0.1}, "cigs")  # no panel is as small
@example({"open_circuit_voltage_v": 1, "max_power_voltage_v": 200, "max_power_current_a": 0.1}, "mono")
def test_any_datasheet_is_completed_within_bounds_or_refused_with_examples_that_lead_to_one(panel, kind):
    request = with_panel(**panel, cell_kind=kind)
    completed, refusal = tried(request)
    if refusal is not None:
        assert refusal.pointer.startswith("/arrays/0/panel/")
        assert refusal.accepted
        for _ in range(6):  # four points, the two coefficients
            refusal = refusal and followed(panel, kind, refusal)
        assert refusal is None
        return
    filled = completed.setup.arrays[0].panel
    points = ("open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v", "max_power_current_a")
    if all(panel.get(name) is not None for name in points):  # a whole label stands as printed, to be doubted later
        assert [getattr(filled, name) for name in points] == [panel[name] for name in points]
    else:
        assert filled.max_power_voltage_v < filled.open_circuit_voltage_v
        assert filled.max_power_current_a < filled.short_circuit_current_a
    for name, bounds in BOUNDS.items():
        value = getattr(filled, name, None)
        if value is not None and name != "power_tolerance_pct":
            assert bounds.low <= value <= bounds.high, name


INPUT = figures("max_input_voltage_v", "tracking_min_v", "tracking_max_v", "start_voltage_v", "max_current_a",
                "max_short_circuit_current_a", "max_panel_short_circuit_current_a")  # fmt: skip


@given(INPUT)
def test_any_input_within_bounds_is_completed_in_order_or_refused_with_its_place(entry):
    completed, refusal = tried(with_inverter(inputs=[entry]))
    if refusal is not None:
        assert refusal.pointer.startswith("/inverter/inputs/0/")
        return
    filled = completed.setup.inverter.inputs[0]
    assert filled.tracking_min_v <= filled.tracking_max_v <= filled.max_input_voltage_v
    assert filled.start_voltage_v <= filled.max_input_voltage_v
    for name in ("max_input_voltage_v", "tracking_min_v", "tracking_max_v", "start_voltage_v", "max_current_a"):
        assert BOUNDS[name].low <= getattr(filled, name) <= BOUNDS[name].high, name
