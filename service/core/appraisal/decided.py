"""Is the set worth buying once what is demanded has been done? The decision of the set with the conditions met."""

from dataclasses import dataclass, replace
from types import MappingProxyType

from service.core.appraisal.conditions import (
    Condition,
    demanded_by,
    hopeless,
    of_consent,
    of_findings,
    of_money,
    of_remedy,
)
from service.core.appraisal.costs import Account, costed, lost_per_year
from service.core.appraisal.decision import Choice, Decision, OnceMet, Reason, about_fit, decide
from service.core.appraisal.mended import Check, Mended, mended
from service.core.appraisal.open_facts import YearKwh
from service.core.appraisal.remedies import touches_energy
from service.core.compatibility import Compatibility
from service.core.energy import EnergyYear
from service.core.model.amount import at_most
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Fact
from service.core.worth import Worth


@dataclass(frozen=True, slots=True, kw_only=True)
class Again:
    """How a changed set is asked again: ``check`` for its findings, ``account`` for its year and what it is worth."""

    check: Check
    account: Account


@dataclass(frozen=True, slots=True, kw_only=True)
class Decided:
    """The decision, the set that it is about, that set's year, and what has to be done to the set first."""

    decision: Decision
    mended: Mended
    energy: EnergyYear
    demanded: tuple[Condition, ...]


def decided(
    setup: Setup,
    assumptions: Assumptions,
    compatibility: Compatibility,
    energy: EnergyYear,
    worth: Worth | None,
    year_kwh: YearKwh | None = None,
    again: Again | None = None,
) -> Decided:
    """The decision of the set with the demanded remedies in place; of the set as it is where nothing is demanded.

    Args:
        setup: the completed request.
        assumptions: what was assumed in it.
        compatibility: its findings.
        energy: its year.
        worth: its account; None where no price per kWh is known.
        year_kwh: the year's middle energy of a setup, in kWh, asked for planes left open.
        again: asks for a changed set, only where a remedy changes it; None: never, all is about the set as it is.
    """
    as_asked = Mended(setup=setup, assumptions=assumptions, compatibility=compatibility)
    wanting = any(demanded_by(finding) is not None for finding in compatibility.findings)
    asked = again if wanting else None
    now = as_asked if asked is None else mended(setup, assumptions, compatibility, asked.check)
    if _hopeless(now.compatibility) and _hopeless(compatibility):  # no remedy of another refusal mends it either
        now = as_asked
    if asked is None or not now.remedies:
        decision = decide(setup, assumptions, compatibility, worth, year_kwh)
        decision = replace(decision, conditions=tuple(costed(one) for one in decision.conditions))
        demanded = tuple(one for one in of_findings(compatibility.findings) if "finding" in one.facts)
        return Decided(
            decision=_with_open_costs(_mending_told_once(decision), worth), mended=now, energy=energy, demanded=demanded
        )
    moved = any(touches_energy(remedy) for _, remedy in now.remedies)  # else year and account are those at hand
    then_energy, then = asked.account(now.setup, now.assumptions) if moved else (energy, worth)
    lost = lost_per_year(now.remedies, (setup, assumptions), worth, then, asked.account)
    made = tuple(costed(of_remedy(f, r), lost_) for (f, r), lost_ in zip(now.remedies, lost, strict=True))
    inner = decide(now.setup, now.assumptions, now.compatibility, then, year_kwh)
    left = tuple(costed(one) for one in of_findings(now.compatibility.findings))
    decision = replace(
        inner,
        verdict=Choice.WORTH_IT_IF if inner.verdict == Choice.WORTH_IT else inner.verdict,
        because=_because(inner, compatibility, now, energy, then_energy),
        once_met=OnceMet.of(made, then_energy, then),
    )
    if decision.verdict == Choice.WORTH_IT_IF and then is not None:
        money = tuple(costed(one) for one in of_money(now.setup, then))
        consent = tuple(costed(one) for one in of_consent(now.setup))
        decision = replace(decision, conditions=(*money, *made, *left, *consent))
    else:
        decision = replace(decision, conditions=tuple(costed(one) for one in inner.conditions))
    return Decided(
        decision=_with_open_costs(_mending_told_once(decision), then),
        mended=now,
        energy=then_energy,
        demanded=(*made, *(one for one in left if "finding" in one.facts)),
    )


def _hopeless(compatibility: Compatibility) -> bool:
    return any(hopeless(finding) for finding in compatibility.findings)


def _because(
    inner: Decision, compatibility: Compatibility, now: Mended, energy: EnergyYear, then: EnergyYear
) -> tuple[Reason, ...]:
    """Money of the mended set, how the set as asked fits, and by what the two differ."""
    fit = {reason.code for reason in about_fit(now.compatibility)}
    money = tuple(reason for reason in inner.because if reason.code not in fit)
    hopeless_now = tuple(reason for reason in inner.because if reason.code == "refused")
    before, after = energy.year_kwh.middle or 0.0, then.year_kwh.middle or 0.0
    facts: dict[str, Fact] = {"as_asked_kwh": before, "once_met_kwh": after}
    changed = abs(after - before) > 0.5
    told = (Reason(code="other_year_once_met", facts=MappingProxyType(facts)),) if changed else ()
    # a refusal without a remedy of its own that is gone by now: that of another refusal mended it
    as_asked = (replace(r, code="refused_but_mendable") if r.code == "refused" else r for r in about_fit(compatibility))
    return (*money, *told, *as_asked, *hopeless_now)


def _mending_told_once(decision: Decision) -> Decision:
    """That the conditions mend what is refused is said where they are listed, once for all refusals.

    Elsewhere no condition mends it: the remedy stands in its finding alone.
    """
    code = "refused_but_mendable"
    told = [reason for reason in decision.because if reason.code == code]
    if not told:
        return decision
    first = told[0] if decision.verdict == Choice.WORTH_IT_IF else replace(told[0], code="refused_as_asked")
    kept = tuple(
        first if reason is told[0] else reason
        for reason in decision.because
        if reason.code != code or reason is told[0]
    )
    return replace(decision, because=kept)


def _with_open_costs(decision: Decision, worth: Worth | None) -> Decision:
    """With what is left for conditions of unknown price, where an outlay was given."""
    if decision.verdict != Choice.WORTH_IT_IF or all(one.cost is not None for one in decision.conditions):
        return decision
    most = None if worth is None else worth.worth_up_to.middle
    if worth is None or worth.outlay is None or most is None or most <= worth.outlay:
        return decision
    facts: dict[str, Fact] = {"amount": at_most(most - worth.outlay), "currency": decision.currency}
    left = Reason(code="left_for_conditions", facts=MappingProxyType(facts))
    return replace(decision, because=(*decision.because, left))
