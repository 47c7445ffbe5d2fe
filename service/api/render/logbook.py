"""How does the review of a log read on paper? The conclusion, causes, what was missed, what the year will be."""

from collections.abc import Iterator

from service.api.render.lines import as_text, headed, wrapped
from service.api.schemas.logbook_out import GapOut, LogbookAnswerOut, LogbookOut, SpanOut
from service.api.schemas.rounding import for_people
from service.api.words import say

_MOST_GAPS, _MOST_MONTHS, _LEAST_SURE_SHARE = 8, 14, 0.1


def logbook_text(answer: LogbookAnswerOut) -> bytes:
    """The whole answer, made of nothing but the answer."""
    log = answer.logbook
    return as_text(
        [
            *wrapped(say("logbook", f"conclusion.{log.conclusion}")),
            *wrapped(log.because.text),
            *headed("What was logged", _logged(log)),
            *headed("What may be behind it", _suspects(log)),
            *headed("Since a year ago", _second_year(log)),
            *headed("Gaps", _gaps(log.gaps)),
            *headed("Months", (line for one in log.months[-_MOST_MONTHS:] for line in _month(one))),
            *headed("The rows", (line for one in log.findings for line in wrapped(one.text, "- "))),
            "",
            *wrapped(f"As of {answer.as_of}. Sunsill {answer.service_version}, tables {answer.data_version}."),
        ]
    )


def _logged(log: LogbookOut) -> Iterator[str]:
    if log.from_time is None or log.to_time is None:
        yield "Nothing."
        return
    yield from wrapped(f"{log.from_time[:16].replace('T', ' ')} to {log.to_time[:16].replace('T', ' ')}")
    expected, year, promised = log.expected_kwh, log.projected_year_kwh, log.promised_year_kwh
    yield from wrapped(
        f"{for_people(log.logged_kwh)} kWh logged; {for_people(expected.middle, expected.cautious, expected.hopeful)} "
        f"({for_people(expected.cautious)} to {for_people(expected.hopeful)}) kWh were to be expected in the time "
        "compared."
    )
    yield from wrapped(log.basis_text)
    missed = log.missed_kwh
    if missed.middle > 0:
        yield from wrapped(f"Missing in gaps: about {for_people(missed.middle, missed.cautious, missed.hopeful)} kWh.")
    without = f"{for_people(promised.middle, promised.cautious, promised.hopeful)} kWh were promised."
    if year is None:
        yield from wrapped(f"No year is told from this log. Without a log {without}")
        return
    by_log = for_people(year.middle, year.cautious, year.hopeful)
    yield from wrapped(f"A usual year by this log: {by_log} kWh; without a log {without}")


def _suspects(log: LogbookOut) -> Iterator[str]:
    for one in log.suspects:
        if one.sureness_share >= _LEAST_SURE_SHARE:
            yield from wrapped(f"{100 * one.sureness_share:.0f} % sure: {one.text}", "- ")
            yield from wrapped(one.look_at, "  ")


def _second_year(log: LogbookOut) -> Iterator[str]:
    if log.second_year is not None:
        yield from wrapped(log.second_year.text)
        for one in log.second_year.to_do:
            yield from wrapped(one.text, "- ")


def _gaps(gaps: list[GapOut]) -> Iterator[str]:
    shown = sorted(gaps, key=lambda gap: gap.would_have_kwh, reverse=True)[:_MOST_GAPS]
    for gap in sorted(shown, key=lambda gap: gap.from_time):
        span = f"{gap.from_time[:16].replace('T', ' ')} to {gap.to_time[:16].replace('T', ' ')}: "
        yield from wrapped(span + gap.text, "- ")
    if len(gaps) > len(shown):
        yield f"- and {len(gaps) - len(shown)} smaller ones."


def _month(span: SpanOut) -> Iterator[str]:
    ratio = "" if span.ratio is None else f", {100 * span.ratio:.0f} % of what was expected of its logged time"
    known = "" if span.known_share > 0.99 else f" ({100 * span.known_share:.0f} % of it logged)"
    yield from wrapped(f"{span.first_day[:7]}: {for_people(span.logged_kwh)} kWh{known}{ratio}", "- ")
