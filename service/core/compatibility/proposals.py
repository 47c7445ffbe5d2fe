"""What might mend a finding? Changes worth trying, each of them still to be asked again before it is told."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import ceil, floor
from types import MappingProxyType

from service.core.compatibility.circuit import US_CONTINUOUS, fed_in_current_a
from service.core.compatibility.voltage import is_us
from service.core.compatibility.wiring import Wiring, with_panels_moved
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array, Setup, SocketCircuit
from service.core.model.finding import Fact, Finding, Verdict
from service.core.model.patch import Operation
from service.core.model.pointer import replaced_at

BREAKERS_A = (20.0, 16.0, 13.0, 10.0, 6.0)  # IEC 60898-1 preferred values, and 13 A
US_BREAKERS_A = (30.0, 25.0, 20.0, 15.0)  # NEC 240.6
STRING_FUSES_A = (10.0, 12.0, 15.0, 16.0, 20.0, 25.0, 30.0, 32.0)  # IEC 60269-6
FUSE_OVER_ISC = 1.5  # IEC 62548: a string fuse of at least 1.5 x Isc, at most the panel's rating
LEAD_SECTIONS_MM2 = (1.0, 1.5, 2.5, 4.0, 6.0)
LEAST_LIMIT_W = 50.0  # nobody turns an inverter down further
LIMIT_STEP_W = 10.0
PANEL_STEP_W = 5.0  # labels go in steps of 5 W
OWN_AND_LOWER = ("/socket_circuit/dedicated", "/inverter/set_limit_w")  # two fields that one remedy changes
LEAST_KEPT_SHARE = 0.5  # a set that loses more than half of its panels' power is another set, and no remedy of this one


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """A change that might mend a finding: one field of the request (``pointer``), or another wiring (``rewired``).

    ``patch``: how a request is rewired so, where it can hold that.

    ``promised``: the verdict of a change that no field of the request can hold, already computed.
    """

    code: str
    pointer: str | None = None
    new_value: Fact = None
    unit: str = ""
    who: str = "you"
    rewired: Wiring | None = None
    patch: tuple[Operation, ...] = ()
    promised: Verdict | None = None
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))


def proposals(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """Changes worth trying for a finding that is not ``fits``, the cheapest first; questions to ask at the end."""
    propose = _BY_CODE.get(finding.code)
    if propose is not None and finding.verdict != Verdict.FITS:
        yield from propose(finding, wiring)
    if finding.verdict == Verdict.NOT_KNOWN:
        yield from _questions(finding, wiring)


def _questions(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """Whom to ask for each missing fact; ``promised`` is the verdict with the class's worst value."""
    pointers = str(finding.facts.get("missing_pointers", ""))
    for pointer in filter(None, pointers.split(", ")):
        on_circuit = pointer.startswith("/socket_circuit")
        yield Proposal(
            code="ask_electrician" if on_circuit else "ask_seller",
            who="electrician" if on_circuit else "seller",
            promised=finding.likely,
            facts={
                "rating": pointer.rsplit("/", 1)[1],
                "rating_pointer": pointer,
                "variant": pointer.rsplit("/", 1)[1],
            },
        )
    if finding.code == "certificate":
        yield _papers(finding, wiring)
    if finding.facts.get("variant") == "bypass_diodes":
        yield Proposal(
            code="ask_seller", who="seller", promised=Verdict.FITS_WITH_LOSS, facts={"variant": "bypass_diodes"}
        )
    if finding.code in ("datasheet_sanity", "connectors"):
        yield Proposal(code="ask_seller", who="seller", promised=Verdict.FITS, facts={"variant": finding.code})
    if finding.code == "residual_current":
        yield Proposal(code="ask_electrician", who="electrician", promised=finding.likely,
                       facts={"rating": "residual_current_device", "variant": "residual_current_device"})  # fmt: skip


