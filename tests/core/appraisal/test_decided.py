"""The decision is about the set with the conditions met, and each condition says what it costs."""

from dataclasses import replace

import pytest

from service.api.words.english.decisions import TEXTS
from service.core.appraisal import Again, Choice, decided, mended
from service.core.model.assumption import Assumptions
from service.core.model.band import Band
from service.core.model.finding import Part
from tests import builders
from tests.energy_years import energy_year
from tests.findings import OPEN, REFUSED, account, compatibility, finding, remedy

NOTHING = Assumptions({})
SETUP = builders.setup()
LIMIT = remedy("lower_set_limit", "/inverter/set_limit_w", 350.0, who="you", unit="W")
CAP = finding("local_cap", Part.LOCAL_RULE, REFUSED, remedies=(LIMIT,))
SPREAD = remedy("one_panel_per_input", None, 1, who="you", facts={"array": "left", "to_inputs": "2"})
STACKED = builders.setup(arrays=(builders.array(count=2, joined="parallel"),))
# Three per cent over fifteen years: a saving of 100 is worth 1193.79 today (annuity factor 11.93794).


def again(outlay, savings, findings=()):
    """The changed set saves so much, and has these findings."""
    return Again(
        check=lambda *_: compatibility(*findings),
        account=lambda *_: (energy_year(400.0), account(outlay, savings)),
    )


def answer(outlay, *findings, then=(40.0, 50.0, 60.0), left=(), setup=SETUP):
    found = decided(
        setup, NOTHING, compatibility(*findings), energy_year(800.0), account(outlay), None, again(outlay, then, left)
    )
    return found.decision


def test_a_set_that_pays_only_while_it_breaks_the_rule_is_not_worth_it():
    decision = answer(700, CAP)  # 100 a year would bring back 1194, 50 a year bring back 597
    assert decision.verdict == Choice.NOT_WORTH_IT
    assert decision.worth_up_to == pytest.approx(50 * 11.93794, abs=0.01)
    assert decision.because[0].code == "not_paid_back"
    assert decision.once_met.year_kwh.middle == 400.0
    assert [(one.code, one.pointer) for one in decision.once_met.changes] == [
        ("lower_set_limit", "/inverter/set_limit_w")
    ]


def test_the_price_that_may_be_paid_is_that_of_the_mended_set():
    decision = answer(None, CAP)
    assert decision.verdict == Choice.WORTH_IT_IF
    [price] = [one for one in decision.conditions if one.code == "pay_at_most"]
    assert price.facts["amount"] == 590  # 596.9 in two digits, cut
    assert {"pay_at_most", "lower_set_limit", "get_consent"} <= {one.code for one in decision.conditions}


def test_the_other_year_is_told_and_only_where_it_differs():
    assert "other_year_once_met" in {reason.code for reason in answer(300, CAP).because}
    breaker = remedy("smaller_breaker", "/socket_circuit/breaker_a", 13.0)
    cable = finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=(breaker,))
    described = builders.setup(socket_circuit=builders.socket_circuit(breaker_a=16))
    same = Again(check=lambda *_: compatibility(), account=lambda *_: (energy_year(800.0), account(300)))
    decision = decided(described, NOTHING, compatibility(cable), energy_year(800.0), account(300), None, same).decision
    assert "other_year_once_met" not in {reason.code for reason in decision.because}
    assert decision.once_met.changes[0].pointer == "/socket_circuit/breaker_a"


def test_a_refusal_that_only_the_remedy_of_another_mends_is_not_hopeless():
    decision = answer(300, CAP, finding("short_circuit_current", Part.PANEL_SIDE, REFUSED))
    assert decision.verdict == Choice.WORTH_IT_IF
    assert [one.code for one in decision.once_met.changes] == ["lower_set_limit"]
    assert "refused" not in {reason.code for reason in decision.because}


def test_what_no_remedy_mends_stays_hopeless_and_is_told_of_the_set_as_asked():
    stuck = finding("short_circuit_current", Part.PANEL_SIDE, REFUSED)
    decision = answer(300, CAP, stuck, left=(stuck,))
    assert (decision.verdict, decision.once_met) == (Choice.NOT_WORTH_IT, None)


def test_what_becomes_hopeless_once_mended_is_not_worth_it():
    decision = answer(100, CAP, left=(finding("panel_cap", Part.LOCAL_RULE, REFUSED),))
    assert decision.verdict == Choice.NOT_WORTH_IT
    assert "refused" in {reason.code for reason in decision.because}


