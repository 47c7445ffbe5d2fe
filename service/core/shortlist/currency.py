"""In which currency is the account of a shortlist, where no tariff names one?

Prices of two currencies are neither summed nor compared as bare numbers. So the account is in the one that most of the
offers are priced in, and what is priced in another is left out with that reason.
"""

from collections import Counter
from collections.abc import Iterable

from service.core.shortlist.told import Told


def currency_of_most(adverts: Iterable[Told]) -> str | None:
    """The currency of most offers, of equally many the first by its letters; None where none names any.

    >>> currency_of_most([Told(advert=name, kind="panel", price=40.0, currency=name[:3]) for name in ("USD1", "EUR1")])
    'EUR'
    """
    named = Counter(one.currency for one in adverts if one.is_offer and one.price is not None)
    told = {currency: number for currency, number in named.items() if currency is not None}
    return min(told, key=lambda currency: (-told[currency], currency), default=None)
