"""The set with every demanded remedy in place: what is changed, in which order, and what is left alone."""

import pytest

from service.core.appraisal import mended
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.finding import Part
from tests import builders
from tests.findings import REFUSED, compatibility, finding, remedy

SETUP = builders.setup()
NOTHING = Assumptions({})
LIMIT, BREAKER = "/inverter/set_limit_w", "/socket_circuit/breaker_a"


def lower(watts):
    return remedy("lower_set_limit", LIMIT, watts, who="you")


def refusals_of(setup):
    """Above 600 W the place refuses; above 400 W the cable does, unless its breaker is small."""
    limit, circuit = setup.inverter.set_limit_w, setup.socket_circuit
    found = []
    if limit > 600:
        found.append(finding("local_cap", Part.LOCAL_RULE, REFUSED, remedies=(lower(600.0),)))
    if limit > 400 and circuit.breaker_a > 13:
        smaller = remedy("smaller_breaker", BREAKER, 13.0)
        found.append(finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=(smaller,)))
    return compatibility(*found)


def asked(setup, check=None, assumptions=NOTHING):
    check = check or (lambda changed, _: refusals_of(changed))
    return mended(setup, assumptions, check(setup, assumptions), check)


def with_circuit(**inverter):
    return builders.setup(inverter=builders.inverter(**inverter), socket_circuit=builders.socket_circuit(breaker_a=16))


def test_a_set_that_refuses_nothing_is_left_as_it_is():
    now = asked(with_circuit(set_limit_w=300))
    assert now.setup == with_circuit(set_limit_w=300)
    assert now.remedies == ()


def test_every_refusal_is_mended_and_the_circuit_is_asked_after_the_limit():
    now = asked(with_circuit())
    assert (now.setup.inverter.set_limit_w, now.setup.socket_circuit.breaker_a) == (600, 13)
    assert [r.code for _, r in now.remedies] == ["lower_set_limit", "smaller_breaker"]
    assert now.compatibility.verdict != REFUSED


def test_a_remedy_that_became_needless_is_not_demanded():
    def check(setup, _):
        found = refusals_of(setup)
        lower_still = finding("local_cap", Part.LOCAL_RULE, REFUSED, remedies=(lower(350.0),))
        return compatibility(lower_still, *found.findings) if setup.inverter.set_limit_w > 350 else found

    now = asked(with_circuit(), check)
    assert [r.code for _, r in now.remedies] == ["lower_set_limit"]
    assert now.setup.socket_circuit.breaker_a == 16


def test_of_two_values_for_one_field_the_last_one_stands():
    def check(setup, _):
        limit = setup.inverter.set_limit_w
        found = [finding("local_cap", Part.LOCAL_RULE, REFUSED, remedies=(lower(600.0),))] if limit > 600 else []
        if limit > 110:
            found.append(finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=(lower(110.0),)))
        return compatibility(*found)

    now = asked(with_circuit(), check)
    assert [(r.pointer, r.new_value) for _, r in now.remedies] == [(LIMIT, 110.0)]


def test_what_no_request_can_state_changes_nothing_and_ends():
    fuses = remedy("string_fuses", None, 20.0, unit="A")
    calls = []

    def check(setup, _):
        calls.append(setup)
        return compatibility(finding("reverse_current", Part.PANEL_SIDE, REFUSED, remedies=(fuses,)))

    now = asked(SETUP, check)
    assert now.remedies == ()
    assert len(calls) == 1  # as it is, and not again


def test_a_remedy_that_does_not_mend_is_made_once():
    def check(_, __):
        return compatibility(finding("local_cap", Part.LOCAL_RULE, REFUSED, remedies=(lower(600.0),)))

    assert len(asked(SETUP, check).remedies) == 1


def test_a_value_that_a_remedy_replaces_is_assumed_no_longer():
    guess = Assumption(pointer=LIMIT, value=800.0, code="not_turned_down", source="")
    assert not asked(with_circuit(), assumptions=Assumptions.of([guess])).assumptions.assumed(LIMIT)


def test_panels_moved_to_inputs_of_their_own_keep_what_was_assumed_of_them_but_for_the_mismatch():
    stacked = builders.setup(arrays=(builders.array(count=2, joined="parallel", mismatch_share=0.01),))
    spread = remedy("one_panel_per_input", None, 1, facts={"array": "left", "to_inputs": "2"})
    guesses = [
        Assumption(pointer="/arrays/0/mismatch_share", value=0.01, code="usual_mismatch", source="", low=0, high=0.03),
        Assumption(pointer="/arrays/0/dirt_share", value=0.02, code="usual_dirt", source="", low=0.005, high=0.06),
    ]

    def check(setup, _):
        if len(setup.arrays) > 1:
            return compatibility()
        return compatibility(finding("reverse_current", Part.PANEL_SIDE, REFUSED, remedies=(spread,)))

    now = asked(stacked, check, Assumptions.of(guesses))
    assert [(a.input, a.count, a.mismatch_share) for a in now.setup.arrays] == [(1, 1, 0.0), (2, 1, 0.0)]
    known = now.assumptions.by_pointer
    assert known["/arrays/1/dirt_share"].high == 0.06
    assert known["/arrays/1/mismatch_share"].code == "one_panel_an_input"


def test_a_stated_mismatch_is_kept():
    stacked = builders.setup(arrays=(builders.array(count=2, joined="parallel", mismatch_share=0.02),))
    spread = remedy("one_panel_per_input", None, 1, facts={"array": "left", "to_inputs": "2"})
    refusing = compatibility(finding("reverse_current", Part.PANEL_SIDE, REFUSED, remedies=(spread,)))
    now = mended(stacked, NOTHING, refusing, lambda *_: compatibility())
    assert [a.mismatch_share for a in now.setup.arrays] == pytest.approx([0.02, 0.02])
