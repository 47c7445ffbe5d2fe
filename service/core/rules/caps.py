"""Does the set stay under what was published for inverter output and for panel power?

A cap of None is "none found": that is ``not_known``, never "no limit". Where the kind of plug decides and nobody
described it, the verdict is ``not_known`` as soon as one kind would be refused. A figure of another set that nobody
gave is no figure: what stays within the cap with a usual one is ``not_known``.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date

from service.core.model.assumption import Assumptions
from service.core.model.facts import OtherSet, Setup
from service.core.model.finding import Fact, Finding, Verdict
from service.core.rules.card import RuleCard
from service.core.rules.choice import card_facts, in_force, rule_finding
from service.core.rules.plugs import CARD_WORDS, PLUG_KINDS, described_plug

NOTHING_ASSUMED = Assumptions({})


@dataclass(frozen=True, slots=True)
class _Step:
    """One published figure, whether it itself is still inside, and its condition."""

    watts: float
    inclusive: bool
    condition: str = ""

    def admits(self, watts: float) -> bool:
        return watts <= self.watts if self.inclusive else watts < self.watts


@dataclass(frozen=True, slots=True)
class _Judged:
    """A verdict, the household plug's own as ``likely``, the step it rests on, and the condition that comes with it."""

    verdict: Verdict
    step: _Step | None
    condition: str = ""
    likely: Verdict = Verdict.NOT_KNOWN


def inverter_output_w(setup: Setup) -> float:
    """What the set can send into the socket: its limit as set, never more than its rating."""
    return min(setup.inverter.set_limit_w, setup.inverter.ac_power_w)


def other_sets_of(setup: Setup, scope: str) -> tuple[OtherSet, ...]:
    """The other sets that count with this one; all behind the meter, or those on its circuit."""
    others = () if setup.socket_circuit is None else setup.socket_circuit.other_sets
    return tuple(other for other in others if other.same_circuit) if scope == "circuit" else others


def local_cap_finding(setup: Setup, card: RuleCard, as_of: date, assumptions: Assumptions = NOTHING_ASSUMED) -> Finding:
    """Is the output of all sets that count together within the published a.c. cap? Panel watts never count here."""
    scope = card.ac_cap_scope or "meter"
    others_w = sum(other.ac_power_w for other in other_sets_of(setup, scope))
    measured = inverter_output_w(setup) + others_w
    judged = _over_plugs(setup, lambda kind: _against(measured, _ac_steps(card, kind)))
    guessed = _guessed(setup, assumptions, scope, "ac_power_w")
    unseen = scope == "building" and _others_untold(setup, assumptions)
    verdict = _closed(judged.verdict, guessed, unseen=unseen) if in_force(card, as_of) else Verdict.NOT_KNOWN
    facts: dict[str, Fact] = card_facts(card, setup.site.rule_area, as_of) | {
        **guessed,
        "unit": card.ac_cap_unit,
        "inclusive": judged.step.inclusive if judged.step else None,
        "scope": scope,
        "scope_read": card.ac_cap_scope is not None,
        "other_sets_w": others_w,
        "rated_ac_power_w": setup.inverter.ac_power_w,
        "turned_down": setup.inverter.set_limit_w < setup.inverter.ac_power_w,
        "condition": judged.condition,
        "advisory_w": card.advisory_cap.w if card.advisory_cap else None,
        "advisory_scope": card.advisory_cap.scope if card.advisory_cap else "",
        "advisory_basis": card.advisory_cap.basis if card.advisory_cap else "",
        "sets_per_meter": card.sets_per_meter,
        "statement": card.statement,
        "variant": _variant(card, as_of, judged)
        or _left_open(guessed, unseen=unseen and judged.verdict == Verdict.FITS),
    }
    limit = judged.step.watts if judged.step else None
    return rule_finding(
        card, "local_cap", (verdict, judged.likely), "/inverter/set_limit_w", facts,
        numbers=(measured, limit, card.ac_cap_unit),
    )  # fmt: skip


def panel_cap_finding(
    setup: Setup, card: RuleCard, as_of: date, assumptions: Assumptions = NOTHING_ASSUMED
) -> Finding | None:
    """Are the panels of all sets behind the meter within the published panel cap? None where no such cap was found."""
    if card.panel_cap_wp is None and not card.panel_cap_by_plug:
        return None
    others_w = sum(other.panel_power_w for other in other_sets_of(setup, "meter"))
    measured = sum(array.count * array.panel.rated_power_w for array in setup.arrays) + others_w
    judged = _over_plugs(setup, lambda kind: _against(measured, _panel_steps(card, kind)))
    guessed = _guessed(setup, assumptions, "meter", "panel_power_w")
    verdict = _closed(judged.verdict, guessed) if in_force(card, as_of) else Verdict.NOT_KNOWN
    facts: dict[str, Fact] = card_facts(card, setup.site.rule_area, as_of) | {
        **guessed,
        "inclusive": judged.step.inclusive if judged.step else None,
        "basis": judged.condition,
        "highest_cap_wp": max((c.max_wp for c in card.panel_cap_by_plug), default=card.panel_cap_wp),
        "other_sets_w": others_w,
        "plug": described_plug(setup) or "household",
        "plug_described": described_plug(setup) is not None,
        "variant": _panel_variant(card, as_of, judged, guessed),
    }
    limit = judged.step.watts if judged.step else None
    return rule_finding(card, "panel_cap", (verdict, judged.likely), "/arrays", facts, numbers=(measured, limit, "W"))


