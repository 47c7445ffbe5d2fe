"""Inputs are counted, described one for all or each, and contradictions are named with their place."""

from copy import deepcopy

import pytest

from service.core.errors import ContradictionError
from tests.requests import asked, with_inverter


def arrays(*inputs):
    request = with_inverter(ac_power_w=800)
    [first] = request["arrays"]
    request["arrays"] = [deepcopy(first) | ({} if number is None else {"input": number}) for number in inputs]
    return request


@pytest.mark.parametrize(("power", "inputs"), [(300, 1), (400, 1), (600, 2), (800, 2), (1600, 4), (5000, 8)])
def test_inputs_are_counted_by_power_where_nobody_said(power, inputs):
    assert asked(with_inverter(ac_power_w=power)).setup.inverter.input_count == inputs


def test_the_arrays_need_an_input_each():
    setup = asked(arrays(None, None, None)).setup
    assert setup.inverter.input_count == 3
    assert [array.input for array in setup.arrays] == [1, 2, 3]


def test_an_array_without_an_input_takes_the_next_free_one():
    request = arrays(None, 1, None)
    request["inverter"]["input_count"] = 3
    assert [array.input for array in asked(request).setup.arrays] == [2, 1, 3]


def test_one_entry_describes_all_inputs():
    setup = asked(with_inverter(input_count=3, inputs=[{"max_input_voltage_v": 55}])).setup
    assert [entry.max_input_voltage_v for entry in setup.inverter.inputs] == [55, 55, 55]


def test_several_entries_count_the_inputs():
    completed = asked(with_inverter(inputs=[{"max_current_a": 10}, {"max_current_a": 12}, {}]))
    assert completed.setup.inverter.input_count == 3
    assert completed.setup.inverter.inputs[1].max_current_a == 12
    assert "/inverter/inputs/2/max_current_a" in completed.assumptions.by_pointer
    assert "/inverter/inputs/1/max_current_a" not in completed.assumptions.by_pointer


@pytest.mark.parametrize(
    "given",
    [{}, {"tracking_min_v": 30}, {"tracking_min_v": 90}, {"tracking_max_v": 100}, {"start_voltage_v": 70},
     {"max_input_voltage_v": 25}, {"max_input_voltage_v": 450}, {"max_input_voltage_v": 10},
     {"tracking_min_v": 5, "max_input_voltage_v": 1500}, {"tracking_max_v": 12}],
)  # fmt: skip
def test_a_filled_input_never_contradicts_what_was_given(given):
    entry = asked(with_inverter(inputs=[given])).setup.inverter.inputs[0]
    assert entry.tracking_min_v < entry.tracking_max_v <= entry.max_input_voltage_v
    assert entry.start_voltage_v <= entry.max_input_voltage_v
    for name, value in given.items():
        assert getattr(entry, name) == value


def test_the_largest_panels_label_value_stands_for_the_absolute_limit():
    completed = asked(with_inverter(inputs=[{"max_panel_short_circuit_current_a": 16}]))
    assert completed.setup.inverter.inputs[0].max_short_circuit_current_a is None
    assert "/inverter/inputs/0/max_short_circuit_current_a" not in completed.assumptions.by_pointer


def test_a_tracking_range_above_the_greatest_voltage_is_cut_there_and_said():
    completed = asked(with_inverter(inputs=[{"tracking_min_v": 16, "tracking_max_v": 60, "max_input_voltage_v": 52}]))
    entry = completed.setup.inverter.inputs[0]
    assert (entry.tracking_min_v, entry.tracking_max_v, entry.max_input_voltage_v) == (16, 52, 52)
    said = completed.assumptions.by_pointer["/inverter/inputs/0/tracking_max_v"]
    assert (said.code, said.value) == ("cut_at_greatest_voltage", 52)
    assert not completed.assumptions.assumed("/inverter/inputs/0/max_input_voltage_v")


@pytest.mark.parametrize(
    ("given", "pointer"),
    [({"set_limit_w": 700}, "/inverter/set_limit_w"), ({"input_count": 3, "inputs": [{}, {}]}, "/inverter/inputs"),
     ({"inputs": [{"tracking_min_v": 56, "tracking_max_v": 55}]}, "/inverter/inputs/0/tracking_min_v"),
     ({"inputs": [{"tracking_min_v": 61, "max_input_voltage_v": 60}]}, "/inverter/inputs/0/tracking_min_v"),
     ({"inputs": [{}, {"start_voltage_v": 61, "max_input_voltage_v": 60}]}, "/inverter/inputs/1/start_voltage_v")],
)  # fmt: skip
def test_contradictions_are_refused_with_their_place_and_what_is_accepted(given, pointer):
    with pytest.raises(ContradictionError) as error:
        asked(with_inverter(ac_power_w=600, **given))
    assert error.value.pointer == pointer
    assert error.value.accepted


def test_an_array_on_an_input_that_does_not_exist_is_refused():
    request = arrays(1, 3)
    request["inverter"]["input_count"] = 2
    with pytest.raises(ContradictionError) as error:
        asked(request)
    assert (error.value.pointer, error.value.given, error.value.accepted) == ("/arrays/1/input", 3, "1 to 2")


def test_an_array_for_which_no_input_is_left_is_refused():
    request = arrays(1, None)
    request["inverter"]["input_count"] = 1
    with pytest.raises(ContradictionError) as error:
        asked(request)
    assert error.value.pointer == "/arrays/1/input"


def test_one_panel_in_series_with_another_array_is_asked_back_and_never_taken_for_parallel():
    request = arrays(1, 1)
    request["arrays"][1]["joined"] = "series"
    with pytest.raises(ContradictionError) as error:
        asked(request)
    assert error.value.pointer == "/arrays/1/joined"
    assert "count" in error.value.accepted


def test_strings_and_single_panels_may_share_an_input_in_parallel():
    request = arrays(1, 1, 2)
    request["arrays"][0] |= {"count": 2, "joined": "series"}
    request["arrays"][1]["joined"] = "parallel"
    request["arrays"][2]["joined"] = "series"
    assert [array.joined for array in asked(request).setup.arrays] == ["series", "parallel", "series"]
    assert asked(arrays(1, 1)).setup.arrays[1].joined == "parallel"


@pytest.mark.parametrize("limit", [10.875, 10.873, 21.999, 10.001])
@pytest.mark.parametrize("name", ["max_input_voltage_v", "tracking_max_v"])
def test_a_filled_start_voltage_stays_below_a_limit_finer_than_its_rounding(name, limit):
    entry = asked(with_inverter(inputs=[{name: limit}])).setup.inverter.inputs[0]
    assert entry.start_voltage_v <= min(entry.tracking_max_v, entry.max_input_voltage_v)
    assert entry.tracking_min_v < entry.tracking_max_v


def test_a_filled_current_stays_below_the_panels_that_the_maker_admits():
    entry = asked(with_inverter(inputs=[{"max_panel_short_circuit_current_a": 10.875}])).setup.inverter.inputs[0]
    assert entry.max_current_a <= 10.875
