"""Is a part of more offered: "selling 4 of 12", "of 8 panels 3 are left"; or as many as are paid for: "£90 for ten"?"""

from itertools import takewhile

from service.core.adverts.asked_roles import PART_LEFT
from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_MOST = 5000
_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "set_many", "piece", "other_goods"))
_OF_FAULTS = frozenset(("d:", "s:", "p:"))
_ENDS = frozenset(".,;!?)\n")
_FARTHEST, _TO_ALL, _TO_LEFT, _TO_REST = 8, 5, 3, 16


def of_more(scene: Scene) -> int | None:
    """The number of pieces that are sold or left of a greater number in the same sentence; None where none is told."""
    places = scene.units.get("", [])
    if len(places) < 2:
        return None
    left = scene.field_roles[1] & PART_LEFT > 0
    if not left and not scene.tells("selling", "stock", "between", "origin"):
        return None
    for number in range(len(places) - 1):
        first, second = places[number], places[number + 1]
        one, two = scene.items[first], scene.items[second]
        if one.sentence != two.sentence or two.at - one.to > _FARTHEST or not (_whole(one) and _whole(two)):
            continue
        if one.value < two.value:
            if left and two.at - one.to <= _TO_ALL and _left_of(scene, (first, second), one, two):
                return int(one.value)
            of = _of(scene, scene.tokens[one.field][one.to : two.at])
            if of and _sold(scene, first, one) and _goods(scene, second):
                return int(one.value)
            continue
        if not (_stock(scene, first) or _goods(scene, first)):
            continue
        rest = (
            two
            if one.value > two.value and _sold(scene, second, two)
            else _rest(scene, places, number, one)
            if left
            else None
        )
        if rest is not None:
            return int(rest.value)
    return None


def _rest(scene: Scene, places: list[int], number: int, one: Item) -> Item | None:
    """As in "of 8 panels 3 are left", "of 8 panels 5 are up, 3 are left". ``number``: which of the places it is at."""
    for following in range(number + 1, len(places)):
        two = scene.items[places[following]]
        if two.sentence != one.sentence or two.at - one.to > _TO_REST:
            return None
        if _whole(two) and two.value < one.value and _left(scene, one, two):
            return two
    return None


def _whole(item: Item) -> bool:
    return 0 < item.value <= _MOST and item.value == int(item.value) and item.glued not in {"-", "/", "x", "."}


def _sold(scene: Scene, place: int, item: Item) -> bool:
    """Does a word for selling stand directly before it?"""
    before = scene.before(place)
    return before is not None and before.what == "selling" and item.at - before.to <= 1 and before.clause == item.clause


def _of(scene: Scene, between: list[str]) -> bool:
    """Is it nothing but "of", "of my"?"""
    small = scene.small
    return bool(between) and between[0] in small.part_of and small.part_articles.issuperset(between[1:])


def _goods(scene: Scene, place: int) -> bool:
    """Do goods stand close behind it?"""
    item = scene.items[place]
    for one in scene.ahead(place, 4):
        if one.what == NUMBER and not one.unit:
            return False
        if one.what in _GOODS:
            return one.at - item.to <= 2
    return False


def _stock(scene: Scene, place: int) -> bool:
    before = scene.before(place)
    return before is not None and before.what == "stock" and scene.items[place].at - before.to <= 1


def _left_of(scene: Scene, places: tuple[int, int], one: Item, two: Item) -> bool:
    """As in "7 left of the 20", "noch 7 von 20 übrig", and no fault is told of them?"""
    tokens = scene.tokens[one.field]
    between = tokens[one.to : two.at]
    small = scene.small
    of = int(bool(between) and between[0] in small.part_of)
    if between[of : of + 1] and between[of] in small.them:
        between = between[of + 1 :]  # "12 of them left out of 30"
    told = between[:1] if between[:1] and between[0] in scene.small.part_left else []
    if not _of(scene, between[len(told) :]) or any(item.what[:2] in _OF_FAULTS for item in scene.ahead(places[0])):
        return False
    before, behind = tokens[max(one.at - 2, 0) : one.at], tokens[two.to : two.to + 2]
    if before and before[-1] in scene.small.still and _goods(scene, places[1]):
        return _ends_there(scene, tokens[two.to + 1 : two.to + 3])
    if before and before[-1] not in small.part_left and behind[:1] and behind[0] in small.part_left:
        return of > 0 and _ends_there(scene, behind[1:])  # "9 of 20 left"
    return bool(told) or not (scene.small.part_left.isdisjoint(before) or scene.small.part_left.isdisjoint(behind))


def _ends_there(scene: Scene, behind: list[str]) -> bool:
    """Does nothing but their being there follow the goods?"""
    there = scene.small.still_there | scene.small.part_left
    return not behind or any(word in _ENDS or word in there for word in behind)


def _left(scene: Scene, one: Item, two: Item) -> bool:
    """As in "of 8 panels 3 are left"?"""
    tokens, left = scene.tokens[one.field], scene.small.part_left
    if scene.small.part_of.isdisjoint(tokens[max(one.at - 2, 0) : one.at]):
        return False
    before = list(takewhile(lambda word: word not in _ENDS, reversed(tokens[max(one.to, two.at - _TO_LEFT) : two.at])))
    behind = list(takewhile(lambda word: word not in _ENDS, tokens[two.to : two.to + _TO_LEFT]))
    return not (left.isdisjoint(before) and left.isdisjoint(behind))


def paid_for_several(scene: Scene) -> int | None:
    """How many an amount is for that stands behind it, alone; nought: there are more amounts; None: none is."""
    places = scene.by_what.get("for", [])
    amounts = sum(len(scene.units[unit]) for unit in scene.units.keys() & MONEY_UNITS) if places else 0
    for place in places if amounts else []:
        one, amount, count = scene.items[place], scene.before(place), scene.behind(place)
        if amount is None or count is None or amount.unit not in MONEY_UNITS or amount.to != one.at:
            continue
        if count.what != NUMBER or count.unit or count.at != one.to or not 1 < count.value <= _MOST:
            continue
        tokens = scene.tokens[one.field]
        if count.to >= len(tokens) or tokens[count.to] in _ENDS:
            return int(count.value) if amounts == 1 else 0
    return None
