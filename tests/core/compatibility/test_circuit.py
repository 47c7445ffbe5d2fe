"""The home's final circuit, the lead and the residual-current device."""

from typing import Any

import pytest

from service.core.compatibility.conductors import METHODS, awg_of, carrying_capacity, resistance_ohm_per_km
from service.core.model.assumption import Assumption
from service.core.model.facts import OtherSet
from service.core.model.finding import Finding
from tests import builders
from tests.core.compatibility.ask import answer, assumed, one


def cable(*assumptions: Assumption, area: str = "DE", power: float = 800, **circuit: Any) -> Finding:
    compatibility = answer(
        *assumptions,
        site=builders.site(rule_area=area),
        inverter=builders.inverter(ac_power_w=power, set_limit_w=power),
        socket_circuit=builders.socket_circuit(**circuit),
    )
    return one("circuit_cable", compatibility)


def remedies(finding: Finding) -> dict[str, tuple[object, str]]:
    return {r.code: (r.new_value, str(r.verdict_then)) for r in finding.remedies}


def test_a_thin_cable_behind_16_a_cannot_bear_800_w_on_top() -> None:
    finding = cable()
    assert finding.verdict == "does_not_fit"
    assert finding.measured == pytest.approx(19.48, abs=0.005)
    assert finding.limit == 16.5
    assert (finding.facts["method"], finding.facts["table_ambient_c"]) == ("B2", 30)


def test_a_13_a_breaker_or_a_circuit_of_its_own_mends_it() -> None:
    assert remedies(cable()) == {
        "smaller_breaker": (13.0, "fits"), "own_circuit": (True, "fits"), "lower_set_limit": (110.0, "fits"),
    }  # fmt: skip


def test_on_a_circuit_of_its_own_the_larger_of_breaker_and_set_counts() -> None:
    assert cable(dedicated=True).measured == 16
    assert cable(dedicated=True, breaker_a=20).verdict == "does_not_fit"
    strong = cable(dedicated=True, breaker_a=10, power=4000)
    assert (strong.measured, strong.verdict) == (pytest.approx(4000 / 230), "does_not_fit")


def test_a_lower_limit_mends_a_circuit_of_its_own_that_the_set_alone_overloads() -> None:
    strong = cable(dedicated=True, breaker_a=10, power=4000)
    assert remedies(strong) == {"lower_set_limit": (3790, "fits")}  # 16.5 A at 230 V are 3795 W
    assert cable(dedicated=True, breaker_a=10, power=3790).verdict == "fits"
    assert "lower_set_limit" not in remedies(cable(dedicated=True, breaker_a=20, power=4000))  # the breaker is too big


def test_a_circuit_of_its_own_and_a_lower_limit_mend_together_what_neither_mends_alone() -> None:
    finding = cable(breaker_a=16, power=4000)
    assert remedies(finding)["own_circuit_and_lower_limit"] == (3790, "fits")
    assert "own_circuit" not in remedies(finding)
    assert "own_circuit_and_lower_limit" not in remedies(cable(breaker_a=16))  # a circuit of its own is enough


def test_other_sets_on_the_circuit_push_too_and_those_elsewhere_do_not() -> None:
    here = OtherSet(ac_power_w=600, panel_power_w=600, same_circuit=True)
    there = OtherSet(ac_power_w=600, panel_power_w=600, same_circuit=False)
    assert cable(other_sets=(here, there)).measured == pytest.approx(16 + 1400 / 230)


def test_a_lower_limit_lowers_what_is_pushed() -> None:
    compatibility = answer(
        inverter=builders.inverter(set_limit_w=600), socket_circuit=builders.socket_circuit(cable_mm2=2.5)
    )
    assert one("circuit_cable", compatibility).measured == pytest.approx(16 + 600 / 230)


@pytest.mark.parametrize("unknown", ["breaker_a", "cable_mm2", "laying"])
def test_an_unknown_circuit_is_not_known_and_the_electrician_is_asked(unknown: str) -> None:
    finding = cable(**{"cable_mm2": 2.5, unknown: None})
    assert finding.verdict == "not_known"
    assert unknown in str(finding.facts["missing"])
    assert any(r.code == "ask_electrician" and r.facts["rating"] == unknown for r in finding.remedies)


def test_even_the_kindest_laying_can_prove_a_refusal() -> None:
    assert cable(laying=None, breaker_a=20).verdict == "does_not_fit"
    assert cable(laying=None, breaker_a=16).verdict == "not_known"


def test_nobody_saying_whether_the_circuit_is_shared_is_a_question_only_where_it_decides() -> None:
    asked = cable(dedicated=None)
    assert (asked.verdict, asked.likely, asked.facts["missing"]) == ("not_known", "does_not_fit", "dedicated")
    assert cable(dedicated=None, cable_mm2=2.5).verdict == "fits"
    assert cable(dedicated=None, breaker_a=20).verdict == "does_not_fit"
    assert cable(assumed("/socket_circuit/dedicated", False)).verdict == "not_known"


