"""In which light and air did the set work: under a cloudless sky, or under the weather that was sent along?"""

import numpy as np

from service.core.logbook.diagnosis.frame import DAY_S, HOUR_S, Parts
from service.core.logbook.diagnosis.set_model import Weather
from service.core.model.climate import PlaceClimate
from service.core.model.facts import Setup
from service.core.model.hours import Floats, Ints
from service.core.model.weather import GivenWeather
from service.core.sky import SunPosition, extraterrestrial, sun_of_any_year
from service.core.sky.clear_sky import months_by_day
from service.core.sky.diffuse import diffuse_share
from service.core.sky.plane_given import level_light

_COLDEST_H, _WARMEST_H = 5.0, 15.0
_YEAR_DAYS = 365.2425
_DAYS = np.arange(0.5, 365.5)
_CLEAR_SWING = 1.3  # of a clear day's course of temperature over the month's mean one
_LEAST_COS_ZENITH = 0.0349  # two degrees above the horizon
_MOST_INDEX = 1.6  # of an hour's light over a cloudless one's, with a low sun


def cloudless_weather(parts: Parts, climate: PlaceClimate) -> Weather:
    """A sky without clouds, and the air of the climate, with a clear day's course."""
    cos_zenith = np.maximum(np.cos(np.deg2rad(parts.zenith_deg)), 0.0)
    return Weather(
        ghi_w_per_m2=parts.ghi_w_per_m2,
        dni_w_per_m2=parts.dni_w_per_m2,
        dhi_w_per_m2=np.maximum(parts.ghi_w_per_m2 - parts.dni_w_per_m2 * cos_zenith, 0.0),
        air_c=climatic_air_c(parts, climate),
        wind_m_per_s=np.full(parts.at.size, climate.wind_m_per_s),
    )


def climatic_air_c(parts: Parts, climate: PlaceClimate) -> Floats:
    """Air temperature of the season and the hour (m,): half a cosine wave up from 5 to 15 h, half a wave down."""
    year_day = parts.middle_s / DAY_S % _YEAR_DAYS  # 1 January 1970 began a year; leap days shift it by a day at most
    at = np.minimum(year_day.astype(np.int64), 364)
    mean, swing = (months_by_day(one, _DAYS)[at] for one in (climate.air_c, climate.air_swing_k))
    since = (parts.solar_h - _COLDEST_H) % 24.0
    rise = _WARMEST_H - _COLDEST_H
    wave = np.where(since < rise, -np.cos(np.pi * since / rise), np.cos(np.pi * (since - rise) / (24.0 - rise)))
    return np.asarray(mean + _CLEAR_SWING * swing / 2.0 * wave)


