"""How is it answered how a set should stand: planes, ranges, schedules, a map, rules of thumb?"""

from typing import Annotated, Literal, Self

import numpy as np
from pydantic import Field
from pydantic.json_schema import SkipJsonSchema

from service.api.schemas import rounding as r
from service.api.schemas.answers import Beside
from service.api.schemas.base import Code, Out, Text, absent
from service.api.schemas.energy import PlaneOut
from service.api.schemas.facing import DayOut, FacingOut
from service.api.schemas.finding import FindingOut
from service.api.schemas.tilt_notes import TiltNoteOut, notes_of, wanted
from service.api.words import say
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.place import Plane
from service.core.tilt import Facing, NearBest, PlaneMap, RuleHere, Schedule, TiltAdvice, YearAtHome


class BringsOut(Out):
    """What planes bring in a year."""

    year_kwh: r.Kwh
    self_used_kwh: r.Kwh
    saving_first_year: r.Money | None = Field(description="Null where no price per kWh is known.")

    @classmethod
    def of(cls, brings: YearAtHome) -> Self:
        """Of one set of planes."""
        return cls(year_kwh=brings.year_kwh, self_used_kwh=brings.self_used_kwh, saving_first_year=brings.saving)


class ArrayPlaneOut(Out):
    """The plane of one array."""

    name: str = Field(max_length=60)
    plane: PlaneOut


class PlanesOut(Out):
    """Planes of all arrays and what they bring."""

    planes: list[ArrayPlaneOut] = Field(min_length=1, max_length=8)
    brings: BringsOut

    @classmethod
    def of(cls, setup: Setup, planes: tuple[Plane, ...], brings: YearAtHome) -> Self:
        """In the order of the arrays."""
        return cls(
            planes=[
                ArrayPlaneOut(name=array.name, plane=PlaneOut.from_core(plane))
                for array, plane in zip(setup.arrays, planes, strict=True)
            ],
            brings=BringsOut.of(brings),
        )


class ObjectiveOut(Out):
    """What another objective would choose."""

    objective: Literal["energy", "self_used", "money"]
    plane: PlaneOut
    brings: BringsOut
    text: Text


class NearBestOut(Out):
    """Within a share of the best lies any tilt of this range, and at the best tilt any direction of that one.

    Directions run clockwise from low to high; 0 and 360 together are all.
    """

    within_share: r.Share
    low_tilt_deg: r.Degrees
    high_tilt_deg: r.Degrees
    low_azimuth_deg: r.Degrees
    high_azimuth_deg: r.Degrees
    text: Text

    @classmethod
    def of(cls, near: NearBest, railing_azimuth_deg: float | None) -> Self:
        """With its sentence, from the railing where the set hangs on one: degrees out from upright, left or right."""
        low, high = near.low_tilt_deg, near.high_tilt_deg
        if railing_azimuth_deg is not None:
            low, high = 90.0 - high, 90.0 - low
        kind = "tilt" if railing_azimuth_deg is None else "out"
        width = "one" if round(low) == round(high) else "several"
        facts = {
            "within": 100 * near.within_share,
            "tilts": say("tilt", f"near.{kind}.{width}", {"low": low, "high": high}),
            "turned": _turned(near, railing_azimuth_deg),
        }
        return cls.from_core(near, text=say("tilt", "near_best", facts))


def direction_said(azimuth_deg: float, railing_azimuth_deg: float | None) -> str:
    """A direction in words: by the compass, or from the railing."""
    if railing_azimuth_deg is None:
        return say("tilt", "way.compass", {"azimuth": azimuth_deg})
    turn = round((azimuth_deg - railing_azimuth_deg + 180.0) % 360.0 - 180.0)
    side = "straight" if turn == 0 else "left" if turn < 0 else "right"
    return say("tilt", f"way.{side}{'.one' if abs(turn) == 1 else ''}", {"turn": abs(turn)})


def _turned(near: NearBest, railing_azimuth_deg: float | None) -> str:
    if not near.turns:
        return ""
    if (near.low_azimuth_deg, near.high_azimuth_deg) == (0.0, 360.0):
        return say("tilt", "turned.around")
    ends = [direction_said(end, railing_azimuth_deg) for end in (near.low_azimuth_deg, near.high_azimuth_deg)]
    facts = {"low_azimuth": ends[0], "high_azimuth": ends[1]}
    return say("tilt", "turned.one" if ends[0] == ends[1] else "turned.arc", facts)


