"""How many are on offer where the seller keeps some, or has others up: "12 panels, I'm keeping four"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many"))
_UP = frozenset(("site", "used"))
_ENDS = frozenset(".,;:!?()\n")
_PAIR = 2
_MOST, _BACK, _BETWEEN, _TO_GOODS, _TO_SALE = 5000, 14, 4, 3, 8


def left_after_keeping(scene: Scene) -> int | None:
    """The counted pieces without those that the seller keeps; None where none are said to be kept, or other ones."""
    for place in scene.by_what.get("keeps", []):
        kept = _kept(scene, place)
        if kept is None:
            continue
        sentence = scene.items[place].sentence
        for at in range(place, max(place - _BACK, -1), -1):
            one = scene.items[at]
            if one.sentence != sentence:
                break
            if one.at < kept.at and one.value > kept.value and _is_count(one) and _counts_goods(scene, at, one):
                return int(one.value - kept.value)
        left = _left_of_all(scene, kept)
        if left is not None:
            return left
    return None


def _left_of_all(scene: Scene, kept: Item) -> int | None:
    """The rest of the one number of goods that sentences before tell: "I have 20 panels. I keep 12 of them"."""
    if kept.glued:
        return None
    whole: Item | None = None
    values = {kept.value}
    for at in scene.units.get("", ()):
        one = scene.items[at]
        if one.sentence == kept.sentence and one.at != kept.at and one.value > kept.value:
            return None  # "of the 12 I keep 4, these 8 can go"
        if not _is_count(one) or one.value <= 1 or not _counts_goods(scene, at, one):
            continue
        values.add(one.value)
        if one.field == kept.field and one.sentence < kept.sentence and one.value > kept.value:
            whole = one
    if whole is None or len(values) > _PAIR:
        return None
    if scene.in_sentence(whole.sentence, "selling") and not _of_these(scene, kept):
        return None
    return int(whole.value - kept.value)


def _of_these(scene: Scene, kept: Item) -> bool:
    """Does "of them" stand beside it?"""
    tokens = scene.tokens[kept.field]
    beside = (*tokens[max(kept.at - _BETWEEN, 0) : kept.at], *tokens[kept.to : kept.to + _PAIR])
    return not scene.small.part_of_them.isdisjoint(beside)


def spare_of(scene: Scene) -> int | None:
    """The pieces for sale behind a greater number of those that stay up."""
    places = scene.units.get("", [])
    if "site" not in scene.by_what or len(places) < _PAIR:
        return None
    up = 0.0
    for place in places:
        item = scene.items[place]
        if not _is_count(item):
            continue
        near = [one for one in scene.ahead(place, 4) if one.at - item.to <= _TO_GOODS]
        goods = next((one for one in near if one.what in _GOODS), None)
        if goods is None:
            if any(one.what in _UP and one.clause == item.clause for one in near[:2]):
                up = max(up, item.value)
        elif item.value < up and _for_sale(scene, goods):
            return int(item.value)
    return None


def _for_sale(scene: Scene, goods: Item) -> bool:
    tokens = scene.tokens[goods.field][goods.to : goods.to + _TO_SALE]
    return not scene.small.for_sale.isdisjoint(tokens)


def _kept(scene: Scene, place: int) -> Item | None:
    """The bare number beside a word for keeping, with nothing but "of them" and the like between."""
    item = scene.items[place]
    for one in (*scene.ahead(place, 5), *scene.back(place, 6)):
        behind = one.at >= item.to
        if not _is_count(one) or one.sentence != item.sentence:
            continue
        tokens = scene.tokens[item.field]
        between = tokens[item.to : one.at] if behind else tokens[one.to : item.at]
        light = len(between) <= _BETWEEN and all(word in scene.small.beside_kept for word in between)
        if not light or _of_others(scene, one):
            continue
        after = tokens[one.to : one.to + 2] if behind else []
        if len(after) == _PAIR and after[1][0].isdigit() and after[0] in scene.small.part_of:
            return None  # "keeping 4 of 12"
        if not after or after[0] in _ENDS or after[0] in scene.small.beside_kept or after[0] in scene.small.joining:
            return one
        return one if any(more.what in _GOODS and more.at == one.to for more in scene.ahead(place, 4)) else None
    return None


def _of_others(scene: Scene, one: Item) -> bool:
    """Are they others than those on offer: "the other four"?"""
    tokens = scene.tokens[one.field]
    return not scene.small.others.isdisjoint((*tokens[max(one.at - 2, 0) : one.at], *tokens[one.to : one.to + 1]))


def _counts_goods(scene: Scene, place: int, one: Item) -> bool:
    goods = next((more for more in scene.ahead(place, 3) if more.what in _GOODS), None)
    return goods is not None and goods.at - one.to <= _TO_GOODS


def _is_count(one: Item) -> bool:
    return one.what == NUMBER and not one.unit and 0 < one.value <= _MOST and one.value % 1 == 0