def test_questions_that_the_mended_set_leaves_open_are_conditions():
    decision = answer(300, CAP, left=(finding("plug", Part.LOCAL_RULE, OPEN),))
    assert [one.code for one in decision.conditions] == ["lower_set_limit", "ask_operator", "get_consent"]


def test_nothing_is_asked_again_where_no_remedy_is_demanded():
    def never(*_):
        raise AssertionError

    for findings in ((), (finding("panel_cap", Part.LOCAL_RULE, REFUSED),), (finding("plug", Part.LOCAL_RULE, OPEN),)):
        found = decided(
            SETUP,
            NOTHING,
            compatibility(*findings),
            energy_year(),
            account(344),
            None,
            Again(check=never, account=never),
        )
        assert found.decision.once_met is None


def test_a_lower_limit_costs_nothing_once_and_the_saving_that_it_takes_each_year():
    decision = answer(300, CAP)
    [limit] = [one for one in decision.conditions if one.code == "lower_set_limit"]
    assert limit.cost == Band(0.0, 0.0, 0.0)
    assert limit.cost_per_year == Band(60.0, 50.0, 40.0)  # 80, 100, 120 a year less 40, 50, 60; the dearer end first
    assert limit.cost_because == "less_energy"


def test_what_an_electrician_takes_is_not_guessed_and_what_is_left_for_it_is_told():
    breaker = remedy("smaller_breaker", "/socket_circuit/breaker_a", 13.0)
    cable = finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=(breaker,))
    described = builders.setup(socket_circuit=builders.socket_circuit(breaker_a=16))
    decision = answer(300, cable, setup=described)
    [work] = [one for one in decision.conditions if one.code == "smaller_breaker"]
    assert (work.cost, work.cost_because) == (None, "price_not_known")
    assert work.cost_per_year == Band(0.0, 0.0, 0.0)
    [left] = [reason for reason in decision.because if reason.code == "left_for_conditions"]
    assert left.facts["amount"] == 890  # 1193.8 - 300 in two digits, cut: a breaker takes no energy


def test_the_costs_of_several_conditions_add_up_to_all_that_is_lost():
    stack = finding("reverse_current", Part.PANEL_SIDE, REFUSED, remedies=(SPREAD,))
    savings = {350.0: (70.0, 90.0, 110.0)}  # the limit alone; with the panels spread as well 40, 50, 60

    def year(setup, _):
        both = len(setup.arrays) > 1
        return energy_year(400.0), account(300, (40.0, 50.0, 60.0) if both else savings[setup.inverter.set_limit_w])

    ask = Again(check=lambda *_: compatibility(), account=year)
    found = decided(STACKED, NOTHING, compatibility(CAP, stack), energy_year(800.0), account(300), None, ask)
    costs = {one.code: one.cost_per_year.middle for one in found.decision.conditions}
    assert costs["lower_set_limit"] == 10.0
    assert costs["one_panel_per_input"] == 40.0


def test_without_a_price_per_kwh_the_years_cost_is_not_known():
    ask = Again(check=lambda *_: compatibility(), account=lambda *_: (energy_year(400.0), None))
    priceless = builders.setup(tariff=None)
    found = decided(priceless, NOTHING, compatibility(CAP), energy_year(800.0), None, None, ask)
    assert found.decision.verdict == Choice.CANNOT_TELL
    assert [one.code for one in found.decision.conditions] == ["tell_price"]
    assert found.decision.once_met.saving_first_year is None
    assert found.demanded[0].cost_per_year is None


def test_the_decision_says_which_currency_its_amounts_are_in():
    assert answer(300, CAP).currency == "EUR"


def test_every_reason_and_every_reason_of_a_cost_has_a_sentence():
    for code in ("other_year_once_met", "left_for_conditions", "once_met", "reckoned_with", "as_asked",
                 "cost_because.costs_nothing", "cost_because.less_energy", "cost_because.price_not_known"):  # fmt: skip
        assert code in TEXTS


def test_a_mended_set_needs_no_mending():
    now = mended(SETUP, NOTHING, compatibility(CAP), lambda *_: compatibility())
    assert mended(now.setup, NOTHING, replace(now.compatibility), lambda *_: compatibility()).remedies == ()
