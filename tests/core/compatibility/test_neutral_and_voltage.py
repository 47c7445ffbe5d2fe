"""A neutral that two circuits share, and the voltage that the inverter is made for."""

from math import cos, pi, sin
from typing import Any

import pytest

from service.core.compatibility import Compatibility
from service.core.model.facts import OtherSet
from service.core.model.finding import Finding
from service.core.model.pointer import replaced_at
from tests import builders
from tests.core.compatibility.ask import answer, assumed, one


def neutral(area: str = "PT", power: float = 800, **circuit: Any) -> Finding:
    return one("shared_neutral", asked(area, power, **circuit))


def asked(area: str, power: float, **circuit: Any) -> Compatibility:
    return answer(
        site=builders.site(rule_area=area),
        inverter=builders.inverter(ac_power_w=power, set_limit_w=power),
        socket_circuit=builders.socket_circuit(**{"shared_neutral": True, **circuit}),
    )


@pytest.mark.parametrize("lines", [2, 3])
def test_the_neutral_carries_the_sum_of_the_others_draw_and_of_the_set(lines: int) -> None:
    """Kirchhoff, with phasors: the set feeds the first line, each other line draws its breaker's current."""
    angles = [2 * pi * at / lines for at in range(lines)]
    amperes = [-800 / 230, *([16.0] * (lines - 1))]
    real = sum(amps * cos(angle) for amps, angle in zip(amperes, angles, strict=True))
    imaginary = sum(amps * sin(angle) for amps, angle in zip(amperes, angles, strict=True))
    assert neutral(cable_mm2=2.5).measured == pytest.approx((real**2 + imaginary**2) ** 0.5)


def test_a_circuit_of_its_own_helps_a_shared_neutral_in_nothing() -> None:
    compatibility = asked("PT", 800, dedicated=True)
    assert one("circuit_cable", compatibility).verdict == "fits"  # max(16, 3.48) <= 16.5
    refused = one("shared_neutral", compatibility)
    assert (refused.verdict, refused.limit) == ("does_not_fit", 16.5)
    assert compatibility.verdict == "does_not_fit"


def test_in_the_us_the_set_counts_as_continuous_and_no_full_breaker_leaves_room() -> None:
    """NEC 705.28(C) with 690.8(B), from memory: 20 A of the other line and 1.25 x 391 W / 120 V on 12 AWG."""
    refused = neutral("US-UT", 391, voltage_v=120, breaker_a=20, cable_mm2=3.31, laying=None)
    assert refused.measured == pytest.approx(20 + 1.25 * 391 / 120)
    assert (refused.verdict, refused.limit) == ("does_not_fit", 20)
    assert {r.code: r.new_value for r in refused.remedies} == {"own_neutral": False, "smaller_breaker": 15.0}


def test_what_mends_a_shared_neutral_was_asked_again() -> None:
    other = OtherSet(ac_power_w=300, panel_power_w=300, same_circuit=True)
    circuit = {"breaker_a": 13, "cable_mm2": 1.5, "power": 800, "other_sets": (other,)}
    finding = neutral(**circuit)
    told = {r.code: (r.new_value, str(r.verdict_then), r.who) for r in finding.remedies}
    assert told == {
        "own_neutral": (False, "fits", "electrician"),
        "lower_set_limit": (500.0, "fits", "you"),  # (16.5 - 13) A x 230 V - 300 W = 505 W
        "smaller_breaker": (10.0, "fits", "electrician"),
        "other_sets_elsewhere": (None, "fits", "electrician"),
    }


def test_an_unknown_breaker_leaves_a_shared_neutral_open() -> None:
    finding = neutral(breaker_a=None, cable_mm2=2.5)
    assert (finding.verdict, finding.facts["missing"]) == ("not_known", "breaker_a")
    assert [(r.code, r.who) for r in finding.remedies] == [("ask_electrician", "electrician")]


def test_a_neutral_of_its_own_fits_and_one_that_nobody_described_was_not_looked_at() -> None:
    assert neutral(shared_neutral=False).verdict == "fits"
    silent = answer(socket_circuit=builders.socket_circuit())
    assert "/socket_circuit/shared_neutral" in silent.not_looked_at
    assert not [f for f in silent.findings if f.code == "shared_neutral"]


def voltage(made_for: float, *assumptions: Any, area: str = "US-UT", **circuit: Any) -> Finding:
    return one("grid_voltage", answer(
        *assumptions, site=builders.site(rule_area=area), inverter=builders.inverter(grid_voltage_v=made_for),
        socket_circuit=builders.socket_circuit(**circuit),
    ))  # fmt: skip


@pytest.mark.parametrize(
    ("made_for", "socket", "verdict"),
    [(230, 120, "does_not_fit"), (120, 120, "fits"), (240, 240, "fits"), (240, 120, "does_not_fit"),
     (230, 207, "fits"), (230, 206, "does_not_fit"), (230, 253, "fits"), (230, 254, "does_not_fit")],
)  # fmt: skip
def test_an_inverter_runs_within_a_tenth_of_its_voltage_only(made_for: float, socket: float, verdict: str) -> None:
    """IEC 60038:2009: 230 V +- 10 % is 207 to 253 V. From memory."""
    assert voltage(made_for, voltage_v=socket).verdict == verdict


def test_an_inverter_for_another_grid_is_mended_by_one_for_this() -> None:
    [remedy] = voltage(230, voltage_v=120).remedies
    assert (remedy.code, remedy.pointer, remedy.new_value) == ("other_inverter", "/inverter/grid_voltage_v", 120)
    mended = replaced_at(builders.setup(), str(remedy.pointer), remedy.new_value).inverter
    circuit = builders.socket_circuit(voltage_v=120)
    assert one("grid_voltage", answer(inverter=mended, socket_circuit=circuit)).verdict == remedy.verdict_then == "fits"


def test_a_voltage_taken_from_the_area_settles_it_only_where_all_of_its_voltages_agree() -> None:
    here = assumed("/socket_circuit/voltage_v", 230, 230, 240)
    assert voltage(230, here, area="PT", voltage_v=230).verdict == "fits"
    two = assumed("/socket_circuit/voltage_v", 120, 120, 240)
    found = voltage(240, two, voltage_v=120)
    assert (found.verdict, found.facts["missing"]) == ("not_known", "voltage_v")
    assert [r.code for r in found.remedies] == ["ask_electrician"]
    assert voltage(100, two, voltage_v=120).verdict == "does_not_fit"


def test_a_voltage_that_nobody_named_was_not_looked_at() -> None:
    silent = answer(socket_circuit=builders.socket_circuit())
    assert "/inverter/grid_voltage_v" in silent.not_looked_at
    assert not [f for f in silent.findings if f.code == "grid_voltage"]
