"""Is the inverter of a title sold alone, of whose panels the text only tells that they are gone?

As in "panels already sold, inverter only", "just the inverter, the two 410 W panels found a buyer".
"""

from collections.abc import Mapping

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, Item

_AWAY = ("sold", "gone")
_ENDS = frozenset(".,;:!?()\n")
_TO_ONLY, _TO_JOINED, _TO_AWAY, _TO_OTHER = 3, 4, 9, 2  # pieces


def is_alone(scene: Scene, title: Mapping[str, list[int]], panels: list[int]) -> bool:
    """Does a title name an inverter and nothing with panels, and the text panels only as gone, or "only" an inverter?

    ``panels``: places of panels that seem to be offered, all of them in the text.
    """
    if "inverter" not in title or "panel" in title or "set" in title:
        return False
    gone = [place for place in panels if is_gone(scene, place)]
    if gone and gone[-1] == panels[-1]:
        return True
    return any(_only(scene, scene.items[place]) for place in scene.places(INVERTERS))


def is_gone(scene: Scene, place: int) -> bool:
    """Is it said behind panels, in their clause, that they are sold or went away, and not of others or of some?"""
    item, small = scene.items[place], scene.small
    tokens = scene.tokens[item.field]
    if not small.others.isdisjoint(tokens[max(item.at - _TO_OTHER, 0) : item.to + 1]):
        return False
    for one in scene.ahead(place, 4):
        if one.clause != item.clause or one.what in INVERTERS or scene.denied(place):
            break
        if one.what in _AWAY and one.at - item.to <= _TO_AWAY:
            return one.to >= len(tokens) or tokens[one.to] not in small.sold_manner
    for at in range(item.to, min(item.to + _TO_AWAY, len(tokens))):
        if tokens[at] in _ENDS:
            return False
        if tokens[at] in small.went_away:
            return True
    return False


def _only(scene: Scene, item: Item) -> bool:
    """Does "only" stand beside it, with nothing joined to it: "just the inverter,", "(inverter only!)"?"""
    if not item.field:
        return False
    small, tokens = scene.small, scene.tokens[item.field]
    ahead = tokens[item.to : item.to + 2]
    if ahead and ahead[0] in small.all_that_is_left:
        return len(ahead) == 1 or ahead[1] in _ENDS
    if ahead and ahead[0] not in _ENDS:
        return False
    before = tokens[max(item.at - _TO_ONLY, 0) : item.at][::-1]
    cut = next((at for at, word in enumerate(before) if word in _ENDS), len(before))
    return not small.all_that_is_left.isdisjoint(before[:cut]) and small.order_not.isdisjoint(before[:cut])
