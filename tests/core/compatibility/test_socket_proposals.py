"""What mends a circuit that no smaller breaker and no lower limit mends, and the set's share of a cap."""

from cmath import rect
from itertools import product
from math import radians
from typing import Any

import pytest

from service.core.appraisal.conditions import mending
from service.core.appraisal.remedies import priced_remedies
from service.core.model.facts import Meter, OtherSet
from service.core.model.finding import Finding, Remedy
from service.core.model.patch import patched
from tests import builders
from tests.core.compatibility.ask import answer, one

HERE = OtherSet(ac_power_w=900, panel_power_w=900, same_circuit=True)
ELSEWHERE = OtherSet(ac_power_w=500, panel_power_w=500, same_circuit=False)


def asked(code: str, *others: OtherSet, power: float = 800, area: str = "DE", **circuit: Any) -> Finding:
    return one(
        code,
        answer(
            site=builders.site(rule_area=area),
            inverter=builders.inverter(ac_power_w=power, set_limit_w=power),
            socket_circuit=builders.socket_circuit(other_sets=others, **circuit),
        ),
    )


def remedy(finding: Finding, code: str) -> Remedy:
    return next(r for r in finding.remedies if r.code == code)


def codes(finding: Finding) -> set[str]:
    return {r.code for r in finding.remedies}


def test_a_thicker_cable_is_told_only_where_nothing_cheaper_mends() -> None:
    # IEC 60364-5-52:2009 Table B.52.2, B2, and half of it at 60 C (Table B.52.14): 1.5 mm2 8.25 A, 2.5 mm2 11.5 A
    open_breaker = asked("circuit_cable", breaker_a=6, power=1840, ambient_c=60, area="AT")
    assert (open_breaker.measured, open_breaker.limit) == (pytest.approx(14), pytest.approx(8.25))
    assert "thicker_cable" not in codes(open_breaker)  # a circuit of its own: 8 A
    strong = asked("circuit_cable", breaker_a=10, power=300, ambient_c=60, dedicated=True, area="AT")
    assert "thicker_cable" not in codes(strong)  # a breaker of 6 A


def test_the_next_size_that_bears_the_breaker_is_named() -> None:
    # NEC Table 310.16, 60 C, times 0.41 at 55 C: 14 AWG 6.2 A, 12 AWG 8.2 A, 10 AWG 12.3 A, 8 AWG 16.4 A; a breaker
    # of 15 A is the smallest of 240.6
    finding = asked("circuit_cable", breaker_a=15, power=600, ambient_c=55, dedicated=True, area="US-UT",
                    cable_mm2=2.08, voltage_v=120)  # fmt: skip
    assert finding.verdict == "does_not_fit"
    told = remedy(finding, "thicker_cable")
    assert (told.new_value, told.who, told.verdict_then) == (8.37, "electrician", "fits")
    shared = asked("circuit_cable", breaker_a=20, power=600, ambient_c=55, area="US-UT", cable_mm2=2.08, voltage_v=120)
    together = remedy(shared, "own_circuit_and_thicker_cable")  # 20 A + 1.25 x 5 A are more than 6 AWG carries: 22.6 A
    assert (together.new_value, together.verdict_then) == (13.3, "fits")
    assert "thicker_cable" not in {r.code for r in shared.remedies if r.verdict_then == "fits"}


def test_the_other_sets_on_another_circuit_leave_this_one_alone_beside_the_breaker() -> None:
    finding = asked("circuit_cable", HERE, ELSEWHERE, breaker_a=6, power=800, area="AT")
    assert finding.measured == pytest.approx(6 + 1700 / 230)
    assert finding.verdict == "fits"  # 13.4 A of 16.5
    crowded = asked("circuit_cable", HERE, ELSEWHERE, breaker_a=13, power=800, area="AT")
    told = remedy(crowded, "other_sets_elsewhere")
    assert (told.who, told.verdict_then) == ("electrician", "fits")
    assert [(op.path, op.value) for op in told.patch] == [("/socket_circuit/other_sets/0/same_circuit", False)]


def test_where_the_other_sets_fill_the_cap_some_of_them_go_out_of_use() -> None:
    # DE as published: 800 VA of all sets behind one meter
    finding = asked("local_cap", ELSEWHERE, OtherSet(ac_power_w=300, panel_power_w=300, same_circuit=False), power=300)
    told = remedy(finding, "other_sets_out")
    assert (told.facts["out"], told.facts["out_w"], told.verdict_then) == (1, 300, "fits")
    assert [(op.op, op.path) for op in told.patch] == [("remove", "/socket_circuit/other_sets/1")]


