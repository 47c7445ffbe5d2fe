"""Does a number of goods count all of them, not those on one pallet: "62 panels on 2 pallets", "62 panels in total"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import CURRENCIES, NUMBER, Item

_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "piece"))
_ENDS = frozenset(".,;:!?()\n|-")
_FARTHEST, _TO_GOODS, _TO_TOTAL = 8, 3, 3


def on_all_pallets(scene: Scene, place: int) -> bool:
    """Is a number of goods said to be spread over several pallets, or to be that of all of them together?"""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    before = tokens[max(item.at - _TO_TOTAL, 0) : item.at]
    while before and before[-1] in scene.small.total_linking:
        before.pop()
    if before and before[-1] in scene.small.together and not _by_pallet(scene, place):
        return True
    to = next((one.to for one in scene.ahead(place, 4) if one.what in _GOODS and one.at - item.to <= _TO_GOODS), 0)
    return to > 0 and (_spread(scene, place, to) or _total_behind(scene, tokens[to : to + _TO_TOTAL + 1]))


def _spread(scene: Scene, place: int, to: int) -> bool:
    """As in "62 panels on 2 pallets": one word, and a number of pallets behind it."""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    for one in scene.ahead(place, _FARTHEST):
        if one.what == "pallet" or one.unit in CURRENCIES or one.at - to > _FARTHEST:
            return False
        if one.what == NUMBER and not one.unit and one.at > item.at:
            on = tokens[one.at - 1] in scene.small.spread_over and one.at > to
            return on and one.value > 1 and scene.stands("pallet", item.field, one.to)
    return False


def _total_behind(scene: Scene, behind: list[str]) -> bool:
    """As in "62 panels in total": nothing but the word, and one such as "in" before it, until the clause ends."""
    at = next((at for at, word in enumerate(behind) if word not in scene.small.total_linking), len(behind))
    ended = at + 1 >= len(behind) or behind[at + 1] in _ENDS
    return at < len(behind) and behind[at] in scene.small.together and ended


def _by_pallet(scene: Scene, place: int) -> bool:
    """Does "per pallet" follow in its clause, so that it counts those on one?"""
    item: Item = scene.items[place]
    return any(
        one.what in {"lot", "each"}
        and one.clause == item.clause
        and any(word.startswith(scene.small.pallet) for word in scene.tokens[one.field][one.at : one.to])
        for one in scene.ahead(place, 5)
    )
