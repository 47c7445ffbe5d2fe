"""How is a year's energy answered: how much, when, what is lost where, how sure?"""

from collections.abc import Sequence
from typing import Literal, Self

import numpy as np
from pydantic import Field
from pydantic.json_schema import SkipJsonSchema

from service.api.schemas import rounding as r
from service.api.schemas.band import KwhBandOut
from service.api.schemas.base import Code, Out, Text, absent
from service.api.words import say
from service.core.energy import EnergyYear
from service.core.model.hours import Calendar, Floats


class PlaneOut(Out):
    """Tilt 0 flat to 90 upright; azimuth clockwise from north."""

    tilt_deg: r.Degrees
    azimuth_deg: r.Degrees


class DayKindOut(Out):
    """The mean day of one kind in one season, by the hour of the wall clock."""

    season: Literal["winter", "spring", "summer", "autumn"]
    kind: Literal["clear", "changing", "dull"]
    days: int = Field(ge=0, le=366)
    ac_w: list[r.Watts] = Field(min_length=24, max_length=24)


class ArrayYearOut(Out):
    """One array's part in the year."""

    name: str = Field(max_length=60)
    year_kwh: r.Kwh
    plane: PlaneOut
    peak_w: r.Watts = Field(description="Highest hourly mean of its d.c. power.")
    hottest_cell_c: r.Celsius
    hours_not_started: int = Field(ge=0, le=8784, description="Hours with light in which its input gave nothing.")


class SpreadPartOut(Out):
    """One reason why the year is uncertain."""

    code: Code
    relative_sd_share: r.Share
    text: Text


class HoursOut(Out):
    """The hours of the typical year: hourly means, the first one beginning at ``first``."""

    first: str = Field(description="RFC 3339.", max_length=30)
    step_minutes: Literal[60]
    ac_w: list[float] = Field(min_length=8760, max_length=8784)
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


class EnergyOut(Out):
    """A typical year. ``light_kwh`` less all of ``lost_kwh`` is the middle of ``year_kwh``."""

    year_kwh: KwhBandOut
    months_kwh: list[r.Kwh] = Field(min_length=12, max_length=12, description="January first.")
    day_kinds: list[DayKindOut] = Field(max_length=12)
    hours_at_limit: float = Field(description="Hours in which the inverter's limit cut the power.")
    light_kwh: r.Kwh = Field(description="What the rated power would give in all the light on the bare planes.")
    lost_kwh: dict[str, r.Kwh] = Field(description="By the code of the loss, in the order in which light meets it.")
    night_draw_kwh: r.Kwh = Field(
        description="Drawn from the socket at night; not in the year's energy, but taken off the saving."
    )
    arrays: list[ArrayYearOut] = Field(min_length=1, max_length=8)
    spread: list[SpreadPartOut] = Field(max_length=20)
    hours: HoursOut | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Only where `include` asks for it."
    )

    @classmethod
    def of(cls, energy: EnergyYear, calendar: Calendar | None = None) -> Self:
        """The year; with its hours where a calendar is given."""
        return cls.from_core(
            energy,
            spread=[
                SpreadPartOut(code=part.code, relative_sd_share=part.relative_sd_share, text=say("spread", part.code))
                for part in energy.spread
            ],
            hours=None if calendar is None else HoursOut.of(energy.ac_w, energy.dc_w, calendar),
        )
