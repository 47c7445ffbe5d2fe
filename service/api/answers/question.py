"""What does every question about a set need first? The request read and completed, and the rooms ready to be asked."""

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property
from typing import Any, TypeVar

import numpy as np

from service.api.answers.facing import facing_at
from service.api.answers.place import place_of
from service.api.answers.weather import weather_of
from service.api.deps import Deps, Directs, Years
from service.api.schemas.advice import cautions_out
from service.api.schemas.assumption import assumptions_out
from service.api.schemas.reading import read_body
from service.api.schemas.requests import AppraisalIn, EnergyIn
from service.core.appraisal import ChosenCautions, chosen_cautions
from service.core.compatibility import Curves, check
from service.core.completion import Completed, Known, as_request, complete, moves, unmoved, with_facade_told
from service.core.energy import (
    ArrayConditions,
    ArrayHours,
    Doubts,
    EnergyYear,
    Lights,
    alternating_current_w,
    array_conditions,
    direct_current,
    direct_key,
    energy_year,
    spread_key,
    year_key,
    year_spread,
)
from service.core.fixing import FixingForces, fixing_forces, fixing_key
from service.core.household import demand_w
from service.core.model.assumption import Assumptions
from service.core.model.band import Z_95
from service.core.model.facts import Setup
from service.core.model.finding import Finding
from service.core.model.hours import Floats, SkyYear
from service.core.model.memo import Memo
from service.core.model.place_facts import PlaceFacts
from service.core.model.weather import GivenSky
from service.core.rules import RuleCard, card_for
from service.core.tilt import Facing
from service.core.worth import (
    BOX_FINDINGS,
    AtTheMeter,
    ChosenFeed,
    Habit,
    StorageBeside,
    UseAtHome,
    Worth,
    chosen_feed,
    habits,
    limited_export,
    on_box_inputs,
    other_generation_w,
    storage_beside,
    use_at_home,
    with_band_of_use,
    worth,
)
from service.data.local_rules import cards_of

R = TypeVar("R", bound=AppraisalIn)

_NIGHT_FEED, _CHARGE_ABOVE = "/storage/night_feed_w", "/storage/charge_above_w"


# Nobody else asks about weather that a caller gave: its sets are kept with the question, the one asked about and what
# demanded remedies make of it.
_KEPT_OF_OWN_WEATHER = 3


