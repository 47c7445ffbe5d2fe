"""What panels lose by differing where nobody told it: by the panels that share an input, however they are told."""

import pytest

from service.core.completion import with_mismatch_again
from service.core.model.assumption import Assumptions
from service.core.model.pointer import replaced_at
from tests.requests import SMALLEST, asked

PANEL = {"panel": {"rated_power_w": 410}}
TWO_INPUTS = {"ac_power_w": 800, "input_count": 2}


def completed(*arrays, **inverter):
    return asked({**SMALLEST, "arrays": [{**PANEL, **one} for one in arrays], "inverter": {**TWO_INPUTS, **inverter}})


def shares(*arrays):
    return [one.mismatch_share for one in completed(*arrays).setup.arrays]


@pytest.mark.parametrize("joined", ["parallel", "one_string"])
def test_two_panels_on_one_input_differ_as_much_as_one_array_of_two(joined):
    as_one = shares({"count": 2, "joined": "series" if joined == "one_string" else joined})
    assert as_one == [0.01]
    assert shares({"input": 1, "joined": joined}, {"input": 1, "joined": joined}) == as_one * 2


def test_panels_on_inputs_of_their_own_lose_nothing_to_each_other():
    assert shares({"input": 1}, {"input": 2}) == [0.0, 0.0]
    assert shares({}, {"count": 2}) == [0.0, 0.01]


def test_what_was_told_stays():
    assert shares({"input": 1, "mismatch_share": 0.0}, {"input": 1}) == [0.0, 0.01]


def test_of_a_changed_set_what_nobody_told_goes_by_the_panels_that_share_an_input_then():
    before = completed({"input": 1}, {"input": 1})
    moved = replaced_at(before.setup, "/arrays/1/input", 2)
    after, assumed = with_mismatch_again(moved, before.assumptions)
    assert [one.mismatch_share for one in after.arrays] == [0.0, 0.0]
    assert assumed.by_pointer["/arrays/1/mismatch_share"].code == "one_panel_an_input"
    assert with_mismatch_again(moved, Assumptions.of(()))[0] is moved
