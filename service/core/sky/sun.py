"""Where does the sun stand over a place? Zenith, azimuth and distance at given moments."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.hours import Floats
from service.core.sky.ephemeris import GeocentricSun, geocentric_sun

DELTA_T_S = 69.2  # terrestrial minus universal time in 2025; 1 s of it moves the sun by 0.00001 degrees
REFRACTION_AIR_C = 12.0
_UNIX_EPOCH_JULIAN = 2_440_587.5
_DIRECT_UP_TO = 1200  # moments; beyond that the slow geocentric series are summed once a day and interpolated


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
    utc: NDArray[np.datetime64],
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float = 0.0,
    *,
    pressure_hpa: float | None = None,
    air_c: float = REFRACTION_AIR_C,
    delta_t_s: float = DELTA_T_S,
) -> SunPosition:
    """The sun's place in the sky by the Solar Position Algorithm (NREL/TP-560-34302, eq. 32 to 47).

    Args:
        utc: (n,) moments of universal time.
        latitude_deg: north positive.
        longitude_deg: east positive.
        elevation_m: height above the sea, for parallax (at most 0.003 degrees) and pressure.
        pressure_hpa: air pressure for refraction; by default that of the standard atmosphere at this height.
        air_c: air temperature for refraction.
        delta_t_s: terrestrial minus universal time, s.

    Returns:
        Angles in degrees, shape (n,). Series of more than 1200 moments are interpolated between daily nodes of the
        geocentric sun (cubic; within 0.0001 degrees).

    >>> at = np.array(["2003-10-17T19:30:30"], dtype="datetime64[s]")
    >>> sun = sun_position(at, 39.742476, -105.1786, 1830.14, pressure_hpa=820.0, air_c=11.0, delta_t_s=67.0)
    >>> round(float(sun.apparent_zenith_deg[0]), 4), round(float(sun.azimuth_deg[0]), 4)
    (50.1116, 194.3402)
    """
    julian_day = utc.astype("datetime64[ms]").astype(np.float64) / 86_400_000.0 + _UNIX_EPOCH_JULIAN
    sun = _geocentric(julian_day, delta_t_s)
    pressure = pressure_at(elevation_m) if pressure_hpa is None else pressure_hpa
    return topocentric_sun(sun, latitude_deg, longitude_deg, elevation_m, pressure_hpa=pressure, air_c=air_c)


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


def _geocentric(julian_day: Floats, delta_t_s: float) -> GeocentricSun:
    if julian_day.size <= _DIRECT_UP_TO:
        return geocentric_sun(julian_day, delta_t_s)
    first = np.floor(julian_day.min()) - 1.0
    nodes = np.arange(first, np.ceil(julian_day.max()) + 3.0)
    at_nodes = geocentric_sun(nodes, delta_t_s)
    # Once a day the hour angle comes back to nearly the same value: what is left is the equation of time.
    drift = np.unwrap(at_nodes.greenwich_hour_angle_deg - 360.0 * (nodes - first), period=360.0)
    where, weights = _cubic_weights(julian_day - first)
    return GeocentricSun(
        declination_deg=_interpolated(at_nodes.declination_deg, where, weights),
        greenwich_hour_angle_deg=_interpolated(drift, where, weights) + 360.0 * ((julian_day - first) % 1.0),
        distance_au=_interpolated(at_nodes.distance_au, where, weights),
    )


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
