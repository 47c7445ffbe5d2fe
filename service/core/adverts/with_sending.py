"""What does sending cost where a price with it and one without it are told: "60 €, with postage 66 €"?"""

from operator import attrgetter

from service.core.adverts.reading import Price
from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_TELLING = frozenset(("delivered", "sent", "shipping"))
_NEAR = 3
_NO_PRICE_SHARE, _LEAST_SHARE = 0.5, 0.3  # of the other amount


def price_with_sending(scene: Scene, others: list[Item], cost: float | None) -> Item | None:
    """The amount that is told to have sending in it, where another one of ``others`` is less.

    Or so much more that it may be the cost of sending, which nobody knows then: "60 €, with postage 6 € more".
    ``cost``: what sending is already known to cost.
    """
    if len({cost, *(other.value for other in others)} - {None, 0.0}) < 2:
        return None
    ordered: list[Item] = []
    for place in scene.places(_TELLING):
        one = scene.items[place]
        tokens = scene.tokens[one.field]
        start = one.at - 1 if one.at and tokens[one.at - 1] in scene.small.with_sending else one.at
        if (one.what == "shipping" and start == one.at) or scene.denied(place):
            continue
        amount = _amount(scene, place, start, tokens)
        if amount is None:
            continue
        ordered = ordered or sorted(others, key=attrgetter("value"))
        least = next((one for one in ordered if one is not amount and not _part_of(scene, one, amount)), None)
        if least is None:
            continue
        if _LEAST_SHARE * amount.value <= least.value < amount.value:
            return amount
        if amount.value < _NO_PRICE_SHARE * least.value and amount.value != cost:
            return amount
    return None


def cost_by_difference(price: Price, dear: Item, quantity: int | None) -> float | None:
    """The cost of sending by a price with it; None where one of the two may be for another number of pieces."""
    if price.value is None or price.value >= dear.value:
        return None
    if price.basis == "each" and quantity != 1:
        return None
    return round(dear.value - price.value, 2)


def _amount(scene: Scene, place: int, start: int, tokens: list[str]) -> Item | None:
    """The amount directly before the words for sending, or else directly behind them."""
    end = scene.items[place].to
    before = next((one for one in scene.back(place, 4) if _is_money(one) and one.to <= start), None)
    behind = next((one for one in scene.ahead(place, 4) if _is_money(one) and one.at >= end), None)
    joining = scene.small.sending_joining
    if behind is not None and behind.at - end <= _NEAR and joining.issuperset(tokens[end : behind.at]):
        between = tokens[before.to : start] if before is not None else []
        if before is None or not scene.small.sending_or.isdisjoint(between) or start - before.to > 1:
            return behind
    if before is None or start - before.to > 1:
        return None
    return before if tokens[before.to : start] in ([], ["("]) else None


def _part_of(scene: Scene, other: Item, amount: Item) -> bool:
    """Is it told in brackets what is in the amount: "£95 posted (£8 incl)"?"""
    if other.field != amount.field or not 0 < other.at - amount.to <= 2 * _NEAR:
        return False
    return "(" in scene.tokens[other.field][max(other.at - 2, amount.to) : other.at]


def _is_money(one: Item) -> bool:
    return one.what == NUMBER and one.unit in MONEY_UNITS
