"""At which hour does a machine best run, and what does that gain? Honest, and therefore small.

What is promised is what asking again gives of the home with the machine at that hour: the difference of two accounts
(``worth.home_bill``). Machines are reckoned in the order in which they were named, each beside those moved before.

Which hours are worth an account a run tells, a known load on top of what the home draws anyway: of each stretch with
load L the set meets E[min(P, D + L)] - E[min(P, D)], the closed form of self-use with L on top. A heater at 2 kW is
more than most sets give, so that a good part of a run is bought whatever the hour. More than one run a day share that
day's sun: they count as one load together.
"""

from dataclasses import dataclass, replace
from datetime import date
from math import ceil

import numpy as np

from service.core.energy.result import EnergyYear
from service.core.household import (
    HEATER_SHARE,
    RUN_HOURS,
    ClockRows,
    clock_rows,
    k_of,
    mean_day_w,
    self_used_w,
    with_allowance_w,
)
from service.core.model.demand import DemandShape
from service.core.model.facts import Machine, Meter, Setup
from service.core.model.hours import HOURS, Calendar, Floats, Ints
from service.core.payback import WITHIN_THE_HOUR, PricedPeriod, priced_hours, priced_periods, time_kept
from service.core.worth.home_bill import HomeBill, Told
from service.core.worth.use import UseAtHome, use_at_home

# At about this power a washing machine or dishwasher heats, in its first hour (trade figure, from memory).
HEATER_W = 2000.0

_DAYS_PER_WEEK = 7.0
_WEEKS_PER_YEAR = 365.0 / _DAYS_PER_WEEK
_PHASES = 3
# Less than this is no reason to change a habit.
_LEAST_GAIN = 1e-6
# What is left by rounding between hours that are the same; of these the first counts.
_DUST, _DIGITS = 1e-9, 9
# (24, 1) the hours of the clock after each in which a machine still runs.
_HOURS_AFTER = (np.arange(24)[:, np.newaxis] + np.arange(1, RUN_HOURS)) % 24
# How many hours of each way to price a kWh are given an account of their own.
_ASKED = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """One machine's best hour.

    ``usual_start`` and ``best_start``: wall clock, "HH:MM"; equal where no other hour is better.
    ``gain_kwh_per_year``: more of the home's own production used than at the usual hour; negative where a cheap hour
    without sun is worth more. ``gain_per_year``: in money, the mean of the years kept; None where no price is known.
    Both are what asking again gives. Each machine is looked at with those named before it at their best hours and those
    after it at their usual ones, so that gains add up; all together are never more than is sent out.
    """

    machine: str
    usual_start: str
    best_start: str
    gain_kwh_per_year: float
    gain_per_year: float | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Hours:
    """The year that machines run in, and the home as they run, of which the service tells ``told``.

    ``produced_w`` is what machines that were moved leave of it, and ``demand_w`` is without them; ``lit`` are the rows
    in which anything is produced. There are no ``prices`` without a tariff.
    """

    produced_w: Floats
    lit: Ints
    demand_w: Floats
    always_on_w: float
    k: float
    clock: ClockRows
    phase_share: float
    prices: tuple[Floats, ...]
    home: HomeBill
    told: Told


def habits(
    energy: EnergyYear,
    setup: Setup,
    calendar: Calendar,
    shape: DemandShape,
    as_of: date,
    other_w: Floats | None = None,
    use: UseAtHome | None = None,
) -> tuple[Habit, ...]:
    """The best hour of each machine that was named, in their order.

    Args:
        energy: the year's production.
        setup: household, meter and tariff.
        calendar: the wall clock of the rows.
        shape: the published shape of demand.
        as_of: the day of asking, on which the years begin whose prices count.
        other_w: (8760,) of a plant on the roof, whose power counts as the home's own too.
        use: ``use_at_home`` of all that, where it is at hand.

    The best hour is the one with the least bill, as the account reckons it: plant, netting and registers included
    (``worth.home_bill``). Without prices it is the one with the most own power. On a meter that counts each phase alone
    the machine is on the set's phase in one case of three.
    """
    if not setup.household.machines:
        return ()
    use = use or use_at_home(energy, setup, calendar, shape, other_w)
    hours = _hours(energy, setup, calendar, shape, as_of, use)
    found = []
    for at, machine in enumerate(setup.household.machines):
        runs = _Runs.of(machine, hours)
        best = _best(at, runs, hours)
        found.append(_habit(machine, best, hours.told))
        if best.hour != machine.usual_hour and at + 1 < len(setup.household.machines):
            hours = _left_by(runs, best, hours)
    return tuple(found)


