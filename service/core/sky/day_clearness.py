"""How bright is each day of a typical month? Some days are dull and some are clear, and none is black.

Clearness is a day's irradiation on level ground over that outside the air; the clear-sky index is the same over a
cloudless day's. Days of real months lie between two bounds. The distributions of P. Bendt, M. Collares-Pereira and
A. Rabl (1981, Solar Energy 27, 1-5), who followed B. Liu and R. Jordan (1960, Solar Energy 4, 1-19), begin at a
clearness of 0.05; K. Hollands and R. Huget (1983, Solar Energy 30, 195-209) draw theirs between bounds too. All three
from memory. Days of a reanalysis cell are means over 3 x 3 degrees and more alike than those of a place, so they are
spread out; a straight stretch about their mean would lead below nought, so that what is stretched is the logarithm of
the odds between the bounds: far from both it is the same.

Daily sums of two stations with measured radiation (Potsdam, on level ground; Golden, on a slope of 40 degrees) by
season: of all stretches from 1 to 1.7 either station alone picks 1.35 to 1.45, and 1.4 was in use before. Days a year
with a clearness below 0.06, 0.10 and 0.15 at Potsdam: 2, 18 and 50; ours 9, 25 and 46. American typical years, whose
light is reckoned from clouds and which know no day below 0.1, would pick 1.0 to 1.3.
"""

from dataclasses import dataclass
from math import gcd

import numpy as np

from service.core.model.hours import Bools, Floats, Ints

LEAST_CLEARNESS = 0.05
LEAST_INDEX_AT_MOST = 0.10  # where the sun only grazes the horizon the cloudless sky itself has hardly more than that
CLEAREST_INDEX = 1.08  # a day can beat the clear-sky model a little where the air is cleaner than its turbidity says
BRIGHTEST_INDEX = 1.15  # of a day on which that model reads low, and of any hour
_ABOVE_THE_MEAN = 1.02
_ODDS_STRETCHED_BY = 1.4
_NEAREST_TO_A_BOUND = 0.01  # a cell's day beyond a bound counts as so near to it; 0.001 and 0.03 give the same year
_WIDEST_SHIFT = 40.0  # of the odds' logarithm


@dataclass(frozen=True, slots=True, eq=False)
class DaySums:
    """Irradiation of level ground by day, (days,) each, one unit.

    ``clear``: under the clear sky that indices are relative to. ``cloudless``: by the model for a low sun, which has
    more where that one reads too low. ``outside``: outside the air. ``month`` counts from 0.
    """

    clear: Floats
    cloudless: Floats
    outside: Floats
    month: Ints


def day_indices(month_index: Floats, day_quantiles: Floats, days: DaySums) -> Floats:
    """Clear-sky index of each day: the month's quantiles, spread out between bounds, in a fixed interleaved order.

    Args:
        month_index: (12,) each month's mean clear-sky index, above nought.
        day_quantiles: (12, n) the cell's daily irradiation at n even quantiles over its mean.
        days: the light that there would be.

    Returns:
        (days,) between ``least_index`` and ``clearest_index`` of the day's month, to rounding; nought in months
        without light. The mean over a month, weighted with each day's clear sky, is the month's index.
    """
    month = days.month
    clear, cloudless, outside = (_of_months(month, light) for light in (days.clear, days.cloudless, days.outside))
    lit = clear > 0.0
    least = least_index(month_index, clear, outside)
    room = clearest_index(month_index, clear, cloudless) - least
    place = (month_index[month] * _cell_days(day_quantiles, month) - least[month]) / room[month]
    place = np.clip(place, _NEAREST_TO_A_BOUND, 1.0 - _NEAREST_TO_A_BOUND)
    stretched = _ODDS_STRETCHED_BY * np.log(place / (1.0 - place))
    weight = np.divide(days.clear, clear[month], out=np.zeros(month.size), where=lit[month])
    index = _with_mean(month_index, (least, room), stretched, weight, month)
    return np.where(lit[month], index, 0.0)


