"""How is a place written in a request?"""

from typing import Annotated

from pydantic import Field

from service.api import fields as f
from service.api.schemas.base import In


class SunSeenIn(In):
    """When the sun came to the railing on a day and when it left it, by the wall clock; one of them is enough."""

    month: f.Month
    day: f.DayOfMonth
    from_clock: f.Clock | None = None
    to_clock: f.Clock | None = None


class SiteIn(In):
    """Where the set stands and what is around it. Only the coordinates must be there."""

    latitude_deg: f.LatitudeDeg
    longitude_deg: f.LongitudeDeg
    elevation_m: f.ElevationM | None = None
    time_zone: f.TimeZone | None = None
    rule_area: f.RuleArea | None = None
    ground_reflectance_share: f.GroundReflectanceShare | None = None
    terrain: f.Terrain | None = Field(default=None, description="Terrain in the wind's way (EN 1991-1-4 in words).")
    coldest_air_c: f.ColdestAirC | None = None
    basic_wind_velocity_m_per_s: f.BasicWindVelocityMPerS | None = None
    people_below: f.Yes | None = Field(default=None, description="Do people pass or stay below the panels?")
    sun_seen: (
        Annotated[
            list[SunSeenIn],
            f.several(
                "Notes that tell which way the railing or wall faces. Two dates some months apart part its line from "
                "obstacles. Where they fix the azimuth to a few degrees, arrays on a railing, fence or wall whose "
                "azimuth is not given take it.",
                1,
                10,
            ),
        ]
        | None
    ) = None
    children: f.Yes | None = Field(default=None, description="Can children reach the set?")
