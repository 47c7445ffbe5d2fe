"""How is a log answered: what was logged, what was to be expected, gaps, causes, totals?"""

from typing import Literal, Self
from zoneinfo import ZoneInfo

import numpy as np
from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.answers import Beside
from service.api.schemas.band import KwhBandOut
from service.api.schemas.base import Code, Facts, Out, Text
from service.api.schemas.log_suspects import SuspectOut
from service.api.schemas.log_times import day_text, told_time
from service.api.words import say
from service.core.logbook import (
    Conclusion,
    Diagnosis,
    Gap,
    Judged,
    LogNote,
    Reading,
    SecondYear,
    SpanTotal,
)
from service.core.logbook.review import WAS_OFF
from service.core.model.band import Band

MOST_GAPS, MOST_DAYS, MOST_MONTHS = 500, 400, 1400
_CLEAR_SHARE = 0.4  # so sure the first suspect has to be for its name to lead
_SINCE_LAST_YEAR = frozenset({"shade_grown", "fast_ageing"})
Kind = Literal["connection_lost", "set_off", "unknown"]


class ReasonOut(Out):
    """Why the conclusion is what it is, with its figures."""

    code: Code
    facts: Facts
    text: Text


class GapOut(Out):
    """A stretch by day that was not logged, or in which the set gave nothing; nights are none."""

    from_time: str = Field(max_length=40)
    to_time: str = Field(max_length=40)
    kind: str = Field(description="connection_lost, set_off or unknown.", max_length=40)
    missed_kwh: r.Kwh = Field(description="What the log lacks; 0 where a counter made it good.")
    missed_band_kwh: KwhBandOut = Field(description="The same with its doubt; `cautious` is the smaller one.")
    would_have_kwh: r.Kwh = Field(description="What the set would have given meanwhile.")
    regained_kwh: r.Kwh = Field(description="What the counter's jump at its end brought.")
    sureness_share: r.Share = Field(description="How sure the kind is.")
    input: int | None = Field(
        default=None, ge=1, le=8,
        description="Whose log lacks it while another input's goes on: all figures are of this input alone; null: the "
        "whole set's.",
    )  # fmt: skip
    text: Text

    @classmethod
    def of(cls, gap: Gap, zone: ZoneInfo) -> Self:
        """With its sentence, in the site's wall-clock time."""
        facts = {"missed_kwh": gap.missed_kwh.middle, "regained_kwh": gap.regained_kwh, "input": gap.input}
        lead = "gap" if gap.input is None else "input_gap"
        key = f"{lead}.{gap.kind}" + (".regained" if gap.regained_kwh > 0 and not gap.missed_kwh.middle else "")
        return cls.from_core(
            gap,
            from_time=told_time(gap.begin_s, zone),
            to_time=told_time(gap.end_s, zone),
            missed_kwh=gap.missed_kwh.middle,
            missed_band_kwh=KwhBandOut.from_core(gap.missed_kwh),
            text=say("logbook", key, facts),
        )


class LogFindingOut(Out):
    """Something about the rows: doubles, impossible values, a counter set back; how many, and what was done."""

    code: Code
    count: int = Field(ge=0)
    facts: Facts
    text: Text

    @classmethod
    def of(cls, note: LogNote, zone: ZoneInfo) -> Self:
        """With its sentence."""
        facts = dict(note.facts)
        first = facts.get("first")
        if isinstance(first, int):
            facts["first"] = told_time(first, zone)
        since = facts.pop("since_day", None)
        if isinstance(since, int):
            facts["since"] = day_text(since)
        return cls(code=note.code, count=note.count, facts=facts, text=_note_text(note, facts))


def _note_text(note: LogNote, facts: Facts) -> str:
    key = f"note.{note.code}" + (".one" if note.count == 1 else "")
    return say("logbook", key, {"count": note.count, **facts})


class PlaneTurnOut(Out):
    """By how much clear days speak for another plane than the stated one, with the half width of that."""

    tilt_by_deg: r.Degrees
    tilt_half_width_deg: r.Degrees
    azimuth_by_deg: r.Degrees
    azimuth_half_width_deg: r.Degrees


