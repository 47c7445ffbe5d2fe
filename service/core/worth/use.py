"""What of the yield is used at home, and what is sent out?"""

from dataclasses import dataclass, replace

import numpy as np

from service.core.energy.result import EnergyYear
from service.core.household import BesideMachines, demand_w, self_use_sd_share
from service.core.model.band import Z_90, Z_95, Band
from service.core.model.demand import DemandShape
from service.core.model.facts import Household, Setup
from service.core.model.hours import Calendar, Floats, Ints
from service.core.payback import HomeYear, MeterSums, PlantAlone, meter_sums, shifted_use
from service.core.worth.bands import HomeCases, band_of_steps, spread_of
from service.core.worth.export_limit import sent_out_as, within_limit_w
from service.core.worth.sensitivity import STEP_SHARE
from service.core.worth.steps import DemandInSteps

PHASES = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherShare:
    """What a plant on the roof makes of the home's demand first, in kWh a year.

    Attributes:
        year_kwh: what it gives.
        self_used_kwh: what of that is used at home, as the meter sees it.
        set_alone_self_used_kwh: what the home would use of the set if the plant were not there.
        displaced_kwh: how much less that is with it. Were the set counted first, the plant's own use would fall by as
            much: what both could meet is counted once.
    """

    year_kwh: float
    self_used_kwh: float
    set_alone_self_used_kwh: float
    displaced_kwh: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class UseAtHome:
    """What of the set's first year is used at home, as the home's meter sees it.

    Attributes:
        self_used_kwh: band of the year; ``self_used_share`` is its middle over the production (0 without any).
        upper_bound_self_used_kwh: the sum of min(production, demand that a plant on the roof leaves) of the hourly
            means. Flattering, since demand within an hour is not even; what is really used lies below.
        exported_kwh: production less self-use, in the middle.
        covered_share: self-use over demand (0 without demand).
        demand_kwh: what the home uses in the year.
        other_generation: of a plant on the roof; None where there is none.
        self_used_w: (8760,) expected self-use of each hour.
        cases: the meter's sums by register and month in the middle and at the ends of each cause, for the account.
        meter: the set and the home as the meter sees them, to be asked about other powers.
    """

    self_used_kwh: Band
    self_used_share: float
    upper_bound_self_used_kwh: float
    exported_kwh: float
    covered_share: float
    demand_kwh: float
    other_generation: OtherShare | None
    self_used_w: Floats
    cases: HomeCases
    meter: "AtTheMeter"


def use_at_home(
    energy: EnergyYear,
    setup: Setup,
    calendar: Calendar,
    shape: DemandShape,
    other_w: Floats | None = None,
    demand_range_kwh: tuple[float, float] | None = None,
) -> UseAtHome:
    """Self-use of the year, with its band.

    The band has three causes: production at its cautious and hopeful end, for which self-use is computed again; the
    home's minutes and habits; and, where nobody said how much the home needs, ``demand_range_kwh``, within which the
    yearly demand lies in 95 cases of a hundred. The last two are independent: roots of squares. A meter that does not
    sum over phases sees only what is drawn on the set's own phase; where nobody said, it is taken to sum. A limit on
    what is sent out takes nothing off self-use.

    ``other_w``, (8760,), is the power of a plant that stands on the roof already and meets the demand first.
    """
    meter = AtTheMeter.of(energy, setup, calendar, shape, other_w)
    free_w = (energy.before_export_limit or energy).ac_w
    by_light = [energy.ac_at(scale) for scale in (1.0, *energy.light_ends())]
    by_yield = [free_w * (1.0 - STEP_SHARE), free_w * (1.0 + STEP_SHARE)]
    hourly, (middle, less_energy, more_energy, *stepped) = meter.years(np.stack([*by_light, *by_yield]))
    step = Z_90 * self_use_sd_share(setup.household)
    fewer, further = _of_demand(_self_used(middle), energy, setup, calendar, shape, other_w, demand_range_kwh)
    steady, yearly = spread_of(energy.spread)
    cases = HomeCases(
        middle=middle,
        less_energy=less_energy,
        more_energy=more_energy,
        less_used=meter.habits(middle, -float(np.hypot(step, fewer))),
        more_used=meter.habits(middle, float(np.hypot(step, further))),
        steady_sd_share=steady,
        yearly_sd_share=yearly,
        stepped=(stepped[0], stepped[1]),
        night=meter.night(),
    )
    cases = replace(cases, every=cases.stacked_cases())
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
            most=min(_given_band(cases).hopeful or 0.0, needed),
            least=min(self_used, 0.0),  # each cause alone may leave next to nothing, both together no less
        ),
        self_used_share=self_used / produced if produced > 0.0 else 0.0,
        upper_bound_self_used_kwh=meter.upper_bound_kwh(),
        exported_kwh=float(middle.exported_kwh.sum()),
        covered_share=self_used / needed if needed > 0.0 else 0.0,
        demand_kwh=needed,
        other_generation=meter.other_share(self_used),
        self_used_w=hourly[0],
        cases=cases,
        meter=meter,
    )


