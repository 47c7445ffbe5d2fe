"""Which adverts are one and the same, told twice, maybe in other words?

Those that offer the same goods by every figure told, as many of them, at the same price, from the same place as far as
was told. Their panels are there once: so one of them stands for all, and the others are named beside it. Adverts of two
places are two, however alike: who takes them for one never builds the set that both together make. What is told of one
alone, of where it is fetched or what sending it costs, makes no second thing of the same words.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from service.core.shortlist.offer import Offer
from service.core.shortlist.town import far_apart

# One seller's distance as two pages tell it, and where both name the same town: its middle and a street. Judgement.
_SAME_PLACE_KM, _SAME_TOWN_KM = 1.0, 5.0


def doubles_of(offers: Sequence[Offer]) -> dict[str, str]:
    """Of each advert that is another one once more: which.

    The nearest stands for all, of equal ones that of which more is told of how it comes, then the first name.

    >>> one, other = Offer(advert="a7", each=45.0, km=3.0), Offer(advert="a2", each=45.0, km=4.0)
    >>> doubles_of([one, other]), doubles_of([one, Offer(advert="a9", each=44.0, km=3.0)])
    ({'a2': 'a7'}, {})
    """
    like_priced: dict[tuple[object, ...], list[Offer]] = {}
    for offer in offers:
        like_priced.setdefault(_terms(offer), []).append(offer)
    alike: dict[tuple[object, ...], list[Offer]] = {}
    for offer in (one for group in like_priced.values() if len(group) > 1 for one in group):
        if offer.advert is not None:
            alike.setdefault((*_terms(offer), _goods(offer)), []).append(offer)
    found: dict[str, str] = {}
    for group in alike.values():
        leads: list[Offer] = []
        for offer in sorted(group, key=_order):
            lead = next((one for one in leads if _same_place(one, offer) and _come_alike(one, offer)), None)
            if lead is None:
                leads.append(offer)
            else:
                found[offer.name] = lead.name
    return found


def _same_place(near: Offer, other: Offer) -> bool:
    """May both be handed over at one place, as far as was told? ``other`` is no nearer."""
    if far_apart(near.towns, other.towns):
        return False
    within = _SAME_TOWN_KM if near.towns & other.towns else _SAME_PLACE_KM
    return other.km is None or _km(other) - _km(near) <= within


def _come_alike(one: Offer, other: Offer) -> bool:
    """Do they come likewise, by all that was told, or of the same words by all that was told of both?"""
    if (one.freight_told, one.trip, one.only_sent) == (other.freight_told, other.trip, other.only_sent):
        return True
    if one.words is None or one.words != other.words:
        return False
    told_of_both = ((one.freight_told, other.freight_told), (one.trip, other.trip))
    return all(None in pair or pair[0] == pair[1] for pair in told_of_both)


def _order(offer: Offer) -> tuple[float, bool, bool, str]:
    return _km(offer), offer.freight_told is None, offer.trip is None, offer.name


def _km(offer: Offer) -> float:
    return float("inf") if offer.km is None else offer.km


def _goods(offer: Offer) -> tuple[object, ...]:
    """What an offer is, by its figures."""
    panel, inverter = offer.panel, offer.inverter
    return None if panel is None else _figures(panel.given), None if inverter is None else inverter.key


def _terms(offer: Offer) -> tuple[object, ...]:
    """All else that was told of it but its words and how it comes."""
    return (
        offer.pieces, offer.least, offer.panels_each, offer.each, offer.lot, offer.second_hand, offer.tricky,
    )  # fmt: skip


def _figures(given: Mapping[str, Any]) -> tuple[tuple[str, float], ...]:
    return tuple(sorted(
        (name, float(value)) for name, value in given.items()
        if isinstance(value, int | float) and not isinstance(value, bool)
    ))  # fmt: skip
