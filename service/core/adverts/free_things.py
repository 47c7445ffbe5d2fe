"""Is it the goods that are free, or parking, coffee and the like: "parking is free", "free wifi"?"""

from collections.abc import Iterable
from itertools import takewhile

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, PANELS

_ENDS = frozenset(".,;!?\n|():")
_OF_GOODS = INVERTERS | PANELS | {"set_one", "set_many", "piece", "pickup", "selling", "power"}


def goods_are_free(scene: Scene, place: int) -> bool:
    """Are the goods what is given away there, as far as its clause tells? A phrase such as "free to collect" does."""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    if item.to - item.at > 1 or tokens[item.at] not in scene.small.free_words:
        return True
    near = (*scene.back(place, 6), *scene.ahead(place, 6))
    if any(one.what in _OF_GOODS and one.clause == item.clause for one in near):
        return True
    return not (_others(scene, reversed(tokens[: item.at])) or _others(scene, tokens[item.to :]))


def _others(scene: Scene, words: Iterable[str]) -> bool:
    """Does any other word stand there up to the end of the clause?"""
    within = takewhile(lambda word: word not in _ENDS, words)
    return any(word.isalpha() and word not in scene.small.light_words for word in within)
