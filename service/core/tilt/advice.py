"""How should the set stand, what do the others cost, and is moving it through the year worth the trouble?"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.facts import Array, Setup
from service.core.model.hours import Floats, SkyYear
from service.core.model.place import Plane
from service.core.sky import stands_under_or_beside
from service.core.tilt.bounds import PlaneBounds
from service.core.tilt.home import Home, YearAtHome, home_of
from service.core.tilt.lattice import compass, spline, steps_within
from service.core.tilt.moving import Moves, Schedule, best_moves, schedules_of
from service.core.tilt.near import Line, NearBest, PlaneMap, map_of, near_best, scaled_to
from service.core.tilt.search import Surveyed, best_apart, best_of, best_together, surveyed
from service.core.tilt.stand import Stand, before_its_facade, stand_of
from service.core.tilt.sums import OBJECTIVES, Sums, Together
from service.core.tilt.thumb import rules_of_thumb
from service.core.tilt.thumb_here import RuleHere, Thumbs
from service.core.tilt.wish import (
    ANYWHERE,
    AT_RAILING_OR_WALL,
    MAY_LEAN,
    Freedom,
    TiltWish,
    facade_not_known,
    freedom_of,
    inside,
    movable,
    stands_before_a_facade,
)
from service.core.worth import AtTheMeter

_HINGE_AZIMUTH_STEP_DEG = 10.0
_MUCH_CUT_SHARE, _MUCH_HIDDEN_SHARE = 0.6, 0.5  # see ``lattice_within``
_UPRIGHT_DEG = 90.0
_COLUMN_STEP_DEG, _ROW_STEP_DEG = 6.0, 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """What an objective would choose, and what that brings."""

    objective: str
    plane: Plane
    brings: YearAtHome


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TiltAdvice:
    """The whole answer.

    Attributes:
        objective: what was wanted.
        moving: the arrays that are moved together, by number; ``best`` is the plane of the first of them.
        best, best_planes, best_brings: the best same plane within bounds, of each array, and what it brings.
        apart, apart_brings: the planes if each array may have its own.
        stands, stands_brings: the planes as the set stands.
        free_planes, free_brings: the best same plane if nothing bound them.
        others: what each objective would choose.
        near_best: empty where planes are listed, or where nothing may be moved.
        schedules, map, rules: as asked.
        railing_azimuth_deg: which way the railing or wall faces that the first moving array hangs on; None: on none.
        notes: codes of what bounds the planes: walls_stay, facade_not_known, upright_unless_told.
    """

    objective: str
    moving: tuple[int, ...]
    best: Plane
    best_planes: tuple[Plane, ...]
    best_brings: YearAtHome
    apart: tuple[Plane, ...]
    apart_brings: YearAtHome
    stands: tuple[Plane, ...]
    stands_brings: YearAtHome
    free_planes: tuple[Plane, ...]
    free_brings: YearAtHome
    others: tuple[Chosen, ...]
    near_best: tuple[NearBest, ...]
    schedules: tuple[Schedule, ...]
    map: PlaneMap | None
    rules: tuple[RuleHere, ...]
    railing_azimuth_deg: float | None
    notes: tuple[str, ...]


def tilt_advice(
    setup: Setup,
    sky: SkyYear,
    given: Sequence[Mapping[str, float]],
    wish: TiltWish,
    meter: AtTheMeter,
    ac_w_of: Callable[[Setup], Floats],
    as_of: date,
    stand: Stand | None = None,
) -> TiltAdvice:
    """All about the planes of a set.

    Args:
        setup: complete, its planes as they stand.
        sky: the place's hours.
        given: of each array what the request gave of its plane.
        wish: what is asked.
        meter: the home behind the meter.
        ac_w_of: the plain chain's a.c. power of a setup by the hour, (8760,), before an export limit.
        as_of: the day on which the first year of the account begins.
        stand: ``stand_of`` a setup of the same ``stand_key`` at this place, where it is at hand.

    Planes are looked for by the kernel; the energy of the best, of those apart, free and as they stand is the plain
    chain's, and the better one counts: bounds that leave more never give less.

    Raises:
        ContradictionError: money is wanted where no price is known, or bounds exclude each other.
    """
    if wish.objective == "money" and setup.tariff is None:
        raise ContradictionError(
            "/tilt/objective", "no price per kWh is known for this place", given="money",
            accepted="energy, self_used, or a tariff", example="energy",
        )  # fmt: skip
    freedom = freedom_of(setup.arrays, given, wish)
    notes = _notes(setup.arrays, given, freedom)
    setup = before_its_facade(setup)
    stand = stand_of(setup, sky) if stand is None else stand
    most_w = min(float(stand.output.limit_w), stand.panels_most_w) * stand.up_share
    home = home_of(meter, setup, sky.calendar, stand.record.daylight.rows, most_w, as_of)
    stands = tuple(array.plane for array in setup.arrays)
    still = tuple(inside(plane, bounds) for plane, bounds in zip(stands, freedom.bounds, strict=True))
    together = Together(stand=stand, home=home, moving=freedom.moving, still=still)
    asked = _Asked(setup=setup, wish=wish, freedom=freedom, together=together, home=home, ac_w_of=ac_w_of)
    return replace(asked.advice(stands), notes=notes)


def _notes(arrays: Sequence[Array], given: Sequence[Mapping[str, float]], freedom: Freedom) -> tuple[str, ...]:
    found = []
    pairs = list(zip(arrays, given, strict=True))
    if any(facade_not_known(array, said) for array, said in pairs):
        found.append("facade_not_known")
    elif any(
        (stands_before_a_facade(array) and bounds.azimuth_span_deg() > 0.0) or stands_under_or_beside(array)
        for array, bounds in zip(arrays, freedom.bounds, strict=True)
    ):
        found.append("walls_stay")
    if any(_could_lean(array, bounds) for array, bounds in zip(arrays, freedom.bounds, strict=True)):
        found.append("upright_unless_told")
    return tuple(found)


def _could_lean(array: Array, bounds: PlaneBounds) -> bool:
    """Does it stay upright, though a fixing may let it lean out?"""
    return array.mount in MAY_LEAN and bounds.low_tilt_deg == bounds.high_tilt_deg == _UPRIGHT_DEG


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Asked:
    """One question, ready to be answered."""

    setup: Setup
    wish: TiltWish
    freedom: Freedom
    together: Together
    home: Home
    ac_w_of: Callable[[Setup], Floats]

    def advice(self, stands: tuple[Plane, ...]) -> TiltAdvice:
        objective = self.wish.objective
        bounds = self.freedom.together
        years = bounds == ANYWHERE or self.wish.map_steps_deg is not None
        free_survey = surveyed(self.together, ANYWHERE, objective, years=years)
        survey = free_survey if bounds == ANYWHERE else surveyed(self.together, bounds, objective, years=True)
        listed = self._listed(survey)
        choices = {wanted: self._best(survey, listed, wanted) for wanted in self._objectives()}
        best = choices[objective]
        best_planes = self.together.planes_of(best)
        apart = best_planes
        if len(stands) > 1:
            apart = best_apart(self.together.stand, self.home, self.freedom.bounds, best_planes, objective, listed)
        free = best if survey is free_survey and not listed else best_together(free_survey, objective)
        brings = {
            planes: self._brings(planes) for planes in (stands, best_planes, apart, self.together.planes_of(free))
        }
        best, best_planes = self._better(brings, stands, (best, best_planes), listed)
        apart = max((best_planes, apart), key=lambda planes: _wanted(brings[planes], objective))
        if _wanted(brings[best_planes], objective) > _wanted(brings[self.together.planes_of(free)], objective):
            free = best
        candidates, sums = self._candidates(survey, best, listed)
        ranging = not listed and movable(survey.bounds)
        free_planes = self.together.planes_of(free)
        thumbs = Thumbs.of(rules_of_thumb(self.setup.site.latitude_deg), self.together, objective)
        moves = self._moves(candidates, sums, survey, listed, thumbs)
        of_energy = moves if objective == "energy" and survey is free_survey and not listed else None
        return TiltAdvice(
            objective=objective,
            moving=tuple(self.freedom.moving),
            best=best,
            best_planes=best_planes,
            best_brings=brings[best_planes],
            apart=apart,
            apart_brings=brings[apart],
            stands=stands,
            stands_brings=brings[stands],
            free_planes=free_planes,
            free_brings=brings[free_planes],
            others=self._others({**choices, objective: best}, brings[best_planes]),
            near_best=near_best(survey.bounds, *self._lines(best, candidates, sums)) if ranging else (),
            schedules=schedules_of(moves.told(self.together), objective, self.home.kwh_price),
            map=self._map(free, brings[free_planes], free_survey),
            railing_azimuth_deg=self._railing(stands),
            notes=(),
            rules=self._rules(thumbs, free, free_survey, brings[free_planes].year_kwh, of_energy),
        )

    def _map(self, free: Plane, brings: YearAtHome, survey: Surveyed) -> PlaneMap | None:
        """The best plane of all is told there as everywhere, by the plain chain and the whole account."""
        if self.wish.map_steps_deg is None:
            return None
        stand = self.together.stand
        much_cut = float(stand.output.limit_w) < _MUCH_CUT_SHARE * stand.panels_most_w
        detail = "fine" if much_cut or stand.sun_left_share < _MUCH_HIDDEN_SHARE else "usual"
        if any(kind.array.hand_rail is not None for kind in stand.kinds):
            detail = "behind_rail"
        if stand.facades_look_deg:
            detail = "before_facade"
        told = {one: _wanted(brings, one) for one in self._objectives()}
        wanted, steps_deg = self.wish.objective, self.wish.map_steps_deg
        return map_of(self.together, detail, steps_deg, (free, told), wanted=wanted, survey=survey)

    def _railing(self, stands: tuple[Plane, ...]) -> float | None:
        lead = next(iter(self.freedom.moving))
        array = self.setup.arrays[lead]
        if array.mount not in AT_RAILING_OR_WALL:
            return None
        return stands[lead].azimuth_deg if array.facade_azimuth_deg is None else array.facade_azimuth_deg

    def _objectives(self) -> tuple[str, ...]:
        return OBJECTIVES if self.setup.tariff is not None else OBJECTIVES[:2]

    def _listed(self, survey: Surveyed) -> tuple[Plane, ...]:
        """The only planes allowed, where they are named."""
        if self.wish.planes:
            return self.wish.planes
        bounds = survey.bounds
        turns = steps_within(0.0, bounds.azimuth_span_deg(), _HINGE_AZIMUTH_STEP_DEG).tolist()
        return tuple(
            Plane(tilt_deg=tilt, azimuth_deg=compass(bounds.low_azimuth_deg + turned))
            for tilt in self.wish.hinge_tilts_deg
            for turned in turns
        )

    def _best(self, survey: Surveyed, listed: tuple[Plane, ...], objective: str) -> Plane:
        if listed:
            return best_of(self.together, listed, objective)
        return best_together(survey, objective, roughly=objective != self.wish.objective)

    def _brings(self, planes: tuple[Plane, ...]) -> YearAtHome:
        """By the plain chain and the rules of the whole account."""
        arrays = tuple(replace(array, plane=plane) for array, plane in zip(self.setup.arrays, planes, strict=True))
        return self.home.year(self.ac_w_of(replace(self.setup, arrays=arrays)))

    def _better(
        self,
        brings: Mapping[tuple[Plane, ...], YearAtHome],
        stands: tuple[Plane, ...],
        best: tuple[Plane, tuple[Plane, ...]],
        listed: tuple[Plane, ...],
    ) -> tuple[Plane, tuple[Plane, ...]]:
        """The set as it stands, where that is allowed and better by what the tables leave out."""
        lead = stands[next(iter(self.freedom.moving))]
        allowed = lead in listed if listed else inside(lead, self.freedom.together) == lead
        objective = self.wish.objective
        if not allowed or self.together.planes_of(lead) != stands:
            return best
        return (lead, stands) if _wanted(brings[stands], objective) > _wanted(brings[best[1]], objective) else best

    def _others(self, choices: Mapping[str, Plane], best: YearAtHome) -> tuple[Chosen, ...]:
        """What each objective would choose; ``best`` is what the plane brings that is chosen by the one wanted.

        Of the other planes the tables tell, mended by what they are off at the best. Each objective takes the plane
        that has most of it among all of these.
        """
        stand, objective = self.together.stand, self.wish.objective
        lead = choices[objective]
        planes = list(dict.fromkeys(choices.values()))
        ac_w = stand.ac_w(self.together.dc_w(planes))
        years = {plane: self.home.year(stand.whole_year_w(ac)) for plane, ac in zip(planes, ac_w, strict=True)}
        brings = {plane: _mended(year, years[lead], best, objective) for plane, year in years.items()} | {lead: best}
        found = []
        for wanted, own in choices.items():
            among = [lead] if wanted == objective else [own, *planes]
            plane = max(among, key=lambda one, wanted=wanted: _wanted(brings[one], wanted))  # type: ignore[misc]
            found.append(Chosen(objective=wanted, plane=plane, brings=brings[plane]))
        return tuple(found)

    def _candidates(self, survey: Surveyed, best: Plane, listed: tuple[Plane, ...]) -> tuple[list[Plane], Sums]:
        """Planes that a schedule may be made of: the list, or the survey's and all tilts at the best azimuth."""
        if listed:
            more = [best, *listed]
            return more, self.together.sums(more, self.wish.objective)
        more = [best, *self._at_best_azimuth(best), *self._at_best_tilt(best)]
        return [*more, *survey.planes], self.together.sums(more, self.wish.objective).with_more(survey.sums)

    def _at_best_azimuth(self, best: Plane) -> list[Plane]:
        bounds = self.freedom.together
        tilts = steps_within(bounds.low_tilt_deg, bounds.high_tilt_deg, _COLUMN_STEP_DEG)
        return [Plane(tilt_deg=tilt, azimuth_deg=best.azimuth_deg) for tilt in tilts.tolist()]

    def _at_best_tilt(self, best: Plane) -> list[Plane]:
        low = self.freedom.together.low_azimuth_deg
        turns = steps_within(0.0, self.freedom.together.azimuth_span_deg(), _ROW_STEP_DEG)
        return [Plane(tilt_deg=best.tilt_deg, azimuth_deg=compass(low + turn)) for turn in turns.tolist()]

    def _lines(self, best: Plane, candidates: Sequence[Plane], sums: Sums) -> tuple[Plane, Line, Line]:
        """What is wanted at every degree of tilt at the best azimuth, and of azimuth at the best tilt."""
        wanted = sums.of(self.wish.objective).sum(axis=1)
        bounds = self.freedom.together
        tilts, turns = len(self._at_best_azimuth(best)), len(self._at_best_tilt(best))
        at_tilt = np.array([one.tilt_deg for one in candidates[1 : 1 + tilts]])
        fine = steps_within(bounds.low_tilt_deg, bounds.high_tilt_deg, 1.0)
        up = Line(fine, spline(at_tilt, fine) @ wanted[1 : 1 + tilts], float(wanted[0]))
        span = bounds.azimuth_span_deg()
        at_turn = steps_within(0.0, span, _ROW_STEP_DEG)
        fine = steps_within(0.0, span, 1.0)
        round_ = Line(fine, spline(at_turn, fine) @ wanted[1 + tilts : 1 + tilts + turns], float(wanted[0]))
        return best, up, round_

    def _moves(
        self, candidates: Sequence[Plane], sums: Sums, survey: Surveyed, listed: tuple[Plane, ...], thumbs: Thumbs
    ) -> Moves:
        """The best schedules within bounds; where a rule of thumb lies within them too, none behind it."""
        if listed:
            return best_moves(self.together, self.wish.objective, (candidates, sums), self.wish.changes_per_year, None)
        known = thumbs.allowed(lambda plane: inside(plane, survey.bounds) == plane, len(candidates))
        if known:
            candidates, sums = [*candidates, *thumbs.planes], sums.with_more(thumbs.sums)
        return best_moves(
            self.together, self.wish.objective, (candidates, sums), self.wish.changes_per_year, survey, known
        )

    def _rules(
        self, thumbs: Thumbs, free: Plane, free_survey: Surveyed, free_kwh: float, moves: Moves | None
    ) -> tuple[RuleHere, ...]:
        """Each rule's energy, the set moved together, against the most energy where nothing binds it."""
        lead = free if self.wish.objective == "energy" else best_together(free_survey, "energy", roughly=True)
        by_kernel = self.together.sums([lead, free], "energy")
        free_kwh *= float(by_kernel.energy[0].sum() / max(by_kernel.energy[1].sum(), 1e-9))
        seasons = [len(thumbs.rules[at].steps) for at in thumbs.of_season()]
        if seasons and not (moves and set(seasons) <= set(moves.pieces)):
            at_hand = [lead, free, *thumbs.planes, *free_survey.planes]
            sums = by_kernel.with_more(thumbs.sums).with_more(free_survey.sums)
            known = thumbs.allowed(lambda _: True, 2)
            moves = best_moves(self.together, "energy", (at_hand, sums), seasons, free_survey, known)
        return thumbs.here(free_kwh, float(by_kernel.energy[0].sum()), moves)


def _mended(year: YearAtHome, lead: YearAtHome, best: YearAtHome, objective: str) -> YearAtHome:
    """A year by the tables, scaled as these are at the best plane; of what is wanted no more than there."""
    figures = {one: _wanted(year, one) * scaled_to(_wanted(best, one), _wanted(lead, one)) for one in OBJECTIVES}
    figures[objective] = min(figures[objective], _wanted(best, objective))
    return YearAtHome(
        year_kwh=figures["energy"],
        self_used_kwh=figures["self_used"],
        saving=None if year.saving is None else figures["money"],
    )


def _wanted(brings: YearAtHome, objective: str) -> float:
    return {"energy": brings.year_kwh, "self_used": brings.self_used_kwh, "money": brings.saving or 0.0}[objective]
