"""Which price holds in which year of the account? Dated periods, cut to years that begin on the day of asking.

Year y runs from ``as_of`` + (y - 1) years to ``as_of`` + y years. A period holds from its day until the next one
begins, so a rule that ends next year ends next year; several periods within one year share it by their days.
"""

from dataclasses import dataclass
from datetime import date

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.facts import Tariff
from service.core.model.hours import Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PricedPeriod:
    """One tariff period over the years of the account.

    ``share_of_year`` and ``import_price_per_kwh`` have shape (years,); ``export`` is unpaid, paid or netted.
    """

    share_of_year: Floats
    import_price_per_kwh: Floats
    export: str
    export_price_per_kwh: float


def priced_periods(tariff: Tariff, as_of: date, years: int, price_growth_share: float) -> tuple[PricedPeriod, ...]:
    """The tariff's periods with their share of each year and their import price in it.

    A price holds as stated in the year of the account in which its period begins (year 1 for what is in force at
    ``as_of``) and grows by ``price_growth_share`` a year after that: a later stated price replaces the grown one. A
    period that repeats the price before it (a rule changes, the price does not) goes on growing.
    What is paid for a kWh sent out does not grow. Before the first period its prices are used; the last one goes on.

    Raises:
        ContradictionError: the tariff has no period.
    """
    if not tariff.periods:
        raise ContradictionError("/tariff/periods", "no period", accepted="at least one period",
                                 example=[{"import_price_per_kwh": 0.34}])  # fmt: skip
    periods = sorted(tariff.periods, key=lambda period: date.fromisoformat(period.valid_from))
    starts = [date.fromisoformat(period.valid_from) for period in periods]
    starts[0] = min(starts[0], as_of)
    edges = np.array([_years_later(as_of, year).toordinal() for year in range(years + 1)], dtype=np.float64)
    ends = [*(start.toordinal() for start in starts[1:]), np.inf]
    account_year = np.arange(years)
    priced = []
    stated_price, stated_in = None, 0
    for period, start, end in zip(periods, starts, ends, strict=True):
        days = np.minimum(edges[1:], end) - np.maximum(edges[:-1], start.toordinal())
        if period.import_price_per_kwh != stated_price:
            stated_price = period.import_price_per_kwh
            stated_in = max(int(np.searchsorted(edges, start.toordinal(), side="right")) - 1, 0)
        grown = (1.0 + price_growth_share) ** np.maximum(account_year - stated_in, 0)
        share = np.clip(days, 0.0, None) / np.diff(edges)
        if share.any():
            priced.append(
                PricedPeriod(
                    share_of_year=share,
                    import_price_per_kwh=period.import_price_per_kwh * grown,
                    export=period.export,
                    export_price_per_kwh=period.export_price_per_kwh,
                )
            )
    return tuple(priced)


def _years_later(day: date, years: int) -> date:
    """The same day some years on; 29 February becomes 28 February where there is none."""
    if day.month == 2 and day.day == 29:
        day = day.replace(day=28)
    return day.replace(year=day.year + years)
