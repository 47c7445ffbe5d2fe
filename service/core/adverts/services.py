"""Is work offered and not goods, or are goods let and not sold?"""

from service.core.adverts.hired_out import is_hired_out
from service.core.adverts.lessons import offers_plans
from service.core.adverts.scene import Scene
from service.core.adverts.walk import CURRENCIES, INVERTERS, MONEY_UNITS, NUMBER, PANELS

_GOODS = PANELS | INVERTERS | {"set_one", "set_many"}
_OF_GOODS = ("selling", "used", "unused", "each", "pickup", "voc")
_FIRST_TITLE, _NEAR, _TO_TIME = 2, 6, 4
_ENDS = frozenset(".!?;\n|*•")


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
    """Are goods let, and none sold: is that said near goods in its clause, or does it begin a sentence with a rate?"""
    if "selling" in scene.by_what or not scene.tells("let", "let_maybe"):
        return False
    for place in scene.said("let"):
        item = scene.items[place]
        near = [one for one in scene.ahead(place, 5) if one.at - item.to <= _NEAR]
        near += [one for one in scene.back(place, 5) if item.at - one.to <= _NEAR]
        if any(one.what in _GOODS and one.clause == item.clause for one in near):
            return True
    rated = {
        at for place in (*scene.said("let"), *scene.said("let_maybe")) if (at := _rate_behind(scene, place)) is not None
    }
    return bool(rated) and _nothing_else_asked(scene, rated)


def _rate_behind(scene: Scene, place: int) -> int | None:
    """The place of the amount for so long that follows such a word where a sentence begins: "for hire, £40 a week".

    A trailer that somebody else lets has a name between or before: "trailer for hire, £25 a day".
    """
    item = scene.items[place]
    tokens, light = scene.tokens[item.field], scene.small.light_words
    if item.at and tokens[item.at - 1] not in _ENDS:
        return None
    for at in range(place + 1, min(place + 1 + _NEAR, len(scene.items))):
        one = scene.items[at]
        if one.field != item.field or one.at - item.to > _NEAR:
            return None
        if one.unit in MONEY_UNITS:
            between = tokens[item.to : one.at]
            behind = tokens[one.to : one.to + _TO_TIME]
            bare = all(not word[0].isalpha() or word in light for word in between)
            return at if bare and not scene.small.hire_times.isdisjoint(behind) else None
    return None


def _nothing_else_asked(scene: Scene, rated: set[int]) -> bool:
    """Is no other amount told, in the field of the price neither: that would be what the goods cost?"""
    values = {scene.items[at].value for at in rated}
    asked = [one for one in scene.price if one.unit in MONEY_UNITS or (one.what == NUMBER and not one.unit)]
    told = [scene.items[at] for unit in MONEY_UNITS for at in scene.units.get(unit, ())]
    return all(one.value in values for one in (*told, *asked))
