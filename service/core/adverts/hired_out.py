"""Are the goods themselves only let: "for hire by the month, not for sale", "the panels are only hired out"?

Vans, trailers and homes are let, too; so nothing but the goods may stand before such words in their sentence.
"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, MONEY_UNITS, NUMBER, PANELS, Item

_LET = "let_only"
_GOODS = PANELS | INVERTERS | {"set_one", "set_many"}
_BESIDE = _GOODS | {NUMBER, "piece", "all", "per_set", "each", "plus"}
_SENTENCE_ENDS = frozenset(".!?;\n|")
_ENDS = _SENTENCE_ENDS | frozenset(",:()-/")
_FARTHEST, _TO_TIME = 12, 8  # pieces


def is_hired_out(scene: Scene) -> bool:
    """Is it so, and nothing told to be sold?"""
    if _LET not in scene.by_what or any(not _taken_back(scene, at) for at in scene.by_what.get("selling", ())):
        return False
    return any(_of_goods(scene, scene.items[at]) and _told(scene, scene.items[at]) for at in scene.said(_LET))


def _taken_back(scene: Scene, place: int) -> bool:
    """Is it "not for sale"?"""
    item = scene.items[place]
    return scene.denied(place) or not scene.small.order_not.isdisjoint(
        scene.tokens[item.field][max(item.at - 2, 0) : item.at]
    )


def _of_goods(scene: Scene, item: Item) -> bool:
    """Does nothing but the goods and light words stand before it in its sentence?"""
    tokens, light = scene.tokens[item.field], scene.small.beside_broken
    place = next(at for at in scene.by_what[_LET] if scene.items[at] is item)
    known = {at for one in scene.back(place, 8) if one.what in _BESIDE for at in range(one.at, one.to)}
    for at in range(item.at - 1, max(item.at - _FARTHEST, 0) - 1, -1):
        if tokens[at] in _SENTENCE_ENDS:
            return True
        if at not in known and tokens[at] not in light and tokens[at] not in scene.small.before_plural:
            return False
    return item.at <= _FARTHEST


def _told(scene: Scene, item: Item) -> bool:
    """Does its clause end there, and is it for so long, or are they not for sale?"""
    tokens, small = scene.tokens[item.field], scene.small
    behind = tokens[item.to : item.to + _TO_TIME]
    if behind and behind[0] not in _ENDS and behind[0] not in small.hire_times and behind[0] not in small.per:
        return False
    if not small.nothing_else.isdisjoint(tokens[item.at : item.to]) or not small.only_yet.isdisjoint(
        tokens[item.at : item.to]
    ):
        return True
    timed = not small.hire_times.isdisjoint(tokens[item.at : item.to + _TO_TIME])
    return timed and ("selling" in scene.by_what or not _asked_elsewhere(scene, item))


def _asked_elsewhere(scene: Scene, item: Item) -> bool:
    """Is there another price, which is then that of the goods: "£60 each. For hire, £25 a day: a trailer"?"""
    amounts = [one for one in scene.items if one.unit in MONEY_UNITS]
    return bool(scene.price) or any(one.sentence != item.sentence for one in amounts)