def weather_on(parts: Parts, part_s: float, given: GivenWeather, setup: Setup, climate: PlaceClimate) -> Weather:
    """The weather sent along, on every lit part of a log; nan where it says nothing.

    Within a step of the weather the light follows the cloudless sky. It is split as the typical year's: by Ridley,
    Boland and Lauret (2010) on hours.
    """
    step_s = given.step_minutes * 60
    begins = int(given.begins_utc.astype("datetime64[s]").astype(np.int64))
    of_step = (parts.middle_s - begins) // step_s
    ghi = _level(given, setup, climate)
    inside = (of_step >= 0) & (of_step < ghi.size)
    where = np.clip(of_step, 0, ghi.size - 1)
    hour = (parts.middle_s - begins) // HOUR_S
    first = int(hour.min()) if hour.size else 0
    clear_hour = np.bincount(hour - first, parts.ghi_w_per_m2) * (part_s / HOUR_S)
    size = clear_hour.size
    outside = np.asarray(np.bincount(hour - first, _on_level(parts)) * (part_s / HOUR_S), dtype=np.float64)
    light_hour = _by_hour(ghi, HOUR_S // step_s, first, size)
    split = _diffuse_of_hours(light_hour, outside, begins + first * HOUR_S, parts, hour - first, climate)
    if step_s == HOUR_S:
        index = np.divide(light_hour, clear_hour, out=np.zeros(size), where=clear_hour > 1.0)[hour - first]
        light = np.minimum(index, _MOST_INDEX) * parts.ghi_w_per_m2
    else:
        light = ghi[where]
    light = np.where(inside, light, np.nan)
    cos_zenith = np.cos(np.deg2rad(parts.zenith_deg))
    share = split[hour - first]
    if given.dhi_w_per_m2 is not None and given.ghi_w_per_m2 is not None:
        dhi = np.minimum(np.maximum(given.dhi_w_per_m2, 0.0)[where], light)
    else:
        dhi = share * light
    dni = np.where(cos_zenith > _LEAST_COS_ZENITH, (light - dhi) / np.maximum(cos_zenith, _LEAST_COS_ZENITH), 0.0)
    dni = np.minimum(dni, 1.1 * parts.dni_w_per_m2)
    air = climatic_air_c(parts, climate) if given.air_c is None else _known(given.air_c[where], parts, climate)
    wind = np.full(parts.at.size, climate.wind_m_per_s)
    if given.wind_m_per_s is not None:
        wind = np.nan_to_num(given.wind_m_per_s[where], nan=climate.wind_m_per_s)
    return Weather(
        ghi_w_per_m2=light, dni_w_per_m2=dni, dhi_w_per_m2=light - dni * np.maximum(cos_zenith, 0.0), air_c=air,
        wind_m_per_s=wind,
    )  # fmt: skip


def _on_level(parts: Parts) -> Floats:
    return np.asarray(parts.outside_w_per_m2 * np.maximum(np.cos(np.deg2rad(parts.zenith_deg)), 0.0))


def _known(values: Floats, parts: Parts, climate: PlaceClimate) -> Floats:
    return np.where(np.isnan(values), climatic_air_c(parts, climate), values)


def _by_hour(ghi: Floats, steps_an_hour: int, first: int, size: int) -> Floats:
    """Hourly means from the hour ``first`` of the weather on, (size,), nought where it says nothing."""
    whole = ghi[: ghi.size // steps_an_hour * steps_an_hour].reshape(-1, steps_an_hour).mean(axis=1)
    at = np.arange(first, first + size)
    inside = (at >= 0) & (at < whole.size)
    return np.nan_to_num(np.where(inside, whole[np.clip(at, 0, whole.size - 1)], 0.0))


def _diffuse_of_hours(
    light: Floats, outside: Floats, begins_s: int, parts: Parts, hour: Ints, climate: PlaceClimate
) -> Floats:
    """Diffuse share of each hour (hours,)."""
    first_h = (begins_s / HOUR_S + 0.5 + climate.longitude_deg / 15.0) % 24.0
    lead = int(first_h)
    days = -(-(lead + light.size) // 24)

    def folded(values: Floats) -> Floats:
        padded = np.zeros(days * 24)
        padded[lead : lead + values.size] = values
        return padded.reshape(days, 24)

    count = np.maximum(np.bincount(hour, minlength=light.size), 1)
    height = 90.0 - np.bincount(hour, parts.zenith_deg, minlength=light.size) / count
    clearness = np.divide(light, outside, out=np.zeros(light.size), where=outside > 1.0)
    solar = np.tile(first_h - lead + np.arange(24), (days, 1))
    share = diffuse_share(folded(np.minimum(clearness, 1.2)), folded(outside), folded(height), solar)
    return np.asarray(share.ravel()[lead : lead + light.size])


def _level(given: GivenWeather, setup: Setup, climate: PlaceClimate) -> Floats:
    """Light on level ground of each step of the weather; where only that on the plane was given, turned back."""
    if given.ghi_w_per_m2 is not None:
        return np.maximum(given.ghi_w_per_m2, 0.0)
    planes = given.plane_w_per_m2
    if not planes:
        size = max((one.size for one in (given.air_c, given.wind_m_per_s) if one is not None), default=1)
        return np.full(size, np.nan)
    step = np.timedelta64(given.step_minutes * 60, "s")
    moments = given.begins_utc + step * np.arange(planes[0].size) + step // 2
    sun, outside = _sun(moments, climate)
    plane = setup.arrays[0].plane
    found = level_light(
        np.nan_to_num(np.maximum(planes[0], 0.0)), plane, sun, outside, setup.site.ground_reflectance_share
    )
    return np.where(np.isnan(planes[0]), np.nan, found[0])


def _sun(
    moments: np.ndarray[tuple[int, ...], np.dtype[np.datetime64]], climate: PlaceClimate
) -> tuple[SunPosition, Floats]:
    sun = sun_of_any_year(climate.sun_days, moments, climate.latitude_deg, climate.longitude_deg, climate.elevation_m)
    return sun, extraterrestrial(sun.distance_au)
