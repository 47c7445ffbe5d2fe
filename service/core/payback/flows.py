"""What comes in and goes out in each year of the account?

Conventions: flows at the year's end, year 1 un-aged and at today's price, the outlay at year 0. Ageing takes the
same share off self-used and sent-out energy (a little gloomy: less production is used at home to a larger share).
A last year that is left early counts for its part, and at its end as all others. Standing charges are paid either way
and are no part of a saving.
"""

from dataclasses import dataclass
from math import ceil

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.facts import InverterSwap
from service.core.model.hours import Floats, Ints
from service.core.payback.energy import HomeYear
from service.core.payback.netting import NettedYears, UnlikePrices, by_register_and_month
from service.core.payback.prices import MONTHS, PricedPeriod


def savings(
    home: HomeYear, periods: tuple[PricedPeriod, ...], ageing_share_per_year: float, counts: str, netting: str
) -> Floats:
    """What the home pays less in each year, shape (years,), >= 0 unless sending out costs.

    Fees are no part of it, nor what the set itself draws by night (``drawn_cost``).

    A kWh used at home saves the import price of its hour. What is sent out is worth nothing (``unpaid``), its own
    price (``paid``, less the tax on what it earns), or (``netted``) the import price of its hour, as far as the kWh of
    the netting period are met by what the same register draws in it (``payback.netting``); beyond that its own price.
    Where that register's hours cost unlike much, it is netted in money, and a bill ends at nought.
    Beside a plant on the roof it is the bill with the plant alone less the bill with both.
    The netting period is
    ``netting``: with quarter_hour and hour it is in the self-used energy already, and what is left has its own price;
    with instant it is the year, as a supplier nets what the meter counts apart.

    A ``reversing`` meter nets over the year, whatever the netting period, in the periods that net; one that is unpaid
    or paid has ended that. The meter overrules the tariff where it is ``one_way``: its register only goes up and bills
    what is sent out as if it were drawn. ``not_known`` is read as ``two_way``.

    >>> one_year = PricedPeriod(share_of_year=np.ones(1), import_price_per_kwh=np.array([0.3]), export="paid",
    ...                         export_price_per_kwh=0.08)
    >>> home = HomeYear(self_used_kwh=np.array([430.0]), exported_kwh=np.array([290.0]),
    ...                 demand_kwh=np.array([2600.0]))
    >>> savings(home, (one_year,), 0.0, "two_way", "year").round(2)
    array([152.2])

    Raises:
        ContradictionError: prices move by the hour, and the hours of the home are not known.
    """
    bought, sold = savings_by_price(home, periods, ageing_share_per_year, counts, netting)
    return bought + sold


def savings_by_price(
    home: HomeYear, periods: tuple[PricedPeriod, ...], ageing_share_per_year: float, counts: str, netting: str
) -> tuple[Floats, Floats]:
    """``savings`` in two parts that add up: what moves with the import prices, and what with the export prices.

    Several years at the meter at once, ``stacked`` to arrays of shape (homes, cells), give (homes, years). Raises as
    ``savings`` does.
    """
    years = periods[0].share_of_year.size
    age: Floats = (1.0 - ageing_share_per_year) ** np.arange(years, dtype=np.float64)
    bought = np.zeros((*home.self_used_kwh.shape[:-1], years))
    sold = np.zeros_like(bought)
    for period in periods:
        valued = _valued(home, period)
        at_import, at_export = _for_export(home, valued, age, counts, netting)
        bought += age * valued.factor * (valued.of_years(valued.self_used) + at_import)
        sold += age * at_export
    return bought, sold


