"""The steps follow the request, in the order in which they are done."""

import re
from dataclasses import replace

import pytest

from service.api.words import say
from service.api.words.english.steps import TEXTS
from service.core.appraisal import MOMENTS, Choice, decide, door_voltage_v, steps_of
from service.core.energy import DayKind
from service.core.model.assumption import Assumptions
from service.core.model.finding import Part
from service.core.model.fixing import Fixing
from tests import builders
from tests.energy_years import energy_year
from tests.findings import OPEN, REFUSED, account, compatibility, finding, remedy
from tests.requests import asked, with_array

ENERGY = replace(
    energy_year(),
    day_kinds=(
        DayKind(season="summer", kind="clear", days=30, ac_w=(0.0,) * 12 + (510.0,) + (0.0,) * 11),
        DayKind(season="winter", kind="clear", days=10, ac_w=(0.0,) * 12 + (330.0,) + (0.0,) * 11),
        DayKind(season="winter", kind="dull", days=10, ac_w=(60.0,) * 24),
    ),
)
DUTY = {"who": "the register", "when": "within a month", "before_or_after": "after", "cost": "free", "needed": "yes"}


def steps(*findings, setup=None, assumptions=None, outlay=344):
    setup, assumptions = setup or builders.setup(), assumptions or Assumptions({})
    found = compatibility(*findings)
    decision = decide(setup, assumptions, found, account(outlay))
    return steps_of(setup, assumptions, found, ENERGY, decision)


def codes(found, when=None):
    return [step.code for step in found if when in {None, step.when}]


def test_steps_come_in_the_order_of_the_moments():
    moments = [MOMENTS.index(step.when) for step in steps(finding("plug", Part.LOCAL_RULE, OPEN))]
    assert moments == sorted(moments)
    assert moments[0] == 0
    assert moments[-1] == len(MOMENTS) - 1


def test_a_set_not_worth_buying_needs_no_steps():
    assert steps(outlay=5000) == ()


def test_missing_labels_are_asked_for_before_buying():
    completed = asked(with_array(mount="wall"))
    found = steps(setup=completed.setup, assumptions=completed.assumptions)
    label = next(step for step in found if step.code == "ask_panel_label")
    assert label.facts["missing"].startswith("open_circuit_voltage_v")
    assert "ask_inverter_label" in codes(found)
    assert not {"ask_panel_label", "ask_inverter_label"} & set(codes(steps()))


def test_consent_is_asked_for_on_a_building_and_not_in_a_yard():
    yard = builders.setup(arrays=(builders.array(mount="ground_frame"),))
    assert "ask_consent" in codes(steps())
    assert "ask_consent" not in codes(steps(setup=yard))


def test_the_door_voltage_is_told_once_for_each_kind_of_panel():
    other = builders.array(name="right", input=2, panel=builders.panel(open_circuit_voltage_v=37.0))
    assert codes(steps(), "at_the_door").count("measure_voltage") == 1
    mixed = builders.setup(arrays=(builders.array(), other))
    assert codes(steps(setup=mixed), "at_the_door").count("measure_voltage") == 2


def test_the_door_voltage_lies_about_the_labels_and_reaches_down_for_warm_dim_cells():
    low, high = door_voltage_v(builders.panel())
    # label 39.4 V, -0.26 % per K: at 5 C 41.4 V, and 2 % for the meter
    assert high == pytest.approx(39.4 * (1 + 0.0026 * 20) * 1.02, rel=0.01)
    assert 0.8 * 39.4 < low < 0.95 * 39.4


def test_a_refusal_is_mended_before_anything_is_plugged_in():
    mend = remedy("smaller_breaker", "/socket_circuit/breaker_a", 13.0, unit="A")
    found = steps(finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=(mend,)))
    assert codes(found, "before_plugging_in")[0] == "mend_first"


def test_an_undescribed_circuit_is_looked_at_and_a_described_one_is_not():
    described = builders.setup(socket_circuit=builders.socket_circuit(lead_route="direct"))
    assert "have_circuit_checked" in codes(steps())
    assert "have_circuit_checked" not in codes(steps(setup=described))
    unprotected = builders.setup(socket_circuit=builders.socket_circuit(residual_current_device="none"))
    assert "have_circuit_checked" in codes(steps(setup=unprotected))


@pytest.mark.parametrize(("when", "moment"), [("before", "before_plugging_in"), ("after", "first_sunny_day"),
                                              ("unknown", "before_plugging_in")])  # fmt: skip
def test_the_duty_to_register_stands_at_its_moment_and_is_undone_when_moving(when, moment):
    duty = finding("registration", Part.LOCAL_RULE, facts={**DUTY, "before_or_after": when})
    found = steps(duty)
    [step] = [step for step in found if step.code == "register"]
    assert (step.when, step.facts["who"], step.facts["due"]) == (moment, "the register", "within a month")
    assert "deregister" in codes(found, "moving_out")