class ScheduleStepOut(Out):
    """From this day on, this plane (of the first array that is moved; the others turn with it)."""

    from_date: DayOut
    plane: PlaneOut


class ScheduleOut(Out):
    """The best so many planes a year, with the days of change that bring most, against the best single plane.

    The code judges what was wanted, and money wherever a price is known.
    """

    changes_per_year: int = Field(ge=2, le=12)
    gain_share: r.Share = Field(description="Of what was wanted, over the best single plane's.")
    gain_kwh: r.Kwh
    gain_self_used_kwh: r.Kwh
    gain_money: r.Money | None = Field(description="In the first year. Null where no price per kWh is known.")
    gain_kwh_per_change: r.Kwh
    gain_money_per_change: r.Money | None
    steps: list[ScheduleStepOut] = Field(
        min_length=1, max_length=12, description="Fewer than asked for where more bring next to nothing."
    )
    code: Code
    text: Text

    @classmethod
    def of(cls, schedule: Schedule, objective: str, currency: str | None) -> Self:
        """With what it comes to for each change, and its sentence in terms of what was wanted."""
        planes = len(schedule.steps)
        changes = planes if planes > 1 else schedule.changes_per_year
        each = schedule.gain_kwh / changes
        money = None if schedule.gain_money is None else schedule.gain_money / changes
        facts = {
            "asked": schedule.changes_per_year,
            "planes": planes,
            "share": 100 * schedule.gain_share,
            "kwh": schedule.gain_kwh,
            "kwh_each": each,
            "used": schedule.gain_self_used_kwh,
            "used_each": schedule.gain_self_used_kwh / changes,
            "amount": schedule.gain_money or 0.0,
            "amount_each": money or 0.0,
            "currency": currency or "",
        }
        facts["money"] = "" if money is None or objective == "money" else say("tilt", "money", facts)
        gains = "" if planes == 1 else say("tilt", f"gains.{objective}", facts) + " "
        return cls.from_core(
            schedule,
            gain_kwh_per_change=each,
            gain_money_per_change=money,
            steps=[
                ScheduleStepOut(from_date=DayOut.of(one.from_day), plane=PlaneOut.from_core(one.plane))
                for one in schedule.steps
            ],
            code=schedule.verdict,
            text=gains + say("tilt", f"schedule.{schedule.verdict}", facts),
        )


class MapOut(Out):
    """Energy and money over all planes; one row for each tilt. Of several arrays all are moved together."""

    tilt_deg: list[r.Degrees] = Field(min_length=1, max_length=91)
    azimuth_deg: list[r.Degrees] = Field(min_length=1, max_length=360)
    year_kwh: list[list[float]] = Field(min_length=1, max_length=91)
    saving_first_year: list[list[float]] | None = Field(
        max_length=91, description="Each kWh at the price of its hour. Null where no price is known."
    )
    currency: str | None = Field(max_length=3, description="Null where no price is known.")
    self_used_kwh: Annotated[list[list[float]], Field(max_length=91)] | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Only where use at home is the objective."
    )

    @classmethod
    def of(cls, found: PlaneMap, currency: str | None) -> Self:
        """Rounded to a tenth of a kWh and a hundredth of the money."""
        return cls(
            tilt_deg=found.tilt_deg.tolist(),
            azimuth_deg=found.azimuth_deg.tolist(),
            year_kwh=np.round(found.year_kwh, 1).tolist(),
            saving_first_year=None if found.saving is None else np.round(found.saving, 2).tolist(),
            currency=None if found.saving is None else currency,
            self_used_kwh=None if found.self_used_kwh is None else np.round(found.self_used_kwh, 1).tolist(),
        )


class RuleOut(Out):
    """A rule of thumb beside what was computed."""

    code: Code
    steps: list[ScheduleStepOut] = Field(min_length=1, max_length=4)
    year_kwh: r.Kwh
    off_share: r.Share = Field(
        description="How far its energy is below the best here with as many planes a year, nothing binding the set: of "
        "one tilt below the best single plane, of several below the best schedule. Negative: above."
    )
    text: Text
    source: str = Field(max_length=300)

    @classmethod
    def of(cls, here: RuleHere) -> Self:
        """With its sentence."""
        rule = here.rule
        kind = "one" if len(rule.steps) == 1 else "several"
        facts = {"off": 100 * max(here.off_share, 0.0), "planes": len(rule.steps)}
        how_far = say("tilt", f"off.{kind}", facts)
        return cls.from_core(
            here,
            code=rule.code,
            steps=[
                ScheduleStepOut(from_date=DayOut.of(day), plane=PlaneOut(tilt_deg=tilt, azimuth_deg=rule.azimuth_deg))
                for day, tilt in rule.steps
            ],
            text=f"{say('tilt', f'rule.{rule.code}')} {how_far}",
            source=rule.source,
        )