def drawn_cost(home: HomeYear, periods: tuple[PricedPeriod, ...]) -> Floats:
    """What a machine that draws ``self_used_kwh`` every year costs in each year at the import prices, (years,), >= 0.

    Several, ``stacked``, give (machines, years). Wary: it is bought even where a surplus could be netted against it,
    and does not age.

    >>> half = PricedPeriod(share_of_year=np.array([1.0, 0.5]), import_price_per_kwh=np.array([0.3, 0.4]),
    ...                     export="unpaid", export_price_per_kwh=0.0)
    >>> drawn_cost(HomeYear(self_used_kwh=np.array([10.0]), exported_kwh=np.zeros(1), demand_kwh=np.zeros(1)), (half,))
    array([3., 2.])
    """
    cost = np.zeros((*home.self_used_kwh.shape[:-1], periods[0].share_of_year.size))
    for period in periods:
        valued = _valued(home, period)
        cost += valued.factor * valued.of_years(valued.self_used)
    return cost


def needed_cost(home: HomeYear, periods: tuple[PricedPeriod, ...]) -> Floats:
    """What the home's ``demand_kwh`` costs in each year, all of it bought, (years,); infinite where it is not known."""
    years = periods[0].share_of_year.size
    cost = np.zeros((*home.demand_kwh.shape[:-1], years))
    if not np.isfinite(home.demand_kwh).all():
        return np.full_like(cost, np.inf)
    for period in periods:
        valued = _valued(home, period)
        at = home.at[period.number] if home.at else None
        need = home.demand_kwh if at is None or at.need is None else at.need
        cost += valued.factor * valued.of_years(need)
    return cost


def netted_by(home: HomeYear, periods: tuple[PricedPeriod, ...], counts: str, netting: str) -> tuple[str, ...]:
    """By which conventions surplus is netted where kWh differ in price; none where they do not, or none is netted.

    ``registers``: only against what is drawn at times of the same price. ``unlike_prices``: hours or seasons that cost
    unlike much net together, in money, until the bill is nought.
    """
    found = set()
    for period in periods:
        at = home.at[period.number] if home.at else None
        over_time = counts == "reversing" or netting not in WITHIN_THE_HOUR
        if at is not None and period.export == "netted" and counts != "one_way" and over_time:
            found |= {"registers"} if at.registers is not None else set()
            found |= {"unlike_prices"} if _time(netting) in at.unlike_over else set()
    return tuple(sorted(found))


_ROUNDING = 1e-12

# Netting over these is a matter of the hours' energy, not of money.
WITHIN_THE_HOUR = frozenset({"quarter_hour", "hour"})


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Valued:
    """The un-aged year at one period's prices: ``factor`` (years,) is what bought energy is still multiplied by.

    ``self_used``, ``exported_bought`` and ``exported_sold`` by cell (..., cells), at the import, the import and the
    export price. ``by_month``: (years, 12) of each month's energy that fall in the period; None where it is the same
    share of all cells, that of the year. ``surplus``: (3, ..., cells) what the hours of one price leave, in kWh and at
    either price; None where all hours have one price. ``unlike_over``: as ``AtPrices`` has it.
    """

    period: PricedPeriod
    self_used: Floats
    exported_bought: Floats
    exported_sold: Floats
    factor: Floats
    registers: Ints | None
    by_month: Floats | None
    surplus: Floats | None = None
    unlike_over: tuple[str, ...] = ()

    def prices_left(self) -> tuple[Floats, Floats]:
        """Mean import and export price of what is left over, by register and month, (..., registers, months)."""
        if self.surplus is None:
            months = (1, min(self.exported_bought.shape[-1], MONTHS))
            return np.ones(months), np.full(months, self.period.export_price_per_kwh)
        kwh, bought, sold = by_register_and_month(self.surplus, self.registers)
        some = np.where(kwh > 0.0, kwh, 1.0)  # what is not there has no price
        return bought / some, sold / some

    def of_years(self, by_cell: Floats) -> Floats:
        """What of a year's energy or money by cell falls in the period in each year, (..., years)."""
        if self.by_month is None:
            return np.asarray(by_cell.sum(axis=-1, keepdims=True) * self.period.share_of_year)
        months = by_cell
        if by_cell.shape[-1] != MONTHS:  # registers have nothing to do with it
            months = by_cell.reshape(*by_cell.shape[:-1], -1, MONTHS).sum(axis=-2)
        return np.asarray(months @ self.by_month.T)


