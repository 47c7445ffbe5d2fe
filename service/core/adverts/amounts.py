"""Which figure is an amount of money, and what is it for: one piece, a set, the lot, sending?"""

from service.core.adverts.alternatives import (
    Ways,
    behind_tax,
    ends_another,
    first_step,
    of_a_thing,
    on_a_pallet,
    one_alone,
    one_before_all,
    ways_of,
)
from service.core.adverts.bare_amounts import bare_amounts, of_pieces
from service.core.adverts.each_thing import has_its_figure, of_watts
from service.core.adverts.goods import Goods
from service.core.adverts.lump_sums import lump_sums
from service.core.adverts.money_told import amounts_told
from service.core.adverts.portions import for_some
from service.core.adverts.price_of_some import number_of_all
from service.core.adverts.scene import Scene, in_order
from service.core.adverts.sending_costs import (
    MONEY,
    SIGNS_BEHIND,
    Offers,
    by_measure,
    has_its_own,
    plus_before,
    sending_behind,
    sentence_of_sending,
    with_sending_in,
)
from service.core.adverts.totals import is_total
from service.core.adverts.walk import NUMBER, Item

ROLES = ("each", "lot", "per_set")
_MONEY = frozenset(MONEY)
_NOT_ASKED = frozenset({"new_price", "extra", "deposit", "placeholder", "tier", "bid"})
_ASIDE = (_NOT_ASKED - {"placeholder"}) | {"shipping"}
_OF_NEWNESS = frozenset(("new", "new_not", "stood"))
_BEHIND, _BEFORE = 4, 7
_OPEN = "open"
_PAYING = ("bought", "bought_behind", "paid_behind")
_PAID_UP_TO = 10
_ON_PALLET = "on_pallet"
_ONE = frozenset(("panel_one", "inverter_one"))
_IF = frozenset(("if", "tier"))


def offers_of(scene: Scene, goods: Goods) -> tuple[Offers, list[int], float | None, bool]:
    """The amounts that may be the price with what each is for, their places, and what sending costs.

    And whether that is told for each piece, mile or the like, so that the sum is not known.
    """
    offers: Offers = []
    places: list[int] = []
    shipping: float | None = None
    measured = False
    others = {scene.items[at].sentence for at in scene.by_what.get("also_sold", [])}
    sent, ways, sending = "sent" in scene.by_what, ways_of(scene, goods), "shipping" in scene.by_what
    for place in in_order([bare_amounts(scene), amounts_told(scene)]):
        item = scene.items[place]
        if a_watt(scene, item) or (others and item.sentence in others and _of_others(scene, place)):
            continue
        role = _role(scene, place, item, goods, ways)
        if sent and with_sending_in(scene, place, item):
            role, shipping = None, 0.0
        if sending and role is None and offers and sentence_of_sending(scene, place, item, offers):
            role = "shipping"
        if role == "shipping" and (measured or by_measure(scene, place, item, goods.quantity)):
            shipping, measured = None, True
        elif role == "shipping":
            shipping = item.value if shipping is None else shipping
        elif role not in _NOT_ASKED:
            offers.append((item, role))
            places.append(place)
    for place, item in lump_sums(scene, goods) if "lot" in scene.by_what else []:
        offers.append((item, "lot"))
        places.append(place)
    return one_before_all(scene, offers, goods) if ways.either else offers, places, shipping, measured


def _of_others(scene: Scene, place: int) -> bool:
    """Is it the price of what the seller offers besides?"""
    return any(one.what == "also_sold" for one in scene.back(place, 40))


def a_watt(scene: Scene, item: Item) -> bool:
    """Is it an amount for a watt, which is no price of a piece?"""
    tokens, to = scene.tokens[item.field], item.to
    return to + 1 < len(tokens) and tokens[to] in scene.small.per_watt and tokens[to + 1] in scene.small.watts