def least_index(month_index: Floats, clear: Floats, outside: Floats) -> Floats:
    """Clear-sky index (12,) that no day of a month goes below: the least clearness over that of the cloudless sky.

    Never above a tenth, nor above half of the month's mean.

    >>> least_index(np.array([0.6, 0.15]), np.array([300.0, 300.0]), np.array([540.0, 540.0])).round(3).tolist()
    [0.09, 0.075]
    """
    of_clear = np.divide(LEAST_CLEARNESS * outside, clear, out=np.zeros_like(clear), where=clear > 0.0)
    return np.minimum(np.minimum(of_clear, LEAST_INDEX_AT_MOST), month_index / 2.0)


def clearest_index(month_index: Floats, clear: Floats, cloudless: Floats) -> Floats:
    """Clear-sky index (12,) that no day of a month goes above.

    With a low sun a cloudless day is brighter than the clear sky that indices are relative to (``low_sun``). A month's
    mean above all that stands, and its days a little above it.

    >>> clearest_index(np.array([0.6, 0.6, 1.1]), np.full(3, 300.0), np.array([310.0, 330.0, 310.0])).round(3).tolist()
    [1.08, 1.122, 1.122]
    """
    low_sun = np.divide(cloudless, clear, out=np.ones_like(clear), where=clear > 0.0)
    most = np.clip(_ABOVE_THE_MEAN * low_sun, CLEAREST_INDEX, BRIGHTEST_INDEX)
    return np.maximum(most, _ABOVE_THE_MEAN * month_index)


def _with_mean(
    month_index: Floats, bounds: tuple[Floats, Floats], log_odds: Floats, weight: Floats, month: Ints
) -> Floats:
    """Days (days,) whose odds between ``bounds`` (least, room above) are moved by the shift that gives the mean."""
    least, room = bounds

    def moved_by(shift: Floats) -> tuple[Floats, Floats]:
        index = least[month] + room[month] / (1.0 + np.exp(-(log_odds + shift[month])))
        return index, _of_months(month, weight * index)

    low, high = np.full(12, -_WIDEST_SHIFT), np.full(12, _WIDEST_SHIFT)
    for _ in range(45):
        middle = (low + high) / 2.0
        too_bright: Bools = moved_by(middle)[1] > month_index
        low, high = np.where(too_bright, low, middle), np.where(too_bright, middle, high)
    index, mean = moved_by((low + high) / 2.0)
    to_the_last_digit = np.divide(month_index, mean, out=np.ones(12), where=mean > 0.0)
    return np.asarray(index * to_the_last_digit[month], dtype=np.float64)


def _of_months(month: Ints, of_days: Floats) -> Floats:
    """Sums (12,) of days."""
    return np.asarray(np.bincount(month, of_days, 12), dtype=np.float64)


def _cell_days(day_quantiles: Floats, month: Ints) -> Floats:
    """The cell's days over their mean, (days,), each month's in the interleaved order."""
    days = np.zeros(month.size)
    for m in range(12):
        rows = np.nonzero(month == m)[0]
        days[rows] = _sampled(day_quantiles[m], rows.size)[_interleaved(rows.size)]
    return days


def _sampled(quantiles: Floats, count: int) -> Floats:
    """``count`` even quantiles with mean 1, read straight between the given ones."""
    given = (np.arange(quantiles.size) + 0.5) / quantiles.size
    values = np.interp((np.arange(count) + 0.5) / count, given, quantiles)
    return np.asarray(values / values.mean(), dtype=np.float64)


def _interleaved(count: int) -> Ints:
    """A fixed order in which dull and clear days alternate without following the month's course.

    >>> _interleaved(30)[:5].tolist()
    [0, 11, 22, 3, 14]
    """
    step = 12 if gcd(12, count) == 1 else 11
    return np.arange(count) * step % count
