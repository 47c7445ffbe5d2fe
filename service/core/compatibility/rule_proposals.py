"""What might bring a set within what was published: a setting, another plug, fewer watts, another meter?"""

from collections.abc import Iterator
from dataclasses import replace
from math import floor

from service.core.compatibility.proposal import LEAST_LIMIT_W, LIMIT_STEP_W, Proposal, output_w, turned_down
from service.core.compatibility.wiring import Wiring
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Array, Setup, SocketCircuit
from service.core.model.finding import Finding, Verdict
from service.core.model.patch import Operation, patched

PANEL_STEP_W = 5.0  # labels go in steps of 5 W
LEAST_KEPT_SHARE = 0.5  # a set that loses more than half of its panels' power is another set, and no remedy of this one
ANOTHER_SET = "another_set"


def local_cap(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """A lower limit; where the other sets leave no room for that, some of them out of use, and a limit beside it."""
    if finding.limit is None:
        return
    most_w = finding.limit - (0.0 if finding.facts["inclusive"] else 1e-6)
    yield from turned_down(wiring.setup, most_w - float(finding.facts["other_sets_w"] or 0))
    yield from plug(finding, wiring)
    yield from _without_others(finding, wiring)
    lower_w = LIMIT_STEP_W * floor(min(most_w, output_w(wiring.setup)) / LIMIT_STEP_W + 1e-9)
    if lower_w >= LEAST_LIMIT_W:
        yield from _without_others(finding, wiring, lower_w)


def _without_others(finding: Finding, wiring: Wiring, lower_w: float | None = None) -> Iterator[Proposal]:
    """The last of the other sets out of use, then the last two, and so on; and this one turned down, where wished.

    From the end of the list, so that no place in it comes to mean another set.
    """
    circuit = wiring.setup.socket_circuit
    if finding.verdict != Verdict.DOES_NOT_FIT or circuit is None:
        return
    sets = circuit.other_sets
    way: tuple[Operation, ...] = ()
    for at in range(len(sets) - 1, -1, -1):
        way = (*way, Operation(op="remove", path=f"/socket_circuit/other_sets/{at}"))
        whole = way
        if lower_w is not None:
            whole = (*way, Operation(op="add", path="/inverter/set_limit_w", value=lower_w))
        yield Proposal(
            code="other_sets_out" if lower_w is None else "other_sets_out_and_lower_limit", new_value=lower_w,
            unit="" if lower_w is None else "W", patch=whole, last_resort=True,
            rewired=replace(wiring, setup=patched(wiring.setup, whole)),
            facts={"out": len(sets) - at, "out_w": sum(other.ac_power_w for other in sets[at:])},
        )  # fmt: skip


def panel_cap(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """Another plug, whose figure may be higher; then weaker panels, or fewer of them."""
    yield from plug(finding, wiring)
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
    yield from _without_others(finding, wiring)
    yield from _another_set(finding, wiring)


def _another_set(finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """What would stay within the cap, where it is so little that it is another set: a plan to be made anew."""
    setup, circuit = wiring.setup, wiring.setup.socket_circuit
    most_w = float(finding.limit or 0) - (0.0 if finding.facts["inclusive"] else 1e-6)
    alone = setup if circuit is None else replace(setup, socket_circuit=replace(circuit, other_sets=()))
    for start, room_w in ((setup, most_w - float(finding.facts["other_sets_w"] or 0)), (alone, most_w)):
        kept = _kept_within(start, room_w)
        if not kept:
            continue
        out = 0 if circuit is None or start is setup else len(circuit.other_sets)
        gone = tuple(Operation(op="remove", path=f"/socket_circuit/other_sets/{at}") for at in range(out - 1, -1, -1))
        left, panels = (sum(array.count for array in arrays) for arrays in (kept, setup.arrays))
        fewer = _fewer(replace(wiring, setup=start), kept, left, panels)
        count = Operation(op="add", path=f"/arrays/{len(kept) - 1}/count", value=kept[-1].count)
        way = (*gone, *(fewer.patch or (count,)))
        yield Proposal(
            code=ANOTHER_SET, new_value=left, patch=way, last_resort=True,
            rewired=replace(wiring, setup=replace(start, arrays=kept)),
            facts={"left": left, "panels": panels, "out": out, "variant": "alone" if out else ""},
        )  # fmt: skip


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


def plug(_finding: Finding, wiring: Wiring) -> Iterator[Proposal]:
    """The special connector, or an electrician's fixed connection; where it is one of these already, the other.

    Where no circuit was described the rule is asked again of one of which nothing but the plug is known; no single
    field of the request holds that.
    """
    circuit = wiring.setup.socket_circuit
    for plug, code in (("special_connector", "special_connector"), ("fixed", "fixed_connection")):
        if circuit is not None:
            yield Proposal(code=code, pointer="/socket_circuit/plug", new_value=plug, who="electrician")
        else:
            setup = replace(wiring.setup, socket_circuit=replace(_NOTHING_KNOWN, plug=plug))
            assumptions = Assumptions.of([*wiring.assumptions.by_pointer.values(), _OTHER_SETS_UNTOLD])
            yield Proposal(code=code, who="electrician", rewired=replace(wiring, setup=setup, assumptions=assumptions))


# For the rules, which ask of a circuit for nothing but its plug and the other sets on it.
_NOTHING_KNOWN = SocketCircuit(
    plug="not_known", breaker_a=None, voltage_v=230.0, cable_mm2=None, laying=None, ambient_c=30.0, dedicated=None,
    residual_current_device="not_known", lead_length_m=0.0, lead_mm2=1.5, feeder_length_m=0.0, indoors=None,
    lead_route=None, other_sets=(),
)  # fmt: skip
_OTHER_SETS_UNTOLD = Assumption(pointer="/socket_circuit/other_sets", value=None, code="not_said", source="")


def meter(_finding: Finding, _wiring: Wiring) -> Iterator[Proposal]:
    """Nothing sent out, which is the buyer's own to do; or a meter that counts both ways, which is the operator's."""
    yield Proposal(code="export_limiter", pointer="/inverter/export_limit_w", new_value=0.0, unit="W")
    yield Proposal(code="other_meter", pointer="/meter/counts", new_value="two_way", who="operator")
