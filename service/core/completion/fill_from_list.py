"""What does the public list of panels know of a panel that was described by few facts?

Only what was given counts here, never what completion took for the lack of it. The list tells ranges; where a whole
panel is found by its model code, that is a claim of whoever wrote the code, and is reported as one.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from service.core.completion.node import Guess, Node
from service.core.completion.panel_rules import Known, class_voltage
from service.core.completion.rows import PUBLIC_LIST
from service.core.identity import IMP, ISC, POINTS, VMP, VOC, Candidate, PanelFacts, listed
from service.core.identity.classes import CellClass, PanelFormat, Span
from service.core.model.panel_list import PanelList

CODED, LISTED = "listed_code", "public_list"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How far voltage and current reach over the builds that agree; ``entries`` of the list behind it, 0 for none."""

    voltage: Span
    current: Span | None
    entries: int = 0


def facts_of(node: Node, built: int | None) -> PanelFacts:
    """What was given of a panel; what was not stays None."""
    return PanelFacts(
        rated_power_w=node.get("rated_power_w"),
        open_circuit_voltage_v=node.get(VOC),
        short_circuit_current_a=node.get(ISC),
        max_power_voltage_v=node.get(VMP),
        max_power_current_a=node.get(IMP),
        cells_in_series=node.get("cells_in_series"),
        cell_kind=node.get("cell_kind"),
        length_mm=node.get("length_mm"),
        width_mm=node.get("width_mm"),
        built=built,
        model_code=node.get("model_code"),
    )


def guess_by_code(coded: Candidate | None, name: str) -> Guess | None:
    """A rating of the panel found by its code, with its range."""
    if coded is None:
        return None
    found = coded.ranges[name]
    return Guess(value=round(found.likely, 3), code=CODED, low=round(found.low, 3), high=round(found.high, 3))


def points_by_code(coded: Candidate, facts: PanelFacts, guesses: dict[str, Guess]) -> dict[str, Guess]:
    """The ratings not given, of the panel found by its code; the current closes to the rated power."""
    found = {name: guess for name in guesses if (guess := guess_by_code(coded, name)) is not None}
    voltage = facts.max_power_voltage_v or (found[VMP].value if VMP in found else None)
    if IMP in found and voltage and facts.rated_power_w:
        current = round(facts.rated_power_w / voltage, 3)
        low, high = (min(found[IMP].low or current, current), max(found[IMP].high or current, current))
        found[IMP] = replace(found[IMP], value=current, low=low, high=high)
    return found


def reach(
    facts: PanelFacts,
    known: Known,
    kind: CellClass,
    formats: Sequence[PanelFormat],
    table: PanelList | None,
    by_class: Reach,
) -> Reach:
    """The hull of what the list tells of each older build that agrees, and of what its class tells of each newer one.

    ``by_class`` stands where a rating was given (then the ratios tell more), or where the list knows none of
    the builds.
    """
    if table is None or any(facts.rating(name) is not None for name in POINTS):
        return by_class
    voltages, currents, entries = [], [], 0
    for one in formats:
        build = replace(facts, cells_in_series=one.cells_in_series, model_code=None)
        found = () if one.newer_than_list else listed(build, table)
        if found:
            voltages.append(found[0].ranges[VOC].span)
            currents.append(found[0].ranges[ISC].span)
            entries += found[0].entries
        else:
            cells = one.cells_in_series
            voltages.append(class_voltage(known, Span(cells, cells, cells), kind, (one,)))
            currents.append(Span(0.0, *one.short_circuit_current_a))
    if not entries:
        return by_class
    low, high = min(v.low for v in voltages), max(v.high for v in voltages)
    return Reach(
        voltage=Span(min(max(by_class.voltage.middle, low), high), low, high),
        current=Span(0.0, min(c.low for c in currents), max(c.high for c in currents)),
        entries=entries,
    )


def named_by_list(guesses: dict[str, Guess], found: Reach) -> dict[str, Guess]:
    """Voltage and current say that their range comes from the list, and from how many entries."""
    if not found.entries:
        return guesses
    source = f"{PUBLIC_LIST.split(';', maxsplit=1)[0]}: {found.entries} entries that agree"
    return {
        name: replace(guess, code=LISTED, source=source) if name in {VOC, ISC} else guess
        for name, guess in guesses.items()
    }