def _papers(finding: Finding, wiring: Wiring) -> Proposal:
    """The seller shows every proof that the card names."""
    shown = tuple(str(finding.facts["expected"]).split("; "))
    setup = replaced_at(wiring.setup, "/inverter/certificates", shown)
    return Proposal(
        code="ask_seller", who="seller", rewired=replace(wiring, setup=setup), facts={"variant": finding.code}
    )


def _wired_otherwise(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """Parallel instead of series; panels moved to inputs that are free."""
    used = {array.input for array in wiring.setup.arrays}
    free = [n for n in range(1, len(wiring.setup.inverter.inputs) + 1) if n not in used]
    for at, array in enumerate(wiring.setup.arrays):
        if array.input != finding.input:
            continue
        if array.count > 1 and array.joined == "series" and finding.code in ("cold_voltage", "system_voltage"):
            yield Proposal(code="parallel_not_series", pointer=f"/arrays/{at}/joined", new_value="parallel")
        if array.count > 1 and len(free) >= array.count - 1:
            targets = tuple(free[: array.count - 1])
            yield Proposal(
                code="one_panel_per_input", new_value=1, rewired=with_panels_moved(wiring, at, targets),
                facts={"array": array.name, "to_inputs": ", ".join(map(str, targets))},
                patch=tuple(_spread(wiring, at, targets)),
            )  # fmt: skip
        shared = sum(other.input == array.input for other in wiring.setup.arrays) > 1
        if shared and array.count == 1 and free:
            yield Proposal(
                code="one_panel_per_input", pointer=f"/arrays/{at}/input", new_value=free[0],
                facts={"array": array.name, "to_inputs": str(free[0])},
            )  # fmt: skip


def _spread(wiring: Wiring, at: int, targets: tuple[int, ...]) -> Iterator[Operation]:
    """One panel stays where it is, the others become arrays of their own on other inputs.

    A panel alone is joined to nothing: said to be in series, it would be read as in one string with another array. A
    mismatch that was taken for panels joined with others goes: one alone cannot differ from itself.
    """
    joined, arrays = wiring.setup.arrays[at].joined, len(wiring.setup.arrays)
    yield Operation(op="add", path=f"/arrays/{at}/count", value=1)
    if joined != "one_string":
        yield Operation(op="add", path=f"/arrays/{at}/joined", value="parallel")
        if wiring.assumptions.assumed(f"/arrays/{at}/mismatch_share"):
            yield Operation(op="add", path=f"/arrays/{at}/mismatch_share", value=0.0)
    for new, number in enumerate(targets, arrays):
        yield Operation(op="copy", source=f"/arrays/{at}", path="/arrays/-")
        if joined == "one_string":
            yield Operation(op="add", path=f"/arrays/{new}/joined", value="parallel")
        yield Operation(op="add", path=f"/arrays/{new}/input", value=number)


def _higher_limit(name: str, unit: str, step: float) -> Callable[[Finding, Wiring], Iterator[Proposal]]:
    """Other wiring first, then an inverter whose rating is high enough, rounded up to ``step``."""

    def propose(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
        yield from _wired_otherwise(finding, wiring)
        if finding.measured is not None and finding.input is not None and finding.verdict == Verdict.DOES_NOT_FIT:
            yield Proposal(
                code="other_inverter", pointer=f"/inverter/inputs/{finding.input - 1}/{name}",
                new_value=step * ceil(finding.measured / step), unit=unit, facts={"rating": name, "variant": name},
            )  # fmt: skip

    return propose


def _short_circuit(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    by_label = finding.facts["variant"] == "label"
    name = "max_panel_short_circuit_current_a" if by_label else "max_short_circuit_current_a"
    yield from _higher_limit(name, "A", 1.0)(finding, wiring)


def _reverse(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """String fuses, where a size lies between 1.5 x Isc and the panel's rating; else fewer strings."""
    isc, limit = finding.facts["label_current_a"], finding.limit
    if isinstance(isc, float | int) and limit is not None:
        fitting = [size for size in STRING_FUSES_A if FUSE_OVER_ISC * isc <= size <= limit]
        if fitting:
            yield Proposal(code="string_fuses", new_value=fitting[0], unit="A", who="electrician",
                           promised=Verdict.FITS, facts={"strings": finding.facts["strings"]})  # fmt: skip
    yield from _wired_otherwise(finding, wiring)


def _cable(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """A smaller breaker of the standard series, a circuit of its own, or a lower limit."""
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
    yield from _cable_turned_down(finding, wiring, circuit, US_CONTINUOUS if us else 1.0)


def _cable_turned_down(finding: Finding, wiring: Wiring, circuit: SocketCircuit, factor: float) -> Iterator[Proposal]:
    """A lower limit beside the breaker; on a circuit of its own up to all that the cable carries."""
    if finding.limit is None:
        return
    setup = wiring.setup
    others_w = (fed_in_current_a(setup, circuit) * circuit.voltage_v) - _output_w(setup)
    carries_a = float(finding.facts["least_limit_a"] or finding.limit)
    alone_w = carries_a / factor * circuit.voltage_v - others_w
    if circuit.dedicated is True:
        yield from _turned_down(setup, alone_w)
        return
    if circuit.breaker_a is not None:
        yield from _turned_down(setup, alone_w - circuit.breaker_a / factor * circuit.voltage_v)
    for lower in _turned_down(setup, alone_w):
        apart = replaced_at(setup, "/socket_circuit/dedicated", True)
        kept = {p: a for p, a in wiring.assumptions.by_pointer.items() if p not in OWN_AND_LOWER}
        changed = replace(
            wiring, setup=replaced_at(apart, str(lower.pointer), lower.new_value), assumptions=Assumptions(kept)
        )
        both = zip(OWN_AND_LOWER, (True, lower.new_value), strict=True)
        yield Proposal(code="own_circuit_and_lower_limit", new_value=lower.new_value, unit="W", who="electrician",
                       rewired=changed, patch=tuple(Operation(op="add", path=p, value=v) for p, v in both))  # fmt: skip


def _lead(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
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


def _local_cap(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    if finding.limit is not None:
        others_w = finding.facts["other_sets_w"]
        room_w = finding.limit - float(others_w if isinstance(others_w, float | int) else 0)
        yield from _turned_down(wiring.setup, room_w if finding.facts["inclusive"] else room_w - 1e-6)


def _panel_cap(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """Another plug, whose figure may be higher; then weaker panels, or fewer of them."""
    yield from _plug(finding, wiring)
    if finding.limit is None or finding.verdict != Verdict.DOES_NOT_FIT:
        return
    others_w = finding.facts["other_sets_w"]
    room_w = finding.limit - float(others_w or 0) - (0.0 if finding.facts["inclusive"] else 1e-6)
    setup = wiring.setup
    panels = sum(array.count for array in setup.arrays)
    each_w = PANEL_STEP_W * floor(room_w / panels / PANEL_STEP_W)
    if panels * each_w >= LEAST_KEPT_SHARE * sum(a.count * a.panel.rated_power_w for a in setup.arrays):
        weaker = tuple(
            replace(a, panel=replace(a.panel, rated_power_w=min(each_w, a.panel.rated_power_w))) for a in setup.arrays
        )
        yield Proposal(code="weaker_panels", new_value=each_w, unit="W",
                       rewired=replace(wiring, setup=replace(setup, arrays=weaker)))  # fmt: skip
    kept = _kept_within(setup, room_w)
    left = sum(array.count for array in kept)
    if LEAST_KEPT_SHARE * panels <= left < panels:
        yield _fewer(wiring, kept, left, panels)


def _kept_within(setup: Setup, room_w: float) -> tuple[Array, ...]:
    """As many panels as stay within so many watts, taken off the last array first."""
    arrays = list(setup.arrays)
    while arrays and sum(a.count * a.panel.rated_power_w for a in arrays) > room_w:
        last = arrays.pop()
        if last.count > 1:
            arrays.append(replace(last, count=last.count - 1))
    return tuple(arrays)


def _fewer(wiring: Wiring, kept: tuple[Array, ...], left: int, panels: int) -> Proposal:
    """A pointer to the one count that changes; operations where whole arrays go."""
    arrays = wiring.setup.arrays
    if len(kept) == len(arrays):
        return Proposal(code="fewer_panels", pointer=f"/arrays/{len(kept) - 1}/count", new_value=kept[-1].count,
                        facts={"left": left, "panels": panels})  # fmt: skip
    gone = range(len(arrays) - 1, len(kept) - 1, -1)
    patch = (
        *(Operation(op="remove", path=f"/arrays/{at}") for at in gone),
        Operation(op="add", path=f"/arrays/{len(kept) - 1}/count", value=kept[-1].count),
    )
    return Proposal(code="fewer_panels", new_value=left, facts={"left": left, "panels": panels}, patch=patch,
                    rewired=replace(wiring, setup=replace(wiring.setup, arrays=kept)))  # fmt: skip


def _connectors(finding: Finding, _wiring: Wiring) -> Iterator[Proposal]:
    yield Proposal(code="matched_connectors", pointer=finding.about, new_value="locking_4mm", who="electrician")


def _device(finding: Finding, _wiring: Wiring) -> Iterator[Proposal]:
    if finding.verdict == Verdict.DOES_NOT_FIT:
        yield Proposal(code="other_residual_current_device", pointer=finding.about, new_value="type_a",
                       who="electrician")  # fmt: skip


def _plug(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """The special connector, or an electrician's fixed connection.

    Without a described circuit no field holds them: of the plug's own refusal those are told that the card admits,
    and each card that refuses a household plug admits a fixed connection.
    """
    circuit = wiring.setup.socket_circuit
    refused = finding.code == "plug" and finding.verdict == Verdict.DOES_NOT_FIT
    for plug, code in (("special_connector", "special_connector"), ("fixed", "fixed_connection")):
        if circuit is not None:
            yield Proposal(code=code, pointer="/socket_circuit/plug", new_value=plug, who="electrician")
        elif refused and plug in ("fixed", finding.facts["published_plug"]):
            yield Proposal(code=code, who="electrician", promised=Verdict.FITS)


def _meter(_finding: Finding, _wiring: Wiring) -> Iterator[Proposal]:
    yield Proposal(code="export_limiter", pointer="/inverter/export_limit_w", new_value=0.0, unit="W")


def _turned_down(setup: Setup, most_w: float) -> Iterator[Proposal]:
    """The highest setting of the inverter, in steps of 10 W, that stays within so many watts."""
    watts = LIMIT_STEP_W * floor(most_w / LIMIT_STEP_W + 1e-9)
    if LEAST_LIMIT_W <= watts < _output_w(setup):
        yield Proposal(code="lower_set_limit", pointer="/inverter/set_limit_w", new_value=watts, unit="W")


def _output_w(setup: Setup) -> float:
    return min(setup.inverter.set_limit_w, setup.inverter.ac_power_w)


_BY_CODE: Mapping[str, Callable[[Finding, Wiring], Iterator[Proposal]]] = MappingProxyType(
    {
        "cold_voltage": _higher_limit("max_input_voltage_v", "V", 5.0),
        "system_voltage": _wired_otherwise,
        "operating_current": _wired_otherwise,
        "short_circuit_current": _short_circuit,
        "reverse_current": _reverse,
        "panel_power": _higher_limit("max_panel_power_w", "W", 50.0),
        "unlike_panels": _wired_otherwise,
        "connectors": _connectors,
        "circuit_cable": _cable,
        "lead_voltage_rise": _lead,
        "residual_current": _device,
        "local_cap": _local_cap,
        "panel_cap": _panel_cap,
        "plug": _plug,
        "meter": _meter,
    }
)
