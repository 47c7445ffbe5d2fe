"""What does the home pay in a year, all of its own power counted, and what if a machine ran at another hour?

It is the account itself, asked again of a home whose machine runs then: each hour's energy summed by register and
month, netted and priced as the saving is, in the mean of the years kept, un-aged, at prices that do not grow. Standing
charges and what the inverter draws by night hang on no machine and are left out.
"""

from dataclasses import dataclass, replace
from datetime import date
from math import ceil

import numpy as np

from service.core.energy.result import EnergyYear
from service.core.household import demand_w, mean_day_w, quarters_w
from service.core.model.demand import DemandShape
from service.core.model.facts import Household, Machine, Setup
from service.core.model.hours import HOURS, Calendar, Floats
from service.core.payback import HomeYear, PricedPeriod, priced_periods, savings, time_kept
from service.core.worth.use import AtTheMeter, UseAtHome


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What the service tells of a home: its year's bill, None without a price, and own power used, of all plants."""

    bill: float | None
    own_kwh: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HomeBill:
    """A home that is asked again and again; ``meter`` as it stands, ``used`` what of the year is used then.

    ``price_per_kwh``: (8760,) of what is bought, in the mean of the years kept; None without a tariff, as ``periods``.
    """

    energy: EnergyYear
    setup: Setup
    calendar: Calendar
    shape: DemandShape
    periods: tuple[PricedPeriod, ...]
    price_per_kwh: Floats | None
    meter: AtTheMeter
    used: tuple[Floats, HomeYear]

    @classmethod
    def of(
        cls,
        energy: EnergyYear,
        setup: Setup,
        price_per_kwh: Floats | None,
        calendar: Calendar,
        shape: DemandShape,
        as_of: date,
        use: UseAtHome,
    ) -> "HomeBill":
        """Of a home at its tariff; the arguments as those of ``habits``."""
        kept = max(ceil(time_kept(setup.money.years, setup.household.stay_years)), 1)
        return cls(
            energy=energy,
            setup=setup,
            calendar=calendar,
            shape=shape,
            price_per_kwh=price_per_kwh,
            periods=() if setup.tariff is None else priced_periods(setup.tariff, as_of, kept, 0.0),
            meter=use.meter,
            used=(use.self_used_w, use.cases.middle),
        )

    def told(self) -> Told:
        """Of the home as it stands."""
        meter, (hourly, home) = self.meter, self.used
        own_kwh = float(hourly.sum() + meter.phases * meter.other_used_w.sum()) / 1000.0
        if self.price_per_kwh is None:
            return Told(bill=None, own_kwh=own_kwh)
        counted = self.setup.meter
        saved = sum(
            float(savings(one, self.periods, 0.0, counted.counts, counted.netting).mean())
            for one in (home, *(() if home.plant is None else (home.plant,)))
        )
        return Told(bill=float(meter.demand_w @ self.price_per_kwh) / 1000.0 - saved, own_kwh=own_kwh)

    def moved(self, at: int, hour: int) -> "HomeBill":
        """The home with the machine of that number at another hour."""
        household = self.setup.household
        machine = household.machines[at]
        then = replace(machine, usual_hour=hour)
        machines = (*household.machines[:at], then, *household.machines[at + 1 :])
        household = replace(
            _values_moved(household, machine, then, self.meter.demand_w, self.calendar), machines=machines
        )
        setup = replace(self.setup, household=household)
        beside = self.meter.beside_machines
        demand = demand_w(household, self.calendar, self.shape) if beside is None else beside.with_machines_w(machines)
        meter = AtTheMeter.of_demand(self.energy, setup, demand, self.meter.sums, self.meter.other_w, beside)
        return replace(self, setup=setup, meter=meter, used=meter.used(1.0))


def _values_moved(
    household: Household, machine: Machine, then: Machine, demand_w: Floats, calendar: Calendar
) -> Household:
    """The home's own values with what they show of a machine at its usual hour put at another, as a mean of days.

    They show no more of it than is drawn then above what is always on.
    """
    if household.values_w is None:
        return household
    values, clock_h = np.asarray(household.values_w, dtype=np.float64), np.arange(len(household.values_w)) % 24
    if values.size >= HOURS:
        quarters, clock_h = quarters_w(household), calendar.clock_h.astype(np.int64)
        values = demand_w if quarters is None else quarters
        clock_h = np.repeat(clock_h, values.size // HOURS)
    own, moved = mean_day_w(machine)[clock_h], mean_day_w(then)[clock_h]
    beside = np.maximum(values - own, np.minimum(values, household.always_on_w))
    asked_w = float(moved.sum())
    shown = float((values - beside).sum()) / asked_w if asked_w > 0.0 else 0.0
    return replace(household, values_w=tuple((beside + shown * moved).tolist()))
