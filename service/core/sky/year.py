"""How does a typical year of hours look at a place? The same climate always gives the same hours.

Monthly means decide how much light comes; the cell's daily quantiles decide how it is spread over the days, and a
fixed rule how it flickers within them. Smooth days would do for sums, but not for an inverter's limit: clipping
lives from the hours above the mean.
"""

from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

import numpy as np

from service.core.model.climate import PlaceClimate
from service.core.model.hours import HOURS, Bools, Calendar, Floats, Ints, SkyYear
from service.core.sky.calendar import calendar_of
from service.core.sky.clear_sky import MONTH_DAYS, clear_sky_on_level_ground, extraterrestrial, months_by_day
from service.core.sky.day_clearness import BRIGHTEST_INDEX, DaySums, day_indices
from service.core.sky.diffuse import diffuse_share
from service.core.sky.flicker import flicker_share
from service.core.sky.low_sun import course_of_cloudless_light
from service.core.sky.snow import snow_share
from service.core.sky.sun import SunPosition, sun_position

DAYS = 365
_SUB_STEPS = 4
# Chosen on hours above 600 and 800 W/m2 of five German years with measured radiation and three American ones. Hours of
# measured days differ as much: at Potsdam by 0.13, 0.20, 0.24, 0.20 and 0.15 (standard deviation of the index) on days
# of 0.3, 0.4, 0.6, 0.9 and 1.0; ours by 0.16, 0.22, 0.25, 0.17 and 0.11.
_FLICKER = 0.25
_LEAST_HOUR_INDEX = 0.03
_GOLDEN = 0.6180339887498949
_WARMEST_H, _COLDEST_H = 15.0, 5.0
_LEAST_COS_ZENITH = 0.0174524  # one degree above the horizon: below it an hour's beam is counted as diffuse


@dataclass(frozen=True, slots=True, eq=False)
class _Days:
    """How the year's rows fall into days that begin at the sun's midnight, whatever the zone's clock says.

    ``first_row`` begins the first such day; rows before it belong to the last one. ``month`` (365,) counts from 0 and
    is that of standard time at the day's noon; ``solar_h`` (365, 24) is local mean solar time at mid-hour.
    """

    first_row: int
    month: Ints
    solar_h: Floats

    def folded(self, rows: Floats) -> Floats:
        """From (8760,) rows of the calendar to (365, 24) of whole days."""
        return np.roll(rows, -self.first_row).reshape(DAYS, 24)

    def unfolded(self, days: Floats) -> Floats:
        """Back from (365, 24) to the calendar's rows."""
        return np.roll(days.ravel(), self.first_row)


@dataclass(frozen=True, slots=True, eq=False)
class _Cloudless:
    """Means over each hour, (8760,): cloudless light on level ground, the beam, and the light outside the air.

    ``course``: light on level ground by the model for a low sun, before it is brought to the sums of the other.
    """

    ghi: Floats
    dni: Floats
    outside_on_level: Floats
    course: Floats


