"""Caps on inverter output and on panel power."""

from dataclasses import replace
from datetime import date

import pytest

from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import OtherSet
from service.core.model.finding import Finding
from service.core.rules import AcTier, PanelCap, RuleCard, most_panel_w, rule_findings
from tests import builders
from tests.core.rules.card_builder import card

DAY = date(2026, 7, 1)


def found(code: str, rule: RuleCard, *, power: float = 800, plug: str | None = "household", limit: float | None = None,
          others: tuple[OtherSet, ...] = (), panel_w: float = 440) -> Finding:  # fmt: skip
    circuit = None if plug is None else builders.socket_circuit(plug=plug, other_sets=others)
    setup = builders.setup(
        inverter=builders.inverter(ac_power_w=power, set_limit_w=power if limit is None else limit),
        socket_circuit=circuit,
        arrays=(builders.array(panel=builders.panel(rated_power_w=panel_w)),
                builders.array(input=2, panel=builders.panel(rated_power_w=panel_w))),
    )  # fmt: skip
    return next(f for f in rule_findings(setup, Assumptions.of([]), rule, DAY) if f.code == code)


@pytest.mark.parametrize(
    ("power", "inclusive", "verdict"),
    [(790, True, "fits"), (800, True, "fits"), (810, True, "does_not_fit"),
     (790, False, "fits"), (800, False, "does_not_fit"), (810, False, "does_not_fit")],
)  # fmt: skip
def test_at_most_800_is_not_below_800(power: float, inclusive: bool, verdict: str) -> None:
    assert found("local_cap", card(ac_cap_inclusive=inclusive), power=power).verdict == verdict


def test_an_inverter_turned_down_counts_with_its_limit() -> None:
    finding = found("local_cap", card(), power=1200, limit=800)
    assert (finding.verdict, finding.measured, finding.facts["turned_down"]) == ("fits", 800, True)


def test_a_limit_above_the_rating_counts_as_the_rating() -> None:
    assert found("local_cap", card(), power=800, limit=2000).measured == 800


@pytest.mark.parametrize(
    ("scope", "measured"), [("meter", 1100), (None, 1100), ("household", 1100), ("building", 1100), ("circuit", 800)]
)
def test_sets_count_together_behind_a_meter_and_apart_on_a_circuit(scope: str | None, measured: float) -> None:
    other = OtherSet(ac_power_w=300, panel_power_w=380, same_circuit=False)
    assert found("local_cap", card(ac_cap_scope=scope), others=(other,)).measured == measured


def test_no_cap_found_is_no_permission() -> None:
    finding = found("local_cap", card(ac_cap_w=None, ac_cap_inclusive=None))
    assert (finding.verdict, finding.likely, finding.limit) == ("not_known", "not_known", None)
    assert finding.facts["variant"] == "none_found"


def test_a_card_not_in_force_settles_nothing_but_tells_what_it_would_say() -> None:
    over = found("local_cap", card(status="proposal"), power=900)
    assert (over.verdict, over.likely) == ("not_known", "does_not_fit")


def test_a_figure_for_wired_sets_is_none_for_a_plug() -> None:
    rule = card(plug="fixed_wiring_only", ac_cap_w=3680)
    assert found("local_cap", rule, plug="household").verdict == "not_known"
    assert found("local_cap", rule, plug="fixed").verdict == "fits"


STEPS = (
    AcTier(plug="household_with_conditions", max_w=350, inclusive=True, condition="marked socket"),
    AcTier(plug="fixed_wiring_only", max_w=800, inclusive=False, condition="declaration"),
)


@pytest.mark.parametrize(
    ("plug", "power", "verdict"),
    [("household", 350, "fits"), ("household", 400, "does_not_fit"), ("fixed", 400, "fits"),
     ("fixed", 800, "does_not_fit"), (None, 350, "fits"), (None, 400, "not_known"), (None, 800, "does_not_fit")],
)  # fmt: skip
def test_each_kind_of_plug_has_its_own_step(plug: str | None, power: float, verdict: str) -> None:
    assert found("local_cap", card(ac_cap_w=350, ac_tiers=STEPS), power=power, plug=plug).verdict == verdict


def test_a_higher_step_with_a_condition_is_a_question() -> None:
    steps = (
        AcTier(plug="household_with_conditions", max_w=420, inclusive=True, condition=""),
        AcTier(plug="household_with_conditions", max_w=1200, inclusive=True, condition="own circuit"),
    )
    finding = found("local_cap", card(ac_cap_w=420, ac_tiers=steps), power=800)
    assert (finding.verdict, finding.facts["condition"], finding.limit) == ("not_known", "own circuit", 420)


def test_panel_watts_never_count_against_the_inverter_cap() -> None:
    assert found("local_cap", card(), panel_w=1000).measured == 800


PANEL_CAPS = (
    PanelCap(plug="household_with_conditions", max_wp=960, inclusive=True, basis="pre-standard"),
    PanelCap(plug="special_connector", max_wp=2000, inclusive=True, basis="act"),
    PanelCap(plug="fixed_wiring_only", max_wp=2000, inclusive=True, basis="act"),
)


