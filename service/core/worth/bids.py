"""What may be bid for the set, so that it is paid back in so many years?"""

from collections.abc import Callable

import numpy as np

from service.core.model.band import Band
from service.core.model.hours import Floats
from service.core.payback import parts_kept, worth_up_to_each_year
from service.core.worth.bands import Squares
from service.core.worth.result import BreakEven

# After how many years a bidder might want the money back; the years kept come on top.
_BREAK_EVEN_YEARS = (3, 5, 8, 10)


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


def break_even(
    squares: Squares,
    shrunk: Callable[[float], tuple[float, float]],
    cost: Floats,
    kept: Kept,
    price_sd_share: float,
    discount_rate_share: float,
    sale: float,
) -> tuple[BreakEven, ...]:
    """Accounts that end early, as far as the set is kept; weather evens out over the years of each.

    Only the account of all the years kept ends with the ``sale``, which brings what was stated whatever is bid.
    """
    ends_after = [years for years in sorted({kept.time, *_BREAK_EVEN_YEARS}) if 0 < years <= kept.time]
    if not ends_after:
        return ()
    shares = np.array([shrunk(max(years, 1.0)) for years in ends_after])
    cautious, hopeful = squares.ends(shares.T[:, :, None], price_sd_share)
    last = np.ceil(ends_after).astype(np.int64) - 1
    rows = np.arange(last.size)
    ends = kept.of(np.stack([cautious, np.broadcast_to(squares.middle, cautious.shape), hopeful]))
    less_sale = np.concatenate([cost[:-1], cost[-1:] - sale])
    most = worth_up_to_each_year(ends, less_sale, discount_rate_share)[:, rows, last]
    return tuple(
        BreakEven(years=years, worth_up_to=Band(*band), by_selling=sale > 0.0 and years == kept.time)
        for years, band in zip(ends_after, most.T.tolist(), strict=True)
    )