class FlatTopOut(Out):
    """The power at which something cuts the log: the limit that the inverter keeps, or a lid."""

    power_w: r.Watts
    hours: r.Times = Field(description="How long the log stands there.")

    @classmethod
    def of(cls, reading: Reading) -> "FlatTopOut | None":
        """Null where there is none."""
        series = reading.series
        if series is None or not reading.clipped.any():
            return None
        power = float(np.median(series.energy_wh[reading.clipped])) * 3600 / series.step_s
        return cls(power_w=power, hours=int(np.count_nonzero(reading.clipped)) * series.step_s / 3600)


class SpanOut(Out):
    """A day, a month or a year to date."""

    first_day: str = Field(max_length=10)
    logged_kwh: r.Kwh
    expected_kwh: r.Kwh = Field(description="For the whole of it, gaps included.")
    known_share: r.Share = Field(
        description="The part of its expected energy that lies in logged time; with little of it, it is no low day."
    )
    ratio: r.Share | None = Field(description="Logged over expected of the logged time; null where there is none.")
    joined: bool = Field(description="Was a reading over several days spread over it by what was to be expected?")

    @classmethod
    def of(cls, span: SpanTotal) -> Self:
        """With its first day as text."""
        return cls.from_core(span, first_day=day_text(span.first_day))


class MonthPairOut(Out):
    """A month of the last year beside that of the year before, over the days that both know."""

    month: str = Field(max_length=7)
    days: int = Field(ge=1, le=31)
    before_kwh: r.Kwh
    after_kwh: r.Kwh
    change_share: r.Share = Field(description="Of logged over expected; below nought: less than a year before.")


class AdviceOut(Out):
    """Something to do this spring."""

    code: Code
    text: Text


class SecondYearOut(Out):
    """A short letter after the first year: what changed, and what to do this spring."""

    what: str = Field(description="less, more, about_the_same or cannot_tell.", max_length=20)
    change_share: r.Share = Field(description="Of logged over expected, over the days that both years know.")
    doubt_share: r.Share = Field(description="What the light of two years explains of that, either way.")
    before_kwh: r.Kwh
    after_kwh: r.Kwh
    first_day: str = Field(max_length=10, description="The first of the last year's days that were compared.")
    last_day: str = Field(max_length=10)
    months: list[MonthPairOut] = Field(max_length=13)
    to_do: list[AdviceOut] = Field(max_length=10, description="What to do this spring, the most telling first.")
    text: Text = Field(description="The letter's first part: what changed.")

    @classmethod
    def of(cls, found: SecondYear, suspects: list[SuspectOut]) -> Self:
        """With its sentences."""
        change: Facts = {"percent": 100.0 * abs(found.change_share), "before_kwh": found.before_kwh,
                         "after_kwh": found.after_kwh}  # fmt: skip
        doubtful = found.what in ("about_the_same", "cannot_tell")
        clear = [one.code for one in suspects[:1] if one.sureness_share >= _CLEAR_SHARE]
        hidden = doubtful and bool(_SINCE_LAST_YEAR.intersection(clear))  # by the sum of all days
        if hidden:
            change["cause"] = say("logbook", f"cause.{clear[0]}")
        lines = [say("logbook", f"letter.{found.what}" + (".a_cause" if hidden else ""), change)]
        if found.lowest is not None:
            fell = {"month": day_text(found.lowest.first_day)[:7], "percent": -100.0 * found.lowest.change_share}
            lines.append(say("logbook", "letter.lowest", fell))
        if doubtful:
            lines.append(say("logbook", "letter.doubt", {"percent": 100.0 * found.doubt_share}))
        return cls(
            what=found.what, change_share=found.change_share, doubt_share=found.doubt_share,
            before_kwh=found.before_kwh, after_kwh=found.after_kwh, first_day=day_text(found.first_day),
            last_day=day_text(found.last_day), text=" ".join(lines), to_do=_to_do(found, suspects),
            months=[
                MonthPairOut(
                    month=day_text(one.first_day)[:7], days=one.days, before_kwh=one.before_kwh,
                    after_kwh=one.after_kwh, change_share=one.change_share,
                )
                for one in found.months
            ],
        )  # fmt: skip


