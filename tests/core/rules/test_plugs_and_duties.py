"""Plug, registration, certificate and meter, as published."""

from dataclasses import replace
from datetime import date

import pytest

from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Meter
from service.core.model.finding import Finding
from service.core.rules import Notify, RuleCard, rule_findings
from service.data.local_rules import load_rule_cards
from tests import builders
from tests.core.rules.card_builder import card

DAY = date(2026, 7, 1)


def findings(rule: RuleCard, assumed: tuple[str, ...] = (), **changes: object) -> dict[str, Finding]:
    assumptions = Assumptions.of(Assumption(pointer=p, value=None, code="", source="") for p in assumed)
    return {f.code: f for f in rule_findings(builders.setup(**changes), assumptions, rule, DAY)}


def plug(rule: RuleCard, kind: str | None) -> Finding:
    circuit = None if kind is None else builders.socket_circuit(plug=kind)
    return findings(rule, socket_circuit=circuit)["plug"]


@pytest.mark.parametrize(
    ("published", "kind", "verdict"),
    [
        ("household_with_conditions", "household", "fits"), ("household_with_conditions", None, "fits"),
        ("household_with_conditions", "fixed", "fits"), ("special_connector", "household", "does_not_fit"),
        ("special_connector", "special_connector", "fits"), ("special_connector", None, "does_not_fit"),
        ("fixed_wiring_only", "household", "does_not_fit"), ("fixed_wiring_only", "special_connector", "does_not_fit"),
        ("fixed_wiring_only", None, "does_not_fit"), ("fixed_wiring_only", "fixed", "fits"),
        ("unclear", "household", "not_known"), ("unclear", None, "not_known"), ("unclear", "fixed", "not_known"),
    ],
)  # fmt: skip
def test_the_plug_is_judged_in_any_place(published: str, kind: str | None, verdict: str) -> None:
    assert plug(card(plug=published), kind).verdict == verdict


def test_without_a_card_in_force_no_plug_is_known_to_be_admitted() -> None:
    finding = plug(card(status="none_found"), "household")
    assert (finding.verdict, finding.likely) == ("not_known", "fits")


@pytest.mark.parametrize("rule", [c for cards in load_rule_cards().values() for c in cards], ids=lambda c: c.id)
def test_no_packaged_card_is_silent_about_plug_cap_and_registration(rule: RuleCard) -> None:
    made = findings(rule)
    assert {"plug", "local_cap", "registration"} <= set(made)
    if rule.status != "in_force":
        assert {made[code].verdict for code in ("plug", "local_cap", "registration")} == {"not_known"}


def test_registration_tells_who_when_and_what_it_costs() -> None:
    finding = findings(card())["registration"]
    assert finding.verdict == "fits"
    assert (finding.facts["who"], finding.facts["when"], finding.facts["cost"]) == (
        "grid operator", "within a month", "free",
    )  # fmt: skip


def test_registration_is_open_where_nobody_found_whom_to_tell() -> None:
    unknown = Notify(who="none found", when="none found", before_or_after="unknown", cost="", needed="unknown")
    assert findings(card(notify=unknown))["registration"].verdict == "not_known"


@pytest.mark.parametrize(
    ("shown", "verdict"),
    [
        (("EN 50549-1:2019", "XN-7"), "fits"), (("XN 12", "XN 7"), "fits"), (("en50549-1", "xn 7 (2026)"), "fits"),
        (("EN 50549-1",), "not_known"), (("CE",), "not_known"), (("something else", "XN 7"), "not_known"),
    ],
)  # fmt: skip
def test_certificates_are_held_against_what_the_card_names(shown: tuple[str, ...], verdict: str) -> None:
    inverter = builders.inverter(certificates=shown)
    assert findings(card(), inverter=inverter)["certificate"].verdict == verdict


@pytest.mark.parametrize("shown", [None, ()])
def test_certificates_that_nobody_described_are_not_judged(shown: tuple[str, ...] | None) -> None:
    assert "certificate" not in findings(card(), inverter=builders.inverter(certificates=shown))


def meter(counts: str) -> Meter:
    return Meter(counts=counts, sums_phases=None, netting="instant")


@pytest.mark.parametrize(
    ("counts", "reversing", "verdict"),
    [
        ("two_way", "unclear", "fits"), ("reversing", "tolerated", "fits"), ("reversing", "unclear", "not_known"),
        ("reversing", "not_admitted", "does_not_fit"), ("one_way", "tolerated", "not_known"),
    ],
)  # fmt: skip
def test_a_meter_is_judged_by_what_it_counts(counts: str, reversing: str, verdict: str) -> None:
    assert findings(card(reversing_meter=reversing), meter=meter(counts))["meter"].verdict == verdict


def test_a_reversing_meter_is_open_without_a_card_in_force() -> None:
    rule = card(reversing_meter="tolerated", status="proposal")
    assert findings(rule, meter=meter("reversing"))["meter"].verdict == "not_known"


def test_a_set_that_sends_nothing_out_suits_any_meter() -> None:
    inverter = replace(builders.inverter(), export_limit_w=0)
    made = findings(card(reversing_meter="not_admitted"), meter=meter("one_way"), inverter=inverter)
    assert made["meter"].verdict == "fits"


def test_a_meter_that_nobody_described_is_not_judged() -> None:
    assert "meter" not in findings(card(), meter=meter("not_known"))
    assert "meter" not in findings(card(), ("/meter/counts",), meter=meter("two_way"))
