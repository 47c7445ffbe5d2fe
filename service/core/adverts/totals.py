"""Does a word tell that a figure is the total of all: "62 panels in total", "£200 total"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_ENDS = frozenset(".,;:!?()\n|-")
_TO_TOTAL = 4


def is_total(scene: Scene, field: int, to: int) -> bool:
    """Is there, from that piece on, nothing but the word and one such as "in" before it, until the clause ends?"""
    small, behind = scene.small, scene.tokens[field][to : to + _TO_TOTAL]
    at = next((at for at, word in enumerate(behind) if word not in small.total_linking or word == ":"), len(behind))
    ended = at + 1 >= len(behind) or behind[at + 1] in _ENDS
    return at < len(behind) and behind[at] in small.together and ended


def total_before(scene: Scene, item: Item) -> bool:
    """As in "in total 62 panels", "total of 62 panels", "Total: 62 panels"."""
    before = scene.tokens[item.field][max(item.at - _TO_TOTAL + 1, 0) : item.at]
    while before and before[-1] in scene.small.total_linking:
        before.pop()
    return bool(before) and before[-1] in scene.small.together
