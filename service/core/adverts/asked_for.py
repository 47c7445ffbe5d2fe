"""Who is asked: whether somebody sells such goods ("Is anyone selling two panels?"), or a buyer what he looks for?"""

from collections.abc import Iterable

from service.core.adverts.scene import Scene
from service.core.adverts.walk import CURRENCIES, MONEY_UNITS, NUMBER, Item

QUESTION_ENDS = frozenset((".", "!", "?", "\n", ";"))
_SELLING = frozenset(("sells", "selling"))
_GOODS = ("panel_", "inverter_", "set_")
_FARTHEST = 40  # pieces to the end of a question
_FIRST_WORDS, _NEAR = 4, 3
_MOST_BEFORE = 20  # pieces before it in its sentence
_NO_GOODS = frozenset(("needed", "stock"))  # "I have need of"
_OF_NEEDED = frozenset(("used", "unused", "new", "several", "between", "piece", "needed", "wanted", "each", "part"))


def is_asked_for(scene: Scene) -> bool:
    """Does a question hold somebody and a word for selling, while nothing is sold or priced elsewhere?"""
    for place in scene.by_what.get("someone", []):
        item = scene.items[place]
        near = (*scene.back(place), *scene.ahead(place))
        if any(one.what in _SELLING for one in near) and _is_question(scene, item) and not _priced(scene, item):
            return not any(scene.items[at].sentence != item.sentence for at in scene.by_what.get("selling", []))
    return False


def needs_goods(scene: Scene) -> bool:
    """Does a title or a text begin with goods that somebody needs: "need two panels", "panels needed"?

    Who sells tells of a need too ("I need the space"), so goods must stand directly beside, and no price elsewhere.
    """
    for place in scene.by_what.get("needed", []):
        item = scene.items[place]
        if not scene.tells("bid", "someone") and asks_a_buyer(scene, place):
            continue
        before = [one for one in scene.back(place) if one.what not in _NO_GOODS and one.to <= item.at]
        if not item.field and before and before[0].what.startswith(_GOODS) and _is_all(scene, before, item):
            return True
        if item.at >= _FIRST_WORDS or before or scene.denied(place) or not _goods_next(scene, place, item):
            continue
        if not item.field:
            return True
        if not (scene.price or scene.tells("selling", "giveaway") or _priced(scene, item)):
            return True
    return False


def _goods_next(scene: Scene, place: int, item: Item) -> bool:
    """Do goods stand behind it, with nothing but their number, watts and age between?"""
    to = item.to
    for one in scene.ahead(place, 6):
        if one.at < item.to:
            continue  # a further meaning of the same word
        if one.clause != item.clause or one.at - to > _NEAR:
            return False
        if one.what.startswith(_GOODS):
            return True
        if one.unit not in {"", "W"} or (one.what != NUMBER and one.what not in _OF_NEEDED):
            return False
        to = one.to
    return False


def _is_all(scene: Scene, before: list[Item], item: Item) -> bool:
    """Is a title nothing but goods and that they are needed?"""
    tokens = scene.tokens[item.field]
    known = (*_GOODS, *_OF_NEEDED, NUMBER)
    alone = all(one.what.startswith(known) and one.clause == item.clause for one in before)
    return alone and item.at - before[0].to <= 1 and (item.to >= len(tokens) or tokens[item.to] in QUESTION_ENDS)


def asks_a_buyer(scene: Scene, place: int) -> bool:
    """Does a seller ask what the reader looks for, with goods at a price behind it: "Looking for panels? 12 at £18"?"""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    if not scene.small.anybody.isdisjoint(tokens[item.at : item.to]) or tokens[item.to : item.to + 1] == [":"]:
        return False  # "Anyone got a spare one?", "Wanted: panels. Have you any?"
    start = item.at
    while start and tokens[start - 1] not in QUESTION_ENDS and item.at - start < _MOST_BEFORE:
        start -= 1
    end = next((at for at in range(item.to, min(item.to + _FARTHEST, len(tokens))) if tokens[at] in QUESTION_ENDS), 0)
    if not end or tokens[end] != "?":
        return False
    if not scene.small.to_you.issuperset(tokens[start : item.at]) and not _goods_asked_for(scene, place, start, end):
        return False
    small = scene.small
    if not small.helpers.isdisjoint(tokens[item.to : end]) or not small.buyer_pays.isdisjoint(tokens[end:]):
        return False
    units, known = scene.units, scene.by_what
    amounts = [units[unit] for unit in units.keys() & MONEY_UNITS]
    goods = [units.get("W", []), *(known[what] for what in known if what.startswith(_GOODS))]
    behind = (item.field, end)
    return (bool(scene.price) or _any_behind(scene, amounts, behind)) and _any_behind(scene, goods, behind)


def _any_behind(scene: Scene, rows: Iterable[list[int]], behind: tuple[int, int]) -> bool:
    """Does the last place of one of the rows stand behind a piece of a field?"""
    lasts = (scene.items[row[-1]] for row in rows if row)
    return any((one.field, one.at) > behind for one in lasts)


def _goods_asked_for(scene: Scene, place: int, start: int, end: int) -> bool:
    """Is a question nothing but goods and that they are wanted: "Cheap panels wanted?", while nobody offers to pay?"""
    item = scene.items[place]
    goods = [one for one in scene.back(place) if one.what.startswith(_GOODS) and one.at >= start]
    known = {at for one in goods for at in range(one.at, one.to)}
    others = [at for at in range(start, item.at) if at not in known and scene.tokens[item.field][at].isalnum()]
    return bool(goods) and end == item.to and len(others) <= 1 and not scene.tells("bid", "someone")


def _is_question(scene: Scene, item: Item) -> bool:
    tokens = scene.tokens[item.field]
    return next((word for word in tokens[item.to : item.to + _FARTHEST] if word in QUESTION_ENDS), "") == "?"


def _priced(scene: Scene, item: Item) -> bool:
    """Is an amount of money told outside the question?"""
    return any(scene.items[at].sentence != item.sentence for unit in CURRENCIES for at in scene.units.get(unit, []))
