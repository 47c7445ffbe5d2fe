"""What is the set worth to this home: the saving, when it is paid back, and what may be paid for it?"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from service.core.energy.result import EnergyYear
from service.core.model.band import Band
from service.core.model.facts import Meter, Money, OutlayItem, Setup, Tariff
from service.core.model.hours import Floats
from service.core.payback import (
    HomeYear,
    cash_flows,
    crossing_years,
    discounted_payback_years,
    internal_rates_of_return,
    levelised_cost_per_kwh,
    net_present_value,
    priced_periods,
    savings,
    simple_payback_years,
    unpaid_after_each_year,
    worth_up_to,
    yearly_costs,
    years_kept,
)
from service.core.worth.bands import PRICE_SD_SHARE, HomeCases, SavingCases
from service.core.worth.use import UseAtHome

_TWO_WAY = Meter(counts="two_way", sums_phases=True, netting="instant")


@dataclass(frozen=True, slots=True, kw_only=True)
class YearFlow:
    """One year of the account, in the middle case. ``unpaid`` is what of all costs is still to be earned after it."""

    year: int
    saving: float
    cost: float
    resale: float
    unpaid: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Moving:
    """What is left after so many years when the home is given up: savings less costs plus resale, undiscounted."""

    years: int
    gain: Band


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """What the set is worth. Bands: ``cautious`` is the smaller saving and the longer payback.

    Attributes:
        outlay: what is paid at year 0, None where no price was given; all that compares with it is then None.
        years_kept: whole years of the account, the smaller of the stay and the years asked.
        saving_first_year: at today's price, un-aged.
        simple_payback_years: outlay over the first year's saving less running cost, whether within the years or not;
            a member is None where there is no saving.
        undiscounted_payback_years, discounted_payback_years: first crossing of the running sum within the years kept,
            resale left out; a member is None where there is none.
        lasting_payback_years: the discounted crossing that no later cost undoes.
        net_present_value: over the years kept, resale in.
        internal_rate_of_return_share: of the middle, where there is exactly one; all of them in
            ``internal_rates_of_return``.
        levelised_cost_per_kwh: present value of costs less resale, over that of the energy produced.
        worth_up_to: the most outlay that is paid back for good within the years kept.
        yearly_flows: year 0 on.
        if_moving_after_years: None where the stay is open or no price was given.
    """

    outlay: float | None
    years_kept: int
    saving_first_year: Band
    simple_payback_years: Band | None
    undiscounted_payback_years: Band | None
    discounted_payback_years: Band | None
    lasting_payback_years: Band | None
    net_present_value: Band | None
    internal_rate_of_return_share: float | None
    internal_rates_of_return: tuple[float, ...]
    levelised_cost_per_kwh: float | None
    worth_up_to: Band
    yearly_flows: tuple[YearFlow, ...]
    if_moving_after_years: Moving | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Terms:
    """What the account is kept by, whatever the energy."""

    tariff: Tariff
    meter: Meter
    money: Money
    outlay: float | None
    stay_years: float | None
    as_of: date


def worth(energy: EnergyYear, use: UseAtHome, setup: Setup, as_of: date) -> Worth | None:
    """Everything about money for a complete request; None where no tariff is known for the place.

    Args:
        energy: the year's yield, for the levelised cost.
        use: what of it is used at home, in all its cases.
        setup: tariff, meter, outlay, money and the stay.
        as_of: the day of asking, on which year 1 begins.
    """
    if setup.tariff is None:
        return None
    terms = _Terms(
        tariff=setup.tariff,
        meter=setup.meter,
        money=setup.money,
        outlay=_total(setup.outlay),
        stay_years=setup.household.stay_years,
        as_of=as_of,
    )
    return _worth(energy.year_kwh.middle or 0.0, use.cases, terms)


def worth_of_energy(  # noqa: PLR0913  a plain question has these parts, and no object of its own
    year_kwh: Band,
    self_used_share: float,
    tariff: Tariff,
    outlay: tuple[OutlayItem, ...] | None,
    money: Money,
    as_of: date,
    *,
    meter: Meter = _TWO_WAY,
    stay_years: float | None = None,
    demand_kwh_per_year: float | None = None,
) -> Worth:
    """The same for a caller with a yield and a self-used share of its own, taken as equal at both ends of the band.

    A band's whole width is taken as steady from year to year. Without ``demand_kwh_per_year`` netting has no limit.
    """
    middle = year_kwh.middle or 0.0
    demand = np.array([np.inf if demand_kwh_per_year is None else demand_kwh_per_year])

    def home(kwh: float | None) -> HomeYear:
        produced = middle if kwh is None else kwh
        return HomeYear(
            self_used_kwh=np.array([produced * self_used_share]),
            exported_kwh=np.array([produced * (1.0 - self_used_share)]),
            demand_kwh=demand,
        )

    cases = HomeCases(
        middle=home(middle),
        less_energy=home(year_kwh.cautious),
        more_energy=home(year_kwh.hopeful),
        less_used=home(middle),
        more_used=home(middle),
        steady_sd_share=1.0,
        yearly_sd_share=0.0,
    )
    terms = _Terms(tariff=tariff, meter=meter, money=money, outlay=_total(outlay), stay_years=stay_years, as_of=as_of)
    return _worth(middle, cases, terms)


def _total(outlay: tuple[OutlayItem, ...] | None) -> float | None:
    return None if outlay is None else float(sum(item.amount for item in outlay))


def _worth(year_kwh: float, cases: HomeCases, terms: _Terms) -> Worth:
    money = terms.money
    kept = years_kept(money.years, terms.stay_years)
    saving = _saving_cases(cases, terms)
    cost = yearly_costs(kept, money.running_cost_per_year, money.inverter_swap)
    over_years = _ends_of(saving, cases.shrunk(max(kept, 1)), PRICE_SD_SHARE)
    unpriced = Worth(
        outlay=None,
        years_kept=kept,
        saving_first_year=_each(_first_year(saving, cases), lambda amounts: float(amounts[0])),
        simple_payback_years=None,
        undiscounted_payback_years=None,
        discounted_payback_years=None,
        lasting_payback_years=None,
        net_present_value=None,
        internal_rate_of_return_share=None,
        internal_rates_of_return=(),
        levelised_cost_per_kwh=None,
        worth_up_to=_each(over_years, lambda amounts: worth_up_to(amounts[:kept], cost, money.discount_rate_share)),
        yearly_flows=(),
        if_moving_after_years=None,
    )
    if terms.outlay is None:
        return unpriced
    resale = money.resale_share * max(terms.outlay, 0.0)
    whole = [cash_flows(terms.outlay, amounts[:kept], cost, resale) for amounts in over_years]
    priced = _paid_back(_whole_account(unpriced, whole, terms), saving, cases, terms)
    paid = -cash_flows(terms.outlay, np.zeros(kept), cost, resale)
    produced = year_kwh * (1.0 - money.ageing_share_per_year) ** np.arange(kept, dtype=np.float64)
    return replace(
        priced,
        levelised_cost_per_kwh=levelised_cost_per_kwh(paid, produced, money.discount_rate_share),
        yearly_flows=_year_flows(terms.outlay, saving.middle[:kept], cost, resale),
    )


def _whole_account(worth: Worth, whole: list[Floats], terms: _Terms) -> Worth:
    """Filled in: what rests on the flows of all years kept, resale in; ``whole`` is cautious, middle, hopeful."""
    rates = internal_rates_of_return(whole[1])
    gain = Band(*(float(flows.sum()) for flows in whole))
    return replace(
        worth,
        outlay=terms.outlay,
        net_present_value=Band(*(net_present_value(terms.money.discount_rate_share, flows) for flows in whole)),
        internal_rate_of_return_share=rates[0] if len(rates) == 1 else None,
        internal_rates_of_return=rates,
        if_moving_after_years=None if terms.stay_years is None else Moving(years=worth.years_kept, gain=gain),
    )


def _paid_back(worth: Worth, saving: SavingCases, cases: HomeCases, terms: _Terms) -> Worth:
    """Filled in: when it is paid back. Weather evens out over the years until then, however long the account is."""
    money, outlay, kept = terms.money, terms.outlay or 0.0, worth.years_kept
    simple = _each(
        _first_year(saving, cases),
        lambda amounts: simple_payback_years(outlay, float(amounts[0]) - money.running_cost_per_year),
    )
    until_paid = _ends_of(saving, cases.shrunk(max(simple.middle or 1.0, 1.0)), PRICE_SD_SHARE)
    cost = yearly_costs(kept, money.running_cost_per_year, money.inverter_swap)
    running = [cash_flows(outlay, amounts[:kept], cost) for amounts in until_paid]
    undiscounted = [crossing_years(flows) for flows in running]
    crossings = [discounted_payback_years(flows, money.discount_rate_share) for flows in running]
    return replace(
        worth,
        simple_payback_years=simple,
        undiscounted_payback_years=Band(*(crossing.first for crossing in undiscounted)),
        discounted_payback_years=Band(*(crossing.first for crossing in crossings)),
        lasting_payback_years=Band(*(crossing.lasting for crossing in crossings)),
    )


def _first_year(saving: SavingCases, cases: HomeCases) -> tuple[Floats, Floats, Floats]:
    """Savings with the spread of a single year, at today's price."""
    return _ends_of(saving, cases.shrunk(1.0), 0.0)