@dataclass(frozen=True)
class Question:
    """A completed request with the tables that its answer draws on."""

    given: Mapping[str, Any]
    include: frozenset[str]
    place: PlaceFacts
    sky: SkyYear
    completed: Completed
    as_of: date
    deps: Deps
    directs: Directs
    years: Years
    curves: Curves
    weather: GivenSky | None = None
    facing: Facing | None = None
    lights: Lights = field(default_factory=Lights)
    spreads: dict[Hashable, Doubts] = field(default_factory=dict)  # as remedies change the a.c. side

    @classmethod
    def asked(cls, model: type[R], body: bytes, deps: Deps) -> "Question":
        """Read the body and complete it.

        Raises:
            RefusedRequest, ContradictionError, NoClimateError: there is no answer.
        """
        return cls.of(read_body(model, body), deps)

    @classmethod
    def of(cls, request: AppraisalIn, deps: Deps) -> "Question":
        """Complete a request that was read; raises as ``asked`` does."""
        as_of = day_of(request.as_of, deps)
        place, sky = place_of(request.site, deps)
        given = request.given()
        place, weather = weather_of(given, place, sky, deps.weather_files, parts=isinstance(request, EnergyIn))
        facing = facing_at(request.site, place, sky)
        typical, sky = sky, sky if weather is None else weather.sky
        whole = weather is None or weather.whole_year
        climate_sky = sky if whole else typical
        known = Known(deps.sets, deps.terms) if weather is None else None
        completed = complete(given, place, climate_sky, deps.default_tables, as_of, weather, facing, known)
        directs = deps.directs if weather is None else Memo(_KEPT_OF_OWN_WEATHER)
        years = deps.years if weather is None else Memo(_KEPT_OF_OWN_WEATHER)
        return cls(
            given, frozenset(request.include or ()), place, sky, completed, as_of, deps, directs, years, deps.curves,
            weather, facing,
        )  # fmt: skip

    @property
    def setup(self) -> Setup:
        """The completed request."""
        return self.completed.setup

    @property
    def assumptions(self) -> Assumptions:
        """What in it was assumed."""
        return self.completed.assumptions

    @cached_property
    def card(self) -> RuleCard:
        """The rule card that speaks for the place on that day."""
        return card_for(cards_of(self.setup.site.rule_area, self.deps.rule_cards), self.as_of)

    def _direct_of(self, setup: Setup) -> tuple[ArrayHours, ...]:
        """The d.c. side of this or of a changed setup: what remedies on the a.c. side share."""
        return self.directs.get((self.sky, direct_key(setup)), lambda: direct_current(setup, self.sky, self.lights))

    @property
    def direct(self) -> tuple[ArrayHours, ...]:
        """The d.c. side of the set."""
        return self._direct_of(self.setup)

    def instead(self, setup: Setup, assumptions: Assumptions) -> "Question":
        """The same question about a changed set; what both have in common is not computed again."""
        changed = replace(self, completed=replace(self.completed, setup=setup, assumptions=assumptions))
        shared = ["card"]
        if setup.household == self.setup.household:
            shared.append("other_w")
        if direct_key(setup) == direct_key(self.setup):
            shared.append("_conditions")
        for name in shared:
            if name in vars(self):
                vars(changed)[name] = vars(self)[name]
        return changed

    def account(self) -> Worth | None:
        """What the set is worth; None where no price per kWh is known."""
        return worth(self.energy, self.use, self.setup, self.as_of, price_unknown_sd_share(self.assumptions))

    @cached_property
    def fixing(self) -> FixingForces:
        """What a storm does to the panels."""
        key = fixing_key(self.setup, self.assumptions)
        return self.deps.fixings.get(key, lambda: fixing_forces(self.setup, self.assumptions))

    @cached_property
    def _conditions(self) -> tuple[ArrayConditions, ...] | tuple[ArrayHours, ...]:
        """Each array's cells in the year; the electrical chain runs only where the year is asked for too."""
        kept = self.directs.kept((self.sky, direct_key(self.setup)))
        return array_conditions(self.setup, self.sky, self.lights) if kept is None else kept

    @property
    def hottest_cell_c(self) -> tuple[float, ...]:
        """The hottest hour of each array's cells."""
        return tuple(one.hottest_cell_c for one in self._conditions)

    @property
    def cool_cell_c(self) -> tuple[float, ...]:
        """How cool each array's cells are in light."""
        return tuple(one.cool_cell_c for one in self._conditions)

    @cached_property
    def energy(self) -> EnergyYear:
        """The year, export limit in."""
        return self.year_of(self.setup)

    def year_of(self, setup: Setup) -> EnergyYear:
        """The year of this or of a changed setup at the same place."""
        energy = self.years.get(
            (self.sky, year_key(setup, self.assumptions)),
            lambda: self._year_made(setup),
        )
        if setup.inverter.export_limit_w is None:
            return energy
        limited = limited_export(energy, setup, self.demand_of(setup), self.sky, self.other_w)
        use = self._use_of(limited, setup)
        return with_band_of_use(limited, use)

    def _year_made(self, setup: Setup) -> EnergyYear:
        climate, direct, key = self.place.climate, self._direct_of(setup), spread_key(setup, self.assumptions)
        if key not in self.spreads:
            self.spreads[key] = year_spread(setup, direct, self.sky, climate, self.assumptions, self.lights)
        return energy_year(setup, self.sky, climate, self.assumptions, direct, self.spreads[key])

    def ac_w_of(self, setup: Setup) -> Floats:
        """The a.c. power of this or of a changed setup by the hour, before an export limit."""
        return alternating_current_w(setup, self._direct_of(setup), self.sky)

    @cached_property
    def meter(self) -> AtTheMeter:
        """The set and the home as the meter sees them."""
        return AtTheMeter.of(self.energy, self.setup, self.sky.calendar, self.deps.demand_shape, self.other_w)

    @cached_property
    def other_w(self) -> Floats | None:
        """The hours of a plant on the roof, None where there is none."""
        return other_generation_w(self.setup, self.sky)

    @cached_property
    def use(self) -> UseAtHome:
        """What of the year is used at home."""
        return self._use_of(self.energy, self.setup)

    def _use_of(self, energy: EnergyYear, setup: Setup) -> UseAtHome:
        needs = self.assumptions.by_pointer.get("/household/demand_kwh_per_year")
        ends = None if needs is None or needs.low is None or needs.high is None else (needs.low, needs.high)
        return use_at_home(energy, setup, self.sky.calendar, self.deps.demand_shape, self.other_w, ends)

    def habits(self) -> tuple[Habit, ...]:
        """The best hour of each machine."""
        calendar, shape = self.sky.calendar, self.deps.demand_shape
        return habits(self.energy, self.setup, calendar, shape, self.as_of, self.other_w, self.use)

    def storage(self, account: Worth | None) -> StorageBeside | None:
        """The set with its battery beside the set without; None where nobody asked about one."""
        return storage_beside(
            self.energy,
            self.setup,
            self.use,
            account,
            self.as_of,
            box_dc_w=self._through_the_box,
            chosen=self.feed,
            price_unknown_sd_share=price_unknown_sd_share(self.assumptions),
        )

    @cached_property
    def feed(self) -> ChosenFeed | None:
        """The fixed powers of a box that reads no meter, where one of them was left open."""
        assumed = self.assumptions.by_pointer
        feed_open, threshold_open = _NIGHT_FEED in assumed, _CHARGE_ABOVE in assumed
        if self.setup.storage is None or not (feed_open or threshold_open):
            return None
        return chosen_feed(
            self.use, self.setup, feed_open=feed_open, threshold_open=threshold_open, box_dc_w=self._through_the_box
        )

    @cached_property
    def answered(self) -> Completed:
        """The completed request as it is answered.

        With the facade that slab and walls were held square to, and the fixed powers of a box chosen for the home.
        """
        completed = with_facade_told(self.completed)
        if self.feed is None:
            return completed
        storage, by_pointer = self.feed.storage, dict(completed.assumptions.by_pointer)
        for pointer, watts in ((_NIGHT_FEED, storage.night_feed_w), (_CHARGE_ABOVE, storage.charge_above_w)):
            if pointer in by_pointer:
                by_pointer[pointer] = replace(by_pointer[pointer], value=watts)
        return Completed(setup=replace(completed.setup, storage=storage), assumptions=Assumptions(by_pointer))

    @cached_property
    def _through_the_box(self) -> Floats | None:
        """What the panels give where they hang on inputs of the box with a current limit of its own; else None."""
        on_box, storage = on_box_inputs(self.setup, self.assumptions), self.setup.storage
        if on_box is None or storage is None or storage.max_input_current_a is None:
            return None
        hours = direct_current(on_box[0], self.sky, self.lights)
        return np.asarray(np.sum([one.dc_w for one in hours], axis=0), dtype=np.float64)

    def box_findings(self) -> tuple[Finding, ...]:
        """Whether the inputs of a box before the inverter bear the panels; none where there is no such box."""
        on_box = on_box_inputs(self.setup, self.assumptions)
        if on_box is None:
            return ()
        found = check(*on_box, self.hottest_cell_c, self.card, self.as_of)
        return tuple(one for one in found.findings if one.code in BOX_FINDINGS)

    def year_kwh(self, setup: Setup) -> float:
        """The middle energy of a year of a setup; this one's own year is computed once."""
        energy = self.energy if setup is self.setup else self.year_of(setup)
        return energy.year_kwh.middle or 0.0

    def demand_of(self, setup: Setup) -> Floats:
        """The home's hours."""
        southern = setup.site.latitude_deg < 0
        return demand_w(setup.household, self.sky.calendar, self.deps.demand_shape, southern=southern)

    def chosen_cautions(self, findings: tuple[Finding, ...] = ()) -> ChosenCautions:
        """The cautions that belong to the request as it was sent."""
        return chosen_cautions(self.deps.cautions, self.given, findings)

    def beside(self, chosen: ChosenCautions) -> dict[str, Any]:
        """What every answer about a set says beside its object."""
        asked, told = "moves" in self.include, self.answered
        shares = moves(told.setup, told.assumptions, self.year_kwh) if asked else None
        reasons = unmoved(told.setup, told.assumptions) if asked else None
        return {
            "cautions": cautions_out(chosen),
            "cautions_kept_back": dict(chosen.kept_back),
            "assumptions": assumptions_out(told.assumptions, shares, reasons),
            **dated(self.as_of, self.deps),
            "used": self.used() if "used" in self.include else None,
        }

    def used(self) -> dict[str, Any]:
        """The completed request, to be edited and sent again; every pointer of the answer resolves in it."""
        open_parts = {"socket_circuit": None, "tariff": None, "outlay": None, "storage": None}
        request: dict[str, Any] = {**open_parts, **as_request(self.answered.setup), "as_of": self.as_of.isoformat()}
        request |= {part: self.given[part] for part in ("weather", "tilt") if part in self.given}
        open_at = [a.pointer for a in self.assumptions.by_pointer.values() if a.value is None]
        for pointer in (*open_at, *self.fixing.not_looked_at):
            _say_null(request, pointer)
        return request


