"""Which year, or which part of one, does the weather tell that a caller gave?

Steps become hours, their gaps are filled or refused (``given_hours``), light on level ground is split where only its
sum was given, and the hours are put on the rows of the reference year where a whole year of them is there.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.core.model.climate import PlaceClimate
from service.core.model.hours import HOURS, Floats, Ints, SkyYear
from service.core.model.place import Plane
from service.core.model.weather import GivenSky, GivenWeather
from service.core.sky.calendar import calendar_of_hours, standard_offset_min
from service.core.sky.clear_sky import MONTH_DAYS, extraterrestrial
from service.core.sky.cloudless import Cloudless, cloudless_hours, of_clean_air
from service.core.sky.diffuse import diffuse_share
from service.core.sky.flicker import flicker_share
from service.core.sky.given_checks import check_light, most_on_plane
from service.core.sky.given_hours import BRIGHT_W_PER_M2, GivenHours, filled, hours_of
from service.core.sky.given_times import HOUR_MINUTES, given_weather
from service.core.sky.plane_given import LEAST_COS_ZENITH, level_light, split_of_minutes, tells_most
from service.core.sky.snow import snow_of_hours
from service.core.sky.sun import SunPosition, sun_of_any_year
from service.core.sky.year import read_only

_LEAP_YEAR = HOURS + 24
_MISSING_OF_A_YEAR = 3  # hours by day that a year of hours may lack: a stamp misread by its maker costs one
_BEFORE_MONTH = np.concatenate([[0], np.cumsum(MONTH_DAYS)[:-1]])


def given_sky(
    series: Mapping[str, Any],
    planes: Sequence[Plane],
    ground_reflectance_share: float,
    climate: PlaceClimate,
    time_zone: str,
    typical: SkyYear,
) -> GivenSky:
    """The hours of a caller's weather.

    Args:
        series: as sent; see ``given_times.given_weather``.
        planes: of the arrays, where light on their planes was given.
        ground_reflectance_share: what light on a plane is turned back to level ground with.
        climate: of the place: coordinates, turbidity, wind.
        time_zone: IANA name.
        typical: the typical year, for the calendar, and for the air where none was given.

    A whole year (all hours of a calendar year but three by day, whatever hour it begins with) is put on the rows of
    the reference year, in standard time; 29 February is left out; of more than a year the last counts. Anything shorter
    stays as it is. The sun is that of the days themselves. ``ghi`` alone is split hour by hour by Ridley, Boland and
    Lauret (2010) as the typical year's, shorter steps each by Boland, Huang and Ridley (2013) before they are averaged.
    Snow goes by the mean air of each month, also of one of which only a part was given (``_snow_of_part``).

    Raises:
        ContradictionError: see ``given_times``, ``given_hours`` and ``given_checks``.
    """
    weather = given_weather(series, time_zone)
    light = _level(weather, planes, climate, ground_reflectance_share)
    offset_min = standard_offset_min(time_zone, climate.longitude_deg)
    hours = hours_of(replace(weather, dni_w_per_m2=light[1], dhi_w_per_m2=light[2]), light[0], offset_min)
    left_out = max(hours.utc.size - _LEAP_YEAR, 0)
    hours = hours.part(slice(left_out, None))
    cloudless = cloudless_hours(hours.utc, climate)
    sun = _sun(hours.utc + np.timedelta64(1800, "s"), climate)
    stamp = "times" if series.get("times") else "first"
    clean = of_clean_air(sun, climate.elevation_m) if planes else cloudless
    most = [(most_on_plane(plane, sun, cloudless), most_on_plane(plane, sun, clean)) for plane in planes]
    check_light(hours, cloudless, most, extraterrestrial(sun.distance_au), weather, stamp)
    hours, gaps = filled(hours, cloudless)
    sky = _sky(hours, sun, cloudless, climate, time_zone, typical)
    row, leap = _rows(hours.utc, offset_min)
    pick = _year(row, leap, typical.clear_ghi_w_per_m2 > BRIGHT_W_PER_M2)
    if pick is None:
        snow, rest_h = _snow_of_part(hours, typical, climate, offset_min)
    else:
        sky = _picked(sky, pick, typical)
        snow, rest_h = _snow(hours, sky, typical), 0
    return GivenSky(
        sky=read_only(replace(sky, snow_share=snow)),
        whole_year=pick is not None,
        from_utc=f"{np.datetime_as_string(hours.utc[0], unit='s')}Z",
        to_utc=f"{np.datetime_as_string(hours.utc[-1] + np.timedelta64(3600, 's'), unit='s')}Z",
        gaps=gaps,
        leap_day_left_out=pick is not None and bool(leap.any()),
        hours_left_out=left_out,
        split_by_model=weather.has_the_sum_alone(),
        air_given=weather.air_c is not None,
        wind_given=weather.wind_m_per_s is not None,
        rest_of_months_h=rest_h,
    )


def _level(
    weather: GivenWeather, planes: Sequence[Plane], climate: PlaceClimate, ground_reflectance_share: float
) -> tuple[Floats, Floats | None, Floats | None]:
    """Global, beam and diffuse light of each step; beam and diffuse None where hours are to be split.

    A sensor's small negative readings at night are nought. Of light on planes the flattest before which the sun stands
    tells most of the level ground's, of equal ones the brighter.
    """
    ghi, dni, dhi = (
        None if one is None else np.maximum(one, 0.0)
        for one in (weather.ghi_w_per_m2, weather.dni_w_per_m2, weather.dhi_w_per_m2)
    )
    if ghi is not None and dni is not None and dhi is not None:
        return ghi, dni, dhi
    if ghi is not None and dni is None and dhi is None and weather.step_minutes == HOUR_MINUTES:
        return ghi, None, None
    count = (ghi if ghi is not None else (weather.plane_w_per_m2 or (np.empty(0),))[0]).size
    step = np.timedelta64(weather.step_minutes * 60, "s")
    sun = _sun(weather.begins_utc + step * np.arange(count) + step // 2, climate)
    outside = extraterrestrial(sun.distance_au)
    cos_zenith = np.maximum(np.cos(np.radians(sun.apparent_zenith_deg)), 0.0)
    if ghi is None:
        return _from_planes(weather.plane_w_per_m2 or (np.empty(0),), planes, sun, outside, ground_reflectance_share)
    if dhi is not None:
        beam = np.maximum(ghi - dhi, 0.0)
        high = cos_zenith > LEAST_COS_ZENITH
        dni = np.minimum(np.divide(beam, cos_zenith, out=np.zeros_like(ghi), where=high), outside)
        return _unknown_where(np.isnan(ghi) | np.isnan(dhi), ghi, dni, dhi)
    if dni is not None:
        return _unknown_where(np.isnan(ghi) | np.isnan(dni), ghi, dni, np.maximum(ghi - dni * cos_zenith, 0.0))
    return _unknown_where(np.isnan(ghi), ghi, *split_of_minutes(np.nan_to_num(ghi), cos_zenith, outside))


def _from_planes(
    columns: Sequence[Floats],
    planes: Sequence[Plane],
    sun: SunPosition,
    outside: Floats,
    ground_reflectance_share: float,
) -> tuple[Floats, Floats, Floats]:
    """Step by step from the plane that tells most of it."""
    order = sorted(range(len(planes)), key=lambda i: (planes[i].tilt_deg, -float(np.nansum(columns[i]))))
    of_plane = {planes[i]: i for i in reversed(order)}  # the brighter of equal ones
    flattest_first = sorted(of_plane.values(), key=order.index)
    told_by = tells_most([planes[i] for i in flattest_first], sun)
    light = np.empty((3, told_by.size))
    for at, i in enumerate(flattest_first):
        rows = told_by == at
        if rows.any():
            plane = np.maximum(columns[i], 0.0)
            found = level_light(np.nan_to_num(plane), planes[i], sun, outside, ground_reflectance_share)
            light[:, rows] = np.array(_unknown_where(np.isnan(plane), *found))[:, rows]
    return light[0], light[1], light[2]


def _unknown_where(unknown: NDArray[np.bool_], *light: Floats) -> tuple[Floats, Floats, Floats]:
    ghi, dni, dhi = (np.where(unknown, np.nan, one) for one in light)
    return ghi, dni, dhi


def _sun(moments: NDArray[np.datetime64], climate: PlaceClimate) -> SunPosition:
    return sun_of_any_year(climate.sun_days, moments, climate.latitude_deg, climate.longitude_deg, climate.elevation_m)


def _sky(
    hours: GivenHours,
    sun: SunPosition,
    cloudless: Cloudless,
    climate: PlaceClimate,
    time_zone: str,
    typical: SkyYear,
) -> SkyYear:
    """The hours as they are, in order of time."""
    dni, dhi = _split(hours, sun, cloudless, climate.longitude_deg)
    row, _ = _rows(hours.utc, standard_offset_min(time_zone, climate.longitude_deg))
    return SkyYear(
        calendar=calendar_of_hours(hours.utc, time_zone, climate.longitude_deg),
        sun_zenith_deg=sun.apparent_zenith_deg,
        sun_azimuth_deg=sun.azimuth_deg,
        ghi_w_per_m2=hours.ghi,
        dni_w_per_m2=dni,
        dhi_w_per_m2=dhi,
        extraterrestrial_w_per_m2=extraterrestrial(sun.distance_au),
        clear_ghi_w_per_m2=cloudless.ghi_w_per_m2,
        air_c=typical.air_c[row] if hours.air is None else hours.air,
        wind_m_per_s=np.full(hours.utc.size, climate.wind_m_per_s) if hours.wind is None else hours.wind,
        plane_w_per_m2=hours.planes,
        flicker_share=flicker_share(hours.ghi, cloudless.ghi_w_per_m2)
        if hours.flicker_share is None
        else hours.flicker_share,
    )


def _split(hours: GivenHours, sun: SunPosition, cloudless: Cloudless, longitude_deg: float) -> tuple[Floats, Floats]:
    """Beam and diffuse light of each hour: as given, else by the model of the typical year."""
    first_h = float(hours.utc[0].astype(np.int64) % 86_400) / 3600.0 + 0.5 + longitude_deg / 15.0
    lead, count = int(first_h % 24.0), hours.utc.size
    days = -(-(lead + count) // 24)

    def folded(rows: Floats) -> Floats:
        whole = np.zeros(days * 24)
        whole[lead : lead + count] = rows
        return whole.reshape(days, 24)

    outside = cloudless.outside_w_per_m2
    clearness = np.divide(hours.ghi, outside, out=np.zeros(count), where=outside > 1.0)
    solar_h = np.broadcast_to(first_h % 1.0 + np.arange(24), (days, 24))
    height = folded(90.0 - sun.apparent_zenith_deg)
    share = diffuse_share(folded(clearness), folded(outside), height, solar_h).ravel()[lead : lead + count]
    cos_zenith = np.cos(np.deg2rad(sun.apparent_zenith_deg))
    high = cos_zenith > LEAST_COS_ZENITH
    beam = np.divide(hours.ghi * (1.0 - share), cos_zenith, out=np.zeros(count), where=high)
    dni = np.minimum(beam, 1.1 * cloudless.dni_w_per_m2)
    dhi = hours.ghi - dni * np.where(high, cos_zenith, 0.0)
    if hours.dni is not None and hours.dhi is not None:
        known = ~np.isnan(hours.dni)
        dni, dhi = np.where(known, hours.dni, dni), np.where(known, hours.dhi, dhi)
    return np.maximum(dni, 0.0), np.maximum(dhi, 0.0)


def _snow(hours: GivenHours, year: SkyYear, typical: SkyYear) -> Floats | None:
    """By the cold of the months that were given, else of the typical year; panels that measure lie under theirs."""
    if hours.planes is not None:
        return None
    if hours.air is None:
        return typical.snow_share
    return snow_of_hours(year.air_c, np.repeat(np.arange(12), np.multiply(MONTH_DAYS, 24)))


def _snow_of_part(
    hours: GivenHours, typical: SkyYear, climate: PlaceClimate, offset_min: int
) -> tuple[Floats | None, int]:
    """As of a year, where the rest of a month that is there in part is as cold as the place's; and its hours."""
    if hours.planes is not None:
        return None, 0
    if hours.air is None:
        row, _ = _rows(hours.utc, offset_min)
        return None if typical.snow_share is None else typical.snow_share[row], 0
    month = (hours.utc + np.timedelta64(offset_min * 60, "s")).astype("datetime64[M]").astype(np.int64)
    months = np.arange(month[0], month[-1] + 2)
    days = np.diff(months.astype("datetime64[M]").astype("datetime64[D]").astype(np.int64))
    rest_h = days * 24 - np.bincount(month - month[0])
    snow = snow_of_hours(hours.air, month - month[0], rest_h, climate.air_c[months[:-1] % 12])
    return snow, 0 if snow is None else int(rest_h.sum())


