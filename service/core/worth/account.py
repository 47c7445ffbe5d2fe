"""What is the set worth to this home: the saving, when it is paid back, and what may be paid for it?"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

import numpy as np

from service.core.energy.result import EnergyYear
from service.core.model.band import Band
from service.core.model.facts import Meter, Money, Outlay, Setup, Tariff
from service.core.model.hours import Floats
from service.core.payback import (
    HomeYear,
    OutlayParts,
    PricedPeriod,
    cash_flows,
    crossing_years,
    discounted,
    ends_level,
    first_crossings,
    internal_rates_of_return,
    levelised_cost_per_kwh,
    needed_cost,
    netted_by,
    outlay_ends,
    outlay_parts,
    priced_periods,
    savings_by_price,
    sound_share,
    time_kept,
    unpaid_after_each_year,
    yearly_costs,
    yearly_fees,
    years_to_meet,
)
from service.core.worth.bands import HomeCases, SavingCases, Squares, ends_over_middle, price_sd_share
from service.core.worth.bids import Kept, break_even
from service.core.worth.result import Moving, Worth, YearFlow
from service.core.worth.sensitivity import STEP_SHARE, Sensitivity, Stepped, sensitivities
from service.core.worth.use import UseAtHome

_TWO_WAY = Meter(counts="two_way", sums_phases=True, netting="instant")
# What bills that are the same leave between them by rounding, in any currency; nothing is paid back with it.
_DUST = 1e-6
_Ends = tuple[Floats, Floats, Floats]  # cautious, middle and hopeful savings of each year


@dataclass(frozen=True, slots=True, kw_only=True)
class _Terms:
    """What the account is kept by, whatever the energy."""

    tariff: Tariff
    meter: Meter
    money: Money
    outlay: OutlayParts | None
    stay_years: float | None
    as_of: date
    ac_power_w: float | None
    expected_share: float = 1.0
    price_unknown_sd_share: float = 0.0

    @property
    def price_sd_share(self) -> float:
        """How far the prices of the years to come may be off."""
        return price_sd_share(self.price_unknown_sd_share)

    @classmethod
    def of(cls, outlay: Outlay | None, **others: Any) -> "_Terms":
        """The outlay by kind, and what faulty panels leave of the energy."""
        if outlay is None:
            return cls(outlay=None, **others)
        return cls(outlay=outlay_parts(outlay), expected_share=sound_share(outlay.faulty_share or 0.0), **others)

    @property
    def resale(self) -> float:
        """What selling the things brings at the end of the years kept; freight, trips and forms nobody buys back."""
        return 0.0 if self.outlay is None else self.money.resale_share * max(self.outlay.things, 0.0)


def worth(
    energy: EnergyYear, use: UseAtHome, setup: Setup, as_of: date, price_unknown_sd_share: float = 0.0
) -> Worth | None:
    """Everything about money for a complete request; None where no tariff is known for the place.

    Args:
        energy: the year's yield, for the levelised cost.
        use: what of it is used at home, in all its cases.
        setup: tariff, meter, outlay, money and the stay.
        as_of: the day of asking, on which year 1 begins.
        price_unknown_sd_share: relative standard deviation of today's import price, where nobody said it.
    """
    if setup.tariff is None:
        return None
    terms = _Terms.of(
        setup.outlay,
        tariff=setup.tariff,
        meter=setup.meter,
        money=setup.money,
        stay_years=setup.household.stay_years,
        as_of=as_of,
        ac_power_w=setup.inverter.ac_power_w,
        price_unknown_sd_share=price_unknown_sd_share,
    )
    return _worth(energy.year_kwh.middle or 0.0, use.cases, terms)


def worth_of_energy(  # noqa: PLR0913  a plain question has these parts, and no object of its own
    year_kwh: Band,
    self_used_share: float,
    tariff: Tariff,
    outlay: Outlay | None,
    money: Money,
    as_of: date,
    *,
    meter: Meter = _TWO_WAY,
    stay_years: float | None = None,
    demand_kwh_per_year: float | None = None,
    self_used_kwh: Band | None = None,
    ac_power_w: float | None = None,
    night_draw_kwh: float = 0.0,
    price_unknown_sd_share: float = 0.0,
    plant_kwh: tuple[float, float] | None = None,
) -> Worth:
    """The same for a caller with a yield and a self-used share of its own, taken as equal at both ends of the band.

    With ``self_used_kwh``, the band of an answer about use at home, its width is taken, in which the yield's is: what
    of it the yield makes is told apart, as that moves what is sent out too. A band's whole width is taken as steady
    from year to year. Without ``demand_kwh_per_year`` netting has no limit. ``plant_kwh``: what a plant on the roof
    gives, and what of it is used at home in the moment; its surplus nets first.

    Raises:
        ContradictionError: prices move by the hour, of which nothing is known here, or a fee goes by the inverter's
            ``ac_power_w`` and that is not given.
    """
    middle = year_kwh.middle or 0.0
    demand = np.inf if demand_kwh_per_year is None else demand_kwh_per_year
    plant = None if plant_kwh is None else _of_one_sum(plant_kwh[0], plant_kwh[1], demand)
    left = demand if plant_kwh is None else max(demand - plant_kwh[1], 0.0)
    used = middle * self_used_share
    ends = year_kwh.cautious, year_kwh.hopeful
    by_yield, by_habits = (0.0, 0.0), (0.0, 0.0)
    if self_used_kwh is not None:
        by_yield, by_habits = _of_both(year_kwh, used, self_used_kwh)

    def home(kwh: float | None, at_home_kwh: float) -> HomeYear:
        return replace(_of_one_sum(middle if kwh is None else kwh, at_home_kwh, left), plant=plant)

    def at_end(number: int) -> HomeYear:
        kwh = middle if (end := ends[number]) is None else end
        return home(kwh, kwh * self_used_share if self_used_kwh is None else used + by_yield[number])

    cases = HomeCases(
        middle=home(middle, used),
        less_energy=at_end(0),
        more_energy=at_end(1),
        less_used=home(middle, used + by_habits[0]),
        more_used=home(middle, used + by_habits[1]),
        steady_sd_share=(1.0, 1.0),
        yearly_sd_share=(0.0, 0.0),
        night=_of_one_sum(night_draw_kwh, night_draw_kwh, demand) if night_draw_kwh else None,
    )
    terms = _Terms.of(outlay, tariff=tariff, meter=meter, money=money, stay_years=stay_years, as_of=as_of,
                      ac_power_w=ac_power_w, price_unknown_sd_share=price_unknown_sd_share)  # fmt: skip
    return _worth(middle, cases, terms)


def _of_both(year_kwh: Band, used_kwh: float, band: Band) -> tuple[tuple[float, float], tuple[float, float]]:
    """How far the yield moves the use down and up, and what is left of the band of the use for the home's habits, kWh.

    The two are independent. Of a kWh more or less about the square of the self-used share is used at home: what counts
    is the next kWh, of which less is used than of all of them.
    """
    share = 0.0 if not year_kwh.middle else min(used_kwh / year_kwh.middle, 1.0)
    by_yield: list[float] = []
    by_habits: list[float] = []
    for at_end, wide in zip(ends_over_middle(year_kwh), ends_over_middle(band), strict=True):
        step = used_kwh * abs(wide - 1.0)
        moved = min(share * used_kwh * abs(at_end - 1.0), step)
        sign = 1.0 if by_yield else -1.0
        by_yield.append(sign * moved)
        by_habits.append(sign * float(np.sqrt(step**2 - moved**2)))
    return (by_yield[0], by_yield[1]), (by_habits[0], by_habits[1])


def _of_one_sum(produced_kwh: float, self_used_kwh: float, demand_kwh: float) -> HomeYear:
    return HomeYear(
        self_used_kwh=np.array([self_used_kwh]),
        exported_kwh=np.array([max(produced_kwh - self_used_kwh, 0.0)]),
        demand_kwh=np.array([demand_kwh]),
    )


def _worth(year_kwh: float, cases: HomeCases, terms: _Terms) -> Worth:
    money, cases = terms.money, cases.expecting(terms.expected_share)
    kept = Kept(time_kept(money.years, terms.stay_years))
    periods = priced_periods(terms.tariff, terms.as_of, money.years, money.price_growth_share)
    fees = yearly_fees(periods, terms.ac_power_w)
    savings = _Savings.of(cases, periods, terms)
    squares = savings.cases.squares()
    first_years = _first_year(squares, cases, terms)
    running = money.running_cost_per_year + fees
    # a swap in a year that is left early is paid in full
    cost = kept.of(running) + yearly_costs(kept.years, 0.0, money.inverter_swap)
    bids = break_even(squares, cases.shrunk, cost, kept, terms.price_sd_share, money.discount_rate_share, terms.resale)
    unpriced = Worth(
        outlay=None,
        outlay_parts=None,
        expected_year_kwh=year_kwh * terms.expected_share,
        years_kept=kept.time,
        saving_first_year=_each(first_years, lambda amounts: float(amounts[0])),
        netted_by=netted_by(cases.middle, periods, terms.meter.counts, terms.meter.netting),
        least_by_import_price=float(kept.of(savings.by_import_price).min(initial=0.0)),
        simple_payback_years=None,
        undiscounted_payback_years=None,
        discounted_payback_years=None,
        lasting_payback_years=None,
        net_present_value=None,
        internal_rate_of_return_share=None,
        internal_rates_of_return=(),
        levelised_cost_per_kwh=None,
        worth_up_to=bids[-1].worth_up_to if bids else Band(0.0, 0.0, 0.0),
        break_even=bids,
        sensitivity=(),
        yearly_flows=(),
        if_moving_after_years=None,
    )
    if terms.outlay is None:
        return unpriced
    total = terms.outlay.total
    over_years = np.array(_ends_of(squares, cases.shrunk(max(kept.time, 1.0)), terms.price_sd_share))
    whole = cash_flows(total, kept.of(over_years), cost, terms.resale)
    outlays = outlay_ends(terms.outlay, discounted(whole, money.discount_rate_share).sum(axis=1))
    whole[:, 0] = -outlays
    simple = _simple(first_years, cases, savings, running, terms, outlays)
    paid = -cash_flows(total, np.zeros(kept.years), cost, terms.resale)
    age = (1.0 - money.ageing_share_per_year) ** np.arange(money.years, dtype=np.float64)
    produced = unpriced.expected_year_kwh * kept.of(age)
    return replace(
        unpriced,
        **_whole_account(kept.time, whole, terms),
        **simple,
        **_paid_back(squares, cases, terms, cost, simple["simple_payback_years"].middle or 1.0, kept, whole),
        levelised_cost_per_kwh=levelised_cost_per_kwh(paid, produced, money.discount_rate_share),
        sensitivity=_sensitivity(savings, cost, terms, kept),
        yearly_flows=_year_flows(total, kept.of(savings.cases.middle), cost, terms.resale),
    )


def _whole_account(years_kept: float, whole: Floats, terms: _Terms) -> dict[str, Any]:
    """What rests on the flows of all years kept, resale in; ``whole`` is cautious, middle, hopeful."""
    rates = internal_rates_of_return(whole[1])
    value = Band(*discounted(whole, terms.money.discount_rate_share).sum(axis=1).tolist())
    gain = Band(*whole.sum(axis=1).tolist())
    return {
        "outlay": None if terms.outlay is None else terms.outlay.total,
        "outlay_parts": terms.outlay,
        "net_present_value": value,
        "internal_rate_of_return_share": rates[0] if len(rates) == 1 else None,
        "internal_rates_of_return": rates,
        "if_moving_after_years": None if terms.stay_years is None else Moving(years=years_kept, gain=gain),
    }


def _paid_back(
    squares: Squares, cases: HomeCases, terms: _Terms, cost: Floats, simple_years: float, kept: Kept, whole: Floats
) -> dict[str, Any]:
    """When it is paid back. Weather evens out over the years until then, however long the account is.

    What the savings alone do not pay, a sale may at the end of the years kept: so it is where ``whole``, the flows
    with the sale, leave something over.
    """
    money = terms.money
    until_paid = np.array(_ends_of(squares, cases.shrunk(max(simple_years, 1.0)), terms.price_sd_share))
    flows = cash_flows(-whole[:, 0], kept.of(until_paid), cost)
    undiscounted = first_crossings(flows, kept.last_part)
    crossings = [crossing_years(row, kept.last_part) for row in discounted(flows, money.discount_rate_share)]
    sold, sold_now = (
        [kept.time if terms.resale > 0.0 and ends_level(row) else None for row in rows]
        for rows in (whole, discounted(whole, money.discount_rate_share))
    )
    return {
        "undiscounted_payback_years": Band(*map(_first_of, undiscounted, sold)),
        "discounted_payback_years": Band(*map(_first_of, (one.first for one in crossings), sold_now)),
        "lasting_payback_years": Band(*map(_first_of, (one.lasting for one in crossings), sold_now)),
        "paid_by_selling": crossings[1].lasting is None and sold_now[1] is not None,
    }


def _first_of(crossing: float | None, sold: float | None) -> float | None:
    return sold if crossing is None else crossing


def _simple(
    first: _Ends, cases: HomeCases, savings: "_Savings", running: Floats, terms: _Terms, outlays: Floats
) -> dict[str, Any]:
    """The outlay of each case over a year's saving; of a tariff with several periods, as their years follow each other.

    Without ageing and growth of prices, as the textbook's, so that a period which changes nothing moves nothing.
    """
    if savings.today is None:
        gains = [(one - running)[:1] for one in first]
    else:
        gains = [one - running for one in _first_year(savings.today.squares(), cases, terms)]
    years = Band(*(years_to_meet(outlay, one) for outlay, one in zip(outlays.tolist(), gains, strict=True)))
    cautious_more = float(outlays[0] - outlays[1])
    return {
        "simple_payback_years": years, "cautious_gains": tuple(gains[0].tolist()), "cautious_more": cautious_more,
    }  # fmt: skip


def _first_year(squares: Squares, cases: HomeCases, terms: _Terms) -> _Ends:
    """Savings with the spread of a single year, at today's price."""
    return _ends_of(squares, cases.shrunk(1.0), terms.price_unknown_sd_share)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Savings:
    """Savings over the years asked: the cases of the band, and each cause a step lower and higher.

    What the inverter draws by night is taken off all of them, at the import price of its hours. ``today``: the cases of
    a set that does not age, at prices that do not grow; None where all years are alike then. ``by_import_price``: what
    of the middle moves with the prices of a kWh bought.
    """

    cases: SavingCases
    stepped: tuple[tuple[str, float, Floats], ...]
    today: SavingCases | None
    by_import_price: Floats

    @classmethod
    def of(cls, cases: HomeCases, periods: tuple[PricedPeriod, ...], terms: _Terms) -> "_Savings":
        steps, meter = (-STEP_SHARE, STEP_SHARE), terms.meter
        bought, sold = savings_by_price(
            cases.stacked_cases(), periods, terms.money.ageing_share_per_year, meter.counts, meter.netting
        )
        for amounts in (bought, sold):
            amounts[np.abs(amounts) < _DUST] = 0.0
        past = np.arange(bought.shape[-1])
        age = (1.0 - terms.money.ageing_share_per_year) ** past
        night: Floats | float = 0.0
        if cases.night is not None:  # it does not age
            night, bought, sold = bought[-1] / age, bought[:-1], sold[:-1]
        today = None
        if len(periods) > 1:
            grown = (1.0 + terms.money.price_growth_share) ** past
            today = _cases_of((bought / age - night) / grown + sold / age)
        bought -= night
        saved = bought + sold
        # of all that is needed nothing is bought, and what is given most and used least is sent out
        earned = np.maximum(sold[2], 0.0) + np.maximum(sold[3] - sold[0], 0.0)
        most = needed_cost(cases.middle, periods) - night + earned
        stepped = [("price", share, bought[0] * (1.0 + share) + sold[0]) for share in steps]
        stepped += [("yield", share, amounts) for share, amounts in zip(steps, saved[5:7], strict=True)]
        stepped += [("self_use", share, amounts) for share, amounts in zip(steps, saved[7:], strict=True)]
        return cls(
            cases=replace(_cases_of(saved), most=most),
            stepped=tuple(stepped),
            today=today,
            by_import_price=bought[0],
        )


