"""Are volts or amperes those of panels that an inverter ran with: "ran with 18 A panels", "lief mit 18-A-Modulen"?

They tell what hung on it, not what it bears.
"""

from service.core.adverts.asked_roles import USED_WITH
from service.core.adverts.ratings_of_others import of_sellers_panels
from service.core.adverts.scene import Scene
from service.core.adverts.walk import PANELS, Item

_TO_PANELS, _FROM_PANELS, _FAR, _MOST = 2, 4, 12, 8  # pieces; items
_PARTS = frozenset((",", ";", "|", "\n", ".", "(", ":"))
_OF = "between"  # "13,9 A de court-circuit"
_PANELS = PANELS | {"dc_power"}  # "panels up to"
_FOR = frozenset(("for", "takes"))


def of_panels_beside(scene: Scene, place: int, item: Item) -> bool:
    """Are they those of panels that the seller had or keeps, or that ran on the inverter?"""
    return of_sellers_panels(scene, place, item) or _that_ran(scene, place, item)


def named_for_panels(scene: Scene, place: int) -> bool:
    """Is the name before a current that of the panels' before it: "panels of 13.9 A short circuit on 10 A inputs"?"""
    for at in range(place - 1, max(place - _MOST, 0), -1):
        if scene.whats[at] == "isc":
            head = at - 1 - (scene.whats[at - 1] == _OF and at > 1)
            one, before = scene.items[at], scene.items[head]
            near = before.unit == "A" and before.sentence == one.sentence and one.at - before.to <= _TO_PANELS
            return near and (_panels_beside(scene, head, before) is not None or of_panels_beside(scene, head, before))
        if scene.items[at].unit == "A":
            return False
    return False


def _that_ran(scene: Scene, place: int, item: Item) -> bool:
    """Do panels stand directly beside the figure, and a word for running or having had before both?"""
    if not scene.roles & USED_WITH:
        return False
    panels = _panels_beside(scene, place, item)
    if panels is None:
        return False
    tokens, words = scene.tokens[item.field], scene.small.was_used_with
    low = min(panels.at, item.at)
    for at in range(low - 1, max(low - 1 - _FAR, -1), -1):
        if tokens[at] in _PARTS:
            return False
        if tokens[at] in words:
            return not any(one.what in _FOR and one.at > at for one in scene.back(place, 8))
    return False


def _panels_beside(scene: Scene, place: int, item: Item) -> Item | None:
    tokens = scene.tokens[item.field]
    for one in scene.ahead(place, 4):
        if one.at - item.to > _TO_PANELS or not _PARTS.isdisjoint(tokens[item.to : one.at]):
            break
        if one.what in _PANELS:
            return one
    for one in scene.back(place, 6):
        if item.at - one.to > _FROM_PANELS or not _PARTS.isdisjoint(tokens[one.to : item.at]):
            break
        if one.what in _PANELS:
            return one
    return None
