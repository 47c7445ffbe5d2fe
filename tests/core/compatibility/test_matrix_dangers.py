"""Does what is asked of many, to see what is refused, refuse just what the whole check refuses on the panel side?"""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.compatibility import column_of, dangers_of, wired_alone
from service.core.compatibility.panel_side import panel_side
from service.core.compatibility.wiring import Curves, Wiring
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.finding import Verdict
from tests.builders import array, inverter, one_input, panel, setup

NONE = Assumptions({})
CELLS = (60.0, 10.0)


@settings(max_examples=60, deadline=None)
@given(
    st.integers(1, 4),
    st.sampled_from(["series", "parallel"]),
    st.sampled_from([40.0, 60.0, 120.0, 200.0]),
    st.sampled_from([12.0, 18.0, 40.0, 80.0]),
    st.sampled_from([None, 15.0, 25.0]),
    st.sampled_from(["locking_4mm", "bare", "not_known"]),
)
def test_a_set_is_refused_there_just_where_its_panel_side_is(
    count: int, joined: str, volts: float, amperes: float, fuse: float | None, connector: str
) -> None:
    limits = one_input(max_input_voltage_v=volts, tracking_max_v=min(55.0, volts), max_short_circuit_current_a=amperes)
    device = inverter(inputs=(limits,), input_count=1)
    one = panel(max_series_fuse_a=fuse, connector=connector)
    whole = setup(arrays=(array(panel=one, count=count, joined=joined, input=1),), inverter=device)
    dangers, column = dangers_of(wired_alone(whole, NONE, CELLS, one, NONE)), column_of(device, NONE)
    found = dangers.refusal(column)
    assert dangers.refuse(column) == (found is not None)
    told = panel_side(Wiring(whole, NONE, (CELLS[0],), Curves(), (CELLS[1],)))
    refused = {finding.code for finding in told if finding.verdict == Verdict.DOES_NOT_FIT}
    assert (found is not None) == bool(refused)
    if found is not None:
        assert found.code in refused
    alone = wired_alone(replace(whole, arrays=(array(count=2),)), NONE, CELLS, one, NONE)
    for each in (whole.arrays[0], array(panel=one, count=1), whole.arrays[0]):
        apart = wired_alone(replace(whole, arrays=(each,)), NONE, CELLS, one, NONE)
        assert dangers_of(alone, each).refusal(column) == dangers_of(apart).refusal(column)


@settings(max_examples=60, deadline=None)
@given(
    st.integers(1, 3),
    st.sampled_from(["series", "parallel"]),
    st.sampled_from([40.0, 60.0, 120.0]),
    st.sampled_from([16.0, 18.0, 40.0]),
    st.sets(st.sampled_from([
        "/arrays/0/panel/open_circuit_voltage_v", "/arrays/0/panel/short_circuit_current_a",
        "/inverter/inputs/0/max_input_voltage_v", "/inverter/inputs/0/max_short_circuit_current_a",
    ])),
)  # fmt: skip
def test_what_likely_does_not_fit_there_is_what_the_panel_side_finds_with_the_worst_values(
    count: int, joined: str, volts: float, amperes: float, assumed: set[str]
) -> None:
    limits = one_input(max_input_voltage_v=volts, tracking_max_v=min(55.0, volts), max_short_circuit_current_a=amperes)
    device, one = inverter(inputs=(limits,), input_count=1), panel()
    whole = setup(arrays=(array(panel=one, count=count, joined=joined, input=1),), inverter=device)
    values = {
        "/arrays/0/panel/open_circuit_voltage_v": one.open_circuit_voltage_v,
        "/arrays/0/panel/short_circuit_current_a": one.short_circuit_current_a,
        "/inverter/inputs/0/max_input_voltage_v": volts,
        "/inverter/inputs/0/max_short_circuit_current_a": amperes,
    }
    told = Assumptions.of(
        Assumption(pointer=pointer, value=value, code="class", source="", low=0.9 * value, high=1.1 * value)
        for pointer, value in values.items() if pointer in assumed and value is not None
    )  # fmt: skip
    stands = dangers_of(wired_alone(whole, told, CELLS, one, told)).stand(column_of(device, told))
    findings = panel_side(Wiring(whole, told, (CELLS[0],), Curves(), (CELLS[1],)))
    refused = any(finding.verdict == Verdict.DOES_NOT_FIT for finding in findings)
    likely = any(finding.likely == Verdict.DOES_NOT_FIT for finding in findings)
    assert stands == (Verdict.DOES_NOT_FIT if refused else Verdict.NOT_KNOWN if likely else Verdict.FITS)


def test_three_strings_on_a_small_fuse_are_refused_and_two_are_not() -> None:
    limits = one_input(max_short_circuit_current_a=90.0)
    device = inverter(inputs=(limits,), input_count=1)
    one = panel(max_series_fuse_a=15.0)
    base = setup(arrays=(array(panel=one, count=3, joined="parallel", input=1),), inverter=device)
    found = dangers_of(wired_alone(base, NONE, CELLS, one, NONE)).refusal(column_of(device, NONE))
    assert found is not None
    assert found.code == "reverse_current"
    two = replace(base, arrays=(replace(base.arrays[0], count=2),))
    assert dangers_of(wired_alone(two, NONE, CELLS, one, NONE)).refusal(column_of(device, NONE)) is None


@pytest.mark.parametrize("index", [0, 1])
def test_each_input_is_asked_by_its_own_limits(index: int) -> None:
    device = inverter(
        inputs=(one_input(max_input_voltage_v=60.0), one_input(max_input_voltage_v=30.0, tracking_max_v=28.0)),
        input_count=2,
    )
    one = panel()
    base = setup(arrays=(array(panel=one, count=1, input=1),), inverter=device)
    found = dangers_of(wired_alone(base, NONE, CELLS, one, NONE)).refusal(column_of(device, NONE, index))
    assert (found is not None) == (index == 1)