@pytest.mark.parametrize(
    ("plug", "each", "verdict"),
    [("household", 480, "fits"), ("household", 490, "does_not_fit"), ("special_connector", 490, "fits"),
     (None, 480, "fits"), (None, 490, "not_known"), ("not_known", 490, "not_known"), (None, 1001, "does_not_fit")],
)  # fmt: skip
def test_the_panel_cap_hangs_on_the_plug(plug: str | None, each: float, verdict: str) -> None:
    rule = card(panel_cap_wp=2000, panel_cap_by_plug=PANEL_CAPS)
    assert found("panel_cap", rule, plug=plug, panel_w=each).verdict == verdict


@pytest.mark.parametrize("plug", ["household", "special_connector", None, "not_known"])
@pytest.mark.parametrize("inclusive", [True, False])
def test_the_most_watts_of_panels_are_those_beyond_which_a_refusal_is_likely(plug: str | None, inclusive: bool) -> None:
    caps = tuple(replace(cap, inclusive=inclusive) for cap in PANEL_CAPS)
    rule = card(panel_cap_wp=2000, panel_cap_by_plug=caps)
    circuit = None if plug is None else builders.socket_circuit(plug=plug)
    most = most_panel_w(builders.setup(socket_circuit=circuit), rule)
    assert most is not None
    for watts in (most[0] - 2, most[0], most[0] + 2):
        inside = watts <= most[0] if most[1] else watts < most[0]
        likely = found("panel_cap", rule, plug=plug, panel_w=watts / 2).likely
        assert (likely == "does_not_fit") == (not inside)


def test_other_sets_take_their_share_of_the_most_watts_and_no_cap_is_no_limit() -> None:
    other = OtherSet(ac_power_w=300, panel_power_w=1200, same_circuit=False)
    shared = builders.setup(socket_circuit=builders.socket_circuit(plug="household", other_sets=(other,)))
    assert most_panel_w(shared, card(panel_cap_wp=2000)) == (800, True)
    assert most_panel_w(shared, card()) is None


def test_the_other_sets_panels_count_behind_one_meter() -> None:
    other = OtherSet(ac_power_w=300, panel_power_w=1200, same_circuit=False)
    finding = found("panel_cap", card(panel_cap_wp=2000), others=(other,))
    assert (finding.measured, finding.verdict) == (2080, "does_not_fit")


def test_where_no_panel_cap_was_found_nothing_is_said_of_panels() -> None:
    with pytest.raises(StopIteration):
        found("panel_cap", card())


def test_every_finding_says_published_on_by_whom_and_how_old() -> None:
    facts = found("local_cap", card(checked_on=date(2025, 6, 1), conflicts="A says so, B says no")).facts
    assert facts["published_on"] == "2026-01-15"
    assert facts["published_by"] == "Nordland regulator"
    assert facts["stale"] is True
    assert facts["conflicts"] == "A says so, B says no"
    assert facts["fell_back"] is True


@pytest.mark.parametrize(("code", "name"), [("local_cap", "ac_power_w"), ("panel_cap", "panel_power_w")])
def test_another_sets_figure_that_nobody_gave_never_makes_a_cap_fit(code: str, name: str) -> None:
    others = (OtherSet(ac_power_w=100, panel_power_w=100, same_circuit=True),)
    setup = builders.setup(
        inverter=builders.inverter(ac_power_w=600, set_limit_w=600),
        socket_circuit=builders.socket_circuit(other_sets=others),
    )
    guess = Assumption(pointer=f"/socket_circuit/other_sets/0/{name}", value=100, code="usual_other_set", source="")
    rule = card(panel_cap_wp=2000)
    verdicts = [
        next(f.verdict for f in rule_findings(setup, assumptions, rule, DAY) if f.code == code)
        for assumptions in (Assumptions.of([]), Assumptions.of([guess]))
    ]
    assert verdicts == ["fits", "not_known"]


def test_a_cap_of_the_whole_building_is_open_until_somebody_says_which_other_sets_there_are() -> None:
    whole = card(ac_cap_w=1600, ac_cap_scope="building")
    assert found("local_cap", whole, plug=None).verdict == "not_known"
    silent = Assumption(pointer="/socket_circuit/other_sets", value=[], code="nothing_else", source="")
    described = builders.setup(socket_circuit=builders.socket_circuit())
    open_ = next(f for f in rule_findings(described, Assumptions.of([silent]), whole, DAY) if f.code == "local_cap")
    assert (open_.verdict, open_.likely, open_.facts["variant"]) == ("not_known", "fits", "building")
    assert found("local_cap", whole).verdict == "fits"
    assert found("local_cap", card(ac_cap_w=700, ac_cap_scope="building"), plug=None).verdict == "does_not_fit"


@pytest.mark.parametrize("scope", ["meter", "household", "circuit", None])
def test_a_home_behind_its_own_meter_is_taken_to_have_no_other_set(scope: str | None) -> None:
    assert found("local_cap", card(ac_cap_scope=scope), plug=None).verdict == "fits"
