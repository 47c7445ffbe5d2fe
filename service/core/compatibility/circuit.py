"""Does the home's final circuit bear the set on top, its lead, and its residual-current device?

A neutral that another circuit returns through bears the sum too, even where the circuit itself is the set's own: with
the other legs at their breakers' current and this one fed backwards, the phasors add up to In + Ig in a home of two
legs (120/240 V) and in one of three phases alike, and no breaker sits in a neutral.

The circuit is fed from two sides: breaker and set together can push their sum through the cable, and no breaker sees
that. So the cable must carry both (IEC 60364-5-551 clause 551.7.2; BS 7671 has the same text).
"""

from service.core.compatibility.capacity import AMBIENT, Capacity, capacity_of
from service.core.compatibility.conductors import lead_ampacity_a, resistance_ohm_per_km
from service.core.compatibility.finding import made
from service.core.compatibility.reach import Outcome, Reach, exactly, rating
from service.core.compatibility.voltage import is_us
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup, SocketCircuit
from service.core.model.finding import Fact, Finding, Part, Verdict

CABLE_SOURCE = "IEC 60364-5-551 clause 551.7.2: Iz >= In + Ig; on a circuit of its own Iz >= max(In, Ig)"
US_CABLE_SOURCE = "NEC 705.12, by the conductors' reading: breaker plus 1.25 x the set's current (from memory)"
VOLTAGE_SOURCE = "IEC 60038:2009: supply within 10 % of the nominal voltage"
LEAD_SOURCE = "IEC 60228 class 5 at 20 C; house wiring class 1"
RCD_SOURCE = "IEC 60364-7-712 and IEC 62548: type B unless the maker proves that no smooth direct current can leak"

US_CONTINUOUS = 1.25  # NEC 690.8(B), 705.12: output of a set counts as continuous
LOSSY_RISE_PCT = 1.0  # trade rule for a lead between set and home; more lifts the voltage towards the set's cut-off
LEAST_BREAKER_A = 6.0
VOLTAGE_BAND = 0.10  # IEC 60038:2009 clause 3.1

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
        grid_voltage(setup, circuit, assumptions),
        circuit_cable(setup, circuit, assumptions),
        lead_voltage_rise(setup, circuit, assumptions),
        residual_current(circuit),
    )
    return tuple(finding for finding in found if finding is not None)


def fed_in_current_a(setup: Setup, circuit: SocketCircuit) -> float:
    """Ig: what this set and the others on its circuit push into it, A at the circuit's voltage (power factor 1)."""
    others_w = sum(other.ac_power_w for other in circuit.other_sets if other.same_circuit)
    return (_output_w(setup) + others_w) / circuit.voltage_v


def circuit_cable(setup: Setup, circuit: SocketCircuit, assumptions: Assumptions) -> Finding:
    """Can the cable carry breaker and set together (Iz >= In + Ig), or, on a circuit of its own, the larger one?

    Where nobody said how warm it gets around the cable, the verdict is one only if it is the same over the whole
    range that homes have; ``ambient_c`` of the facts then is the end at which it still holds.
    """
    area = setup.site.rule_area
    fed_in = _fed_in(setup, circuit, assumptions, US_CONTINUOUS if is_us(area) else 1.0)
    breaker = rating(assumptions, "/socket_circuit/breaker_a", circuit.breaker_a)
    iz = capacity_of(circuit, assumptions, area)
    outcome = _cable_outcome(breaker, iz, fed_in, _shared_too(circuit, assumptions))
    in_a, in_all = breaker.value, fed_in.value or 0.0
    counted_apart = circuit.dedicated is True and not circuit.shared_neutral
    measured = None if in_a is None else (max(in_a, in_all) if counted_apart else in_a + in_all)
    ambient_c, tables = iz.shown(outcome.verdict, circuit.ambient_c)
    over_range = iz.ambient_open and outcome.verdict != Verdict.NOT_KNOWN
    facts: dict[str, Fact] = {
        "breaker_a": in_a,
        "fed_in_a": in_all,
        "voltage_v": circuit.voltage_v,
        "cable_mm2": circuit.cable_mm2,
        "laying": circuit.laying,
        "ambient_c": ambient_c,
        "ambient_known": not iz.ambient_open,
        "ambient_from_c": iz.ambients_c[0],
        "ambient_to_c": iz.ambients_c[-1],
        "dedicated": circuit.dedicated,
        "method": tables.method if tables else None,
        "table": tables.table if tables else None,
        "table_ambient_c": tables.table_ambient_c if tables else None,
        "least_limit_a": iz.current.low,
        "variant": "" if outcome.missing else _variant(circuit, apart=counted_apart),
    }
    if over_range and not outcome.missing and not circuit.shared_neutral:
        facts["variant"] = f"{facts['variant']}_over_range"
    return made(
        "circuit_cable", Part.SOCKET_SIDE, outcome, "/socket_circuit", facts=facts,
        numbers=(measured, tables.current_a if tables else None, "A"),
        source=f"{US_CABLE_SOURCE if is_us(area) else CABLE_SOURCE}; {tables.table if tables else 'no table'}",
    )  # fmt: skip


