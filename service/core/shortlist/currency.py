"""In which currency is the account of a shortlist, where no tariff names one?

Prices of two currencies are neither summed nor compared as bare numbers. So the account is in one of those that the
offers are priced in, and what is priced in another is left out with that reason.
"""

from collections.abc import Callable, Iterable, Sequence

from service.core.shortlist.double import doubles_of
from service.core.shortlist.offer import Offer
from service.core.shortlist.told import Told, costs_nothing


def currency_of_most(
    adverts: Iterable[Told], offer_of: Callable[[Told], Offer | None], at_hand: Sequence[Offer] = ()
) -> str | None:
    """The currency of most offers among those in which a set can be put together, or among all where it can in none.

    Of equally many the first by its letters; None where no offer names any, or several that nothing can be taken in.

    Args:
        adverts: all of them.
        offer_of: the offer that an advert makes in whichever currency; None where nothing of it can be taken. One that
            is told twice counts once.
        at_hand: what is there already, and needs no currency.
    """
    priced = [one for one in adverts if one.is_offer and one.price is not None]
    currencies = sorted({one.currency for one in priced if one.currency is not None})
    if len(currencies) < 2:
        return currencies[0] if currencies else None
    of_any, told = list(at_hand), {currency: list[Offer]() for currency in currencies}
    for one in priced:
        offer = offer_of(one)
        if offer is not None:
            (of_any if one.currency is None or costs_nothing(one) else told[one.currency]).append(offer)
    if not any(told.values()):
        return None
    votes = {
        currency: (_makes_a_set([*offers, *of_any]), len(offers) - len(doubles_of(offers)))
        for currency, offers in told.items()
    }
    return max(currencies, key=lambda currency: votes[currency])  # of equal ones the first


def _makes_a_set(offers: Sequence[Offer]) -> bool:
    """Are there panels and an inverter?"""
    return any(one.panel is not None for one in offers) and any(one.inverter is not None for one in offers)
