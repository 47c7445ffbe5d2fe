"""In which steps of a log does something hold the power down to one value, and to which?"""

from dataclasses import dataclass

import numpy as np

from service.core.logbook.series import LoggedSeries
from service.core.model.hours import Bools, Floats

HOUR_S = 3600.0
# A top is flat if many steps lie within so narrow a band: inverters hold their limit to a tenth of a per cent or so.
_HALF_WIDTH_SHARE = 0.001
_TOP_SHARE = 0.85  # of the highest value: flat stretches lie above it
_LEAST_STEPS, _TIMES_BESIDE = 6, 3.0
_LEAST_RUN = 3  # steps in a row, of hours one less: fewer are alike by chance
_OVER = 0.2  # of as many steps: so few may lie above it, as when the light comes back at once
_LONGEST_STEP_S = 3600


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FlatTop:
    """The power at which the log is cut, W, and in which steps that is so, (n,)."""

    power_w: float
    clipped: Bools


def flat_top(series: LoggedSeries, resolution_wh: float = 0.0) -> FlatTop | None:
    """The flat top of a log; None where its highest values are no more alike than clouds make them.

    Args:
        series: on even steps of at most an hour.
        resolution_wh: what readings are rounded to, which makes values alike too.

    Of the bands near the top that is taken which holds the most steps, if it holds thrice as many as the bands beside
    it and some of them follow each other.
    """
    power = series.energy_wh * (HOUR_S / series.step_s)
    most = float(np.nanmax(power, initial=0.0))
    if most <= 0.0 or series.step_s > _LONGEST_STEP_S:
        return None
    half = max(_HALF_WIDTH_SHARE * most, 0.5001 * resolution_wh * HOUR_S / series.step_s)
    high = np.sort(power[power > _TOP_SHARE * most])
    middle, count = _densest(high, half)
    if count < _LEAST_STEPS:
        return None
    above = _count(high, middle + half, middle + 5.0 * half)
    below = _count(high, middle - 5.0 * half, middle - half)
    if (
        count < _TIMES_BESIDE * max(above, below) / 2.0
        or high.size - np.searchsorted(high, middle + half) > _OVER * count
    ):
        return None
    near = np.abs(power - middle) <= half
    clipped = _in_runs(near, _LEAST_RUN if series.step_s < _LONGEST_STEP_S else _LEAST_RUN - 1)
    if np.count_nonzero(clipped) < _LEAST_STEPS:
        return None
    return FlatTop(power_w=middle, clipped=np.asarray(clipped))


def _in_runs(near: Bools, least: int) -> Bools:
    """Those of the steps that stand in a run of at least so many."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], near, [False]]).astype(np.int8)))
    begins, ends = edges[0::2], edges[1::2]
    long = ends - begins >= least
    inside = np.zeros(near.size + 1, dtype=np.int64)
    inside[begins[long]] += 1
    inside[ends[long]] -= 1
    return np.asarray(np.cumsum(inside[:-1]) > 0)


def _densest(values: Floats, half: float) -> tuple[float, int]:
    """The middle of the band of twice ``half`` that holds the most of sorted ``values``, and how many."""
    ends = np.searchsorted(values, values + 2.0 * half, side="right")
    counts = ends - np.arange(values.size)
    at = int(np.argmax(counts))
    return float(np.median(values[at : ends[at]])), int(counts[at])


def _count(values: Floats, low: float, high: float) -> int:
    return int(np.searchsorted(values, high, side="right") - np.searchsorted(values, low, side="left"))
