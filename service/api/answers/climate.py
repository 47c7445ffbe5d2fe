"""What weather does the answer rest on?"""

from collections.abc import Mapping
from typing import Any

import numpy as np

from service.api.answers.place import place_of
from service.api.answers.question import editions
from service.api.deps import Deps
from service.api.schemas.climate import ClimateOut
from service.api.schemas.mistakes import Where
from service.api.schemas.reading import read_body, read_value
from service.api.schemas.requests import ClimateIn
from service.core.model.band import SpreadPart, band_around
from service.core.model.climate import PlaceClimate


def climate(body: bytes, deps: Deps) -> ClimateOut:
    """The answer of POST /v1/climate."""
    return _climate(read_body(ClimateIn, body), deps)


def climate_of_query(query: Mapping[str, Any], deps: Deps) -> ClimateOut:
    """The answer of GET /v1/climate."""
    where: Where = "query"
    return _climate(read_value(ClimateIn, {"site": dict(query)}, where), deps)


def _climate(request: ClimateIn, deps: Deps) -> ClimateOut:
    place, sky = place_of(request.site, deps)
    found = place.climate
    months = np.bincount(sky.calendar.month - 1, sky.ghi_w_per_m2, 12) / 1000.0
    return ClimateOut.from_core(
        found,
        latitude_deg=request.site.latitude_deg,
        longitude_deg=request.site.longitude_deg,
        time_zone=request.site.time_zone or place.time_zone,
        country=place.country,
        level_ground_kwh_per_m2=months.tolist(),
        level_ground_year_kwh_per_m2=band_around(float(months.sum()), _doubts(found)),
        air_c=found.air_c.tolist(),
        uncertainty_sd_share=found.climate_sd_share,
        **editions(deps),
    )


def _doubts(found: PlaceClimate) -> tuple[SpreadPart, ...]:
    """Why a single year's sun may be another: the table's accuracy in the region, and the years themselves."""
    return (
        SpreadPart("climate_data", found.climate_sd_share),
        SpreadPart("year_to_year", found.year_to_year_sd_share),
    )
