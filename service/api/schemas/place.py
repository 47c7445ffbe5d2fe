"""How is a place written in a request?"""

from pydantic import Field

from service.api import fields as f
from service.api.schemas.base import In


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
    children: f.Yes | None = Field(default=None, description="Can children reach the set?")
