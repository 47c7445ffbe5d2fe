"""What is the most that may be paid, in a figure that can be kept in mind? One rule for the answer and its texts."""

from math import floor, log10


def at_most(value: float) -> float:
    """An upper bound: two digits that count, never rounded up, so that the promise beside it still holds.

    >>> at_most(564.1), at_most(96.9), at_most(7.39), at_most(1437.0), at_most(0.0)
    (560.0, 96.0, 7.3, 1400.0, 0.0)
    """
    if value == 0.0:
        return 0.0
    step = 10.0 ** (floor(log10(value)) - 1) if value > 0.0 else 1.0
    return round(floor(value / step * (1.0 + 1e-12)) * step, decimals_of(value))


def decimals_of(value: float) -> int:
    """How many places after the point such a bound has.

    >>> decimals_of(564.1), decimals_of(7.39)
    (0, 1)
    """
    return max(1 - floor(log10(value)), 0) if value > 0.0 else 0
