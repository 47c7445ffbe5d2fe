"""Is sending free only from so much or so many on: "free delivery over £200", "franco de port à partir de 4"?"""

from collections.abc import Sequence
from itertools import takewhile

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_ENDS = frozenset((".", ";", "!", "?", "\n", "|", ")"))
_FREE = frozenset(("delivered", "giveaway"))
_FAR, _BETWEEN = 7, 3  # pieces


def free_from(scene: Scene, place: int) -> bool:
    """Does a word for "from" and a figure follow what is said to be free, in its sentence?"""
    item = scene.items[place]
    words = scene.tokens[item.field][item.to : item.to + _FAR]
    words = list(takewhile(lambda word: word not in _ENDS, words))
    return any(_from_so_much(scene, words, at) for at in range(len(words)))


def is_least_for_free(scene: Scene, place: int, item: Item) -> bool:
    """Is it the amount from which on sending is free?"""
    before = scene.tokens[item.field][max(item.at - _BETWEEN, 0) : item.at]
    return not scene.small.from_so_much.isdisjoint(before) and any(
        one.what in _FREE and free_from(scene, place - step) for step, one in enumerate(scene.back(place, _FAR), 1)
    )


def _from_so_much(scene: Scene, words: Sequence[str], at: int) -> bool:
    behind = words[at + 1 : at + 1 + _BETWEEN]
    return words[at] in scene.small.from_so_much and any(word[0].isdigit() for word in behind[:_BETWEEN])
