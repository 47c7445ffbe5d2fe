"""Is the set worth buying? One decision out of the account, the findings and what is not known."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType

from service.core.appraisal.conditions import Condition, hopeless, mending, of_consent, of_findings, of_money
from service.core.appraisal.open_facts import OpenFact, YearKwh, turning
from service.core.compatibility import Compatibility
from service.core.energy import EnergyYear
from service.core.model.amount import at_most
from service.core.model.assumption import Assumptions
from service.core.model.band import Band
from service.core.model.facts import Setup
from service.core.model.finding import Fact, Finding, Part, Verdict
from service.core.worth import Worth


class Choice(StrEnum):
    """The four decisions."""

    WORTH_IT = "worth_it"
    WORTH_IT_IF = "worth_it_if"
    NOT_WORTH_IT = "not_worth_it"
    CANNOT_TELL = "cannot_tell"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why: a code with the facts of its sentence."""

    code: str
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True, kw_only=True)
class OnceMet:
    """The set with the conditions met that change it: ``changes``, and the figures that then hold.

    Money is None where no price per kWh is known; what compares with an outlay also where none was given.
    """

    changes: tuple[Condition, ...]
    year_kwh: Band
    saving_first_year: Band | None
    discounted_payback_years: Band | None
    net_present_value: Band | None
    worth_up_to: Band | None

    @classmethod
    def of(cls, changes: tuple[Condition, ...], energy: EnergyYear, worth: Worth | None) -> "OnceMet":
        """With the year and the account that hold then."""
        return cls(
            changes=changes,
            year_kwh=energy.year_kwh,
            saving_first_year=None if worth is None else worth.saving_first_year,
            discounted_payback_years=None if worth is None else worth.discounted_payback_years,
            net_present_value=None if worth is None else worth.net_present_value,
            worth_up_to=None if worth is None else worth.worth_up_to,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """The verdict, what may be paid for the set at most, why, and on what it hangs.

    ``conditions`` are what has to be met (``worth_it_if``) or found out (``cannot_tell``); empty otherwise.
    ``once_met``: all figures of the decision are for this set; None where no condition changes the set as asked.
    """

    verdict: Choice
    worth_up_to: float | None
    because: tuple[Reason, ...]
    conditions: tuple[Condition, ...]
    currency: str | None = None
    once_met: OnceMet | None = None


def decide(
    setup: Setup,
    assumptions: Assumptions,
    compatibility: Compatibility,
    worth: Worth | None,
    year_kwh: YearKwh | None = None,
) -> Decision:
    """The decision, in this order.

    1. A refusal without a remedy: ``not_worth_it``.
    2. No price per kWh is known, or one missing fact of price, energy or place turns the answer: ``cannot_tell``.
    3. No outlay was given: ``worth_it_if`` it costs no more than the set is worth, ``not_worth_it`` where that is
       nothing.
    4. The middle case is not paid back, discounted, within the years kept, a sale that was stated at their end
       counted: ``not_worth_it``.
    5. The cautious case is, for good, and the panel side fits, nothing refuses, the local rule is known and a circuit
       that was described leaves no question open: ``worth_it``.
    6. Otherwise ``worth_it_if``, with its conditions.

    Args:
        setup: the completed request.
        assumptions: what was assumed in it.
        compatibility: its findings, remedies priced or not.
        worth: the account; None where no price per kWh is known.
        year_kwh: the year's middle energy of a setup, in kWh, asked for planes left open; None: not asked.
    """
    refused = [f for f in compatibility.findings if f.verdict == Verdict.DOES_NOT_FIT]
    reasons = about_fit(compatibility)
    value = None if worth is None else worth.worth_up_to.middle
    currency = setup.tariff.currency if setup.tariff else None

    def answer(verdict: Choice, because: tuple[Reason, ...], *conditions: Condition) -> Decision:
        return Decision(verdict=verdict, worth_up_to=value, because=because, conditions=conditions, currency=currency)

    if any(hopeless(finding) for finding in refused):
        return answer(Choice.NOT_WORTH_IT, reasons)
    if worth is None:
        unknown = Reason(code="no_price_known", facts={"area": setup.site.rule_area})
        return answer(
            Choice.CANNOT_TELL, (unknown, *reasons), Condition(code="tell_price", pointer="/tariff", who="you")
        )
    because = (_about_money(worth, currency), *reasons)
    turned = turning(setup, assumptions, worth, year_kwh)
    if turned:
        asked = [Condition(code=fact.code, pointer=fact.pointer, who="you") for fact in turned]
        return answer(Choice.CANNOT_TELL, (*(_turned(fact) for fact in turned), *because), *asked)
    if not _pays(worth):
        return answer(Choice.NOT_WORTH_IT, because)
    if _certain(worth, compatibility, refused):
        return answer(Choice.WORTH_IT, because)
    conditions = (*of_money(setup, worth), *of_findings(compatibility.findings), *of_consent(setup))
    return answer(Choice.WORTH_IT_IF, because, *conditions)


def _pays(worth: Worth) -> bool:
    """Does the middle case pay; without an outlay: is the set worth anything?"""
    if worth.outlay is None or worth.discounted_payback_years is None:
        return (worth.worth_up_to.middle or 0.0) > 0
    return worth.discounted_payback_years.middle is not None


def _certain(worth: Worth, compatibility: Compatibility, refused: list[Finding]) -> bool:
    lasting = worth.lasting_payback_years
    return (
        lasting is not None
        and lasting.cautious is not None
        and not refused
        and compatibility.by_part.get(Part.PANEL_SIDE) in {Verdict.FITS, Verdict.FITS_WITH_LOSS}
        and compatibility.by_part.get(Part.SOCKET_SIDE) != Verdict.NOT_KNOWN  # a circuit described by half is no pass
        and compatibility.by_part.get(Part.LOCAL_RULE, Verdict.NOT_KNOWN) != Verdict.NOT_KNOWN
    )


def _about_money(worth: Worth, currency: str | None) -> Reason:
    facts: dict[str, Fact] = {
        "kept_years": worth.years_kept,
        "worth_up_to": at_most(worth.worth_up_to.middle or 0.0),
        "outlay": worth.outlay,
        "currency": currency,
    }
    payback = worth.discounted_payback_years
    if worth.outlay is None or payback is None:
        code = "no_outlay_given"
    elif payback.middle is None:
        code = "not_paid_back"
    else:
        facts |= {"payback_years": payback.middle, "cautious_years": payback.cautious}
        lasting = worth.lasting_payback_years
        never = lasting is None or lasting.cautious is None
        if worth.paid_by_selling:
            code = "paid_back_by_selling_in_the_middle" if never else "paid_back_by_selling"
        elif payback.cautious is None:
            code = "paid_back_in_the_middle"
        elif never:
            code = "paid_back_but_for_a_later_cost"
        else:
            code = "paid_back" if payback.cautious > 0 else "nothing_to_pay_back"
    return Reason(code=code, facts=MappingProxyType(facts))


def about_fit(compatibility: Compatibility) -> tuple[Reason, ...]:
    """Each refusal, and how each side fits that nothing refuses."""
    reasons = []
    for finding in (one for one in compatibility.findings if one.verdict == Verdict.DOES_NOT_FIT):
        remedy = mending(finding)
        facts: dict[str, Fact] = {
            "finding": finding.code, "measured": finding.measured, "limit": finding.limit, "unit": finding.unit,
            "remedy": None if remedy is None else remedy.code, "about": finding.about,
        }  # fmt: skip
        code = "refused" if hopeless(finding) else "refused_but_mendable"
        reasons.append(Reason(code=code, facts=MappingProxyType(facts)))
    for part in Part:
        verdict = compatibility.by_part.get(part)
        if verdict is not None and verdict != Verdict.DOES_NOT_FIT:
            reasons.append(Reason(code=f"{part}.{verdict}"))
    return tuple(reasons)


def _turned(fact: OpenFact) -> Reason:
    facts: dict[str, Fact] = {"fact": fact.code, "pointer": fact.pointer}
    facts |= {"low_share": round(fact.low_share, 2), "high_share": round(fact.high_share, 2)}
    return Reason(code="one_fact_turns_it", facts=MappingProxyType(facts))