def typical_year(climate: PlaceClimate, time_zone: str) -> SkyYear:
    """A deterministic typical year of hours, rows from 1 January 00:00 local standard time.

    Args:
        climate: monthly climate of the place.
        time_zone: IANA name; sets the rows, not the weather.

    Returns:
        Arrays (8760,), read-only. Every month's mean GHI is ``clear_sky_index`` times that of the clear sky, to
        rounding. Hourly GHI stays between nought and about 1.2 times the clear sky's.

    Raises:
        zoneinfo.ZoneInfoNotFoundError: no such zone.

    Not modelled: snow on the ground, morning fog that lifts or clouds that rise at noon (days are alike before and
    after it: an upright east plane comes out 6 % high where mornings are duller, 3 % low where they are clearer), warm
    or cold spells, gusts (the wind is the year's mean).

    Measured against DWD and NREL hours: tests/reference/test_typical_year_hours.py.
    """
    calendar = calendar_of(time_zone, climate.longitude_deg)
    middle = calendar.utc + np.timedelta64(1800, "s")
    sun = sun_position(climate.sun_days, middle, climate.latitude_deg, climate.longitude_deg, climate.elevation_m)
    days = _solar_days(middle[0], climate.longitude_deg)
    cloudless = _cloudless(climate, calendar, sun, days)

    clear, course, outside = map(days.folded, (cloudless.ghi, cloudless.course, cloudless.outside_on_level))
    sums = DaySums(clear.sum(axis=1), course.sum(axis=1), outside.sum(axis=1), days.month)
    index_by_day = day_indices(climate.clear_sky_index, climate.day_quantiles, sums)
    ghi = days.unfolded(clear * _hour_indices(index_by_day, clear))
    dni, dhi = _split(ghi, sun, cloudless, days)
    sky = SkyYear(
        calendar=calendar,
        sun_zenith_deg=sun.apparent_zenith_deg,
        sun_azimuth_deg=sun.azimuth_deg,
        ghi_w_per_m2=ghi,
        dni_w_per_m2=dni,
        dhi_w_per_m2=dhi,
        extraterrestrial_w_per_m2=extraterrestrial(sun.distance_au),
        clear_ghi_w_per_m2=cloudless.ghi,
        air_c=days.unfolded(_air(climate, index_by_day, days)),
        wind_m_per_s=np.broadcast_to(np.float64(climate.wind_m_per_s), HOURS),
        flicker_share=flicker_share(ghi, cloudless.ghi),
        snow_share=_snow(climate, days),
    )
    return read_only(sky)


def read_only(sky: SkyYear) -> SkyYear:
    """The same, with its arrays closed to writing."""
    for name in SkyYear.__slots__[1:]:
        if isinstance(array := getattr(sky, name), np.ndarray):
            array.setflags(write=False)
    for plane in sky.plane_w_per_m2 or ():
        plane.setflags(write=False)
    return sky


def _solar_days(first_mid_hour: np.datetime64, longitude_deg: float) -> _Days:
    first_h = float(first_mid_hour.astype(np.int64) % 86_400) / 3600.0 + longitude_deg / 15.0
    first_row = int(np.ceil(-first_h % 24.0)) % 24
    noon_day = (first_row + 12 + 24 * np.arange(DAYS)) // 24 % DAYS
    month_of_day = np.repeat(np.arange(12), MONTH_DAYS)
    solar_h = (first_h + first_row) % 24.0 % 1.0 + np.arange(24)
    return _Days(first_row, month_of_day[noon_day], np.broadcast_to(solar_h, (DAYS, 24)))


def _cloudless(climate: PlaceClimate, calendar: Calendar, sun: SunPosition, days: _Days) -> _Cloudless:
    """Hourly means over sub-hour steps: at sunrise the sun of mid-hour is no measure of the hour.

    Each day has the sum of ``clear_sky``, which the climate's index is relative to, and the course of ``low_sun``.
    """
    lit = np.nonzero(sun.zenith_deg < 100.0)[0]  # the sun moves at most 7.5 degrees in half an hour
    offsets = ((np.arange(_SUB_STEPS) + 0.5) * 3600 / _SUB_STEPS).astype("timedelta64[s]")
    moments = (calendar.utc[lit, np.newaxis] + offsets).ravel()
    at = sun_position(climate.sun_days, moments, climate.latitude_deg, climate.longitude_deg, climate.elevation_m)
    by_day = months_by_day(climate.linke_turbidity, np.arange(0.5, DAYS))[calendar.day_of_year[lit] - 1]
    turbidity = np.repeat(by_day, _SUB_STEPS)
    outside = extraterrestrial(at.distance_au)
    zenith = at.apparent_zenith_deg
    sums = clear_sky_on_level_ground(zenith, climate.elevation_m, turbidity, outside)
    ghi, dni = course_of_cloudless_light(zenith, climate.elevation_m, turbidity, outside)
    on_level = outside * np.maximum(np.cos(np.deg2rad(zenith)), 0.0)

    def hourly(steps: Floats) -> Floats:
        rows = np.zeros(HOURS)
        rows[lit] = steps.reshape(-1, _SUB_STEPS).mean(axis=1)
        return rows

    course = hourly(ghi)
    to_the_sum = _to_the_day_s_sum(course, hourly(sums), days)
    return _Cloudless(course * to_the_sum, hourly(dni) * to_the_sum, hourly(on_level), course)


