"""Do words mark an amount as the price of these goods, so that it counts beside the field of the page?

The field holds what is asked. What a text says beside it without a word for one, for all, for a price or for the goods
("parking 4 €", a bare "50 €") may be anything.
"""

from service.core.adverts.goods import Goods
from service.core.adverts.other_amounts import words_before, words_behind
from service.core.adverts.scene import Scene, numbers
from service.core.adverts.walk import Item

_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "set_one", "set_many", "set_weak",
                    "piece"))  # fmt: skip
_PRICING = frozenset(("price", "selling", "bids", "possible"))
_THINGS = frozenset(("accessory", "other_goods"))
_SENT = frozenset(("shipping", "delivered", "sent"))
_NEW = ("new", "new_price")
_TO_SHOP, _TO_NEW = 5, 2
_FAR, _TO_PRICE, _TO_SENDING, _ALIKE = 12, 2, 2, 0.02


def marked_as_price(scene: Scene, item: Item, field: Item, goods: Goods) -> bool:
    """Does its part of the sentence name goods or a price; or do both amounts agree, for one piece and for all?"""
    pieces = goods.quantity or 1
    if any(abs(item.value * count - field.value) <= _ALIKE * field.value for count in (1, pieces, 1.0 / pieces)):
        return True
    place = next(at for at in numbers(scene) if scene.items[at] is item)
    before = scene.back(place, _FAR)
    if any(one.what in _SENT and 0 <= one.at - item.to <= _TO_SENDING for one in scene.ahead(place, 4)):
        return True  # "40 € plus postage"
    part = [one.what for one in (*before, *scene.ahead(place, _FAR)) if one.clause == item.clause]
    if not _GOODS.isdisjoint(part):
        return True
    if any(what in _THINGS or what.startswith("p:") for what in part):
        return False
    if not scene.small.price_now.isdisjoint(words_before(scene, item, _TO_PRICE)):
        return True
    return not _PRICING.isdisjoint(part) or any(
        one.what in _PRICING and item.at - one.to <= _TO_PRICE for one in before
    )


def stands_first(scene: Scene, item: Item) -> bool:
    """Does no other word stand before it in its part of the sentence, so that it may be the price all the same?

    Not where what follows tells that it is asked elsewhere, or was for new ones: "£180 in the shops", "180 € neu."
    """
    return not words_before(scene, item, 1) and not _asked_elsewhere(scene, item)


def _asked_elsewhere(scene: Scene, item: Item) -> bool:
    behind, small = words_behind(scene, item, _TO_SHOP), scene.small
    if not small.in_shops.isdisjoint(behind):
        return True
    if not behind or len(behind) > _TO_NEW:
        return False
    at = item.to + (item.unit == "DKK" and scene.tokens[item.field][item.to : item.to + 1] == ["."])
    return any(scene.stands(what, item.field, at + step) for what in _NEW for step in range(len(behind)))
