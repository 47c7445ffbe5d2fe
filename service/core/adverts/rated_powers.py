"""Is a greater power than the rated one told of a panel: "up to 540 W, rated 430 W" of one that takes light behind?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_TO_RATED = 2  # pieces


def without_up_to(scene: Scene, powers: list[Item]) -> list[Item]:
    """Powers of one panel, without those that it may reach at most, where another one is called the rated one."""
    if len(powers) < 2 or not {"rated", "range"} <= scene.by_what.keys():
        return powers
    limits = {(one.field, one.to) for one in (scene.items[at] for at in scene.by_what["range"])}
    up_to = [item for item in powers if (item.field, item.at) in limits]
    if not up_to:
        return powers
    names = [scene.items[at] for at in scene.by_what["rated"]]
    rated = [item for item in powers if item not in up_to and _is_rated(names, item)]
    if not rated:
        return powers
    least = min(item.value for item in rated)
    return [item for item in powers if item not in up_to or item.value <= least]


def _is_rated(names: list[Item], item: Item) -> bool:
    """Does one of the names stand directly before it or behind it?"""
    for one in names:
        if one.field != item.field or one.sentence != item.sentence:
            continue
        if 0 <= item.at - one.to <= _TO_RATED or (0 <= one.at - item.to <= 1 and one.clause == item.clause):
            return True
    return False
