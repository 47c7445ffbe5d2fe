"""Does the home's final circuit bear the set on top, its lead, and its residual-current device?

The circuit is fed from two sides: breaker and set together can push their sum through the cable, and no breaker sees
that. So the cable must carry both (IEC 60364-5-551 clause 551.7.2; BS 7671 has the same text).
"""

from service.core.compatibility.conductors import (
    AWG,
    METHODS,
    SECTIONS_MM2,
    Carrying,
    carrying_capacity,
    lead_ampacity_a,
    resistance_ohm_per_km,
)  # fmt: skip
from service.core.compatibility.finding import made
from service.core.compatibility.reach import Outcome, Reach, exactly, rating
from service.core.compatibility.voltage import is_us
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup, SocketCircuit
from service.core.model.finding import Fact, Finding, Part, Verdict

CABLE_SOURCE = "IEC 60364-5-551 clause 551.7.2: Iz >= In + Ig; on a circuit of its own Iz >= max(In, Ig)"
US_CABLE_SOURCE = "NEC 705.12, by the conductors' reading: breaker plus 1.25 x the set's current (from memory)"
LEAD_SOURCE = "IEC 60228 class 5 at 20 C; house wiring class 1"
RCD_SOURCE = "IEC 60364-7-712 and IEC 62548: type B unless the maker proves that no smooth direct current can leak"

US_CONTINUOUS = 1.25  # NEC 690.8(B), 705.12: output of a set counts as continuous
LOSSY_RISE_PCT = 1.0  # trade rule for a lead between set and home; more lifts the voltage towards the set's cut-off
LEAST_BREAKER_A = 6.0

_RCD_VERDICTS = {
    "type_a": Verdict.FITS,
    "type_b": Verdict.FITS,
    "type_ac": Verdict.DOES_NOT_FIT,
    "one_way": Verdict.DOES_NOT_FIT,
    "none": Verdict.DOES_NOT_FIT,
    "not_known": Verdict.NOT_KNOWN,
}


def socket_side(setup: Setup, assumptions: Assumptions) -> tuple[Finding, ...]:
    """Every finding about the socket circuit; none where it was not described."""
    circuit = setup.socket_circuit
    if circuit is None:
        return ()
    found = (
        circuit_cable(setup, circuit, assumptions),
        lead_voltage_rise(setup, circuit, assumptions),
        residual_current(circuit),
    )
    return tuple(finding for finding in found if finding is not None)


def fed_in_current_a(setup: Setup, circuit: SocketCircuit) -> float:
    """Ig: what this set and the others on its circuit push into it, A at the circuit's voltage (power factor 1)."""
    others_w = sum(other.ac_power_w for other in circuit.other_sets if other.same_circuit)
    return (min(setup.inverter.set_limit_w, setup.inverter.ac_power_w) + others_w) / circuit.voltage_v


def circuit_cable(setup: Setup, circuit: SocketCircuit, assumptions: Assumptions) -> Finding:
    """Can the cable carry breaker and set together (Iz >= In + Ig), or, on a circuit of its own, the larger one?"""
    area = setup.site.rule_area
    fed_in = fed_in_current_a(setup, circuit) * (US_CONTINUOUS if is_us(area) else 1.0)
    breaker = rating(assumptions, "/socket_circuit/breaker_a", circuit.breaker_a)
    capacity, tables = _capacity(circuit, assumptions, area)
    shared = _shared_too(circuit, assumptions)
    outcome = _cable_outcome(breaker, capacity, fed_in, shared)
    in_a = breaker.value
    counted_apart = circuit.dedicated is True
    measured = None if in_a is None else (max(in_a, fed_in) if counted_apart else in_a + fed_in)
    facts: dict[str, Fact] = {
        "breaker_a": in_a,
        "fed_in_a": fed_in,
        "voltage_v": circuit.voltage_v,
        "cable_mm2": circuit.cable_mm2,
        "laying": circuit.laying,
        "ambient_c": circuit.ambient_c,
        "dedicated": circuit.dedicated,
        "method": tables.method if tables else None,
        "table": tables.table if tables else None,
        "table_ambient_c": tables.table_ambient_c if tables else None,
        "variant": "" if outcome.missing else "own_circuit" if counted_apart else "shared",
    }
    return made(
        "circuit_cable", Part.SOCKET_SIDE, outcome, "/socket_circuit", facts=facts,
        numbers=(measured, None if capacity.missing else capacity.value, "A"),
        source=f"{US_CABLE_SOURCE if is_us(area) else CABLE_SOURCE}; {tables.table if tables else 'no table'}",
    )  # fmt: skip


