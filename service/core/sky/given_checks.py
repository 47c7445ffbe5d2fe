"""Can the light that a caller gave be what it is said to be? By day, not too much, not too little, and of a piece.

Bounds were looked for among hours of Potsdam, Seattle, Las Vegas and Miami, measured days of Albuquerque and Golden,
and monthly sums of 186 stations; each lies well beyond what the widest of them needs.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from service.core.errors import ContradictionError
from service.core.model.hours import Floats
from service.core.model.place import Plane
from service.core.model.weather import GivenWeather
from service.core.sky.cloudless import Cloudless
from service.core.sky.given_hours import GivenHours
from service.core.sky.given_times import at_series
from service.core.sky.incidence import cos_incidence
from service.core.sky.sun import SunPosition

_MOST_AT_NIGHT = 0.02
_DIM_W_PER_M2 = 15.0  # twilight, or the zero of a sensor: tells of no clock
# Of a cloudless sky's light bright clouds and snow may send so much from the sky and from the ground onto a plane.
_MOST_DIFFUSE, _MOST_REFLECTED = 0.6, 0.8
# Light over that of a cloudless sky. The cloudless sky is known by the month and to some 10 % only: a day reached 1.30
# (Potsdam, in winter), months 1.17 and years 1.07 at most (both Aswan; all others stay under 1.08 and 1.01).
_MOST_OF_A_PART, _MOST_OF_A_MONTH, _MOST_OF_A_YEAR = 1.35, 1.3, 1.2
# Of ``most_on_plane`` the four files' planes reach 0.67 in a year, 0.77 in a month and 0.87 in ten days.
_MOST_ON_A_PLANE = 1.0 / _MOST_OF_A_YEAR
# Of each hour and each 24 hours within a series the light may be that of such a part. The brightest hours of the four
# files have 33 W/m2 more than 1.35 times the cloudless light (low sun), the brightest days 1.19 times it and 100 Wh; a
# clock may be an hour off, so that of hours the brighter neighbour's cloudless light counts. Cloudless days above snow
# reach 1.18 of ``most_on_plane`` upright to the south at 2500 m, their hours 1.1.
#
# A low sun on a leaning plane hangs on the air far more than that: cloudless days of clean air over snow reach 2.2
# times ``most_on_plane`` at 61 N in January, 1.5 at 52 N (turbidity 1.8, reflectance 0.8). So hours, days and months
# count as possible under a sky of clean air, too; of that the same days reach 0.88. A year of such days there is not.
_MOST_OF_A_CLEAN_MONTH = 0.9  # all of it cloudless, clean and over new snow
_ROUNDING_WH_A_DAY = 100.0  # and of a part of one
_DAY_H = 24
# Light over that outside the air. The dullest ten days in a row had 0.18, the dullest month of a station 0.19, the
# dullest day 0.05. A plane that looks north under a balcony gets a tenth of level ground's. kW read as W have 0.001.
_LEAST_OF_DAYS, _LEAST_ON_A_PLANE, _LEAST_OF_A_DAY = 0.05, 0.01, 0.002
_FEW_DAYS = 10
_MOST_OF_A_YEAR_H = 300 * 24
_DAYLIGHT_KWH_PER_M2 = 2.0  # outside the air; less of it (a sunrise, a polar winter) tells nothing of dullness or sums
# How far the sum may lie from its parts: instruments in the end, on one day their places too. The four files close
# within 0.3 % of a year and 6 % of a day, the day of Albuquerque (two stations) to 11 %.
_OPEN_SHARE, _OPEN_SHARE_OF_A_DAY, _OPEN_W_PER_M2 = 0.05, 0.1, 5.0
_KW, _MJ = 1000.0, 1e6 / 3600.0
_CLIMATE = {"source": "climate"}


def check_light(
    hours: GivenHours,
    cloudless: Cloudless,
    planes_most_w_per_m2: Sequence[tuple[Floats, Floats]],
    outside_w_per_m2: Floats,
    weather: GivenWeather,
    stamp: str,
) -> None:
    """Refuse light that cannot be.

    Args:
        hours: as given, with their gaps.
        cloudless: of the same hours.
        planes_most_w_per_m2: ``most_on_plane`` of each plane on which light was given, under this cloudless sky and
            under one of clean air.
        outside_w_per_m2: (n,) above the air, at right angles to the sun.
        weather: the steps; what is None there was derived.
        stamp: where the times of the series stand.

    Raises:
        ContradictionError: light by night (a wrong zone, or the other half of the year), more than a cloudless sky
            gives, far less than any sky does (a wrong unit), or a sum that is not that of its parts.
    """
    _by_night(hours, cloudless, stamp)
    planes = [float(most.max()) for most, _ in planes_most_w_per_m2] if hours.planes is not None else []
    _too_little(hours, cloudless, max(planes, default=float(cloudless.ghi_w_per_m2.max())))
    if hours.planes is None:
        _too_much(hours.utc, hours.ghi, cloudless.ghi_w_per_m2, "ghi_w_per_m2")
        _too_much_within(hours.utc, hours.ghi, cloudless.ghi_w_per_m2, weather, "ghi_w_per_m2")
        _of_a_piece(hours, cloudless, outside_w_per_m2, weather)
    for at, (light, (most, clean)) in enumerate(zip(hours.planes or (), planes_most_w_per_m2, strict=False)):
        _too_much(hours.utc, light, _MOST_ON_A_PLANE * most, f"plane_w_per_m2/{at}", clean)
        _too_much_within(hours.utc, light, most, weather, f"plane_w_per_m2/{at}", clean)


def most_on_plane(plane: Plane, sun: SunPosition, cloudless: Cloudless) -> Floats:
    """The most light, (n,) W/m2, that a cloudless sun, bright clouds and snow may send onto a plane in each hour.

    ``sun``: at the middle of the hours.
    """
    facing = np.maximum(cos_incidence(sun.apparent_zenith_deg, sun.azimuth_deg, plane), 0.0)
    sky_share = (1.0 + np.cos(np.radians(plane.tilt_deg))) / 2.0
    spread = _MOST_DIFFUSE * sky_share + _MOST_REFLECTED * (1.0 - sky_share)
    return np.asarray(cloudless.dni_w_per_m2 * facing + cloudless.ghi_w_per_m2 * spread, dtype=np.float64)


def _by_night(hours: GivenHours, cloudless: Cloudless, stamp: str) -> None:
    light = np.nan_to_num(hours.ghi if hours.planes is None else hours.planes[0])
    dark = (cloudless.outside_w_per_m2 <= 0.5) & (light > _DIM_W_PER_M2)
    total, night = float(light.sum()), float(light[dark].sum())
    if night > _MOST_AT_NIGHT * total + 100.0:
        raise ContradictionError(
            at_series(stamp), "puts much of the light into hours in which the sun is down",
            given=f"{night / total:.0%} of the light",
            accepted="times with the right offset, and the place of the series",
            example=["2025-03-01T00:00:00Z", "2025-03-01T01:00:00Z"] if stamp == "times" else "2025-03-01T00:00:00Z",
        )  # fmt: skip


def _too_little(hours: GivenHours, cloudless: Cloudless, clear_w_per_m2: float) -> None:
    """``clear_w_per_m2``: the brightest hour that is expected, which tells the unit."""
    columns = (hours.ghi,) if hours.planes is None else hours.planes
    light = max(columns, key=lambda column: float(np.nansum(column)))
    known = ~np.isnan(light)
    found, outside = (float(one[known].sum()) / 1000.0 for one in (light, cloudless.outside_w_per_m2))
    of_days = _LEAST_OF_DAYS if hours.planes is None else _LEAST_ON_A_PLANE
    least = outside * (of_days if hours.utc.size >= _FEW_DAYS * 24 else _LEAST_OF_A_DAY)
    if outside < _DAYLIGHT_KWH_PER_M2 or found >= least:
        return
    name = "ghi_w_per_m2" if hours.planes is None else "plane_w_per_m2"
    brightest = float(np.nanmax(light))
    unit = next((text for factor, text in ((_KW, "kW/m2"), (_MJ, "MJ/m2 an hour"))
                 if 0.2 * clear_w_per_m2 < factor * brightest < 1.6 * clear_w_per_m2), "")  # fmt: skip
    raise ContradictionError(
        "/weather", f"has far less light in {name} than any sky gives" + (f", as if it were {unit}" if unit else ""),
        given=f"{found:.3g} kWh/m2",
        accepted=f"mean powers in W/m2 that add up to at least {least:.3g} kWh/m2, or the climate", example=_CLIMATE,
    )  # fmt: skip


def _too_much(
    utc: NDArray[np.datetime64],
    given: Floats,
    cloudless_w_per_m2: Floats,
    name: str,
    clean_w_per_m2: Floats | None = None,
) -> None:
    """Over all, over a year, and in each month of which most is there; but for a year in clean air at most."""
    month = utc.astype("datetime64[M]").astype(np.int64)
    month -= month[0]
    known = ~np.isnan(given)
    light = np.bincount(month[known], given[known], month[-1] + 1)
    clear = np.bincount(month[known], cloudless_w_per_m2[known], month[-1] + 1)
    clean = np.zeros_like(clear)
    if clean_w_per_m2 is not None:
        clean = np.bincount(month[known], clean_w_per_m2[known], month[-1] + 1)
    count = np.bincount(month)
    spans = [(light.sum(), clear.sum(), clean.sum(), utc.size, ""), *(
        (light[at], clear[at], clean[at], count[at], f" in {utc[0].astype('datetime64[M]') + at}")
        for at in np.flatnonzero(count >= 20 * 24)
    )]  # fmt: skip
    for total, cloudless_total, clean_total, size, when in spans:
        year = not when and size >= _MOST_OF_A_YEAR_H
        most = _MOST_OF_A_MONTH if when else _MOST_OF_A_YEAR if year else _MOST_OF_A_PART
        in_clean_air = 0.0 if year else _MOST_OF_A_CLEAN_MONTH if size >= _FEW_DAYS * 24 else 1.0
        bound = max(most * cloudless_total, in_clean_air * clean_total) + _ROUNDING_WH_A_DAY * max(size / 24, 1.0)
        if total > bound:
            raise ContradictionError(
                "/weather", f"has more light in {name} than a cloudless sky gives{when}",
                given=f"{total / 1000.0:.1f} kWh/m2",
                accepted=f"mean powers in W/m2 that add up to at most {bound / 1000.0:.1f} kWh/m2, or the climate",
                example=_CLIMATE,
            )  # fmt: skip


def _too_much_within(
    utc: NDArray[np.datetime64],
    given: Floats,
    cloudless_w_per_m2: Floats,
    weather: GivenWeather,
    name: str,
    clean_w_per_m2: Floats | None = None,
) -> None:
    """In any hour, and in any 24 hours on end."""
    known = ~np.isnan(given)
    light = np.where(known, given, 0.0)
    day = _of_24_hours(light)
    most_of_an_hour, most_of_a_day = np.zeros(light.size), np.zeros(day.size)
    for sky, share in ((cloudless_w_per_m2, _MOST_OF_A_PART), (clean_w_per_m2, 1.0)):
        if sky is not None:
            most_of_an_hour = np.maximum(most_of_an_hour, share * _or_its_neighbour(sky))
            most_of_a_day = np.maximum(most_of_a_day, share * _of_24_hours(np.where(known, sky, 0.0)))
    most_of_an_hour += _ROUNDING_WH_A_DAY
    most_of_a_day += _ROUNDING_WH_A_DAY
    spans = [(light, most_of_an_hour, "the hour", 1.0, "W/m2"), (day, most_of_a_day, "the 24 hours", 1000.0, "kWh/m2")]
    for found, most, span, factor, unit in spans:
        if utc.size < _DAY_H and span != "the hour":
            continue
        over = np.flatnonzero(found > most)
        if not over.size:
            continue
        at = int(over[0])
        raise ContradictionError(
            at_series(f"{name}/{weather.row_at(utc[at])}"),
            f"begins {span} from {np.datetime_as_string(utc[at], unit='m')}Z, with more light than a cloudless sky "
            "gives",
            given=f"{found[at] / factor:.4g} {unit}",
            accepted=f"at most {most[at] / factor:.4g} {unit} there, or null where it was not measured",
            example=round(float(cloudless_w_per_m2[at])),
        )


def _of_24_hours(light: Floats) -> Floats:
    """Sums of each 24 hours on end."""
    return np.convolve(light, np.ones(_DAY_H), "valid")


def _or_its_neighbour(light: Floats) -> Floats:
    """Of each hour and the ones beside it the brightest."""
    edges = np.pad(light, 1)
    return np.asarray(np.maximum(light, np.maximum(edges[:-2], edges[2:])))


def _of_a_piece(hours: GivenHours, cloudless: Cloudless, outside_w_per_m2: Floats, weather: GivenWeather) -> None:
    """The sum is the beam on level ground and the rest. Where one was not given it closes, if it can."""
    if hours.dni is None or hours.dhi is None:
        return
    known = ~np.isnan(hours.ghi + hours.dni + hours.dhi) & (cloudless.outside_w_per_m2 > 0.5)
    beam = hours.dni * cloudless.outside_w_per_m2 / outside_w_per_m2
    total, straight, rest = (float(one[known].sum()) / 1000.0 for one in (hours.ghi, beam, hours.dhi))
    if float(cloudless.outside_w_per_m2[known].sum()) / 1000.0 < _DAYLIGHT_KWH_PER_M2:
        return
    open_share = _OPEN_SHARE + _OPEN_SHARE_OF_A_DAY / np.sqrt(max(hours.utc.size / 24, 1.0))
    noise = _OPEN_W_PER_M2 * int(known.sum()) / 1000.0
    most = open_share * max(total, straight + rest) + noise
    if abs(total - straight - rest) <= most:
        return
    doubted = [name for name, other in (("dni_w_per_m2", rest), ("dhi_w_per_m2", straight))
               if getattr(weather, name) is not None and other <= (1.0 + open_share) * total + noise]  # fmt: skip
    raise ContradictionError(
        at_series(doubted[0]) if doubted else "/weather",
        "does not close: ghi is dni times the cosine of the sun's zenith angle, and dhi",
        given=f"ghi {total:.4g}, dni on level ground {straight:.4g}, dhi {rest:.4g} kWh/m2",
        accepted=f"sums that close within {most:.3g} kWh/m2, or the light without the column that is in doubt",
        example="null" if doubted else _CLIMATE,
    )  # fmt: skip
