"""What does sending cost, where goods are sent and nobody says for how much?

An advert that is only sent costs more than nothing to get, however near its seller lives; and a drive there is not
offered. So the parcel or the pallet of the table of defaults is taken, told as an assumption, and asked of the seller.
"""

from collections.abc import Mapping
from math import floor, log10
from types import MappingProxyType

from service.core.adverts.doubts import ROUGH_EUR
from service.core.completion.defaults import row_for
from service.core.model.assumption import Assumption

_POINTER = "/adverts/*/delivery_cost"
# Euro for one, rough and from memory; the range of what sending costs is far wider.
_MORE_EUR = {
    "SEK": 0.09, "NOK": 0.085, "ISK": 0.007, "HUF": 0.0025, "RON": 0.2, "BGN": 0.51, "TRY": 0.025, "AUD": 0.57,
    "CAD": 0.63, "NZD": 0.53, "JPY": 0.006, "INR": 0.0105, "BRL": 0.16, "ZAR": 0.048, "MXN": 0.048,
}  # fmt: skip
_EUR: Mapping[str, float] = MappingProxyType({**ROUGH_EUR, **_MORE_EUR})


def sending_not_told(currency: str | None, *, panels: bool) -> Assumption | None:
    """What sending may cost; None in a currency of which no rough rate is kept.

    Args:
        currency: ISO 4217; None: nobody said, and euros are taken.
        panels: do panels belong to it? They go on a pallet, an inverter as a parcel.

    >>> (one := sending_not_told("CZK", panels=True)).value, one.low, one.high
    (2000.0, 1000.0, 4000.0)
    """
    rate = _EUR.get(currency or "EUR")
    row = row_for(_POINTER, "sending_pallet" if panels else "sending_parcel")
    if rate is None or not isinstance(row.value, float) or row.low is None or row.high is None:
        return None
    value, low, high = (_rounded(euro / rate) for euro in (row.value, row.low, row.high))
    return Assumption(pointer=_POINTER, value=value, code=row.code, source=row.source, low=low, high=high)


def _rounded(amount: float) -> float:
    """To two digits: no more is known."""
    return round(amount, 1 - floor(log10(amount)))