def _rows(utc: NDArray[np.datetime64], offset_min: int) -> tuple[Ints, NDArray[np.bool_]]:
    """The row of the reference year of each hour, and whether it is on 29 February (then the row of a day before)."""
    standard = utc + np.timedelta64(offset_min * 60, "s")
    month = standard.astype("datetime64[M]")
    day = (standard.astype("datetime64[D]") - month.astype("datetime64[D]")).astype(np.int64)
    hour = (standard - standard.astype("datetime64[D]")).astype(np.int64) // 3600
    of_year = month.astype(np.int64) % 12
    leap = (of_year == 1) & (day == 28)
    return (_BEFORE_MONTH[of_year] + day - leap) * 24 + hour, leap


def _year(row: Ints, leap: NDArray[np.bool_], day: NDArray[np.bool_]) -> Ints | None:
    """Which hour stands in each row of the year, the latest where two could; None where a year is not all there.

    Hours of light, ``day``, have to be there but for a few; a row without an hour takes the one of the day before.
    """
    pick = np.full(HOURS, -1)
    plain = np.flatnonzero(~leap)
    pick[row[plain]] = plain
    if np.count_nonzero((pick < 0) & day) > _MISSING_OF_A_YEAR:
        return None
    while (open_rows := np.flatnonzero(pick < 0)).size:
        found = pick[(open_rows - 24) % HOURS]
        if (found < 0).all():
            return None
        pick[open_rows] = found
    return pick


def _picked(sky: SkyYear, pick: Ints, typical: SkyYear) -> SkyYear:
    """The hours on the rows of the reference year, with its calendar; they begin after the full hour as given."""
    after_min = float(sky.calendar.clock_h[0] % 1.0) * 60.0
    calendar = typical.calendar
    if after_min and not float(calendar.clock_h[0] % 1.0):
        calendar = replace(
            calendar,
            utc=calendar.utc + np.timedelta64(round(after_min * 60), "s"),
            clock_h=calendar.clock_h + after_min / 60.0,
        )
    names = [
        "sun_zenith_deg", "sun_azimuth_deg", "ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2",
        "extraterrestrial_w_per_m2", "clear_ghi_w_per_m2", "air_c", "wind_m_per_s",
    ]  # fmt: skip
    arrays = {name: getattr(sky, name)[pick] for name in names}
    return replace(
        sky,
        calendar=calendar,
        plane_w_per_m2=None if sky.plane_w_per_m2 is None else tuple(plane[pick] for plane in sky.plane_w_per_m2),
        flicker_share=None if sky.flicker_share is None else sky.flicker_share[pick],
        **arrays,
    )
