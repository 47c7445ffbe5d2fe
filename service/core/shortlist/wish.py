"""By what are sets put in an order: the shortest payback, the most value, or the least outlay for each yearly kWh?"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import Literal, TypeVar

import numpy as np

from service.core.model.band import Z_90, Band
from service.core.model.facts import Household, Money
from service.core.model.hours import Bools, Floats
from service.core.payback import time_kept

Wish = Literal["quick_payback", "most_value", "least_outlay_per_kwh"]
WISHES: tuple[Wish, ...] = ("quick_payback", "most_value", "least_outlay_per_kwh")
# What second-hand panels add to the spread of a year's energy (core.energy.spread), and how much of a change in the
# energy the saving follows; rough, for an order of many alone.
_USED_SD, _FOLLOWS = 0.04, 0.7
NEVER = float("inf")

N = TypeVar("N", float, Floats)


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """The account in three figures, good enough to put many sets in an order.

    Attributes:
        wish: as asked; where no price per kWh is known only the least outlay can be told.
        cautious_share: a year's cautious saving over its middle.
        running: a year's running costs.
        years_worth: value of all years' savings over the first year's.
    """

    wish: Wish
    cautious_share: float
    running: float
    years_worth: float

    @classmethod
    def of(cls, wish: Wish, saving: Band | None, money: Money, household: Household) -> "Terms":
        """``saving``: of a first year at this home, of any set; None where no price is known."""
        share = 1.0
        if saving is not None and saving.middle and saving.cautious is not None:
            share = max(saving.cautious / saving.middle, 0.0)
        years = int(np.ceil(time_kept(money.years, household.stay_years)))
        year = np.arange(years)
        grows = (1 - money.ageing_share_per_year) * (1 + money.price_growth_share)
        worth = float(np.sum(grows**year / (1 + money.discount_rate_share) ** (year + 1)))
        return cls(
            wish="least_outlay_per_kwh" if saving is None else wish,
            cautious_share=share,
            running=money.running_cost_per_year,
            years_worth=worth,
        )

    def rough(self, outlay: Floats, year_kwh: Floats, saving: Floats | None, *, second_hand: bool | Bools) -> Floats:
        """What is wanted, the less the better, of sets of these outlays, yields and first years' savings."""
        if saving is None or self.wish == "least_outlay_per_kwh":
            return _over(outlay, year_kwh)
        if self.wish == "most_value":
            return outlay - self.years_worth * saving
        used = max(1.0 - hypot(1.0 - self.cautious_share, Z_90 * _USED_SD * _FOLLOWS), 0.0)
        share = np.where(second_hand, used, self.cautious_share)
        return _over(outlay, share * saving - self.running)


def told(wish: Wish, outlay: float, year_kwh: Band, payback_years: Band | None, value: Band | None) -> float:
    """The same of figures that were told; never paid back and no yield come last."""
    found: Mapping[Wish, float | None] = {
        "quick_payback": None if payback_years is None else payback_years.cautious,
        "most_value": None if value is None or value.middle is None else -value.middle,
        "least_outlay_per_kwh": outlay / year_kwh.middle if year_kwh.middle else None,
    }
    figure = found[wish]
    return NEVER if figure is None else figure


def _over(outlay: Floats, gain: Floats) -> Floats:
    """Never where there is no gain; what costs nothing, at once."""
    safe = np.where(gain > 0.0, gain, 1.0)
    return np.where(gain > 0.0, np.maximum(outlay, 0.0) / safe, NEVER)