def price_unknown_sd_share(assumptions: Assumptions) -> float:
    """How far an import price that nobody said may be off, as a relative standard deviation; 0 where it was said."""
    found = assumptions.by_pointer.get("/tariff/periods/0/import_price_per_kwh")
    if found is None or found.low is None or found.high is None or not isinstance(found.value, int | float):
        return 0.0
    return (found.high - found.low) / (2 * Z_95) / found.value if found.value > 0 else 0.0


def day_of(as_of: str | None, deps: Deps) -> date:
    """The day of the question; today where nobody says one."""
    return deps.today() if as_of is None else date.fromisoformat(as_of)


def dated(as_of: date, deps: Deps) -> dict[str, str]:
    """The day of the answer, and the edition of code and tables."""
    return {"as_of": as_of.isoformat(), **editions(deps)}


def editions(deps: Deps) -> dict[str, str]:
    """The edition of code and tables."""
    return {"service_version": deps.service_version, "data_version": deps.data_version}


def _say_null(request: dict[str, Any], pointer: str) -> None:
    """Put null where an assumption says that there is nothing."""
    *way, last = pointer.split("/")[1:]
    node: Any = request
    for part in way:
        node = node[int(part)] if isinstance(node, list) else node.get(part)
        if node is None:
            return
    if isinstance(node, dict):
        node.setdefault(last, None)
