"""What speaks for which cause? All the quantities that a diagnosis weighs, each by its name.

Two comparisons are made: of clear days found in the log with a cloudless sky, and, where weather was sent along, of all
days with that weather (names that begin with ``w_``).
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from service.core.logbook.diagnosis.clear_days import DayCourse, day_courses, dull_days
from service.core.logbook.diagnosis.clear_stretches import stretch_levels, unrest_evidence
from service.core.logbook.diagnosis.compared import Compared, Fit, compared_on, fitted
from service.core.logbook.diagnosis.day_levels import DayLevels, level_evidence, pattern_evidence, usable
from service.core.logbook.diagnosis.day_tops import Fall, day_tops, fall_of, tops_evidence
from service.core.logbook.diagnosis.dirt_drift import drift_evidence, wash_evidence
from service.core.logbook.diagnosis.fast_ageing import ageing_evidence
from service.core.logbook.diagnosis.frame import DAY_S, HOUR_S, Frame, Parts, frame_of, in_hours, working_power_w
from service.core.logbook.diagnosis.grid_trips import Holes, holes_of, trip_evidence, without_dips
from service.core.logbook.diagnosis.heat_derating import heat_evidence
from service.core.logbook.diagnosis.input_dead import input_evidence, shares_left
from service.core.logbook.diagnosis.low_voltage import LowVoltage, low_voltage
from service.core.logbook.diagnosis.lower_limit import limit_evidence
from service.core.logbook.diagnosis.plane_fit import PlaneFit, fit_clock, fit_plane
from service.core.logbook.diagnosis.set_model import (
    SetModel,
    Weather,
    dc_of_arrays,
    in_steps,
    scene_of,
    set_model,
)
from service.core.logbook.diagnosis.shade_grown import GrownShade, shade_grown
from service.core.logbook.diagnosis.sky_light import cloudless_weather, weather_on
from service.core.logbook.diagnosis.undeclared_shade import shade_evidence
from service.core.logbook.diagnosis.wet_trips import wet_evidence
from service.core.logbook.diagnosis.whole_log_costs import costs_over_log
from service.core.logbook.series import LoggedSeries
from service.core.model.climate import PlaceClimate
from service.core.model.facts import Setup
from service.core.model.hours import Bools, Floats, Ints
from service.core.model.weather import GivenWeather

MOST_DAYS_FITTED = 20
MOST_DAYS_OF_WEATHER = 32
_SMALL_MISFIT = 0.07  # a clock that is wrong by an hour leaves more
_FARTHEST_SHIFT_H = 2.6  # farther off than any wrong plane brings the middle of production
_NEAR_SHIFTS_MIN = (-120.0, -90.0, -60.0, -30.0, 30.0, 60.0, 90.0, 120.0)
_LEAST_INDEX = 0.05  # of a day's energy over a cloudless one's
_USUAL_TOP_OFF = 0.015  # of the energy, that is missing at high output of sound sets
_BROKEN_WEIGHT = 0.3  # of an hour of broken cloud beside a clear one: the weather's clouds need not be the set's


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Evidence:
    """The named quantities; the plane that fits best; clear days and their levels; whether steps show a day.

    ``grown``, ``low_voltage`` and ``fall`` (of the best hours) need no weighing: None where the log does not show them.
    ``costs``: by cause, the share of the whole log's energy that it takes, where that is not one of the named.
    """

    named: Mapping[str, float]
    plane: PlaneFit | None
    course: DayCourse
    levels: DayLevels
    with_weather: bool
    by_the_hour: bool
    grown: GrownShade | None
    low_voltage: LowVoltage | None
    fall: Fall | None
    costs: Mapping[str, float]


def evidence_of(
    series: LoggedSeries, setup: Setup, climate: PlaceClimate, weather: GivenWeather | None = None
) -> Evidence:
    """Compare a log with what the set as stated should have given.

    Raises:
        ContradictionError: a panel's datasheet makes no curve.
    """
    model = set_model(setup, series.input)
    log, coarse_h = _in_time(_beside_the_sky(series, model, climate), model, climate)
    course, but_for_dips, holes = _clear_days(log)
    named = {"clock_coarse_h": abs(coarse_h), **_log_evidence(log, model, course)}
    dull = dull_days(course)
    by_the_hour = series.step_s <= HOUR_S
    if by_the_hour and course.clear.size:
        day = _day_of(log.series, log.frame)
        in_clear, in_quiet = np.isin(day, course.clear), np.isin(day, but_for_dips.clear)
        named |= trip_evidence(holes, series.step_s, in_clear, in_quiet)
        named |= wet_evidence(log.frame, log.cloudless_w)
        named["quiet_days"] = float(np.log1p(but_for_dips.clear.size))
        plane, levels, clear = _clear_evidence(log, model, climate, course, dull)
        named |= clear
        stretches = stretch_levels(log.frame, log.cloudless_w)
        named |= {f"s_{name}": value for name, value in _levels_evidence(stretches, dull).items()}
        for cause in ("dead", "section"):
            pattern = pattern_evidence(stretches, named[f"{cause}_share"])
            named |= {f"s_{cause}_{name}": value for name, value in pattern.items()}
        named["s_days_share"] = stretches.day.size / max(log.frame.days, 1)
        named |= unrest_evidence(log.frame, log.cloudless_w)
        tops, tops_day = day_tops(log.frame, log.cloudless_w)
    else:
        plane = None
        levels = _best_days(course)
        named |= _levels_evidence(levels, dull)
        tops_day = np.flatnonzero(course.index > _LEAST_INDEX)
        tops = np.log(course.index[tops_day])
        named |= shares_left(model, log.frame.parts, log.cloudless)
    named |= tops_evidence(tops, {cause: named[f"{cause}_share"] for cause in ("dead", "section")})
    fall = fall_of(tops, _calendar_days(log.frame, climate)[tops_day], named)
    costs = costs_over_log(log.frame, log.cloudless, log.free_w, course.clear, model, named)
    if weather is not None:
        found, weather_plane, of_weather = _weather_evidence(log, setup, model, climate, weather, dull)
        costs |= of_weather
        named |= {f"w_{name}": value for name, value in found.items()}
        plane = weather_plane if plane is None or not course.sure else plane
    named["clock_ahead_h"] = coarse_h + named.get("clock_ahead_h", 0.0)
    return Evidence(
        named=named, plane=plane, course=course, levels=levels, with_weather=weather is not None,
        by_the_hour=by_the_hour, grown=shade_grown(log.frame, log.cloudless_w, course) if by_the_hour else None,
        low_voltage=_low_voltage(log, setup, model, climate, weather) if by_the_hour else None,
        fall=fall, costs=costs,
    )  # fmt: skip


def _calendar_days(frame: Frame, climate: PlaceClimate) -> Ints:
    """(days,) the date of each day of the sun, counted from 1 January 1970."""
    noon = np.zeros(frame.days)
    np.maximum.at(noon, frame.day, frame.start_s.astype(np.float64))
    local = noon + climate.longitude_deg / 360.0 * DAY_S - frame.step_s
    return np.asarray(local // DAY_S, dtype=np.int64)


def _low_voltage(
    log: "_Log", setup: Setup, model: SetModel, climate: PlaceClimate, weather: GivenWeather | None
) -> LowVoltage | None:  # fmt: skip
    """Under the weather of those days where it was sent along, else under a sky without clouds."""
    if weather is None:
        return low_voltage(log.frame, model, setup, log.cloudless)
    known = weather_on(log.frame.parts, log.frame.step_s * log.frame.part_share, weather, setup, climate)
    told = np.isfinite(known.ghi_w_per_m2)
    sky = Weather(
        **{name: np.where(told, getattr(known, name), getattr(log.cloudless, name)) for name in Weather.__slots__}
    )
    return low_voltage(log.frame, model, setup, sky)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Log:
    """A log beside a cloudless sky: its working steps, the sky over their parts, the stated set's power in them.

    ``cloudless_w`` with the stated limit, ``free_w`` without any.
    """

    series: LoggedSeries
    frame: Frame
    cloudless: Weather
    cloudless_w: Floats
    free_w: Floats


def _beside_the_sky(series: LoggedSeries, model: SetModel, climate: PlaceClimate) -> _Log:
    frame = frame_of(series, climate, model.rated_w)
    cloudless = cloudless_weather(frame.parts, climate)
    limited, free = _stated_steps(frame, model, cloudless)
    return _Log(series=series, frame=frame, cloudless=cloudless, cloudless_w=limited, free_w=free)


def _in_time(log: _Log, model: SetModel, climate: PlaceClimate) -> tuple[_Log, float]:
    """The log, moved by whole hours where its production lies hours off the sun; and by how many its clock is fast."""
    ahead_h = _clock_off_h(log.frame, log.cloudless_w) if log.series.step_s <= HOUR_S else 0.0
    if ahead_h == 0.0:
        return log, 0.0
    moved = replace(log.series, start_s=log.series.start_s - round(ahead_h * HOUR_S))
    return _beside_the_sky(moved, model, climate), ahead_h


def _clear_days(log: _Log) -> tuple[DayCourse, DayCourse, Holes]:
    """The days without holes to nothing; without any dips; the holes. The second, where the first finds too few."""
    holes = holes_of(log.series)
    courses = []
    for energy in (np.where(holes.hole, np.nan, log.series.energy_wh), without_dips(log.series, holes)):
        power = working_power_w(log.frame, replace(log.series, energy_wh=energy))
        courses.append(day_courses(replace(log.frame, power_w=power), log.cloudless_w))
    course, but_for_dips = courses
    return (but_for_dips if but_for_dips.sure and not course.sure else course), but_for_dips, holes


def _clock_off_h(frame: Frame, cloudless_w: Floats) -> float:
    """By how many whole hours the log's clock is fast, where its production lies hours off the sun; else nought."""
    power = np.nan_to_num(frame.power_w)
    turn = np.exp(2j * np.pi * (frame.start_s % DAY_S) / DAY_S)
    logged, expected = (power * turn).sum(), (cloudless_w * turn).sum()
    if abs(logged) == 0.0 or abs(expected) == 0.0:
        return 0.0
    off_h = float(np.angle(logged / expected)) * 24.0 / (2.0 * np.pi)
    return float(np.rint(off_h)) if abs(off_h) > _FARTHEST_SHIFT_H else 0.0


