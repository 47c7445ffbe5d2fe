"""How is a year's energy answered: how much, when, what is lost where, how sure?"""

from collections.abc import Sequence
from typing import Annotated, Literal, Self

import numpy as np
from pydantic import Field
from pydantic.json_schema import SkipJsonSchema

from service.api.schemas import rounding as r
from service.api.schemas.band import KwhBandOut
from service.api.schemas.base import Code, Out, Text, Told, absent
from service.api.schemas.what_if import WhatIfOut, WhatIfReasonOut
from service.api.words import say
from service.core.appraisal import MOST_CHANGES
from service.core.energy import EnergyYear
from service.core.model.hours import Calendar, Floats
from service.core.model.weather import GivenSky


class PlaneOut(Out):
    """Tilt 0 flat to 90 upright; azimuth clockwise from north."""

    tilt_deg: r.Degrees
    azimuth_deg: r.Degrees


class DayKindOut(Out):
    """The mean day of one kind in one season, by the hour of the wall clock."""

    season: Literal["winter", "spring", "summer", "autumn"]
    kind: Literal["clear", "changing", "dull"]
    days: int = Field(ge=0, le=366)
    ac_w: r.WattsEach = Field(min_length=24, max_length=24)


class ArrayYearOut(Out):
    """One array's part in the year."""

    name: str = Field(max_length=60)
    year_kwh: r.Kwh | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Absent where the weather given is less than a year."
    )
    plane: PlaneOut
    peak_w: r.Watts = Field(description="Highest hourly mean of its d.c. power.")
    hottest_cell_c: r.Celsius
    hours_not_started: int = Field(ge=0, le=8784, description="Hours with light in which its input gave nothing.")


class SpreadPartOut(Out):
    """One reason why the year is uncertain."""

    code: Code
    relative_sd_share: r.Share = Field(description="Standard deviation over the year's energy, towards less.")
    upward_sd_share: r.Share | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="The same towards more, only where it is another one."
    )
    text: Text


class HoursOut(Out):
    """The hours of the typical year: hourly means, the first one beginning at ``first``.

    A whole year of given weather is told by the calendar of the same year as the typical one, from 1 January, without a
    29 February; a part of a year by its own days.
    """

    first: str = Field(description="RFC 3339.", max_length=30)
    step_minutes: Literal[60]
    ac_w: list[float] = Field(min_length=1, max_length=8784)
    dc_w: list[list[float]] = Field(min_length=1, max_length=8, description="One list for each array.")

    @classmethod
    def of(cls, ac_w: Floats, dc_w: Sequence[Floats], calendar: Calendar) -> Self:
        """Rounded to a tenth of a watt."""
        return cls(
            first=f"{np.datetime_as_string(calendar.utc[0], unit='s')}Z",
            step_minutes=60,
            ac_w=np.round(ac_w, 1).tolist(),
            dc_w=[np.round(one, 1).tolist() for one in dc_w],
        )


class WeatherGapOut(Out):
    """Hours in a row that the given series did not know, and that were filled."""

    what: Literal["light", "air", "wind"]
    from_time: str = Field(description="RFC 3339.", max_length=30)
    to_time: str = Field(description="RFC 3339.", max_length=30)
    hours: int = Field(ge=0, le=8784)
    daylight_hours: int = Field(ge=0, le=8784)


class GivenWeatherOut(Out):
    """What the answer rests on where the caller gave the weather."""

    from_time: str = Field(description="RFC 3339.", max_length=30)
    to_time: str = Field(description="RFC 3339.", max_length=30)
    whole_year: bool = Field(description="Are all hours of a year in it? Only then is there a yearly figure.")
    hours: int = Field(ge=1, le=8784, description="Hours answered: 8760 of a whole year.")
    months_hours: list[int] = Field(
        min_length=12,
        max_length=12,
        description="How many of them lie in each month of the wall clock, January first; in the others nothing is "
        "known of the set.",
    )
    kwh: KwhBandOut = Field(description="A.c. energy in these hours.")
    arrays_kwh: list[r.Kwh] = Field(min_length=1, max_length=8, description="The middle of it by array.")
    level_ground_kwh_per_m2: r.Kwh = Field(
        description="Light on level ground in these hours. Of light that was given on the panels' planes alone a "
        "guess: the assumption `level_from_plane` tells its range."
    )
    gaps: list[WeatherGapOut] = Field(max_length=9000)
    leap_day_left_out: bool = Field(description="A year has 365 days here; a 29 February in it is left out.")
    hours_left_out: int = Field(ge=0, description="Of more than a year the last counts; so many hours lie before it.")

    @classmethod
    def of(cls, weather: GivenSky, energy: EnergyYear) -> Self:
        """The span, its gaps and its energy."""
        return cls(
            from_time=weather.from_utc,
            to_time=weather.to_utc,
            whole_year=weather.whole_year,
            hours=weather.sky.ghi_w_per_m2.size,
            months_hours=_months_hours(weather),
            kwh=KwhBandOut.from_core(energy.year_kwh),
            arrays_kwh=[one.year_kwh for one in energy.arrays],
            level_ground_kwh_per_m2=float(weather.sky.ghi_w_per_m2.sum()) / 1000.0,
            gaps=[WeatherGapOut.from_core(gap, from_time=gap.from_utc, to_time=gap.to_utc) for gap in weather.gaps],
            leap_day_left_out=weather.leap_day_left_out,
            hours_left_out=weather.hours_left_out,
        )


