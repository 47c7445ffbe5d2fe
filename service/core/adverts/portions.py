"""For how many of the goods is an amount asked: some of them, or the panels of a set?"""

from service.core.adverts.goods import Goods
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_SIGNS = frozenset("€£$")
_OF_SOME = ("panel_", "inverter_", "piece", "each", "between", "for", NUMBER)
_NEAR = 2


def for_some(scene: Scene, place: int, before: list[Item], goods: Goods) -> bool:
    """Is it what some of them cost: "two for 100", "10 Stück für 450", "if you take six, 180"?

    ``before``: what stands before the amount, nearest first.
    """
    if len(before) > 1:
        first, second = before[:2]
        if first.what == "for" and second.what == NUMBER and not second.unit:
            return 1 < second.value < (goods.quantity or 0)
        if first.what == NUMBER and not first.unit and second.what == "tier":
            return True
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    at = item.at - 1
    while at > 0 and tokens[at] in _SIGNS:
        at -= 1
    if at < 1 or tokens[at] not in scene.small.paid_for:
        return False
    end = at
    for one in scene.back(place, 6):
        if one.at >= at:
            continue
        if one.clause != item.clause or end - one.to > _NEAR or not one.what.startswith(_OF_SOME):
            return False
        if one.what == NUMBER:
            return not one.unit and 1 < one.value < (goods.quantity or 0) and not one.glued
        end = min(end, one.at)
    return False


def of_panels_in_set(scene: Scene, place: int) -> bool:
    """Does an amount "each" stand behind counted panels, with no set or inverter before it in its sentence?"""
    item = scene.items[place]
    panels = counted = False
    for one in scene.back(place):
        if one.what.startswith(("inverter_", "set_", "other_goods")):
            return False
        if one.what == NUMBER and not one.unit and one.value > 1 and panels and item.clause - one.clause <= 1:
            counted = True
        panels = panels or one.what.startswith("panel_")
    return counted