def _stated_steps(frame: Frame, model: SetModel, weather: Weather) -> tuple[Floats, Floats]:
    """Power of the stated set in each step (n,), under its limit and without one."""
    scene = scene_of(model, frame.parts, weather)
    free = model.ac_w(np.asarray(sum(dc_of_arrays(model, scene))))
    limited, before = (
        in_steps(one, frame.parts.at, frame.start_s.size, frame.part_share)
        for one in (np.minimum(free, model.limit_w), free)
    )
    return limited, before


def _day_of(series: LoggedSeries, frame: Frame) -> Ints:
    """The frame's number of the day that each reading is in."""
    step = np.clip((series.start_s - frame.start_s[0]) // frame.step_s, 0, frame.start_s.size - 1)
    return np.asarray(frame.day[step])


def _log_evidence(log: _Log, model: SetModel, course: DayCourse) -> dict[str, float]:
    """How much there is to judge by, and what needs no comparison."""
    frame, cloudless_w = log.frame, log.cloudless_w
    power = np.nan_to_num(frame.power_w)
    total = max(float(power.sum()), 1e-9)
    top = float(np.quantile(power, 0.998))
    known = np.isfinite(course.excess) | (course.index > 0.0)
    index = course.index[known] if known.any() else np.zeros(1)
    return {
        "log_days": float(np.log(max(frame.days, 1))),
        "log_clear_days": float(np.log1p(course.clear.size)),
        "few_clear_days": 0.0 if course.sure else 1.0,
        "hourly": 1.0 if log.series.step_s >= HOUR_S else 0.0,
        "two_arrays": 1.0 if len(model.arrays) > 1 else 0.0,
        "top_over_expected": float(np.log(max(top, 1.0) / max(float(cloudless_w.max(initial=0.0)), 1.0))),
        "index_top": float(np.log(max(float(np.quantile(index, 0.9)), 0.05))),
        "index_middle": float(np.log(max(float(np.quantile(index, 0.5)), 0.05))),
        "dark_share": float(power[cloudless_w <= 0.0].sum()) / total,
    }


def _clear_evidence(
    log: _Log, model: SetModel, climate: PlaceClimate, course: DayCourse, dull: Bools
) -> tuple[PlaneFit, DayLevels, dict[str, float]]:
    frame, cloudless = log.frame, log.cloudless
    all_clear = compared_on(frame, model, cloudless, course.clear)
    free = all_clear.stated_w()
    fit = fitted(all_clear, free, model.limit_w)
    levels = usable(fit.level, course.clear, np.ones(course.clear.size))
    chosen = _smoothest(course)
    compared = all_clear if chosen.size == course.clear.size else compared_on(frame, model, cloudless, chosen)

    def light(parts: Parts, place: PlaceClimate) -> Weather:
        return cloudless_weather(parts, place)

    plane, named = _course_evidence(frame, compared, levels, dull, light, climate)
    return plane, levels, named


def _smoothest(course: DayCourse) -> Ints:
    """The smoothest of the clear days, up to so many, in order of time."""
    keep = min(MOST_DAYS_FITTED, max(round(0.6 * course.clear.size), 5))
    order = np.argsort(course.excess[course.clear], kind="stable")[:keep]
    return np.sort(course.clear[order])


def _course_evidence(
    frame: Frame,
    compared: Compared,
    levels: DayLevels,
    dull: Bools,
    light: Callable[..., Weather],
    climate: PlaceClimate,
) -> tuple[PlaneFit, dict[str, float]]:
    """All that the course of the compared days says."""
    free = compared.stated_w()
    stated = fitted(compared, free, compared.model.limit_w)
    misfit = max(stated.misfit, 1e-3)
    plane = fit_plane(compared)
    shifts = _NEAR_SHIFTS_MIN if misfit > _SMALL_MISFIT else ()
    clock = fit_clock(compared, light, climate, shifts)
    named: dict[str, float] = {
        "misfit": float(np.log(misfit)),
        "plane_gain": float(np.log(misfit / max(plane.misfit, 1e-3))),
        "plane_misfit": float(np.log(max(plane.misfit, 1e-3))),
        "tilt_by_deg": abs(plane.tilt_by_deg),
        "azimuth_by_deg": abs(plane.azimuth_by_deg),
        "tilt_half_width_deg": plane.tilt_half_width_deg,
        "azimuth_half_width_deg": plane.azimuth_half_width_deg,
        "plane_level": float(np.log(max(plane.level, 0.05))),
        "clock_gain": float(np.log(misfit / max(clock.misfit, 1e-3))),
        "clock_fast_h": abs(clock.fast_min) / 60.0,
        "clock_ahead_h": clock.fast_min / 60.0,
    }
    named |= _levels_evidence(levels, dull)
    named |= input_evidence(compared, levels, stated)
    named |= limit_evidence(frame.power_w, compared, free, misfit)
    named |= shade_evidence(compared, misfit)
    named |= heat_evidence(compared, free, misfit)
    named |= _course_of_residual(compared, stated)
    return plane, named


def _levels_evidence(levels: DayLevels, dull: Bools) -> dict[str, float]:
    """All that the levels of the days say."""
    return {
        **level_evidence(levels), **drift_evidence(levels), **wash_evidence(levels, dull), **ageing_evidence(levels)
    }  # fmt: skip


def _course_of_residual(compared: Compared, stated: Fit) -> dict[str, float]:
    """Which part of the day and of the power is off: mornings, afternoons, the top; as shares of the energy."""
    off = compared.weight * (compared.power_w - stated.power_w)
    total = max(float(compared.weight @ compared.power_w), 1e-9)
    count = np.maximum(np.bincount(compared.parts.at, minlength=compared.rows.size), 1)
    hour = np.bincount(compared.parts.at, compared.parts.solar_h, minlength=compared.rows.size) / count
    high = stated.power_w > 0.75 * float(stated.power_w.max(initial=1.0))
    return {
        "morning_off": float(off[hour < 10.0].sum()) / total,
        "evening_off": float(off[hour > 14.0].sum()) / total,
        "top_off": float(off[high].sum()) / total,
        "top_lost_share": max(-float(off[high].sum()) / total - _USUAL_TOP_OFF, 0.0),
        "top_unrest": float(np.abs(off[high]).sum()) / total,
        "top_unrest_over_rest": _unrest(off, stated.power_w, high) - _unrest(off, stated.power_w, ~high),
    }


def _unrest(off: Floats, power_w: Floats, where: Bools) -> float:
    return float(np.abs(off[where]).sum()) / max(float(power_w[where].sum()), 1e-9)


def _best_days(course: DayCourse) -> DayLevels:
    """Levels where only days are known: the best of each stretch of a week stand for clear ones."""
    index = course.index
    reach = 3
    padded = np.concatenate([np.zeros(reach), index, np.zeros(reach)])
    best = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 1).max(axis=1)
    days = np.flatnonzero((index > 0.93 * best) & (index > 0.2))
    return usable(index[days], days, np.ones(days.size))


