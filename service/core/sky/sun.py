"""Where does the sun stand over a place? Zenith, azimuth and distance at given moments."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.hours import Floats
from service.core.model.sun_days import SunDays

REFRACTION_AIR_C = 12.0
TROPICAL_YEAR_DAYS = 365.24219
_DAY_MS = 86_400_000.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GeocentricSun:
    """The sun from the earth's centre; arrays of one shape (n,). The hour angle counts westwards from Greenwich."""

    declination_deg: Floats
    greenwich_hour_angle_deg: Floats
    distance_au: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SunPosition:
    """The sun over a place; arrays (n,). ``zenith_deg`` is geometric, ``apparent_zenith_deg`` has refraction in.

    ``azimuth_deg`` runs clockwise from north, 0 to 360; ``distance_au`` is the earth-sun distance.
    """

    zenith_deg: Floats
    apparent_zenith_deg: Floats
    azimuth_deg: Floats
    distance_au: Floats


def sun_position(
    days: SunDays,
    utc: NDArray[np.datetime64],
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float = 0.0,
) -> SunPosition:
    """The sun's place in the sky, with refraction for the standard atmosphere's pressure at this height and 12 C.

    Args:
        days: the geocentric sun at each midnight.
        utc: (n,) moments of universal time, from the table's second midnight to before its last but one.
        latitude_deg: north positive.
        longitude_deg: east positive.
        elevation_m: height above the sea, for parallax (at most 0.003 degrees) and pressure.

    Returns:
        Angles in degrees, shape (n,).

    Raises:
        ValueError: a moment lies outside the table.

    Over a year of hours at thirteen places within 0.00003 degrees of pvlib's whole algorithm:
    tests/reference/test_sun_position.py.
    """
    sun = geocentric_sun(days, utc)
    pressure = pressure_at(elevation_m)
    return topocentric_sun(sun, latitude_deg, longitude_deg, elevation_m, pressure_hpa=pressure, air_c=REFRACTION_AIR_C)


def geocentric_sun(days: SunDays, utc: NDArray[np.datetime64]) -> GeocentricSun:
    """The sun from the earth's centre at any moment: the table's midnights, joined by cubics through four of them.

    Raises:
        ValueError: a moment of ``utc`` (n,) lies before the table's second midnight, or at its last but one or later.
    """
    position = _days_since(days, utc)
    if position.size and not (position.min() >= 1.0 and position.max() < days.distance_au.size - 2):
        raise ValueError("moments outside the table of the sun's days")
    return _joined(days, position, position)


def sun_of_any_year(
    days: SunDays,
    utc: NDArray[np.datetime64],
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float = 0.0,
) -> SunPosition:
    """The sun's place in the sky as ``sun_position`` gives it, in whatever year.

    A moment of another year has the declination, the equation of time and the distance of the same moment of the
    season in the table's year, whole tropical years away; the clock's part of the hour angle is its own.

    Args and result as for ``sun_position``. From 1990 to 2040 within 0.022 degrees of pvlib's whole algorithm
    (tests/reference/test_sun_position.py); what is left out are moon and planets, and the slow turn of the ellipse.
    """
    position = _days_since(days, utc)
    season = (position - 1.0) % TROPICAL_YEAR_DAYS + 1.0
    sun = _joined(days, season, position)
    pressure = pressure_at(elevation_m)
    return topocentric_sun(sun, latitude_deg, longitude_deg, elevation_m, pressure_hpa=pressure, air_c=REFRACTION_AIR_C)


def _days_since(days: SunDays, utc: NDArray[np.datetime64]) -> Floats:
    """Days since the table's first midnight."""
    return np.asarray((utc - days.first_day).astype("timedelta64[ms]").astype(np.float64) / _DAY_MS)


