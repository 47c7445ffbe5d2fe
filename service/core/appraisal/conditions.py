"""What has to happen first, by whom, before the set is worth buying?"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from service.core.model.amount import at_most
from service.core.model.band import Band
from service.core.model.facts import Setup
from service.core.model.finding import Fact, Finding, Part, Remedy, Verdict
from service.core.model.patch import Operation
from service.core.worth import Worth

# Whoever can answer what is not known, by the side of the set.
_WHO_KNOWS = {
    Part.PANEL_SIDE: ("ask_seller", "seller"),
    Part.SOCKET_SIDE: ("ask_electrician", "electrician"),
    Part.LOCAL_RULE: ("ask_operator", "operator"),
}
_ANOTHER_SET = "another_set"
_ADMITTED_OTHERWISE = "fixed_connection"
# Mounts on a building that somebody may have to consent to.
ON_BUILDING = frozenset({"hung_on_rail", "behind_rail", "balcony_floor", "wall", "flat_roof", "sloped_roof"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """One thing on which the decision hangs.

    ``pointer`` (RFC 6901) is what it is about in the completed request, None where it is no field. ``who``: you,
    electrician, seller, operator or landlord. ``facts`` fill the sentence; ``patch`` holds the operations of one
    that changes several fields.

    ``cost`` is paid once, ``cost_per_year`` is what the year's saving loses by it (below nought: gains), both in the
    request's currency; ``cautious`` is the dearer end. None where not known; ``cost_because`` says why it is what it
    is: costs_nothing, less_energy, price_not_known.
    """

    code: str
    pointer: str | None
    who: str
    cost: Band | None = None
    cost_per_year: Band | None = None
    cost_because: str = "price_not_known"
    patch: tuple[Operation, ...] = ()
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))


def mending(finding: Finding) -> Remedy | None:
    """The first remedy after which the finding no longer refuses; None where there is none.

    A plan for another set mends nothing of this one, nor does a question whose answer leaves all open.
    """
    return next((r for r in finding.remedies if r.verdict_then != Verdict.DOES_NOT_FIT and not _no_mending(r)), None)


def _no_mending(remedy: Remedy) -> bool:
    open_still = remedy.code.startswith(("ask_", "tell_")) and remedy.verdict_then == Verdict.NOT_KNOWN
    return open_still or remedy.code == _ANOTHER_SET


def demanded_by(finding: Finding) -> Remedy | None:
    """The remedy without which the set is not to be run as asked; None where nothing of the kind is asked.

    That of a refusal; and what keeps a set from sending anything out through a meter that counts one way only: such a
    meter charges for what is sent, and no answer of an operator makes that worth having.
    """
    if finding.verdict == Verdict.DOES_NOT_FIT:
        return mending(finding)
    charged = finding.code == "meter" and finding.facts.get("counts") == "one_way"
    if not charged or finding.verdict != Verdict.NOT_KNOWN:
        return None
    settled = (Verdict.FITS, Verdict.FITS_WITH_LOSS)
    return next((r for r in finding.remedies if r.pointer is not None and r.verdict_then in settled), None)


def hopeless(finding: Finding) -> bool:
    """Does it refuse, with nothing that would mend it?

    A refusal of the plug that nobody described is not: the card admits other ways to connect.
    """
    return finding.verdict == Verdict.DOES_NOT_FIT and mending(finding) is None and not _undescribed_plug(finding)


def _undescribed_plug(finding: Finding) -> bool:
    return finding.code == "plug" and finding.facts.get("plug_described") is False


def of_findings(findings: Iterable[Finding]) -> tuple[Condition, ...]:
    """One condition for each refusal's remedy, and one for each kind of person who has to be asked what is open."""
    made: dict[tuple[str, str | None], Condition] = {}
    questions: dict[str, list[Finding]] = {}
    for finding in findings:
        remedy = demanded_by(finding)
        if remedy is not None:
            made.setdefault((remedy.code, remedy.pointer), of_remedy(finding, remedy))
        elif finding.verdict == Verdict.DOES_NOT_FIT and _undescribed_plug(finding):
            made.setdefault((_ADMITTED_OTHERWISE, finding.about), _of_plug(finding))
        elif finding.verdict == Verdict.NOT_KNOWN:
            questions.setdefault(_asked(finding)[0], []).append(finding)
    asked = (_of_questions(code, found) for code, found in questions.items() if (code, None) not in made)
    return (*made.values(), *asked)


