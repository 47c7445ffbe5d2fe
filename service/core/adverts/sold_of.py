"""How many are left where some of the counted pieces are sold: "20 panels, 11 sold"?"""

from bisect import bisect_left
from collections.abc import Iterator

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_PIECE = "piece"
_GOODS = {"panel_one": "panel", "panel_many": "panel", "inverter_one": "inverter", "inverter_many": "inverter",
          _PIECE: _PIECE}  # fmt: skip
_ENDS = frozenset(".,;!?()\n|")
_MOST, _NEAR, _TO_GOODS = 5000, 1, 2
_MOST_COUNTS = 30  # before one that is sold: a sentence of more is none that a person reads


def left_after_sale(scene: Scene) -> int | None:
    """The pieces that are left of those counted before in the sentence; None where no number is told to be sold.

    Or where some are told to be left, so that nobody has to reckon.
    """
    for place in scene.by_what.get("sold", []):
        sold = _sold(scene, place)
        named = None if sold is None else _named(scene, place, sold)
        if sold is None or named is None:
            continue
        for one, goods in _counts(scene, place):
            if one.value > sold.value and one is not sold and (named == goods or _PIECE in {named, goods}):
                return None if _told_to_be_left(scene, sold) else int(one.value - sold.value)
    return None


def apart(scene: Scene, item: Item, gone: Item) -> bool:
    """Is it a number of some of the counted goods that is gone, not all: "20 panneaux dont 11 vendus"?"""
    some = next(_counts_before(scene, gone), None)
    return (
        some is not None and item.to <= some.at and any(one.value > some.value for one in _counts_before(scene, item))
    )


def _counts_before(scene: Scene, item: Item) -> Iterator[Item]:
    """The counts directly before an item, or one piece farther."""
    for to in range(item.at - _NEAR, item.at + 1):
        one = scene.bare_to(item.field, to)
        if one is not None and _is_count(one):
            yield one


def _sold(scene: Scene, place: int) -> Item | None:
    """The number that stands beside a word for sold with nothing else counted by it."""
    item, tokens = scene.items[place], scene.tokens[scene.items[place].field]
    before = next((one for one in scene.back(place, 3) if one.what == NUMBER), None)
    end = tokens[item.to] if item.to < len(tokens) else "."
    if before is not None and _is_count(before) and before.clause == item.clause and item.at - before.to <= _NEAR:
        return None if end in scene.small.sold_manner else before
    behind = next((one for one in scene.ahead(place, 3) if one.what == NUMBER), None)
    if behind is None or not _is_count(behind) or behind.at != item.to or behind.clause != item.clause:
        return None
    end = tokens[behind.to] if behind.to < len(tokens) else "."
    return behind if end in _ENDS else None


def _named(scene: Scene, place: int, sold: Item) -> str | None:
    """The goods that a number which is sold counts, pieces where it stands bare.

    None where they are other things ("2 batteries sold") or another lot ("a lot of 5 sold last week").
    """
    tokens, item = scene.tokens[sold.field], scene.items[place]
    if sold.at and tokens[sold.at - 1] in scene.small.part_of:
        return None
    between = tokens[sold.to : item.at]
    if scene.small.by_now.issuperset(between):
        return _PIECE
    return next((_GOODS[one.what] for one in scene.back(place, 4) if one.at >= sold.to and one.what in _GOODS), None)


def _counts(scene: Scene, place: int) -> Iterator[tuple[Item, str]]:
    """Counts of goods before it in its sentence, with what they count."""
    item, places = scene.items[place], scene.units.get("", [])
    end = bisect_left(places, place)
    for at in places[max(end - _MOST_COUNTS, 0) : end]:
        one = scene.items[at]
        if one.sentence == item.sentence and one.at < item.at and _is_count(one):
            ahead = next((two for two in scene.ahead(at, 3) if two.what in _GOODS), None)
            if ahead is not None and ahead.at - one.to <= _TO_GOODS:
                yield one, _GOODS[ahead.what]


def _told_to_be_left(scene: Scene, sold: Item) -> bool:
    """Does a word for what is there stand behind another number, or close before it?"""
    small = scene.small
    for at in scene.units.get("", []):
        one, tokens = scene.items[at], scene.tokens[scene.items[at].field]
        if one is sold or not _is_count(one):
            continue
        behind, before = tokens[one.to : one.to + 2], tokens[max(one.at - 2, 0) : one.at]
        if not small.part_left.isdisjoint((*behind, *before)) or not small.still.isdisjoint(before):
            return True
        if any(scene.stands(what, one.field, one.to) for what in ("stock", "left")):
            return True
    return False


def _is_count(one: Item) -> bool:
    return not one.unit and 0 < one.value <= _MOST and one.value % 1 == 0 and one.glued not in {"-", "/", "x", "."}