def test_an_assumed_breaker_never_makes_the_cable_fit() -> None:
    finding = cable(assumed("/socket_circuit/breaker_a", 10, 6, 16), breaker_a=10, cable_mm2=2.5)
    assert (finding.verdict, finding.likely) == ("not_known", "fits")


def test_a_branch_circuit_of_14_awg_cannot_bear_1200_w_at_120_v() -> None:
    finding = cable(area="US-UT", power=1200, voltage_v=120, breaker_a=15, cable_mm2=2.08, laying="in_insulated_wall")
    assert finding.measured == pytest.approx(15 + 1.25 * 10)
    assert (finding.limit, finding.verdict, finding.facts["method"]) == (15, "does_not_fit", "14 AWG")
    assert remedies(finding)["own_circuit"] == (True, "fits")


def test_a_us_section_needs_no_laying_and_an_unknown_one_is_a_question() -> None:
    assert cable(area="US-UT", power=391, voltage_v=120, breaker_a=15, cable_mm2=3.31, laying=None).verdict == "fits"
    unknown = cable(area="US-UT", power=391, voltage_v=120, breaker_a=15, cable_mm2=None, laying=None)
    assert unknown.verdict == "not_known"


def test_a_rule_that_admits_what_the_cable_refuses_is_shown_beside_it() -> None:
    facts = cable().facts
    assert (facts["admitted_by"], facts["admitted_on"]) == ("rule card DE", "2025-12-17")
    assert facts["variant"] == "admitted_elsewhere"
    assert "admitted_by" not in cable(area="UY").facts


def test_two_rules_disagree_where_the_card_admits_the_plug_and_names_no_watts_but_not_where_it_refuses_them() -> None:
    """Norway's card, read in 2026: a household plug with conditions, no figure."""
    both = answer(site=builders.site(rule_area="NO"), socket_circuit=builders.socket_circuit())
    assert one("local_cap", both).verdict == "not_known"
    assert one("circuit_cable", both).facts["admitted_by"] == "rule card NO"
    assert one("plug", both).facts["refused_by"] == one("circuit_cable", both).source
    strong = builders.inverter(ac_power_w=1200, set_limit_w=1200)
    alike = answer(inverter=strong, socket_circuit=builders.socket_circuit())
    assert one("local_cap", alike).verdict == "does_not_fit"
    assert "admitted_by" not in one("circuit_cable", alike).facts
    assert "refused_by" not in one("plug", alike).facts


def test_the_plug_says_so_too_where_the_cable_is_refused_however_cool_it_stays() -> None:
    refused = answer(warmth(), socket_circuit=builders.socket_circuit())
    assert one("circuit_cable", refused).facts["variant"] == "admitted_elsewhere"
    assert one("plug", refused).facts["refused_by"] == one("circuit_cable", refused).source
    borne = answer(warmth(), socket_circuit=builders.socket_circuit(cable_mm2=2.5))
    assert "refused_by" not in one("plug", borne).facts


@pytest.mark.parametrize("laying", list(METHODS))
def test_a_hotter_cable_never_carries_more(laying: str) -> None:
    for area in ("DE", "PT", "US"):
        found = [carrying_capacity(2.5, laying, ambient, area) for ambient in range(-20, 61)]
        currents = [c.current_a for c in found if c is not None]
        assert currents == sorted(currents, reverse=True)
        assert len(currents) >= 76


@pytest.mark.parametrize("laying", list(METHODS))
def test_a_thicker_cable_never_carries_less(laying: str) -> None:
    for area in ("DE", "PT", "US"):
        for ambient in (25, 40):
            found = [carrying_capacity(mm2 / 4, laying, ambient, area) for mm2 in range(9, 70)]
            currents = [c.current_a for c in found if c is not None]
            assert currents == sorted(currents)
            assert len(currents) == 61


def test_sections_outside_the_tables_have_no_answer() -> None:
    assert carrying_capacity(1.0, "in_conduit", 30, "PT") is None
    assert carrying_capacity(1.5, "in_conduit", 61, "PT") is None
    assert carrying_capacity(1.5, "in_conduit", 30, "US") is None
    assert resistance_ohm_per_km(0.4, flexible=True) is None
    assert [awg_of(mm2) for mm2 in (1.5, 2.08, 3.3, 5.3, 50)] == [None, 14, 12, 10, 6]


def lead(power: float = 800, **circuit: Any) -> Finding:
    return one("lead_voltage_rise", answer(
        inverter=builders.inverter(ac_power_w=power, set_limit_w=power),
        socket_circuit=builders.socket_circuit(**circuit),
    ))  # fmt: skip


def test_a_long_thin_lead_loses_and_says_which_would_not() -> None:
    finding = lead(lead_length_m=30, lead_mm2=1.0)
    assert finding.verdict == "fits_with_loss"
    told = {r.facts["variant"]: r.new_value for r in finding.remedies}
    assert told == {"thicker": 2.5, "shorter": 16}


