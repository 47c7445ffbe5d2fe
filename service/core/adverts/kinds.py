"""How many kinds of panels are told, and how many of each: "two kinds of panel, 5 of each kind"?"""

from service.core.adverts.asked_roles import KINDS
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_GOODS = ("panel_one", "panel_many", "inverter_one", "inverter_many")
_MOST_KINDS, _TO_GOODS, _TO_EACH = 10, 3, 3  # pieces


def kinds_of_goods(scene: Scene) -> int | None:
    """The place of the number that counts kinds of goods, which is no number of pieces; None where none does."""
    if not scene.roles & KINDS:
        return None
    for place in scene.units.get("", []):
        item = scene.items[place]
        tokens = scene.tokens[item.field]
        if not 1 < item.value <= _MOST_KINDS or not scene.small.kinds.issuperset(tokens[item.to : item.to + 1] or [""]):
            continue
        if any(one.what in _GOODS and one.at - item.to <= _TO_GOODS for one in scene.ahead(place, 4)):
            return place
    return None


def pieces_of_kinds(scene: Scene, kinds: int) -> int | None:
    """Kinds times how many there are of each; None where that is not told."""
    told = {scene.items[at].value for at in scene.units[""] if at != kinds and _of_each(scene, scene.items[at])}
    return int(scene.items[kinds].value * told.pop()) if len(told) == 1 else None


def _of_each(scene: Scene, item: Item) -> bool:
    """As in "5 of each kind", "je 5 Stück"?"""
    if item.what != NUMBER or item.value % 1 or item.value < 1:
        return False
    tokens, small = scene.tokens[item.field], scene.small
    if item.at and tokens[item.at - 1] in small.per_so_many and scene.stands("piece", item.field, item.to):
        return True
    behind = tokens[item.to : item.to + _TO_EACH]
    named = not (small.kinds.isdisjoint(behind) and small.kind.isdisjoint(behind))
    return named and not small.by_set.isdisjoint(behind)