def _valued(home: HomeYear, period: PricedPeriod) -> _Valued:
    at = home.at[period.number] if home.at else None
    by_month = period.share_of_month if home.self_used_kwh.shape[-1] % MONTHS == 0 else None  # else all is one sum
    if period.import_factor is None:
        return _Valued(
            period=period,
            by_month=by_month,
            self_used=home.self_used_kwh,
            exported_bought=home.exported_kwh,
            exported_sold=home.exported_kwh * period.export_price_per_kwh,
            factor=period.import_price_per_kwh,
            registers=None,
        )
    if at is None:
        where = f"/tariff/periods/{period.number}"
        raise ContradictionError(
            where, "has prices by the hour, and the energy is known as one sum",
            accepted="one price a period, or site, arrays and inverter in place of energy and use",
            example={"import_price_per_kwh": 0.34},
        )  # fmt: skip
    return _Valued(
        period=period,
        by_month=by_month,
        self_used=at.self_used[0],
        exported_bought=at.exported[0],
        exported_sold=at.exported[1],
        factor=period.import_factor,
        registers=at.registers,
        surplus=at.left_over(home.exported_kwh),
        unlike_over=at.unlike_over,
    )


def _for_export(home: HomeYear, valued: _Valued, age: Floats, counts: str, netting: str) -> tuple[Floats, Floats]:
    """What is sent out is worth at the import and at the export price, before ageing, shape (..., years) or (..., 1).

    Of each year only what falls in the period.
    """
    period = valued.period
    nothing = np.zeros((*home.exported_kwh.shape[:-1], 1))
    if counts == "one_way":
        return -valued.of_years(valued.exported_bought), nothing
    if period.export == "unpaid":
        return nothing, nothing
    if counts == "reversing" and period.export == "netted":
        return _netted(home, valued, age, "year")[0], nothing
    if period.export == "paid" or netting in WITHIN_THE_HOUR:
        credit, rest, of_plant = nothing, valued.of_years(valued.exported_sold), nothing
        if home.plant is not None:
            plant = _valued(home.plant, period)
            of_plant = plant.of_years(plant.exported_sold) / age
    else:
        credit, rest, of_plant = _netted(home, valued, age, netting)
    # what has to be paid for sending out is not taxed; what the plant on the roof earns is taxed either way
    taxed = np.maximum(rest + of_plant, 0.0) - np.maximum(of_plant, 0.0)
    return credit, rest - period.export_tax_share * taxed


def _netted(home: HomeYear, valued: _Valued, age: Floats, over: str) -> tuple[Floats, Floats, Floats]:
    """Of what is sent out: what is netted at its import price, the rest at its export price, (..., years), un-aged.

    Last what a plant on the roof alone has left over, at its export price. Where a tariff's period ends within a year,
    it is netted over the part that it holds.
    """
    credit = valued.of_years(valued.exported_bought)
    share = valued.period.share_of_year
    holds = np.flatnonzero(share)
    by_month = share[holds, np.newaxis] if valued.by_month is None else valued.by_month[holds]
    years = NettedYears.of(home, valued.registers, by_month, age[holds])
    rest, of_plant = np.zeros_like(credit), np.zeros_like(credit)
    unlike = _unlike(home, valued) if _time(over) in valued.unlike_over else None
    left = _left(years, unlike, valued, over)
    if left is not None:
        whole, (left_bought, unmet) = credit[..., holds], left
        met = whole - left_bought
        plant = None if home.plant is None else _valued(home.plant, valued.period)
        alone = None
        if plant is not None:
            alone = _left(years.without_the_set(), unlike and unlike.without_the_set(), plant, over)
        if alone is not None:
            met, unmet = met + alone[0], unmet - alone[1]
            of_plant[..., holds] = alone[1]
        # all less all is nothing, and no saving of 1e-16 that would pay back in some million ages
        rounding = _ROUNDING * np.maximum(np.abs(whole), np.abs(left_bought))
        credit[..., holds] = np.where(np.abs(met) > rounding, met, 0.0)
        rest[..., holds] = unmet
    return credit, rest, of_plant


