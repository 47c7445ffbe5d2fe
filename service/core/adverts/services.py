"""Is work offered and not goods, or are goods let and not sold?"""

from service.core.adverts.hired_out import is_hired_out
from service.core.adverts.lessons import offers_plans
from service.core.adverts.scene import Scene
from service.core.adverts.walk import CURRENCIES, INVERTERS, MONEY_UNITS, PANELS

_GOODS = PANELS | INVERTERS | {"set_one", "set_many"}
_OF_GOODS = ("selling", "used", "unused", "each", "pickup", "voc")
_FIRST_TITLE, _NEAR, _AROUND = 2, 6, 8


def is_service(scene: Scene, kind: str) -> bool:
    """Is it work on somebody's panels that is offered, or are goods only hired out?"""
    served = [scene.items[at] for at in scene.said("service")]
    if any(_heads(scene, at) for at in scene.by_what.get("service_title", [])) and not any(
        scene.by_what.get(what) for what in ("selling", "used", "unused", "d:cracked_glass")
    ):
        return True
    if offers_plans(scene) or is_hired_out(scene):
        return True
    if not served:
        return False
    told = {tuple(scene.tokens[one.field][one.at : one.to]) for one in served}
    rated = "W" in scene.units or "voc" in scene.by_what
    if len(told) > 1 and (not rated or not any(scene.by_what.get(what) for what in _OF_GOODS)):
        return True
    if kind == "other" or any(one.field == 0 for one in served):
        return "W" not in scene.units or kind == "other"
    return not any(item.unit in CURRENCIES or item.unit == "W" for item in scene.items)


def _heads(scene: Scene, place: int) -> bool:
    """Does a word for work begin the title, or end one that begins with goods: "solar panel cleaning"?"""
    item = scene.items[place]
    if item.field or item.at < _FIRST_TITLE:
        return item.field == 0
    before = scene.before(place)
    ends = item.to == len(scene.tokens[0])
    return ends and before is not None and before.what in _GOODS and before.to == item.at and "W" not in scene.units


def is_let(scene: Scene) -> bool:
    """Are goods let: does such a word stand near goods in its clause, or by an amount for so long, and is none sold?"""
    if "let" not in scene.by_what or "selling" in scene.by_what:
        return False
    for place in scene.said("let"):
        item = scene.items[place]
        near = [one for one in scene.ahead(place, 5) if one.at - item.to <= _NEAR]
        near += [one for one in scene.back(place, 5) if item.at - one.to <= _NEAR]
        if any(one.what in _GOODS and one.clause == item.clause for one in near):
            return True
        tokens = scene.tokens[item.field][max(item.at - _AROUND, 0) : item.to + _AROUND]
        if any(one.unit in MONEY_UNITS for one in near) and not scene.small.hire_times.isdisjoint(tokens):
            return True
    return False
