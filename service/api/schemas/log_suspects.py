"""How is a cause told that may stand behind what a log shows?"""

from dataclasses import dataclass
from typing import Self
from zoneinfo import ZoneInfo

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.base import Code, Facts, Out, Text
from service.api.schemas.log_times import day_text, told_time
from service.api.words import say
from service.core.logbook import LostTime, SilentInput, Suspect, WeakInput


@dataclass(frozen=True, slots=True, kw_only=True)
class YearLost:
    """What a cause costs in a usual year, and of the days logged where the chain told that too; None: not known."""

    kwh: float | None
    worth: float | None
    log_share: float | None = None


class SuspectOut(Out):
    """A cause that may stand behind what the log shows, the surest first."""

    code: Code
    input: int | None = Field(ge=1, le=8, description="In whose log it shows; null: in that of the whole set.")
    sureness_share: r.Share
    effect_share: r.Share | None = Field(
        description="The part of the logged time's energy that it takes; below nought where the set gives more so, "
        "null where the log does not tell."
    )
    effect_kwh_per_year: r.Kwh | None = Field(
        description="What it costs in a usual year while it lasts: of a cause that began within the log at its full "
        "rate, of a lower limit or another plane what the set's year is short of then; below nought where it gives "
        "more."
    )
    effect_per_year: r.Money | None = Field(description="What that costs; null where no price per kWh is known.")
    since: str | None = Field(
        default=None, max_length=10, description="The first day that shows it, where the rows tell."
    )
    evidence: Facts
    text: Text
    look_at: Text

    @classmethod
    def of(
        cls, one: Suspect, number: int | None, year_kwh: float, per_kwh: float | None, lost: YearLost | None = None
    ) -> Self:
        """With its sentences; ``per_kwh`` is what a kWh is worth to the home, ``lost`` where the chain told it."""
        share = one.effect_share if one.lasting_share is None else one.lasting_share
        if lost is None:
            kwh = None if share is None else share * year_kwh
            lost = YearLost(kwh=kwh, worth=None if kwh is None or per_kwh is None else kwh * per_kwh)
        return cls.from_core(
            one,
            input=number,
            effect_share=one.effect_share if lost.log_share is None else lost.log_share,
            effect_kwh_per_year=lost.kwh,
            effect_per_year=lost.worth,
            evidence=dict(one.evidence),
            since=None if one.since_day is None else day_text(one.since_day),
            text=say("logbook", f"suspect.{one.code}", one.evidence),
            look_at=say("logbook", f"look.{one.code}", one.evidence),
        )

    @classmethod
    def of_silent(cls, one: SilentInput, year_kwh: float, per_kwh: float | None) -> Self:
        """An input that gave nothing while another gave."""
        since = day_text(one.since_day)
        facts = {"input": one.number, "other": one.other, "since": since, "days": one.days, "told": one.days_told}
        key = "silent.to_the_end" if one.to_the_end else "silent.some_days"
        return cls.of(one.suspect(), one.number, year_kwh, per_kwh).model_copy(
            update={"since": since, "text": say("logbook", key, facts)}
        )

    @classmethod
    def of_weak(cls, one: WeakInput, year_kwh: float, per_kwh: float | None) -> Self:
        """An input that gave far less than it should beside another."""
        since = day_text(one.since_day)
        facts = {
            "input": one.number, "other": one.other, "since": since, "days": one.days, "told": one.days_told,
            "percent": 100.0 * one.level_share, "spread": 100.0 * one.day_sd_share,
        }  # fmt: skip
        return cls.of(one.suspect(), one.number, year_kwh, per_kwh).model_copy(
            update={"since": since, "text": say("logbook", f"weak.{one.pattern}", facts)}
        )

    @classmethod
    def of_off_time(cls, off: LostTime, zone: ZoneInfo, worth: tuple[float, str] | None) -> Self:
        """A set that was off for days; ``worth``: what that time's energy was worth, with its currency."""
        first, last = told_time(off.first_s, zone)[:10], told_time(off.last_s, zone)[:10]
        facts: Facts = {"days": off.days, "stretches": off.gaps, "not_made_kwh": off.kwh, "since": first, "until": last}
        if worth is not None:
            facts |= {"not_made_worth": worth[0], "currency": worth[1]}
        text = say("logbook", "suspect.set_off", facts) + (
            "" if worth is None else " " + say("logbook", "also.worth", facts)
        )
        return cls(
            code="set_off", input=None, sureness_share=off.sureness_share, effect_share=off.share,
            effect_kwh_per_year=None, effect_per_year=None, since=first, evidence=facts,
            text=text, look_at=say("logbook", "look.set_off", facts),
        )  # fmt: skip
