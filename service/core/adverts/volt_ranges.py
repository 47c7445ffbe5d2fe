"""Where does a range of volts end: "16-60 V", "MPPT 22/58 V"?"""

from itertools import takewhile

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_NOMINAL_V = frozenset((12.0, 24.0, 36.0, 48.0, 100.0, 110.0, 115.0, 120.0, 127.0, 220.0, 230.0, 240.0, 400.0))
_LEAST_V = 8.0  # of the lower end
_OWN_NAMES = frozenset(("start", "max_in", "voc", "vmp"))
LEAST_WINDOW = 1.15  # "Voc 37-38 V" is no range of an input
_TO_CODE = 4
_LONGEST_JOIN = 3  # pieces
_DOTTED = frozenset(".-")  # "16.-60 V"


def end_of_range(scene: Scene, place: int) -> int | None:
    """The upper end of a range of volts that begins at a place."""
    items, item = scene.items, scene.items[place]
    if item.spelled:
        return None
    for at in range(place + 1, min(place + 4, len(items))):
        one = items[at]
        if one.what == NUMBER:
            higher = one.unit == "V" and one.value > item.value and one.field == item.field
            return at if higher and _joined(scene, place, item, one) else None
        if one.at - item.to > 2:
            return None
    return None


def _joined(scene: Scene, place: int, low: Item, high: Item) -> bool:
    """Does nothing but a dash, a word for "to" or the like stand between?"""
    between = scene.tokens[low.field][low.to : high.at]
    if not 0 < len(between) <= _LONGEST_JOIN:
        return False
    if between[0] in scene.small.volts_range and (between[0] != "." or _DOTTED.issuperset(between)):
        return True
    return between == ["/"] and _both_ends(scene, place, high)


def _both_ends(scene: Scene, place: int, high: Item) -> bool:
    """Are two volts with a stroke between the ends of a range ("MPPT 22/58 V"), not two of a grid or two limits?"""
    low, before = scene.items[place], scene.before(place)
    if low.value < _LEAST_V or high.value < LEAST_WINDOW * low.value or {low.value, high.value} <= _NOMINAL_V:
        return False
    if before is not None and before.what in _OWN_NAMES and low.at - before.to <= 1:
        return False
    return not _of_a_code(scene, low)


def _of_a_code(scene: Scene, low: Item) -> bool:
    """Does a word for a number of goods, a type, a box or charging stand before it: "order code 22/58 V"?"""
    near = scene.tokens[low.field][max(low.at - _TO_CODE, 0) : low.at]
    words = takewhile(lambda word: word not in {",", ";", "\n"}, reversed(near))
    small = scene.small
    return any(word in small.code_short or word.startswith(small.code_before) for word in words)
