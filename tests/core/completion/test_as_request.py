"""What was completed can be sent again and stays as it is."""

import json

import pytest

from service.core.completion import as_request
from service.core.model.pointer import value_at
from tests.requests import FULL, SMALLEST, asked, with_array, with_inverter, with_panel

# What no request can state: that no swap is counted, and that a limit is not known.
UNSPEAKABLE = {"/money/inverter_swap"}
REQUESTS = {
    "smallest": SMALLEST,
    "full": FULL,
    "railing": with_array(mount="hung_on_rail"),
    "own hours": {**with_panel(), "household": {"demand": {"values_w": [float(h) for h in range(24)]}}},
    "circuit": {**with_panel(), "socket_circuit": {}},
    "coefficients in volts": with_panel(voc_coefficient_v_per_k=-0.1),
    "two inputs": with_inverter(inputs=[{"max_current_a": 10}, {"max_panel_short_circuit_current_a": 12}]),
}


@pytest.mark.parametrize("given", REQUESTS.values(), ids=REQUESTS)
def test_a_completed_request_sent_again_gives_the_same_setup_and_nothing_new_is_assumed(given):
    once = asked(given)
    again = asked(as_request(once.setup))
    assert again.setup == once.setup
    left = set(again.assumptions.by_pointer) - UNSPEAKABLE
    assert all(pointer.endswith("/max_short_circuit_current_a") for pointer in left)
    assert left <= set(once.assumptions.by_pointer)


@pytest.mark.parametrize("given", REQUESTS.values(), ids=REQUESTS)
def test_the_completed_request_is_plain_json_under_the_callers_names(given):
    request = as_request(asked(given).setup)
    assert json.loads(json.dumps(request)) == request


def test_a_full_request_comes_back_as_it_was_sent():
    assert as_request(asked(FULL).setup) == {
        **FULL, "inverter": {**FULL["inverter"], "inputs": FULL["inverter"]["inputs"] * 2},
    }  # fmt: skip


def test_pointers_of_assumptions_resolve_in_the_completed_request():
    completed = asked(SMALLEST)
    request = as_request(completed.setup)
    for pointer in completed.assumptions.by_pointer:
        node = request
        *way, last = pointer.split("/")[1:]
        for part in way:
            node = node[int(part)] if isinstance(node, list) else node[part]
        if value_at(completed.setup, pointer) is not None:
            assert last in node, pointer