def most_panel_w(setup: Setup, card: RuleCard) -> tuple[float, bool] | None:
    """The most panel watts of a set, less those of other sets, that any published step admits for its plug.

    Of a household plug where nobody described one. With it: is that figure itself still inside? None: none was found.
    """
    steps = _panel_steps(card, described_plug(setup) or "household")
    if not steps:
        return None
    last = max(steps, key=lambda step: (step.watts, step.inclusive))
    return last.watts - sum(other.panel_power_w for other in other_sets_of(setup, "meter")), last.inclusive


def _panel_variant(card: RuleCard, as_of: date, judged: _Judged, guessed: dict[str, Fact]) -> str:
    if not in_force(card, as_of):
        return "no_card_in_force"
    return "other_set_open" if guessed and judged.verdict == Verdict.FITS else ""


def _guessed(setup: Setup, assumptions: Assumptions, scope: str, name: str) -> dict[str, Fact]:
    """Which figures of the other sets that count nobody gave, as facts; none where all were given."""
    others = () if setup.socket_circuit is None else setup.socket_circuit.other_sets
    pointers = [
        pointer
        for at, other in enumerate(others)
        if (scope != "circuit" or other.same_circuit)
        and assumptions.assumed(pointer := f"/socket_circuit/other_sets/{at}/{name}")
    ]
    return {"missing": name, "missing_pointers": ", ".join(pointers)} if pointers else {}


def _closed(verdict: Verdict, guessed: dict[str, Fact], *, unseen: bool = False) -> Verdict:
    return Verdict.NOT_KNOWN if (guessed or unseen) and verdict == Verdict.FITS else verdict


def _left_open(guessed: dict[str, Fact], *, unseen: bool) -> str:
    return "other_set_open" if guessed else "building" if unseen else ""


def _others_untold(setup: Setup, assumptions: Assumptions) -> bool:
    """Did nobody say which other sets there are? Behind one's own meter none is a fair guess, in a whole house not."""
    return setup.socket_circuit is None or assumptions.assumed("/socket_circuit/other_sets")


def _ac_steps(card: RuleCard, kind: str) -> list[_Step]:
    """The published steps for one kind of plug; none where only wired sets were given a figure."""
    steps = [_Step(t.max_w, t.inclusive, t.condition) for t in card.ac_tiers if t.plug in CARD_WORDS[kind]]
    if card.plug == "fixed_wiring_only" and kind != "fixed":
        return steps
    if card.ac_cap_w is not None and not (steps and kind == "fixed"):
        steps.append(_Step(card.ac_cap_w, card.ac_cap_inclusive is True))
    return steps


def _panel_steps(card: RuleCard, kind: str) -> list[_Step]:
    own = [_Step(c.max_wp, c.inclusive, c.basis) for c in card.panel_cap_by_plug if c.plug in CARD_WORDS[kind]]
    if own or card.panel_cap_wp is None:
        return own
    return [_Step(card.panel_cap_wp, inclusive=True, condition=card.statement)]


def _against(watts: float, steps: list[_Step]) -> _Judged:
    """Under the lowest step: fits. Under a higher one only: its condition has to be asked for. Over all: refused."""
    if not steps:
        return _Judged(Verdict.NOT_KNOWN, None)
    steps = sorted(steps, key=lambda step: (step.watts, step.inclusive))
    if steps[0].admits(watts):
        return _Judged(Verdict.FITS, steps[0], steps[0].condition)
    for step in steps[1:]:
        if step.admits(watts):
            return _Judged(Verdict.NOT_KNOWN, steps[0], step.condition)
    return _Judged(Verdict.DOES_NOT_FIT, steps[-1], steps[-1].condition)


def _over_plugs(setup: Setup, judge: Callable[[str], _Judged]) -> _Judged:
    """The verdict for the plug described; where nobody said, one verdict only if every kind of plug agrees."""
    judged = judge(described_plug(setup) or "household")
    judged = replace(judged, likely=judged.verdict)
    if described_plug(setup) is not None or judged.verdict == Verdict.FITS:
        return judged
    agreed = {judge(kind).verdict for kind in PLUG_KINDS} == {judged.verdict}
    return judged if agreed else replace(judged, verdict=Verdict.NOT_KNOWN)


def _variant(card: RuleCard, as_of: date, judged: _Judged) -> str:
    if not in_force(card, as_of):
        return "no_card_in_force"
    if judged.step is None:
        return "none_found"
    if judged.verdict != Verdict.NOT_KNOWN:
        return ""
    return "conditional" if judged.likely == Verdict.NOT_KNOWN else "plug_not_described"
