"""Is a house, a boat or a vehicle sold that has panels: "camper van with a 200 W panel"?"""

from service.core.adverts.asked_roles import DWELLINGS
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, PANELS

_GOODS = PANELS | INVERTERS | {"set_one", "set_many"}
_FIRST, _LOOKED = 3, 14  # pieces


def sells_a_house(scene: Scene) -> bool:
    """Does title or body begin with one, and do goods stand behind a "with", or nowhere in the title?"""
    if not scene.roles & DWELLINGS:
        return False
    return any(roles & DWELLINGS and _begins(scene, field) for field, roles in enumerate(scene.field_roles[:2]))


def _begins(scene: Scene, field: int) -> bool:
    tokens, small = scene.tokens[field], scene.small
    at = next((at for at, word in enumerate(tokens[:_FIRST]) if word in small.dwellings), None)
    if at and tokens[at] in small.of_place:  # "was deel van een set" in Dutch
        return False
    if at is None or not small.of_place.isdisjoint(tokens[:at]):
        return False
    ends = [scene.items[place].at for what in scene.by_what.keys() & _GOODS for place in scene.by_what[what]
            if scene.items[place].field == field]  # fmt: skip
    first = min(ends, default=-1)
    between = tokens[at + 1 : first] if first > at else []
    return len(between) <= _LOOKED and not small.coming_with.isdisjoint(between)
