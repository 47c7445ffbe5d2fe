"""By what are rows of one unit known: how does their energy lie over the day, how fine are they written?"""

import numpy as np

from service.core.logbook.expected import DAY_S, HOUR_S
from service.core.model.hours import Floats, Ints

_ROUNDED_TO = 10.0 ** np.arange(6, -7, -1)


def best_half_day(middle_s: Ints, energy: Floats) -> tuple[float, int]:
    """The share of the energy in the best twelve hours of the day in a row, and their first hour."""
    by_hour = np.bincount(middle_s % DAY_S // HOUR_S, weights=energy, minlength=24)
    sums = np.convolve(np.concatenate([by_hour, by_hour[:11]]), np.ones(12), "valid")
    best = int(np.argmax(sums))
    return float(sums[best] / by_hour.sum()), best


def rounded_to(values: Floats) -> float:
    """The largest power of ten of which nearly all values are multiples; what is finer than any: nought."""
    for amount in _ROUNDED_TO.tolist():
        times = np.rint(values / amount)
        if np.count_nonzero((np.abs(values / amount - times) < 1e-3) & (times > 0.0)) >= 0.95 * values.size:
            return float(amount)
    return 0.0