def _cases_of(amounts: Floats) -> SavingCases:
    """Of yearly savings, one row for each case as ``HomeCases`` stacks them."""
    middle, less_energy, more_energy, less_used, more_used = amounts[:5]
    return SavingCases(middle=middle, by_energy=(less_energy, more_energy), by_use=(less_used, more_used))


def _sensitivity(savings: _Savings, cost: Floats, terms: _Terms, kept: Kept) -> tuple[Sensitivity, ...]:
    """What each step does to the account; ``cost`` of the years kept."""
    outlay = 0.0 if terms.outlay is None else terms.outlay.total
    middle = savings.cases.middle

    def stepped(amounts: Floats, paid_share: float = 1.0) -> Stepped:
        return Stepped(saving=kept.of(amounts), cost=cost, outlay=outlay * paid_share, resale=terms.resale)

    steps = [(of, share, stepped(amounts)) for of, share, amounts in savings.stepped]
    steps += [("outlay", share, stepped(middle, 1.0 + share)) for share in (-STEP_SHARE, STEP_SHARE)]
    return sensitivities(stepped(middle), steps, terms.money.discount_rate_share, kept.last_part)


def _ends_of(squares: Squares, energy_shares: tuple[float, float], price_sd_share: float) -> _Ends:
    """Cautious, middle and hopeful savings of each year."""
    cautious, hopeful = squares.ends(energy_shares, price_sd_share)
    return cautious, squares.middle, hopeful


def _each(ends: _Ends, figure: Callable[[Floats], float | None]) -> Band:
    return Band(*(figure(amounts) for amounts in ends))


def _year_flows(outlay: float, saving: Floats, cost: Floats, resale: float) -> tuple[YearFlow, ...]:
    unpaid: list[float] = unpaid_after_each_year(cash_flows(outlay, saving, cost, resale)).tolist()
    years = zip([0.0, *saving.tolist()], [outlay, *cost.tolist()], unpaid, strict=True)
    return tuple(
        YearFlow(year=year, saving=saved, cost=paid, resale=resale if year == saving.size else 0.0, unpaid=left)
        for year, (saved, paid, left) in enumerate(years)
    )
