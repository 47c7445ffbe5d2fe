"""In how many equal parts are they offered: "4 sets of 2 (= 8)", "3 lots de 4 panneaux"?"""

from collections.abc import Sequence
from itertools import pairwise

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_SETS = frozenset(("set_one", "set_many", "set_weak"))
_GOODS = frozenset(("panel_one", "panel_many", "piece"))
_MOST, _MOST_PARTS = 5000, 200
_BETWEEN, _TO_SUM = 3, 5  # pieces
_NO_SET = frozenset(",;.|+/")


def bundles_of(scene: Scene) -> tuple[int, int] | None:
    """The number of parts and of the pieces in each; None where the words do not tell both surely."""
    summed = any("=" in words for words in scene.different[:2])
    places = scene.units.get("", ())
    if len(places) < 2 or not (summed or scene.tells(*_SETS)):
        return None
    for number, (first, second) in enumerate(pairwise(places)):
        one, two = scene.items[first], scene.items[second]
        if one.field != two.field or one.sentence != two.sentence or not (_is_count(one) and _is_count(two)):
            continue
        between = scene.tokens[one.field][one.to : two.at]
        if not 1 <= len(between) <= _BETWEEN or not _NO_SET.isdisjoint(between) or one.value * two.value > _MOST:
            continue
        if (summed and _sum_behind(scene, places[number + 2 : number + 3], one, two)) or _of_goods(scene, second, one):
            return int(one.value), int(two.value)
    return None


def _is_count(one: Item) -> bool:
    return 1 < one.value <= _MOST_PARTS and one.value % 1 == 0 and one.glued not in {"-", "/", "."}


def _sum_behind(scene: Scene, places: Sequence[int], one: Item, two: Item) -> bool:
    """Does "= 8" stand behind them, what both make together?"""
    for place in places:
        total = scene.items[place]
        if total.field == two.field and total.at - two.to <= _TO_SUM and total.value == one.value * two.value:
            return scene.tokens[total.field][total.at - 1] == "="
    return False


def _of_goods(scene: Scene, second: int, one: Item) -> bool:
    """Does a word for sets stand directly behind the first number, and goods directly behind the second?"""
    two = scene.items[second]
    sets = any(scene.stands(what, one.field, one.to) for what in _SETS)
    return sets and any(item.what in _GOODS and item.at == two.to for item in scene.ahead(second, 2))
