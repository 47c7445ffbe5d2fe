"""Are panels and an inverter offered one beside the other, each at a price of its own, and not as a set?"""

from service.core.adverts.other_amounts import without_amounts
from service.core.adverts.scene import Scene, measured_in
from service.core.adverts.walk import CURRENCIES, INVERTERS, MONEY_UNITS, PANELS, Item

_GOODS = {"panel_one": "panel", "panel_many": "panel", "inverter_one": "inverter", "inverter_many": "inverter"}
_TOGETHER = ("lot", "per_set", "whole", "apart_too")
_NOT_ASKED = frozenset(("new_price", "shipping", "bring", "bought", "paid_behind", "bought_behind", "extra"))
_FAR, _NEAR, _TO_FOR = 8, 2, 2
_FOR = frozenset(("for", "takes"))
ONE_OF_TWO = frozenset(("panel", "inverter"))


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


def leave_out_the_others(scene: Scene, kind: str) -> None:
    """Amounts told of the inverter are no price of the panels beside which it is sold, and the other way round.

    Only where both are said to be sold apart and each has an amount of its own: "separately: inverter £90, panels £60".
    """
    if not scene.tells("apart", "apart_too") or scene.tells("lot", "per_set", "whole"):
        return  # or all of it has a price, too
    if not (scene.tells(*INVERTERS) and scene.tells(*PANELS)):
        return
    amounts = measured_in(scene, *MONEY_UNITS)
    owners = {at: _owner(scene, at) for at in amounts} if len(amounts) > 1 else {}
    if not ONE_OF_TWO.issubset(owners.values()):
        return
    without_amounts(scene, amounts, {at for at, owner in owners.items() if owner not in {kind, None}})


def _owner(scene: Scene, place: int) -> str | None:
    """The goods named last before an amount; none where something else is told of it."""
    for one in scene.back(place, _FAR):
        if one.unit in CURRENCIES or one.what in _NOT_ASKED:
            return None
        if one.what in _GOODS and not _only_for(scene, place, one):
            return _GOODS[one.what]
    return None


def _only_for(scene: Scene, place: int, goods: Item) -> bool:
    """Are the goods only what others are for: "inverter for 2 panels 90 euro"?"""
    return any(one.what in _FOR and 0 <= goods.at - one.to <= _TO_FOR and one.clause == goods.clause
               for one in scene.back(place, _FAR + _TO_FOR))  # fmt: skip


def _each(scene: Scene, place: int) -> bool:
    """Does "each" stand beside an amount?"""
    item = scene.items[place]

    def beside(one: Item) -> bool:
        return one.what == "each" and one.clause == item.clause and max(one.at - item.to, item.at - one.to) <= _NEAR

    return any(map(beside, (*scene.back(place, 3), *scene.ahead(place, 3))))