def _months_hours(weather: GivenSky) -> list[int]:
    """Hours in each month of the wall clock, 12."""
    hours: list[int] = np.bincount(weather.sky.calendar.month - 1, minlength=12).tolist()
    return hours


def _of_part(energy: EnergyYear, weather: GivenSky) -> dict[str, object]:
    """What is not known of a year of which a part was given: the year, and months without an hour."""
    known = zip(energy.months_kwh, _months_hours(weather), strict=True)
    return {"year_kwh": None, "months_kwh": [kwh if hours else None for kwh, hours in known]}


class EnergyOut(Told):
    """A typical year, or the hours of the weather that was given.

    ``light_kwh`` less all of ``lost_kwh`` is the middle of ``year_kwh``; of given weather that of ``weather.kwh``.
    """

    year_kwh: KwhBandOut | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Absent where the weather given is less than a year."
    )
    months_kwh: r.KwhEachKnown = Field(
        min_length=12,
        max_length=12,
        description="January first. Of less than a year what its hours give (`weather.months_hours`), null in months "
        "of which it has none.",
    )
    day_kinds: list[DayKindOut] = Field(max_length=12)
    hours_at_limit: float = Field(description="Hours in which the inverter's limit cut the power.")
    light_kwh: r.Kwh = Field(description="What the rated power would give in all the light on the bare planes.")
    lost_kwh: dict[str, r.Kwh] = Field(description="By the code of the loss, in the order in which light meets it.")
    night_draw_kwh: r.Kwh = Field(
        description="Drawn from the socket at night; not in the year's energy, but taken off the saving."
    )
    arrays: list[ArrayYearOut] = Field(min_length=1, max_length=8)
    spread: list[SpreadPartOut] = Field(
        max_length=20,
        description="Independent reasons: together the root of the sum of their squares, and cautious and hopeful lie "
        "1.28 times that from the middle in the light. Limits act anew at both ends, and what table and years make "
        "comes and goes as clouds do, so that the energy of a band may be narrower or wider than that.",
    )
    hours: HoursOut | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Only where `include` asks for it."
    )
    what_if: Annotated[list[WhatIfOut], Field(max_length=MOST_CHANGES)] | SkipJsonSchema[None] = Field(
        default=None,
        exclude_if=absent,
        description="Only where `include` asks for it, and of a whole year: the set with one thing changed, its planes "
        "otherwise as they were, without a battery. Empty where the set admits no such change.",
    )
    what_if_because: WhatIfReasonOut | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Only where `what_if` was asked for and tells nothing: why."
    )

    weather: GivenWeatherOut | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Only where the request gives the weather."
    )

    def told(self) -> KwhBandOut:
        """The year; of a part of one what its hours give."""
        if self.year_kwh is not None:
            return self.year_kwh
        if self.weather is None:
            message = "an energy without a year and without weather"
            raise ValueError(message)
        return self.weather.kwh

    @classmethod
    def of(
        cls,
        energy: EnergyYear,
        calendar: Calendar | None = None,
        weather: GivenSky | None = None,
        what_if: Sequence[WhatIfOut] | None = None,
        what_if_because: WhatIfReasonOut | None = None,
    ) -> Self:
        """The year; with its hours where a calendar is given, and with what is known of weather that was given."""
        part = weather is not None and not weather.whole_year
        of_arrays = [ArrayYearOut.from_core(one, **({"year_kwh": None} if part else {})) for one in energy.arrays]
        return cls.from_core(
            energy,
            **({} if weather is None or weather.whole_year else _of_part(energy, weather)),
            arrays=of_arrays,
            weather=None if weather is None else GivenWeatherOut.of(weather, energy),
            spread=[
                SpreadPartOut(
                    code=part.code,
                    relative_sd_share=part.relative_sd_share,
                    upward_sd_share=part.upward_sd_share,
                    text=say("spread", part.code),
                )
                for part in energy.spread
                if part.relative_sd_share > 0.0 or weather is None
            ],
            hours=None if calendar is None else HoursOut.of(energy.ac_w, energy.dc_w, calendar),
            what_if=what_if,
            what_if_because=what_if_because,
        )
