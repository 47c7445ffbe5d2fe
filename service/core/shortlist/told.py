"""What can be taken from a read advert: an offer with the questions that are open, or the reason why there is none?"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cache
from types import MappingProxyType
from typing import Any

from service.core.completion.defaults import row_for
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumption
from service.core.model.bounds import BOUNDS
from service.core.model.finding import Fact
from service.core.shortlist.getting import getting_not_told
from service.core.shortlist.offer import MOST_PANELS, InverterKind, Offer, PanelKind

# Doubts that leave nothing to put on a shortlist, and by which reason.
_LEFT_BY_DOUBT: Mapping[str, str] = {
    "sold": "sold", "reserved": "reserved", "off_grid_inverter": "off_grid_inverter",
    "string_inverter": "string_inverter", "not_photovoltaic": "other_goods", "other_goods": "other_goods",
}  # fmt: skip
# Doubts that put an advert's sets behind those without. None of them hangs on a price or on the other adverts, so that
# a cheaper copy of an advert never ranks lower.
TRICKY = frozenset({"label_removed", "advance_payment", "contact_off_site", "no_viewing", "no_invoice",
                    "account_bound", "shock_or_fire"})  # fmt: skip
# Doubts after which nothing is called a bargain, however cheap.
SUSPICIOUS = TRICKY | {"too_cheap", "far_under_others", "same_advert_again", "price_conflict"}
_ASK_FOR_A_LABEL = frozenset(
    {"power_conflict", "rating_conflict", "power_of_several", "power_vs_vi", "voc_vs_cells", "isc_not_above_imp",
     "power_vs_area", "measured_not_rated", "no_photos", "stock_photo"}
)  # fmt: skip
# Up to so much in any currency a price is mostly none: it stands for "make an offer", or is a bait. Of things that are
# worth more: panels from so many watts on, inverters and sets. Judgement. What is given away costs nothing at all.
_TOKEN_PRICE, _FROM_W = 5.0, 50.0
_PANEL_RATINGS = ("open_circuit_voltage_v", "short_circuit_current_a")
_INPUT_RATINGS = ("max_input_voltage_v", "max_current_a", "max_short_circuit_current_a")
_UNUSED = frozenset({"new", "unused"})
_OLD_DAYS = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What an advert and the caller tell: ``panel`` and ``inverter`` in the names of a request, as far as was said.

    ``pieces``: how many there are; ``least``: the fewest of them that are sold, None where no number is told.
    ``basis``: of the price, each, lot, set or unknown. ``bifacial``: is the panel said to be two-sided, or one-sided?
    ``words``: as of ``Offer``. ``km``, ``sending`` (what that costs), ``trip`` and ``posted_on`` are the caller's;
    ``towns``: as of ``towns_of``.
    """

    advert: str
    kind: str
    is_offer: bool = True
    pieces: int | None = None
    least: int | None = None
    price: float | None = None
    currency: str | None = None
    basis: str = "unknown"
    condition: str = "unknown"
    delivery: str = "unknown"
    shipping_cost: float | None = None
    doubts: tuple[str, ...] = ()
    panel: Mapping[str, Any] = field(default_factory=dict)
    inverter: Mapping[str, Any] = field(default_factory=dict)
    bifacial: bool | None = None
    km: float | None = None
    sending: float | None = None
    trip: str | None = None
    towns: frozenset[str] = frozenset()
    panels_in_set: int | None = None
    posted_on: date | None = None
    words: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """Why an advert is not on the list: a code and the facts of its sentence."""

    code: str
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """An offer, the codes of what to ask its seller, and the doubts about it, that of a price hardly meant added.

    ``getting``: what was taken for getting it, where nobody told; it is the offer's freight then. ``way_untold``: how
    far away it is would tell more. ``assumed``: what was taken of how many there are, and what the price is for.
    """

    offer: Offer
    asks: tuple[str, ...]
    doubts: tuple[str, ...]
    getting: Assumption | None = None
    way_untold: bool = False
    assumed: tuple[Assumption, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Market:
    """What offers are measured by: the currency of the account (None: any), the day, and how things are completed.

    ``of_most``: is that currency no tariff's, but one of the adverts'? ``panel_of`` and ``inverter_of`` complete what
    was told. ``per_km``: what driving costs.
    """

    currency: str | None
    as_of: date
    panel_of: Callable[[Mapping[str, Any]], PanelKind]
    inverter_of: Callable[[Mapping[str, Any]], InverterKind]
    per_km: float = 0.0
    of_most: bool = False


def taken(told: Told, market: Market) -> Taken | Left:
    """The offer that an advert makes.

    A price of which nobody knows whether it is for one or for all is taken as for one, the dearer reading; a lot is
    bought whole; a set of which nobody counted the panels has one. What is only sent is never fetched; where nobody
    says what sending costs, or how far it is to what is fetched or sent, it costs what ``getting`` takes for it.
    """
    if (why := _left(told, market)) is not None:
        of = {"currency": market.currency or ""} if why == "currency_unlike_most" else {}
        return Left(code=why, facts=MappingProxyType(of))
    try:
        panel = market.panel_of(_panel(told)) if told.kind in {"panel", "set"} else None
        inverter = market.inverter_of(told.inverter) if told.kind in {"inverter", "set"} else None
    except ContradictionError as error:
        field_name = error.pointer.rpartition("/")[2]
        return Left(code="figures_contradict", facts=MappingProxyType({"rating": field_name, "problem": error.problem}))
    is_lot = told.basis == "lot"
    pieces = told.pieces if told.pieces is not None or not is_lot else 1
    freight, sent = _freight(told), told.delivery == "shipping"
    guess = None if freight is not None else getting_not_told(
        told.delivery, market.currency or told.currency, market.per_km, panels=panel is not None,
        way_told=told.km is not None,
    )  # fmt: skip
    offer = Offer(
        advert=told.advert,
        panel=panel,
        inverter=inverter,
        pieces=pieces,
        least=1 if is_lot else _least(told),
        panels_each=(told.panels_in_set or 1) if told.kind == "set" else int(told.kind == "panel"),
        each=told.price or 0.0,
        lot=told.price if is_lot else None,
        freight=freight if guess is None else guess.freight,
        freight_less=0.0 if guess is None else guess.less,
        freight_more=0.0 if guess is None else guess.more,
        km=None if sent else told.km,
        trip=told.trip,
        towns=told.towns,
        freight_told=freight,
        only_sent=sent or (told.km is None and freight is not None),
        second_hand=told.condition not in _UNUSED,
        tricky=not TRICKY.isdisjoint(told.doubts),
        words=told.words,
    )
    token = _is_token(told)
    doubts = told.doubts if not token or "too_cheap" in told.doubts else (*told.doubts, "too_cheap")
    return Taken(
        offer=offer, asks=_asks(told, market.as_of, token=token), doubts=doubts,
        getting=None if guess is None else guess.told, way_untold=told.km is None and freight is None and not sent,
        assumed=tuple(_assumed(told)),
    )  # fmt: skip


def _assumed(told: Told) -> Iterator[Assumption]:
    """What was taken of how many there are and what the price is for, where the advert leaves it open."""
    if told.kind == "set" and told.panels_in_set is None:
        yield _taken("/adverts/*/panel_count", "one_panel_in_set")
    if told.basis == "unknown" and told.pieces != 1:
        yield _taken("/adverts/*/reading/price/basis", "price_of_one")
    if told.pieces is None and told.basis == "lot":
        yield _taken("/adverts/*/reading/quantity_available", "one_in_lot")
    elif told.pieces is None and told.kind == "panel":
        yield _taken("/adverts/*/reading/quantity_available", "as_many_as_wanted")
    if told.least is None and _least(told) > 1:
        yield _taken("/adverts/*/reading/least_quantity", "two_at_least")


@cache
def _taken(pointer: str, code: str) -> Assumption:
    row = row_for(pointer, code)
    return Assumption(pointer=pointer, value=row.value, code=row.code, source=row.source)


def _freight(told: Told) -> float | None:
    """What sending costs by the caller, or else by the advert; None where nobody said, or where nothing is sent."""
    if told.sending is not None:
        return told.sending
    cost = told.shipping_cost
    if cost is None or told.delivery == "pickup" or cost > BOUNDS["delivery_cost"].high:  # misread, or a joke
        return None
    return cost


def costs_nothing(told: Told) -> bool:
    """Does the advert ask for no money at all, so that its currency makes no odds?"""
    return told.price == 0.0 and (told.sending is not None or not _freight(told))


def _least(told: Told) -> int:
    """The fewest pieces that are sold: no more than there are, which are all of them then.

    Where a least number is spoken of and none is told, two, and it is asked for.
    """
    if told.least is not None:
        return min(told.least, told.pieces or told.least)
    return min(2, told.pieces or 2) if "minimum_order" in told.doubts else 1


def _is_token(told: Told) -> bool:
    """Is the price hardly meant?"""
    if told.price is None or not 0.0 < told.price <= _TOKEN_PRICE:
        return False
    return told.kind != "panel" or (told.panel.get("rated_power_w") or 0.0) >= _FROM_W


def _left(told: Told, market: Market) -> str | None:  # noqa: PLR0911 - a row of reasons
    if not told.is_offer:
        return "not_an_offer"
    if told.kind == "other":
        return "other_goods"
    by_doubt = next((why for doubt, why in _LEFT_BY_DOUBT.items() if doubt in told.doubts), None)
    if by_doubt is not None:
        return by_doubt
    if told.condition == "damaged":
        return "damaged"
    if told.price is None:
        return "no_price"
    if not 0.0 <= told.price * MOST_PANELS <= BOUNDS["amount"].high:
        return "too_dear"
    if None not in {told.currency, market.currency} and told.currency != market.currency and not costs_nothing(told):
        return "currency_unlike_most" if market.of_most else "other_currency"
    if told.kind in {"panel", "set"} and told.panel.get("rated_power_w") is None:
        return "no_rated_power"
    if told.kind in {"inverter", "set"} and told.inverter.get("ac_power_w") is None:
        return "no_ac_power"
    return None


def _panel(told: Told) -> dict[str, Any]:
    """As told; that it is unused, or was in use, is told by the condition where nothing else does."""
    panel = dict(told.panel)
    if "history" not in panel and told.condition in _UNUSED:
        panel["history"] = "unused"
    elif "history" not in panel and "age_years" not in panel and told.condition == "used":
        panel["history"] = "roof"
    return panel


def _asks(told: Told, as_of: date, *, token: bool) -> tuple[str, ...]:
    """What is open, what decides about the fit first."""
    asks = ["price_meant"] if token else []
    if told.kind in {"panel", "set"}:
        asks += [name for name in _PANEL_RATINGS if told.panel.get(name) is None]
    if told.kind in {"inverter", "set"}:
        inputs = told.inverter.get("inputs") or [{}]
        asks += [name for name in _INPUT_RATINGS if all(one.get(name) is None for one in inputs)]
    if set(told.doubts) & _ASK_FOR_A_LABEL:
        asks.append("label_photo")
    if told.kind == "set" and told.panels_in_set is None:
        asks.append("panels_in_set")
    if told.kind != "set" and told.pieces is None:
        asks.append("quantity")
    if told.basis == "lot" and (told.pieces is None or told.pieces > 1) and "minimum_order" not in told.doubts:
        asks.append("split_lot")
    if told.basis == "unknown" and told.pieces != 1:
        asks.append("price_basis")
    too_many = told.least is not None and told.pieces is not None and told.least > told.pieces
    if too_many or ("minimum_order" in told.doubts and told.least is None):
        asks.append("minimum_order")
    if _freight(told) is None and told.delivery == "shipping":
        asks.append("sending_cost")
    elif _freight(told) is None and told.km is None and told.delivery != "pickup":
        asks.append("delivery")
    if told.posted_on is not None and (as_of - told.posted_on).days > _OLD_DAYS:
        asks.append("still_there")
    return tuple(asks)
