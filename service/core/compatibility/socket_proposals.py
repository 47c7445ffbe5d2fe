"""What might mend a circuit, a lead or a residual-current device? The cheapest first, new cables last."""

from collections.abc import Iterator
from dataclasses import replace
from math import floor

from service.core.compatibility.circuit import US_CONTINUOUS, fed_in_current_a
from service.core.compatibility.conductors import AWG, SECTIONS_MM2, is_us
from service.core.compatibility.proposal import Proposal, output_w, turned_down
from service.core.compatibility.wiring import Wiring
from service.core.model.facts import SocketCircuit
from service.core.model.finding import Finding, Verdict
from service.core.model.patch import Operation, patched

BREAKERS_A = (20.0, 16.0, 13.0, 10.0, 6.0)  # IEC 60898-1 preferred values, and 13 A
US_BREAKERS_A = (30.0, 25.0, 20.0, 15.0)  # NEC 240.6
LEAD_SECTIONS_MM2 = (1.0, 1.5, 2.5, 4.0, 6.0)
OWN_AND_LOWER = ("/socket_circuit/dedicated", "/inverter/set_limit_w")  # two fields that one remedy changes
OWN_AND_NEUTRAL = ("/socket_circuit/dedicated", "/socket_circuit/shared_neutral")
OWN_AND_THICKER = ("/socket_circuit/dedicated", "/socket_circuit/cable_mm2")


def cable(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """A smaller breaker, a circuit or neutral of its own, a lower limit, other sets elsewhere, a thicker cable."""
    setup, circuit = wiring.setup, wiring.setup.socket_circuit
    if circuit is None or finding.verdict != Verdict.DOES_NOT_FIT:
        return
    us = is_us(setup.site.rule_area)
    if circuit.breaker_a is not None:
        for size in US_BREAKERS_A if us else BREAKERS_A:
            if size < circuit.breaker_a:
                yield Proposal(code="smaller_breaker", pointer="/socket_circuit/breaker_a", new_value=size, unit="A",
                               who="electrician")  # fmt: skip
    if circuit.dedicated is not True:
        yield Proposal(code="own_circuit", pointer="/socket_circuit/dedicated", new_value=True, who="electrician")
    if circuit.shared_neutral:
        yield _together("own_neutral", OWN_AND_NEUTRAL, (True, False), "")
    yield from _cable_turned_down(finding, wiring, circuit, US_CONTINUOUS if us else 1.0)
    yield from _others_elsewhere(wiring, circuit)
    yield from _thicker(circuit, us=us)


def other_voltage(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """An inverter that is made for the voltage of the socket."""
    circuit = wiring.setup.socket_circuit
    if circuit is not None and finding.verdict == Verdict.DOES_NOT_FIT:
        yield Proposal(code="other_inverter", pointer=finding.about, new_value=circuit.voltage_v, unit="V",
                       facts={"rating": "grid_voltage_v", "variant": "grid_voltage_v"})  # fmt: skip


def _cable_turned_down(finding: Finding, wiring: Wiring, circuit: SocketCircuit, factor: float) -> Iterator[Proposal]:
    """A lower limit beside the breaker; on a circuit of its own up to all that the cable carries."""
    if finding.limit is None:
        return
    setup = wiring.setup
    others_w = (fed_in_current_a(setup, circuit) * circuit.voltage_v) - output_w(setup)
    carries_a = float(finding.facts["least_limit_a"] or finding.limit)
    alone_w = carries_a / factor * circuit.voltage_v - others_w
    if circuit.dedicated is True and not circuit.shared_neutral:
        yield from turned_down(setup, alone_w)
        return
    if circuit.breaker_a is not None:
        yield from turned_down(setup, alone_w - circuit.breaker_a / factor * circuit.voltage_v)
    for lower in turned_down(setup, alone_w):
        yield _together("own_circuit_and_lower_limit", OWN_AND_LOWER, (True, lower.new_value), "W")


def _others_elsewhere(wiring: Wiring, circuit: SocketCircuit) -> Iterator[Proposal]:
    """The other sets on other circuits: this one alone beside the breaker."""
    here = [at for at, other in enumerate(circuit.other_sets) if other.same_circuit]
    if not here:
        return
    way = tuple(Operation(op="add", path=f"/socket_circuit/other_sets/{at}/same_circuit", value=False) for at in here)
    yield Proposal(
        code="other_sets_elsewhere", who="electrician", patch=way, facts={"others": len(here)},
        rewired=replace(wiring, setup=patched(wiring.setup, way)),
    )  # fmt: skip


def _thicker(circuit: SocketCircuit, *, us: bool) -> Iterator[Proposal]:
    """A new cable, from the next size on; where no size bears both, on a circuit of its own."""
    sections = tuple(section for _, section, _ in AWG) if us else SECTIONS_MM2
    larger = [section for section in sections if section > (circuit.cable_mm2 or 0.0)]
    for section in larger:
        yield Proposal(code="thicker_cable", pointer="/socket_circuit/cable_mm2", new_value=section, unit="mm2",
                       who="electrician", last_resort=True)  # fmt: skip
    for section in () if circuit.dedicated is True else larger:
        both = _together("own_circuit_and_thicker_cable", OWN_AND_THICKER, (True, section), "mm2")
        yield replace(both, last_resort=True)
    yield Proposal(code="ask_electrician", who="electrician", promised=Verdict.NOT_KNOWN, last_resort=True,
                   facts={"variant": "new_circuit"})  # fmt: skip


def _together(code: str, pointers: tuple[str, str], values: tuple[bool, object], unit: str) -> Proposal:
    """Two fields that one remedy changes; the second value is the figure that is told."""
    way = tuple(Operation(op="add", path=p, value=v) for p, v in zip(pointers, values, strict=True))  # type: ignore[arg-type]
    return Proposal(code=code, new_value=way[1].value, unit=unit, who="electrician", patch=way)


def lead(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """The next thicker leads, then one short enough."""
    circuit = wiring.setup.socket_circuit
    if circuit is None:
        return
    for section in LEAD_SECTIONS_MM2:
        if section > circuit.lead_mm2:
            yield Proposal(code="thicker_or_shorter_lead", pointer="/socket_circuit/lead_mm2", new_value=section,
                           unit="mm2", facts={"variant": "thicker"})  # fmt: skip
    if finding.measured and finding.limit and finding.facts["variant"] != "overloaded":
        length = floor(circuit.lead_length_m * finding.limit / finding.measured)
        yield Proposal(code="thicker_or_shorter_lead", pointer="/socket_circuit/lead_length_m", new_value=length,
                       unit="m", facts={"variant": "shorter"})  # fmt: skip


def device(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """A device that suits; only where the one that is there was refused."""
    if finding.verdict == Verdict.DOES_NOT_FIT:
        asked = wiring.setup.inverter.asks_residual_current_device
        yield Proposal(code="other_residual_current_device", pointer=finding.about, new_value=asked or "type_a",
                       who="electrician", facts={"variant": asked or ""})  # fmt: skip