def _weather_evidence(
    log: _Log, setup: Setup, model: SetModel, climate: PlaceClimate, weather: GivenWeather, dull: Bools
) -> tuple[dict[str, float], PlaneFit | None, dict[str, float]]:
    """All that a comparison with the weather of those days says; last what lids cost in it."""
    by_the_hour, frame = log.series.step_s <= HOUR_S, in_hours(log.frame)
    part_s = frame.step_s * frame.part_share
    sky = weather_on(frame.parts, part_s, weather, setup, climate)
    index = np.divide(
        sky.ghi_w_per_m2, frame.parts.ghi_w_per_m2, out=np.zeros(frame.parts.at.size),
        where=frame.parts.ghi_w_per_m2 > 1.0,
    )  # fmt: skip
    count = np.maximum(np.bincount(frame.parts.at, minlength=frame.start_s.size), 1)
    known = np.bincount(frame.parts.at, np.isnan(index) * 1.0, minlength=frame.start_s.size) == 0.0
    of_step = np.bincount(frame.parts.at, np.nan_to_num(index), minlength=frame.start_s.size) / count
    weight = known * np.where(of_step > 0.8, 1.0, _BROKEN_WEIGHT)
    sky = Weather(**{name: np.nan_to_num(getattr(sky, name)) for name in Weather.__slots__})
    days = np.unique(frame.day[np.isfinite(frame.power_w) & known])
    if days.size == 0 or not np.nansum(frame.power_w) > 0.0:
        return {}, None, {}
    all_days = compared_on(frame, model, sky, days, weight)
    fit = fitted(all_days, all_days.stated_w(), model.limit_w)
    light = np.bincount(all_days.day, all_days.weight * fit.power_w, minlength=all_days.days)
    day_weight = np.minimum(light / max(float(np.quantile(light, 0.8)), 1e-9), 1.0)
    levels = usable(fit.level, days, np.where(day_weight > 0.15, day_weight, 0.0))
    if not by_the_hour:
        named = _levels_evidence(levels, dull)
        shares = shares_left(model, frame.parts, sky)
        return {**named, **tops_evidence(levels.log, {name[:-6]: share for name, share in shares.items()})}, None, {}
    chosen = days
    if days.size > MOST_DAYS_OF_WEATHER:
        best = np.argsort(-light, kind="stable")[: max(MOST_DAYS_OF_WEATHER, days.size // 2)]
        best = np.sort(best)
        chosen = days[best[np.linspace(0, best.size - 1, MOST_DAYS_OF_WEATHER).astype(np.int64)]]
    compared = all_days if chosen.size == days.size else compared_on(frame, model, sky, chosen, weight)

    def moved(parts: Parts, place: PlaceClimate) -> Weather:
        found = weather_on(parts, part_s, weather, setup, place)
        return Weather(**{name: np.nan_to_num(getattr(found, name)) for name in Weather.__slots__})

    plane, named = _course_evidence(frame, compared, levels, dull, moved, climate)
    free = np.zeros(frame.start_s.size)
    free[all_days.rows] = all_days.in_steps(all_days.stated_w())
    costs = costs_over_log(frame, sky, free, days, model, named)
    return {**named, "known_days": float(levels.day.size)}, plane, costs
