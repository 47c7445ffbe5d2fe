"""How does what the set gives, over what it should, go from day to day: one level, a step, some days apart?

Levels are those of days that can be trusted (clear ones, or all with weather), in order of time.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from service.core.model.hours import Floats, Ints

_LEAST_A_SIDE = 2
_LEAST_LEVEL, _MOST_LEVEL = 0.05, 3.0
_FLOOR_SD = 0.02  # days differ by so much at least: air and haze
_FAR = 0.4
_MOST_CUTS = 30


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DayLevels:
    """Level of each day (d,), the number of the day in the log (d,), and how much each counts (d,)."""

    level: Floats
    day: Ints
    weight: Floats

    @property
    def log(self) -> Floats:
        """Logarithms of the levels."""
        return np.log(self.level)


def usable(level: Floats, day: Ints, weight: Floats) -> DayLevels:
    """The days whose level is a number within reason."""
    keep = np.isfinite(level) & (level > _LEAST_LEVEL) & (level < _MOST_LEVEL) & (weight > 0.0)
    return DayLevels(level=level[keep], day=day[keep], weight=weight[keep])


def weighted_quantile(values: Floats, weight: Floats, share: float) -> float:
    """The value below which ``share`` of the weight lies; nought of nothing."""
    if values.size == 0:
        return 0.0
    order = np.argsort(values, kind="stable")
    cumulated = np.cumsum(weight[order])
    at = int(np.searchsorted(cumulated, share * cumulated[-1]))
    return float(values[order][min(at, values.size - 1)])


def level_evidence(levels: DayLevels) -> Mapping[str, float]:
    """Median, spread and day-to-day unrest of the levels' logarithms, and the step that parts them best.

    ``level_step``: logarithm after over before; ``level_step_sureness``: that over its standard error, 0 to 12;
    ``level_before``, ``level_after``: medians of either side; ``step_at_share``: where in the log.
    """
    log, weight = levels.log, levels.weight
    names = ("level", "level_spread", "level_unrest", "level_top", "level_step", "level_step_sureness", "level_before",
             "level_after", "step_at_share")  # fmt: skip
    if log.size < _LEAST_A_SIDE:
        middle = float(log[0]) if log.size else 0.0
        return dict(zip(names, (middle, 0.0, 0.0, middle, 0.0, 0.0, middle, middle, 0.5), strict=True))
    low, middle, high = (weighted_quantile(log, weight, share) for share in (0.1, 0.5, 0.9))
    unrest = float(np.median(np.abs(np.diff(log))))
    step, sureness, before, after, at = _best_step(log, weight)
    return dict(zip(names, (middle, high - low, unrest, high, step, sureness, before, after, at), strict=True))


def _best_step(log: Floats, weight: Floats) -> tuple[float, float, float, float, float]:
    """The split that leaves the least variance: step, its sureness, either side's median, where."""
    size = log.size
    if size < 2 * _LEAST_A_SIDE:
        middle = float(np.median(log))
        return 0.0, 0.0, middle, middle, 0.5
    trimmed = np.clip(log, np.median(log) - 0.9, np.median(log) + 0.9)
    ones, sums, squares = (np.cumsum(weight * one) for one in (np.ones(size), trimmed, trimmed**2))
    cut = np.arange(_LEAST_A_SIDE - 1, size - _LEAST_A_SIDE)
    left, right = ones[cut], ones[-1] - ones[cut]
    mean_left, mean_right = sums[cut] / left, (sums[-1] - sums[cut]) / right
    rest = squares[-1] - left * mean_left**2 - right * mean_right**2
    best = int(np.argmin(rest))
    at = int(cut[best]) + 1
    step = float(mean_right[best] - mean_left[best])
    sd = max(float(np.sqrt(max(rest[best], 0.0) / ones[-1])), _FLOOR_SD)
    error = sd * float(np.sqrt(1.0 / at + 1.0 / (size - at)))
    return step, min(abs(step) / error, 12.0), float(np.median(log[:at])), float(np.median(log[at:])), at / size


def pattern_evidence(levels: DayLevels, share_log: float) -> Mapping[str, float]:
    """How well the days stand at two levels, the lower one ``share_log`` (a logarithm, below 0) under the upper.

    Returns:
        All nan where there are too few days. ``step_gain``: logarithm of the mean distance from one level over that
        from a fall at the best moment; ``step_base``: the level before; ``step_when``: the share of the log before;
        ``mixed_gain``: the same for days that are each at one of the two; ``mixed_base``: the upper level;
        ``mixed_share``: of days at the lower one.
    """
    names = ("step_gain", "step_base", "step_when", "mixed_gain", "mixed_base", "mixed_share")
    log = levels.log
    if log.size < 2 * _LEAST_A_SIDE or share_log >= 0.0:
        return dict.fromkeys(names, float("nan"))  # not known
    one = _distance(log - float(np.median(log)))
    cuts = np.unique(np.linspace(_LEAST_A_SIDE, log.size - _LEAST_A_SIDE, _MOST_CUTS).astype(np.int64))
    after = np.arange(log.size) >= cuts[:, np.newaxis]
    raised = log - share_log * after
    bases = np.median(raised, axis=1)
    distances = np.minimum(np.abs(raised - bases[:, np.newaxis]), _FAR).mean(axis=1) + _FLOOR_SD
    best = int(np.argmin(distances))
    upper = float(np.quantile(log, 0.8))
    for _ in range(2):
        low = log < upper + share_log / 2.0
        upper = float(np.median(log - share_log * low))
    low = log < upper + share_log / 2.0
    mixed = _distance(log - share_log * low - upper)
    values = (
        np.log(one / distances[best]), bases[best], cuts[best] / log.size, np.log(one / mixed), upper, low.mean()
    )  # fmt: skip
    return dict(zip(names, map(float, values), strict=True))


def _distance(off: Floats) -> float:
    """Mean distance, far ones counting as so far, and never less than days differ anyway."""
    return float(np.minimum(np.abs(off), _FAR).mean()) + _FLOOR_SD