def test_where_nobody_has_to_be_told_nobody_is():
    free = finding("registration", Part.LOCAL_RULE, facts={**DUTY, "needed": "no"})
    assert not {"register", "deregister"} & set(codes(steps(free)))


def test_the_wait_after_plugging_in_is_told_before_it_looks_like_a_fault():
    found = steps()
    assert codes(found, "first_sunny_day").index("wait_for_grid") < codes(found, "first_sunny_day").index("check_power")
    [step] = [step for step in found if step.code == "wait_for_grid"]
    assert step.facts["least_s"] == 60
    assert "196 to 253 V" in say("steps", "wait_for_grid.en_50549", step.facts)


@pytest.mark.parametrize(("area", "variant"), [("DE", "en_50549"), ("US-UT", "ieee_1547"), ("JP", "")])
def test_what_the_inverter_waits_for_goes_by_the_standard_of_the_area(area: str, variant: str):
    found = steps(setup=builders.setup(site=builders.site(rule_area=area)))
    [step] = [step for step in found if step.code == "wait_for_grid"]
    assert step.facts["variant"] == variant


def test_connectors_are_matched_whatever_their_kind():
    for kind in ("locking_4mm", "older_locking", "not_known"):
        panel = builders.panel(connector=kind)
        alike = builders.setup(arrays=(builders.array(panel=panel),))
        assert "match_connectors" in codes(steps(setup=alike), "before_fitting")


def test_expected_power_is_of_clear_days():
    [step] = [step for step in steps() if step.code == "check_power"]
    assert (step.facts["best_w"], step.facts["least_w"], step.facts["least_season"]) == (510, 330, "winter")


def test_a_set_limit_is_set_and_read_back():
    turned_down = builders.setup(inverter=builders.inverter(set_limit_w=600))
    assert "set_the_limit" in codes(steps(setup=turned_down), "before_plugging_in")
    assert "set_the_limit" not in codes(steps())


def test_five_panels_are_many_and_the_advice_comes_even_where_the_set_is_not_worth_buying():
    roof = builders.setup(arrays=(builders.array(count=5, joined="series"),))
    assert {"many_panels", "many_panels_heat", "many_panels_outlay"} <= set(codes(steps(setup=roof)))
    assert "many_panels" not in codes(steps())
    four = builders.setup(arrays=(builders.array(count=3, joined="series"), builders.array(name="right", input=2)))
    assert "many_panels" not in codes(steps(setup=four))
    assert set(codes(steps(setup=roof, outlay=50000))) == {"many_panels", "many_panels_heat", "many_panels_outlay"}


def test_the_storm_s_force_stands_beside_the_capacity_before_fitting():
    said = builders.setup(arrays=(builders.array(fixing=Fixing(capacity_per_panel_n=2400.0)),))
    [step] = [step for step in steps(setup=said) if step.code == "fixing_force"]
    assert (step.when, step.facts["capacity_n"], step.facts["variant"]) == ("before_fitting", 2400, "stated")
    assert step.facts["most_n"] > step.facts["pull_n"] > 0
    [step] = [step for step in steps() if step.code == "fixing_force"]
    assert step.facts["capacity_n"] is None
    completed = asked(with_array())
    open_mount = steps(setup=completed.setup, assumptions=completed.assumptions)
    assert "fixing_force" not in codes(open_mount)


def test_every_step_has_a_sentence_that_its_facts_fill():
    completed = asked(with_array(mount="wall"))
    mend = remedy("smaller_breaker", "/socket_circuit/breaker_a", 13.0, unit="A")
    used = builders.array(count=5, panel=builders.panel(history="roof", connector="bare"))
    busy = builders.setup(arrays=(used,), inverter=builders.inverter(set_limit_w=600),
                          socket_circuit=builders.socket_circuit(cable_mm2=None))  # fmt: skip
    findings = (
        finding("registration", Part.LOCAL_RULE, facts=DUTY), finding("plug", Part.LOCAL_RULE, OPEN),
        finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=(mend,)),
    )  # fmt: skip
    stated = builders.setup(arrays=(builders.array(count=5, fixing=Fixing(capacity_per_panel_n=2400.0)),), outlay=None)
    cap = finding("local_cap", Part.LOCAL_RULE, measured=800.0, limit=800.0, unit="W", facts={"in_force": True})
    other = builders.array(name="right", input=2, panel=builders.panel(open_circuit_voltage_v=37.0))
    mixed = builders.setup(arrays=(builders.array(), other))
    open_cost = finding("registration", Part.LOCAL_RULE, facts={**DUTY, "cost": "unknown"})
    elsewhere = [builders.setup(site=builders.site(rule_area=area)) for area in ("US-UT", "JP")]
    found = (
        *(step for setup in elsewhere for step in steps(setup=setup)), *steps(*findings, setup=busy),
         *steps(setup=completed.setup, assumptions=completed.assumptions),
        *steps(cap, setup=stated), *steps(open_cost, setup=mixed),
    )  # fmt: skip
    keys = [f"{step.code}.{step.facts.get('variant') or ''}".removesuffix(".") for step in found]
    for key, step in zip(keys, found, strict=True):
        sentence = say("steps", key, step.facts)
        assert sentence.endswith((".", "offers)."))
        assert step.who in {"you", "electrician", "seller", "operator"}
        assert "{" not in sentence
        assert f"when.{step.when}" in TEXTS
    assert {key for key in TEXTS if not key.startswith("when.")} == set(keys)


