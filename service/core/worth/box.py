"""What does the battery do where it stands, before the inverter or on a socket of its own?

Not modelled: the tracking window of a box before the inverter (its current limit is; what its inputs bear is asked of
compatibility, see ``box_inputs``), a battery that charges from the
mains or at cheap hours, or from another plant on the roof; a reader's delay; that the inverter works at another load
while the box takes of its power (its efficiency of the hour holds); frost, tapering, repairs.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from service.core.energy.result import EnergyYear
from service.core.household import (
    Beside,
    Plan,
    StoredYear,
    WithBox,
    carried_out,
    feeding,
    following,
    in_spells,
    spell_swing,
    stored_year,
    used_otherwise,
)
from service.core.inverter import curve_through, output_of
from service.core.model.facts import Setup
from service.core.model.hours import Floats
from service.core.model.storage import Storage
from service.core.payback import HomeYear
from service.core.worth.use import AtTheMeter

# Of an inverter that idles: below this it would switch off.
_LEAST_EFFICIENCY = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class StoreYear:
    """What passes the battery in its first year, in kWh at its terminals.

    ``charged_kwh`` = ``given_kwh`` + ``lost_kwh`` + ``standby_kwh``, as the year ends at the level at which it began.
    ``unclipped_kwh`` (a.c.) is what of it the inverter's limit would have cut. ``standby_mains_kwh`` is bought on top.
    ``over_charge_limit_kwh`` (a.c.): surplus above the charge limit, which passes by whether there is room or not.
    """

    charged_kwh: float
    unclipped_kwh: float
    given_kwh: float
    lost_kwh: float
    standby_kwh: float
    standby_mains_kwh: float
    full_cycles: float
    over_charge_limit_kwh: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BoxYear:
    """One year with the box: at the meter, the box's standby from the mains as a home of its own, and its hours."""

    home: HomeYear
    standby: HomeYear
    over_limit_w: Floats
    with_box: WithBox
    stored: StoredYear

    def year(self, storage: Storage) -> StoreYear:
        """The sums."""
        charged, given, standby, mains = (
            _kwh(one) for one in (self.stored.charged_w, self.stored.given_w, self.stored.standby_w,
                                  self.stored.standby_mains_w)
        )  # fmt: skip
        out_of_store = given / np.sqrt(storage.round_trip_share) + standby
        return StoreYear(
            charged_kwh=charged,
            unclipped_kwh=float(self.with_box.unclipped_w.sum()) / 1000.0,
            given_kwh=given,
            lost_kwh=charged - given - standby,
            standby_kwh=standby,
            standby_mains_kwh=mains,
            full_cycles=float(out_of_store) / storage.usable_kwh if storage.usable_kwh > 0.0 else 0.0,
            over_charge_limit_kwh=_kwh(self.over_limit_w),
        )