def _joined(days: SunDays, season: Floats, position: Floats) -> GeocentricSun:
    """The table's midnights joined by cubics at ``season``; the day's turn is that of ``position``; both in days."""
    where, weights = _cubic_weights(season)
    turn = 360.0 * (position % 1.0)  # what is left at the midnights is the equation of time, smooth enough for a cubic
    return GeocentricSun(
        declination_deg=_interpolated(days.declination_deg, where, weights),
        greenwich_hour_angle_deg=_interpolated(days.greenwich_hour_angle_deg, where, weights) + turn,
        distance_au=_interpolated(days.distance_au, where, weights),
    )


def topocentric_sun(
    sun: GeocentricSun,
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float,
    *,
    pressure_hpa: float,
    air_c: float,
) -> SunPosition:
    """From the earth's centre to the place: parallax, height, refraction, azimuth (NREL/TP-560-34302, 3.7 to 3.14)."""
    phi = np.deg2rad(latitude_deg)
    hour_angle = np.deg2rad(sun.greenwich_hour_angle_deg + longitude_deg)
    delta = np.deg2rad(sun.declination_deg)
    sin_hour, cos_hour = np.sin(hour_angle), np.cos(hour_angle)

    flattened = np.arctan(0.99664719 * np.tan(phi))  # eq. 34
    x = np.cos(flattened) + elevation_m / 6_378_140.0 * np.cos(phi)
    y = 0.99664719 * np.sin(flattened) + elevation_m / 6_378_140.0 * np.sin(phi)
    sin_parallax = np.sin(np.deg2rad(8.794 / 3600.0) / sun.distance_au)  # eq. 33
    toward = np.cos(delta) - x * sin_parallax * cos_hour
    shift = np.arctan2(-x * sin_parallax * sin_hour, toward)  # eq. 37
    delta_here = np.arctan2((np.sin(delta) - y * sin_parallax) * np.cos(shift), toward)  # eq. 39
    hour_here = hour_angle - shift
    sin_hour, cos_hour = np.sin(hour_here), np.cos(hour_here)

    sin_height = np.sin(phi) * np.sin(delta_here) + np.cos(phi) * np.cos(delta_here) * cos_hour  # eq. 41
    height = np.rad2deg(np.arcsin(np.clip(sin_height, -1.0, 1.0)))
    azimuth = np.rad2deg(np.arctan2(sin_hour, cos_hour * np.sin(phi) - np.tan(delta_here) * np.cos(phi))) + 180.0
    return SunPosition(
        zenith_deg=90.0 - height,
        apparent_zenith_deg=90.0 - height - _refraction_deg(height, pressure_hpa, air_c),
        azimuth_deg=azimuth % 360.0,
        distance_au=sun.distance_au,
    )


def pressure_at(elevation_m: float) -> float:
    """Air pressure of the standard atmosphere, hPa (ISO 2533, troposphere).

    >>> round(pressure_at(1500.0), 1)
    845.6
    """
    return float(1013.25 * (1.0 - 2.25577e-5 * elevation_m) ** 5.25588)


def _refraction_deg(height_deg: Floats, pressure_hpa: float, air_c: float) -> Floats:
    """Eq. 42, for a sun whose upper rim can be seen; below that nil."""
    seen = height_deg >= -0.26667 - 0.5667
    lifted = np.where(seen, height_deg, 0.0)
    bent = pressure_hpa / 1010.0 * 283.0 / (273.0 + air_c) * 1.02
    return np.where(seen, bent / (60.0 * np.tan(np.deg2rad(lifted + 10.3 / (lifted + 5.11)))), 0.0)


def _cubic_weights(position: Floats) -> tuple[NDArray[np.intp], tuple[Floats, ...]]:
    """The node before each position, and Lagrange's weights of it, the one before and the two after."""
    before = np.floor(position).astype(np.intp)
    t = position - before
    return before, (
        -t * (t - 1.0) * (t - 2.0) / 6.0,
        (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0,
        -(t + 1.0) * t * (t - 2.0) / 2.0,
        (t + 1.0) * t * (t - 1.0) / 6.0,
    )


def _interpolated(values: Floats, before: NDArray[np.intp], weights: tuple[Floats, ...]) -> Floats:
    total = weights[0] * values[before - 1]
    for step, weight in enumerate(weights[1:]):
        total += weight * values[before + step]
    return total
