"""What might mend a finding? Changes worth trying, each of them still to be asked again before it is told."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from math import ceil
from types import MappingProxyType

from service.core.compatibility.cold import COLDEST
from service.core.compatibility.proposal import Proposal
from service.core.compatibility.rule_proposals import local_cap, meter, panel_cap, plug
from service.core.compatibility.socket_proposals import cable, device, lead, other_voltage
from service.core.compatibility.wiring import Wiring, with_panels_moved
from service.core.model.assumption import Assumptions
from service.core.model.bounds import BOUNDS
from service.core.model.finding import Finding, Verdict
from service.core.model.patch import Operation, patched
from service.core.model.pointer import replaced_at, value_at

STRING_FUSES_A = (10.0, 12.0, 15.0, 16.0, 20.0, 25.0, 30.0, 32.0)  # IEC 60269-6
# What of an input is derived from its greatest voltage where nobody said it.
_OF_THE_WINDOW = ("tracking_max_v", "tracking_min_v", "start_voltage_v")
SYSTEM_VOLTAGE_STEP_V = 50.0


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
        if pointer == COLDEST:
            yield Proposal(code="tell_coldest_air", promised=finding.likely, facts={"rating_pointer": COLDEST})
            continue
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


def _unlike(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """Inputs of their own; else strings that are all like the shortest one on the input."""
    yield from _wired_otherwise(finding, wiring)
    strings = [s for s in wiring.strings() if s.array.input == finding.input and s.array.joined != "one_string"]
    if finding.verdict != Verdict.DOES_NOT_FIT or len(strings) < 2:
        return
    model = min(strings, key=lambda s: s.in_series)
    others = [s for s in strings if s is not model]
    way: list[Operation] = []
    for other in others:
        way.append(Operation(op="copy", source=f"{model.pointer}/panel", path=f"{other.pointer}/panel"))
        if other.in_series != model.in_series:
            way += [
                Operation(op="add", path=f"{other.pointer}/count", value=model.in_series),
                Operation(
                    op="add", path=f"{other.pointer}/joined", value="series" if model.in_series > 1 else "parallel"
                ),
            ]
    patch = tuple(way)
    replaced = {f"{other.pointer}/panel/" for other in others}
    by_pointer = wiring.assumptions.by_pointer
    kept = [one for pointer, one in by_pointer.items() if not any(pointer.startswith(gone) for gone in replaced)]
    copied = [
        replace(one, pointer=pointer.replace(f"{model.pointer}/panel/", prefix, 1))
        for prefix in sorted(replaced)
        for pointer, one in by_pointer.items()
        if pointer.startswith(f"{model.pointer}/panel/")
    ]
    setup = patched(wiring.setup, patch)
    yield Proposal(
        code="like_panels", patch=patch, last_resort=True,
        facts={
            "array": model.array.name, "in_series": model.in_series, "panels": sum(a.count for a in setup.arrays),
            "variant": "fewer" if any(o.in_series != model.in_series for o in others) else "",
        },
        rewired=replace(wiring, setup=setup, assumptions=Assumptions.of([*kept, *copied])),
    )  # fmt: skip


def _spread(wiring: Wiring, at: int, targets: tuple[int, ...]) -> Iterator[Operation]:
    """One panel stays where it is, the others become arrays of their own on other inputs.

    A panel alone is joined to nothing: said to be in series, it would be read as in one string with another array. A
    mismatch that was taken for panels that share an input goes: on an input of its own none binds another.
    """
    joined, arrays = wiring.setup.arrays[at].joined, len(wiring.setup.arrays)
    assumed = wiring.assumptions.assumed(f"/arrays/{at}/mismatch_share")
    shared = sum(other.input == wiring.setup.arrays[at].input for other in wiring.setup.arrays) > 1
    yield Operation(op="add", path=f"/arrays/{at}/count", value=1)
    if joined != "one_string":
        yield Operation(op="add", path=f"/arrays/{at}/joined", value="parallel")
        if assumed and not shared:
            yield Operation(op="add", path=f"/arrays/{at}/mismatch_share", value=0.0)
    for new, number in enumerate(targets, arrays):
        yield Operation(op="copy", source=f"/arrays/{at}", path="/arrays/-")
        if joined == "one_string":
            yield Operation(op="add", path=f"/arrays/{new}/joined", value="parallel")
        if assumed and shared:
            yield Operation(op="add", path=f"/arrays/{new}/mismatch_share", value=0.0)
        yield Operation(op="add", path=f"/arrays/{new}/input", value=number)


def _higher_limit(name: str, unit: str, step: float) -> Callable[[Finding, Wiring], Iterator[Proposal]]:
    """Other wiring first, then an inverter whose rating is high enough, rounded up to ``step``."""

    def propose(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
        yield from _wired_otherwise(finding, wiring)
        by_estimate = finding.facts.get("missing_pointers") == COLDEST
        refused = finding.verdict == Verdict.DOES_NOT_FIT or by_estimate
        if finding.measured is not None and finding.input is not None and refused:
            needed = step * ceil(_at_worst(finding) / step)
            if needed <= BOUNDS[name].high:  # no input of any inverter bears more
                yield _other_inverter(wiring, finding.input - 1, name, needed, unit)

    return propose


def _at_worst(finding: Finding) -> float:
    """The figure with what nobody told at its worst, an estimated cold among it: that is what a rating has to reach.

    A label's current is compared as it is printed: the worst, with sun above full sun, is of the other meaning.
    """
    names = () if finding.facts.get("variant") == "label" else ("worst_v", "worst_a")
    told = [finding.measured, *(finding.facts.get(name) for name in names)]
    return max(float(figure) for figure in told if isinstance(figure, float | int))


def _other_inverter(wiring: Wiring, at: int, name: str, needed: float, unit: str) -> Proposal:
    """One whose rating is high enough, and whose window is this one's: what was assumed of that is said with it."""
    where, facts = f"/inverter/inputs/{at}", {"rating": name, "variant": name}
    assumed = [f"{where}/{other}" for other in _OF_THE_WINDOW if wiring.assumptions.assumed(f"{where}/{other}")]
    if name != "max_input_voltage_v" or not assumed:
        return Proposal(code="other_inverter", pointer=f"{where}/{name}", new_value=needed, unit=unit, facts=facts)
    patch = (
        Operation(op="add", path=f"{where}/{name}", value=needed),
        *(Operation(op="add", path=one, value=value_at(wiring.setup, one)) for one in assumed),
    )
    told = {one.path for one in patch}
    left = {p: a for p, a in wiring.assumptions.by_pointer.items() if p not in told}
    rewired = replace(wiring, setup=patched(wiring.setup, patch), assumptions=Assumptions(left))
    return Proposal(code="other_inverter", new_value=needed, unit=unit, facts=facts, patch=patch, rewired=rewired)


