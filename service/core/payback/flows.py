"""What comes in and goes out in each year of the account?

Conventions: flows at the year's end, year 1 un-aged and at today's price, the outlay at year 0. Ageing takes the
same share off self-used and sent-out energy (a little gloomy: less production is used at home to a larger share).
Standing charges are paid either way and are no part of a saving.
"""

from dataclasses import dataclass

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.facts import InverterSwap
from service.core.model.hours import Floats, Ints
from service.core.payback.energy import HomeYear
from service.core.payback.prices import PricedPeriod


def savings(
    home: HomeYear, periods: tuple[PricedPeriod, ...], ageing_share_per_year: float, counts: str, netting: str
) -> Floats:
    """What the home pays less in each year, shape (years,), >= 0 unless sending out costs. Fees are no part of it.

    A kWh used at home saves the import price of its hour. What is sent out is worth nothing (``unpaid``), its own
    price (``paid``, less the tax on what it earns), or (``netted``) the import price of its hour, as far as the kWh of
    the netting period are met by what the same register draws in it; beyond that its own price. The netting period is
    ``netting``: with quarter_hour and hour it is in the self-used energy already, and what is left has its own price;
    with instant it is the year, as a supplier nets what the meter counts apart.

    The meter may overrule the tariff: ``reversing`` nets over the year for as long as it turns, whatever was agreed;
    ``one_way`` has a register that only goes up and bills what is sent out as if it were drawn. ``not_known`` is read
    as ``two_way``.

    >>> one_year = PricedPeriod(share_of_year=np.ones(1), import_price_per_kwh=np.array([0.3]), export="paid",
    ...                         export_price_per_kwh=0.08)
    >>> home = HomeYear(self_used_kwh=np.array([430.0]), exported_kwh=np.array([290.0]),
    ...                 demand_kwh=np.array([2600.0]))
    >>> savings(home, (one_year,), 0.0, "two_way", "year").round(2)
    array([152.2])

    Raises:
        ContradictionError: prices move by the hour, and the hours of the home are not known.
    """
    years = periods[0].share_of_year.size
    age: Floats = (1.0 - ageing_share_per_year) ** np.arange(years, dtype=np.float64)
    saved = np.zeros(years)
    for period in periods:
        valued = _valued(home, period)
        if counts == "reversing":
            for_export = _netted(home, valued, age, over="year", beyond=False)
        elif counts == "one_way":
            for_export = -valued.exported_bought.sum() * valued.factor
        elif period.export == "netted" and netting not in _WITHIN_THE_HOUR:
            for_export = _netted(home, valued, age, over=netting, beyond=True)
        elif period.export in {"netted", "paid"}:
            for_export = _taxed(valued.exported_sold.sum(), valued.tax_share)
        else:
            for_export = np.zeros(years)
        saved += period.share_of_year * age * (valued.self_used * valued.factor + for_export)
    return saved


# Netting over these is a matter of the hours' energy, not of money.
_WITHIN_THE_HOUR = frozenset({"quarter_hour", "hour"})


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Valued:
    """The un-aged year at one period's prices: ``factor`` (years,) is what bought energy is still multiplied by.

    ``self_used`` in all, ``exported_bought`` and ``exported_sold`` by cell, at the import and at the export price.
    """

    self_used: float
    exported_bought: Floats
    exported_sold: Floats
    factor: Floats
    tax_share: float
    registers: Ints | None


def _valued(home: HomeYear, period: PricedPeriod) -> _Valued:
    at = home.at[period.number] if home.at else None
    if period.import_factor is not None and at is None:
        where = f"/tariff/periods/{period.number}"
        raise ContradictionError(
            where, "has prices by the hour, and the energy is known as one sum",
            accepted="one price a period, or site, arrays and inverter in place of energy and use",
        )  # fmt: skip
    if period.import_factor is None or at is None:
        return _Valued(
            self_used=float(home.self_used_kwh.sum()),
            exported_bought=home.exported_kwh,
            exported_sold=home.exported_kwh * period.export_price_per_kwh,
            factor=period.import_price_per_kwh,
            tax_share=period.export_tax_share,
            registers=None,
        )
    return _Valued(
        self_used=float(at.self_used[0].sum()),
        exported_bought=at.exported[0],
        exported_sold=at.exported[1],
        factor=period.import_factor,
        tax_share=period.export_tax_share,
        registers=at.registers,
    )


def _netted(home: HomeYear, valued: _Valued, age: Floats, *, over: str, beyond: bool) -> Floats:
    """What is sent out is worth in each year, before ageing, shape (years,); ``beyond``: is the rest paid for?

    Of each netting period and register the same share of every kWh sent out meets what is drawn, so each is credited
    at the price of its own hour.
    """
    group = _groups(home.exported_kwh.size, valued.registers, by_month=over == "month")

    def summed(values: Floats) -> Floats:
        of_groups = values.sum(keepdims=True) if group is None else np.bincount(group, weights=values)
        return np.asarray(of_groups, dtype=np.float64)

    exported = summed(home.exported_kwh) * age[:, np.newaxis]
    demand, self_used = summed(home.demand_kwh), summed(home.self_used_kwh)
    met = np.minimum(exported, np.maximum(demand - self_used * age[:, np.newaxis], 0.0))
    share = np.divide(met, exported, out=np.zeros_like(met), where=exported > 0.0)
    credit = (share @ summed(valued.exported_bought)) * valued.factor
    if not beyond:
        return np.asarray(credit)
    rest = (1.0 - share) @ summed(valued.exported_sold)
    return np.asarray(credit + _taxed(rest, valued.tax_share))


def _groups(cells: int, registers: Ints | None, *, by_month: bool) -> Ints | None:
    """Which netting period and register each cell counts for; None where there is one of all."""
    if not by_month:
        return registers
    month = np.arange(cells) % 12
    return month if registers is None else registers * 12 + month


def _taxed(earned: Floats | float, tax_share: float) -> Floats:
    """Earnings less their tax; what has to be paid for sending out is not taxed."""
    return np.asarray(earned - tax_share * np.maximum(earned, 0.0))


def years_kept(years: int, stay_years: float | None) -> int:
    """Whole years that the set is kept: the smaller of the account's years and the stay, begun years left out.

    >>> years_kept(15, 6.5), years_kept(15, None)
    (6, 15)
    """
    return years if stay_years is None else min(years, int(stay_years))


def yearly_costs(years: int, running_cost_per_year: float, swap: InverterSwap | None) -> Floats:
    """What has to be paid in each year, shape (years,): running costs, and the inverter's swap if it falls within."""
    costs = np.full(years, float(running_cost_per_year))
    if swap is not None and swap.year <= years:
        costs[swap.year - 1] += swap.amount
    return costs


def cash_flows(outlay: float, saving: Floats, cost: Floats, resale: float = 0.0) -> Floats:
    """Money in minus money out, shape (years + 1,): year 0 is the outlay, the last year ends with the resale."""
    flows = np.concatenate(([-float(outlay)], saving - cost))
    flows[-1] += resale
    return flows


def unpaid_after_each_year(flows: Floats) -> Floats:
    """What of the outlay is still to be earned after each year, undiscounted, never below nought; shape as given.

    >>> unpaid_after_each_year(np.array([-200.0, 120.0, 120.0]))
    array([200.,  80.,   0.])
    """
    return np.maximum(-np.cumsum(flows), 0.0)