def _hours(
    energy: EnergyYear,
    setup: Setup,
    calendar: Calendar,
    shape: DemandShape,
    as_of: date,
    use: UseAtHome,
) -> _Hours:
    household, other_w = setup.household, use.meter.other_w
    share = 1.0 / _PHASES if setup.meter.sums_phases is False else 1.0
    # what a limit on sending out throws away, a machine that runs then uses
    free = energy.before_export_limit or energy
    produced = free.ac_w if other_w is None else free.ac_w + other_w * share
    prices = _prices(setup, calendar, as_of, produced)
    home = HomeBill.of(energy, setup, prices[0] if prices else None, calendar, shape, as_of, use)
    return _Hours(
        produced_w=produced,
        lit=np.flatnonzero(produced > 0.0),
        demand_w=use.meter.demand_w * share,
        always_on_w=household.always_on_w * share,
        k=k_of(household, setup.meter.netting),
        clock=clock_rows(calendar),
        phase_share=share,
        prices=prices,
        home=home,
        told=home.told(),
    )


def _prices(setup: Setup, calendar: Calendar, as_of: date, produced_w: Floats) -> tuple[Floats, ...]:
    """What a kWh bought costs in each hour, and what one sent out is worth, netted where it is and as if it were not.

    One row for both where they are the same. The mean of the years kept, each period by its share of them month by
    month, at its prices as stated: no price grows. They choose the hours that are worth an account, and no more. None
    without a tariff.
    """
    if setup.tariff is None:
        return ()
    kept = max(ceil(time_kept(setup.money.years, setup.household.stay_years)), 1)
    prices = np.zeros((3, HOURS))
    for period in priced_periods(setup.tariff, as_of, kept, 0.0):
        shares = period.share_of_year if period.share_of_month is None else period.share_of_month[:, calendar.month - 1]
        share = shares.mean(axis=0)
        bought, sold = priced_hours(setup.tariff, period.number, calendar)
        prices[0] += share * bought
        prices[1] += share * _sent_out(period, bought, sold, setup.meter, produced_w)
        prices[2] += share * _sent_out(replace(period, export="paid"), bought, sold, setup.meter, produced_w)
    bought, netted, left_over = prices
    return (bought, netted) if np.array_equal(netted, left_over) else (bought, netted, left_over)


def _sent_out(period: PricedPeriod, bought: Floats, sold: Floats, meter: Meter, produced_w: Floats) -> Floats:
    """About what a kWh sent out is worth in each hour of a period, where all of it is netted that is."""
    if meter.counts == "one_way":
        return -bought
    if period.export == "unpaid":
        return np.zeros(HOURS)
    if period.export == "netted" and (meter.counts == "reversing" or meter.netting not in WITHIN_THE_HOUR):
        return bought
    # what has to be paid for sending out is not taxed
    return sold * (1.0 - period.export_tax_share) if produced_w @ sold > 0.0 else sold


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Runs:
    """A machine's runs of a day, and what they use of one's own power in each lit row, (n,) in kWh; in others nothing.

    ``first`` and ``later``: in the hour in which the runs begin and in those after it; ``first_kwh`` and ``later_kwh``
    are what they need then. ``a_day``: on how many days of one they run. ``beside_w``: (8760,) the demand without them.
    """

    first: Floats
    later: Floats
    first_kwh: float
    later_kwh: float
    a_day: float
    beside_w: Floats

    @classmethod
    def of(cls, machine: Machine, hours: _Hours) -> "_Runs":
        own_w = mean_day_w(machine).take(hours.clock.hour) * hours.phase_share
        floor = np.minimum(hours.demand_w, hours.always_on_w)
        beside = np.maximum(hours.demand_w - own_w, floor)
        produced, demand = hours.produced_w.take(hours.lit), beside.take(hours.lit)
        base = self_used_w(produced, demand, hours.always_on_w, hours.k)

        def met(load_w: float) -> Floats:
            on_top = with_allowance_w(produced, demand, hours.always_on_w, hours.k, load_w)
            return np.maximum(on_top - base, 0.0) / 1000.0

        together = max(machine.runs_per_week / _DAYS_PER_WEEK, 1.0)
        kwh = machine.kwh_a_run * together
        heat_kwh = HEATER_SHARE * kwh
        heater_w = max(HEATER_W * together, heat_kwh * 1000.0)
        heated_share = heat_kwh * 1000.0 / heater_w
        even_w = (kwh - heat_kwh) * 1000.0 / RUN_HOURS
        later = met(even_w)
        return cls(
            first=heated_share * met(even_w + heater_w) + (1.0 - heated_share) * later,
            later=later,
            first_kwh=heat_kwh + even_w / 1000.0,
            later_kwh=even_w / 1000.0,
            a_day=min(machine.runs_per_week, _DAYS_PER_WEEK) / _DAYS_PER_WEEK,
            beside_w=beside,
        )

    @property
    def days(self) -> float:
        """With a run, in a year."""
        return self.a_day * _DAYS_PER_WEEK * _WEEKS_PER_YEAR

    def used_kwh(self, hours: _Hours, worth: Floats | float = 1.0) -> Floats:
        """(24,) of one's own power, by the hour at which a day's runs start; times what it is ``worth``, by lit row."""
        first, later = (hours.clock.means(used * worth, hours.lit) for used in (self.first, self.later))
        return _by_start(first, later) * hours.phase_share

    def taken_w(self, start: int, hours: _Hours) -> Floats:
        """(8760,) of it in the mean over days with and without a run, where runs start at an hour."""
        hour, taken = hours.clock.hour.take(hours.lit), np.zeros(HOURS)
        for step in range(RUN_HOURS):
            taken[hours.lit] += (hour == (start + step) % 24) * (self.later if step else self.first)
        return 1000.0 * self.a_day * hours.phase_share * taken


