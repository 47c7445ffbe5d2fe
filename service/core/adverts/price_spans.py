"""Is no price told but between which two it lies: "between 40 and 60 each", "40-60 each depending on condition"?"""

from itertools import pairwise

from service.core.adverts.asked_roles import SPANS
from service.core.adverts.other_amounts import without_amounts
from service.core.adverts.scene import Scene, numbers
from service.core.adverts.walk import MONEY_UNITS, Item

_SIGNS = frozenset("€£$.")
_MONEY = MONEY_UNITS | {""}
_AROUND, _FARTHEST = 12, 4  # pieces
_ENDS = frozenset(".!?;\n")


def leave_out_spans(scene: Scene) -> None:
    """Both ends of such a span are no prices here."""
    if not scene.roles & SPANS:
        return
    gone: set[int] = set()
    for first, second in pairwise(numbers(scene)):
        if scene.items[second].at - scene.items[first].to <= _FARTHEST and _is_span(scene, first, second):
            gone |= {first, second}
    if gone:
        without_amounts(scene, [], {at for at in gone if at in scene.units.get(scene.items[at].unit, ())})


def _each_behind(scene: Scene, item: Item) -> bool:
    """Does "each" stand directly behind a bare figure: "40 to 60 each"?"""
    return scene.stands("each", item.field, item.to)


def _is_span(scene: Scene, first: int, second: int) -> bool:
    low, high = scene.items[first], scene.items[second]
    if low.field != high.field or high.at <= low.to or low.value >= high.value or low.spelled:
        return False
    if not {low.unit, high.unit} <= _MONEY or not (low.unit or high.unit or _each_behind(scene, high)):
        return False
    small, tokens = scene.small, scene.tokens[low.field]
    between = [word for word in tokens[low.to : high.at] if word not in _SIGNS]
    if len(between) != 1:
        return False
    before = [word for word in tokens[max(low.at - 2, 0) : low.at] if word not in _SIGNS]
    if between[0] in small.and_two and not small.between_two.isdisjoint(before[-1:]):
        return True
    if between[0] != "-" and between[0] not in small.up_to_sum:
        return False
    behind = tokens[high.to : high.to + _AROUND]
    end = next((at for at, word in enumerate(behind) if word in _ENDS), len(behind))
    told = (*tokens[max(low.at - _AROUND, 0) : low.at], *behind[:end])
    return not small.depending.isdisjoint(told)
