"""On which steps is the log compared with the sky, and where does the sun stand in each of them?

Readings every five minutes are summed to quarter-hours (to longer steps where they are coarsely rounded); longer steps
are looked at in parts of about a quarter-hour, because the sun of mid-hour is no measure of an hour.
"""

from dataclasses import dataclass

import numpy as np

from service.core.logbook.series import LoggedSeries
from service.core.model.climate import PlaceClimate
from service.core.model.hours import Floats, Ints
from service.core.sky.clear_sky import clear_sky_on_level_ground, extraterrestrial, months_by_day
from service.core.sky.low_sun import course_of_cloudless_light
from service.core.sky.sun import sun_of_any_year

PART_S = 900
HOUR_S, DAY_S = 3600, 86_400
COARSE_SHARE = 0.05  # a step whose rounding is more than this part of the set's power is summed to longer ones
_QUANTA_WH = (100.0, 10.0, 1.0)
_DARK_ZENITH_DEG = 91.0
_ENOUGH_LOGGED_SHARE = 0.6  # of a working step, for its mean to count


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Parts:
    """The sun and a cloudless sky over parts of steps, arrays (m,): only parts with light.

    Attributes:
        at: the step that each is part of, rising.
        day: number of the sun's day that it is in.
        middle_s: Unix seconds of its middle.
        zenith_deg, azimuth_deg: the sun, refraction in. ``solar_h``: mean solar time.
        outside_w_per_m2: light outside the air on a plane that faces the sun.
        ghi_w_per_m2, dni_w_per_m2: of a cloudless sky.
    """

    at: Ints
    day: Ints
    middle_s: Ints
    zenith_deg: Floats
    azimuth_deg: Floats
    solar_h: Floats
    outside_w_per_m2: Floats
    ghi_w_per_m2: Floats
    dni_w_per_m2: Floats

    def only(self, rows: Ints, at: Ints) -> "Parts":
        """Some of them, with new numbers of their steps."""
        return Parts(
            at=at, day=self.day[rows], middle_s=self.middle_s[rows], zenith_deg=self.zenith_deg[rows],
            azimuth_deg=self.azimuth_deg[rows], solar_h=self.solar_h[rows],
            outside_w_per_m2=self.outside_w_per_m2[rows], ghi_w_per_m2=self.ghi_w_per_m2[rows],
            dni_w_per_m2=self.dni_w_per_m2[rows],
        )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Frame:
    """The log on working steps, and the sun over their parts.

    Attributes:
        step_s: length of a working step; ``start_s`` (n,) Unix seconds of each by the log's clock.
        power_w: (n,) mean power, nan where too little of it was logged.
        day: (n,) number of the sun's day (from its midnight) from 0; ``days`` how many there are.
        part_share: the share of a step that a part is.
        quantum_w: what the readings' rounding means in a working step.
    """

    step_s: int
    start_s: Ints
    power_w: Floats
    day: Ints
    days: int
    parts: Parts
    part_share: float
    quantum_w: float


def frame_of(series: LoggedSeries, climate: PlaceClimate, rated_w: float, *, least_step_s: int = PART_S) -> Frame:
    """The log of a set of ``rated_w`` on working steps of at least ``least_step_s``."""
    quantum_wh = quantum_of(series.energy_wh)
    together = _together(series.step_s, quantum_wh, rated_w, least_step_s)
    step_s = series.step_s * together
    power, start = _working_power(series, together)
    count = power.size
    first_day = solar_day(start[:1], climate.longitude_deg)[0]
    middle = start + step_s // 2
    day = solar_day(middle, climate.longitude_deg) - first_day
    parts = max(round(step_s / PART_S), 1)
    offsets = ((np.arange(parts) + 0.5) * step_s / parts).astype(np.int64)
    middles = (start[:, np.newaxis] + offsets).ravel()
    at = np.repeat(np.arange(count), parts)
    return Frame(
        step_s=step_s,
        start_s=start,
        power_w=power,
        day=day,
        days=int(day[-1]) + 1,
        parts=lit_parts(middles, at, solar_day(middles, climate.longitude_deg) - first_day, climate),
        part_share=1.0 / parts,
        quantum_w=quantum_wh * HOUR_S / step_s,
    )