def _to_do(found: SecondYear, suspects: list[SuspectOut]) -> list[AdviceOut]:
    """The likeliest cause first, then what every spring asks for."""
    told = [
        AdviceOut(
            code="look_at_cause",
            text=say(
                "logbook", "do.look_at_cause", {"cause": say("logbook", f"cause.{one.code}"), "look": one.look_at}
            ),
        )
        for one in suspects[:1]
        if one.sureness_share >= _CLEAR_SHARE
    ]
    usual = ["wash", "look_round", "fastenings", "compare_counter"]
    if suspects and suspects[0].code == "shade_grown":
        usual.remove("look_round")
    if found.what == "more":
        usual.remove("wash")
    return told + [AdviceOut(code=code, text=say("logbook", f"do.{code}")) for code in usual]


class LogbookOut(Out):
    """Is it doing what it should?"""

    conclusion: Conclusion
    because: ReasonOut
    from_time: str | None = Field(max_length=40, description="Begin of the first row's time; null: nothing was read.")
    to_time: str | None = Field(max_length=40)
    step_minutes: r.Times | None = Field(description="How far rows usually lie apart.")
    logged_kwh: r.Kwh = Field(description="What the rows hold.")
    compared_kwh: r.Kwh = Field(
        description="That part which is compared: without lower bounds, such as after a counter was set back, and "
        "without time in which the set was off."
    )
    expected_kwh: KwhBandOut = Field(description="What was to be expected in exactly the time compared.")
    ratio: r.Share | None = Field(description="compared_kwh over the middle of expected_kwh.")
    visible_shortfall_share: r.Share = Field(
        description="The smallest shortfall that such a log would have shown, nine times in ten: in its sum (of a few "
        "days weather hides more), or on the days that tell the set's level."
    )
    basis: str = Field(
        max_length=20,
        description="What the expectation rests on: the neighbours' logs (peers), given weather (weather; "
        "weather_in_part: it leaves more than a fifth open), climate.",
    )
    basis_text: Text
    suspects: list[SuspectOut] = Field(
        max_length=20, description="The surest first; also where the conclusion is another, for whoever wants to look."
    )
    fitted_turn: PlaneTurnOut | None
    clear_days: int = Field(ge=0, description="Cloudless days found in the log, the sharpest test of plane and shade.")
    flat_top: FlatTopOut | None
    gaps: list[GapOut] = Field(max_length=MOST_GAPS, description="In order of time.")
    missed_kwh: KwhBandOut = Field(description="Of all gaps together; `cautious` is the smaller one.")
    findings: list[LogFindingOut] = Field(max_length=50)
    month_to_date: SpanOut | None
    year_to_date: SpanOut | None
    months: list[SpanOut] = Field(max_length=MOST_MONTHS)
    days: list[SpanOut] = Field(max_length=MOST_DAYS, description="The last days of the log.")
    promised_year_kwh: KwhBandOut = Field(description="A usual year, as /v1/energy tells it.")
    projected_year_kwh: KwhBandOut | None = Field(
        description="A usual year by what the log says of the set; null where it gives nothing now, or the log is none "
        "of the sun."
    )
    second_year: SecondYearOut | None = Field(
        default=None, description="Where the log is longer than a year and four weeks: what changed, what to do."
    )

    @classmethod
    def of(
        cls,
        reading: Reading,
        judged: Judged,
        suspects: list[SuspectOut],
        found: Diagnosis | None,
        promised_kwh: Band,
    ) -> Self:
        """The whole answer, with its sentences."""
        zone, pieces = ZoneInfo(reading.zone.name), reading.log.total
        told = pieces.energy_wh.size > 0
        projected = judged.projected_year_kwh
        month, year = judged.totals.month_to_date, judged.totals.year_to_date
        return cls(
            conclusion=judged.conclusion,
            because=_reason(reading, judged, suspects),
            from_time=told_time(int(pieces.begin_s[0]), zone) if told else None,
            to_time=told_time(int(pieces.end_s[-1]), zone) if told else None,
            step_minutes=pieces.step_s / 60 if told else None,
            logged_kwh=reading.logged_kwh,
            compared_kwh=reading.compared_kwh,
            expected_kwh=KwhBandOut.from_core(reading.expected_kwh),
            ratio=reading.ratio,
            visible_shortfall_share=judged.visible_share,
            basis=reading.now.basis,
            basis_text=say("logbook", f"basis.{reading.now.basis}"),
            suspects=suspects,
            fitted_turn=None if found is None or found.plane is None else PlaneTurnOut.from_core(found.plane),
            clear_days=0 if found is None else found.clear_days,
            flat_top=FlatTopOut.of(reading),
            gaps=[GapOut.of(gap, zone) for gap in _largest(reading.sorted.gaps)],
            missed_kwh=KwhBandOut.from_core(reading.missed_kwh),
            findings=[LogFindingOut.of(note, zone) for note in reading.notes],
            month_to_date=None if month is None else SpanOut.of(month),
            year_to_date=None if year is None else SpanOut.of(year),
            months=[SpanOut.of(span) for span in judged.totals.months[-MOST_MONTHS:]],
            days=[SpanOut.of(span) for span in judged.totals.days[-MOST_DAYS:]],
            promised_year_kwh=KwhBandOut.from_core(promised_kwh),
            projected_year_kwh=None if projected is None else KwhBandOut.from_core(projected),
            second_year=None if judged.second_year is None else SecondYearOut.of(judged.second_year, suspects),
        )


