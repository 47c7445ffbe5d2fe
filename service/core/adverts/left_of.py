"""How many are left, told by a bare number behind the counted goods: "20 panels. 11 gone", "only 9 now"?"""

from itertools import takewhile

from service.core.adverts.asked_roles import LEFT_OF_COUNTED
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "piece"))
_MOST, _TO_GOODS, _BETWEEN = 5000, 2, 3
_TO_REST, _TO_USED = 12, 6


def left_of_counted(scene: Scene) -> int | None:
    """The pieces left of the counted ones; None where no number is told to be left or gone, or several may be."""
    counts = scene.units.get("", [])
    if len(counts) <= 1 or not scene.field_roles[1] & LEFT_OF_COUNTED:
        return None
    whole = {scene.items[at].value: at for at in reversed(counts) if _counts_goods(scene, at)}
    if len(whole) != 1:
        return None
    [(value, first)] = whole.items()
    if any(scene.items[at].value == value and scene.items[at].sentence > scene.items[first].sentence for at in counts):
        return None  # "20 panels. Sold 5 others, these 20 are here"
    told = {_left(scene, at, value) for at in counts if at > first and scene.items[at].value < value}
    told.discard(None)
    return told.pop() if len(told) == 1 else None


def _counts_goods(scene: Scene, place: int) -> bool:
    items, item = scene.items, scene.items[place]
    if item.value <= 1 or not _is_count(item):
        return False
    for at in range(place + 1, min(place + 4, len(items))):  # as Scene.ahead, without a row of them
        one = items[at]
        if one.sentence != item.sentence:
            break
        if one.what in _GOODS:
            return one.at - item.to <= _TO_GOODS
    return False


def _left(scene: Scene, place: int, whole: float) -> int | None:
    """The pieces left as this number tells, directly beside a word for left, gone or sold."""
    item, small = scene.items[place], scene.small
    tokens = scene.tokens[item.field]
    if not item.field or not _is_count(item):
        return None
    behind = tokens[item.to : item.to + _BETWEEN + 2]
    said, last = next(((word, at) for at, word in enumerate(behind) if word not in small.left_linking), (".", 0))
    further = next((word for word in behind[last + 1 :] if word not in small.left_linking), "")
    ended = not further.isalnum()
    before = tokens[max(item.at - 2, 0) : item.at]
    ends = not said.isalnum()
    over_before = not small.left_over.isdisjoint(before[-1:])
    only = not small.only_yet.isdisjoint(before[-1:])
    yet = only and (before[0] in small.yet or not small.yet.isdisjoint(behind[:last]))
    over = said in small.left_over and (ended or said not in small.from_so_much)  # not "3 over 2 m long"
    between = (*tokens[item.at : item.to], *behind[:last])
    here = said in small.still_there and not small.still.isdisjoint(between)  # "2 sind noch da"
    if over or (here and ended) or (ends and (over_before or yet)):
        return int(item.value)
    gone_before = bool(before) and before[-1] in small.gone_by_now and before[0] in small.yet  # "já foram 11"
    sold_before = gone_before or not small.sold_some.isdisjoint(before[-1:])
    if (ended and (said in small.gone_by_now or said in small.sold_some)) or (ends and sold_before):
        return int(whole - item.value)
    return int(whole - item.value) if _used_up(scene, item) else None


def _used_up(scene: Scene, item: Item) -> bool:
    """Are so many used by the seller, and the rest named behind: "10 Module, 6 verbaut, Rest je 40"?"""
    tokens, small = scene.tokens[item.field], scene.small
    behind = tokens[item.to : item.to + _TO_REST]
    if small.the_rest.isdisjoint(behind):
        return False
    clause = list(takewhile(str.isalnum, behind[:_TO_USED]))
    ends = not clause or clause[0] in small.joining or clause[0] in small.of_them
    before = item.at > 0 and tokens[item.at - 1] in small.used_before and ends
    return before or (bool(clause) and clause[-1] in small.used_up)


def _is_count(one: Item) -> bool:
    return one.what == NUMBER and not one.unit and 0 < one.value <= _MOST and one.value % 1 == 0 and not one.glued
