"""Are the goods promised to somebody: "already promised", "these are promised to a friend"?

A bicycle that is promised reserves nothing: between where the sentence begins and such a word stand only the goods
and words like "these", "both", "unfortunately".
"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, PANELS

_PROMISED, _RESERVED = "promised", "q:reserved"
_GOODS = PANELS | INVERTERS | {"set_one", "set_many", "all"}
_ENDS = frozenset(".,;:!?()[]\n|•/*-+")
_SENTENCE_ENDS = frozenset(".!?)\n")
_FARTHEST, _TO_END = 8, 5  # pieces


def add_promised(scene: Scene) -> None:
    """Goods that are promised are reserved."""
    if _PROMISED not in scene.by_what:
        return
    found = [at for at in scene.said(_PROMISED) if _of_goods(scene, at)]
    if found:
        scene.by_what.setdefault(_RESERVED, []).extend(found)


def _of_goods(scene: Scene, place: int) -> bool:
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    goods = {at for one in scene.back(place, 6) if one.what in _GOODS for at in range(one.at, one.to)}
    at, named = item.at - 1, False
    while at >= 0 and tokens[at] not in _ENDS:
        named = named or at in goods
        if item.at - at > _FARTHEST or not (at in goods or tokens[at] in scene.small.before_promised):
            return False
        at -= 1
    return named or _ends(tokens, item.to)


def _ends(tokens: list[str], at: int) -> bool:
    """Does the sentence end soon, with no other clause: "it is promised that it rains" tells of no goods?"""
    behind = tokens[at : at + _TO_END]
    end = next((to for to, word in enumerate(behind) if word in _ENDS), len(behind))
    return len(behind) < _TO_END if end == len(behind) else behind[end] in _SENTENCE_ENDS
