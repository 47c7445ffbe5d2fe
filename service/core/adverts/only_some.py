"""How many of the seller's are for sale: "I have 12 on the roof but only 5 are for sale", "tengo 12, solo vendo 5"?"""

from service.core.adverts.asked_roles import FOR_SALE, SOME_ONLY
from service.core.adverts.scene import Scene
from service.core.adverts.walk import CURRENCIES, NUMBER, Item

_MOST, _BACK, _AHEAD = 5000, 3, 4
_OF_SOLD = ("W", *sorted(CURRENCIES))


def only_some(scene: Scene) -> int | None:
    """The pieces for sale of more that are told before; None where no number or several are told so."""
    places = scene.units.get("", [])
    roles = scene.field_roles[1]
    if len(places) < 2 or not (roles & SOME_ONLY and roles & FOR_SALE):
        return None
    most, told = 0.0, set[int]()
    for place in places:
        item = scene.items[place]
        if not item.field or not _is_count(item):
            continue
        if item.value < most and _for_sale(scene, item):
            told.add(int(item.value))
        most = max(most, item.value)
    return told.pop() if len(told) == 1 else None


def _is_count(one: Item) -> bool:
    return (
        one.what == NUMBER and 0 < one.value <= _MOST and one.value % 1 == 0 and one.glued not in {"-", "/", "x", "."}
    )


def _for_sale(scene: Scene, item: Item) -> bool:
    """Does "only" stand before it, and a word for selling beside the two?"""
    small, tokens = scene.small, scene.tokens[item.field]
    at = item.at - 1
    while at > item.at - 1 - _BACK and at >= 0 and tokens[at] in small.some_joining:
        at -= 1
    before = [word for word in tokens[max(at - 1, 0) : at + 1] if word.isalnum()]
    if at < 0 or small.some_only.isdisjoint(before):
        return False
    if not small.for_sale.isdisjoint(before) or (at > 1 and tokens[at - 2] in small.for_sale):
        return True
    for word in tokens[item.to : item.to + _AHEAD]:
        if word in small.for_sale:
            return True
        if word not in small.some_joining:
            return False
    return False


def beside_what_is_sold(scene: Scene, item: Item) -> bool:
    """Is it in the title, or are watts, a price or selling told beside it? "Replaced by 12 new panels" sells none."""
    if item.field != 1 or scene.in_sentence(item.sentence, "selling"):
        return True
    known = (scene.units[unit] for unit in _OF_SOLD if unit in scene.units)
    return any(scene.items[at].sentence == item.sentence for row in known for at in row)
