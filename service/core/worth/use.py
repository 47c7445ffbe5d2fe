"""What of the yield is used at home, and what is sent out?"""

from dataclasses import dataclass

import numpy as np

from service.core.energy.result import EnergyYear
from service.core.household import (
    demand_w,
    k_of,
    on_one_phase_w,
    self_use_sd_share,
    self_used_w,
)
from service.core.model.band import Z_90, Band
from service.core.model.demand import DemandShape
from service.core.model.facts import Household, Setup
from service.core.model.hours import Calendar, Floats
from service.core.payback import HomeYear, MeterSums, meter_sums, shifted_use
from service.core.worth.bands import HomeCases, band_of_steps, ends_over_middle, spread_of
from service.core.worth.export_limit import sent_out_as, within_limit_w
from service.core.worth.sensitivity import STEP_SHARE


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class UseAtHome:
    """What of the set's first year is used at home, as the home's meter sees it.

    Attributes:
        self_used_kwh: band of the year; ``self_used_share`` is its middle over the production (0 without any).
        exported_kwh: production less self-use, in the middle.
        covered_share: self-use over demand (0 without demand).
        demand_kwh: what the home uses in the year.
        self_used_w: (8760,) expected self-use of each hour.
        cases: the meter's sums by register and month in the middle and at the ends of each cause, for the account.
    """

    self_used_kwh: Band
    self_used_share: float
    exported_kwh: float
    covered_share: float
    demand_kwh: float
    self_used_w: Floats
    cases: HomeCases


def use_at_home(energy: EnergyYear, setup: Setup, calendar: Calendar, shape: DemandShape) -> UseAtHome:
    """Self-use of the year, with its band.

    The band has two causes: production at its cautious and hopeful end, for which self-use is computed again, and
    the home's minutes and habits. A meter that does not sum over phases sees only what is drawn on the set's own
    phase; where nobody said, it is taken to sum. A limit on what is sent out takes nothing off self-use.
    """
    meter = _AtTheMeter.of(energy, setup, calendar, shape)
    hourly, middle = meter.used(1.0)
    free = energy.before_export_limit or energy
    less, more = ends_over_middle(free.year_kwh)
    step = Z_90 * self_use_sd_share(setup.household)
    steady, yearly = spread_of(energy.spread)
    cases = HomeCases(
        middle=middle,
        less_energy=meter.used(less)[1],
        more_energy=meter.used(more)[1],
        less_used=meter.habits(middle, -step),
        more_used=meter.habits(middle, step),
        steady_sd_share=steady,
        yearly_sd_share=yearly,
        stepped=(meter.used(1.0 - STEP_SHARE)[1], meter.used(1.0 + STEP_SHARE)[1]),
    )
    self_used = float(middle.self_used_kwh.sum())
    produced = float(energy.ac_w.sum()) / 1000.0
    needed = float(meter.demand_w.sum()) / 1000.0
    return UseAtHome(
        self_used_kwh=band_of_steps(
            self_used,
            [
                (_self_used(cases.less_energy), _self_used(cases.more_energy)),
                (_self_used(cases.less_used), _self_used(cases.more_used)),
            ],
        ),
        self_used_share=self_used / produced if produced > 0.0 else 0.0,
        exported_kwh=float(middle.exported_kwh.sum()),
        covered_share=self_used / needed if needed > 0.0 else 0.0,
        demand_kwh=needed,
        self_used_w=hourly,
        cases=cases,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _AtTheMeter:
    """The set, the home and what the meter sees: ``seen_w`` is the demand that the set can meet on it, shape k."""

    energy: EnergyYear
    household: Household
    export_limit_w: float | None
    demand_w: Floats
    seen_w: Floats
    always_on_w: float
    k: float
    sums: MeterSums
    demand_kwh: Floats

    @classmethod
    def of(cls, energy: EnergyYear, setup: Setup, calendar: Calendar, shape: DemandShape) -> "_AtTheMeter":
        household, meter = setup.household, setup.meter
        demand = demand_w(household, calendar, shape, southern=setup.site.latitude_deg < 0)
        seen, always_on_w = demand, household.always_on_w
        if meter.sums_phases is False:
            seen, always_on_w = on_one_phase_w(demand, always_on_w)
        sums = meter_sums(setup.tariff, calendar, reversing=meter.counts == "reversing")
        return cls(
            energy=energy,
            household=household,
            export_limit_w=setup.inverter.export_limit_w,
            demand_w=demand,
            seen_w=seen,
            always_on_w=always_on_w,
            k=k_of(household, meter.netting),
            sums=sums,
            demand_kwh=sums.by_cell(demand),
        )

    def used(self, scale: float) -> tuple[Floats, HomeYear]:
        """Self-use of each hour and the year at the meter, with the production scaled."""
        free = self.energy.before_export_limit
        if free is None or self.export_limit_w is None:
            return self._met(self.energy.ac_w * scale)
        left = within_limit_w(free.ac_w * scale, self.demand_w, self.household, self.export_limit_w)
        hourly = np.minimum(self._met(free.ac_w * scale)[0], left)
        return hourly, self.sums.home(hourly, left, self.demand_kwh)

    def habits(self, middle: HomeYear, share: float) -> HomeYear:
        """The year with more or less of the production used at home."""
        free = self.energy.before_export_limit
        if free is None:
            return shifted_use(middle, share)
        unlimited = self._met(free.ac_w)[1]
        return sent_out_as(shifted_use(unlimited, share), unlimited, middle)

    def _met(self, produced_w: Floats) -> tuple[Floats, HomeYear]:
        hourly = self_used_w(produced_w, self.seen_w, self.always_on_w, self.k)
        return hourly, self.sums.home(hourly, produced_w, self.demand_kwh)


def _self_used(home: HomeYear) -> float:
    return float(home.self_used_kwh.sum())
