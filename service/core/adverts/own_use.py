"""Does a count tell what the seller put up for himself: "4 panels for sale. I put 12 panels on my roof"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.stretch import stretch_around
from service.core.adverts.walk import MONEY_UNITS, Item

_ENDS = frozenset(".!?\n")
_REACH, _BETWEEN, _FAR = 12, 1, 8


def of_own_use(scene: Scene, place: int, item: Item) -> bool:
    """Are putting up and a place of the seller's own told in its sentence, and neither money nor selling?"""
    if not item.field:
        return False
    small, tokens = scene.small, scene.tokens[item.field]
    low, high = stretch_around(tokens, item.at, item.to, _REACH, _ENDS)
    words = tokens[low:high]
    if small.put_up.isdisjoint(words):
        return False
    if not any(word in small.own_places and not small.of_his_own.isdisjoint(words[max(at - 1 - _BETWEEN, 0) : at])
               for at, word in enumerate(words)):  # fmt: skip
        return False
    near = (*scene.back(place, _FAR), *scene.ahead(place, _FAR))
    return not any((one.what == "selling" or one.unit in MONEY_UNITS) and low <= one.at < high for one in near)
