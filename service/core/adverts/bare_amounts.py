"""Which figures without a currency can only be a price?"""

from service.core.adverts.asked_roles import PLUS_SENDING
from service.core.adverts.bundles import names_set
from service.core.adverts.each_thing import counts_a_thing
from service.core.adverts.on_pallets import stands_on_each
from service.core.adverts.other_amounts import is_road
from service.core.adverts.scene import Scene
from service.core.adverts.sending_costs import MONEY, counts_sent, ends, plus_before, sending_behind, so_much
from service.core.adverts.walk import NUMBER, Item

_NAMING = frozenset(("price", "priced_each", "shipping", "each"))
_PRICE_BEFORE = _NAMING | {"possible", "for"}  # before a figure that may be one,
_PRICE_BEHIND = frozenset(("each", "price", "per_set"))  # and behind it
_LEAST_SET = 20
_NO_PRICE_BEFORE = frozenset("-x/°%*=")
_OF_SEVERAL = ("each", "shipping")  # whose words mean something else, too:
_OTHER_MEANINGS = frozenset(("s:broken", "s:loose", "set_weak", "set_one", "pallet"))


def bare_amounts(scene: Scene) -> list[int]:
    """Places of figures without a currency that only a price can be: "asking 60", "60 each", "postage 6.99"."""
    items, whats, known = scene.items, scene.whats, scene.by_what
    near: set[int] = set()
    for what in _PRICE_BEFORE:
        for at in known.get(what, []):
            near.add(at + 1)
    for what in _OF_SEVERAL:
        for at in known.get(what, []):
            if whats[at + 1] in _OTHER_MEANINGS and items[at + 1].at == items[at].at:
                near |= {at + 2, at + 3}
    for what in _PRICE_BEHIND:
        for at in known.get(what, []):
            near |= {at - 1, at - 2}
    plus, found = scene.roles & PLUS_SENDING > 0, list[int]()
    for place in scene.units.get("", []):
        item = items[place]
        spelled = whats[place - 1] == NUMBER and items[place - 1].spelled
        if (spelled or place in near or (plus and plus_before(scene, item))) and _bare(scene, place, item):
            found.append(place)
    return found


def _bare(scene: Scene, place: int, item: Item) -> bool:  # noqa: PLR0911 - a row of questions
    """Is it only a price that a figure without a currency can be?"""
    before = _named_before(scene, place, item) if place else None
    tokens = scene.tokens[item.field]
    if item.spelled or item.glued in {"-", "/", "x"} or item.value < 1 or _no_amount(scene, tokens, item):
        return False
    if before is not None and before.what in {"possible", "for"}:  # "sending can be done for 6.95"
        before = next((one for one in scene.back(place, 3) if one.what == "shipping"), before)
    if before is not None and before.what == "shipping" and counts_sent(scene, place, item):
        return False  # "can post 2 at a time for £9"
    behind = scene.items[place + 1] if place + 1 < len(scene.items) else None
    if item.to < len(tokens) and tokens[item.to] in _NO_PRICE_BEFORE:
        return tokens[item.to] == "/" and any(
            one.what == "each" and one.at == item.to + 1 for one in scene.ahead(place, 2)
        )
    if behind is not None and ((behind.what in {"piece", "inputs", "cells"} and behind.at == item.to)
                               or (behind.glued == "=" and behind.at - item.to <= 2)):  # fmt: skip
        return False  # "20 pieces", "4 sets à 2 (=8)"
    if sending_behind(scene.ahead(place, 2), item) and plus_before(scene, item):
        return True
    if behind is not None and behind.what == "per_set" and behind.at == item.to and item.value >= _LEAST_SET:
        return True
    if before is not None and before.spelled and before.value == 1:  # "einzeln 35": one by one
        before = next((one for one in scene.back(place, 3) if one.at == before.at and one.what == "each"), before)
    if before is not None and before.sentence == item.sentence and before.what in _NAMING:
        nothing = scene.tokens[item.field][before.to : item.at]
        counted = behind is not None and behind.what.endswith(("_one", "_many")) and behind.at == item.to
        counted = counted or (before.what == "each" and scene.stands("piece", item.field, item.to))  # "à 31 Stück"
        told = not nothing or (len(nothing) == 1 and nothing[0] in scene.small.is_priced)
        if (told or (before.what == "shipping" and so_much(scene, nothing))) and not counted:
            return before.what != "each" or not (of_pieces(scene, place, before) or counts_a_thing(scene, place, item))
    if (
        behind is not None
        and behind.at > item.to
        and any(one.what == NUMBER and not one.unit and one.at == behind.to for one in scene.ahead(place, 3))
    ):
        return False  # "4 boxes à 2 panels"
    return (behind is not None and behind.what in {"each", "price"} and behind.at - item.to <= 1
            and behind.clause == item.clause and behind.sentence == item.sentence
            and not (behind.what == "each" and counts_a_thing(scene, place, item))
            and not any(one.what == "piece" and one.at == behind.at for one in scene.ahead(place, 2)))  # fmt: skip


def _named_before(scene: Scene, place: int, item: Item) -> Item:
    """What stands before a figure; of several meanings of a word the one that names a price, with nothing behind it.

    "los" may be "each" and "loose", "Paket" a parcel and a set.
    """
    before = scene.items[place - 1]
    if before.what not in _OTHER_MEANINGS or not ends(scene.tokens[item.field], item):
        return before
    of_one = (one for one in scene.items[max(place - 3, 0) : place - 1] if one.at == before.at)
    return next((one for one in of_one if one.what in _NAMING), before)


def _no_amount(scene: Scene, tokens: list[str], item: Item) -> bool:
    """Is it a rating, a number of sets ("5 sad po 2") what is in one ("in sets à 2", "2 Paletten à 31"), a road?"""
    if item.to < len(tokens) and tokens[item.to] in scene.small.equal_sets:
        return True
    if item.value < _LEAST_SET and tokens[item.at - 1] in scene.small.sets_by and names_set(scene, tokens[item.at - 2]):
        return True
    if stands_on_each(scene, item) or is_road(scene, item):
        return True
    return _is_rating(scene, tokens, item)


def _is_rating(scene: Scene, tokens: list[str], item: Item) -> bool:
    """Does "a" behind it mean amperes, not "à"; or has it one decimal, as no amount has: "13,8 a kurz"?"""
    raw = tokens[item.at]
    if item.to == item.at + 1 and raw[-2:-1] in {".", ","}:
        return True
    return tokens[item.to : item.to + 1] == ["a"] and scene.small.a_piece.isdisjoint(tokens[item.to + 1 : item.to + 2])


def of_pieces(scene: Scene, place: int, each: Item) -> bool:
    """Is "Stück" here a word behind a number of pieces, not "a piece"?"""
    if not scene.stands("piece", each.field, each.at) or not each.at:
        return False
    number = scene.bare_to(each.field, each.at)
    counted = scene.tokens[each.field][each.at - 1][0:1].isdigit() or (number is not None and number.value > 1)
    return counted and not _amount_before(scene, place, each)


def _amount_before(scene: Scene, place: int, each: Item) -> bool:
    """Does an amount end where "a piece" begins?"""
    one = next((item for item in scene.back(place, 8) if item.what == NUMBER and item.to <= each.at), None)
    return one is not None and one.unit in MONEY and one.to == each.at