def test_other_sets_out_and_a_lower_limit_mend_together_what_neither_mends_alone() -> None:
    finding = asked("local_cap", HERE, power=1200)
    told = remedy(finding, "other_sets_out_and_lower_limit")
    assert (told.new_value, told.verdict_then) == (800, "fits")
    setup = builders.setup(
        inverter=builders.inverter(ac_power_w=1200, set_limit_w=1200),
        socket_circuit=builders.socket_circuit(other_sets=(HERE,)),
    )
    after = patched(setup, told.patch)
    assert after.socket_circuit is not None
    assert (after.socket_circuit.other_sets, after.inverter.set_limit_w) == ((), 800)
    assert "other_sets_out_and_lower_limit" not in codes(asked("local_cap", power=1200))  # a lower limit is enough


def test_what_other_sets_gave_is_not_priced_at_nothing() -> None:
    setup = builders.setup(socket_circuit=builders.socket_circuit(other_sets=(HERE,)))
    priced = priced_remedies(answer(socket_circuit=setup.socket_circuit), setup, lambda _: 600.0)
    told = remedy(one("local_cap", priced), "other_sets_out")
    assert told.year_kwh_change is None


def test_a_plan_for_another_set_is_told_but_mends_nothing_of_this_one() -> None:
    # DE as published: 2000 W of panels; 12 x 410 W leave 4
    twelve = (builders.array(count=12, joined="parallel", panel=builders.panel(rated_power_w=410)),)
    finding = one("panel_cap", answer(arrays=twelve, socket_circuit=builders.socket_circuit(plug="fixed")))
    told = remedy(finding, "another_set")
    assert (told.new_value, told.verdict_then) == (4, "fits")
    assert mending(finding) is None


def test_a_counter_that_runs_backwards_is_swapped_by_the_operator() -> None:
    # AT as published: no reversing meter
    old = Meter(counts="reversing", sums_phases=None, netting="instant")
    finding = one("meter", answer(site=builders.site(rule_area="AT"), meter=old))
    assert finding.verdict == "does_not_fit"
    told = remedy(finding, "other_meter")
    assert (told.pointer, told.new_value, told.who, told.verdict_then) == (
        "/meter/counts", "two_way", "operator", "fits",
    )  # fmt: skip


def test_fewer_strings_mend_a_reverse_current_that_no_fuse_mends() -> None:
    # 14.1 A wants a fuse of 21.2 A at least (IEC 62548: 1.5 x Isc), the panel bears 15 A
    panel = builders.panel(short_circuit_current_a=14.1, max_series_fuse_a=15.0)
    both = (builders.array(count=4, joined="parallel", panel=panel), builders.array(input=2, panel=panel))
    finding = one("reverse_current", answer(arrays=both))
    assert finding.verdict == "does_not_fit"
    told = remedy(finding, "fewer_panels")
    assert (told.facts["left"], told.facts["panels"], told.verdict_then) == (3, 5, "fits")


LEGS = {"two legs": (0, 180), "three phases": (0, 120, 240)}


@pytest.mark.parametrize("angles_deg", LEGS.values(), ids=LEGS)
def test_a_shared_neutral_bears_what_the_phasors_of_its_circuits_add_up_to(angles_deg: tuple[int, ...]) -> None:
    breaker_a, set_a = 16.0, 800 / 230
    own = (-set_a, 0.0, breaker_a)  # what the panel board sends into this leg: fed backwards, nothing, all it lets by
    others = product((0.0, breaker_a), repeat=len(angles_deg) - 1)
    most_a = max(
        abs(sum(amps * rect(1, radians(deg)) for amps, deg in zip((here, *there), angles_deg, strict=True)))
        for here, there in product(own, others)
    )
    finding = asked("circuit_cable", breaker_a=16, dedicated=True, shared_neutral=True)
    assert finding.measured == pytest.approx(most_a)
    assert (finding.verdict, finding.facts["variant"]) == ("does_not_fit", "neutral_admitted_elsewhere")
    assert asked("circuit_cable", breaker_a=16, dedicated=True, shared_neutral=False).measured == 16


def test_a_neutral_of_its_own_mends_a_shared_one() -> None:
    told = remedy(asked("circuit_cable", breaker_a=16, shared_neutral=True), "own_neutral")
    assert (told.who, told.verdict_then) == ("electrician", "fits")
    assert [(op.path, op.value) for op in told.patch] == [
        ("/socket_circuit/dedicated", True), ("/socket_circuit/shared_neutral", False),
    ]  # fmt: skip
    assert "own_circuit" not in codes(asked("circuit_cable", breaker_a=16, shared_neutral=True))


def test_a_neutral_that_nobody_spoke_of_is_not_looked_at() -> None:
    apart = answer(socket_circuit=builders.socket_circuit(dedicated=True))
    assert "/socket_circuit/shared_neutral" in apart.not_looked_at
    shared = answer(socket_circuit=builders.socket_circuit(dedicated=False))
    assert "/socket_circuit/shared_neutral" not in shared.not_looked_at  # breaker and set add up in any case
