"""Is a figure without a currency the price of all of it: "160 for all", "zusammen 160", "samen 70"?

Only where no amount in the text has a currency and the price field, if it holds one, tells the same, and where it
cannot be a number of pieces, watts or a year.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from service.core.adverts.goods import Goods
from service.core.adverts.numerals import FIRST_YEAR, LAST_YEAR
from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_ENDS = frozenset(".,;!?)\n|")
_JOINS: tuple[list[str], ...] = ([], [":"], ["="])
_LEAST, _LEAST_EACH = 20, 3
_LIKE_WATTS = (100, 720)
_LIKE_SHARE = 0.02


def lump_sums(scene: Scene, goods: Goods) -> Iterator[tuple[int, Item]]:
    """Places of such figures, and the figures."""
    if (goods.quantity or 0) < 2 or not scene.units.keys().isdisjoint(MONEY_UNITS):
        return
    bare = set(scene.units.get("", []))
    together = _watts_together(scene, goods.quantity or 0)
    field = {one.value for one in scene.price if one.what == NUMBER}
    for at in scene.by_what["lot"]:
        lot = scene.items[at]
        for place in (at - 1, at - 2, at + 1, at + 2):
            item = scene.items[place] if place in bare else None
            if item is None or (field and item.value not in field):
                continue
            if _beside(scene, item, lot) and _is_sum(scene, item, goods, together):
                yield place, item


def _beside(scene: Scene, item: Item, lot: Item) -> bool:
    """Does the figure stand directly before or behind the word, with nothing behind both of them?"""
    if item.field != lot.field:
        return False
    first, second = (item, lot) if item.at < lot.at else (lot, item)
    tokens = scene.tokens[item.field]
    behind = tokens[second.to] if second.to < len(tokens) else "."
    return second.at >= first.to and tokens[first.to : second.at] in _JOINS and behind in _ENDS


def _watts_together(scene: Scene, pieces: int) -> list[float]:
    """Watts that are told of one and of all of them, and what figures make that may be watts, in order."""
    low, high = _LIKE_WATTS
    watts = [scene.items[at].value for at in scene.units.get("W", [])]
    like = [one.value for one in (scene.items[at] for at in scene.units[""]) if low <= one.value <= high]
    return sorted({*watts, *(pieces * value for value in (*watts, *like))})


def _is_sum(scene: Scene, item: Item, goods: Goods, together: Sequence[float]) -> bool:
    """Can it be nothing but a price?"""
    pieces = goods.quantity or 0
    if item.spelled or item.glued in {"-", "/", "x", "."} or item.value < max(_LEAST, _LEAST_EACH * pieces):
        return False
    if FIRST_YEAR <= item.value <= LAST_YEAR and item.value % 10:
        return False
    near = bisect_left(together, item.value / (1 + _LIKE_SHARE))
    if near < len(together) and together[near] <= item.value / (1 - _LIKE_SHARE):
        return False
    low, high = _LIKE_WATTS
    tokens = scene.tokens[item.field]
    before = tokens[item.at - 1] if item.at else ""
    return ("W" in scene.units or not low <= item.value <= high) and before not in {"x", "/", "*", "-"}
