"""How sure is a figure? Cautious, middle, hopeful; where the spread comes from; the one rule by which parts combine."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt

# 90 % of a normal distribution lies above mean - 1.2816 sd (P90 of the trade), 10 % above mean + 1.2816 sd (P10).
Z_90 = 1.2815515655446004
# Of a normal spread 95 cases in a hundred lie within so many standard deviations of the middle.
Z_95 = 1.959963984540054


@dataclass(frozen=True, slots=True)
class Band:
    """The outcome that 90, 50 and 10 % of cases do better than. ``cautious`` is always the less happy end.

    A member is None where there is no such outcome (never paid back within the years asked).
    """

    cautious: float | None
    middle: float | None
    hopeful: float | None


@dataclass(frozen=True, slots=True)
class SpreadPart:
    """One reason why a figure is uncertain: a code of the vocabulary and its relative standard deviation.

    ``upward_sd_share``: towards more, where that differs; ``relative_sd_share`` is then the one towards less.
    """

    code: str
    relative_sd_share: float
    upward_sd_share: float | None = None


def combined_sd_share(parts: Iterable[SpreadPart]) -> tuple[float, float]:
    """Relative standard deviations of independent parts together, to less and to more: root sums of squares.

    >>> combined_sd_share([SpreadPart("climate_data", 0.03), SpreadPart("rating", 0.04, 0.0)])
    (0.05, 0.03)
    """
    down = up = 0.0
    for part in parts:
        down += part.relative_sd_share**2
        up += (part.relative_sd_share if part.upward_sd_share is None else part.upward_sd_share) ** 2
    return sqrt(down), sqrt(up)


def ends_of(parts: Iterable[SpreadPart]) -> tuple[float, float]:
    """The cautious and the hopeful end of a figure with these independent parts of spread, over its middle.

    >>> [round(end, 4) for end in ends_of([SpreadPart("model", 0.1)])]
    [0.8718, 1.1282]
    """
    down, up = combined_sd_share(parts)
    return max(1.0 - Z_90 * down, 0.0), 1.0 + Z_90 * up


def band_around(middle: float, parts: Iterable[SpreadPart]) -> Band:
    """The band of a non-negative figure whose independent parts of spread are given; never below nought.

    >>> band_around(610.0, [SpreadPart("model", 0.0925257)]).cautious
    537.668...
    """
    low, high = ends_of(parts)
    return Band(middle * low, middle, middle * high)