def _short_circuit(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    by_label = finding.facts["variant"] == "label"
    name = "max_panel_short_circuit_current_a" if by_label else "max_short_circuit_current_a"
    yield from _higher_limit(name, "A", 1.0)(finding, wiring)
    yield from _fewer_in_parallel(finding, wiring)
    if finding.verdict == Verdict.DOES_NOT_FIT and finding.input is not None:
        yield _both_ratings(finding, wiring, f"/inverter/inputs/{finding.input - 1}")


def _both_ratings(finding: Finding, wiring: Wiring, where: str) -> Proposal:
    """An inverter that stands these panels by either meaning of its short-circuit figure."""
    design, label = (ceil(float(finding.facts[name] or 0)) for name in ("worst_a", "label_current_a"))
    way = (
        Operation(op="add", path=f"{where}/max_short_circuit_current_a", value=float(design)),
        Operation(op="add", path=f"{where}/max_panel_short_circuit_current_a", value=float(label)),
    )
    told = {one.path for one in way}
    left = {p: a for p, a in wiring.assumptions.by_pointer.items() if p not in told}
    rewired = replace(wiring, setup=patched(wiring.setup, way), assumptions=Assumptions(left))
    return Proposal(
        code="other_inverter", new_value=float(design), unit="A", patch=way, rewired=rewired, last_resort=True,
        facts={"rating": "max_short_circuit_current_a", "variant": "max_short_circuit_current_a"},
    )  # fmt: skip


def _fewer_in_parallel(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """One panel less in parallel on this input, then two, and so on: where an input refuses by both of its limits."""
    arrays = wiring.setup.arrays
    panels = sum(array.count for array in arrays)
    for at, array in enumerate(arrays):
        if array.input == finding.input and array.joined == "parallel" and finding.verdict == Verdict.DOES_NOT_FIT:
            for left in range(array.count - 1, 0, -1):
                yield Proposal(code="fewer_panels", pointer=f"/arrays/{at}/count", new_value=left, last_resort=True,
                               facts={"left": panels - array.count + left, "panels": panels})  # fmt: skip


def _system_voltage(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """Other wiring, else panels that are insulated for more: the next step of 50 V that bears the string."""
    yield from _wired_otherwise(finding, wiring)
    if finding.measured is not None and finding.verdict == Verdict.DOES_NOT_FIT:
        at = finding.about.split("/")[2]
        yield Proposal(
            code="other_panels", pointer=f"/arrays/{at}/panel/max_system_voltage_v", unit="V", last_resort=True,
            new_value=SYSTEM_VOLTAGE_STEP_V * ceil(_at_worst(finding) / SYSTEM_VOLTAGE_STEP_V),
        )  # fmt: skip


def _reverse(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """A string fuse, where a size lies between what sun alone may open and the panel's rating; else fewer strings."""
    least, limit = finding.facts["least_fuse_a"], finding.limit
    if isinstance(least, float | int) and limit is not None:
        array = "/".join(finding.about.split("/")[:3])
        told = {"strings": finding.facts["strings"], "array": finding.facts["array"]}
        for size in [size for size in STRING_FUSES_A if least <= size <= limit][:1]:
            yield Proposal(
                code="string_fuses", pointer=f"{array}/string_fuse_a", new_value=size, unit="A", who="electrician",
                facts=told,
            )  # fmt: skip
    yield from _wired_otherwise(finding, wiring)
    yield from _fewer_strings(finding, wiring)


def _fewer_strings(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """Two strings an input at most: one alone cannot push more than the other one's own current back."""
    arrays = wiring.setup.arrays
    here = [at for at, array in enumerate(arrays) if array.input == finding.input]
    rows = [at for at in here if arrays[at].joined == "parallel" and arrays[at].count > 1]
    each = 2 if len(here) == 1 else 1
    if rows and len(here) <= 2:
        way = tuple(Operation(op="add", path=f"/arrays/{at}/count", value=each) for at in rows)
        panels = sum(array.count for array in arrays)
        yield Proposal(
            code="fewer_panels", patch=way, rewired=replace(wiring, setup=patched(wiring.setup, way)),
            facts={"left": panels - sum(arrays[at].count - each for at in rows), "panels": panels}, last_resort=True,
        )  # fmt: skip
    yield Proposal(code="ask_electrician", who="electrician", promised=Verdict.NOT_KNOWN, last_resort=True,
                   facts={"variant": "strings"})  # fmt: skip


def _connectors(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """Locking connectors, and of the make that the inverter has where that is named."""
    make = wiring.setup.inverter.connector_make
    array = "/".join(finding.about.split("/")[:3])
    if finding.facts["variant"] == "other_make" and finding.facts["locks"]:
        yield Proposal(code="matched_connectors", pointer=finding.about, new_value=make, who="electrician")
    elif make is None:
        yield Proposal(code="matched_connectors", pointer=finding.about, new_value="locking_4mm", who="electrician")
    else:
        way = (
            Operation(op="add", path=f"{array}/panel/connector", value="locking_4mm"),
            Operation(op="add", path=f"{array}/panel/connector_make", value=make),
        )
        yield Proposal(
            code="matched_connectors", new_value="locking_4mm", who="electrician", patch=way,
            rewired=replace(wiring, setup=patched(wiring.setup, way)),
        )  # fmt: skip


_BY_CODE: Mapping[str, Callable[[Finding, Wiring], Iterator[Proposal]]] = MappingProxyType(
    {
        "cold_voltage": _higher_limit("max_input_voltage_v", "V", 5.0),
        "system_voltage": _system_voltage,
        "operating_current": _wired_otherwise,
        "short_circuit_current": _short_circuit,
        "reverse_current": _reverse,
        "panel_power": _higher_limit("max_panel_power_w", "W", 50.0),
        "unlike_panels": _unlike,
        "connectors": _connectors,
        "circuit_cable": cable,
        "grid_voltage": other_voltage,
        "lead_voltage_rise": lead,
        "residual_current": device,
        "local_cap": local_cap,
        "panel_cap": panel_cap,
        "plug": plug,
        "meter": meter,
    }
)
