"""Which sets can be built of these offers, and in which order are they worth a closer look?

Every set of one to four panels of one offer, or of two, with one inverter, and every set that is sold whole, at every
layout of ``layout``, is judged over the grouped year. Of two offers at least one is used up: where neither is, one of
the two alone does as well or nearly so. Of many offers those that come out best alone are joined by twos, and of very
many only those are judged at all that come out best by price and power (``glance``).
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import combinations

import numpy as np

from service.core.model.finding import Finding
from service.core.model.hours import Bools, Floats, Ints
from service.core.shortlist.among import best_alone, best_of, by_kind, first_of, in_turn, joinable, last_place
from service.core.shortlist.candidate import Candidate, Screened, candidate_of, in_order, names_of
from service.core.shortlist.fit import AtHome
from service.core.shortlist.glance import Glance
from service.core.shortlist.hanging import Hanging
from service.core.shortlist.judged import Judge, Judged
from service.core.shortlist.layout import Layout
from service.core.shortlist.offer import MOST_PANELS, Bought, InverterKind, Offer, OwnCosts, PanelKind
from service.core.shortlist.order import LIKELY_FITS
from service.core.shortlist.paid import Paid
from service.core.shortlist.wish import Terms

# So many offers of panels, and of inverters, are joined by twos.
JOINED_PANELS, JOINED_INVERTERS = 20, 6
# So many offers of panels, and kinds of inverters, are judged at a time; the next ones only where these gave too few.
LOOKED_PANELS, LOOKED_INVERTERS = 48, 16
# So many that fit of one inverter; where fewer do, so many turns, but one where no inverter's limits were told.
ENOUGH_THAT_FIT, MOST_TURNS, MOST_TURNS_OF_INVERTERS = 12, 5, 2
# Nobody looks closer at more sets than the first of so many different adverts.
MOST_LOOKED = 60


class Screen:
    """Many sets at one home."""

    def __init__(
        self, home: AtHome, rooms: Sequence[int], costs: OwnCosts, terms: Terms, offers: Iterable[Offer]
    ) -> None:
        """``rooms``: for how many panels each place has room, in the order of the request.

        ``passed_over`` will hold the names of offers that were not judged.
        """
        self.home, self.terms = home, terms
        self.hanging = Hanging(home, rooms, by_money=terms.wish != "least_outlay_per_kwh")
        ordered = sorted(offers, key=lambda offer: offer.place_in_lists)
        self.panels = [one for one in ordered if one.panel is not None and one.inverter is None]
        self.inverters = [one for one in ordered if one.inverter is not None and one.panel is None]
        self.whole = [one for one in ordered if one.inverter is not None and one.panel is not None]
        kinds: list[PanelKind] = []
        numbers: dict[str, int] = {}
        for one in (*self.panels, *self.whole):
            if one.panel is not None and numbers.setdefault(one.panel.key, len(kinds)) == len(kinds):
                kinds.append(one.panel)
        self.kind_of = np.array([numbers[one.panel.key] for one in self.panels if one.panel is not None], np.int64)
        self.kind_of_whole = [numbers[one.panel.key] for one in self.whole if one.panel is not None]
        self.second_hand = np.array([one.second_hand for one in self.panels], bool)
        self.counts = range(1, min(MOST_PANELS, sum(rooms)) + 1)
        self.paid = Paid(costs, self.panels, self.counts)
        self.judge = Judge(home, kinds)
        self.sets = 0
        self.passed_over: frozenset[str] = frozenset()
        self._at_a_glance: tuple[Sequence[Offer], Sequence[Offer]] = (), ()

    @property
    def without_curve(self) -> set[str]:
        """The keys of panels whose figures make no curve."""
        return self.judge.without_curve

    def screened(self) -> Screened:
        """All sets of the offers."""
        alone = self._alone()
        found = [*alone, *self._whole(), *self._of_two(alone)]
        best: dict[tuple[str, ...], Candidate] = {}
        for one in in_order(found):
            best.setdefault(one.adverts, one)
        best.pop((), None)  # all at hand: nothing to ring up for
        return Screened(candidates=tuple(best.values()), sets=self.sets)

    def refusal_of(self, offer: Offer) -> Finding | None:
        """The first finding that refuses an offer; None where one of the others takes it, or where there is no layout.

        Those are asked that were not judged with it, too; of panels without a curve nothing is to be said.
        """
        first: Finding | None = None
        panels = [offer] if offer.panel else self.panels
        for inverter in (one.inverter for one in ([offer] if offer.inverter else self.inverters)):
            for one in panels:
                if one is not offer and one.panel and one.panel.key in self.without_curve:
                    continue
                count = one.panels_each if one.inverter else 1
                for layout in () if inverter is None else self.hanging.all_layouts((count,), inverter):
                    refused = [
                        why for on in layout if one.panel and inverter
                        and (why := self.home.strung(one.panel, on).refusal(inverter, on.index))
                    ]  # fmt: skip
                    if not refused:
                        return None
                    first = first or refused[0]
        return first

    @cached_property
    def places(self) -> Mapping[str, tuple[int, int]]:
        """Of each offer of panels alone or of an inverter alone its place at a glance, and of how many."""
        return {
            one.name: (place, len(ordered))
            for ordered in self._at_a_glance
            for place, one in enumerate(ordered, start=1)
        }

    def has_room_for(self, offer: Offer) -> bool:
        """Is there any layout of it with any of the others?"""
        counts = {one.panels_each if one.inverter else 1 for one in ([offer] if offer.panel else self.panels)}
        kinds = [one.inverter for one in ([offer] if offer.inverter else self.inverters)]
        return any(self.hanging.layouts((count,), kind) for kind in kinds if kind is not None for count in counts)

    def _alone(self) -> list[Candidate]:
        """Of one offer of panels; of very many offers, of the first at a glance, until enough are found that fit."""
        glance = Glance(self.home.year, self.hanging.sunniest[0], self.terms, self.panels, self.inverters)
        own = [self.paid.own(one) for one in self.inverters]
        rows = glance.panels(self.paid.apart, own, self.home.panel_cap)
        inverters = glance.inverters(own)
        found: list[Candidate] = []
        self._at_a_glance = [self.panels[row] for row in rows.tolist()], inverters
        left = {one.name for one in (*self.panels, *self.inverters)}
        for turn, these in enumerate(in_turn(list(by_kind(inverters)), LOOKED_INVERTERS), start=1):
            here, seen = self._of_panels(rows, these)
            found += here
            left -= {self.panels[row].name for row in seen.tolist()}
            left -= {one.name for _, alike in these for one in alike}
            if _any_fits(found) or (found and turn >= MOST_TURNS_OF_INVERTERS):
                break
        self.passed_over = frozenset(left)
        return found

    def _of_panels(
        self, rows: Ints, inverters: Sequence[tuple[InverterKind, list[Offer]]]
    ) -> tuple[list[Candidate], Ints]:
        """Of these inverters with the first of the panels, until of each enough are found that fit; which were seen."""
        found: list[Candidate] = []
        seen, wanting = 0, list(inverters)
        while seen < len(rows):
            found += self._of_one(np.sort(rows[seen : seen + LOOKED_PANELS]), wanting or inverters)
            seen += LOOKED_PANELS
            hopeful = any(kind.limits_told for kind, _ in inverters) or _any_fits(found)
            wanting = self._wanting(inverters, found) if hopeful and seen < MOST_TURNS * LOOKED_PANELS else []
            if not wanting and len(names_of(found)) >= min(LOOKED_PANELS, len(rows)):
                break
        return found, rows[:seen]

    def _wanting(
        self, inverters: Sequence[tuple[InverterKind, list[Offer]]], found: Iterable[Candidate]
    ) -> list[tuple[InverterKind, list[Offer]]]:
        """Those of which too few panels are found that fit."""
        fit: dict[str, set[str]] = {}
        for one in found:
            if one.fit == LIKELY_FITS and one.inverter.inverter is not None:
                fit.setdefault(one.inverter.inverter.key, set()).add(one.panels[0].offer.name)
        return [one for one in inverters if len(fit.get(one[0].key, ())) < ENOUGH_THAT_FIT]

    def _of_one(self, rows: Ints, inverters: Sequence[tuple[InverterKind, list[Offer]]]) -> list[Candidate]:
        """Of one of these offers of panels: the best of its numbers and layouts with each inverter."""
        found: list[Candidate] = []
        used, offers = self.second_hand[rows], [self.panels[row] for row in rows.tolist()]
        there = {count: np.flatnonzero(np.isfinite(self.paid.apart[count][rows])) for count in self.counts}
        bought = {
            (count, row): (Bought(offers[row], count),) for count, these in there.items() for row in these.tolist()
        }
        for inverter, alike in inverters:
            ways, found_there = self._ways(there, self.kind_of[rows], inverter)
            if not ways:
                continue
            judged = self._spread(found_there, rows.size)
            gains, fits = judged.gain, judged.fit.tolist()
            for offer in alike:
                each = {count: self.paid.with_inverter(offer, count)[rows] for count in self.counts}
                outlay = np.stack([each[count] for count, _ in ways])
                rough = self._rough(outlay, judged, used)
                self.sets += int(np.count_nonzero(~np.isnan(rough)))
                paid, figures, brings = outlay.tolist(), rough.tolist(), gains.tolist()
                for row, at in best_of(judged.fit, rough, outlay, gains):
                    count, layout = ways[at]
                    told = paid[at][row], fits[at][row], figures[at][row], brings[at][row]
                    found.append(candidate_of(bought[count, row], offer, layout, *told))
        return found

    def _ways(
        self, there: Mapping[int, Ints], kinds: Ints, inverter: InverterKind
    ) -> tuple[list[tuple[int, Layout]], list[tuple[Ints, Judged]]]:
        """Numbers and layouts, and what was judged of which rows; of what fits in none the spare ones are asked."""
        ways: list[tuple[int, Layout]] = []
        judged: list[tuple[Ints, Judged]] = []
        sound = self.home.side_fit(inverter)
        for count, these in there.items():
            left = these
            for spare in (False, True):
                layouts = self.hanging.layouts((count,), inverter, spare=spare) if left.size else []
                found = [self.judge.judged(inverter, layout, (kinds[left],)) for layout in layouts]
                ways += [(count, layout) for layout in layouts]
                judged += [(left, one) for one in found]
                low = np.any([one.low for one in found], axis=0) if found and not spare else np.zeros(left.size, bool)
                for layout in self.hanging.with_fewer_inputs((count,), inverter) if low.any() else ():
                    ways.append((count, layout))
                    judged.append((left[low], self.judge.judged(inverter, layout, (kinds[left[low]],))))
                if found and not spare and self.hanging.layouts((count,), inverter, spare=True):
                    fits = np.stack([np.isfinite(one.year_kwh) & (one.fit <= sound) for one in found])
                    left = left[~fits.any(axis=0) & self.judge.two_sided[kinds[left]]]
        return ways, judged

    def _spread(self, judged: Sequence[tuple[Ints, Judged]], rows: int) -> Judged:
        """Of ways and rows, (ways, rows), what was judged of some rows in each way; nan elsewhere."""
        fit = np.zeros((len(judged), rows), np.int64)
        low = np.zeros(fit.shape, bool)
        year, saving = np.full(fit.shape, np.nan), np.full(fit.shape, np.nan)
        for way, (these, one) in enumerate(judged):
            fit[way, these], year[way, these], low[way, these] = one.fit, one.year_kwh, one.low
            if one.saving is not None:
                saving[way, these] = one.saving
        return Judged(fit, year, None if self.home.year.saved is None else saving, low)

    def _of_pairs(
        self, counts: tuple[int, int], inverter: InverterKind, kinds: tuple[Ints, Ints]
    ) -> Iterator[tuple[Layout, Judged]]:
        """Pairs of kinds in each layout; on fewer inputs only those of too few volts."""
        low = np.zeros(kinds[0].size, bool)
        for layout in self.hanging.layouts(counts, inverter):
            judged = self.judge.judged(inverter, layout, kinds)
            low |= judged.low
            yield layout, judged
        here = np.flatnonzero(low)
        for layout in self.hanging.with_fewer_inputs(counts, inverter) if here.size else ():
            of_these = self.judge.judged(inverter, layout, (kinds[0][here], kinds[1][here]))
            yield layout, of_these.among(here, low.size)

    def _of_two(self, alone: Sequence[Candidate]) -> Iterator[Candidate]:
        """Of two offers of panels, one of which is used up."""
        chosen = best_alone([(one.panels[0].offer, one.fit, one.rough) for one in alone], JOINED_PANELS)
        with_which = best_alone([(one.inverter, one.fit, one.rough) for one in alone], JOINED_INVERTERS)
        number = {id(one): at for at, one in enumerate(self.panels)}
        pairs = list(combinations(chosen, 2))
        costs, last = self.paid.apart, last_place(((one.adverts, one.behind, one.rough) for one in alone), MOST_LOOKED)
        for counts in ((one, other) for one in self.counts for other in self.counts if one + other in self.counts):
            able = [pair for pair in pairs if joinable(pair, counts)]
            if not able:
                continue
            rows = np.array([[number[id(one)] for one in pair] for pair in able], np.int64).T
            paid = costs[counts[0]][rows[0]] + costs[counts[1]][rows[1]]
            used = self.second_hand[rows[0]] | self.second_hand[rows[1]]
            tricky = np.array([any(one.tricky for one in pair) for pair in able], np.int64)
            for inverter, alike in by_kind(with_which):
                for layout, judged in self._of_pairs(counts, inverter, (self.kind_of[rows[0]], self.kind_of[rows[1]])):
                    gains = judged.gain
                    for offer in alike:
                        outlay = self.paid.of_two(able, counts, offer, paid + self.paid.own(offer))
                        rough = self._rough(outlay, judged, used)
                        self.sets += int(np.count_nonzero(~np.isnan(rough)))
                        places = 2 * judged.fit + np.maximum(tricky, int(offer.tricky))
                        for at in first_of(rough, places, MOST_LOOKED, last):
                            bought = Bought(able[at][0], counts[0]), Bought(able[at][1], counts[1])
                            figures = float(outlay[at]), int(judged.fit[at]), float(rough[at]), float(gains[at])
                            yield candidate_of(bought, offer, layout, *figures)

    def _whole(self) -> Iterator[Candidate]:
        """Sets that are sold whole."""
        for offer, kind in zip(self.whole, self.kind_of_whole, strict=True):
            if offer.inverter is None:
                continue
            bought = (Bought(offer),)
            outlay = np.array([self.paid.outlay(bought, offer)])
            ways = self._ways({offer.panels_each: np.array([0])}, np.array([kind]), offer.inverter)
            for (_, layout), (here, judged) in zip(*ways, strict=True):
                if not here.size:
                    continue
                rough = self._rough(outlay, judged, np.array([offer.second_hand]))
                if not np.isnan(rough[0]):
                    self.sets += 1
                    figures = float(outlay[0]), int(judged.fit[0]), float(rough[0]), float(judged.gain[0])
                    yield candidate_of(bought, offer, layout, *figures)

    def _rough(self, outlay: Floats, judged: Judged, second_hand: Bools) -> Floats:
        """As ``Terms.rough``; nan where an input refuses."""
        rough = self.terms.rough(outlay, judged.year_kwh, judged.saving, second_hand=second_hand)
        return np.where(np.isnan(judged.year_kwh), np.nan, rough)


def _any_fits(found: Iterable[Candidate]) -> bool:
    return any(one.fit == LIKELY_FITS for one in found)
