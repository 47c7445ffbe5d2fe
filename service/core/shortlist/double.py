"""Which adverts are one and the same, told twice, maybe in other words?

Those that offer the same goods by every figure told, as many of them, at the same price, from about the same place.
Their panels are there once: so one of them stands for all, and the others are named beside it.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from service.core.shortlist.offer import Offer

# One seller's distance as two pages tell it. Judgement.
_SAME_PLACE_KM = 5.0


def doubles_of(offers: Sequence[Offer]) -> dict[str, str]:
    """Of each advert that is another one once more: which. The nearest stands for all, of equal ones the first name.

    >>> one, other = Offer(advert="a7", each=45.0, km=3.0), Offer(advert="a2", each=45.0, km=4.0)
    >>> doubles_of([one, other]), doubles_of([one, Offer(advert="a9", each=44.0, km=3.0)])
    ({'a2': 'a7'}, {})
    """
    like_priced: dict[tuple[object, ...], list[Offer]] = {}
    for offer in offers:
        like_priced.setdefault(_terms(offer), []).append(offer)
    alike: dict[tuple[object, ...], list[tuple[float, str]]] = {}
    for offer in (one for group in like_priced.values() if len(group) > 1 for one in group):
        if offer.advert is not None:
            km = float("inf") if offer.km is None else offer.km
            alike.setdefault((*_terms(offer), _goods(offer)), []).append((km, offer.advert))
    found: dict[str, str] = {}
    for told in alike.values():
        near: float | None = None
        lead = ""
        for km, name in sorted(told):
            if near is not None and (km == float("inf") or km - near <= _SAME_PLACE_KM):
                found[name] = lead
            else:
                near, lead = km, name
    return found


def _goods(offer: Offer) -> tuple[object, ...]:
    """What an offer is, by its figures."""
    panel, inverter = offer.panel, offer.inverter
    return None if panel is None else _figures(panel.given), None if inverter is None else inverter.key


def _terms(offer: Offer) -> tuple[object, ...]:
    """All else that was told of it but words and distance; whether it is only sent is among it."""
    return (
        offer.pieces, offer.least, offer.panels_each, offer.each, offer.lot, offer.freight, offer.trip,
        offer.km is None and offer.freight is not None, offer.second_hand, offer.tricky,
    )  # fmt: skip


def _figures(given: Mapping[str, Any]) -> tuple[tuple[str, float], ...]:
    return tuple(sorted(
        (name, float(value)) for name, value in given.items()
        if isinstance(value, int | float) and not isinstance(value, bool)
    ))  # fmt: skip
