"""At which hour does a machine best run, and what does that gain? Honest, and therefore small.

A run is a known load on top of what the home draws anyway: of each stretch with load L the set meets
E[min(P, D + L)] - E[min(P, D)], the closed form of self-use with L on top. A heater at 2 kW is more than most sets
give, so that a good part of a run is bought whatever the hour. More than one run a day share that day's sun: they count
as one load together. Machines are reckoned together, in the order in which they were named: what is expected to be
taken by those moved before is no longer there for the next one.
"""

from dataclasses import dataclass, replace
from datetime import date
from math import ceil

import numpy as np

from service.core.energy.result import EnergyYear
from service.core.household import RUN_HOURS, demand_w, k_of, mean_day_w, self_used_w, with_allowance_w
from service.core.model.demand import DemandShape
from service.core.model.facts import Machine, Meter, Setup
from service.core.model.hours import HOURS, Calendar, Floats
from service.core.payback import WITHIN_THE_HOUR, PricedPeriod, priced_hours, priced_periods, time_kept
from service.core.worth.steps import DemandInSteps

# A washing machine or dishwasher draws most of its energy for heating, in its first hour and at about this power
# (trade figures, from memory: 60 to 80 % of a wash at 40 to 60 C); the rest evenly over the run.
HEATER_W = 2000.0
HEATER_SHARE = 0.65

_DAYS_PER_WEEK = 7.0
_WEEKS_PER_YEAR = 365.0 / _DAYS_PER_WEEK
_PHASES = 3
# Less than this is no reason to change a habit.
_LEAST_GAIN = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """One machine's best hour.

    ``usual_start`` and ``best_start``: wall clock, "HH:MM"; equal where no other hour is better.
    ``gain_kwh_per_year``: more of the home's own production used than at the usual hour; negative where a cheap hour
    without sun is worth more. ``gain_per_year``: in money, the mean of the years kept; None where no price is known.
    Each machine is looked at with those named before it at their best hours and those after it at their usual ones, so
    that gains add up; all together are never more than is sent out.
    """

    machine: str
    usual_start: str
    best_start: str
    gain_kwh_per_year: float
    gain_per_year: float | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Hours:
    """The year that machines run in; ``import_price`` and ``export_value`` are None where no price is known.

    ``produced_w`` is what machines that were moved leave of it, and ``demand_w`` is without them. ``surplus_kwh`` is
    what is sent out and not yet taken by them.
    """

    produced_w: Floats
    demand_w: Floats
    surplus_kwh: float
    always_on_w: float
    k: float
    clock_h: np.ndarray[tuple[int], np.dtype[np.int64]]
    phase_share: float
    import_price: Floats | None
    export_value: Floats | None

    def by_clock(self, per_row: Floats) -> Floats:
        """(24,) mean over the days, by wall-clock hour."""
        count = np.bincount(self.clock_h, minlength=24)
        return np.bincount(self.clock_h, weights=per_row, minlength=24) / np.maximum(count, 1)


def habits(
    energy: EnergyYear,
    setup: Setup,
    calendar: Calendar,
    shape: DemandShape,
    as_of: date,
    other_w: Floats | None = None,
) -> tuple[Habit, ...]:
    """The best hour of each machine that was named, in their order.

    Args:
        energy: the year's production.
        setup: household, meter and tariff.
        calendar: the wall clock of the rows.
        shape: the published shape of demand.
        as_of: the day of asking, on which the years begin whose prices count.
        other_w: (8760,) of a plant on the roof, whose power counts as the home's own too.

    The best hour is the one at which the run costs least: what is bought at the price of its hour, and what is used
    instead of sent out at what it would have earned. Without prices it is the one with the most own power. On a meter
    that counts each phase alone the machine is on the set's phase in one case of three.
    """
    if not setup.household.machines:
        return ()
    hours = _hours(energy, setup, calendar, shape, as_of, other_w)
    found = []
    for machine in setup.household.machines:
        habit, hours = _habit(machine, hours)
        found.append(habit)
    return tuple(found)


def _hours(
    energy: EnergyYear,
    setup: Setup,
    calendar: Calendar,
    shape: DemandShape,
    as_of: date,
    other_w: Floats | None,
) -> _Hours:
    household = setup.household
    share = 1.0 / _PHASES if setup.meter.sums_phases is False else 1.0
    # what a limit on sending out throws away, a machine that runs then uses
    free = energy.before_export_limit or energy
    produced = free.ac_w if other_w is None else free.ac_w + other_w * share
    import_price, export_value = _prices(setup, calendar, as_of, produced)
    demand = demand_w(household, calendar, shape, southern=setup.site.latitude_deg < 0)
    used = DemandInSteps.of(household, setup.meter, demand).used_w(produced)
    return _Hours(
        produced_w=produced,
        demand_w=demand * share,
        surplus_kwh=float((produced - used).sum()) / 1000.0,
        always_on_w=household.always_on_w * share,
        k=k_of(household, setup.meter.netting),
        clock_h=calendar.clock_h.astype(np.int64),
        phase_share=share,
        import_price=import_price,
        export_value=export_value,
    )