def grid_voltage(setup: Setup, circuit: SocketCircuit, assumptions: Assumptions) -> Finding | None:
    """Is the inverter made for the voltage of this socket? None where nobody said what it is made for.

    A voltage taken from the area settles it only where every usual voltage there gives the same answer.
    """
    made_for = setup.inverter.grid_voltage_v
    if made_for is None:
        return None
    pointer = "/socket_circuit/voltage_v"
    socket = rating(assumptions, pointer, circuit.voltage_v)
    low, high = (1 - VOLTAGE_BAND) * made_for, (1 + VOLTAGE_BAND) * made_for
    suits = {low <= volts <= high for volts in (socket.lowest, socket.highest) if volts is not None}
    verdict = Verdict.FITS if suits == {True} else Verdict.DOES_NOT_FIT
    outcome = Outcome(verdict, verdict)
    if len(suits) > 1:
        outcome = Outcome(Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT, (pointer,))
    return made(
        "grid_voltage", Part.SOCKET_SIDE, outcome, "/inverter/grid_voltage_v",
        numbers=(made_for, circuit.voltage_v, "V"), facts={"variant": ""}, source=VOLTAGE_SOURCE,
    )  # fmt: skip


def lead_voltage_rise(setup: Setup, circuit: SocketCircuit, assumptions: Assumptions) -> Finding | None:
    """How far the lead lifts the voltage, what it eats, and whether it may carry the set; None if not described.

    Per metre both wires heat by 2 I2 R. The share of a year's energy that is lost is at most the rise at full output,
    for at less current less of it is lost.
    """
    if assumptions.assumed("/socket_circuit/lead_length_m") or assumptions.assumed("/socket_circuit/lead_mm2"):
        return None
    resistance = resistance_ohm_per_km(circuit.lead_mm2, flexible=True)
    bearing = lead_ampacity_a(circuit.lead_mm2)
    if resistance is None or bearing is None:
        return None
    current = _output_w(setup) / circuit.voltage_v
    ohm = 2 * circuit.lead_length_m * resistance / 1000
    feeder = None if circuit.cable_mm2 is None else resistance_ohm_per_km(circuit.cable_mm2, flexible=False)
    ohm += 2 * circuit.feeder_length_m * (feeder or 0.0) / 1000
    rise_pct = 100 * current * ohm / circuit.voltage_v
    variant = ""
    if current > bearing:
        verdict, variant = Verdict.DOES_NOT_FIT, "overloaded"
    else:
        verdict = Verdict.FITS if rise_pct <= LOSSY_RISE_PCT else Verdict.FITS_WITH_LOSS
    outcome = Outcome(verdict, verdict)
    if verdict == Verdict.FITS and circuit.feeder_length_m > 0 and feeder is None:
        outcome = Outcome(Verdict.NOT_KNOWN, Verdict.NOT_KNOWN, ("/socket_circuit/cable_mm2",))
    facts: dict[str, Fact] = {
        "rise_v": current * ohm, "eaten_w": current**2 * ohm, "current_a": current,
        "heat_w_per_m": current**2 * 2 * resistance / 1000,
        "most_lost_kwh_per_1000_kwh": 10 * rise_pct,
        "lead_may_carry_a": bearing,
        "lead_length_m": circuit.lead_length_m, "lead_mm2": circuit.lead_mm2,
        "feeder_length_m": circuit.feeder_length_m, "feeder_counted": feeder is not None, "variant": variant,
    }  # fmt: skip
    return made(
        "lead_voltage_rise", Part.SOCKET_SIDE, outcome, "/socket_circuit/lead_mm2",
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


def _output_w(setup: Setup) -> float:
    return min(setup.inverter.set_limit_w, setup.inverter.ac_power_w)


def _fed_in(setup: Setup, circuit: SocketCircuit, assumptions: Assumptions, factor: float) -> Reach:
    """Ig times the factor; another set on the circuit whose output nobody gave counts with nothing at the low end."""
    guessed = tuple(
        f"/socket_circuit/other_sets/{at}/ac_power_w"
        for at, other in enumerate(circuit.other_sets)
        if other.same_circuit and assumptions.assumed(f"/socket_circuit/other_sets/{at}/ac_power_w")
    )
    value = factor * fed_in_current_a(setup, circuit)
    if not guessed:
        return exactly(value)
    certain_w = _output_w(setup) + sum(
        other.ac_power_w
        for at, other in enumerate(circuit.other_sets)
        if other.same_circuit and f"/socket_circuit/other_sets/{at}/ac_power_w" not in guessed
    )
    return Reach(factor * certain_w / circuit.voltage_v, value, None, guessed)


def _shared_too(circuit: SocketCircuit, assumptions: Assumptions) -> tuple[bool, ...]:
    """Does breaker and set add up, on a circuit with sockets and machines or in a neutral? Both where nobody said."""
    if circuit.shared_neutral:
        return (True,)
    if circuit.dedicated is None or assumptions.assumed("/socket_circuit/dedicated"):
        return (True, False)
    return (not circuit.dedicated,)


def _variant(circuit: SocketCircuit, *, apart: bool) -> str:
    return "shared_neutral" if circuit.shared_neutral else "own_circuit" if apart else "shared"


def _cable_outcome(breaker: Reach, iz: Capacity, fed_in: Reach, shared: tuple[bool, ...]) -> Outcome:
    """The strictest reading for ``fits``, the kindest for a proven ``does_not_fit``."""

    def total(breaker_a: float, fed_in_a: float, *, apart: bool) -> float:
        return max(breaker_a, fed_in_a) if apart else breaker_a + fed_in_a

    capacity = iz.current
    missing = breaker.missing + capacity.missing + fed_in.missing
    most = None if breaker.highest is None else total(breaker.highest, fed_in.highest or 0.0, apart=not shared[0])
    least_breaker = breaker.lowest if not breaker.missing else (breaker.low or LEAST_BREAKER_A)
    least = total(least_breaker or LEAST_BREAKER_A, fed_in.lowest or 0.0, apart=not shared[-1])
    if capacity.high is not None and least > capacity.high:
        return Outcome(Verdict.DOES_NOT_FIT, Verdict.DOES_NOT_FIT, missing)
    if most is None or capacity.lowest is None:
        return Outcome(Verdict.NOT_KNOWN, Verdict.NOT_KNOWN, missing)
    likely = Verdict.FITS if most <= capacity.lowest else Verdict.DOES_NOT_FIT
    if not missing and likely == Verdict.FITS:
        return Outcome(likely, likely)
    if not missing:
        missing = _what_decides(iz, most, least, shared)
    return Outcome(Verdict.NOT_KNOWN, likely, missing)


def _what_decides(iz: Capacity, most: float, least: float, shared: tuple[bool, ...]) -> tuple[str, ...]:
    """Which of the two that nobody said would settle it: what else hangs on the circuit, how warm the cable gets."""
    low, high = iz.current.low or 0.0, iz.current.high or 0.0
    by_sharing = len(shared) > 1 and any(least <= limit < most for limit in (low, high))
    by_warmth = iz.ambient_open and any(low < amps <= high for amps in (least, most))
    return (*(("/socket_circuit/dedicated",) if by_sharing else ()), *((AMBIENT,) if by_warmth else ()))
