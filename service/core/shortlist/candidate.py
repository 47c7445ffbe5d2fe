"""What is a set that can be built, and which of many stands before which?"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby
from operator import itemgetter

from service.core.shortlist.layout import Layout
from service.core.shortlist.offer import Bought, Offer
from service.core.shortlist.order import behind


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Candidate:
    """A set that can be built: what is bought or taken, how it hangs, and roughly how much it is wanted.

    ``panels``: each with its pieces, in the order of the layout's kinds. A set that is sold whole is ``panels`` and
    ``inverter`` in one. ``fit``: as of ``order.fit_of``, by what can refuse it. ``gain``: what a year brings, money
    where a price is known, else kWh. ``adverts``: those that it is bought from, of panels first.
    """

    panels: tuple[Bought, ...]
    inverter: Offer
    layout: Layout
    outlay: float
    fit: int
    rough: float
    gain: float
    adverts: tuple[str, ...]

    @property
    def bought(self) -> tuple[Bought, ...]:
        """All that it is made of, each offer once."""
        return all_of(self.panels, self.inverter)

    @property
    def tricky(self) -> bool:
        """Does any of its adverts smell of a trick?"""
        for one in self.panels:
            if one.offer.tricky:
                return True
        return self.inverter.tricky

    @property
    def said(self) -> tuple[float, float, int]:
        """What its adverts say of freight, way and fewest pieces; of sets that cost the same the lesser comes first."""
        offers = [one.offer for one in self.bought]
        freight = sum(one.freight or 0.0 for one in offers)
        return freight, sum(one.km or 0.0 for one in offers), sum(one.least for one in offers)

    @property
    def goods(self) -> tuple[object, ...]:
        """Its offers, for an order among sets that are equal so far: by what they are, and at last by their names."""
        return tuple(one.offer.place_in_lists for one in self.bought)

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


def candidate_of(
    panels: tuple[Bought, ...], inverter: Offer, layout: Layout, outlay: float, fit: int, rough: float, gain: float
) -> Candidate:
    """A set of these offers."""
    offers = [one.offer for one in panels]
    if offers[0] is not inverter:
        offers.append(inverter)
    return Candidate(
        panels=panels, inverter=inverter, layout=layout, outlay=outlay, fit=fit, rough=rough, gain=gain,
        adverts=tuple([one.advert for one in offers if one.advert is not None]),
    )  # fmt: skip


def names_of(found: Iterable[Candidate]) -> set[str]:
    """The offers of panels in these sets."""
    return {one.panels[0].offer.name for one in found}


def in_order(found: Iterable[Candidate]) -> Iterator[Candidate]:
    """By their row of places, then the best; of equal ones the cheaper, what brings more, then ``_among_equals``."""
    first = itemgetter(0)
    for _, alike in groupby(sorted([(_place(one), one) for one in found], key=first), key=first):
        several = [one for _, one in alike]
        yield from several if len(several) == 1 else sorted(several, key=_among_equals)


def _place(one: Candidate) -> tuple[int, float, float, float]:
    return one.behind, one.rough, one.outlay, -one.gain


def _among_equals(one: Candidate) -> tuple[object, ...]:
    """The fewer adverts, what is said, what they are; seldom asked for, and dearer than a place."""
    return len(one.adverts), one.said, one.goods, [bought.pieces for bought in one.panels], one.layout
