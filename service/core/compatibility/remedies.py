"""Which changes truly mend a finding? Each is made, the question asked again, and only what helps is told."""

from collections.abc import Callable
from dataclasses import replace

from service.core.compatibility.proposal import Proposal
from service.core.compatibility.proposals import proposals
from service.core.compatibility.wiring import Wiring
from service.core.model.assumption import Assumptions
from service.core.model.finding import WORST_FIRST, Finding, Remedy, Verdict
from service.core.model.patch import patched
from service.core.model.pointer import replaced_at

Ask = Callable[[Wiring], tuple[Finding, ...]]

_SETTLED = (Verdict.FITS, Verdict.FITS_WITH_LOSS)
QUESTIONS = ("ask_", "tell_")  # told whatever the answer may be
ONE_IS_ENOUGH = frozenset({"smaller_breaker", "thicker_or_shorter_lead"})  # the gentlest step that mends is told


def with_remedies(finding: Finding, wiring: Wiring, before: tuple[Finding, ...], ask: Ask) -> Finding:
    """The finding with the remedies that were seen to help.

    Args:
        finding: one of ``before``.
        wiring: the set as it is.
        before: all findings of the same part.
        ask: asks all questions of that part again of a changed set.
    """
    if finding.verdict == Verdict.FITS:
        return finding
    kept: list[Remedy] = []
    done: set[tuple[str, object]] = set()
    for proposal in proposals(finding, wiring):
        kind = (proposal.code, proposal.facts.get("variant"))
        if (proposal.code in ONE_IS_ENOUGH and kind in done) or (proposal.last_resort and done):
            continue
        then = proposal.promised or _asked_again(finding, _changed(wiring, proposal), before, ask)
        if proposal.code.startswith(QUESTIONS) or _better(then, finding.verdict):
            kept.append(_remedy(proposal, then))
            if then in _SETTLED:
                done.add(kind)
    if not kept:
        return finding
    return replace(finding, remedies=tuple(remedy for remedy in kept if not _outdone(remedy, done)))


def _outdone(remedy: Remedy, done: set[tuple[str, object]]) -> bool:
    """Does another step of the same kind mend what this one leaves open?"""
    kind = (remedy.code, remedy.facts.get("variant"))
    mends = remedy.verdict_then in _SETTLED
    return remedy.code in ONE_IS_ENOUGH and kind in done and not mends


def _asked_again(finding: Finding, changed: Wiring, before: tuple[Finding, ...], ask: Ask) -> Verdict:
    """The finding's verdict after the change, with that of panels it moved; refused where it breaks something else."""
    after = ask(changed)
    known = {(f.code, f.about) for f in before}
    refused = {(f.code, f.about) for f in before if f.verdict == Verdict.DOES_NOT_FIT}
    if any(f.verdict == Verdict.DOES_NOT_FIT and (f.code, f.about) not in refused for f in after):
        return Verdict.DOES_NOT_FIT
    same = [f for f in after if f.code == finding.code]
    concerned = [f for f in same if f.about == finding.about or (f.code, f.about) not in known]
    return min((f.verdict for f in concerned), key=WORST_FIRST.index, default=Verdict.FITS)


def _changed(wiring: Wiring, proposal: Proposal) -> Wiring:
    """The set with the proposal applied; a value that was replaced is no longer assumed."""
    if proposal.rewired is not None:
        return proposal.rewired
    fields = tuple(one.path for one in proposal.patch) if proposal.pointer is None else (proposal.pointer,)
    if not fields:
        return wiring
    kept = {p: a for p, a in wiring.assumptions.by_pointer.items() if p not in fields}
    if proposal.pointer is None:
        setup = patched(wiring.setup, proposal.patch)
    else:
        setup = replaced_at(wiring.setup, proposal.pointer, proposal.new_value)
    return replace(wiring, setup=setup, assumptions=Assumptions(kept))


def _better(then: Verdict, now: Verdict) -> bool:
    return WORST_FIRST.index(then) > WORST_FIRST.index(now)


def _remedy(proposal: Proposal, then: Verdict) -> Remedy:
    return Remedy(
        code=proposal.code, pointer=proposal.pointer, new_value=proposal.new_value, unit=proposal.unit,
        who=proposal.who, verdict_then=then, facts=proposal.facts, patch=proposal.patch,
    )  # fmt: skip
