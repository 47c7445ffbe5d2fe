"""A made-up monthly climate of the Baltic shore for tests that need its uncertainties, not its light."""

from dataclasses import replace
from typing import Any

import numpy as np

from service.core.model.climate import PlaceClimate
from service.data.sun import load_sun_days

SUN_DAYS = load_sun_days()


def climate(**changes: Any) -> PlaceClimate:
    """Invented, plausible; takes changes by keyword."""
    base = PlaceClimate(
        latitude_deg=54.2, longitude_deg=12.3, elevation_m=8, sun_days=SUN_DAYS,
        clear_sky_index=np.array([0.50, 0.55, 0.60, 0.65, 0.68, 0.68, 0.68, 0.68, 0.64, 0.58, 0.50, 0.46]),
        day_quantiles=np.tile(np.linspace(0.35, 1.65, 12), (12, 1)), linke_turbidity=np.full(12, 3.5),
        air_c=np.array([1, 1, 4, 8, 12, 16, 18, 18, 15, 10, 5, 2.0]), air_swing_k=np.full(12, 7.0),
        wind_m_per_s=2.0, coldest_air_c=-15, hottest_air_c=34, climate_sd_share=0.05, year_to_year_sd_share=0.025,
        region="made_up", nearest_km=0, source="made up",
    )  # fmt: skip
    return replace(base, **changes)
