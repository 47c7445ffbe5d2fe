"""Does it all fit together? Every question of every side, worst first, with what would mend each."""

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType
from typing import Any

from service.core.compatibility.circuit import BLINDED_BY_SMOOTH, socket_side
from service.core.compatibility.pairing import makes_told
from service.core.compatibility.panel_side import panel_side
from service.core.compatibility.remedies import with_remedies
from service.core.compatibility.wiring import Curves, Wiring
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import WORST_FIRST, Finding, Part, Remedy, Verdict, worst
from service.core.rules import RuleCard, in_force, rule_findings

PARTS = (Part.PANEL_SIDE, Part.SOCKET_SIDE, Part.LOCAL_RULE)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Compatibility:
    """What was looked at, how it turned out, and what nobody described.

    ``by_part`` has only the parts of which something was looked at. ``not_looked_at``: RFC 6901 pointers to what the
    request does not describe; it never enters the verdict.
    """

    verdict: Verdict
    by_part: Mapping[Part, Verdict]
    findings: tuple[Finding, ...]
    not_looked_at: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A set that was checked, and what was found; remedies as they were found, not priced."""

    setup: Setup
    assumptions: Assumptions
    found: Compatibility

    def panel_side_of(self, setup: Setup, assumptions: Assumptions) -> tuple[Finding, ...] | None:
        """What a set like this one is told of its panel side; None where the two differ in what that hangs on."""
        if _of_panels(setup, assumptions) != _of_panels(self.setup, self.assumptions):
            return None
        return tuple(finding for finding in self.found.findings if finding.part == Part.PANEL_SIDE)


def _of_panels(setup: Setup, assumptions: Assumptions) -> tuple[Any, ...]:
    """All that the panel side hangs on beside the year's cells, which hang on arrays and site."""
    inverter = replace(setup.inverter, set_limit_w=0.0)
    sides = ("/arrays", "/inverter", "/site")
    told = {pointer: one for pointer, one in assumptions.by_pointer.items() if pointer.startswith(sides)}
    told.pop("/inverter/set_limit_w", None)
    return setup.arrays, inverter, setup.site, told


def check_key(
    setup: Setup,
    assumptions: Assumptions,
    hottest_cell_c: tuple[float, ...],
    card: RuleCard,
    as_of: date,
    cool_cell_c: tuple[float, ...] = (),
) -> Hashable:
    """All that ``check`` hangs on, by its arguments: questions of one key are told the same, whatever the home uses."""
    return (
        (setup.site, setup.arrays, setup.inverter, setup.socket_circuit, setup.meter),
        assumptions.within("/site", "/arrays", "/inverter", "/socket_circuit", "/meter"),
        (hottest_cell_c, cool_cell_c),
        card,
        as_of,
    )


def check(  # noqa: PLR0913  the set, its year and its rule, and what is known of them already
    setup: Setup,
    assumptions: Assumptions,
    hottest_cell_c: tuple[float, ...],
    card: RuleCard,
    as_of: date,
    curves: Curves | None = None,
    cool_cell_c: tuple[float, ...] = (),
    *,
    mending: bool = True,
    like: Checked | None = None,
) -> Compatibility:
    """Do these panels suit this inverter, this socket and circuit, and what was published for the place?

    Args:
        setup: the complete request.
        assumptions: what of it was assumed, with ranges: an assumed rating never makes a ``fits``.
        hottest_cell_c: hottest cell of each array in C, in the order of ``setup.arrays``.
        card: the rule card that speaks for the place on that day.
        as_of: the day of the question.
        curves: what is known of panels' curves already, from the check of a set like this one; it is added to.
        cool_cell_c: how cool each array's cells are in light, in C; empty: as the label's volts are measured.
        like: a set at the same place that was checked with remedies; what has to be the same is not asked again.
        mending: are remedies looked for? Without them the verdicts are the same and cost a part.

    Raises:
        ContradictionError: an array stands on an input that the inverter does not have.
    """
    wiring = Wiring(setup, assumptions, hottest_cell_c, Curves() if curves is None else curves, cool_cell_c=cool_cell_c)

    def local_rule(changed: Wiring) -> tuple[Finding, ...]:
        return rule_findings(changed.setup, changed.assumptions, card, as_of)

    asks = {
        Part.PANEL_SIDE: panel_side,
        Part.SOCKET_SIDE: lambda changed: socket_side(changed.setup, changed.assumptions),
        Part.LOCAL_RULE: local_rule,
    }
    found: list[Finding] = []
    known = None if like is None or not mending else like.panel_side_of(setup, assumptions)
    for part in PARTS:
        if part == Part.PANEL_SIDE and known is not None:
            found += known
            continue
        before = asks[part](wiring)
        if not mending:
            found += before
            continue
        mended = [with_remedies(finding, wiring, before, asks[part]) for finding in before]
        found += [_with_operator(f, card, as_of, setup) for f in mended] if part == Part.LOCAL_RULE else mended
    if setup.socket_circuit is not None and setup.socket_circuit.plug != "fixed":
        found = _with_both_sides(found, card)
    by_part = _by_part(found)
    return Compatibility(
        verdict=worst(by_part.values()), by_part=MappingProxyType(by_part),
        findings=tuple(sorted(found, key=lambda f: WORST_FIRST.index(f.verdict))),
        not_looked_at=_not_looked_at(setup, assumptions),
    )  # fmt: skip


