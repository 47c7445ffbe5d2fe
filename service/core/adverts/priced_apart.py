"""Are panels and an inverter offered one beside the other, each at a price of its own, and not as a set?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import CURRENCIES, MONEY_UNITS, Item

_GOODS = {"panel_one": "panel", "panel_many": "panel", "inverter_one": "inverter", "inverter_many": "inverter"}
_TOGETHER = ("lot", "per_set", "whole", "apart_too")
_NOT_ASKED = frozenset(("new_price", "shipping", "bring", "bought", "paid_behind", "bought_behind", "extra"))
_FAR, _NEAR = 8, 2


def priced_apart(scene: Scene) -> bool:
    """Are they sold apart, with one amount for each panel, the only other one for the inverter?"""
    if not (scene.tells("apart") and scene.tells("each")) or scene.tells(*_TOGETHER):
        return False
    amounts = sorted(at for unit in MONEY_UNITS for at in scene.units.get(unit, []))
    if len(amounts) != 2 or len({scene.items[at].value for at in amounts}) != 2:
        return False
    owners = [_owner(scene, at) for at in amounts]
    if sorted(filter(None, owners)) != ["inverter", "panel"]:
        return False
    return _each(scene, amounts[owners.index("panel")])


def _owner(scene: Scene, place: int) -> str | None:
    """The goods named last before an amount; none where something else is told of it."""
    for one in scene.back(place, _FAR):
        if one.unit in CURRENCIES or one.what in _NOT_ASKED:
            return None
        if one.what in _GOODS:
            return _GOODS[one.what]
    return None


def _each(scene: Scene, place: int) -> bool:
    """Does "each" stand beside an amount?"""
    item = scene.items[place]

    def beside(one: Item) -> bool:
        return one.what == "each" and one.clause == item.clause and max(one.at - item.to, item.at - one.to) <= _NEAR

    return any(map(beside, (*scene.back(place, 3), *scene.ahead(place, 3))))
