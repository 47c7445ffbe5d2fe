"""Does "each" belong to a thing that every piece has, not to a price: "je 3 Bypassdioden", "3 diodes each, £100"?"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_TO_REQUEST, _NEAR = 3, 4
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


def on_request(scene: Scene, one: Item) -> bool:
    """Does a word for a price of one only say that the seller tells it when asked: "price each on request"?"""
    return not scene.small.on_request.isdisjoint(scene.tokens[one.field][one.to : one.to + _TO_REQUEST])


def of_watts(scene: Scene, place: int, amount: Item) -> bool:
    """Does "each" tell of watts beside it, and an amount behind "for" not: "4 panels at 400 W each for £160"?"""
    each = scene.items[place]
    tokens, small = scene.tokens[each.field], scene.small
    between = tokens[each.to : amount.at]
    if "W" not in scene.units or small.for_so_much.isdisjoint(between):
        return False
    said = tokens[each.at : each.to]
    if small.per.isdisjoint(said) and any(word.startswith(small.piece_named) for word in said):
        return False  # "400 W das Stück für 40 €", but "400 W pro Stück für 160 €"
    for one in scene.items[max(place - _NEAR, 0) : place + _NEAR]:
        if one.unit == "W" and one.field == each.field:
            if 0 <= one.at - each.to <= 1:
                return True
            if one.to == each.at:
                return not any(word[0].isdigit() for word in between)
    return False


def has_its_figure(scene: Scene, each: Item) -> bool:
    """Does "each" at the end of a clause stand behind a figure that is no amount: "410 W each", "3 diodes each"?"""
    for place in scene.by_what[each.what]:
        if scene.items[place] is each:
            one = next((one for one in scene.back(place, 3) if one.what == NUMBER), None)
            return one is not None and one.clause == each.clause and each.at - one.to <= 1 and (
                one.unit not in MONEY_UNITS)  # fmt: skip
    return False
