"""What can a set give at most, and what does it usually give, on each day of a year?"""

from dataclasses import dataclass

import numpy as np

from service.core.logbook.expected import DAY_S, reference_rows
from service.core.model.hours import Bools, Floats, Ints

# Where no course of the year is known: a clear day over a usual one, at most.
_CLEAR_OVER_USUAL = 4.0
# Days on which the sun hardly rises are no measure: no day counts for less than this part of the year's mean.
_LEAST_USUAL, _LEAST_CLEAR = 0.03, 0.15
_DARK_SHARE, _BLACK_SHARE = 0.7, 0.02  # of the year's mean: winter; of the season's


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ceiling:
    """What the set can give.

    Attributes:
        most_w: rated power.
        usual_w: mean over the hours of a usual year.
        usual_days_wh, clear_days_wh: (365,) by the day of the reference year what its season gives, and what a day
            without a cloud gives; None: not known.
        dullest_days_wh: (365,) likewise what the dullest day of its season gives.
    """

    most_w: float
    usual_w: float
    usual_days_wh: Floats | None = None
    clear_days_wh: Floats | None = None
    dullest_days_wh: Floats | None = None

    def usual_wh(self, days: Ints) -> Floats:
        """(n,) what each day usually gives; days count from 1 January 1970."""
        mean = 24.0 * self.usual_w
        told = mean if self.usual_days_wh is None else self.usual_days_wh[_of_the_year(days)]
        return np.asarray(np.maximum(np.broadcast_to(told, days.shape), _LEAST_USUAL * mean))

    def clear_wh(self, days: Ints) -> Floats:
        """(n,) what each day gives at most, the sky wholly clear."""
        mean = 24.0 * self.usual_w
        told = _CLEAR_OVER_USUAL * mean if self.clear_days_wh is None else self.clear_days_wh[_of_the_year(days)]
        return np.asarray(np.maximum(np.broadcast_to(told, days.shape), _LEAST_CLEAR * mean))

    def may_be_black(self, days: Ints) -> Bools:
        """(n,) on which days snow, fog or a sun that hardly rises may leave next to nothing."""
        usual = self.usual_wh(days)
        dark = usual < _DARK_SHARE * 24.0 * self.usual_w
        if self.dullest_days_wh is not None:
            dark |= self.dullest_days_wh[_of_the_year(days)] < _BLACK_SHARE * usual
        return np.asarray(dark)


def _of_the_year(days: Ints) -> Ints:
    return reference_rows(days * DAY_S, 0) // 24
