"""Which sets can be built of these offers, and in which order are they worth a closer look?

Every set of one to four panels of one offer, or of two, with one inverter, and every set that is sold whole, at every
layout of ``layout``, is judged over the grouped year. Of two offers at least one is used up: where neither is, one of
the two alone does as well or nearly so. Of many offers those that come out best alone are joined by twos, and of very
many only those are judged at all that come out best by price and power (``glance``).
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from service.core.energy.kernel import OutputTable, output_table
from service.core.model.finding import Finding, Verdict
from service.core.model.hours import Bools, Floats, Ints
from service.core.shortlist.among import (
    best_alone,
    best_of,
    by_kind,
    first_alike,
    first_of,
    in_turn,
    joinable,
    last_place,
)
from service.core.shortlist.fit import AtHome, Strung
from service.core.shortlist.glance import Glance
from service.core.shortlist.grouped import Singles
from service.core.shortlist.judged import Drawn, Judged
from service.core.shortlist.layout import Layout, OnInput, layouts
from service.core.shortlist.offer import MOST_PANELS, Bought, InverterKind, Offer, OwnCosts, PanelKind, delivery_of
from service.core.shortlist.order import LIKELY_DOES_NOT_FIT, LIKELY_FITS, behind
from service.core.shortlist.wish import Terms

# So many offers of panels, and of inverters, are joined by twos.
JOINED_PANELS, JOINED_INVERTERS = 20, 6
# So many offers of panels, and kinds of inverters, are judged at a time; the next ones only where these gave too few.
LOOKED_PANELS, LOOKED_INVERTERS = 48, 8
ENOUGH_THAT_FIT, MOST_TURNS = 20, 3  # fewer that fit: so many turns; but one where no inverter's limits were told
# Nobody looks closer at more sets than the first of so many different adverts.
MOST_LOOKED = 60
_MOST_OVER_RATED = 1.3  # on a cold, bright hour


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Candidate:
    """A set that can be built: what is bought or taken, how it hangs, and roughly how much it is wanted.

    ``panels``: each with its pieces, in the order of the layout's kinds. A set that is sold whole is ``panels`` and
    ``inverter`` in one. ``fit``: as of ``order.fit_of``, by what can refuse it. ``adverts``: those that it is bought
    from, of panels first.
    """

    panels: tuple[Bought, ...]
    inverter: Offer
    layout: Layout
    outlay: float
    fit: int
    rough: float
    adverts: tuple[str, ...]

    @property
    def bought(self) -> tuple[Bought, ...]:
        """All that it is made of, each offer once."""
        return all_of(self.panels, self.inverter)

    @property
    def tricky(self) -> bool:
        """Does any of its adverts smell of a trick?"""
        return self.inverter.tricky or any(one.offer.tricky for one in self.panels)

    @property
    def said(self) -> tuple[float, float, int]:
        """What its adverts say of freight, way and fewest pieces; of sets that cost the same the lesser comes first."""
        offers = [one.offer for one in self.bought]
        freight = sum(one.freight or 0.0 for one in offers)
        return freight, sum(one.km or 0.0 for one in offers), sum(one.least for one in offers)

    @property
    def behind(self) -> int:
        """In which row of places it stands."""
        return behind(self.fit, tricky=self.tricky)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Screened:
    """The candidates, the best first, of equal adverts the best of their sets alone; ``sets`` were looked at."""

    candidates: tuple[Candidate, ...]
    sets: int


def all_of(panels: tuple[Bought, ...], inverter: Offer) -> tuple[Bought, ...]:
    """Panels and inverter, once where both are one."""
    return panels if any(one.offer is inverter for one in panels) else (*panels, Bought(inverter))


class Screen:
    """Many sets at one home."""

    def __init__(
        self, home: AtHome, rooms: Sequence[int], costs: OwnCosts, terms: Terms, offers: Iterable[Offer]
    ) -> None:
        """``rooms``: for how many panels each place has room, in the order of the request.

        ``without_curve`` will hold the keys of panels whose figures make no curve, ``passed_over`` the names of offers
        that were not judged.
        """
        self.home, self.costs, self.terms = home, costs, terms
        self.sunniest = home.year.sunniest_first()
        self.rooms = tuple(rooms[place] for place in self.sunniest)
        ordered = sorted(offers, key=lambda offer: offer.name)
        self.panels = [one for one in ordered if one.panel is not None and one.inverter is None]
        self.inverters = [one for one in ordered if one.inverter is not None and one.panel is None]
        self.whole = [one for one in ordered if one.inverter is not None and one.panel is not None]
        self.kinds: list[PanelKind] = []
        numbers: dict[str, int] = {}
        for one in (*self.panels, *self.whole):
            if one.panel is not None and numbers.setdefault(one.panel.key, len(self.kinds)) == len(self.kinds):
                self.kinds.append(one.panel)
        self.kind_of = np.array([numbers[one.panel.key] for one in self.panels if one.panel is not None], np.int64)
        self.kind_of_whole = [numbers[one.panel.key] for one in self.whole if one.panel is not None]
        self.second_hand = np.array([one.second_hand for one in self.panels], bool)
        fetched = {one.name: self._fetched(one) for one in self.panels}
        self.counts = range(1, min(MOST_PANELS, sum(rooms)) + 1)
        self.apart = {count: self._costs(count, fetched) for count in self.counts}
        self.rated_w = np.array([kind.panel.rated_power_w for kind in self.kinds])
        self.most_dc_w = _MOST_OVER_RATED * float(self.rated_w.max(initial=0.0)) * MOST_PANELS
        self.sets = 0
        self.without_curve: set[str] = set()
        self.passed_over: frozenset[str] = frozenset()
        self._strung: dict[tuple[int, int, int, str], Strung] = {}
        self._drawn: dict[tuple[str, int, int, int, str], Drawn] = {}
        self._out: dict[str, OutputTable] = {}

    def screened(self) -> Screened:
        """All sets of the offers."""
        alone = self._alone()
        found = [*alone, *self._whole(), *self._of_two(alone)]
        best: dict[tuple[str, ...], Candidate] = {}
        for one in sorted(found, key=_order):
            best.setdefault(one.adverts, one)
        best.pop((), None)  # all at hand: nothing to ring up for
        return Screened(candidates=tuple(best.values()), sets=self.sets)

    def refusal_of(self, offer: Offer) -> Finding | None:
        """The finding that refuses an offer, asked with the first that it could be joined with; None where none does.

        None too where there is nothing to join it with, or no layout.
        """
        panels = [offer] if offer.panel else self.panels
        for inverter in (one.inverter for one in ([offer] if offer.inverter else self.inverters)):
            for one in panels:
                count = one.panels_each if one.inverter else 1
                for layout in () if inverter is None else self._layouts((count,), inverter):
                    for at, on in enumerate(layout):
                        if one.panel and inverter and (why := self.home.strung(one.panel, on).refusal(inverter, at)):
                            return why
        return None

    def _layouts(self, counts: tuple[int, ...], inverter: InverterKind) -> Iterator[Layout]:
        for layout in layouts(counts, self.rooms, len(inverter.inverter.inputs)):
            yield tuple(OnInput(one.kind, self.sunniest[one.place], one.count, one.joined) for one in layout)

    def _alone(self) -> list[Candidate]:
        """Of one offer of panels; of very many offers, of the first at a glance, until enough are found that fit."""
        glance = Glance(self.home.year, self.sunniest[0], self.terms, self.panels, self.inverters)
        rows = glance.panels(self.apart, [self._own(one) for one in self.inverters], self.home.panel_cap)
        inverters = glance.inverters([self._own(one) for one in self.inverters])
        found: list[Candidate] = []
        left = {one.name for one in (*self.panels, *self.inverters)}
        for turn, these in enumerate(in_turn(list(by_kind(inverters)), LOOKED_INVERTERS), start=1):
            seen = 0
            for at in range(0, len(rows), LOOKED_PANELS):
                found += self._of_one(np.sort(rows[at : at + LOOKED_PANELS]), these)
                seen = at + LOOKED_PANELS
                fit = len(_names(found, LIKELY_FITS))
                hopeful = fit > 0 or any(kind.limits_told for kind, _ in these)
                enough = not hopeful or fit >= ENOUGH_THAT_FIT or seen >= MOST_TURNS * LOOKED_PANELS
                if enough and len(_names(found)) >= min(LOOKED_PANELS, len(rows)):
                    break
            left -= {self.panels[row].name for row in rows[:seen]}
            left -= {one.name for _, alike in these for one in alike}
            if _names(found, LIKELY_FITS) or (found and turn >= MOST_TURNS):
                break
        self.passed_over = frozenset(left)
        return found

    def _of_one(self, rows: Ints, inverters: Sequence[tuple[InverterKind, list[Offer]]]) -> list[Candidate]:
        """Of one of these offers of panels: the best of its numbers and layouts with each inverter."""
        found: list[Candidate] = []
        costs, kinds, used = self.apart, self.kind_of[rows], self.second_hand[rows]
        for inverter, alike in inverters:
            judged = [
                (count, layout, self._judged(inverter, layout, (kinds,)))
                for count in self.counts
                if np.isfinite(costs[count][rows]).any()
                for layout in self._layouts((count,), inverter)
            ]
            if not judged:
                continue
            for offer in alike:
                outlays = np.stack([self._with(offer, costs[count], count)[rows] for count, *_ in judged])
                rough = np.stack([self._rough(outlays[at], one, used) for at, (_, _, one) in enumerate(judged)])
                fit = np.stack([one.fit for _, _, one in judged])
                self.sets += int(np.isfinite(outlays[~np.isnan(rough)]).sum())
                for row, at in best_of(fit, np.where(np.isfinite(outlays), rough, np.nan)):
                    count, layout = judged[at][:2]
                    bought = (Bought(self.panels[rows[row]], count),)
                    figures = outlays[at, row], fit[at, row], rough[at, row]
                    found.append(_candidate(bought, offer, layout, *figures))
        return found

    def _of_two(self, alone: Sequence[Candidate]) -> Iterator[Candidate]:
        """Of two offers of panels, one of which is used up."""
        chosen = best_alone([(one.panels[0].offer, one.fit, one.rough) for one in alone], JOINED_PANELS)
        with_which = best_alone([(one.inverter, one.fit, one.rough) for one in alone], JOINED_INVERTERS)
        number = {id(one): at for at, one in enumerate(self.panels)}
        pairs = list(combinations(chosen, 2))
        costs, last = self.apart, last_place(((one.adverts, one.behind, one.rough) for one in alone), MOST_LOOKED)
        for counts in ((one, other) for one in self.counts for other in self.counts if one + other in self.counts):
            able = [pair for pair in pairs if joinable(pair, counts)]
            if not able:
                continue
            rows = np.array([[number[id(one)] for one in pair] for pair in able], np.int64).T
            paid = costs[counts[0]][rows[0]] + costs[counts[1]][rows[1]]
            used = self.second_hand[rows[0]] | self.second_hand[rows[1]]
            tricky = np.array([any(one.tricky for one in pair) for pair in able], np.int64)
            bought = [tuple(map(Bought, pair, counts)) for pair in able]
            for inverter, alike in by_kind(with_which):
                for layout in self._layouts(counts, inverter):
                    judged = self._judged(inverter, layout, (self.kind_of[rows[0]], self.kind_of[rows[1]]))
                    for offer in alike:
                        outlay = self._exactly(bought, offer, paid + self._own(offer))
                        rough = self._rough(outlay, judged, used)
                        self.sets += int(np.count_nonzero(~np.isnan(rough)))
                        places = 2 * judged.fit + np.maximum(tricky, int(offer.tricky))
                        for at in first_of(rough, places, MOST_LOOKED, last):
                            yield _candidate(bought[at], offer, layout, outlay[at], judged.fit[at], rough[at])

    def _whole(self) -> Iterator[Candidate]:
        """Sets that are sold whole."""
        for offer, kind in zip(self.whole, self.kind_of_whole, strict=True):
            if offer.inverter is None:
                continue
            bought = (Bought(offer),)
            outlay = np.array([self.outlay(bought, offer)])
            for layout in self._layouts((offer.panels_each,), offer.inverter):
                judged = self._judged(offer.inverter, layout, (np.array([kind]),))
                rough = self._rough(outlay, judged, np.array([offer.second_hand]))
                if not np.isnan(rough[0]):
                    self.sets += 1
                    yield _candidate(bought, offer, layout, outlay[0], judged.fit[0], rough[0])

    def _judged(self, inverter: InverterKind, layout: Layout, kinds: tuple[Ints, ...]) -> Judged:
        """Rows of panels in one layout."""
        first = first_alike(inverter)
        fits = np.ones(kinds[0].size, bool)
        fit = np.full(kinds[0].size, self.home.side_fit(inverter))
        watts = np.zeros(kinds[0].size)
        drawn = [self._on(inverter, first[at], on, kinds[on.kind]) for at, on in enumerate(layout)]
        for one, on in zip(drawn, layout, strict=True):
            fits &= one.fits[kinds[on.kind]]
            fit = np.maximum(fit, one.fit[kinds[on.kind]])
            watts += self.rated_w[kinds[on.kind]] * on.count
        if self.home.panel_cap is not None:
            fit = np.maximum(fit, self.home.panel_cap.fit(watts))
        rows = np.flatnonzero(fits)
        power: Singles = np.zeros((rows.size, self.home.year.hours.size), np.float32)
        for one, on in zip(drawn, layout, strict=True):
            power += one.power_w.take(kinds[on.kind][rows], axis=0)
        if inverter.key not in self._out:
            self._out[inverter.key] = output_table(inverter.inverter, self.most_dc_w)
        found, saved = self.home.year.sums(self._out[inverter.key].of(power, self.home.year.flicker_share))
        year = np.full(fits.size, np.nan)
        year[rows] = found
        if saved is None:
            return Judged(fit, year, None)
        saving = np.full(fits.size, np.nan)
        saving[rows] = saved
        return Judged(fit, year, saving)

    def _on(self, inverter: InverterKind, index: int, on: OnInput, kinds: Ints) -> Drawn:
        """What an input draws of panels of these kinds so hung, and which it does not refuse; each is asked once."""
        key = inverter.key, index, on.place, on.count, on.joined
        if key not in self._drawn:
            self._drawn[key] = Drawn(len(self.kinds), self.home.year.hours.size)
        drawn = self._drawn[key]
        able: dict[int, Strung] = {}
        for kind in np.unique(kinds[~drawn.asked[kinds]]).tolist():
            drawn.asked[kind] = True
            hung = kind, on.place, on.count, on.joined
            if hung not in self._strung:
                self._strung[hung] = self.home.strung(self.kinds[kind], on)
            strung = self._strung[hung]
            stands = strung.stands(inverter, index)
            if stands == Verdict.DOES_NOT_FIT:
                continue
            drawn.fit[kind] = LIKELY_FITS if stands == Verdict.FITS else LIKELY_DOES_NOT_FIT
            if strung.diode is None:
                self.without_curve.add(self.kinds[kind].key)
            else:
                able[kind] = strung
        if able:
            drawn.power_w[list(able)] = self.home.drawn_w(list(able.values()), on.place, inverter, index)
            drawn.fits[list(able)] = True
        return drawn

    def _rough(self, outlay: Floats, judged: Judged, second_hand: Bools) -> Floats:
        """As ``Terms.rough``; nan where an input refuses."""
        rough = self.terms.rough(outlay, judged.year_kwh, judged.saving, second_hand=second_hand)
        return np.where(np.isnan(judged.year_kwh), np.nan, rough)

    def _costs(self, count: int, fetched: Mapping[str, float]) -> Floats:
        """(panels,) what so many of each offer cost, delivered for itself; infinite where they are not to be had."""
        return np.array([
            self._goods(Bought(one, count)) + fetched[one.name] if count <= one.most else np.inf
            for one in self.panels
        ])  # fmt: skip

    def _fetched(self, one: Offer) -> float:
        """What an offer costs to get, for itself."""
        if one.advert is not None and one.freight is None:
            return 0.0 if one.km is None else 2.0 * one.km * self.costs.per_km
        return delivery_of([Bought(one)], self.costs.per_km).cost(self.costs.per_km)

    def _goods(self, one: Bought) -> float:
        """Panels that are expected to prove faulty are bought once more."""
        at_risk = one.offer.panel is not None and one.offer.second_hand
        return one.goods * (1.0 + self.costs.faulty_share * at_risk)

    def _own(self, inverter: Offer) -> float:
        return self._goods(Bought(inverter)) + self._fetched(inverter) + self.costs.every_set

    def _with(self, inverter: Offer, costs: Floats, count: int) -> Floats:
        """(panels,) the outlay with an inverter: who is fetched on the inverter's trip comes cheaper."""
        outlay = costs + self._own(inverter)
        if inverter.trip is not None:
            for row, one in enumerate(self.panels):
                if one.trip == inverter.trip and np.isfinite(outlay[row]):
                    outlay[row] = self.outlay((Bought(one, count),), inverter)
        return outlay

    def _exactly(self, bought: Sequence[tuple[Bought, ...]], inverter: Offer, apart: Floats) -> Floats:
        """The outlays, where ``apart`` is what each would be if all were fetched apart."""
        outlay = apart.copy()
        if all(one.trip is None for one in self.panels):
            return outlay
        for row, panels in enumerate(bought):
            trips = [one.offer.trip for one in all_of(panels, inverter) if one.offer.trip is not None]
            if len(trips) != len(set(trips)):
                outlay[row] = self.outlay(panels, inverter)
        return outlay

    def outlay(self, panels: tuple[Bought, ...], inverter: Offer) -> float:
        """What is paid for a set, delivered."""
        bought = all_of(panels, inverter)
        delivery = delivery_of(bought, self.costs.per_km).cost(self.costs.per_km)
        return sum(self._goods(one) for one in bought) + delivery + self.costs.every_set


def _candidate(
    panels: tuple[Bought, ...], inverter: Offer, layout: Layout, outlay: float, fit: int, rough: float
) -> Candidate:
    names = [one.offer.advert for one in panels]
    if panels[0].offer is not inverter:
        names.append(inverter.advert)
    return Candidate(
        panels=panels, inverter=inverter, layout=layout, outlay=float(outlay), fit=int(fit), rough=float(rough),
        adverts=tuple([name for name in names if name is not None]),
    )  # fmt: skip


def _names(found: Iterable[Candidate], fit: int | None = None) -> set[str]:
    """The offers of panels in these sets, or in those of one fit."""
    return {one.panels[0].offer.name for one in found if fit is None or one.fit == fit}


def _order(candidate: Candidate) -> tuple[object, ...]:
    """By its row of places, then the best; of equal ones the cheaper, the fewer adverts, what is said, the names."""
    pieces = [one.pieces for one in candidate.panels]
    adverts = len(candidate.adverts), candidate.said, candidate.adverts
    return (candidate.behind, candidate.rough, candidate.outlay, *adverts, pieces, candidate.layout)
