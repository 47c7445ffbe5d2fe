"""Does the level sink day by day and leap back after rain?

With a supposed rate of soiling added back, such a course is a staircase: level between two washings. The staircase that
costs least (distance of the days, and a price for each stair) is found for each rate; where one with a rate is much
cheaper than the one without, the set gets dirty.
"""

from collections.abc import Mapping
from itertools import pairwise

import numpy as np

from service.core.logbook.diagnosis.day_levels import DayLevels
from service.core.model.hours import Bools, Floats, Ints

_RATES = np.array([0.0, 0.002, 0.004, 0.006, 0.008, 0.011, 0.014])
_LEAST_DAYS, _MOST_POINTS = 5, 100
_LEAST_SD = 0.012
_STAIR_PRICE = 2.5  # in variances, times the logarithm of the number of days: Schwarz's criterion, a little dearer
_A_LEAP = 0.03
_NEAR_DAYS, _NO_DIRT, _LEAST_PAIRS = 6, 0.3, 2
_WASH_NAMES = ("dry_fall_per_day", "dry_fall_sureness", "wash_rise", "wash_rise_sureness", "wash_sureness")
_NAMES = ("drift_gain", "drift_rate_per_day", "drift_up_share", "drift_depth", "drift_stairs", "drift_falls_share",
          "drift_leaps", "drift_smoothness")  # fmt: skip


def drift_evidence(levels: DayLevels) -> Mapping[str, float]:
    """How much a drift with leaps explains.

    Returns:
        All nan where there are too few days. ``drift_gain``: logarithm of the cost without a rate over that with the
        best; ``drift_rate_per_day``; ``drift_up_share``: share of its leaps that go up;
        ``drift_depth``: how far it sinks between two leaps;
        ``drift_stairs``: leaps a month; ``drift_falls_share``: share of the days in a row of which the second is lower;
        ``drift_leaps``: leaps of more than 3 % from day to day, a month; ``drift_smoothness``: unrest from day to day
        over the whole spread (small: it moves slowly).
    """
    if levels.level.size < _LEAST_DAYS:
        return dict.fromkeys(_NAMES, float("nan"))  # not known
    log = np.clip(levels.log, np.median(levels.log) - 0.4, np.median(levels.log) + 0.4)
    day = levels.day.astype(np.float64)
    months = max((day[-1] - day[0]) / 30.0, 0.5)
    moves, gaps = np.diff(log), np.diff(day)
    near = gaps <= 4.0
    falls = float(np.mean(moves[near] < 0.0)) if near.any() else 0.5
    leaps = float(np.count_nonzero(moves > _A_LEAP)) / months
    unrest = float(np.sqrt(np.mean(moves**2) / 2.0))
    spread = max(float(np.std(log)), _LEAST_SD)
    gain, rate, ups, depth, stairs = _best_staircase(*_points(log, day, levels.weight))
    values = (gain, rate, ups, depth, stairs / months, falls, min(leaps, 10.0), unrest / spread)
    return dict(zip(_NAMES, map(float, values), strict=True))


def wash_evidence(levels: DayLevels, dull: Bools) -> Mapping[str, float]:
    """Does the level sink from one good day to the next in dry weather, and rise over dull days, as rain washes?

    Args:
        levels: of the days that can be trusted.
        dull: (days,) of the whole log: was the day dull?

    Returns:
        All nan where there are too few pairs of days. ``dry_fall_per_day``: mean change a day without a dull day
        between, ``dry_fall_sureness``: it over its standard error; ``wash_rise``: mean change over dull days between;
        ``wash_rise_sureness``; ``wash_sureness``: how sure the one goes down and the other up, -12 to 12.
    """
    log = (
        np.clip(levels.log, np.median(levels.log) - 0.4, np.median(levels.log) + 0.4) if levels.log.size else levels.log
    )
    gap, moves = np.diff(levels.day), np.diff(log)
    before = np.concatenate([[0], np.cumsum(dull)])
    rained = before[levels.day[1:]] - before[np.minimum(levels.day[:-1] + 1, dull.size)] > 0
    near = (gap <= _NEAR_DAYS) & (np.abs(moves) < _NO_DIRT)
    dry, wet = near & ~rained, near & rained
    if np.count_nonzero(dry) < _LEAST_PAIRS or np.count_nonzero(wet) < _LEAST_PAIRS:
        return dict.fromkeys(_WASH_NAMES, float("nan"))
    fall, fall_error = _mean(moves[dry] / gap[dry])
    rise, rise_error = _mean(moves[wet])
    both = (rise / rise_error - fall / fall_error) / np.sqrt(2.0)
    values = (fall, fall / fall_error, rise, rise / rise_error, both)
    return dict(zip(_WASH_NAMES, (float(np.clip(value, -12.0, 12.0)) for value in values), strict=True))


