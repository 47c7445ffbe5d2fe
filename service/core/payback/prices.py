"""Which price holds in which year of the account? Dated periods, cut to years that begin on the day of asking.

Year y runs from ``as_of`` + (y - 1) years to ``as_of`` + y years. A period holds from its day until the next one
begins, so a rule that ends next year ends next year. Several periods within one year share each of its months by their
days, and so the year by what the set gives in these months; only where nothing but the year's sum of energy is known,
they share the year by their days.
"""

from dataclasses import dataclass
from datetime import date
from functools import lru_cache

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.facts import Tariff
from service.core.model.hours import Floats, Ints
from service.core.payback.hours import in_order

MONTHS = 12
_EPOCH = date(1970, 1, 1).toordinal()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PricedPeriod:
    """One tariff period over the years of the account.

    ``share_of_year`` and ``import_price_per_kwh`` have shape (years,); ``export`` is unpaid, paid or netted.
    ``number``: its place among the tariff's periods, oldest first. ``import_factor``: (years,) what its stated import
    prices are multiplied by, where they move by the hour; None where they do not. ``fee_per_year``,
    ``fee_per_kva_year``: what comes with the set. ``export_tax_share``: off what is earned at the export price.
    ``share_of_month``: (years, 12) of each calendar month of each year; None where that is the share of the year.
    """

    share_of_year: Floats
    import_price_per_kwh: Floats
    export: str
    export_price_per_kwh: float
    number: int = 0
    import_factor: Floats | None = None
    fee_per_year: float = 0.0
    fee_per_kva_year: float = 0.0
    export_tax_share: float = 0.0
    share_of_month: Floats | None = None


def priced_periods(tariff: Tariff, as_of: date, years: int, price_growth_share: float) -> tuple[PricedPeriod, ...]:
    """The tariff's periods with their share of each year and their import price in it.

    Every price is stated at today's money and grows by ``price_growth_share`` a year from the second year of the
    account on, all periods, rates and hours alike, whenever a period begins: so no period's price depends on
    another's, a rule that changes turns no growth back, and a higher price never lengthens the payback. What is paid
    for a kWh sent out does not grow, nor do fees. Before the first period its prices are used; the last one goes on.

    Raises:
        ContradictionError: the tariff has no period.
    """
    if not tariff.periods:
        raise ContradictionError("/tariff/periods", "no period", accepted="at least one period",
                                 example=[{"import_price_per_kwh": 0.34}])  # fmt: skip
    periods = in_order(tariff)
    held = _held(tuple(period.valid_from for period in periods), as_of, years)
    grown: Floats = (1.0 + price_growth_share) ** np.arange(years, dtype=np.float64)
    priced = []
    for number, (period, share, by_month) in enumerate(zip(periods, *held, strict=True)):
        if share is not None:
            by_hour = bool(period.rates) or period.hourly is not None
            priced.append(
                PricedPeriod(
                    share_of_year=share,
                    import_price_per_kwh=period.import_price_per_kwh * grown,
                    export=period.export,
                    export_price_per_kwh=period.export_price_per_kwh,
                    number=number,
                    import_factor=grown if by_hour else None,
                    fee_per_year=period.fee_per_year or 0.0,
                    fee_per_kva_year=period.fee_per_kva_year or 0.0,
                    export_tax_share=period.export_tax_share or 0.0,
                    share_of_month=by_month,
                )
            )
    return tuple(priced)


_Held = tuple[tuple[Floats | None, ...], tuple[Floats | None, ...]]


@lru_cache(maxsize=64)  # one question asks for the same years again with each remedy and habit
def _held(valid_from: tuple[str, ...], as_of: date, years: int) -> _Held:
    """By period, oldest first: (years,) its share of each year, None where it has none; (years, 12) of each month.

    The arrays are shared by all who ask, and are not to be written to.
    """
    starts = [date.fromisoformat(day) for day in valid_from]
    starts[0] = min(starts[0], as_of)
    edges = np.array([_years_later(as_of, year).toordinal() for year in range(years + 1)], dtype=np.float64)
    ends = [*(start.toordinal() for start in starts[1:]), np.inf]
    days_of_year = np.diff(edges)
    shares: list[Floats | None] = []
    months: list[Floats | None] = []
    for start, end in zip(starts, ends, strict=True):
        days = np.minimum(edges[1:], end) - np.maximum(edges[:-1], start.toordinal())
        share = np.maximum(days, 0.0) / days_of_year
        by_month = _share_of_month(share, edges, start.toordinal(), end)
        for values in (share, by_month):
            if values is not None:
                values.flags.writeable = False
        shares.append(share if share.any() else None)
        months.append(by_month)
    return tuple(shares), tuple(months)


def _share_of_month(share_of_year: Floats, edges: Floats, start: float, end: float) -> Floats | None:
    """(years, 12) how much of each month of each year lies within a period; None where it holds no part of a year.

    A year that begins within a month has the end of that month at its beginning, and its beginning at its end.
    """
    in_part = np.flatnonzero((share_of_year > 0.0) & (share_of_year < 1.0))
    if not in_part.size:
        return None
    share = np.repeat(share_of_year[:, np.newaxis], MONTHS, axis=1)
    for year in in_part.tolist():
        first, last = int(edges[year]), int(edges[year + 1])
        month, days = _months_of(first, last)
        holds = month[max(int(start) - first, 0) : int(min(end, last)) - first]
        share[year] = np.bincount(holds, minlength=MONTHS) / days
    return share


@lru_cache(maxsize=64)
def _months_of(first: int, last: int) -> tuple[Ints, Ints]:
    """The month, from 0, of each day from an ordinal to before another; and how many days each month has of them."""
    days = (np.arange(first, last) - _EPOCH).astype("datetime64[D]")
    month = days.astype("datetime64[M]").astype(np.int64) % MONTHS
    return month, np.bincount(month, minlength=MONTHS)


def yearly_fees(periods: tuple[PricedPeriod, ...], ac_power_w: float | None) -> Floats:
    """What the set costs in fees in each year, shape (years,), each period by its share.

    Args:
        periods: the priced periods.
        ac_power_w: the inverter's rating; None where it is not known.

    Raises:
        ContradictionError: a fee goes by kVA, and the inverter's rating is not known.

    >>> one = PricedPeriod(share_of_year=np.array([1.0, 0.25]), import_price_per_kwh=np.full(2, 0.3), export="unpaid",
    ...                    export_price_per_kwh=0.0, fee_per_year=10.0, fee_per_kva_year=50.0)
    >>> yearly_fees((one,), 600.0)
    array([40., 10.])
    """
    fees = np.zeros(periods[0].share_of_year.size)
    for period in periods:
        if period.fee_per_kva_year and ac_power_w is None:
            where = f"/tariff/periods/{period.number}/fee_per_kva_year"
            raise ContradictionError(
                where, "goes by the inverter's power, which is not given",
                given=period.fee_per_kva_year, accepted="an inverter with its ac_power_w, or fee_per_year", example=0,
            )  # fmt: skip
        fees += period.share_of_year * (period.fee_per_year + period.fee_per_kva_year * (ac_power_w or 0.0) / 1000.0)
    return fees


def _years_later(day: date, years: int) -> date:
    """The same day some years on; 29 February becomes 28 February where there is none."""
    if day.month == 2 and day.day == 29:
        day = day.replace(day=28)
    return day.replace(year=day.year + years)
