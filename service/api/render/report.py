"""How does an appraisal read on paper? Decision first, then why, then everything that it rests on; 72 columns."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from service.api.render.lines import as_text, headed, wrapped
from service.api.render.report_fixing import fixing_lines
from service.api.render.report_money import energy_lines, money_lines, storage_lines, use_lines
from service.api.schemas.advice import ConditionOut
from service.api.schemas.answers import AppraisalOut
from service.api.schemas.finding import FindingOut
from service.api.schemas.rounding import for_people
from service.api.words import say
from service.core.appraisal import Choice
from service.core.model.bounds import BOUNDS
from service.core.model.finding import WORST_FIRST, Verdict


def report(answer: AppraisalOut) -> bytes:
    """The whole report, made of nothing but the answer."""
    return as_text(
        [
            *_decision(answer),
            *headed("Why", _bullets(dict.fromkeys(reason.text for reason in answer.decision.because))),
            *headed("What was checked", _findings(answer)),
            *headed("What a storm does", fixing_lines(answer.fixing)),
            *headed("Energy", (*_as_asked(answer), *energy_lines(answer.energy))),
            *headed("Use at home", use_lines(answer.use)),
            *headed("Money", (*_as_asked(answer), *money_lines(answer.payback)) if answer.payback else ()),
            *headed("A battery beside it", _storage(answer)),
            *headed("What to do, and when", _steps(answer)),
            *headed("What to mind", _cautions(answer)),
            *headed("What was assumed", _assumptions(answer)),
            "",
            *wrapped(
                f"As of {answer.as_of}. Sunsill {answer.service_version}, tables {answer.data_version}. Information, "
                "not advice on the law, and no substitute for an electrician."
            ),
        ]
    )


def _as_asked(answer: AppraisalOut) -> Iterable[str]:
    """A line that says which set follows, where the decision is about another one with another year."""
    met = answer.decision.once_met
    if met is None or abs(met.year_kwh.middle - answer.energy.told().middle) < 0.5:
        return ()
    return (*wrapped(say("decisions", "as_asked")), "")


def _storage(answer: AppraisalOut) -> Iterable[str]:
    if answer.storage is None:
        return ()
    return storage_lines(answer.storage, answer.payback.currency if answer.payback else "")


def _decision(answer: AppraisalOut) -> Iterator[str]:
    decision = answer.decision
    yield from wrapped(decision.text)
    for number, condition in enumerate(decision.conditions, 1):
        yield from wrapped(f"{condition.text}{_by(condition.who, condition.text)}", f"  {number}. ")
        cost = _cost(condition, answer.payback.currency if answer.payback else "")
        yield from wrapped(cost, "     ") if cost else ()
    if decision.once_met and decision.verdict != Choice.WORTH_IT_IF:
        yield from ("", *wrapped(say("decisions", "reckoned_with")))
        for change in decision.once_met.changes:
            yield from wrapped(change.text, "  - ")
    of_money = decision.verdict != Choice.NOT_WORTH_IT or any(one.code == "not_paid_back" for one in decision.because)
    if decision.worth_up_to and answer.payback is not None and of_money:
        met = decision.once_met and decision.once_met.worth_up_to
        facts = {"amount": decision.worth_up_to, "cautious": (met or answer.payback.worth_up_to).cautious}
        yield ""
        yield from wrapped(say("decisions", "worth_up_to", {**facts, "currency": answer.payback.currency}))


def _by(who: str, text: str) -> str:
    """Who does it, where the sentence does not say so and it is not the reader."""
    return "" if who in {"you", "landlord"} or who in text else f" ({who})"


def _cost(condition: ConditionOut, currency: str) -> str:
    """What a condition costs, nothing where nobody would expect it to."""
    per_year = condition.cost_per_year
    if per_year is not None and abs(per_year.middle) >= 0.5:
        ends = sorted((abs(per_year.cautious), abs(per_year.hopeful)))
        change = (
            f"{for_people(abs(per_year.middle), *ends)} {currency} a year {'less' if per_year.middle > 0 else 'more'}"
        )
        paid = "" if condition.cost is not None else f" {condition.cost_because.text}"
        return f"Saves about {change}.{paid}"
    return "" if condition.cost is not None else condition.cost_because.text


def _bullets(texts: Iterable[str]) -> Iterator[str]:
    for text in texts:
        yield from wrapped(text, "- ")


def _findings(answer: AppraisalOut) -> Iterator[str]:
    findings = answer.compatibility.findings
    for verdict in WORST_FIRST:
        these = [finding for finding in findings if finding.verdict == verdict]
        if verdict == Verdict.FITS:
            names = dict.fromkeys(_named(finding) for finding in these)
            yield from wrapped(f"{_WORDS[verdict]}: {', '.join(names)}.") if these else ()
            continue
        for finding in these:
            yield from _finding(finding)
    if answer.compatibility.not_looked_at:
        open_parts = ", ".join(_place_in_words(pointer) for pointer in answer.compatibility.not_looked_at)
        yield from wrapped(f"Not looked at, as not described: {open_parts}.")


_WORDS = {
    Verdict.DOES_NOT_FIT: "DOES NOT FIT",
    Verdict.NOT_KNOWN: "NOT KNOWN",
    Verdict.FITS_WITH_LOSS: "FITS, WITH LOSS",
    Verdict.FITS: "FITS",
}


def _place_in_words(pointer: str) -> str:
    """``/arrays/0/panel/connector`` as ``panel connector (array 1)``."""
    parts = pointer.split("/")[1:]
    of_array = f" (array {int(parts[1]) + 1})" if parts[0] == "arrays" and len(parts) > 1 else ""
    return " ".join(part for part in parts if part != "arrays" and not part.isdigit()).replace("_", " ") + of_array


def _named(finding: FindingOut) -> str:
    return finding.code.replace("_", " ")


def _finding(finding: FindingOut) -> Iterator[str]:
    at = f", input {finding.input}" if finding.input else ""
    yield from wrapped(f"{_WORDS[finding.verdict]}: {_named(finding)}{at}")
    yield from wrapped(finding.text, "  ")
    if finding.measured is not None and finding.limit is not None:
        figures = f"{for_people(finding.measured)} {finding.unit} beside a limit of {for_people(finding.limit)}"
        yield from wrapped(f"Figures: {figures} {finding.unit}.", "  ")
    if finding.source:
        yield from wrapped(f"Source: {finding.source}", "  ")
    for remedy in finding.remedies:
        then = f"then: {_WORDS[remedy.verdict_then].lower()}"
        change = remedy.year_kwh_change
        cost = "" if change is None else f", {for_people(change)} kWh a year" if round(change) else ", no energy lost"
        yield from wrapped(f"Remedy ({remedy.who}): {remedy.text} ({then}{cost})", "  > ")
    yield ""


def _steps(answer: AppraisalOut) -> Iterator[str]:
    moment = None
    for step in answer.steps:
        if step.when != moment:
            moment = step.when
            yield f"{say('steps', f'when.{moment}')}:"
        yield from wrapped(f"{step.text}{_by(step.who, step.text)}", "  - ")


def _cautions(answer: AppraisalOut) -> Iterator[str]:
    """Under the step at which each counts, in the order of steps; within one the worst first, as they were chosen."""
    for step, cautions in groupby(answer.cautions, key=lambda caution: caution.step):
        yield from wrapped(f"{str(step).replace('_', ' ').capitalize()}:")
        for caution in cautions:
            yield from wrapped(f"{caution.severity.upper()}: {caution.text}", "- ")
    more = sum(answer.cautions_kept_back.values())
    if more:
        yield from wrapped(f"There are {more} more, less urgent.")


def _assumptions(answer: AppraisalOut) -> Iterator[str]:
    """Equal ones of several arrays or inputs are told once."""
    currency = answer.payback.currency if answer.payback else "money"
    told: dict[tuple[str, str, str], int] = {}
    for one in answer.assumptions:
        name, unit = _name_and_unit(one.pointer.rpartition("/")[2])
        name = next((f"{part}, {name}" for under, part in _APART.items() if under in one.pointer), name)
        value = _value(one.value)
        key = (
            name,
            f"{value} {unit.replace('money', currency)}" if unit and isinstance(one.value, int | float) else value,
            one.text,
        )
        told[key] = told.get(key, 0) + 1
    for (name, value, text), times in told.items():
        often = f" ({times} times)" if times > 1 else ""
        yield from wrapped(f"{name}{often}: {value}. {text}", "- ")


# Parts of a request whose names alone would be taken for those of the set.
_APART = {
    "/storage/": "battery",
    "/other_generation/": "plant on the roof",
    "/side_walls": "beside the panels",
    "/fetching/": "fetching",
    "/inverter_swap/": "inverter replaced",
}


def _name_and_unit(field: str) -> tuple[str, str]:
    """A field's name in words, and its unit: ``coldest_air_c`` as ``coldest air`` and ``C``."""
    unit = BOUNDS[field].unit if field in BOUNDS else ""
    ending = "_" + unit.replace("%", "pct").replace("/", "_per_").lower() if unit else ""
    return field.removesuffix(ending).replace("_", " "), unit


def _value(value: object) -> str:
    if value is None or value == []:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:g}"
    if isinstance(value, list):
        return ", ".join(_value(inner) for inner in value)
    return str(value).replace("_", " ") if "/" not in str(value) else str(value)
