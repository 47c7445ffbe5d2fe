"""What would fall on level ground from a sky without clouds?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.hours import REFERENCE_YEAR, Floats
from service.core.model.sun_days import SunDays
from service.core.sky.sun import REFRACTION_AIR_C, GeocentricSun, geocentric_sun, pressure_at, topocentric_sun

# 1366.1 W/m2 (ASTM E490-00a): newer measurements say 1361, but the model's coefficients were fitted with the older one.
SOLAR_CONSTANT_W_PER_M2 = 1366.1
MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_MONTH_EDGES = np.concatenate([[0], np.cumsum(MONTH_DAYS)])
_MID_MONTH_DAY = (_MONTH_EDGES[:-1] + _MONTH_EDGES[1:]) / 2.0
_NEW_YEAR = np.datetime64(f"{REFERENCE_YEAR}-01-01T00:00", "s")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ClearSky:
    """Cloudless irradiance in W/m2: on level ground, straight from the sun, and from the rest of the sky."""

    ghi_w_per_m2: Floats
    dni_w_per_m2: Floats
    dhi_w_per_m2: Floats


def extraterrestrial(distance_au: Floats) -> Floats:
    """Irradiance outside the atmosphere on a plane that faces the sun, W/m2."""
    return SOLAR_CONSTANT_W_PER_M2 / distance_au**2


def absolute_air_mass(apparent_zenith_deg: Floats, elevation_m: float | Floats) -> Floats:
    """Relative path of the beam through the air, one for a zenith sun at the sea; below the horizon that at 90 deg.

    Kasten and Young 1989, Applied Optics 28, 4735, table II; times pressure of the standard atmosphere.
    """
    zenith = np.clip(apparent_zenith_deg, 0.0, 90.0)
    relative = 1.0 / (np.cos(np.deg2rad(zenith)) + 0.50572 * (96.07995 - zenith) ** -1.6364)
    return relative * (1.0 - 2.25577e-5 * np.asarray(elevation_m)) ** 5.25588


def clear_sky(
    apparent_zenith_deg: Floats,
    elevation_m: float | Floats,
    linke_turbidity: float | Floats,
    extraterrestrial_w_per_m2: float | Floats,
) -> ClearSky:
    """Cloudless irradiance of P. Ineichen and R. Perez 2002, Solar Energy 73, 151-157.

    Args:
        apparent_zenith_deg: the sun's zenith angle with refraction; any shape, others broadcast against it.
        elevation_m: height above the sea, -430 to 6000.
        linke_turbidity: of air mass 2, about 2 (clean, dry) to 7 (dusty, moist).
        extraterrestrial_w_per_m2: on a plane that faces the sun.

    Returns:
        W/m2; nought while the sun is below the horizon.
    """
    elevation = np.asarray(elevation_m, dtype=np.float64)
    turbidity = np.asarray(linke_turbidity, dtype=np.float64)
    cos_zenith = np.maximum(np.cos(np.deg2rad(apparent_zenith_deg)), 0.0)
    air_mass = absolute_air_mass(apparent_zenith_deg, elevation)
    f_h1 = np.exp(-elevation / 8000.0)
    ghi = _on_level_ground(cos_zenith, air_mass, elevation, turbidity, extraterrestrial_w_per_m2)
    beam = (0.664 + 0.163 / f_h1) * np.exp(-0.09 * air_mass * (turbidity - 1.0)) * extraterrestrial_w_per_m2
    # Their empirical limit, eq. 8: the beam's part of the global irradiance cannot exceed this.
    share = np.clip(1.0 - (0.1 - 0.2 * np.exp(-turbidity)) / (0.1 + 0.882 / f_h1), 0.0, None)
    on_level = np.where(cos_zenith > 0.0, np.minimum(beam * cos_zenith, share * ghi), 0.0)
    dni = np.divide(on_level, cos_zenith, out=np.zeros_like(on_level), where=cos_zenith > 1e-6)
    return ClearSky(ghi_w_per_m2=ghi, dni_w_per_m2=dni, dhi_w_per_m2=ghi - dni * cos_zenith)


def clear_sky_on_level_ground(
    apparent_zenith_deg: Floats,
    elevation_m: float | Floats,
    linke_turbidity: float | Floats,
    extraterrestrial_w_per_m2: float | Floats,
) -> Floats:
    """The global part of ``clear_sky`` alone, W/m2, at half its cost; arguments as there."""
    elevation = np.asarray(elevation_m, dtype=np.float64)
    turbidity = np.asarray(linke_turbidity, dtype=np.float64)
    cos_zenith = np.maximum(np.cos(np.deg2rad(apparent_zenith_deg)), 0.0)
    air_mass = absolute_air_mass(apparent_zenith_deg, elevation)
    return _on_level_ground(cos_zenith, air_mass, elevation, turbidity, extraterrestrial_w_per_m2)


def _on_level_ground(
    cos_zenith: Floats, air_mass: Floats, elevation: Floats, turbidity: Floats, outside: float | Floats
) -> Floats:
    f_h1, f_h2 = np.exp(-elevation / 8000.0), np.exp(-elevation / 1250.0)
    through = np.exp(-(3.92e-5 * elevation + 0.0387) * air_mass * (f_h1 + f_h2 * (turbidity - 1.0)))
    return np.asarray((5.09e-5 * elevation + 0.868) * outside * cos_zenith * through, dtype=np.float64)


def months_by_day(by_month: Floats, days: Floats) -> Floats:
    """Monthly values (..., 12) read straight between mid-months at ``days`` (m,) since New Year: (..., m)."""
    nodes = np.concatenate([[_MID_MONTH_DAY[-1] - 365.0], _MID_MONTH_DAY, [_MID_MONTH_DAY[0] + 365.0]])
    padded = np.concatenate([by_month[..., -1:], by_month, by_month[..., :1]], axis=-1)
    right = np.clip(np.searchsorted(nodes, days, side="right"), 1, nodes.size - 1)
    share = (days - nodes[right - 1]) / (nodes[right] - nodes[right - 1])
    return np.asarray(padded[..., right - 1] * (1.0 - share) + padded[..., right] * share, dtype=np.float64)


def clear_sky_months(
    sun_days: SunDays, latitude_deg: float, elevation_m: Floats, linke_turbidity: Floats, *, days_a_month: int = 6
) -> Floats:
    """Monthly means of daily cloudless irradiation on level ground.

    Args:
        sun_days: the sun of the reference year.
        latitude_deg: one latitude; the sun's day is the same along it.
        elevation_m: (n,) heights of n points on it.
        linke_turbidity: (n, 12) monthly turbidity of each.
        days_a_month: sample days a month, evenly spread.

    Returns:
        (n, 12) kWh/m2 a day; within 0.4 % of the sum over 8760 hours where the sun rises all year.
    """
    sample = _sampled_sun(sun_days, latitude_deg, days_a_month)
    light = clear_sky_on_level_ground(
        sample.apparent_zenith_deg,
        np.asarray(elevation_m, dtype=np.float64)[:, np.newaxis],
        months_by_day(np.asarray(linke_turbidity, dtype=np.float64), sample.days)[:, sample.day],
        sample.outside_w_per_m2,
    )
    return sample.monthly(light)


def extraterrestrial_months(sun_days: SunDays, latitude_deg: float, *, days_a_month: int = 6) -> Floats:
    """Monthly means of daily irradiation outside the atmosphere on a level plane, (12,) kWh/m2 a day."""
    sample = _sampled_sun(sun_days, latitude_deg, days_a_month)
    level = sample.outside_w_per_m2 * np.cos(np.deg2rad(sample.apparent_zenith_deg))
    return np.asarray(sample.monthly(level[np.newaxis])[0], dtype=np.float64)


_HALF_DAY_STEPS = 24  # of the half day after noon; the morning is its mirror


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _SampledSun:
    """The risen sun of sample days: (m,) zenith and light outside the air, ``day`` of each, ``days`` since New Year."""

    apparent_zenith_deg: Floats
    outside_w_per_m2: Floats
    day: NDArray[np.intp]
    days: Floats
    days_a_month: int

    def monthly(self, light_w_per_m2: Floats) -> Floats:
        """(n, m) irradiances as (n, 12) monthly means of kWh/m2 a day."""
        edges = np.searchsorted(self.day, np.arange(0, self.days.size + 1, self.days_a_month))
        running = np.concatenate([np.zeros((light_w_per_m2.shape[0], 1)), light_w_per_m2.cumsum(axis=1)], axis=1)
        sums = np.diff(running[:, edges], axis=1)
        return np.asarray(sums * 24.0 / _HALF_DAY_STEPS / self.days_a_month / 1000.0, dtype=np.float64)


def _sampled_sun(sun_days: SunDays, latitude_deg: float, days_a_month: int) -> _SampledSun:
    days, sun = _sample_days(sun_days, days_a_month)
    hour_angle = (np.arange(_HALF_DAY_STEPS) + 0.5) * 180.0 / _HALF_DAY_STEPS
    over_day = GeocentricSun(
        declination_deg=np.repeat(sun.declination_deg, _HALF_DAY_STEPS),
        greenwich_hour_angle_deg=np.tile(hour_angle, days.size),
        distance_au=np.repeat(sun.distance_au, _HALF_DAY_STEPS),
    )
    at = topocentric_sun(over_day, latitude_deg, 0.0, 0.0, pressure_hpa=pressure_at(0.0), air_c=REFRACTION_AIR_C)
    up = np.nonzero(at.apparent_zenith_deg < 90.0)[0]
    return _SampledSun(
        apparent_zenith_deg=at.apparent_zenith_deg[up],
        outside_w_per_m2=extraterrestrial(at.distance_au[up]),
        day=up // _HALF_DAY_STEPS,
        days=days,
        days_a_month=days_a_month,
    )


def _sample_days(sun_days: SunDays, days_a_month: int) -> tuple[Floats, GeocentricSun]:
    """Even sample days since New Year and the sun on them."""
    share = (np.arange(days_a_month) + 0.5) / days_a_month
    days = (_MONTH_EDGES[:-1, np.newaxis] + np.asarray(MONTH_DAYS)[:, np.newaxis] * share).ravel()
    return days, geocentric_sun(sun_days, _NEW_YEAR + np.rint(days * 86_400).astype("timedelta64[s]"))
