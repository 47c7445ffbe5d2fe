"""What of the yield is used at home, and what is sent out?"""

from dataclasses import dataclass

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
from service.core.model.facts import Setup
from service.core.model.hours import Calendar, Floats
from service.core.payback import HomeYear, meter_sums, shifted_use
from service.core.worth.bands import HomeCases, band_of_steps, ends_over_middle, spread_of
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
    phase; where nobody said, it is taken to sum.
    """
    household, meter = setup.household, setup.meter
    demand = demand_w(household, calendar, shape, southern=setup.site.latitude_deg < 0)
    seen, always_on_w = demand, household.always_on_w
    if meter.sums_phases is False:
        seen, always_on_w = on_one_phase_w(demand, always_on_w)
    k = k_of(household, meter.netting)
    sums = meter_sums(setup.tariff, calendar, reversing=meter.counts == "reversing")
    demand_kwh = sums.by_cell(demand)

    def used(scale: float) -> tuple[Floats, HomeYear]:
        produced = energy.ac_w * scale
        hourly = self_used_w(produced, seen, always_on_w, k)
        return hourly, sums.home(hourly, produced, demand_kwh)

    hourly, middle = used(1.0)
    less, more = ends_over_middle(energy.year_kwh)
    step = Z_90 * self_use_sd_share(household)
    steady, yearly = spread_of(energy.spread)
    cases = HomeCases(
        middle=middle,
        less_energy=used(less)[1],
        more_energy=used(more)[1],
        less_used=shifted_use(middle, -step),
        more_used=shifted_use(middle, step),
        steady_sd_share=steady,
        yearly_sd_share=yearly,
        stepped=(used(1.0 - STEP_SHARE)[1], used(1.0 + STEP_SHARE)[1]),
    )
    self_used = float(middle.self_used_kwh.sum())
    produced = float(energy.ac_w.sum()) / 1000.0
    needed = float(demand.sum()) / 1000.0
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


def _self_used(home: HomeYear) -> float:
    return float(home.self_used_kwh.sum())
