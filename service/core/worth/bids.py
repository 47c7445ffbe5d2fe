"""What may be bid for the set, so that it is paid back in so many years?"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from service.core.model.band import Band
from service.core.model.hours import Floats
from service.core.payback import parts_kept, worth_up_to_each_year
from service.core.worth.bands import Squares
from service.core.worth.result import BreakEven

# After how many years a bidder might want the money back; the years kept come on top.
_BREAK_EVEN_YEARS = (3, 5, 8, 10)
# What of a price a sale leaves to be earned at least: who gets all of it back, without interest, may pay any price.
_LEAST_LEFT = 1e-6


class Kept:
    """How long the set is kept: ``time`` in years, ``parts`` (years,) of each year begun."""

    def __init__(self, time: float) -> None:
        self.time = time
        self.parts = parts_kept(time)
        self.years = self.parts.size
        self.last_part = float(self.parts[-1]) if self.years else 1.0

    def of(self, amounts: Floats) -> Floats:
        """What of yearly amounts, shape (..., years), falls in the time."""
        begun = amounts[..., : self.years]
        return begun if self.last_part == 1.0 else np.asarray(begun * self.parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sale:
    """What is sold at the end of the years kept: a share of the things, for nobody buys freight, trips and forms back.

    ``beside``: what is paid beside the things.
    """

    share: float
    things: float
    beside: float

    @property
    def brings(self) -> float:
        """The sale's amount."""
        return self.share * self.things

    def bid(self, savings_worth: Floats, factor: float) -> Floats:
        """The outlay that savings of such present value pay together with its own sale, which counts ``factor`` now.

        A bid moves the price of the things; what is paid beside them stays. Where not even that is earned, nothing is
        left for things that could be sold.

        >>> float(Sale(share=0.5, things=0.0, beside=20.0).bid(np.array(80.0), 0.8))
        120.0
        """
        left = self.share * factor
        sold = (savings_worth - left * self.beside) / max(1.0 - left, _LEAST_LEFT)
        return np.where(savings_worth > self.beside, sold, savings_worth)


def break_even(
    squares: Squares,
    shrunk: Callable[[float], float],
    cost: Floats,
    kept: Kept,
    price_sd_share: float,
    discount_rate_share: float,
    sale: Sale,
) -> tuple[BreakEven, ...]:
    """Accounts that end early, as far as the set is kept; weather evens out over the years of each.

    Only the account of all the years kept ends with the sale.
    """
    ends_after = [years for years in sorted({kept.time, *_BREAK_EVEN_YEARS}) if 0 < years <= kept.time]
    if not ends_after:
        return ()
    shares = np.array([[shrunk(max(years, 1.0))] for years in ends_after])
    cautious, hopeful = squares.ends(shares, price_sd_share)
    last = np.ceil(ends_after).astype(np.int64) - 1
    rows = np.arange(last.size)
    ends = kept.of(np.stack([cautious, np.broadcast_to(squares.middle, cautious.shape), hopeful]))
    most = worth_up_to_each_year(ends, cost, discount_rate_share)[:, rows, last]
    if sale.share > 0.0:
        most[:, -1] = sale.bid(most[:, -1], (1.0 + discount_rate_share) ** -kept.years)
    return tuple(
        BreakEven(years=years, worth_up_to=Band(*band), by_selling=sale.share > 0.0 and years == kept.time)
        for years, band in zip(ends_after, most.T.tolist(), strict=True)
    )