def in_hours(frame: Frame) -> Frame:
    """The frame on steps of an hour, with the parts that it has; itself where its steps are as long or do not fit."""
    if frame.step_s >= HOUR_S or HOUR_S % frame.step_s or frame.start_s.size < HOUR_S // frame.step_s:
        return frame
    together = HOUR_S // frame.step_s
    lead = int(-(frame.start_s[0] // frame.step_s) % together)
    count = (frame.start_s.size - lead) // together
    if count == 0:
        return frame
    blocks = frame.power_w[lead : lead + count * together].reshape(count, together)
    known = np.isfinite(blocks)
    logged = known.sum(axis=1)
    mean = np.where(known, blocks, 0.0).sum(axis=1) / np.maximum(logged, 1)
    hour = (frame.parts.at - lead) // together
    inside = np.flatnonzero((frame.parts.at >= lead) & (hour < count))
    first = lead + together * np.arange(count)
    return Frame(
        step_s=HOUR_S,
        start_s=frame.start_s[first],
        power_w=np.where(logged >= _ENOUGH_LOGGED_SHARE * together, mean, np.nan),
        day=frame.day[first + together // 2],
        days=frame.days,
        parts=frame.parts.only(inside, hour[inside]),
        part_share=frame.part_share / together,
        quantum_w=frame.quantum_w / together,
    )


def working_power_w(frame: Frame, series: LoggedSeries) -> Floats:
    """Mean power on the steps of a frame (n,), of a series on the grid that the frame was made from."""
    return _working_power(series, frame.step_s // series.step_s)[0]


def _working_power(series: LoggedSeries, together: int) -> tuple[Floats, Ints]:
    """Mean power of so many readings together, nan where too few of them are known; and when they begin."""
    lead = int(-(series.start_s[0] // series.step_s) % together)  # working steps begin at whole multiples
    if series.energy_wh.size - lead < together:
        lead = 0
    count = (series.energy_wh.size - lead) // together
    if count == 0:
        mean = float(np.mean(series.energy_wh)) / series.step_s * HOUR_S
        return np.array([mean]), series.start_s[:1].astype(np.int64)
    blocks = series.energy_wh[lead : lead + count * together].reshape(count, together)
    known = np.isfinite(blocks)
    logged = known.sum(axis=1)
    sums = np.where(known, blocks, 0.0).sum(axis=1)
    mean_w = sums / np.maximum(logged, 1) / series.step_s * HOUR_S
    power = np.where(logged >= _ENOUGH_LOGGED_SHARE * together, mean_w, np.nan)
    return power, series.start_s[lead : lead + count * together : together].astype(np.int64)


def quantum_of(energy_wh: Floats) -> float:
    """What the readings are rounded to, Wh: the largest of a few usual steps that nearly all are multiples of; or 0."""
    known = energy_wh[np.isfinite(energy_wh) & (energy_wh > 0.0)]
    if known.size == 0:
        return 0.0
    for quantum in _QUANTA_WH:
        off = np.abs(known / quantum - np.rint(known / quantum))
        if np.count_nonzero(off < 1e-3) > 0.9 * known.size:
            return quantum
    return 0.0


def _together(step_s: int, quantum_wh: float, rated_w: float, least_step_s: int) -> int:
    """How many readings make a working step."""
    together = max(-(-least_step_s // step_s), 1)
    while quantum_wh * HOUR_S / (together * step_s) > COARSE_SHARE * rated_w and together * step_s * 2 <= HOUR_S:
        together *= 2
    return together


def solar_day(unix_s: Ints, longitude_deg: float) -> Ints:
    """Number of the sun's mean day at this longitude that a moment is in."""
    return np.asarray((unix_s + round(longitude_deg * 240.0)) // DAY_S, dtype=np.int64)


def lit_parts(middle_s: Ints, at: Ints, day: Ints, climate: PlaceClimate, *, clock_fast_s: int = 0) -> Parts:
    """Those of the moments ``middle_s`` (by the log's clock) at which the sun is up, with sun and cloudless light.

    ``clock_fast_s``: how much the log's clock is taken to be ahead of the true time. Each day's light has the sum of
    ``clear_sky``, which the climate's index is relative to, and the course of ``low_sun``.
    """
    true_s = middle_s - clock_fast_s
    near = _may_be_up(true_s, climate)
    utc = true_s[near].astype("datetime64[s]")
    sun = sun_of_any_year(climate.sun_days, utc, climate.latitude_deg, climate.longitude_deg, climate.elevation_m)
    up = np.flatnonzero(sun.apparent_zenith_deg < _DARK_ZENITH_DEG)
    lit = near[up]
    zenith, outside = sun.apparent_zenith_deg[up], extraterrestrial(sun.distance_au[up])
    of_day = day[lit]
    first = int(day[0]) if day.size else 0
    begin = true_s[:1].astype("datetime64[s]")
    turbidity = _turbidity(begin, day, climate)[of_day - first] if lit.size else np.empty(0)
    course, dni = course_of_cloudless_light(zenith, climate.elevation_m, turbidity, outside)
    sums = clear_sky_on_level_ground(zenith, climate.elevation_m, turbidity, outside)
    wanted = np.bincount(of_day - first, sums, minlength=1)
    found = np.bincount(of_day - first, course, minlength=1)
    factor = np.divide(wanted, found, out=np.ones(found.size), where=found > 0.0)[of_day - first]
    solar_h = (true_s[lit] / HOUR_S + climate.longitude_deg / 15.0) % 24.0
    return Parts(
        at=at[lit], day=of_day, middle_s=true_s[lit], zenith_deg=zenith, azimuth_deg=sun.azimuth_deg[up],
        solar_h=solar_h, outside_w_per_m2=outside, ghi_w_per_m2=course * factor, dni_w_per_m2=dni * factor,
    )  # fmt: skip


def _may_be_up(true_s: Ints, climate: PlaceClimate) -> Ints:
    """Moments at which the sun may stand above 1 degree under the horizon: found roughly, with 7 degrees to spare.

    Declination to a degree, mean instead of true solar time (16 minutes, 4 degrees at most).
    """
    declination = np.deg2rad(-23.44 * np.cos(2.0 * np.pi * (true_s / DAY_S % 365.2425 + 10.0) / 365.2425))
    hour_angle = np.deg2rad((true_s / HOUR_S + climate.longitude_deg / 15.0) * 15.0 - 180.0)
    latitude = np.deg2rad(climate.latitude_deg)
    sine = np.sin(latitude) * np.sin(declination) + np.cos(latitude) * np.cos(declination) * np.cos(hour_angle)
    return np.flatnonzero(sine > np.sin(np.deg2rad(-8.0)))


def _turbidity(utc: np.ndarray[tuple[int, ...], np.dtype[np.datetime64]], day: Ints, climate: PlaceClimate) -> Floats:
    """Turbidity of each day from the first to the last, (days,)."""
    since_new_year = (utc[0] - utc[0].astype("datetime64[Y]")) / np.timedelta64(1, "D")
    days = np.asarray((float(since_new_year) + np.arange(int(day[-1] - day[0]) + 1)) % 365.0, dtype=np.float64)
    return months_by_day(climate.linke_turbidity, days)
