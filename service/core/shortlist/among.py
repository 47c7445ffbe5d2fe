"""Which among many offers and sets go together, come in turn, or are worth going on with?"""

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from service.core.model.hours import Bools, Floats, Ints
from service.core.shortlist.offer import InverterKind, Offer
from service.core.shortlist.order import LAST
from service.core.shortlist.order import behind as behind_of
from service.core.shortlist.wish import NEVER


def first_of(rough: Floats, behind: Ints, most: int, last: tuple[int, float]) -> list[int]:
    """The first sets of one inverter and one wiring, as far as ``last``; nan: none.

    By the rows of ``order.behind``, then the best.
    """
    within = (behind < last[0]) | ((behind == last[0]) & (rough <= last[1]))
    rows = np.flatnonzero(within & ~np.isnan(rough))
    first: list[int] = rows[np.lexsort((rough[rows], behind[rows]))][:most].tolist()
    return first


def last_place(found: Iterable[tuple[tuple[str, ...], int, float]], most: int) -> tuple[int, float]:
    """The place (its row, and how it does) beyond which no set is looked at closer.

    Args:
        found: adverts, row (``order.behind``) and figure of sets that can be had.
        most: so many of different adverts are looked at.

    Where fewer are found, or one of them never pays, nothing is left out.
    """
    best: dict[tuple[str, ...], tuple[int, float]] = {}
    for adverts, behind, rough in found:
        best[adverts] = min(best.get(adverts, LAST), (behind, rough))
    places = sorted(best.values())
    if len(places) < most or any(rough == NEVER for _, rough in places):
        return LAST
    return places[most - 1]


def joinable(pair: tuple[Offer, Offer], counts: tuple[int, int]) -> bool:
    """Are there so many of both, and is one used up?"""
    one, other = pair
    if counts[0] > one.most or counts[1] > other.most:
        return False
    return one.pieces == counts[0] or other.pieces == counts[1] or one.lot is not None or other.lot is not None


def by_kind(inverters: Sequence[Offer]) -> Iterator[tuple[InverterKind, list[Offer]]]:
    """Offers of one inverter together."""
    groups: dict[str, tuple[InverterKind, list[Offer]]] = {}
    for one in inverters:
        if one.inverter is not None:
            groups.setdefault(one.inverter.key, (one.inverter, []))[1].append(one)
    yield from groups.values()


def in_turn(
    groups: Sequence[tuple[InverterKind, list[Offer]]], most: int
) -> Iterator[Sequence[tuple[InverterKind, list[Offer]]]]:
    """So many groups at a time."""
    for at in range(0, len(groups), most):
        yield groups[at : at + most]


def first_alike(inverter: InverterKind) -> list[int]:
    """Of each input the first that has the same limits."""
    inputs = inverter.inverter.inputs
    return [inputs.index(one) for one in inputs]


def best_alone(scored: Sequence[tuple[Offer, int, float]], most: int) -> list[Offer]:
    """The offers that come out best alone, as they were told of; those at hand in any case.

    ``scored``: offers with how a set of each fits (``order.fit_of``) and does; in a fit tricky ones come last.
    """
    best: dict[int, tuple[int, float]] = {}
    offers: dict[int, Offer] = {}
    for offer, fit, rough in scored:
        key, place = id(offer), (behind_of(fit, tricky=offer.tricky), rough)
        if key not in best or place < best[key]:
            best[key], offers[key] = place, offer

    chosen = set(sorted(best, key=lambda key: (offers[key].advert is not None, best[key]))[:most])
    return [offer for key, offer in offers.items() if key in chosen]


def best_of(fit: Ints, rough: Floats, outlay: Floats, gain: Floats) -> Iterator[tuple[int, int]]:
    """Of each column that has a figure: its number and the row that fits best and of those has the least one.

    Of equal ones the cheapest, then what brings most: what is given away is paid back at once, one or four.
    """
    none = np.isnan(rough)
    best_fit = np.where(none, np.iinfo(np.int64).max, fit).min(axis=0)
    first = (fit == best_fit) & ~none
    # What never pays still comes before what cannot be had.
    best = _least(first, np.minimum(rough, np.finfo(np.float64).max))
    if (best.sum(axis=0) > 1).any():
        best = _least(_least(best, outlay), -gain)
    row = best.argmax(axis=0)
    some = np.flatnonzero(first.any(axis=0))
    yield from zip(some.tolist(), row[some].tolist(), strict=True)


def _least(among: Bools, figures: Floats) -> Bools:
    """Those that have the least figure of their column."""
    of_these = np.where(among, figures, np.inf)
    return np.asarray(among & (of_these <= of_these.min(axis=0)))