def _of_demand(
    used_kwh: float,
    energy: EnergyYear,
    setup: Setup,
    calendar: Calendar,
    shape: DemandShape,
    other_w: Floats | None,
    range_kwh: tuple[float, float] | None,
) -> tuple[float, float]:
    """By which shares self-use is less and more where the home needs so little or so much; nought where it is known."""
    demand = setup.household.demand_kwh_per_year
    if range_kwh is None or used_kwh <= 0.0 or demand <= 0.0:
        return 0.0, 0.0
    shares = []
    for end in range_kwh:
        scale = 1.0 + Z_90 / Z_95 * (end / demand - 1.0)
        home = replace(
            setup.household, demand_kwh_per_year=scale * demand, always_on_w=scale * setup.household.always_on_w
        )
        other = AtTheMeter.of(energy, replace(setup, household=home), calendar, shape, other_w).used(1.0)[1]
        shares.append(abs(_self_used(other) / used_kwh - 1.0))
    return shares[0], shares[1]


def with_band_of_use(energy: EnergyYear, use: UseAtHome) -> EnergyYear:
    """A year under an export limit, its band widened by what is not known of the home.

    What the home does not use the limit throws away, so that the set gives more where more is used. Without a limit
    the year does not hang on the home.
    """
    if energy.before_export_limit is None or energy.year_kwh.middle is None:
        return energy
    return replace(energy, year_kwh=replace(_given_band(use.cases), middle=energy.year_kwh.middle))


def _given_band(cases: HomeCases) -> Band:
    """What the set gives; it hangs on the home's use where a limit throws away what that leaves."""
    ends = ((cases.less_energy, cases.more_energy), (cases.less_used, cases.more_used))
    steps = [(_given_kwh(low), _given_kwh(high)) for low, high in ends]
    return band_of_steps(_given_kwh(cases.middle), steps, least=0.0)


