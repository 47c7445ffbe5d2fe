"""How much light would the hours of any year get from a sky without clouds, and from outside the air?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.climate import PlaceClimate
from service.core.model.hours import Floats
from service.core.sky.clear_sky import clear_sky, extraterrestrial, months_by_day
from service.core.sky.sun import sun_of_any_year

_SUB_STEPS = 4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cloudless:
    """Hourly means, (n,) W/m2: on level ground, straight from the sun, and on a level plane outside the air."""

    ghi_w_per_m2: Floats
    dni_w_per_m2: Floats
    outside_w_per_m2: Floats


def cloudless_hours(utc: NDArray[np.datetime64], climate: PlaceClimate) -> Cloudless:
    """The cloudless light of hours that begin at ``utc`` (n,), as means over quarter-hours."""
    offsets = ((np.arange(_SUB_STEPS) + 0.5) * 3600 / _SUB_STEPS).astype("timedelta64[s]")
    moments = (utc[:, np.newaxis] + offsets).ravel()
    at = sun_of_any_year(climate.sun_days, moments, climate.latitude_deg, climate.longitude_deg, climate.elevation_m)
    day = (utc.astype("datetime64[D]") - utc.astype("datetime64[Y]").astype("datetime64[D]")).astype(np.int64)
    turbidity = months_by_day(climate.linke_turbidity, np.arange(0.5, 366.0))[day]
    outside = extraterrestrial(at.distance_au)
    light = clear_sky(at.apparent_zenith_deg, climate.elevation_m, np.repeat(turbidity, _SUB_STEPS), outside)
    on_level = outside * np.maximum(np.cos(np.deg2rad(at.apparent_zenith_deg)), 0.0)

    def hourly(steps: Floats) -> Floats:
        return np.asarray(steps.reshape(-1, _SUB_STEPS).mean(axis=1))

    return Cloudless(
        ghi_w_per_m2=hourly(light.ghi_w_per_m2),
        dni_w_per_m2=hourly(light.dni_w_per_m2),
        outside_w_per_m2=hourly(on_level),
    )