class TiltOut(Out):
    """How the set should stand.

    ``best`` is the plane of the first array that may be moved: the same for all that move with it, or turned by as
    much as their railings are. ``best_planes`` lists all of them, ``apart`` what would be best if each array had its
    own, ``free`` what would be best if no mount bound it, ``stands`` the planes of the request.
    """

    objective: Literal["energy", "self_used", "money"]
    text: Text
    best: PlaneOut
    best_year_kwh: r.Kwh
    best_planes: PlanesOut
    best_per_array: PlanesOut = Field(description="If each array may have its own plane; never less than the same.")
    free: PlanesOut = Field(description="The best same plane for all if nothing bound it; arrays apart may bring more.")
    stands: PlanesOut = Field(description="As the set stands in this request, or was taken to stand.")
    given_reaches_share: r.Share = Field(description="What the planes as they stand give of the best.")
    objectives: list[ObjectiveOut] = Field(min_length=2, max_length=3)
    notes: list[TiltNoteOut] = Field(max_length=5)
    railing_azimuth_deg: r.Degrees | None = Field(
        description="Which way the railing or wall faces; null where the set hangs on none."
    )
    near_best: list[NearBestOut] = Field(
        max_length=3, description="Empty where planes or tilts are listed, or nothing may be moved."
    )
    schedules: list[ScheduleOut] = Field(max_length=3)
    rules_of_thumb: list[RuleOut] = Field(max_length=10)
    map: MapOut | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Only where it is asked for."
    )
    facing: FacingOut | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Only where the site tells when the sun was seen."
    )

    @classmethod
    def of(cls, advice: TiltAdvice, setup: Setup, facing: Facing | None, assumptions: Assumptions) -> Self:
        """The whole object."""
        stands, best = (wanted(one, advice.objective) for one in (advice.stands_brings, advice.best_brings))
        currency = None if setup.tariff is None else setup.tariff.currency
        return cls(
            objective=advice.objective,
            text=say("tilt", f"objective.{advice.objective}"),
            best=PlaneOut.from_core(advice.best),
            best_year_kwh=advice.best_brings.year_kwh,
            best_planes=PlanesOut.of(setup, advice.best_planes, advice.best_brings),
            best_per_array=PlanesOut.of(setup, advice.apart, advice.apart_brings),
            free=PlanesOut.of(setup, advice.free_planes, advice.free_brings),
            stands=PlanesOut.of(setup, advice.stands, advice.stands_brings),
            given_reaches_share=stands / best if best > 0 else 1.0,
            objectives=[
                ObjectiveOut(
                    objective=one.objective,
                    plane=PlaneOut.from_core(one.plane),
                    brings=BringsOut.of(one.brings),
                    text=say("tilt", f"objective.{one.objective}"),
                )
                for one in advice.others
            ],
            notes=list(notes_of(advice, facing, assumptions)),
            railing_azimuth_deg=advice.railing_azimuth_deg,
            near_best=[NearBestOut.of(near, advice.railing_azimuth_deg) for near in advice.near_best],
            schedules=[ScheduleOut.of(one, advice.objective, currency) for one in advice.schedules],
            rules_of_thumb=[RuleOut.of(one) for one in advice.rules],
            map=None if advice.map is None else MapOut.of(advice.map, currency),
            facing=FacingOut.where_noted(facing),
        )


class _Tilt(Out):
    tilt: TiltOut
    findings: Annotated[list[FindingOut], Field(max_length=8)] | SkipJsonSchema[None] = Field(
        default=None,
        exclude_if=absent,
        description="Only where hardly anything comes of an array or of the set as it stands, or in half of the year "
        "of an array (`next_to_nothing`): why.",
    )


class TiltAnswerOut(Beside, _Tilt):
    """How should it stand?"""
