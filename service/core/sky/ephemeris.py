"""Where does the sun stand as seen from the earth's centre? The geocentric half of the Solar Position Algorithm.

Source of every equation here: I. Reda and A. Andreas, "Solar Position Algorithm for Solar Radiation Applications",
NREL/TP-560-34302, revised January 2008, section 3. Stated there: within 0.0003 degrees from -2000 to 6000.
"""

from dataclasses import dataclass

import numpy as np

from service.core.model.hours import Floats
from service.core.sky.ephemeris_terms import DISTANCE, LATITUDE, LONGITUDE, NUTATION

J2000 = 2_451_545.0
DAYS_A_CENTURY = 36_525.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GeocentricSun:
    """The sun from the earth's centre; arrays of one shape (n,)."""

    declination_deg: Floats
    greenwich_hour_angle_deg: Floats
    distance_au: Floats


def geocentric_sun(julian_day: Floats, delta_t_s: float) -> GeocentricSun:
    """Declination, hour angle at Greenwich and distance of the sun.

    Args:
        julian_day: (n,) days of universal time.
        delta_t_s: terrestrial minus universal time, s (67 in 2003, some 69 in the 2020s).
    """
    century = (julian_day - J2000) / DAYS_A_CENTURY
    ephemeris_century = (julian_day + delta_t_s / 86_400.0 - J2000) / DAYS_A_CENTURY
    millennium = ephemeris_century / 10.0

    longitude = np.rad2deg(_series(LONGITUDE, millennium)) + 180.0  # eq. 9 to 12: from the earth to the sun
    latitude = -_series(LATITUDE, millennium)
    distance_au = _series(DISTANCE, millennium)
    nutation_longitude, nutation_obliquity = _nutation(ephemeris_century)
    obliquity = np.deg2rad(_mean_obliquity_deg(millennium) + nutation_obliquity)
    apparent = np.deg2rad(longitude + nutation_longitude - 20.4898 / (3600.0 * distance_au))  # eq. 26, 27

    mean_sidereal = (  # eq. 28
        280.46061837 + 360.98564736629 * (julian_day - J2000) + 0.000387933 * century**2 - century**3 / 38_710_000.0
    )
    sidereal = mean_sidereal + nutation_longitude * np.cos(obliquity)
    right_ascension = np.arctan2(  # eq. 30
        np.sin(apparent) * np.cos(obliquity) - np.tan(latitude) * np.sin(obliquity), np.cos(apparent)
    )
    declination = np.arcsin(  # eq. 31
        np.sin(latitude) * np.cos(obliquity) + np.cos(latitude) * np.sin(obliquity) * np.sin(apparent)
    )
    return GeocentricSun(
        declination_deg=np.rad2deg(declination),
        greenwich_hour_angle_deg=(sidereal - np.rad2deg(right_ascension)) % 360.0,
        distance_au=distance_au,
    )


def _series(tables: tuple[tuple[tuple[float, ...], ...], ...], millennium: Floats) -> Floats:
    """Eq. 9 to 11: a power series in time whose coefficients are sums of A cos(B + C t), over 10^8."""
    total = np.zeros_like(millennium)
    for power, rows in enumerate(tables):
        table = np.asarray(rows, dtype=np.float64)
        waves = table[:, :1] * np.cos(table[:, 1:2] + table[:, 2:3] * millennium)
        total += waves.sum(axis=0) * millennium**power
    return total / 1e8


def _nutation(century: Floats) -> tuple[Floats, Floats]:
    """Eq. 15 to 23: nutation in longitude and obliquity, degrees."""
    arguments = np.stack(
        [
            297.85036 + 445_267.111480 * century - 0.0019142 * century**2 + century**3 / 189_474.0,
            357.52772 + 35_999.050340 * century - 0.0001603 * century**2 - century**3 / 300_000.0,
            134.96298 + 477_198.867398 * century + 0.0086972 * century**2 + century**3 / 56_250.0,
            93.27191 + 483_202.017538 * century - 0.0036825 * century**2 + century**3 / 327_270.0,
            125.04452 - 1_934.136261 * century + 0.0020708 * century**2 + century**3 / 450_000.0,
        ]
    )
    table = np.asarray(NUTATION, dtype=np.float64)
    angle = np.deg2rad(table[:, :5] @ arguments)
    a, b, c, d = (table[:, 5 + k, np.newaxis] for k in range(4))
    in_longitude = ((a + b * century) * np.sin(angle)).sum(axis=0)
    in_obliquity = ((c + d * century) * np.cos(angle)).sum(axis=0)
    return in_longitude / 36e6, in_obliquity / 36e6


def _mean_obliquity_deg(millennium: Floats) -> Floats:
    """Eq. 24: the tilt of the earth's axis without nutation."""
    arc_seconds = np.polynomial.polynomial.polyval(
        millennium / 10.0,
        [84_381.448, -4680.93, -1.55, 1999.25, -51.38, -249.67, -39.05, 7.12, 27.87, 5.79, 2.45],
    )
    return np.asarray(arc_seconds / 3600.0, dtype=np.float64)