def test_a_lead_that_cannot_carry_the_set_is_refused() -> None:
    finding = lead(power=2000, lead_length_m=2, lead_mm2=0.75)
    assert (finding.verdict, finding.facts["lead_may_carry_a"]) == ("does_not_fit", 6.0)
    assert [(r.new_value, r.verdict_then) for r in finding.remedies] == [(1.0, "fits")]


def test_the_feeder_of_a_shed_counts_with_the_cable_of_the_house() -> None:
    near, far = lead(), lead(feeder_length_m=50)
    ohm = 2 * 50 * 12.1 / 1000
    assert far.facts["rise_v"] - near.facts["rise_v"] == pytest.approx(ohm * 800 / 230)


def test_a_lead_that_nobody_described_was_not_looked_at() -> None:
    compatibility = answer(assumed("/socket_circuit/lead_mm2", 1.5), socket_circuit=builders.socket_circuit())
    assert "/socket_circuit/lead_mm2" in compatibility.not_looked_at
    assert not [f for f in compatibility.findings if f.code == "lead_voltage_rise"]


@pytest.mark.parametrize(
    ("device", "plug", "verdict"),
    [
        ("type_a", "household", "fits"), ("type_b", "household", "fits"), ("type_ac", "household", "does_not_fit"),
        ("one_way", "household", "does_not_fit"), ("none", "household", "does_not_fit"), ("none", "fixed", "not_known"),
        ("not_known", "household", "not_known"),
    ],
)  # fmt: skip
def test_the_residual_current_device_has_to_stand_a_set_behind_it(device: str, plug: str, verdict: str) -> None:
    circuit = builders.socket_circuit(residual_current_device=device, plug=plug)
    assert one("residual_current", answer(socket_circuit=circuit)).verdict == verdict


def warmth(low: float | None = 20, high: float | None = 40) -> Assumption:
    """Nobody said how warm it gets around the cable."""
    return assumed("/socket_circuit/ambient_c", 30, low, high)


def test_a_cable_that_only_bears_the_set_where_it_is_cool_is_a_question() -> None:
    # 13 A and 3.48 A on 1.5 mm2 in conduit: 16.5 A at 30 C are enough, 0.87 of them at 40 C are not (B.52.14)
    finding = cable(warmth(), breaker_a=13, area="PT")
    assert (finding.verdict, finding.likely, finding.facts["missing"]) == ("not_known", "does_not_fit", "ambient_c")
    assert any(r.code == "ask_electrician" and r.facts["rating"] == "ambient_c" for r in finding.remedies)
    assert cable(breaker_a=13, area="PT").verdict == "fits"


def test_a_cable_that_bears_the_set_however_warm_it_gets_fits_and_says_so() -> None:
    finding = cable(warmth(), cable_mm2=2.5)
    assert (finding.verdict, finding.facts["ambient_known"], finding.facts["ambient_c"]) == ("fits", False, 40)
    assert finding.limit == pytest.approx(0.87 * 23)
    assert str(finding.facts["variant"]).endswith("over_range")


def test_the_thin_cable_behind_16_a_is_refused_however_cool_it_stays_and_can_be_mended() -> None:
    for area in ("DE", "PT"):
        finding = cable(warmth(), area=area)
        assert finding.verdict == "does_not_fit"
        assert finding.facts["ambient_c"] == 20
        breakers = [(r.new_value, str(r.verdict_then)) for r in finding.remedies if r.code == "smaller_breaker"]
        assert breakers == [(10, "fits")]


def test_a_warmth_of_which_not_even_a_range_is_known_is_a_question() -> None:
    assert cable(warmth(None, None), cable_mm2=4).verdict == "not_known"


def test_who_shares_the_circuit_and_how_warm_it_gets_are_both_asked_where_both_decide() -> None:
    finding = cable(warmth(), dedicated=None, area="PT")
    assert finding.facts["missing"] == "dedicated, ambient_c"
    assert cable(warmth(), dedicated=None, cable_mm2=2.5).verdict == "fits"


def test_another_set_whose_output_nobody_gave_never_makes_the_cable_fit_nor_proves_a_refusal() -> None:
    other = OtherSet(ac_power_w=1200, panel_power_w=880, same_circuit=True)
    guessed = assumed("/socket_circuit/other_sets/0/ac_power_w", 1200)
    for section, likely in ((4, "fits"), (2.5, "does_not_fit")):
        finding = cable(guessed, cable_mm2=section, other_sets=(other,))
        assert (finding.verdict, finding.likely) == ("not_known", likely)
    assert cable(guessed, other_sets=(other,)).verdict == "does_not_fit"


def test_a_long_cable_before_the_lead_of_unknown_section_leaves_the_rise_open() -> None:
    finding = lead(cable_mm2=None, feeder_length_m=20, lead_length_m=3)
    assert (finding.verdict, finding.facts["missing"]) == ("not_known", "cable_mm2")
    assert lead(cable_mm2=None, feeder_length_m=0, lead_length_m=3).verdict == "fits"