def _to_the_day_s_sum(course: Floats, wanted: Floats, days: _Days) -> Floats:
    """Factor by row that brings each day's sum of ``course`` to that of ``wanted``; nought on days without light."""
    found = days.folded(course).sum(axis=1)
    factor = np.divide(days.folded(wanted).sum(axis=1), found, out=np.zeros(DAYS), where=found > 0.0)
    return days.unfolded(np.repeat(factor[:, np.newaxis], 24, axis=1))


def _hour_indices(index_by_day: Floats, clear: Floats) -> Floats:
    """Clear-sky index of each hour (365, 24): the day's plus flicker, largest on half-clear days; day means kept."""
    day = index_by_day[:, np.newaxis]
    top = BRIGHTEST_INDEX
    size = _FLICKER * np.clip(day * (top - day), 0.0, None) * 4.0 / top**2
    hours = np.clip(day + size * _normals(clear.size).reshape(clear.shape), _LEAST_HOUR_INDEX, top)
    for _ in range(2):  # the second time for what the bound took away
        hours = np.clip(hours * _day_ratio(index_by_day, hours, clear), 0.0, top)
    return np.asarray(hours * _day_ratio(index_by_day, hours, clear), dtype=np.float64)


@lru_cache(maxsize=2)  # the hours of every year
def _normals(size: int) -> Floats:
    """(size,) of the normal distribution, even in every stretch of hours: an additive recurrence. Read-only."""
    even = (0.5 + _GOLDEN * np.arange(size)) % 1.0
    normals = np.array([*map(NormalDist().inv_cdf, even.tolist())])
    normals.flags.writeable = False
    return normals


def _day_ratio(index_by_day: Floats, hours: Floats, clear: Floats) -> Floats:
    wanted = index_by_day * clear.sum(axis=1)
    found = (hours * clear).sum(axis=1)
    ratio: Floats = np.divide(wanted, found, out=np.ones_like(found), where=found > 0.0)
    return ratio[:, np.newaxis]


def _split(ghi: Floats, sun: SunPosition, cloudless: _Cloudless, days: _Days) -> tuple[Floats, Floats]:
    """Beam and diffuse of each hour, so that ghi = dhi + dni cos(zenith at mid-hour), both not negative.

    The beam is at most the cloudless one plus a tenth; with the sun under one degree it is counted as diffuse.
    """
    outside = cloudless.outside_on_level
    clearness = np.divide(ghi, outside, out=np.zeros(HOURS), where=outside > 1.0)
    height_deg = days.folded(90.0 - sun.apparent_zenith_deg)
    share = days.unfolded(diffuse_share(days.folded(clearness), days.folded(outside), height_deg, days.solar_h))
    cos_zenith = np.cos(np.deg2rad(sun.apparent_zenith_deg))
    high: Bools = cos_zenith > _LEAST_COS_ZENITH
    beam = np.divide(ghi * (1.0 - share), cos_zenith, out=np.zeros(HOURS), where=high)
    dni = np.minimum(beam, 1.1 * cloudless.dni)
    return dni, ghi - dni * np.where(high, cos_zenith, 0.0)


def _snow(climate: PlaceClimate, days: _Days) -> Floats | None:
    """What snow takes of the light on flat panels, (8760,); None where no month is cold."""
    by_month = snow_share(climate.air_c)
    if not by_month.any():
        return None
    return days.unfolded(np.repeat(by_month[days.month], 24))


def _air(climate: PlaceClimate, index_by_day: Floats, days: _Days) -> Floats:
    """Air temperature (365, 24): monthly means, a daily course that is wider on clear days.

    Half a cosine wave up from 5 to 15 h of solar time and half a wave down again; each has mean nought.
    """
    mean = climate.air_c[days.month]
    month_index = climate.clear_sky_index[days.month]
    swing = climate.air_swing_k[days.month] * np.clip(index_by_day / month_index, 0.4, 1.6)
    since_coldest = (days.solar_h - _COLDEST_H) % 24.0
    rise = _WARMEST_H - _COLDEST_H
    wave = np.where(
        since_coldest < rise,
        -np.cos(np.pi * since_coldest / rise),
        np.cos(np.pi * (since_coldest - rise) / (24.0 - rise)),
    )
    return mean[:, np.newaxis] + swing[:, np.newaxis] / 2.0 * wave