def beside_panels(setup: Setup, assumptions: Assumptions, card: RuleCard, as_of: date) -> tuple[Finding, ...]:
    """What the socket's side and the rule card find of a set, as ``check`` does, without what would mend it."""
    return (*socket_side(setup, assumptions), *rule_findings(setup, assumptions, card, as_of))


def _by_part(found: list[Finding]) -> dict[Part, Verdict]:
    """The worst of each part of which something was looked at."""
    verdicts = {part: [finding.verdict for finding in found if finding.part == part] for part in PARTS}
    return {part: worst(here) for part, here in verdicts.items() if here}


def _with_operator(finding: Finding, card: RuleCard, as_of: date, setup: Setup) -> Finding:
    """An open rule finding with the question for the grid operator.

    The verdict then is that of a card in force that admits a household plug and names no lower cap; where what was
    published, in force or not, refuses the set, a refusal is what is to be expected.
    """
    refused = finding.verdict == Verdict.DOES_NOT_FIT and finding.code != "meter"
    if finding.verdict == Verdict.FITS or refused or finding.code == "certificate":
        return finding
    confirmed = replace(
        card, status="in_force", valid_from=None, valid_to=None, plug="household_with_conditions", ac_tiers=(),
        ac_cap_w=card.ac_cap_w or finding.measured or setup.inverter.ac_power_w, ac_cap_inclusive=True,
        notify=replace(card.notify, needed="yes"), reversing_meter="tolerated",
        ac_cap_scope=None if card.ac_cap_scope == "building" else card.ac_cap_scope,
    )  # fmt: skip
    then = [f for f in rule_findings(setup, Assumptions({}), confirmed, as_of) if f.code == finding.code]
    verdict = then[0].verdict if then and finding.likely != Verdict.DOES_NOT_FIT else finding.likely
    ask = Remedy(
        code="ask_operator", pointer=None, new_value=None, unit="", who="operator", verdict_then=verdict,
        facts=MappingProxyType({"variant": finding.code, "area": card.id, "in_force": in_force(card, as_of)}),
    )  # fmt: skip
    return replace(finding, remedies=(*finding.remedies, ask))


def _with_both_sides(found: list[Finding], card: RuleCard) -> list[Finding]:
    """Where a published rule admits the set by plug and the cable rule refuses it, both findings show both sides.

    A card that admits the plug and leaves the watts open admits it still; one that refuses its watts does not.
    """
    refused = [f for f in found if _refused_as_shared(f)]
    admitted = any(f.code == "plug" and f.verdict == Verdict.FITS for f in found)
    over = any(f.code in ("local_cap", "panel_cap") and f.verdict == Verdict.DOES_NOT_FIT for f in found)
    if over or not admitted or not refused:
        return found
    both: dict[str, str | float | int | bool | None] = {
        "admitted_by": f"rule card {card.id}",
        "admitted_on": card.published_on or "undated",
    }
    return [
        replace(f, facts=MappingProxyType({**f.facts, **both, "variant": _admitted_elsewhere(f)}))
        if f in refused
        else replace(f, facts=MappingProxyType({**f.facts, "refused_by": refused[0].source}))
        if f.code == "plug"
        else f
        for f in found
    ]


def _admitted_elsewhere(finding: Finding) -> str:
    return "neutral_admitted_elsewhere" if finding.facts["variant"] == "shared_neutral" else "admitted_elsewhere"


def _refused_as_shared(finding: Finding) -> bool:
    """Does the cable rule refuse a circuit that is shared with others?"""
    refused = finding.code == "circuit_cable" and finding.verdict == Verdict.DOES_NOT_FIT
    return refused and str(finding.facts["variant"]).startswith("shared")


def _not_looked_at(setup: Setup, assumptions: Assumptions) -> tuple[str, ...]:
    """Pointers to what nobody described: circuit, connectors (kind or make), certificates, meter, lead."""
    pointers = [
        f"/arrays/{at}/panel/connector"
        for at, array in enumerate(setup.arrays)
        if array.panel.connector == "not_known"
        or assumptions.assumed(f"/arrays/{at}/panel/connector")
        or (array.panel.connector == "locking_4mm" and not makes_told(setup, at))
    ]
    if all(one.max_panel_power_w is None for one in setup.inverter.inputs):
        pointers.append("/inverter/inputs/0/max_panel_power_w")
    if not setup.inverter.certificates:
        pointers.append("/inverter/certificates")
    if setup.meter.counts == "not_known" or assumptions.assumed("/meter/counts"):
        pointers.append("/meter/counts")
    if setup.socket_circuit is None:
        pointers.append("/socket_circuit")
    else:
        pointers += [
            pointer
            for pointer in ("/socket_circuit/lead_length_m", "/socket_circuit/lead_mm2")
            if assumptions.assumed(pointer)
        ]
        if setup.socket_circuit.dedicated and setup.socket_circuit.shared_neutral is None:
            pointers.append("/socket_circuit/shared_neutral")
        by_maker = setup.inverter.asks_residual_current_device
        if setup.socket_circuit.residual_current_device in BLINDED_BY_SMOOTH and by_maker is None:
            pointers.append("/inverter/asks_residual_current_device")
        if setup.inverter.grid_voltage_v is None:
            pointers.append("/inverter/grid_voltage_v")
    return tuple(pointers)
