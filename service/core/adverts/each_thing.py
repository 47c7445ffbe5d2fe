"""Does "each" belong to a thing that every piece has, not to a price: "je 3 Bypassdioden", "3 diodes each, £100"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_LEAST_BARE = 20.0  # less than that nobody asks for one without a word for money
_OF_PRICES = ("each", "lot", "per_set", "for", "price", "priced_each", "shipping", "delivered", "sent", "bring",
              "pickup", "bids", "without", "possible", "plus", "whole", "tier", "if", "selling")  # fmt: skip


def counts_a_thing(scene: Scene, place: int, item: Item) -> bool:
    """Does a figure beside "each", without a word for money, count what a word directly behind it names?

    Only where it is small, or other amounts have such a word.
    """
    tokens = scene.tokens[item.field]
    if item.to >= len(tokens) or not tokens[item.to].isalpha():
        return False
    if item.value >= _LEAST_BARE and scene.units.keys().isdisjoint(MONEY_UNITS):
        return False
    return not any(one.at == item.to and one.what in _OF_PRICES for one in scene.ahead(place, 3))


def has_its_figure(scene: Scene, each: Item) -> bool:
    """Does "each" at the end of a clause stand behind a figure that is no amount: "410 W each", "3 diodes each"?"""
    for place in scene.by_what[each.what]:
        if scene.items[place] is each:
            one = next((one for one in scene.back(place, 3) if one.what == NUMBER), None)
            return one is not None and one.clause == each.clause and each.at - one.to <= 1 and (
                one.unit not in MONEY_UNITS)  # fmt: skip
    return False