@pytest.mark.parametrize("text", TEXTS.values())
def test_no_step_promises_what_it_cannot(text):
    assert not re.search(r"(?i)\b(safe|safely|legal|legally|allowed)\b", text)


def test_a_decision_that_cannot_be_told_still_has_steps():
    setup, found = builders.setup(tariff=None), compatibility()
    decision = decide(setup, Assumptions({}), found, None)
    assert decision.verdict == Choice.CANNOT_TELL
    assert "measure_voltage" in codes(steps_of(setup, Assumptions({}), found, ENERGY, decision))


def test_each_step_says_who_does_it():
    breaker = remedy("smaller_breaker", "/socket_circuit/breaker_a", 13.0, unit="A")
    found = steps(finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=(breaker,)))
    who = {step.code: step.who for step in found}
    assert (who["mend_first"], who["have_circuit_checked"], who["clean"]) == ("electrician", "electrician", "you")


@pytest.mark.parametrize(
    ("code", "moment"),
    [("other_inverter", "before_buying"), ("one_panel_per_input", "before_fitting"),
     ("own_circuit", "before_plugging_in"), ("lower_set_limit", "before_plugging_in")],
)  # fmt: skip
def test_what_is_demanded_is_done_at_the_moment_for_it(code, moment):
    mend = remedy(code, "/inverter", 1.0)
    found = steps(finding("cold_voltage", Part.PANEL_SIDE, REFUSED, remedies=(mend,)))
    assert [step.when for step in found if step.code == "mend_first"] == [moment]


def test_the_same_remedy_of_two_refusals_is_one_step():
    mend = remedy("lower_set_limit", "/inverter/set_limit_w", 350.0)
    refusals = [finding(code, Part.LOCAL_RULE, REFUSED, remedies=(mend,)) for code in ("local_cap", "panel_cap")]
    assert codes(steps(*refusals)).count("mend_first") == 1


def test_a_limit_that_is_demanded_is_not_told_a_second_time():
    turned_down = builders.setup(inverter=builders.inverter(set_limit_w=600))
    mend = remedy("lower_set_limit", "/inverter/set_limit_w", 350.0)
    found = steps(finding("local_cap", Part.LOCAL_RULE, REFUSED, remedies=(mend,)), setup=turned_down)
    assert "set_the_limit" not in codes(found)


def test_a_panel_is_looked_over_before_it_is_measured():
    used = builders.setup(arrays=(builders.array(panel=builders.panel(history="roof")),))
    assert codes(steps(setup=used), "at_the_door") == ["look_panel_over", "measure_voltage"]


def test_whom_to_tell_comes_after_the_first_power_and_what_it_costs_is_told_or_said_to_be_open():
    for cost, variant in (("free", ""), ("none found", "cost_open")):
        duty = finding("registration", Part.LOCAL_RULE, facts={**DUTY, "cost": cost})
        found = steps(duty)
        assert codes(found, "first_sunny_day")[-1] == "register"
        [step] = [step for step in found if step.code == "register"]
        assert step.facts["variant"] == variant


def test_any_question_about_the_local_rule_is_asked_before_buying():
    assert "ask_operator" in codes(steps(finding("local_cap", Part.LOCAL_RULE, OPEN)), "before_buying")
    assert "ask_operator" not in codes(steps())


@pytest.mark.parametrize(("counts", "advised"), [((2, 2), False), ((4,), False), ((3, 2), True), ((5,), True)])
def test_four_panels_in_two_directions_are_a_plug_in_set_and_the_fifth_brings_the_advice(counts, advised):
    arrays = tuple(builders.array(input=at + 1, count=count) for at, count in enumerate(counts))
    assert ("many_panels" in codes(steps(setup=builders.setup(arrays=arrays)), "before_buying")) is advised
