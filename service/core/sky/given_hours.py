"""Which hours does a caller's weather make, and what stands in their gaps?

An hour is the mean of its known steps where at least half of them are known; else it is missing. Missing light of at
most ``SHORT_GAP_H`` hours of daylight in a row is filled: its part of the cloudless light is read straight between the
known hours on both sides (light on a plane itself is read straight). Missing air and wind are read straight over at
most ``SHORT_AIR_GAP_H`` hours. Longer gaps are refused: made-up weather would pass for measured. At night no light is
missing, nor in the dusk, in which many loggers write nothing: what is filled there is next to nothing.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from service.core.errors import ContradictionError
from service.core.model.hours import Bools, Floats
from service.core.model.weather import GivenWeather, WeatherGap
from service.core.sky.cloudless import Cloudless
from service.core.sky.given_times import HOUR_MINUTES, at_series

SHORT_GAP_H = 3
SHORT_AIR_GAP_H = 24
MOST_FILLED_SHARE = 0.05  # of the hours of daylight; of a few days at least as many as a short gap has
LEAST_KNOWN_SHARE = 0.5  # of an hour's steps
_LEAST_STEPS_OF_FLICKER = 4
BRIGHT_W_PER_M2 = 20.0  # cloudless light from which its part that comes through is well defined


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GivenHours:
    """Hourly means in order of time, (n,) each, NaN where missing; None where nobody gave them.

    ``flicker_share``: standard deviation of the light within the hour over its mean, where its steps are short enough.
    """

    utc: NDArray[np.datetime64]
    ghi: Floats
    dni: Floats | None
    dhi: Floats | None
    planes: tuple[Floats, ...] | None
    air: Floats | None
    wind: Floats | None
    flicker_share: Floats | None

    def part(self, rows: slice) -> "GivenHours":
        """Some of the hours."""

        def of(column: Floats | None) -> Floats | None:
            return None if column is None else column[rows]

        planes = None if self.planes is None else tuple(plane[rows] for plane in self.planes)
        return GivenHours(
            utc=self.utc[rows], ghi=self.ghi[rows], dni=of(self.dni), dhi=of(self.dhi), planes=planes,
            air=of(self.air), wind=of(self.wind), flicker_share=of(self.flicker_share),
        )  # fmt: skip


def hours_of(weather: GivenWeather, ghi: Floats, standard_offset_min: int) -> GivenHours:
    """The hours of even steps.

    Args:
        weather: the steps.
        ghi: light on level ground of each step, given or found from the plane.
        standard_offset_min: of the place's standard time. Hours begin with it; where steps of an hour begin between,
            hours begin as they do.

    Raises:
        ContradictionError: not one whole hour is known.
    """
    step, count = weather.step_minutes, ghi.size
    begin_min = int(weather.begins_utc.astype(np.int64)) // 60 + standard_offset_min
    phase = begin_min % step
    hour = (begin_min - phase + step * np.arange(count)) // HOUR_MINUTES
    at = hour - hour[0]
    size = int(at[-1]) + 1

    def means(column: Floats) -> Floats:
        known = ~np.isnan(column)
        counts = np.bincount(at[known], minlength=size)
        totals = np.bincount(at[known], column[known], size).astype(np.float64)
        enough = counts >= LEAST_KNOWN_SHARE * (HOUR_MINUTES // step)
        return np.asarray(np.divide(totals, counts, out=np.full(size, np.nan), where=enough))

    def means_of(column: Floats | None) -> Floats | None:
        return None if column is None else means(column)

    mean = means(ghi)
    if np.isnan(mean).all():
        name = "plane_w_per_m2" if weather.ghi_w_per_m2 is None else "ghi_w_per_m2"
        raise ContradictionError(
            at_series(name), "tells of no whole hour", given=count,
            accepted="at least one hour of which half of the steps are known", example=[0.0] * (HOUR_MINUTES // step),
        )  # fmt: skip
    first_s = (int(hour[0]) * HOUR_MINUTES + phase - standard_offset_min) * 60
    utc = np.datetime64(first_s, "s") + np.arange(size) * np.timedelta64(3600, "s")
    flicker = None
    if HOUR_MINUTES // step >= _LEAST_STEPS_OF_FLICKER:
        spread = np.sqrt(np.maximum(np.nan_to_num(means(ghi * ghi) - mean * mean), 0.0))
        flicker = np.divide(spread, mean, out=np.zeros(size), where=np.nan_to_num(mean) > 1.0)
    planes = None if weather.plane_w_per_m2 is None else tuple(means(plane) for plane in weather.plane_w_per_m2)
    hours = GivenHours(
        utc=utc, ghi=mean, dni=means_of(weather.dni_w_per_m2), dhi=means_of(weather.dhi_w_per_m2),
        planes=planes, air=means_of(weather.air_c), wind=means_of(weather.wind_m_per_s), flicker_share=flicker,
    )  # fmt: skip
    known = np.flatnonzero(~np.isnan(mean))
    return hours.part(slice(int(known[0]), int(known[-1]) + 1))


def filled(hours: GivenHours, cloudless: Cloudless) -> tuple[GivenHours, tuple[WeatherGap, ...]]:
    """The hours without gaps, and the gaps that there were.

    Filled hours have no beam or diffuse light of their own (NaN): they are split as if only their sum were known.

    Raises:
        ContradictionError: a gap that is too long, or too many short ones.
    """
    day = cloudless.outside_w_per_m2 > 0.5
    bright = cloudless.ghi_w_per_m2 > BRIGHT_W_PER_M2
    columns = [hours.ghi, *(one for one in (hours.dni, hours.dhi) if one is not None), *(hours.planes or ())]
    unknown = np.any(np.isnan(columns), axis=0)
    missing = unknown & day
    counted = missing & bright
    name = _at_fault(hours, counted if counted.any() else missing)
    gaps = _gaps("light", name, counted, bright, hours.utc, SHORT_GAP_H)
    if counted.sum() > max(MOST_FILLED_SHARE * int(bright.sum()), SHORT_GAP_H):
        raise ContradictionError(
            at_series(name), "has too many gaps",
            given=f"{int(counted.sum())} of {int(bright.sum())} hours of daylight",
            accepted=f"at most {MOST_FILLED_SHARE:.0%} of them missing", example="null",
        )  # fmt: skip
    seen = ~missing & bright
    part = np.divide(hours.ghi, cloudless.ghi_w_per_m2, out=np.zeros_like(hours.ghi), where=seen)
    ghi = np.where(missing, _straight(part, seen) * cloudless.ghi_w_per_m2, np.nan_to_num(hours.ghi))
    gone = missing | np.isnan(hours.ghi)

    def light(column: Floats | None) -> Floats | None:
        return None if column is None else np.where(unknown, np.where(day, np.nan, 0.0), column)

    air, air_gaps = _of_the_air(hours.air, "air", "air_c", day, hours.utc)
    wind, wind_gaps = _of_the_air(hours.wind, "wind", "wind_m_per_s", day, hours.utc)
    planes = None if hours.planes is None else tuple(_plane(plane, bright) for plane in hours.planes)
    flicker = None if hours.flicker_share is None else np.where(gone, 0.0, hours.flicker_share)
    whole = replace(
        hours, ghi=ghi, dni=light(hours.dni), dhi=light(hours.dhi), planes=planes, air=air, wind=wind,
        flicker_share=flicker,
    )  # fmt: skip
    return whole, (*gaps, *air_gaps, *wind_gaps)


def _at_fault(hours: GivenHours, missing: Bools) -> str:
    """The column that lacks most of the missing hours, the sum first."""
    if hours.planes is not None:
        return "plane_w_per_m2/0"
    columns = {"ghi_w_per_m2": hours.ghi, "dni_w_per_m2": hours.dni, "dhi_w_per_m2": hours.dhi}
    lacking = {name: int(np.isnan(one[missing]).sum()) for name, one in columns.items() if one is not None}
    return max(lacking, key=lacking.__getitem__)


def _plane(plane: Floats, bright: Bools) -> Floats:
    """Light on a plane with its gaps read straight by day, nought by night and in the dusk."""
    return np.where(np.isnan(plane), np.where(bright, _straight(plane, ~np.isnan(plane)), 0.0), plane)


def _of_the_air(
    column: Floats | None, what: str, name: str, day: Bools, utc: NDArray[np.datetime64]
) -> tuple[Floats | None, tuple[WeatherGap, ...]]:
    if column is None:
        return None, ()
    missing = np.isnan(column)
    if missing.all():
        raise ContradictionError(
            at_series(name), "tells of no whole hour", given=int(missing.size),
            accepted="nothing, or a list of which half of the steps of an hour are known", example="null",
        )  # fmt: skip
    gaps = _gaps(what, name, missing, day, utc, SHORT_AIR_GAP_H)
    return _straight(column, ~missing), gaps


def _straight(values: Floats, known: Bools) -> Floats:
    rows = np.flatnonzero(known)
    if not rows.size:  # light that is all night
        return np.zeros_like(values)
    return np.asarray(np.where(known, values, np.interp(np.arange(values.size), rows, values[rows])))


def _gaps(
    what: str, name: str, missing: Bools, day: Bools, utc: NDArray[np.datetime64], most_h: int
) -> tuple[WeatherGap, ...]:
    """Runs of missing hours; of light a night between two of them does not end a run.

    Raises:
        ContradictionError: the first run that is too long.
    """
    runs = _runs(missing, ~day if what == "light" else np.zeros_like(day))
    found = []
    for begin, end in runs:
        hours, daylight = end - begin, int((missing & day)[begin:end].sum())
        long = daylight > most_h if what == "light" else hours > most_h
        gap = WeatherGap(
            what=what, from_utc=_iso(utc[begin]), to_utc=_iso(utc[begin] + np.timedelta64((end - begin) * 3600, "s")),
            hours=hours, daylight_hours=daylight,
        )  # fmt: skip
        if long:
            length = f"{daylight} hours of daylight" if what == "light" else f"{hours} hours"
            raise ContradictionError(
                at_series(name), f"does not know {length} in a row from {gap.from_utc}", given=gap.from_utc,
                accepted=f"gaps of at most {most_h} hours, or the time before and after a longer one in two requests",
                example="null",
            )  # fmt: skip
        found.append(gap)
    return tuple(found)


def _runs(missing: Bools, bridge: Bools) -> Sequence[tuple[int, int]]:
    """(first, after the last) of each run of missing hours; hours of ``bridge`` between two of them belong to it."""
    rows = np.flatnonzero(missing)
    if not rows.size:
        return ()
    known = np.cumsum(~missing & ~bridge)
    cut = np.flatnonzero(np.diff(known[rows]) > 0) + 1
    return [(int(part[0]), int(part[-1]) + 1) for part in np.split(rows, cut)]


def _iso(moment: np.datetime64) -> str:
    return f"{np.datetime_as_string(moment, unit='s')}Z"