def of_remedy(finding: Finding, remedy: Remedy) -> Condition:
    """What a refusal's remedy demands."""
    facts = {
        **remedy.facts, "finding": finding.code, "new_value": remedy.new_value, "unit": remedy.unit,
        "verdict_then": str(remedy.verdict_then), "year_kwh_change": remedy.year_kwh_change,
        "one_field": remedy.pointer is not None,
    }  # fmt: skip
    pointer = finding.about if remedy.pointer is None else remedy.pointer
    return Condition(
        code=remedy.code, pointer=pointer, who=remedy.who, patch=remedy.patch, facts=MappingProxyType(facts)
    )


def _of_plug(finding: Finding) -> Condition:
    code = "special_connector" if finding.facts.get("published_plug") == "special_connector" else _ADMITTED_OTHERWISE
    return Condition(
        code=code, pointer=finding.about, who="electrician", facts=MappingProxyType({"finding": finding.code})
    )


def _asked(finding: Finding) -> tuple[str, str]:
    asking = next((r for r in finding.remedies if r.pointer is None), None)
    return (asking.code, asking.who) if asking is not None else _WHO_KNOWS[finding.part]


def _of_questions(code: str, findings: list[Finding]) -> Condition:
    names = ", ".join(dict.fromkeys(f.code for f in findings))
    return Condition(
        code=code,
        pointer=findings[0].about,
        who=_asked(findings[0])[1],
        facts=MappingProxyType({"findings": names, "first": findings[0].code}),
    )


def of_money(setup: Setup, worth: Worth) -> tuple[Condition, ...]:
    """What would make the account hold at the cautious end too: a price at most, or a longer stay."""
    currency = setup.tariff.currency if setup.tariff else None
    middle, cautious = worth.worth_up_to.middle, worth.worth_up_to.cautious
    if worth.outlay is None or worth.discounted_payback_years is None:
        return (_pay_at_most("/outlay", middle or 0.0, currency),)
    if worth.discounted_payback_years.cautious is not None:
        return ()
    made = []
    if cautious is not None and 0 < cautious < worth.outlay:
        made.append(_pay_at_most("/outlay/items", cautious, currency))
    stay = setup.household.stay_years
    if stay is not None and stay < setup.money.years:
        facts: dict[str, Fact] = {"kept_years": worth.years_kept, "account_years": setup.money.years}
        made.append(
            Condition(code="stay_longer", pointer="/household/stay_years", who="you", facts=MappingProxyType(facts))
        )
    return tuple(made) or (Condition(code="accept_the_risk", pointer="/outlay", who="you"),)


def _pay_at_most(pointer: str, amount: float, currency: str | None) -> Condition:
    facts: dict[str, Fact] = {"amount": at_most(amount), "currency": currency}
    return Condition(code="pay_at_most", pointer=pointer, who="you", facts=MappingProxyType(facts))


def of_consent(setup: Setup) -> tuple[Condition, ...]:
    """Leave of the owner or co-owners, where the set hangs on a building."""
    for i, array in enumerate(setup.arrays):
        if array.mount in ON_BUILDING:
            facts: dict[str, Fact] = {"mount": array.mount}
            return (
                Condition(
                    code="get_consent", pointer=f"/arrays/{i}/mount", who="landlord", facts=MappingProxyType(facts)
                ),
            )
    return ()
