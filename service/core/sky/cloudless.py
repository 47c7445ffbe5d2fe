"""How much light would the hours of any year get from a sky without clouds, and from outside the air?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.climate import PlaceClimate
from service.core.model.hours import Floats
from service.core.sky.clear_sky import clear_sky_on_level_ground, extraterrestrial, months_by_day
from service.core.sky.low_sun import course_of_cloudless_light
from service.core.sky.sun import SunPosition, sun_of_any_year

_SUB_STEPS = 4
# Linke turbidity of cold, dry, clean air. One of 1 would be air without water and dust; months of the climate table
# have 1.7 at least (the Alps in December, the far north in winter), single days less.
_CLEANEST_TURBIDITY = 1.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cloudless:
    """Hourly means, (n,) W/m2: on level ground, straight from the sun, and on a level plane outside the air."""

    ghi_w_per_m2: Floats
    dni_w_per_m2: Floats
    outside_w_per_m2: Floats


def cloudless_hours(utc: NDArray[np.datetime64], climate: PlaceClimate) -> Cloudless:
    """The cloudless light of hours that begin at ``utc`` (n,), whole hours apart and rising, as means over quarters.

    As in the typical year each day, from the sun's midnight on, has the sum of ``clear_sky`` and the course of
    ``low_sun``; days of which ``utc`` has a part are reckoned whole.
    """
    first_h = float(utc[0].astype(np.int64) % 86_400) / 3600.0 + 0.5 + climate.longitude_deg / 15.0
    lead = int(first_h % 24.0)
    row = lead + ((utc - utc[0]) // np.timedelta64(3600, "s")).astype(np.int64)
    days = -(-(int(row[-1]) + 1) // 24)
    begins = utc[0] + (np.arange(days * 24) - lead) * np.timedelta64(3600, "s")
    offsets = ((np.arange(_SUB_STEPS) + 0.5) * 3600 / _SUB_STEPS).astype("timedelta64[s]")
    moments = (begins[:, np.newaxis] + offsets).ravel()
    at = sun_of_any_year(climate.sun_days, moments, climate.latitude_deg, climate.longitude_deg, climate.elevation_m)
    day = (begins.astype("datetime64[D]") - begins.astype("datetime64[Y]").astype("datetime64[D]")).astype(np.int64)
    turbidity = np.repeat(months_by_day(climate.linke_turbidity, np.arange(0.5, 366.0))[day], _SUB_STEPS)
    outside, zenith = extraterrestrial(at.distance_au), at.apparent_zenith_deg
    sums = clear_sky_on_level_ground(zenith, climate.elevation_m, turbidity, outside)
    ghi, dni = course_of_cloudless_light(zenith, climate.elevation_m, turbidity, outside)
    on_level = outside * np.maximum(np.cos(np.deg2rad(zenith)), 0.0)
    wanted, found = (one.reshape(days, -1).sum(axis=1) for one in (sums, ghi))
    to_the_sum = np.divide(wanted, found, out=np.zeros(days), where=found > 0.0)

    def hourly(steps: Floats, factor: Floats) -> Floats:
        means = steps.reshape(days, 24, _SUB_STEPS).mean(axis=2) * factor[:, np.newaxis]
        return np.asarray(means.ravel()[row])

    return Cloudless(
        ghi_w_per_m2=hourly(ghi, to_the_sum),
        dni_w_per_m2=hourly(dni, to_the_sum),
        outside_w_per_m2=hourly(on_level, np.ones(days)),
    )


def of_clean_air(sun: SunPosition, elevation_m: float) -> Cloudless:
    """The cloudless light of air as clean as it ever is, by the sun at the middle of each hour.

    A month's mean turbidity tells little of a low sun: 10 degrees high it leaves the beam of an average January day at
    52 N half of a clean one's. The day's sum is not that of ``clear_sky``, which has too little light there.
    """
    outside = extraterrestrial(sun.distance_au)
    turbidity = np.full(outside.shape, _CLEANEST_TURBIDITY)
    ghi, dni = course_of_cloudless_light(sun.apparent_zenith_deg, elevation_m, turbidity, outside)
    on_level = outside * np.maximum(np.cos(np.deg2rad(sun.apparent_zenith_deg)), 0.0)
    return Cloudless(ghi_w_per_m2=ghi, dni_w_per_m2=dni, outside_w_per_m2=on_level)