def _mean(values: Floats) -> tuple[float, float]:
    """Mean and its standard error, not smaller than that of as many days that differ as days do."""
    sd = max(float(np.std(values)), _LEAST_SD)
    return float(values.mean()), sd / float(np.sqrt(values.size))


def _points(log: Floats, day: Floats, weight: Floats) -> tuple[Floats, Floats, Floats]:
    """The days, so many together that there are not too many points."""
    together = -(-log.size // _MOST_POINTS)
    if together == 1:
        return log, day, weight
    group = np.arange(log.size) // together
    total = np.bincount(group, weight).astype(np.float64)
    return np.bincount(group, weight * log) / total, np.bincount(group, weight * day) / total, total


def _best_staircase(log: Floats, day: Floats, weight: Floats) -> tuple[float, float, float, float, float]:
    """Gain, rate, share of stairs upwards, depth between stairs, number of stairs."""
    raised = log + _RATES[:, np.newaxis] * (day - day[0])
    weight = weight / weight.mean()
    variance = max(float(np.median(np.abs(np.diff(log)))) / 0.954, _LEAST_SD) ** 2
    price = _STAIR_PRICE * variance * np.log(log.size)
    cost, begins = staircases(raised, weight, price)
    best = 1 + int(np.argmin(cost[1:]))
    floor = variance * log.size * 0.3
    gain = float(np.log((cost[0] + floor) / (cost[best] + floor)))
    edges = _edges(begins[best])
    means = np.array([np.average(raised[best, i:j], weights=weight[i:j]) for i, j in pairwise(edges)])
    ups = float(np.mean(np.diff(means) > 0.0)) if means.size > 1 else 0.5
    length = float(np.median(np.diff(day[np.minimum(edges, day.size - 1)])))
    return gain, float(_RATES[best]), ups, float(_RATES[best]) * length, means.size - 1.0


def staircases(values: Floats, weight: Floats, price: float) -> tuple[Floats, Ints]:
    """The cheapest staircase of each row: its cost, and for each point where its last stair would begin.

    Args:
        values: (rows, n).
        weight: (n,) of the squared distances.
        price: of a stair.

    Returns:
        (rows,) costs; (rows, n). Optimal partitioning, B. Jackson et al. 2005, IEEE Signal Processing Letters 12, 105.

    >>> staircases(np.array([[0.0, 0.0, 1.0, 1.0]]), np.ones(4), 0.1)[0].round(6).tolist()
    [0.1]
    """
    rows, size = values.shape
    ones = np.concatenate([[0.0], np.cumsum(weight)])
    sums = np.concatenate([np.zeros((rows, 1)), np.cumsum(weight * values, axis=1)], axis=1)
    squares = np.concatenate([np.zeros((rows, 1)), np.cumsum(weight * values**2, axis=1)], axis=1)
    best = np.full((rows, size + 1), -price)
    begins = np.zeros((rows, size), dtype=np.int64)
    every = np.arange(rows)
    for end in range(1, size + 1):
        part = sums[:, end : end + 1] - sums[:, :end]
        rest = squares[:, end : end + 1] - squares[:, :end] - part**2 / (ones[end] - ones[:end])
        total = best[:, :end] + rest + price
        begins[:, end - 1] = np.argmin(total, axis=1)
        best[:, end] = total[every, begins[:, end - 1]]
    return np.maximum(best[:, size], 0.0), begins


def _edges(begins: Ints) -> list[int]:
    """Where the stairs begin, and the end, rising."""
    edges = [begins.size]
    while edges[-1] > 0:
        edges.append(int(begins[edges[-1] - 1]))
    return edges[::-1]
