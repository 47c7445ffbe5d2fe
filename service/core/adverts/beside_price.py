"""Which amounts stand beside the price, and are none: taken off it, put on it, given back, paid for other things?

As in "10 € off if collected", "with mounts 15 € more", "Palette 20 € Pfand", "parking is £4", "the missing lead is £12
online", "I'll add the plugs for £5", "swap for a drill plus £10".
"""

from collections.abc import Set

from service.core.adverts.asked_roles import BESIDE_PRICE, PLUS_SENDING
from service.core.adverts.money_told import amounts_told
from service.core.adverts.other_amounts import (
    stand_near,
    without_amounts,
    words_before,
    words_behind,
    words_of_role,
)
from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, Item

_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "set_one", "set_many", "set_weak",
                    "piece"))  # fmt: skip
_THINGS = frozenset(("accessory", "other_goods"))
_SENT = frozenset(("shipping", "delivered", "sent", "bring"))
_MISSING = frozenset(("s:missing", "d:missing_connector", "d:missing_lead"))
_ASKED = _MISSING | {"swap"}
_BEFORE, _BEHIND, _FAR, _LINKS = 6, 6, 10, 2


def leave_out_amounts_beside(scene: Scene) -> None:
    """Such amounts are no prices here."""
    if not scene.roles & BESIDE_PRICE and scene.by_what.keys().isdisjoint(_ASKED):
        return
    amounts = amounts_told(scene)
    marks = words_of_role(scene, BESIDE_PRICE, scene.small.of_beside)
    plus = words_of_role(scene, PLUS_SENDING, scene.small.plus_sending)
    asked = scene.tells(*_ASKED)
    gone = {at for at in amounts
            if (stand_near(marks, scene.items[at], 2 * _BEFORE, 2 * _BEHIND + 1)
                or stand_near(plus, scene.items[at], 2 * _BEFORE, 0)
                or (asked and not _ASKED.isdisjoint(scene.near(at, _FAR, 0)))) and _beside(scene, at)}  # fmt: skip
    if gone:
        without_amounts(scene, amounts, gone)


def _beside(scene: Scene, place: int) -> bool:
    item = scene.items[place]
    before, behind = words_before(scene, item, _BEFORE), words_behind(scene, item, _BEHIND)
    own_before, own = _up_to_amount(scene, place, before, -1), _up_to_amount(scene, place, behind, 1)
    return (
        _changes_price(scene, place, before, behind)
        or _is_deposit(scene, place, own_before, own)
        or _comes_back(scene, own_before, own)
        or _of_another(scene, place, item, own_before, own)
        or _of_missing(scene, place, item, before, behind)
        or _swapped(scene, place, item, before)
    )


def _past(words: list[str], linking: Set[str]) -> list[str]:
    """Words behind those that only join, of which there are few."""
    at = 0
    while at < min(_LINKS, len(words)) and words[at] in linking:
        at += 1
    return words[at:]


def _changes_price(scene: Scene, place: int, before: list[str], behind: list[str]) -> bool:
    """Is it taken off the price or put on it: "10 € de remise", "discount of £10", "£15 more with the bracket"?"""
    small = scene.small
    if not _SENT.isdisjoint(scene.near(place, 3, 3)):
        return False
    first, named = _past(behind, small.change_linking), _past(before, small.change_linking)
    if first and first[0] in small.price_change and small.handed_over.isdisjoint(first[1:2]):
        return True
    if named and named[0] in small.price_change and small.change_after.isdisjoint(named[1:2]):
        return True
    ended = not first[1:] or first[1] in small.coming_with
    if first and first[0] in small.price_less:  # but "50 € menos de un año"
        return small.change_linking.isdisjoint(first[1:2])
    linked = len(first) < len(behind)
    if ended and first and (first[0] in small.price_more or (linked and first[0] in small.more_linked)):
        return True
    return bool(before) and before[0] in small.plus_sending and not small.coming_with.isdisjoint((*behind, *before[1:]))


def _comes_back(scene: Scene, before: list[str], behind: list[str]) -> bool:
    """Is it given back with a pallet: "Pfand für die Palette 25 €"?"""
    words, small = (*before, *behind), scene.small
    return not small.returned.isdisjoint(words) and any(word.startswith(small.pallet) for word in words)


def _is_deposit(scene: Scene, place: int, before: list[str], behind: list[str]) -> bool:
    """Does the word for it stand directly beside: "plus 15 € Pfand", "+ £15 refundable deposit", "consigne 15 €"?"""
    small = scene.small
    first, named = _past(behind, small.change_linking), _past(before, small.change_linking)
    if first and first[0] in small.returnable:
        first = first[1:]
    if first and first[0] in small.returned:
        return True
    at = 1 if named and named[0] in small.returnable else 0
    if not named[at:] or named[at] not in small.returned or "without" in scene.near(place, 3, 0):
        return False
    return small.change_after.isdisjoint(named[at + 1 : at + 2])


def _up_to_amount(scene: Scene, place: int, words: list[str], step: int) -> list[str]:
    """Those of the words beside an amount that are its own: in "50 € plus 25 € Palettenpfand" none is the 50's."""
    item, near = scene.items[place], scene.ahead(place, _BEHIND) if step > 0 else scene.back(place, _BEFORE)
    other = next((one for one in near if one.unit in MONEY_UNITS), None)
    if other is None or other.field != item.field:
        return words
    tokens = scene.tokens[item.field]
    between = tokens[item.to : other.at] if step > 0 else tokens[other.to : item.at]
    first = next((word for word in between if word != "."), "")  # "150 kr. plus"
    if step > 0 and (first in scene.small.plus_sending or first in scene.small.joining):
        return []
    return words[: sum(word.isalnum() for word in between)]


def _of_another(scene: Scene, place: int, item: Item, before: list[str], behind: list[str]) -> bool:
    """Is it paid for parking, storing, a repair, or for a thing that is added?"""
    small = scene.small
    costs = not small.other_costs.isdisjoint((*before, *behind))
    added = before[:1] and before[0] in small.for_so_much and not small.adding.isdisjoint((*before, *behind))
    if not (costs or added):
        return False
    part = [one for one in (*scene.back(place, _FAR), *scene.ahead(place, _FAR)) if one.clause == item.clause]
    if any(one.what in _GOODS for one in part):
        return False
    return costs or any(one.what in _THINGS or one.what.startswith("p:") for one in part)


def _of_missing(scene: Scene, place: int, item: Item, before: list[str], behind: list[str]) -> bool:
    """Is it what a missing part costs elsewhere: "lead missing, £12 online", "falta el cable, cuesta 12 €"?"""
    small = scene.small
    costing = not small.costing.isdisjoint((*before[:2], *behind[:1]))
    if not costing and small.in_shops.isdisjoint((*before, *behind)):
        return False
    tokens = scene.tokens[item.field]
    for one in scene.back(place, _FAR):
        if one.what in _MISSING:
            return True
        if one.unit in MONEY_UNITS or one.what in _GOODS:
            return False
        if one.what == "price" and one.clause == item.clause and tokens[one.at] not in small.costing:
            return False
    return False


def _swapped(scene: Scene, place: int, item: Item, before: list[str]) -> bool:
    """Is it paid on top of what goods are swapped for: "swap for a drill plus £10"?"""
    return bool(before) and before[0] in scene.small.plus_sending and any(
        one.what == "swap" and one.clause == item.clause for one in scene.back(place, _FAR)
    )  # fmt: skip
