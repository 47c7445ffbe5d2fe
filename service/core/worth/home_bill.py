"""What does the home pay in a year, all of its own power counted, and what if a machine ran at another hour?

It is the account itself: each hour's energy summed by register and month, netted and priced as the saving is, in the
mean of the years kept, un-aged, at prices that do not grow. Standing charges and what the inverter draws by night hang
on no machine and are left out.
"""

from dataclasses import dataclass, replace
from datetime import date
from math import ceil

import numpy as np

from service.core.energy.result import EnergyYear
from service.core.model.demand import DemandShape
from service.core.model.facts import Machine, Setup, Tariff
from service.core.model.hours import Calendar, Floats
from service.core.payback import HomeYear, PricedPeriod, priced_periods, savings, time_kept
from service.core.worth.use import AtTheMeter


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HomeBill:
    """The home's bill as its machines run: ``used_w`` of its own power and ``demand_w``, (8760,) of the whole home.

    ``price_per_kwh``: (8760,) of what is bought, in the mean of the years kept.
    """

    energy: EnergyYear
    setup: Setup
    calendar: Calendar
    shape: DemandShape
    other_w: Floats | None
    periods: tuple[PricedPeriod, ...]
    price_per_kwh: Floats
    meter: AtTheMeter
    used_w: Floats
    demand_w: Floats

    @classmethod
    def of(
        cls,
        energy: EnergyYear,
        setup: Setup,
        tariff: Tariff,
        price_per_kwh: Floats,
        calendar: Calendar,
        shape: DemandShape,
        as_of: date,
        other_w: Floats | None,
    ) -> "HomeBill":
        """Of a home at its tariff; the arguments as those of ``habits``."""
        kept = max(ceil(time_kept(setup.money.years, setup.household.stay_years)), 1)
        meter = AtTheMeter.of(energy, setup, calendar, shape, other_w)
        hourly, _ = meter.used(1.0)
        plant_w = 0.0 if meter.other_w is None else meter.phases * meter.other_used_w
        return cls(
            energy=energy,
            setup=setup,
            calendar=calendar,
            shape=shape,
            other_w=other_w,
            price_per_kwh=price_per_kwh,
            periods=priced_periods(tariff, as_of, kept, 0.0),
            meter=meter,
            used_w=hourly + plant_w,
            demand_w=meter.demand_w,
        )

    def moved(self, used_w: Floats, demand_w: Floats) -> "HomeBill":
        """With so much more, or less, used at home and drawn in each hour, (8760,)."""
        return replace(self, used_w=self.used_w + used_w, demand_w=self.demand_w + demand_w)

    def paid(self) -> float:
        """A year's bill."""
        # a machine that needs more than the home was said to need is cut there, and not in its runs
        own_w = replace(self.meter, demand_w=np.maximum(self.demand_w, 0.0)).left_w(self._free_w())
        if self.other_w is not None:
            own_w = own_w + self.other_w
        sums = self.meter.sums
        home = sums.home(self.used_w, np.maximum(own_w, self.used_w), sums.by_first(self.demand_w))
        return self._bill(self.demand_w, home)

    def asked_again(self, machines: tuple[Machine, ...]) -> float:
        """The bill that the service would tell of a home whose machines run so."""
        setup = replace(self.setup, household=replace(self.setup.household, machines=machines))
        meter = AtTheMeter.of(self.energy, setup, self.calendar, self.shape, self.other_w, self.meter.sums)
        home = meter.used(1.0)[1]
        return self._bill(meter.demand_w, home, *(() if home.plant is None else (home.plant,)))

    def _bill(self, demand_w: Floats, *homes: HomeYear) -> float:
        """All of the demand bought, less what each of the homes saves."""
        meter = self.setup.meter
        bought = float(demand_w @ self.price_per_kwh) / 1000.0
        saved = (savings(home, self.periods, 0.0, meter.counts, meter.netting) for home in homes)
        return bought - sum(float(years.mean()) for years in saved)

    def _free_w(self) -> Floats:
        """What the set gives where nothing limits what it sends out."""
        return (self.energy.before_export_limit or self.energy).ac_w