def _prices(setup: Setup, calendar: Calendar, as_of: date, produced_w: Floats) -> tuple[Floats | None, Floats | None]:
    """What a kWh bought costs, and what one sent out is worth, in each hour: the mean of the years kept.

    Each period counts by its share of those years, month by month, as in the account, at its prices as stated: no
    price grows.
    """
    if setup.tariff is None:
        return None, None
    kept = max(ceil(time_kept(setup.money.years, setup.household.stay_years)), 1)
    cost, worth = np.zeros(HOURS), np.zeros(HOURS)
    for period in priced_periods(setup.tariff, as_of, kept, 0.0):
        shares = period.share_of_year if period.share_of_month is None else period.share_of_month[:, calendar.month - 1]
        share = shares.mean(axis=0)
        bought, sold = priced_hours(setup.tariff, period.number, calendar)
        cost += share * bought
        worth += share * _sent_out(period, bought, sold, setup.meter, produced_w)
    return cost, worth


def _sent_out(period: PricedPeriod, bought: Floats, sold: Floats, meter: Meter, produced_w: Floats) -> Floats:
    """What a kWh sent out is worth in each hour of a period, by the rules of the account."""
    if meter.counts == "one_way":
        return -bought
    if period.export == "unpaid":
        return np.zeros(HOURS)
    if period.export == "netted" and (meter.counts == "reversing" or meter.netting not in WITHIN_THE_HOUR):
        return bought
    # what has to be paid for sending out is not taxed
    return sold * (1.0 - period.export_tax_share) if produced_w @ sold > 0.0 else sold


def _habit(machine: Machine, hours: _Hours) -> tuple[Habit, _Hours]:
    """A machine's best hour, and what it leaves to the next one."""
    own_w = mean_day_w(machine)[hours.clock_h] * hours.phase_share
    floor = np.minimum(hours.demand_w, hours.always_on_w)
    beside = np.maximum(hours.demand_w - own_w, floor)
    base = self_used_w(hours.produced_w, beside, hours.always_on_w, hours.k)

    def met(load_w: float) -> Floats:
        on_top = with_allowance_w(hours.produced_w, beside, hours.always_on_w, hours.k, load_w)
        return np.maximum(on_top - base, 0.0) / 1000.0

    together = max(machine.runs_per_week / _DAYS_PER_WEEK, 1.0)
    kwh = machine.kwh_a_run * together
    heat_kwh = HEATER_SHARE * kwh
    heater_w = max(HEATER_W * together, heat_kwh * 1000.0)
    heated_share = heat_kwh * 1000.0 / heater_w
    even_w = (kwh - heat_kwh) * 1000.0 / RUN_HOURS
    later = met(even_w)
    first = heated_share * met(even_w + heater_w) + (1.0 - heated_share) * later
    used, cost = _runs(first, later, heat_kwh, even_w / 1000.0, hours)
    usual = int(machine.usual_hour)
    best = int(np.argmax(used) if cost is None else np.argmin(cost))
    better = used[best] - used[usual] if cost is None else cost[usual] - cost[best]
    if better <= _LEAST_GAIN * kwh:
        best = usual
    runs_a_day = min(machine.runs_per_week, _DAYS_PER_WEEK) / _DAYS_PER_WEEK
    days = runs_a_day * _DAYS_PER_WEEK * _WEEKS_PER_YEAR
    gain_kwh = float(used[best] - used[usual]) * days
    there = min(hours.surplus_kwh / gain_kwh, 1.0) if gain_kwh > 0.0 else 1.0
    habit = Habit(
        machine=machine.name,
        usual_start=f"{usual:02d}:00",
        best_start=f"{best:02d}:00",
        gain_kwh_per_year=gain_kwh * there,
        gain_per_year=None if cost is None else float(cost[usual] - cost[best]) * days * there,
    )
    if best == usual:
        return habit, hours
    taken_w = sum((hours.clock_h == (best + step) % 24) * (later if step else first) for step in range(RUN_HOURS))
    return habit, replace(
        hours,
        produced_w=np.maximum(hours.produced_w - 1000.0 * runs_a_day * hours.phase_share * taken_w, 0.0),
        demand_w=beside,
        surplus_kwh=hours.surplus_kwh - habit.gain_kwh_per_year,
    )


def _runs(
    first: Floats, later: Floats, heat_kwh: float, even_kwh: float, hours: _Hours
) -> tuple[Floats, Floats | None]:
    """(24,) own power used by the runs of a day, in kWh, and what they cost, by the hour at which they start."""
    used = np.zeros(24)
    cost = None if hours.import_price is None else np.zeros(24)
    for step in range(RUN_HOURS):
        row = (first if step == 0 else later) * hours.phase_share
        used += np.roll(hours.by_clock(row), -step)
        if cost is not None and hours.import_price is not None and hours.export_value is not None:
            needed = even_kwh + (heat_kwh if step == 0 else 0.0)
            paid = (needed - row) * hours.import_price + row * hours.export_value
            cost += np.roll(hours.by_clock(paid), -step)
    return used, cost
