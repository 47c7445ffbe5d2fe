"""How many of the counted pieces are still there: "batch of 20 panels, 270 W, of these still 12 available"?"""

from service.core.adverts.asked_roles import OF_THESE
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many"))
_MOST, _TO_GOODS, _BETWEEN = 5000, 2, 2


def left_of_these(scene: Scene) -> int | None:
    """The pieces that are left of those counted before; None where no number is told so, or several are."""
    places = scene.units.get("", [])
    if len(places) < _TO_GOODS or not scene.field_roles[1] & OF_THESE:
        return None
    told: set[float] = set()
    whole: Item | None = None
    for place in places:
        item = scene.items[place]
        if not _is_count(item):
            continue
        if whole is not None and item.sentence == whole.sentence and item.value < whole.value:
            if _is_left(scene, item):
                told.add(item.value)
        elif _counts_goods(scene, place, item):
            whole = item
    return int(told.pop()) if len(told) == 1 else None


def _counts_goods(scene: Scene, place: int, item: Item) -> bool:
    return any(one.what in _GOODS and one.at - item.to <= _TO_GOODS for one in scene.ahead(place, 3))


def _is_left(scene: Scene, item: Item) -> bool:
    """Do "of these" and at most "still" stand before it, and a word for what is there behind it?"""
    small, tokens = scene.small, scene.tokens[item.field]
    before = tokens[max(item.at - _BETWEEN, 0) : item.at]
    if before and before[-1] in small.left_linking:
        before.pop()
    if not before or before[-1] not in small.of_these:
        return False
    to = item.to
    while tokens[to : to + 1] and tokens[to] in small.left_linking:
        to += 1
    return any(scene.stands(what, item.field, to) for what in ("stock", "left"))


def _is_count(one: Item) -> bool:
    return one.what == NUMBER and not one.unit and 0 < one.value <= _MOST and one.value % 1 == 0 and not one.glued
