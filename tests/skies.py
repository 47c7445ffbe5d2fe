"""A year of hours for tests, made from the library's sun and clear sky; a cloudy one for a change; mirrored ones."""

from dataclasses import replace
from functools import cache
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd
import pvlib

from service.core.model.hours import HOURS, Calendar, SkyYear


def calendar(time_zone: str, standard_offset_h: int) -> Calendar:
    """Hours of 2025 from 1 January 00:00 local standard time, with the wall clock of the zone."""
    begin = pd.date_range("2025-01-01", periods=HOURS, freq="h", tz="UTC") - pd.Timedelta(hours=standard_offset_h)
    wall = begin.tz_convert(ZoneInfo(time_zone))
    standard = begin + pd.Timedelta(hours=standard_offset_h)
    return Calendar(
        utc=begin.tz_localize(None).to_numpy().astype("datetime64[s]"),
        day_of_year=standard.day_of_year.to_numpy().astype(np.int64),
        month=wall.month.to_numpy().astype(np.int64),
        weekday=wall.day_of_week.to_numpy().astype(np.int64),
        clock_h=wall.hour.to_numpy() + wall.minute.to_numpy() / 60.0,
    )


@cache
def clear_year(
    latitude_deg: float, longitude_deg: float, time_zone: str = "Europe/Berlin", standard_offset_h: int = 1
) -> SkyYear:
    """A cloudless year: Ineichen-Perez at turbidity 3, sea level."""
    days = calendar(time_zone, standard_offset_h)
    middle = pd.DatetimeIndex(days.utc, tz="UTC") + pd.Timedelta(minutes=30)
    sun = pvlib.solarposition.get_solarposition(middle, latitude_deg, longitude_deg)
    above = pvlib.irradiance.get_extra_radiation(days.day_of_year)
    mass = pvlib.atmosphere.get_relative_airmass(sun["apparent_zenith"])
    light = pvlib.clearsky.ineichen(sun["apparent_zenith"], mass, 3.0, dni_extra=above)
    zenith = sun["apparent_zenith"].to_numpy()
    dni = np.where(zenith < 90.0, np.nan_to_num(light["dni"].to_numpy()), 0.0)
    dhi = np.where(zenith < 90.0, np.nan_to_num(light["dhi"].to_numpy()), 0.0)
    ghi = dhi + dni * np.maximum(np.cos(np.radians(zenith)), 0.0)
    return SkyYear(
        calendar=days,
        sun_zenith_deg=zenith,
        sun_azimuth_deg=sun["azimuth"].to_numpy(),
        ghi_w_per_m2=ghi,
        dni_w_per_m2=dni,
        dhi_w_per_m2=dhi,
        extraterrestrial_w_per_m2=above,
        clear_ghi_w_per_m2=ghi,
        air_c=np.full(HOURS, 15.0),
        wind_m_per_s=np.full(HOURS, 2.0),
    )


@cache
def mixed_year(
    latitude_deg: float, longitude_deg: float, time_zone: str = "Europe/Berlin", standard_offset_h: int = 1
) -> SkyYear:
    """The same with clouds in a fixed rhythm of days: bright, hazy, dull, overcast."""
    clear = clear_year(latitude_deg, longitude_deg, time_zone, standard_offset_h)
    beam_kept = np.array([1.0, 0.55, 0.15, 0.0, 0.8, 0.0, 0.35])[clear.calendar.day_of_year % 7]
    diffuse = clear.dhi_w_per_m2 + 0.35 * (1.0 - beam_kept) * (clear.ghi_w_per_m2 - clear.dhi_w_per_m2)
    beam = clear.dni_w_per_m2 * beam_kept
    level = np.maximum(np.cos(np.radians(clear.sun_zenith_deg)), 0.0)
    return replace(clear, dni_w_per_m2=beam, dhi_w_per_m2=diffuse, ghi_w_per_m2=diffuse + beam * level)


def overcast(sky: SkyYear) -> SkyYear:
    """The year with all its light as even diffuse light."""
    return replace(sky, dni_w_per_m2=np.zeros_like(sky.dni_w_per_m2), dhi_w_per_m2=sky.ghi_w_per_m2)


def north_for_south(sky: SkyYear) -> SkyYear:
    """The same light with the sun on the other side of the east-west line."""
    return replace(sky, sun_azimuth_deg=np.mod(180.0 - sky.sun_azimuth_deg, 360.0))


def east_for_west(sky: SkyYear) -> SkyYear:
    """The same light with the sun on the other side of the noon line."""
    return replace(sky, sun_azimuth_deg=np.mod(360.0 - sky.sun_azimuth_deg, 360.0))