Done = tuple[WithBox, StoredYear]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Box:
    """The battery where it stands. Efficiencies between its terminals and the a.c. side of the set, (8760,).

    ``at``: what the set gives and what its limit cuts off, with so much of the light. ``limit_w``: what the set and a
    box before its inverter give together at most. ``alone``: of the whole light, what is used and sent out without the
    box, where it was reckoned before.
    """

    meter: AtTheMeter
    storage: Storage
    at: Callable[[float], tuple[Floats, Floats]]
    produced_w: Floats
    limit_w: float
    into_share: Floats
    out_share: Floats
    discharge_limit_w: Floats
    swing: float
    alone: tuple[Floats, Floats] | None = None

    @classmethod
    def of(cls, meter: AtTheMeter, setup: Setup, storage: Storage, box_dc_w: Floats | None) -> "Box":
        """Of a set; ``box_dc_w``: what the panels give through the inputs of the box, None: those of the inverter."""
        free = meter.energy.before_export_limit or meter.energy
        all_of_it = np.ones_like(free.ac_w)
        swing = spell_swing(setup.household)
        if storage.coupling == "ac":
            return cls(
                meter=meter, storage=storage, at=_without_beyond(free), produced_w=free.ac_w, limit_w=np.inf,
                into_share=all_of_it, out_share=all_of_it,
                discharge_limit_w=all_of_it * storage.discharge_limit_w, swing=swing,
            )  # fmt: skip
        inverter = setup.inverter
        curve = curve_through(inverter.weighted_efficiency_share, inverter.efficiency_weighting)
        limit_w = min(inverter.set_limit_w, inverter.ac_power_w)
        dc_w = np.maximum(np.sum(free.dc_w, axis=0) if box_dc_w is None else box_dc_w, 0.0)
        out = output_of(dc_w, inverter.ac_power_w, limit_w, curve)
        up = 1.0 - min(setup.downtime_days_per_year / 365.0, 1.0)
        produced = free.ac_w if box_dc_w is None else out.ac_w * up

        def at(light_scale: float) -> tuple[Floats, Floats]:
            scaled = output_of(dc_w * light_scale, inverter.ac_power_w, limit_w, curve)
            return scaled.ac_w * up, scaled.clipped_w * up

        most = storage.discharge_limit_w * inverter.weighted_efficiency_share
        given = np.minimum(most, np.maximum(limit_w - produced, 0.0))
        if storage.night_feed_w is not None:
            given = np.minimum(given, storage.night_feed_w)
        load = meter.used_w(produced + given) / (inverter.ac_power_w * inverter.weighted_efficiency_share)
        out_share = np.maximum(curve.efficiency_share(load), _LEAST_EFFICIENCY)
        return cls(
            meter=meter,
            storage=storage,
            at=free.ac_and_clipped_at if box_dc_w is None and free.other_light is not None else at,
            produced_w=produced,
            limit_w=limit_w,
            into_share=np.divide(out.ac_w + out.clipped_w, dc_w, out=all_of_it, where=out.ac_w > 0.0),
            out_share=out_share,
            discharge_limit_w=storage.discharge_limit_w * out_share,
            swing=swing,
        )

    @property
    def feels_spells(self) -> bool:
        """Does it matter that the home's evenings differ? Only to a box that follows the demand, of an averaged one."""
        return self.swing > 0.0 and self.storage.night_feed_w is None

    def inputs_lost_kwh(self) -> float:
        """What the panels give less through the inputs of the box, as a.c."""
        free = self.meter.energy.before_export_limit or self.meter.energy
        return float((free.ac_w - self.produced_w).sum()) / 1000.0

    def plan(self, light_scale: float) -> Plan:
        """What the box does with so much of the light: the set's limit holds."""
        beside, storage = self._beside(light_scale), self.storage
        if storage.night_feed_w is None:
            return following(beside)
        above = storage.night_feed_w if storage.charge_above_w is None else storage.charge_above_w
        return feeding(beside, feed_w=storage.night_feed_w, charge_above_w=above)

    def plans_of_use(self, plan: Plan, used_shares: Sequence[float]) -> list[Plan]:
        """What it does with all of the light where the home uses so much of what the ``plan`` uses in the moment."""
        beside, follows = self._beside(1.0), self.storage.night_feed_w is None
        need_w = self.meter.seen_w - self.meter.other_used_w
        return [used_otherwise(plan, beside, need_w, share, follows=follows) for share in used_shares]

    def _beside(self, light_scale: float) -> Beside:
        produced, beyond = self.at(light_scale)
        return Beside(
            produced_w=produced,
            beyond_w=beyond,
            charge_limit_w=self.storage.charge_limit_w * self.into_share,
            discharge_limit_w=np.minimum(self.discharge_limit_w, np.maximum(self.limit_w - produced, 0.0)),
            used=lambda power_w: np.minimum(self.meter.used_w(power_w), self.meter.left_w(power_w)),
            left=self.meter.left_w,
            alone=self.alone if light_scale == 1.0 else None,
        )

    def years(self, plans: Sequence[tuple[Plan, float]], *, spells: bool = False) -> list[BoxYear]:
        """A year of each plan with the share of the battery's capacity that is left; in the home's spells, or even."""
        swing = self.swing if spells and self.feels_spells else 0.0
        return [self.at_the_meter(plan, self._done(plan, share, swing)) for plan, share in plans]

    def first_year(self, plan: Plan) -> Done:
        """A first year of even demand, not yet summed at the meter."""
        return self._done(plan, 1.0, 0.0)

    def at_the_meter(self, plan: Plan, ran: Done) -> BoxYear:
        """A year that the plan ran."""
        done, stored = ran
        sums, demand_kwh = self.meter.sums, self.meter.demand_kwh
        mains_w = stored.standby_mains_w[0]
        return BoxYear(
            home=self.meter.home(done.used_w, done.used_w + done.sent_w),
            standby=sums.home(mains_w, mains_w, demand_kwh),
            over_limit_w=plan.over_limit_w,
            with_box=done,
            stored=stored,
        )

    def years_of_use(self, plan: Plan, ran: Done, others: Sequence[Plan]) -> list[BoxYear]:
        """First years of even demand of ``plans_of_use``; ``ran`` is that of the plan.

        A box that reads nothing takes and feeds alike however the home draws, so its store need not be run again.
        """
        if self.storage.night_feed_w is None:
            return self.years([(one, 1.0) for one in others])
        offered, wanted = self._at_terminals(plan)
        return [self.at_the_meter(one, (_as_far(one, ran[1], offered, wanted), ran[1])) for one in others]

    def _at_terminals(self, plan: Plan) -> tuple[Floats, Floats]:
        return plan.chargeable_w / self.into_share, plan.wanted_w / self.out_share

    def _done(self, plan: Plan, usable_share: float, swing: float) -> Done:
        storage = self.storage
        charge, wanted = in_spells(*self._at_terminals(plan), swing)
        usable = np.full(charge.shape[0], storage.usable_kwh * usable_share)
        stored = _mean(stored_year(charge, wanted, usable, storage.round_trip_share, storage.standby_w))
        return _as_far(plan, stored, charge.mean(axis=0), wanted.mean(axis=0)), stored


def _as_far(plan: Plan, stored: StoredYear, offered_w: Floats, wanted_w: Floats) -> WithBox:
    """The plan as far as the store lets it, which was offered and from which was wanted so much at its terminals."""
    return carried_out(plan, _shares(stored.charged_w[0], offered_w), _shares(stored.given_w[0], wanted_w))


def _without_beyond(free: EnergyYear) -> Callable[[float], tuple[Floats, Floats]]:
    """What is beyond the inverter's limit does not reach a battery on a socket."""
    return lambda light_scale: (free.ac_at(light_scale), np.zeros_like(free.ac_w))


def _mean(every: StoredYear) -> StoredYear:
    """The mean over the cases, as one."""
    if every.charged_w.shape[0] == 1:
        return every
    return StoredYear(
        charged_w=every.charged_w.mean(axis=0, keepdims=True),
        given_w=every.given_w.mean(axis=0, keepdims=True),
        standby_w=every.standby_w.mean(axis=0, keepdims=True),
        standby_mains_w=every.standby_mains_w.mean(axis=0, keepdims=True),
        level_kwh=every.level_kwh.mean(axis=0, keepdims=True),
    )


def _shares(part: Floats, whole: Floats) -> Floats:
    return np.asarray(np.minimum(np.divide(part, whole, out=np.zeros_like(part), where=whole > 0.0), 1.0))


def _kwh(power_w: Floats) -> float:
    return float(power_w.sum()) / 1000.0