def _given_kwh(home: HomeYear) -> float:
    return float((home.self_used_kwh + home.exported_kwh).sum())


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AtTheMeter:
    """The set, the home and what the meter sees: ``seen_w`` is the demand on it by the hour, ``steps`` as it is known.

    ``other_w`` is a plant on the roof and ``other_seen_w`` its part on that phase, ``other_used_w`` what of it is used;
    ``plant`` is the home with that alone, ``phases`` how many the meter counts apart. ``beside_machines`` is what the
    home draws apart from its machines; None where its own values tell it all.
    """

    energy: EnergyYear
    household: Household
    export_limit_w: float | None
    demand_w: Floats
    seen_w: Floats
    steps: DemandInSteps
    sums: MeterSums
    demand_kwh: Floats
    other_w: Floats | None
    other_seen_w: Floats | None
    other_used_w: Floats
    other_used_in_steps_w: Floats
    plant: PlantAlone | None
    phases: int
    beside_machines: BesideMachines | None = None

    @classmethod
    def of(
        cls,
        energy: EnergyYear,
        setup: Setup,
        calendar: Calendar,
        shape: DemandShape,
        other_w: Floats | None,
    ) -> "AtTheMeter":
        """Of a set in its home; ``other_w`` as in ``use_at_home``."""
        household, southern, beside = setup.household, setup.site.latitude_deg < 0, None
        if household.values_w is None:
            beside = BesideMachines.of(household, calendar, shape, southern=southern)
            demand = beside.with_machines_w(household.machines)
        else:
            demand = demand_w(household, calendar, shape, southern=southern)
        sums = meter_sums(setup.tariff, calendar, reversing=setup.meter.counts == "reversing")
        return cls.of_demand(energy, setup, demand, sums, other_w, beside)

    @classmethod
    def of_demand(
        cls,
        energy: EnergyYear,
        setup: Setup,
        demand: Floats,
        sums: MeterSums,
        other_w: Floats | None,
        beside: BesideMachines | None,
    ) -> "AtTheMeter":
        """The same of a home whose (8760,) demand in W is known, and how its hours are summed for the tariff."""
        household, meter = setup.household, setup.meter
        steps = DemandInSteps.of(household, meter, demand)
        phases = PHASES if meter.sums_phases is False else 1
        other_seen = None if other_w is None else other_w / phases
        in_steps = np.zeros(1) if other_seen is None else steps.used_in_steps_w(other_seen)
        other_used = np.zeros(1) if other_seen is None else steps.hours(in_steps)
        return cls(
            energy=energy,
            household=household,
            export_limit_w=setup.inverter.export_limit_w,
            demand_w=demand,
            seen_w=demand / phases,
            steps=steps,
            sums=sums,
            demand_kwh=sums.by_first(demand - phases * other_used),
            other_w=other_w,
            other_seen_w=other_seen,
            other_used_w=other_used,
            other_used_in_steps_w=in_steps,
            plant=None if other_w is None else sums.plant(phases * other_used, other_w, demand),
            phases=phases,
            beside_machines=beside,
        )

    def used(self, light_scale: float) -> tuple[Floats, HomeYear]:
        """Self-use of each hour and the year at the meter with so much of the light: the set's limit holds."""
        hourly, left = self._used_and_left_w(self.energy.ac_at(light_scale))
        return hourly, self.home(hourly, left)

    def years(self, free_w: Floats) -> tuple[Floats, list[HomeYear]]:
        """The same of several powers before an export limit, (n, 8760): self-use by the hour, and each year."""
        hourly, left = self._used_and_left_w(free_w)
        sums = zip(self.sums.by_first(hourly), self.sums.by_first(left), strict=True)
        return hourly, [self.sums.home_of_sums(used, given, self.demand_kwh, self.plant) for used, given in sums]

    def _used_and_left_w(self, free_w: Floats) -> tuple[Floats, Floats]:
        used, left = self.used_w(free_w), self.left_w(free_w)
        return (used if left is free_w else np.minimum(used, left)), left

    def habits(self, middle: HomeYear, share: float) -> HomeYear:
        """The year with more or less of the production used at home."""
        free = self.energy.before_export_limit
        if free is None:
            return shifted_use(middle, share)
        unlimited = self.home(self.used_w(free.ac_w), free.ac_w)
        return sent_out_as(shifted_use(unlimited, share), unlimited, middle)

    def night(self) -> HomeYear:
        """What the inverter draws from the mains, evenly over the hours in which the panels give nothing."""
        dark = np.sum(self.energy.dc_w, axis=0) <= 0.0
        hours = np.count_nonzero(dark)
        drawn_w = self.energy.night_draw_kwh * 1000.0 / hours if hours else 0.0
        drawn_kwh = self.sums.by_first(dark * drawn_w)
        return self.sums.home_of_sums(drawn_kwh, drawn_kwh, drawn_kwh)

    def home(self, self_used_w: Floats, produced_w: Floats) -> HomeYear:
        """The year at the meter of so much of the set's, beside the plant on the roof."""
        return self.sums.home(self_used_w, produced_w, self.demand_kwh, self.plant)

    def used_w(self, produced_w: Floats) -> Floats:
        """Expected power used at home of so much that the set gives, (..., 8760)."""
        if self.other_seen_w is None:
            return self.steps.used_w(produced_w)
        return self.steps.used_beside_w(produced_w, self.other_seen_w, self.other_used_in_steps_w)

    def in_hours(self, rows: Ints) -> "AtTheMeter":
        """The same in these hours alone, for ``used_w`` and ``left_w`` of powers in them."""
        other = self.other_w is not None
        return replace(
            self,
            demand_w=self.demand_w[rows],
            seen_w=self.seen_w[rows],
            steps=self.steps.in_hours(rows),
            other_w=None if self.other_w is None else self.other_w[rows],
            other_seen_w=None if self.other_seen_w is None else self.other_seen_w[rows],
            other_used_w=self.other_used_w[rows] if other else self.other_used_w,
            other_used_in_steps_w=self.steps.steps_in(self.other_used_in_steps_w, rows)
            if other
            else self.other_used_in_steps_w,
        )

    def left_w(self, produced_w: Floats) -> Floats:
        """What of it may leave the set, used or sent out, (..., 8760)."""
        if self.energy.before_export_limit is None or self.export_limit_w is None:
            return produced_w
        return within_limit_w(produced_w, self.demand_w, self.household, self.export_limit_w, self.other_w)

    def upper_bound_kwh(self) -> float:
        """The hourly minimum of production and the demand that is left."""
        return float(np.minimum(self.energy.ac_w, self.seen_w - self.other_used_w).sum()) / 1000.0

    def other_share(self, self_used_kwh: float) -> OtherShare | None:
        """What the plant on the roof takes, and what the set would have without it."""
        if self.other_w is None or self.other_seen_w is None:
            return None
        free = self.energy.before_export_limit or self.energy
        alone = np.minimum(self.steps.used_w(free.ac_w), self.energy.ac_w)
        alone_kwh = float(alone.sum()) / 1000.0
        phases = float(self.other_w.sum() / self.other_seen_w.sum()) if self.other_seen_w.any() else 1.0
        return OtherShare(
            year_kwh=float(self.other_w.sum()) / 1000.0,
            self_used_kwh=float(self.other_used_w.sum()) * phases / 1000.0,
            set_alone_self_used_kwh=alone_kwh,
            displaced_kwh=max(alone_kwh - self_used_kwh, 0.0),
        )


def _self_used(home: HomeYear) -> float:
    return float(home.self_used_kwh.sum())