def _role(scene: Scene, place: int, item: Item, goods: Goods, ways: Ways) -> str | None:  # noqa: C901, PLR0911, PLR0912 - a row of questions
    """What an amount is for: what stands directly behind it, else before it, else later in its clause."""
    behind: list[Item] = behind_tax(scene, place, item) if ways.taxed else []
    near: list[str] = [one.what for one in behind] if behind else []
    for one in scene.ahead(place, 6) if not behind else []:
        if one.unit in _MONEY or one.clause != item.clause or one.at - item.to > _BEHIND:
            break
        behind.append(one)
        near.append(one.what)
    before, close = _before(scene, place, item)
    tokens = scene.tokens[item.field]
    if plus_before(scene, item) and sending_behind(behind[:2], item):
        return "shipping"
    of_which = scene.small.of_which
    if (tokens[item.at - 1] in of_which or tokens[item.at - 2] in of_which) and "(" in tokens[item.at - 4 : item.at]:
        return "extra"  # "69 € with postage (of which £7 postage)"
    if tokens[item.at - 1] == "(" and any(
        one.what in {"shipping", "bring"} and item.at - one.to <= 4 for one in before
    ):
        return "shipping"
    if before and before[0].what == "priced_each" and item.at - before[0].to <= 1 and before[0].clause == item.clause:
        return "each"
    if near and near[0] in _IF and behind[-1].what == NUMBER and behind[-1].value == 1 and not behind[-1].unit:
        return "each"  # "or 35 if you only want one"
    stepped = "tier" in close
    if stepped and first_step(before):
        return "each"
    if ways.either and one_alone(scene, place, goods, near):
        return "each"
    if stepped or "tier" in near or (close and close[0] == "bid"):
        return "extra"
    if before and goods.quantity != 1 and "shipping" not in close and for_some(scene, place, before, goods):
        return "extra"
    if ways.listed and of_a_thing(scene, place, item):
        return "extra"
    told = next((what for what in close if what not in _OF_NEWNESS), None)  # "they cost new 180 euro each"
    if told in _ASIDE:
        return told
    if not scene.by_what.keys().isdisjoint(_PAYING) and _paid(scene, place, item, behind):
        return "new_price"
    if "shipping" in close and "shipping" in close[:5] and "price" not in close[: close.index("shipping")]:
        return "shipping"
    if _at_end(scene, tokens, item):
        return "each"  # "50 € je.", "je 50 €"
    told = _directly_before(scene, before, behind, item)
    if told and not ends_another(scene, place, before[0]):
        return told
    if "delivered" in near and "delivered" in near[:2]:
        return "each" if "each" in near else None
    told = _role_told_behind(scene, place, item, goods, behind, near, close)
    return _role_told_before(scene, item, goods, before, close) if told == _OPEN else told


def _at_end(scene: Scene, tokens: list[str], item: Item) -> bool:
    """Does a word that means "each" where nothing goes on behind it stand directly behind or before an amount?"""
    words, to = scene.small.each_at_end, item.to
    if to < len(tokens) and tokens[to] in words:
        return to + 1 >= len(tokens) or tokens[to + 1] in SIGNS_BEHIND
    return item.at > 0 and tokens[item.at - 1] in words


def _role_told_behind(  # noqa: PLR0911 - a row of questions
    scene: Scene, place: int, item: Item, goods: Goods, behind: list[Item], near: list[str], close: list[str]
) -> str | None:
    """What an amount is for by what stands behind it, in order; open where that does not tell."""
    tokens = scene.tokens[item.field]
    for one in behind:
        if one.what == "for" or (one.what == "new_price" and _instead(scene, one)) or _on_top(scene, item, one):
            continue
        if one.what in ROLES:
            return _role_of(one.what, near)
        if one.what in _NOT_ASKED:
            return one.what
        if one.what == "shipping":
            apart = not scene.small.not_in_price.isdisjoint(tokens[item.to : one.to])
            if apart and not plus_before(scene, item):
                return _OPEN  # "60 € plus postage": it comes on top
            if has_its_own(scene, item, one, scene.ahead(place, 8)):
                return None
            return "shipping" if one.at - item.to <= 1 and not set(close) & {*ROLES, "price"} else None
        if one.what == NUMBER and one.value == 1 and near[:1] == ["for"]:
            return "each"
        if one.what == NUMBER and "each" in close and 1 < one.value < (goods.quantity or 0):
            return "extra" if number_of_all(scene, item, one) else _OPEN  # "25 each or 90 the 4"
        if one.what == NUMBER and goods.quantity and one.value == goods.quantity > 1 and not one.unit:
            if near[:1] == ["for"] or one.spelled or number_of_all(scene, item, one):
                return "lot"
            return _OPEN
    return _OPEN


