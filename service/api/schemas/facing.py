"""How is it answered which way a railing faces?"""

from datetime import date, timedelta
from typing import Literal, Self

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.base import Out, Text
from service.api.words import say
from service.core.model.hours import REFERENCE_YEAR
from service.core.tilt import Facing


class DayOut(Out):
    """A day of the year."""

    month: int = Field(ge=1, le=12)
    day: int = Field(ge=1, le=31)

    @classmethod
    def of(cls, day_of_year: int) -> Self:
        """The day so many days after 1 January of a plain year."""
        day = date(REFERENCE_YEAR, 1, 1) + timedelta(days=day_of_year)
        return cls(month=day.month, day=day.day)


class ObstacleOut(Out):
    """What the railing's own line does not explain: there the sun stood."""

    azimuth_deg: r.Degrees
    height_deg: r.Degrees
    date: DayOut
    clock: str = Field(description="Wall clock, HH:MM.", max_length=5)
    appears: bool = Field(description="True: the sun came then; false: it went.")
    text: Text


class FacingOut(Out):
    """Which way the railing faces, by when the sun was seen.

    Panels on a railing, wall or fence without an azimuth of their own are taken to face so, on every path.
    """

    azimuth_deg: r.Degrees
    low_azimuth_deg: r.Degrees
    high_azimuth_deg: r.Degrees
    sure: bool = Field(description="Seen over nearly half of the compass, on two dates or more.")
    basis: Literal["both_ends", "one_date", "fewest_obstacles", "middle"]
    obstacles: list[ObstacleOut] = Field(max_length=20)
    text: Text

    @classmethod
    def where_noted(cls, facing: Facing | None) -> Self | None:
        """None where nobody noted when the sun was seen."""
        return None if facing is None else cls.of(facing)

    @classmethod
    def of(cls, facing: Facing) -> Self:
        """With its sentences."""
        obstacles = []
        for one in facing.obstacles:
            clock = f"{one.at_minute // 60:02d}:{one.at_minute % 60:02d}"
            facts = {
                "clock": clock,
                "day": one.day,
                "month": one.month,
                "azimuth": one.azimuth_deg,
                "height": one.height_deg,
            }
            obstacles.append(
                ObstacleOut.from_core(
                    one,
                    date=DayOut(month=one.month, day=one.day),
                    clock=clock,
                    text=say("tilt", "obstacle.appears" if one.appears else "obstacle.goes", facts),
                )
            )
        facts = {"azimuth": facing.azimuth_deg, "low": facing.low_azimuth_deg, "high": facing.high_azimuth_deg}
        text = say("tilt", f"facing.{facing.basis}", facts)
        return cls.from_core(facing, obstacles=obstacles, text=text)