def _time(netting: str) -> str:
    """Over which of month and year is netted that is not netted within the hour."""
    return "month" if netting == "month" else "year"


def _left(years: NettedYears, unlike: UnlikePrices | None, valued: _Valued, over: str) -> tuple[Floats, Floats] | None:
    """What is left over, at its import and at its export price, (..., years); None where nothing is."""
    if unlike is not None:
        return unlike.left(years, by_month=over == "month")
    left = years.left(by_month=over == "month")
    if left is None:
        return None
    bought, sold = valued.prices_left()
    return (left @ bought[..., np.newaxis]).sum(axis=(-3, -1)), (left @ sold[..., np.newaxis]).sum(axis=(-3, -1))


def _unlike(home: HomeYear, valued: _Valued) -> UnlikePrices | None:
    """What one register's hours of unlike price come to; None where these are not known."""
    at = home.at[valued.period.number]
    if at is None or at.need is None or at.surplus is None:
        return None
    plant = None if home.plant is None else home.plant.at[valued.period.number]
    fixed, need = np.zeros_like(at.surplus), at.need
    if plant is not None and plant.surplus is not None:
        fixed, need = plant.surplus, at.need - plant.exported[0]
    rows = np.stack([*(at.surplus - fixed)[1:], *fixed[1:], need, at.self_used[0] + at.exported[0]])
    summed = by_register_and_month(rows, valued.registers)
    return UnlikePrices(surplus=summed[:2], fixed=summed[2:4], need=summed[4], produced=summed[5])


def time_kept(years: int, stay_years: float | None) -> float:
    """How long the set is kept, in years: the smaller of the account's years and the stay, its begun year in part.

    >>> time_kept(15, 6.5), time_kept(15, None)
    (6.5, 15)
    """
    time = years if stay_years is None else min(years, stay_years)
    return int(time) if time == int(time) else time


def parts_kept(time: float) -> Floats:
    """Of each year begun, how much of it the set is kept: 1, and less of a last year that is left early.

    >>> parts_kept(2.25)
    array([1.  , 1.  , 0.25])
    """
    parts = np.ones(ceil(time))
    parts[-1:] -= parts.size - time
    return parts


def yearly_costs(years: int, running_cost_per_year: float, swap: InverterSwap | None) -> Floats:
    """What has to be paid in each year, shape (years,): running costs, and the inverter's swap if it falls within."""
    costs = np.full(years, float(running_cost_per_year))
    if swap is not None and swap.year <= years:
        costs[swap.year - 1] += swap.amount
    return costs


def cash_flows(outlay: float | Floats, saving: Floats, cost: Floats, resale: float = 0.0) -> Floats:
    """Money in minus money out: year 0 is the outlay, the last year ends with the resale.

    Savings of shape (..., years) give flows of shape (..., years + 1); the outlay is one, or one of each, (...,).
    """
    flows = np.empty((*saving.shape[:-1], saving.shape[-1] + 1))
    flows[..., 0] = -outlay
    np.subtract(saving, cost, out=flows[..., 1:])
    flows[..., -1] += resale
    return flows


def unpaid_after_each_year(flows: Floats) -> Floats:
    """What of the outlay is still to be earned after each year, undiscounted, never below nought; shape as given.

    >>> unpaid_after_each_year(np.array([-200.0, 120.0, 120.0]))
    array([200.,  80.,   0.])
    """
    return np.maximum(-np.cumsum(flows), 0.0)