def _saving_cases(cases: HomeCases, terms: _Terms) -> SavingCases:
    """Savings over the years asked, in the middle and with each cause at either end."""
    money = terms.money
    periods = priced_periods(terms.tariff, terms.as_of, money.years, money.price_growth_share)

    def saved(home: HomeYear) -> Floats:
        return savings(home, periods, money.ageing_share_per_year, terms.meter.counts, terms.meter.netting)

    return SavingCases(
        middle=saved(cases.middle),
        by_energy=(saved(cases.less_energy), saved(cases.more_energy)),
        by_use=(saved(cases.less_used), saved(cases.more_used)),
    )


def _ends_of(saving: SavingCases, energy_share: float, price_sd_share: float) -> tuple[Floats, Floats, Floats]:
    """Cautious, middle and hopeful savings of each year."""
    cautious, hopeful = saving.ends(energy_share, price_sd_share)
    return cautious, saving.middle, hopeful


def _each(ends: tuple[Floats, Floats, Floats], figure: Callable[[Floats], float | None]) -> Band:
    return Band(*(figure(amounts) for amounts in ends))


def _year_flows(outlay: float, saving: Floats, cost: Floats, resale: float) -> tuple[YearFlow, ...]:
    unpaid = unpaid_after_each_year(cash_flows(outlay, saving, cost, resale))
    first = YearFlow(year=0, saving=0.0, cost=outlay, resale=0.0, unpaid=float(unpaid[0]))
    last = saving.size
    return (
        first,
        *(
            YearFlow(
                year=year,
                saving=float(saving[year - 1]),
                cost=float(cost[year - 1]),
                resale=resale if year == last else 0.0,
                unpaid=float(unpaid[year]),
            )
            for year in range(1, last + 1)
        ),
    )
