"""What comes in and goes out in each year of the account?

Conventions: flows at the year's end, year 1 un-aged and at today's price, the outlay at year 0. Ageing takes the
same share off self-used and sent-out energy (a little gloomy: less production is used at home to a larger share).
Standing charges are paid either way and are no part of a saving.
"""

from dataclasses import dataclass

import numpy as np

from service.core.model.facts import InverterSwap
from service.core.model.hours import Floats
from service.core.payback.prices import PricedPeriod


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HomeYear:
    """The first year's energy at the meter, in kWh, over the 12 months or as one figure: shape (12,) or (1,).

    ``demand_kwh`` is infinite where it is not known: netting is then without a limit.
    """

    self_used_kwh: Floats
    exported_kwh: Floats
    demand_kwh: Floats


def savings(
    home: HomeYear, periods: tuple[PricedPeriod, ...], ageing_share_per_year: float, counts: str, netting: str
) -> Floats:
    """What the home pays less in each year, shape (years,), >= 0 unless sending out costs.

    A kWh used at home saves the import price. What is sent out is worth nothing (``unpaid``), its own price
    (``paid``), or the import price as far as it meets import within the month or year (``netted``, over the month
    with ``netting`` month, else over the year; beyond that its own price). The meter may overrule the tariff:
    ``reversing`` nets over the year for as long as it turns, whatever was agreed; ``one_way`` has a register that
    only goes up and bills what is sent out as if it were drawn. ``not_known`` is read as ``two_way``.

    >>> one_year = PricedPeriod(share_of_year=np.ones(1), import_price_per_kwh=np.array([0.3]), export="paid",
    ...                         export_price_per_kwh=0.08)
    >>> home = HomeYear(self_used_kwh=np.array([430.0]), exported_kwh=np.array([290.0]),
    ...                 demand_kwh=np.array([2600.0]))
    >>> savings(home, (one_year,), 0.0, "two_way", "year").round(2)
    array([152.2])
    """
    years = periods[0].share_of_year.size
    age: Floats = (1.0 - ageing_share_per_year) ** np.arange(years, dtype=np.float64)
    self_used = home.self_used_kwh.sum() * age
    exported = home.exported_kwh.sum() * age
    nets = counts == "reversing" or (counts != "one_way" and any(period.export == "netted" for period in periods))
    netted = _netted_kwh(home, age, by_month=netting == "month" and counts != "reversing") if nets else exported
    saved = np.zeros(years)
    for period in periods:
        price = period.import_price_per_kwh
        if counts == "one_way":
            for_export = -exported * price
        elif counts == "reversing":
            for_export = netted * price
        elif period.export == "netted":
            for_export = netted * price + (exported - netted) * period.export_price_per_kwh
        elif period.export == "paid":
            for_export = exported * period.export_price_per_kwh
        else:
            for_export = np.zeros(years)
        saved += period.share_of_year * (self_used * price + for_export)
    return saved


def _netted_kwh(home: HomeYear, age: Floats, *, by_month: bool) -> Floats:
    """What is sent out and drawn back within each netting period, summed over the year, shape (years,)."""
    parts = [home.self_used_kwh, home.exported_kwh, home.demand_kwh]
    if not by_month:
        parts = [part.sum(keepdims=True) for part in parts]
    self_used, exported, demand = (part[:, np.newaxis] for part in parts)
    imported = np.maximum(demand - self_used * age, 0.0)
    return np.asarray(np.minimum(exported * age, imported).sum(axis=0))


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
