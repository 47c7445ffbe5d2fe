"""What level does each day show in the hours in which no cloud passed? Clear hours are many where clear days are few.

In a stretch of an hour and a half or more the log runs beside the cloudless course: the ratio neither jumps nor bends.
Even grey does so too, far below the best days about; such stretches are left out.
"""

from collections.abc import Mapping

import numpy as np

from service.core.logbook.diagnosis.day_levels import DayLevels, usable
from service.core.logbook.diagnosis.frame import HOUR_S, Frame
from service.core.model.hours import Bools, Floats

_MOST_JUMP, _MOST_BEND = 0.05, 0.05  # of the ratio, from one quarter-hour to the next
_SHORTEST_S = 5400
_BRIGHT_SHARE = 0.25  # of the cloudless top
_GREY_SHARE = 0.42  # of the best level within a fortnight
_REACH_DAYS = 15
_USUAL_FALL = 0.05  # of the bright levels from middling to high output, in sound logs
_LONG_S = 4 * HOUR_S  # a day with so long stretches counts whole


def stretch_levels(frame: Frame, cloudless_w: Floats) -> DayLevels:
    """The level of each day that has a clear stretch, weighed by how long it is.

    Args:
        frame: the log.
        cloudless_w: (n,) power of the stated set under a cloudless sky, limit in.
    """
    ratio, _, calm = _ratios(frame, cloudless_w)
    at = np.flatnonzero(_in_long_runs(calm, max(-(-_SHORTEST_S // frame.step_s), 2)))
    days, begins = np.unique(frame.day[at], return_index=True)
    parts = np.split(ratio[at], begins[1:])
    level = np.array([float(np.median(part)) for part in parts if part.size])
    long = np.array([part.size * frame.step_s for part in parts if part.size], dtype=np.float64)
    if level.size == 0:
        return usable(np.empty(0), np.empty(0, dtype=np.int64), np.empty(0))
    best = np.array([level[np.abs(days - day) <= _REACH_DAYS].max() for day in days])
    weight = np.where(level > _GREY_SHARE * best, np.minimum(long / _LONG_S, 1.0), 0.0)
    return usable(level, days, weight)


def unrest_evidence(frame: Frame, cloudless_w: Floats) -> Mapping[str, float]:
    """Does the log go less calmly when it should be high? Clouds come at any height of output, trips and lids do not.

    Returns:
        ``calm_low_share``, ``calm_high_share``: of the steps with middling and with high cloudless power, how many
        lie in a clear stretch; ``calm_fall``: the one less the other (``calm_lost_share``: where that is above nought);
        ``low_sunny_level``, ``high_sunny_level``: logarithm of the upper quartile of their ratio; ``sunny_fall``: the
        one less the other (``sunny_lost_log``: by how much it is more than usual).
    """
    ratio, bright, calm = _ratios(frame, cloudless_w)
    top = float(np.quantile(cloudless_w[bright], 0.98)) if bright.any() else 1.0
    found: dict[str, float] = {}
    for name, low, high in (("low", 0.25, 0.6), ("high", 0.68, 9.9)):
        band = bright & (cloudless_w >= low * top) & (cloudless_w < high * top)
        count = int(np.count_nonzero(band))
        found[f"calm_{name}_share"] = float(np.count_nonzero(calm & band)) / count if count else float("nan")
        level = float(np.quantile(ratio[band], 0.75)) if count else float("nan")
        found[f"{name}_sunny_level"] = float(np.log(max(level, 0.05)))
    found["calm_fall"] = found["calm_low_share"] - found["calm_high_share"]
    found["calm_lost_share"] = max(float(np.nan_to_num(found["calm_fall"])), 0.0)
    found["sunny_fall"] = found["low_sunny_level"] - found["high_sunny_level"]
    found["sunny_lost_log"] = max(float(np.nan_to_num(found["sunny_fall"])) - _USUAL_FALL, 0.0)
    return found


def _ratios(frame: Frame, cloudless_w: Floats) -> tuple[Floats, Bools, Bools]:
    """The log over the cloudless course, (n,); where that is bright; where the log runs beside it."""
    bright = np.isfinite(frame.power_w) & (cloudless_w > _BRIGHT_SHARE * max(float(cloudless_w.max(initial=0.0)), 1.0))
    ratio = np.where(bright, np.nan_to_num(frame.power_w) / np.maximum(cloudless_w, 1.0), 0.0)
    calm = _calm(ratio, bright, (frame.step_s / 900.0) ** 0.5, frame.quantum_w / np.maximum(cloudless_w, 1.0))
    return ratio, bright, calm


def _calm(ratio: Floats, bright: Bools, coarser: float, rounding: Floats) -> Bools:
    """Steps whose ratio goes on from the one before and to the one after."""
    calm = np.zeros(ratio.size, dtype=np.bool_)
    if ratio.size < 3:
        return calm
    before, here, after = ratio[:-2], ratio[1:-1], ratio[2:]
    jump = np.maximum(np.abs(here - before), np.abs(after - here))
    bend = np.abs(after - 2.0 * here + before)
    room = coarser * here + 1e-9
    spare = rounding[1:-1]
    calm[1:-1] = (
        bright[:-2] & bright[1:-1] & bright[2:]
        & (jump < _MOST_JUMP * room + spare) & (bend < _MOST_BEND * room + 2.0 * spare)
    )  # fmt: skip
    return calm


def _in_long_runs(marked: Bools, least: int) -> Bools:
    """Those of the marked steps that stand in a row of at least so many."""
    edges = np.diff(np.concatenate([[0], marked.astype(np.int64), [0]]))
    begins, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    keep = ends - begins >= least
    change = np.zeros(marked.size + 1, dtype=np.int64)
    np.add.at(change, begins[keep], 1)
    np.add.at(change, ends[keep], -1)
    return np.cumsum(change)[:-1] > 0