def _by_start(first: Floats, later: Floats) -> Floats:
    """(24,) of a day's runs, by the hour at which they start, of what its first hour and later ones come to."""
    return np.asarray(first + later[_HOURS_AFTER].sum(axis=1))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Best:
    """A machine's best hour, the home with the machine at it, and what is told of that."""

    hour: int
    home: HomeBill
    told: Told


def _best(at: int, runs: _Runs, hours: _Hours) -> _Best:
    """Of the machine of that number; its usual hour where no other one is better."""
    usual = int(hours.home.setup.household.machines[at].usual_hour)
    best = _Best(hour=usual, home=hours.home, told=hours.told)
    least = max(_LEAST_GAIN * (runs.first_kwh + runs.later_kwh) * max(runs.days, 1.0), _DUST)
    for hour in _candidates(runs, hours):
        if hour != usual:
            asked = hours.home.moved(at, hour)
            told = asked.told()
            if _gain(best.told, told) > (least if best.hour == usual else _DUST):
                best = _Best(hour=hour, home=asked, told=told)
    return best


def _habit(machine: Machine, best: _Best, now: Told) -> Habit:
    return Habit(
        machine=machine.name,
        usual_start=f"{int(machine.usual_hour):02d}:00",
        best_start=f"{best.hour:02d}:00",
        gain_kwh_per_year=best.told.own_kwh - now.own_kwh,
        gain_per_year=None if now.bill is None else _gain(now, best.told),
    )


def _left_by(runs: _Runs, best: _Best, hours: _Hours) -> _Hours:
    """What a machine at its best hour leaves to the next one."""
    produced = np.maximum(hours.produced_w - runs.taken_w(best.hour, hours), 0.0)
    return replace(hours, produced_w=produced, demand_w=runs.beside_w, home=best.home, told=best.told)


def _gain(now: Told, then: Told) -> float:
    """What the bill falls; without a price, what is used more."""
    return then.own_kwh - now.own_kwh if now.bill is None or then.bill is None else now.bill - then.bill


def _candidates(runs: _Runs, hours: _Hours) -> list[int]:
    """The hours with the most own power and those that cost least, surplus netted and as if it were left over."""
    found = [int(np.argmax(runs.used_kwh(hours)))]
    if not hours.prices:
        return found
    bought, *sent_out = hours.prices
    price = hours.clock.means(bought)
    all_bought = _by_start(runs.first_kwh * price, runs.later_kwh * price)
    for worth in sent_out:
        cost = all_bought - runs.used_kwh(hours, (bought - worth).take(hours.lit))
        found += np.argsort(cost.round(_DIGITS), kind="stable")[:_ASKED].tolist()
    return list(dict.fromkeys(found))
