"""Is an amount told as another way to buy, a step of a scale, or the price of a thing beside the goods?

As in "80 for both or 45 singly", "1 to 4 pieces 50, 5 to 9 45", "panel 250, battery 400, sold singly".
"""

from itertools import pairwise
from typing import NamedTuple

from service.core.adverts.asked_roles import ALTERNATIVE, TAX
from service.core.adverts.goods import Goods
from service.core.adverts.pieces import of_pallet
from service.core.adverts.scene import Scene
from service.core.adverts.sending_costs import Offers
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item

_OF_ANOTHER = frozenset(("shipping", "delivered", "new_price", "deposit", "bid", "lot", "per_set", "placeholder"))
_THINGS = frozenset(("accessory", "other_goods", "battery"))
_GOODS = ("panel_", "inverter_", "set_", "piece", "lot", "each", "price")
_LISTING = frozenset((",", ";", "/", "|", "\n"))
_AT_ONCE = frozenset((":", "each", "piece"))
_AFTER_TAX = frozenset(").,")
_PASSED = frozenset(",.€£$")
_NEAR, _TO_TAX, _FEWEST = 2, 5, 2
_LEAST_SHARE, _MOST_SHARE = 0.95, 2.0  # of the price of all, what all of them would cost one by one


class Ways(NamedTuple):
    """What an advert tells at all, so that nobody has to look for it beside each amount."""

    taxed: bool
    either: bool  # some of several pieces, or all of them
    listed: bool  # things beside the panels


def ways_of(scene: Scene, goods: Goods) -> Ways:
    """Cheap questions of a whole advert before dear ones of each amount."""
    either = "lot" in scene.by_what and goods.quantity != 1 and scene.roles & ALTERNATIVE > 0
    return Ways(scene.roles & TAX > 0, either, goods.kind == "panel" and scene.tells(*_THINGS))


def ends_another(scene: Scene, place: int, one: Item) -> bool:
    """Does a word for "each" end another amount, with an "or" behind it: "150 a piece or 750 for all"?"""
    item = scene.items[place]
    if scene.small.alternative.isdisjoint(scene.tokens[item.field][one.to : item.at]):
        return False
    return any(other.unit in MONEY_UNITS and 0 <= one.at - other.to <= _NEAR for other in scene.back(place, 6))


def one_alone(scene: Scene, place: int, goods: Goods, near: list[str]) -> bool:
    """Is it what one costs, behind what all cost: "80 € los dos o 45 € por separado"? ``near``: meanings behind it."""
    if not goods.quantity or goods.quantity < _NEAR or "lot" not in scene.near(place, 8, 0):
        return False
    if not _OF_ANOTHER.isdisjoint(near):
        return False
    item = scene.items[place]
    found = scene.back(place, 8)
    at = next((at for at, one in enumerate(found) if one.unit in MONEY_UNITS), 0)
    lot = found[at - 1] if at else item  # nearest to the amount before it
    whole = found[at] if at else item
    if lot.what != "lot" and at > 1:  # a number word, too: "los dos"
        lot = found[at - 2]
    if lot.what != "lot" or not 0 <= lot.at - whole.to <= _NEAR:
        return False
    if scene.small.alternative.isdisjoint(scene.tokens[item.field][lot.to : item.at]):
        return False
    share = item.value * goods.quantity / max(whole.value, 1.0)
    return item.value < whole.value and _LEAST_SHARE <= share <= _MOST_SHARE


def one_before_all(scene: Scene, offers: Offers, goods: Goods) -> Offers:
    """The amounts, where one stands before the price of all ("£60, or £100 for both") as that of one piece."""
    if goods.kind == "set":
        return offers
    pieces = goods.quantity or _FEWEST
    told = list(offers)
    for at, ((one, role), (lot, whole)) in enumerate(pairwise(offers)):
        if role is not None or whole != "lot" or one.field != lot.field or one.value >= lot.value:
            continue
        between = [word for word in scene.tokens[one.field][one.to : lot.at] if word not in _PASSED]
        share = one.value * pieces / max(lot.value, 1.0)
        if len(between) == 1 and between[0] in scene.small.alternative and _LEAST_SHARE <= share <= _MOST_SHARE:
            told[at] = (one, "each")
    return told


def first_step(before: list[Item]) -> bool:
    """Is it the step of a scale that begins with one: "1 - 4 pieces 50"? ``before``: nearest first."""
    numbers = [one for one in before[:4] if one.what not in _AT_ONCE][:2]
    if len(numbers) < _NEAR or any(one.what != NUMBER or one.unit for one in numbers):
        return False
    high, low = numbers
    return low.value == 1 < high.value and 1 <= high.at - low.to <= _NEAR


def of_a_thing(scene: Scene, place: int, item: Item) -> bool:
    """Is it the price of a thing that is listed behind the goods: "panel 250, battery 400"?"""
    if _THINGS.isdisjoint(scene.near(place, 8, 0)):
        return False
    tokens, listed = scene.tokens[item.field], False
    for one in scene.back(place, 8):
        if one.unit in MONEY_UNITS:
            return listed
        if one.what.startswith(_GOODS):
            return False
        listed = listed or (one.what in _THINGS and one.at > 0 and tokens[one.at - 1] in _LISTING)
    return False


def on_a_pallet(scene: Scene, one: Item) -> bool:
    """Is it said where they stand, not for how much a pallet goes: "12 on pallet, 60"?"""
    if one.what != "lot" or "pallet" not in scene.by_what or not one.at or not of_pallet(scene, one):
        return False
    return one.to - one.at == 1 and scene.tokens[one.field][one.at - 1] in scene.small.standing_on


def behind_tax(scene: Scene, place: int, item: Item) -> list[Item]:
    """What stands in the clause directly behind an amount and the name of a tax: "60 € + IVA cada una"."""
    small, tokens, at = scene.small, scene.tokens[item.field], item.to
    if at >= len(tokens) or not (tokens[at] in small.tax_beside or tokens[at] in small.tax):
        return []
    while at < len(tokens) and at - item.to < _TO_TAX and (
        tokens[at] in small.tax_beside or tokens[at][0].isdigit()
    ):  # fmt: skip
        at += 1
    if at >= len(tokens) or tokens[at] not in small.tax:
        return []
    at += 1
    while at < len(tokens) and tokens[at] in _AFTER_TAX:
        at += 1
    found: list[Item] = []
    for one in scene.ahead(place, 6):
        if one.at < at:
            continue
        if one.unit in MONEY_UNITS or one.at - at > 2 * _NEAR or (found or [one])[0].clause != one.clause:
            break
        if not found and one.at > at:
            break
        found.append(one)
    return found