def _largest(gaps: tuple[Gap, ...]) -> list[Gap]:
    if len(gaps) <= MOST_GAPS:
        return list(gaps)
    kept = sorted(gaps, key=lambda gap: gap.would_have_kwh, reverse=True)[:MOST_GAPS]
    return sorted(kept, key=lambda gap: gap.begin_s)


def _reason(reading: Reading, judged: Judged, suspects: list[SuspectOut]) -> ReasonOut:
    facts: dict[str, str | float | None] = {
        "ratio_pct": None if reading.ratio is None else 100.0 * reading.ratio,
        "days": reading.days,
        "visible_pct": 100.0 * judged.visible_share,
        "cause": say("logbook", f"cause.{suspects[0].code}") if suspects else None,
        "sure_pct": 100.0 * suspects[0].sureness_share if suspects else None,
        "wrong_pct": None if judged.wrong_share is None else 100.0 * judged.wrong_share,
    }
    if reading.silent is not None:
        facts |= {"since": told_time(reading.silent.since_s, ZoneInfo(reading.zone.name))[:10],
                  "silent_days": reading.silent.days}  # fmt: skip
    if judged.because == WAS_OFF:
        facts |= {"off": suspects[0].text, "off_days": suspects[0].evidence["days"]}
    if judged.because in ("input_gives_nothing", "input_gives_little"):
        facts |= {"silence": suspects[0].text, "input": suspects[0].input, "since": suspects[0].since}
    told = {name: value for name, value in facts.items() if value is not None}
    vague = judged.because == "cause_found" and (not suspects or suspects[0].sureness_share < _CLEAR_SHARE)
    low = judged.because == "within_band" and reading.compared_kwh < (reading.expected_kwh.cautious or 0.0)
    key = f"because.{judged.because}" + (".vague" if vague else ".low" if low else "")
    text = say("logbook", key, told)
    for name, lost in (("off", judged.off), ("not_logged", judged.unlogged)):
        if lost is not None and not (name == "off" and judged.because == WAS_OFF):
            also = {"days": lost.days, "kwh": lost.kwh}
            text += " " + say("logbook", f"also.{name}" + (".one" if lost.days == 1 else ""), also)
    return ReasonOut(code=judged.because, facts=told, text=text)


class _Logbook(Out):
    logbook: LogbookOut


class LogbookAnswerOut(Beside, _Logbook):
    """Is it doing what it should?"""
