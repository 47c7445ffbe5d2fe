"""How is the climate of a place answered?"""

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.band import KwhBandOut
from service.api.schemas.base import Code, Out


class ClimateOut(Out):
    """The weather that answers about this place rest on: monthly figures, January first."""

    latitude_deg: float
    longitude_deg: float
    elevation_m: r.Metres
    time_zone: str = Field(max_length=64)
    country: str | None = Field(description="ISO 3166 code of the zone's country; null where none is known.")
    level_ground_kwh_per_m2: list[r.Kwh] = Field(
        min_length=12, max_length=12, description="Sun on level ground, monthly sums."
    )
    level_ground_year_kwh_per_m2: KwhBandOut = Field(
        description="The sum of a year, and the ends that single years keep to in eight of ten cases. "
        "Of the light alone: a set's yield has more doubts, see `spread` there."
    )
    air_c: list[r.Celsius] = Field(min_length=12, max_length=12, description="Monthly means.")
    coldest_air_c: r.Celsius = Field(description="An estimate, deliberately cold, of the coldest air of many years.")
    hottest_air_c: r.Celsius = Field(description="An estimate of the hottest air of many years.")
    wind_m_per_s: r.Metres
    uncertainty_sd_share: r.Share = Field(
        description="Relative standard deviation of the table's yearly sun in this region, and more where the two "
        "grids that it is made of are far apart, or where the sky hardly ever has clouds."
    )
    grids_apart_share: r.Share = Field(
        description="How far these two are apart here in the year's sun; 0 where there is but one. From 0.13 on it is "
        "more than at the stations that the table was compared with, and `uncertainty_sd_share` grows with it."
    )
    year_to_year_sd_share: r.Share = Field(description="Relative standard deviation of single years.")
    region: Code
    nearest_km: r.Kilometres = Field(
        description="Distance to the cell used where the place has none of its own, else 0."
    )
    source: str
    service_version: str = Field(max_length=30)
    data_version: str = Field(max_length=30)
