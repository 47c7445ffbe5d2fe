"""Is sending free only from some amount or number on: "free delivery over £200", "ab 200 € liefern wir frei Haus"?"""

from collections.abc import Iterator
from itertools import chain, takewhile

from service.core.adverts.asked_roles import FREE_FROM
from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_FREE = ("delivered", "giveaway")
_SENDING = frozenset(("shipping", "bring", "delivered"))
_TO_AMOUNT, _TO_FREE, _TO_SENDING, _MOST, _TO_NUMBER, _TO_BASKET = 4, 8, 5, 6, 4, 5
_COUNTING = MONEY_UNITS | {""}
_ENDS = frozenset(".!?\n")
_ROLES = frozenset(("each", "lot", "per_set"))
_PIECES = ("panel_many", "piece", "inverter_many")


def leave_out_free_from(scene: Scene) -> None:
    """Such sending costs what nobody knows, and the amount is no price."""
    if not scene.roles & FREE_FROM:
        return
    for what in _FREE:
        for place in tuple(scene.by_what.get(what, [])):
            if what != "delivered" and not _of_sending(scene, place):
                continue
            amounts = list(_from_amounts(scene, place))
            if amounts or _from_pieces(scene, place):
                _drop(scene.by_what, what, place)
                scene.by_what.setdefault("shipping", []).append(place)
            for at in amounts:
                if scene.items[at].unit:
                    _drop(scene.units, scene.items[at].unit, at)


def _from_amounts(scene: Scene, place: int) -> Iterator[int]:
    """Places of amounts and of numbers of pieces in the sentence from which on it is free."""
    free = scene.items[place]
    for at in range(max(place - _MOST, 0), min(place + _MOST, len(scene.items))):
        item = scene.items[at]
        if item.what != NUMBER or item.sentence != free.sentence or item.unit not in _COUNTING:
            continue
        if _of_basket(scene, item):
            yield at
            continue
        if not _may_be(scene, at, item):
            continue
        behind = 0 <= item.at - free.to <= _TO_FREE and item.clause == free.clause
        first = 0 <= free.at - item.to <= _TO_FREE and _begins(scene, at)
        if behind or first:
            yield at


def _from_pieces(scene: Scene, place: int) -> bool:
    """Is a number of pieces told from which on it is free, in one phrase: "frei Haus ab 10 Stück"?"""
    free = scene.items[place]
    return any(one.what == "tier" and one.clause == free.clause and one.at - free.to <= _TO_FREE
               and not scene.small.from_so_much.isdisjoint(scene.tokens[one.field][one.at : one.to])
               and _numbered(scene, one)
               for one in scene.ahead(place, 6))  # fmt: skip


def _numbered(scene: Scene, tier: Item) -> bool:
    """Does a number follow, so that it is not "from today on"?"""
    if any(word.isdigit() for word in scene.tokens[tier.field][tier.at : tier.to + 2]):
        return True
    return any(scene.items[at].spelled and scene.items[at].field == tier.field
               and 0 <= scene.items[at].at - tier.at <= _TO_NUMBER for at in scene.by_what.get(NUMBER, []))  # fmt: skip


def _of_basket(scene: Scene, item: Item) -> bool:
    """Is it money that a basket or an order has to come to, and another amount is told as well?"""
    if item.unit not in MONEY_UNITS:
        return False
    tokens, basket = scene.tokens[item.field], scene.small.basket
    before = takewhile(lambda word: word not in _ENDS, reversed(tokens[max(item.at - _TO_BASKET, 0) : item.at]))
    behind = takewhile(lambda word: word not in _ENDS, tokens[item.to : item.to + _TO_BASKET])
    if basket.isdisjoint(before) and basket.isdisjoint(behind):
        return False
    told = (scene.items[at].value for unit in scene.units.keys() & MONEY_UNITS for at in scene.units[unit])
    fields = (one.value for one in scene.price if one.what == NUMBER)
    return any(value != item.value for value in chain(told, fields))


def _may_be(scene: Scene, at: int, item: Item) -> bool:
    """Is it money or a number of pieces with a word for "over" or "from" close before it?"""
    tokens = scene.tokens[item.field]
    if scene.small.from_so_much.isdisjoint(tokens[max(item.at - _TO_AMOUNT, 0) : item.at]):
        return False
    if item.unit in MONEY_UNITS:
        return not any(one.what in _ROLES and one.at == item.to for one in scene.ahead(at, 3))
    return not item.unit and any(scene.stands(what, item.field, item.to) for what in _PIECES)


def _begins(scene: Scene, at: int) -> bool:
    """Does the sentence begin with "from" and that amount?"""
    item, tokens = scene.items[at], scene.tokens[scene.items[at].field]
    before = tokens[max(item.at - _TO_AMOUNT, 0) : item.at]
    start = next(number for number, word in enumerate(before) if word in scene.small.from_so_much)
    first = item.at - len(before) + start
    return first < 2 or tokens[first - 1] in ".!?\n;" or tokens[first - 2] in ".!?\n;"


def _of_sending(scene: Scene, place: int) -> bool:
    free = scene.items[place]
    near = (*scene.back(place, 4), *scene.ahead(place, 4))
    return any(one.what in _SENDING and abs(one.at - free.at) <= _TO_SENDING for one in near)


def _drop(places: dict[str, list[int]], name: str, place: int) -> None:
    kept = [at for at in places.get(name, ()) if at != place]
    if kept:
        places[name] = kept
    else:
        places.pop(name, None)