def _before(scene: Scene, place: int, item: Item) -> tuple[list[Item], list[str]]:
    """What stands before an amount up to the next one, nearest first, and the meanings of what is in its clause."""
    before: list[Item] = []
    close: list[str] = []
    for at in range(place - 1, max(place - 9, -1), -1):  # as Scene.back, without a row of them
        one = scene.items[at]
        if one.sentence != item.sentence or one.unit in _MONEY or item.at - one.to > _BEFORE:
            break
        if not (one.what == "each" and (of_pieces(scene, place, one) or of_watts(scene, at, item))):
            before.append(one)
            if one.clause == item.clause:
                close.append("each" if one.what == "priced_each" else one.what)
                if one.what == "lot" and on_a_pallet(scene, one):
                    close[-1] = _ON_PALLET
    return before, close


def _instead(scene: Scene, one: Item) -> bool:
    """Does it name the amount behind it: "180 € instead of 329 €"?"""
    return not scene.small.instead.isdisjoint(scene.tokens[one.field][one.at : one.to])


def _on_top(scene: Scene, item: Item, one: Item) -> bool:
    """Is it a deposit that comes on top of an amount: "60 € plus deposit"?"""
    return one.what == "deposit" and not scene.small.plus_sending.isdisjoint(scene.tokens[item.field][item.to : one.at])


def _paid(scene: Scene, place: int, item: Item, behind: list[Item]) -> bool:
    """Is it what the seller paid: "bought new in 2022 for 480", "für 120 € das Stück gekauft"?"""
    tokens = scene.tokens[item.field]
    at = item.at - 1
    while at > 0 and not tokens[at].isalnum():  # the sign of its currency
        at -= 1
    so_much = tokens[at] in scene.small.paid_for
    for one in scene.back(place, 8):
        if one.clause != item.clause or one.unit in MONEY or one.what in {"price", "selling"}:
            break
        if one.what == "bought" and item.at - one.to <= (_PAID_UP_TO if so_much else 2):
            return True
    for one in behind:
        if one.what in {"price", "selling"}:
            return False
        if one.what == "paid_behind" or (so_much and one.what == "bought_behind"):
            return True
    return False


def _role_told_before(  # noqa: PLR0911 - a row of questions
    scene: Scene, item: Item, goods: Goods, before: list[Item], close: list[str]
) -> str | None:
    """What an amount is for, behind which nothing tells it. ``close``: meanings before it in its clause."""
    for what in close:
        if what in _NOT_ASKED or what == "shipping":
            return what
        if what == _ON_PALLET:  # all that stand on it, or one of them?
            return None
        if what == "whole":  # "all together only for 750"
            return "lot"
        if what in ROLES:
            return _role_of(what, close)
        if what == "price":
            return next((one for one in close if one in ROLES), None)
    if before and before[0].what in ROLES and before[0].clause == item.clause - 1:
        if before[0].what == "each" and goods.quantity != 1 and is_total(scene, item.field, item.to):
            return "lot"  # "£50 each, £200 total"
        return None if before[0].what == "each" and has_its_figure(scene, before[0]) else before[0].what
    tokens = scene.tokens[item.field][max(item.at - 2, 0) : item.at]
    at = scene.small.at_so_much
    at_so_much = bool(tokens) and (tokens[-1] in at or (tokens[0] in at and not tokens[-1].isalnum()))
    return "each" if at_so_much and goods.quantity and goods.quantity > 1 else None


def _directly_before(  # noqa: PLR0911 - a row of questions
    scene: Scene, before: list[Item], behind: list[Item], item: Item
) -> str | None:
    """The role by the word directly before an amount, where none stands directly behind it."""
    if not before or before[0].clause != item.clause or item.at - before[0].to > 1:
        return None
    lot_behind = bool(behind) and behind[0].what == "lot"  # "5 euro each if all are taken"
    if before[0].what == "each" and lot_behind and not scene.stands("piece", before[0].field, before[0].at):
        return "each"
    if behind and behind[0].at == item.to and behind[0].what in {*ROLES, "for", *_NOT_ASKED}:
        return None
    if behind and behind[0].what == NUMBER and number_of_all(scene, item, behind[0]):
        return None  # "25 € pièce ou 160 € les 8"
    what = before[0].what
    if what == "price" and len(before) > 1 and before[1].what in _ONE and before[1].to == before[0].at:
        return "each"  # "panel price £45"
    if what in _ONE:
        return "each" if item.at == before[0].to else None
    again = what in ROLES and any(one.what in ROLES and one.at == before[0].at for one in before[1:])
    return what if what in ROLES and not again else None


def _role_of(what: str, near: list[str]) -> str:
    return "each" if what in {"each", "lot"} and "each" in near[: near.index(what) + 2] else what
