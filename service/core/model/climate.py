"""What is known of the weather at a place? The embedded climate's answer, as plain values."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.sun_days import SunDays

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaceClimate:
    """Monthly climate of one place, January first. Arrays are read-only; identity is (place, data version).

    Attributes:
        latitude_deg, longitude_deg, elevation_m: the place that was asked for; its height above the sea.
        sun_days: the sun of the reference year, the same for every place.
        clear_sky_index: (12,) monthly mean global horizontal irradiation over its clear-sky value, at this place.
        day_quantiles: (12, 12) by month: normalised daily irradiation at 12 even quantiles, mean 1.
        linke_turbidity: (12,) Linke turbidity at air mass 2.
        air_c: (12,) monthly mean air temperature, moved to the place's elevation.
        air_swing_k: (12,) mean difference between the day's warmest and coldest hour.
        wind_m_per_s: mean wind at panel height.
        coldest_air_c: an estimate, deliberately cold, of the coldest air of many years.
        hottest_air_c: an estimate of the hottest.
        climate_sd_share: relative standard deviation of the table's yearly sum at places like this one.
        year_to_year_sd_share: relative standard deviation of yearly sums about the long mean, at this cell.
        region: code of the accuracy region, for the vocabulary.
        grids_apart_share: how far the two grids that the table is made of are apart there, in the year's light; 0 where
            there is but one.
        nearest_km: distance to the cell used where the place has none of its own, else 0.
        source: which data the place rests on, for people.
        light_from: "table", or "given" where the caller gave the hours and the table only the rest.
    """

    latitude_deg: float
    longitude_deg: float
    elevation_m: float
    sun_days: SunDays
    clear_sky_index: Floats
    day_quantiles: Floats
    linke_turbidity: Floats
    air_c: Floats
    air_swing_k: Floats
    wind_m_per_s: float
    coldest_air_c: float
    hottest_air_c: float
    climate_sd_share: float
    year_to_year_sd_share: float
    region: str
    nearest_km: float
    source: str
    light_from: str = "table"
    grids_apart_share: float = 0.0
