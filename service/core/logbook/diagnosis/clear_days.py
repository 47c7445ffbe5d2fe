"""Which days of the log were without clouds? Found in the log itself: smooth from morning to evening.

A fault leaves a clear day smooth: a dead input, a shadow, a limit, a wrong plane bend its course or lower it, clouds
break it. So a day counts by how rough it is beside a clear day of the stated set, not by how much it gave.
"""

from dataclasses import dataclass

import numpy as np

from service.core.logbook.diagnosis.frame import HOUR_S, Frame
from service.core.model.hours import Bools, Floats, Ints

_LEAST_LOGGED_SHARE = 0.75  # of a day's cloudless energy, that falls into logged steps
_LEAST_OF_THE_BEST = 0.4  # an evenly grey day is smooth too, but gives a quarter of a clear one
_BEST_WITHIN_DAYS = 15
_DULL_SHARE = 0.5
_ROUGH = {900: 0.07, 1800: 0.09, HOUR_S: 0.11}
_ROUNDING = 0.6  # mean bend that rounding alone makes, in quanta


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DayCourse:
    """Each day of a log, (days,): what it gave over a cloudless day of the stated set, and how rough it was beside it.

    ``excess`` is the roughness (sum of bends over sum of powers) above a clear day's, inf where too little was logged.
    ``clear``: numbers of the days taken as clear, in order of time; ``sure`` whether enough of them are beyond doubt.
    """

    index: Floats
    excess: Floats
    clear: Ints
    sure: bool


def day_courses(frame: Frame, cloudless_w: Floats, *, at_least: int = 3) -> DayCourse:
    """Judge each day.

    Args:
        frame: the log.
        cloudless_w: (n,) power of the stated set under a cloudless sky, limit in.
        at_least: so many days are taken, the smoothest, even if all are rough.
    """
    known = np.isfinite(frame.power_w)
    power = np.where(known, frame.power_w, 0.0)
    day, days = frame.day, frame.days
    all_light = np.bincount(day, cloudless_w, minlength=days)
    light = np.bincount(day, np.where(known, cloudless_w, 0.0), minlength=days)
    made = np.bincount(day, np.where(cloudless_w > 0.0, power, 0.0), minlength=days)
    index = np.divide(made, light, out=np.zeros(days), where=light > 0.0)
    enough = (light >= _LEAST_LOGGED_SHARE * all_light) & (all_light > 0.0) & (made > 0.0)
    rounding = np.bincount(day, (cloudless_w > 0.0) * 1.0, minlength=days) * _ROUNDING * frame.quantum_w
    rough = (_bends(power, known, day, days) - rounding) / np.maximum(made, 1e-9)
    usual = _bends(cloudless_w, known, day, days) / np.maximum(light, 1e-9)
    excess = np.where(enough, rough - usual, np.inf)
    of_best = index / np.maximum(_best_nearby(np.where(enough, index, 0.0)), 1e-9)
    # The less a day gave beside the best ones near it, the smoother it has to be: grey days are smooth now and then.
    limit = _rough_from(frame.step_s) * np.clip((of_best - 0.35) / 0.5, 0.2, 1.0)
    clear = np.flatnonzero((excess < limit) & (of_best >= _LEAST_OF_THE_BEST))
    sure = clear.size >= at_least
    if not sure:
        order = np.argsort(np.minimum(excess, 10.0) - index, kind="stable")
        clear = np.sort(order[: min(at_least, days)])
        clear = clear[made[clear] > 0.0]
    return DayCourse(index=index, excess=excess, clear=clear, sure=sure)


def _rough_from(step_s: int) -> float:
    return next((value for step, value in _ROUGH.items() if step_s <= step), _ROUGH[HOUR_S])


def _bends(values: Floats, known: Bools, day: Ints, days: int) -> Floats:
    """Sum over each day of how far a step lies off the middle of its neighbours."""
    if values.size < 3:
        return np.zeros(days)
    inner = known[:-2] & known[1:-1] & known[2:] & (day[:-2] == day[2:])
    bend = np.where(inner, np.abs(values[2:] - 2.0 * values[1:-1] + values[:-2]), 0.0)
    return np.bincount(day[1:-1], bend, minlength=days).astype(np.float64)


def _best_nearby(index: Floats) -> Floats:
    """The greatest index of a fortnight before and after, (days,)."""
    reach = _BEST_WITHIN_DAYS
    padded = np.concatenate([np.zeros(reach), index, np.zeros(reach)])
    windows = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 1)
    return np.asarray(windows.max(axis=1), dtype=np.float64)


def dull_days(course: DayCourse) -> Bools:
    """Days (days,) that gave less than half of the best ones near them; rain falls on these."""
    return np.asarray(course.index < _DULL_SHARE * _best_nearby(course.index))
