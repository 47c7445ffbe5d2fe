"""What does it cost to get goods, where nobody says how far away they are, or for how much they are sent?

An advert that is only sent costs more than nothing to get, however near its seller lives; and a drive there is not
offered. So the parcel or the pallet of the table of defaults is taken, told as an assumption, and asked of the seller.
Who says that sending is possible, or nothing at all, is no cheaper to get than that: the same is taken, with a wider
range. Where goods are fetched a usual way is taken. So nothing is cheaper for not being told.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import floor, log10
from types import MappingProxyType

from service.core.adverts.doubts import ROUGH_EUR
from service.core.completion.defaults import row_for
from service.core.model.assumption import Assumption

_COST, _WAY = "/adverts/*/delivery_cost", "/adverts/*/distance_km"
# Euro for one, rough and from memory; the range of what sending costs is far wider.
_MORE_EUR = {
    "SEK": 0.09, "NOK": 0.085, "ISK": 0.007, "HUF": 0.0025, "RON": 0.2, "BGN": 0.51, "TRY": 0.025, "AUD": 0.57,
    "CAD": 0.63, "NZD": 0.53, "JPY": 0.006, "INR": 0.0105, "BRL": 0.16, "ZAR": 0.048, "MXN": 0.048,
}  # fmt: skip
_EUR: Mapping[str, float] = MappingProxyType({**ROUGH_EUR, **_MORE_EUR})


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """What was taken for getting goods, as it is told, and as money: how far below and above the freight it may be."""

    told: Assumption
    freight: float
    less: float
    more: float


def getting_not_told(
    delivery: str, currency: str | None, per_km: float, *, panels: bool, way_told: bool
) -> Guess | None:
    """What getting goods may cost; None where the way was told, or what is only sent has no rough rate in a currency.

    Args:
        delivery: how the advert says that they come: pickup, shipping, either or unknown.
        currency: ISO 4217; None: nobody said, and euros are taken.
        per_km: what a kilometre of driving costs.
        panels: do panels belong to it? They go on a pallet, an inverter as a parcel.
        way_told: is it known how far away they are? What is only sent is not fetched, however near.

    >>> (one := getting_not_told("shipping", "CZK", 0.0, panels=True, way_told=True)).freight, one.less, one.more
    (2000.0, 1000.0, 2000.0)
    >>> (one := getting_not_told("pickup", "EUR", 0.3, panels=True, way_told=False)).told.value, one.freight
    (30.0, 18.0)
    """
    if delivery == "shipping":
        return _sent("sending", currency, panels=panels)
    if way_told:
        return None
    sent = None if delivery == "pickup" else _sent("getting", currency, panels=panels)
    return sent or _fetched(per_km)


@lru_cache(maxsize=256)
def _sent(code: str, currency: str | None, *, panels: bool) -> Guess | None:
    rate = _EUR.get(currency or "EUR")
    row = row_for(_COST, f"{code}_pallet" if panels else f"{code}_parcel")
    if rate is None or not isinstance(row.value, float) or row.low is None or row.high is None:
        return None
    value, low, high = (_rounded(euro / rate) for euro in (row.value, row.low, row.high))
    told = Assumption(pointer=_COST, value=value, code=row.code, source=row.source, low=low, high=high)
    return Guess(told=told, freight=value, less=value - low, more=high - value)


def _fetched(per_km: float) -> Guess:
    """There and back; where driving costs nothing, so does a way of whatever length."""
    row = row_for(_WAY, "usual_way" if per_km else "way_not_counted")
    told = Assumption(pointer=_WAY, value=row.value, code=row.code, source=row.source, low=row.low, high=row.high)
    if not isinstance(row.value, float) or row.low is None or row.high is None:
        return Guess(told=told, freight=0.0, less=0.0, more=0.0)
    there_and_back = 2.0 * per_km
    return Guess(
        told=told, freight=there_and_back * row.value, less=there_and_back * (row.value - row.low),
        more=there_and_back * (row.high - row.value),
    )  # fmt: skip


def _rounded(amount: float) -> float:
    """To two digits: no more is known."""
    return round(amount, 1 - floor(log10(amount)))
