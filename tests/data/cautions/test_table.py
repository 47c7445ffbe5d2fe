"""Column rules of the table of cautions, and its words."""

import re

import pytest

from service.api.words.english.cautions import TEXTS
from service.core.appraisal import CautionTable
from service.core.appraisal.caution_conditions import State
from service.core.model.caution import CAUTION_STEPS, SEVERITIES, TESTS
from service.data.cautions import load_cautions
from tests.requests import FULL

CAUTIONS = load_cautions()
WORDS = re.compile(r"\w+")
FINDINGS = frozenset(
    WORDS.findall(
        "cold_voltage hot_voltage start_voltage operating_current short_circuit_current reverse_current panel_power "
        "system_voltage unlike_panels input_count datasheet_sanity connectors circuit_cable lead_voltage_rise "
        "residual_current grid_voltage local_cap panel_cap registration plug certificate meter export_permission"
    )
)
SUSPECTS = frozenset(
    WORDS.findall(
        "input_dead bypass_section_lost limit_lower_than_stated undeclared_shade plane_differs dirt_drift "
        "heat_derating grid_trips wet_trips clock_shift fast_ageing"
    )
)
VERDICTS = frozenset({"fits", "fits_with_loss", "does_not_fit", "not_known"})
NOT_IN_SETUP = frozenset({"/household/other_generation", "/outlay/faulty_share"})  # not in the full request

each_caution = pytest.mark.parametrize("caution", CAUTIONS, ids=lambda caution: caution.code)


@each_caution
def test_the_columns_hold_what_they_may_hold(caution):
    assert re.fullmatch(r"[a-z][a-z0-9_]{1,40}", caution.code)
    assert caution.severity in SEVERITIES
    assert caution.step in CAUTION_STEPS
    assert 1 <= caution.rank <= 100
    assert caution.status in {"verified", "memory", "common practice"}
    assert caution.source
    assert caution.topic
    assert bool(caution.needs) != caution.always


@each_caution
def test_each_has_a_sentence_that_is_short_and_promises_nothing(caution):
    text = TEXTS[caution.code]
    assert len(text) <= 200
    assert text.endswith(".")
    assert not re.search(r"(?i)\b(safe|safely|legal|legally|allowed)\b", text)


def test_no_sentence_is_left_over_and_no_code_stands_twice():
    assert len(CAUTIONS) == len({caution.code for caution in CAUTIONS}) == len(TEXTS)


@pytest.mark.parametrize("step", CAUTION_STEPS)
def test_within_a_step_dangers_come_before_warnings_before_notes(step):
    rows = sorted((c for c in CAUTIONS if c.step == step), key=lambda c: c.rank)
    ranks = [c.rank for c in rows]
    order = [SEVERITIES.index(c.severity) for c in rows]
    assert len(set(ranks)) == len(ranks)
    assert order == sorted(order)


@each_caution
def test_every_condition_can_be_asked(caution):
    for need in caution.needs:
        assert need.test in TESTS
        if need.test == "finding":
            assert need.finding in FINDINGS | SUSPECTS
            wanted = VERDICTS if need.finding in FINDINGS else {"suspected"}
            assert set(need.value) <= wanted
            assert need.value
        else:
            assert re.fullmatch(r"(/(\*|\w+))+", need.pointer)
            assert need.pointer in NOT_IN_SETUP or reaches(FULL, need.pointer.split("/")[1:]), need.pointer
        if need.test in {"above", "below"}:
            assert isinstance(need.value, int | float)
        if need.test == "one_of":
            assert isinstance(need.value, tuple)


@each_caution
def test_no_two_conditions_of_one_caution_contradict_each_other(caution):
    request, verdicts = example_for(caution.needs)
    assert CautionTable.of([caution]).states(request, verdicts) == [State.HOLDS]


def reaches(node, way):
    if not way:
        return True
    if way[0] == "*":
        return isinstance(node, list) and bool(node) and reaches(node[0], way[1:])
    return isinstance(node, dict) and way[0] in node and reaches(node[way[0]], way[1:])


def example_for(needs):
    """A request and verdicts made to meet every condition, each by itself."""
    request, verdicts = {"arrays": [{}]}, {}
    for need in sorted(needs, key=lambda need: need.test != "known"):
        if need.test == "finding":
            verdicts[need.finding] = {need.value[0]}
        elif need.test != "not_known":
            write(request, need.pointer.split("/")[1:], meeting(need))
    return request, verdicts


def meeting(need):
    other = (not need.value) if isinstance(need.value, bool) else "something else"
    return {
        "known": {} if need.pointer == "/socket_circuit" else "given", "is": need.value, "is_not": other,
        "above": need.value + 1 if need.test == "above" else None,
        "below": need.value - 1 if need.test == "below" else None,
        "one_of": need.value[0] if need.test == "one_of" else None,
    }[need.test]  # fmt: skip


def write(node, way, value):
    head, *rest = way
    if head == "*":
        if not node:
            node.append({})
        write(node[0], rest, value)
    elif not rest:
        node[head] = value
    else:
        if not isinstance(node.get(head), dict | list):
            node[head] = [] if rest[0] == "*" else {}
        write(node[head], rest, value)
