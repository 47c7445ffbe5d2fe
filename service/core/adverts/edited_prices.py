"""Is another price told in an edit at the end: "£60 each. EDIT: now £90 each"? It is the later one that counts."""

from itertools import chain

from service.core.adverts.asked_roles import EDITED
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, MONEY_UNITS, PANELS, Item

_BEFORE = frozenset(".!?\n*([;|-")
_REACH, _TO_SHOP = 18, 6  # pieces
_OTHER = frozenset(("shipping", "delivered", "bring", "new_price", "new", "extra", "deposit", "accessory",
                    "other_goods", "bought", "battery", "also_sold", "inverter_one", "inverter_many", "tier", "bid",
                    "bids"))  # fmt: skip
_GOODS = PANELS | INVERTERS | {"set_one", "set_many", "price", "priced_each", "lot", "each"}
_PRICED = frozenset(("each", "lot", "per_set", "price", "selling", "priced_each"))


def leave_out_before_edit(scene: Scene) -> None:
    """Amounts before such an edit are none, where it tells a price."""
    if not scene.field_roles[1] & EDITED:
        return
    tokens, small = scene.tokens[1], scene.small
    edits = [at for at, word in enumerate(tokens) if word in small.edit_words and (not at or tokens[at - 1] in _BEFORE)]
    if not edits:
        return
    edit = edits[-1]
    amounts = sorted(chain.from_iterable(at for unit, at in scene.units.items() if unit in MONEY_UNITS))
    later = [at for at in amounts if scene.items[at].field == 1 and edit < scene.items[at].at <= edit + _REACH]
    if not any(_priced(scene, at, edit) for at in later):
        return
    for place in amounts:
        item = scene.items[place]
        if item.field == 1 and item.at < edit and _OTHER.isdisjoint(_clause(scene, place, item)):
            scene.units[item.unit] = [at for at in scene.units[item.unit] if at != place]


def _priced(scene: Scene, place: int, edit: int) -> bool:
    """Is it the price of these goods, by the words between the edit and what stands directly behind?"""
    item = scene.items[place]
    around = [one for one in (*scene.items[max(place - _REACH, 0) : place], *scene.ahead(place, 3))
              if one.field == 1 and one.at > edit and (one.at < item.at or one.clause == item.clause)]  # fmt: skip
    told = {one.what for one in around}
    if not _OTHER.isdisjoint(told) or not _asked_here(scene, around, edit, item):
        return False
    now = scene.small.price_now
    return not (_PRICED.isdisjoint(told) and now.isdisjoint(scene.tokens[1][edit : item.to + 1]))


def _asked_here(scene: Scene, around: list[Item], edit: int, item: Item) -> bool:
    """Stand only goods and words for an asking price between: "now £90 each", but "the shop now asks £300"?"""
    tokens, small = scene.tokens[1], scene.small
    if not small.in_shops.isdisjoint(tokens[item.to : item.to + _TO_SHOP]):
        return False
    known = {at for one in around if one.what in _GOODS for at in range(one.at, one.to)}
    return all(not tokens[at][0].isalpha() or at in known or tokens[at] in small.before_edited
               for at in range(edit + 1, item.at))  # fmt: skip


def _clause(scene: Scene, place: int, item: Item) -> set[str]:
    return {one.what for one in (*scene.back(place, 6), *scene.ahead(place, 3)) if one.clause == item.clause}
