"""Does a number of goods count all of them, not those on one pallet: "62 panels on 2 pallets", "62 panels in total"?

And what stands on each of several pallets is no price: "2 Paletten à 31".
"""

from service.core.adverts.scene import Scene
from service.core.adverts.totals import is_total, total_before
from service.core.adverts.walk import CURRENCIES, NUMBER, Item

_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "piece"))
_FARTHEST, _TO_GOODS, _TO_WATTS, _WATTS_AMONG, _NEAR = 8, 3, 1, 5, 4
_MOST_PALLETS = 60
_MOST_ON_ONE, _LEAST_PRICE, _MOST_BETWEEN = 100, 20, 2


def pallets_offered(scene: Scene) -> int:
    """How many pallets are offered: "two pallets in stock"."""
    for place in scene.units.get("", ()):
        item = scene.items[place]
        if 1 < item.value <= _MOST_PALLETS and scene.stands("pallet", item.field, item.to) and item.value % 1 == 0:
            return int(item.value)
    return 1


def on_all_pallets(scene: Scene, place: int) -> bool:
    """Is a number of goods said to be spread over several pallets, or to be that of all of them together?"""
    item = scene.items[place]
    if total_before(scene, item) and not _by_pallet(scene, place):
        return True
    to = next((one.to for one in scene.ahead(place, 4) if one.what in _GOODS and one.at - item.to <= _TO_GOODS), 0)
    if not to:
        return False
    return _spread(scene, place, to) or is_total(scene, item.field, _behind_watts(scene, place, to))


def _behind_watts(scene: Scene, place: int, to: int) -> int:
    """Behind the watts that stand directly behind goods: "62 panels 400 W in total"."""
    ahead = scene.ahead(place, _WATTS_AMONG)
    return next((one.to for one in ahead if one.unit == "W" and 0 <= one.at - to <= _TO_WATTS), to)


def priced_by_pallet(scene: Scene, one: Item) -> bool:
    """Does a word for all that stands on one pallet go with an amount of its sentence?"""
    if one.what == "pallet":
        return False
    place = next(at for at in scene.by_what[one.what] if scene.items[at] is one)
    return any(money.unit in CURRENCIES for money in (*scene.back(place, _NEAR), *scene.ahead(place, _NEAR)))


def stands_on_each(scene: Scene, item: Item) -> bool:
    """Is a bare figure the number that stands on each of several pallets, no amount: "2 Paletten à 31"?"""
    tokens, small, at = scene.tokens[item.field], scene.small, item.at - 1
    least = max(item.at - 1 - _MOST_BETWEEN, 0)
    words = (small.sets_by, small.at_so_much, small.for_each)
    while at > least and any(tokens[at] in joining for joining in words):
        at -= 1
    if at == item.at - 1 or at < 1 or item.value > _MOST_ON_ONE or item.value % 1:
        return False
    on_pallets = tokens[at].startswith(small.pallet)
    in_pairs = item.value < _LEAST_PRICE and tokens[at] in small.pairs
    return (on_pallets or in_pairs) and scene.bare_to(item.field, at) is not None


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


def _by_pallet(scene: Scene, place: int) -> bool:
    """Does "per pallet" follow in its clause, so that it counts those on one?"""
    item: Item = scene.items[place]
    return any(
        one.what in {"lot", "each"}
        and one.clause == item.clause
        and any(word.startswith(scene.small.pallet) for word in scene.tokens[one.field][one.at : one.to])
        for one in scene.ahead(place, 5)
    )