def lead_voltage_rise(setup: Setup, circuit: SocketCircuit, assumptions: Assumptions) -> Finding | None:
    """How far the lead lifts the voltage, what it eats, and whether it may carry the set; None if not described."""
    if assumptions.assumed("/socket_circuit/lead_length_m") or assumptions.assumed("/socket_circuit/lead_mm2"):
        return None
    resistance = resistance_ohm_per_km(circuit.lead_mm2, flexible=True)
    bearing = lead_ampacity_a(circuit.lead_mm2)
    if resistance is None or bearing is None:
        return None
    current = min(setup.inverter.set_limit_w, setup.inverter.ac_power_w) / circuit.voltage_v
    ohm = 2 * circuit.lead_length_m * resistance / 1000
    feeder = None if circuit.cable_mm2 is None else resistance_ohm_per_km(circuit.cable_mm2, flexible=False)
    ohm += 2 * circuit.feeder_length_m * (feeder or 0.0) / 1000
    rise_pct = 100 * current * ohm / circuit.voltage_v
    if current > bearing:
        verdict, variant = Verdict.DOES_NOT_FIT, "overloaded"
    else:
        verdict, variant = (Verdict.FITS if rise_pct <= LOSSY_RISE_PCT else Verdict.FITS_WITH_LOSS), ""
    facts: dict[str, Fact] = {
        "rise_v": current * ohm, "eaten_w": current**2 * ohm, "current_a": current, "lead_may_carry_a": bearing,
        "lead_length_m": circuit.lead_length_m, "lead_mm2": circuit.lead_mm2,
        "feeder_length_m": circuit.feeder_length_m, "feeder_counted": feeder is not None, "variant": variant,
    }  # fmt: skip
    return made(
        "lead_voltage_rise", Part.SOCKET_SIDE, Outcome(verdict, verdict), "/socket_circuit/lead_mm2",
        numbers=(rise_pct, LOSSY_RISE_PCT, "%"), facts=facts, source=LEAD_SOURCE,
    )  # fmt: skip


def residual_current(circuit: SocketCircuit) -> Finding:
    """Does the residual-current device keep working with a set behind it?

    Type A needs the maker's proof, type AC is blinded by direct current, a one-way device must not be fed from behind.
    """
    device = circuit.residual_current_device
    verdict = _RCD_VERDICTS.get(device, Verdict.NOT_KNOWN)
    if device == "none" and circuit.plug == "fixed":
        verdict = Verdict.NOT_KNOWN
    return made(
        "residual_current", Part.SOCKET_SIDE, Outcome(verdict, verdict), "/socket_circuit/residual_current_device",
        facts={"device": device, "variant": device}, source=RCD_SOURCE,
    )  # fmt: skip


def _capacity(circuit: SocketCircuit, assumptions: Assumptions, area: str) -> tuple[Reach, Carrying | None]:
    """Iz with the range that an unknown section or laying leaves open, and the table read where both are known."""
    section = rating(assumptions, "/socket_circuit/cable_mm2", circuit.cable_mm2)
    laying_known = circuit.laying is not None and not assumptions.assumed("/socket_circuit/laying")
    missing = (*section.missing, *(() if laying_known or is_us(area) else ("/socket_circuit/laying",)))
    layings = [circuit.laying] if laying_known and circuit.laying else list(METHODS)

    def capacities(mm2: float) -> list[Carrying]:
        found = (carrying_capacity(mm2, way, circuit.ambient_c, area, circuit.voltage_v) for way in layings)
        return [carrying for carrying in found if carrying is not None]

    if section.value is None or section.missing:
        thinnest, thickest = (AWG[0][1], AWG[2][1]) if is_us(area) else (SECTIONS_MM2[0], SECTIONS_MM2[2])
        low, high = capacities(section.low or thinnest), capacities(section.high or thickest)
    else:
        low = high = capacities(section.value)
    if not low or not high:
        return Reach(None, None, None, missing or ("/socket_circuit/cable_mm2",)), None
    least, most = min(c.current_a for c in low), max(c.current_a for c in high)
    if not missing:
        return exactly(least), low[0]
    return Reach(least, None, most, missing), None


def _shared_too(circuit: SocketCircuit, assumptions: Assumptions) -> tuple[bool, ...]:
    """Is the circuit shared with sockets and machines? Both answers where nobody said."""
    if circuit.dedicated is None or assumptions.assumed("/socket_circuit/dedicated"):
        return (True, False)
    return (not circuit.dedicated,)


def _cable_outcome(breaker: Reach, capacity: Reach, fed_in: float, shared: tuple[bool, ...]) -> Outcome:
    """The strictest reading for ``fits``, the kindest for a proven ``does_not_fit``."""

    def total(breaker_a: float, apart: bool) -> float:
        return max(breaker_a, fed_in) if apart else breaker_a + fed_in

    missing = breaker.missing + capacity.missing
    most = None if breaker.highest is None else total(breaker.highest, apart=not shared[0])
    least_breaker = breaker.lowest if not breaker.missing else (breaker.low or LEAST_BREAKER_A)
    least = total(least_breaker or LEAST_BREAKER_A, apart=not shared[-1])
    if capacity.high is not None and least > capacity.high:
        return Outcome(Verdict.DOES_NOT_FIT, Verdict.DOES_NOT_FIT, missing)
    if most is None or capacity.lowest is None:
        return Outcome(Verdict.NOT_KNOWN, Verdict.NOT_KNOWN, missing)
    likely = Verdict.FITS if most <= capacity.lowest else Verdict.DOES_NOT_FIT
    if not missing and likely == Verdict.FITS:
        return Outcome(likely, likely)
    if not missing and len(shared) > 1:
        missing = ("/socket_circuit/dedicated",)
    return Outcome(Verdict.NOT_KNOWN, likely, missing)
