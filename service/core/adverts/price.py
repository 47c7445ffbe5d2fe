"""What is asked, for how much of it, and what does sending cost?"""

from dataclasses import dataclass, replace

from service.core.adverts.goods import Goods
from service.core.adverts.pieces import of_pallet
from service.core.adverts.reading import Price
from service.core.adverts.scene import Scene, measured_in, numbers
from service.core.adverts.walk import CURRENCIES, NUMBER, Item

_ROLES = ("each", "lot", "per_set")
_NOT_ASKED = frozenset({"new_price", "extra", "deposit", "placeholder", "tier", "bid"})
_PLACEHOLDERS = frozenset({0.0, 1.0, 123.0, 1234.0, 9999.0, 99999.0, 999.0, 12345.0})
_MONEY = (*sorted(CURRENCIES), "money")
_AT = frozenset(("a", "zu"))  # "ten panels at 20"
_FOR_SO_MUCH = frozenset(("voor", "fur", "fuer", "for", "da", "por", "per", "za", "pour"))
_TOGETHER_SHARE = 0.02
_LEAST_SET = 20
_NO_PRICE_BEFORE = frozenset("-x/°%*")
_BEHIND, _BEFORE = 4, 7
_PER = frozenset(("/", "per", "pro", "par", "por", "je", "pr", "a", "na", "al", "za"))
_WATTS = frozenset(("w", "wp", "wc", "watt", "watts", "wattpiek", "wattpeak", "kw", "kwp", "kwc", "vatio", "watio"))
_PLUS = frozenset(("zzgl", "zuzuglich", "zuzueglich", "plus", "+", "excl", "exkl", "ex"))


Offers = list[tuple[Item, str | None]]  # an amount, and what it is for


@dataclass(frozen=True, slots=True)
class Asked:
    """The price, its place, and what sending costs."""

    price: Price
    item: Item | None
    conflict: bool
    shipping_cost: float | None
    mixed: bool = False  # goods of several kinds, each with a price of its own


def asked_of(scene: Scene, goods: Goods) -> Asked:
    """The price of an offer."""
    offers, shipping = _offers(scene, goods)
    if shipping is None and scene.has("delivered"):
        shipping = 0.0
    given, brought = _given(scene)
    if brought and shipping is None:
        shipping = 0.0
    if _mixed(goods, offers) or _mixed_panels(scene, offers):
        return Asked(Price(), None, False, shipping, mixed=True)
    field = _field(scene)
    chosen, basis = _chosen(scene, offers, field, goods)
    if given and (chosen is None or chosen.value == 0 or (chosen is field and chosen.value in _PLACEHOLDERS)):
        return Asked(Price(value=0.0, each=0.0), field, False, shipping)
    if chosen is None:
        return Asked(Price(), None, False, shipping)
    currency = _currency(chosen, field, offers)
    price = _based(chosen.value, currency, _basis(basis, goods, scene, chosen), goods)
    if goods.pallets > 1 and price.basis == "lot" and price.each is not None and _a_pallet(scene, chosen):
        price = replace(price, each=round(price.each * goods.pallets, 4))
    return Asked(price, chosen, _conflict(scene, chosen, field, offers, goods), shipping)


def _offers(scene: Scene, goods: Goods) -> tuple[Offers, float | None]:
    """The amounts that may be the price with what each is for, and what sending costs."""
    offers: Offers = []
    shipping: float | None = None
    others = {scene.items[at].sentence for at in scene.by_what.get("also_sold", ())}
    for place in measured_in(scene, "", *_MONEY):
        item = scene.items[place]
        if not item.unit and not _bare(scene, place, item):
            continue
        if _a_watt(scene, item) or (others and item.sentence in others and _of_others(scene, place)):
            continue
        role = _role(scene, place, item, goods)
        if _sent(scene, place, item):
            role, shipping = None, 0.0
        if role == "shipping":
            shipping = item.value if shipping is None else shipping
        elif role not in _NOT_ASKED:
            offers.append((item, role))
    return offers, shipping


def _field(scene: Scene) -> Item | None:
    """The amount of the price field, if it is none a watt."""
    field = next((item for item in scene.price if item.what == NUMBER and not _a_watt(scene, item)), None)
    amounts = (scene.items[at] for at in numbers(scene))
    if field is not None and any(one.value == field.value and _a_watt(scene, one) for one in amounts):
        return None
    return field


def _given(scene: Scene) -> tuple[bool, bool]:
    """Are the goods given away; or is it only that they are sent or brought for nothing?"""
    places = scene.said("giveaway")
    free = [place for place in places if any(
        one.what in {"shipping", "bring"} and one.clause == scene.items[place].clause
        for one in (*scene.back(place, 4), *scene.ahead(place, 4)))]  # fmt: skip
    return len(free) < len(places) or any(one.what == "giveaway" for one in scene.price), bool(free)


def _a_pallet(scene: Scene, chosen: Item) -> bool:
    """Is it the price of one pallet?"""
    if chosen.field > 1:
        return True
    place = next(at for at in numbers(scene) if scene.items[at] is chosen)
    near = (*scene.back(place, 4), *scene.ahead(place, 4))
    return any(of_pallet(scene, one) and one.clause == chosen.clause for one in near)


def _of_others(scene: Scene, place: int) -> bool:
    """Is it the price of what the seller offers besides?"""
    return any(one.what == "also_sold" for one in scene.back(place, 40))


def _a_watt(scene: Scene, item: Item) -> bool:
    """Is it an amount for a watt, which is no price of a piece?"""
    behind = scene.tokens[item.field][item.to : item.to + 2]
    return len(behind) == 2 and behind[0] in _PER and behind[1] in _WATTS


def _mixed(goods: Goods, offers: Offers) -> bool:
    """Are parts of a mixed lot priced one by one, so that nobody knows what all of it costs?"""
    roles = {role for _, role in offers}
    return goods.kind == "set" and "each" in roles and not roles & {"lot", "per_set"} and len(
        {item.value for item, _ in offers if item.field < 2}) > 1  # fmt: skip


def _mixed_panels(scene: Scene, offers: Offers) -> bool:
    """Are panels of several powers priced each by itself: "3 of 410 W at 45, 5 of 300 W at 20"?"""
    told = {id(item): item for item, role in offers if item.field < 2 and role in {"each", None}}
    if len({item.value for item in told.values()}) < 2 or len(scene.units.get("W", ())) < 2:
        return False
    priced: dict[float, float] = {}
    for place in numbers(scene):
        item = told.get(id(scene.items[place]))
        for one in scene.back(place, 8) if item is not None else ():
            if one.unit in _MONEY:
                break
            if one.unit == "W":
                priced.setdefault(one.value, scene.items[place].value)
                break
    return len(priced) > 1 and len(set(priced.values())) > 1


def _chosen(scene: Scene, offers: Offers, field: Item | None, goods: Goods) -> tuple[Item | None, str | None]:
    """For one piece before for a set before for the lot; but a figure a piece may only explain the price of the lot."""
    first = {wanted: next((item for item, role in offers if role == wanted), None) for wanted in (*_ROLES, None)}
    each, lot = first["each"], first["lot"]
    if each is not None and lot is not None and goods.quantity and goods.quantity > 1:
        alike = abs(each.value * goods.quantity - lot.value) <= _TOGETHER_SHARE * lot.value
        if alike and ("whole" in scene.by_what or (lot.field, lot.at) < (each.field, each.at)):
            return lot, "lot"
    first_each = next((item for item, role in offers if role == "each"), None)
    if first_each is not None and goods.quantity and goods.quantity > 1:  # "1395 euro (45 a panel)"
        for item, role in offers:
            if (
                role == "each"
                and abs(item.value * goods.quantity - first_each.value) <= _TOGETHER_SHARE * first_each.value
            ):
                return first_each, "lot"
    for wanted in ("per_set", "each", "lot") if goods.kind == "set" else ("each", "per_set", "lot"):
        if first[wanted] is not None:
            return first[wanted], wanted
    plain = [item for item, role in offers if role is None]
    if plain:
        as_field = [item for item in plain if field is not None and item.value == field.value]
        return (as_field or plain)[0], _priced_by(scene) if len({item.value for item in plain}) == 1 else None
    if field is None or (field.value in _PLACEHOLDERS - {1.0}) or "placeholder" in scene.by_what:
        return None, None
    told = next((one.what for one in scene.price if one.what in _ROLES), None)
    return field, told or _priced_by(scene)


def _priced_by(scene: Scene) -> str | None:
    """For how much a price is said to be, without an amount."""
    for at in scene.by_what.get("price", ()):
        for one in scene.ahead(at, 3):
            if one.what == NUMBER or one.at - scene.items[at].to > 3:
                break
            if one.what in _ROLES:
                return one.what
    return "each" if scene.by_what.get("priced_each") else None


def _currency(chosen: Item, field: Item | None, offers: Offers) -> str | None:
    for item in (chosen, *([field] if field is not None else []), *(item for item, _ in offers)):
        if item.unit in CURRENCIES:
            return item.unit
    return None


def _basis(role: str | None, goods: Goods, scene: Scene, chosen: Item) -> str:
    if goods.kind == "set" and (role in {"per_set", "each", "lot"} or goods.quantity == 1):
        return "set" if goods.quantity == 1 or role != "lot" else "lot"
    if role == "each" or goods.quantity == 1:
        return "each"
    if role in {"lot", "per_set"} or (role is None and chosen.field < 2 and _for_all(scene, chosen, goods)):
        return "lot"
    one = {"panel": "panel", "inverter": "inverter"}.get(goods.kind)
    titled = [scene.items[at].field for at in scene.by_what.get(f"{one}_one", ())]
    if role is None and 0 in titled and f"{one}_many" not in scene.by_what and goods.quantity and scene.tokens[0]:
        return "each" if not _counted_in_title(scene) else "unknown"
    return "unknown"


def _counted_in_title(scene: Scene) -> bool:
    return any(
        scene.items[at].field == 0 and not scene.items[at].unit and scene.items[at].value > 1 for at in numbers(scene)
    )


def _for_all(scene: Scene, chosen: Item, goods: Goods) -> bool:
    """Does the amount stand for a number of pieces: ten panels for 500, 500 for the ten?"""
    if goods.quantity is None:
        return False
    place = next(at for at in numbers(scene) if scene.items[at] is chosen)
    before = [one for one in scene.back(place, 6) if chosen.at - one.to <= 8]
    if before and before[0].what == "for" and chosen.at - before[0].to <= 1:
        return any(one.what.endswith(("_many", "_goods")) or one.what == "piece"
                   or (one.what == NUMBER and one.value == goods.quantity) for one in before)  # fmt: skip
    behind = [one for one in scene.ahead(place, 3) if one.at - chosen.to <= 4]
    return (len(behind) > 1 and behind[0].what == "for" and behind[1].what == NUMBER
            and behind[1].value == goods.quantity and not behind[1].unit)  # fmt: skip


def _based(value: float, currency: str | None, basis: str, goods: Goods) -> Price:
    each = None
    if basis in {"each", "set"}:
        each = value
    elif basis == "lot" and goods.quantity:
        each = round(value / goods.quantity, 4)
    return Price(value=value, currency=currency, basis=basis, each=each)


def _conflict(scene: Scene, chosen: Item, field: Item | None, offers: Offers, goods: Goods) -> bool:
    if field is None or field is chosen or field.value in _PLACEHOLDERS or "placeholder" in scene.by_what:
        return False
    pieces = goods.quantity
    if pieces is None:
        return False
    values = [item.value for item, _ in offers] + [chosen.value * pieces, chosen.value / pieces]
    return not any(abs(field.value - value) <= _TOGETHER_SHARE * max(field.value, 1.0) for value in values)


def _sent(scene: Scene, place: int, item: Item) -> bool:
    """Is sending in the price, as in 20 euro posted?"""
    return any(one.what == "sent" and one.at == item.to for one in scene.ahead(place, 3))


def _bare(scene: Scene, place: int, item: Item) -> bool:  # noqa: PLR0911 - a row of questions
    """A figure without a currency that only a price can be: "asking 60", "60 each", "postage 6.99"."""
    if item.spelled or item.glued in {"-", "/", "x"} or item.value < 1:
        return False
    tokens = scene.tokens[item.field]
    before = scene.items[place - 1] if place else None
    behind = scene.items[place + 1] if place + 1 < len(scene.items) else None
    if item.to < len(tokens) and tokens[item.to] in _NO_PRICE_BEFORE:
        return tokens[item.to] == "/" and any(
            one.what == "each" and one.at == item.to + 1 for one in scene.ahead(place, 2)
        )
    if behind is not None and behind.what in {"piece", "inputs", "cells"} and behind.at == item.to:
        return False
    if (item.at and tokens[item.at - 1] in _PLUS and behind is not None and behind.what == "shipping"
            and behind.at - item.to <= 1):  # fmt: skip
        return True
    if behind is not None and behind.what == "per_set" and behind.at == item.to and item.value >= _LEAST_SET:
        return True
    if before is not None and before.sentence == item.sentence and before.what in {"price", "shipping", "each"}:
        nothing = scene.tokens[item.field][before.to : item.at]
        counted = behind is not None and behind.what.endswith(("_one", "_many")) and behind.at == item.to
        if (nothing in ([], [":"], ["="], ["is"]) or (before.what == "shipping" and _so_much(nothing))) and not counted:
            return before.what != "each" or not _piece(scene, place, before)
    return (behind is not None and behind.what in {"each", "price"} and behind.at - item.to <= 1
            and behind.clause == item.clause and behind.sentence == item.sentence
            and not any(one.what == "piece" and one.at == behind.at for one in scene.ahead(place, 2)))  # fmt: skip


def _so_much(between: list[str]) -> bool:
    return len(between) <= 2 and between[-1] in _FOR_SO_MUCH


def _piece(scene: Scene, place: int, each: Item) -> bool:
    """Is "Stück" here a word behind a number of pieces, not "a piece"?"""
    if not scene.stands("piece", each.field, each.at) or not each.at:
        return False
    return scene.tokens[each.field][each.at - 1][0:1].isdigit() and not _amount_before(scene, place, each)


def _amount_before(scene: Scene, place: int, each: Item) -> bool:
    """Does an amount end where "a piece" begins?"""
    one = next((item for item in scene.back(place, 8) if item.what == NUMBER and item.to <= each.at), None)
    return one is not None and one.unit in _MONEY and one.to == each.at


def _role(scene: Scene, place: int, item: Item, goods: Goods) -> str | None:  # noqa: C901, PLR0911, PLR0912 - a row of questions
    """What an amount is for: what stands directly behind it, else before it, else later in its clause."""
    behind: list[Item] = []
    for one in scene.ahead(place, 6):
        if one.unit in _MONEY or one.clause != item.clause or one.at - item.to > _BEHIND:
            break
        behind.append(one)
    before: list[Item] = []
    for one in scene.back(place, 8):
        if one.unit in _MONEY or item.at - one.to > _BEFORE:
            break
        if not (one.what == "each" and _piece(scene, place, one)):
            before.append(one)
    tokens = scene.tokens[item.field]
    if behind and behind[0].what == "shipping" and behind[0].at - item.to <= 2 and tokens[item.at - 1] in _PLUS:
        return "shipping"
    if tokens[item.at - 1] == "(" and any(
        one.what in {"shipping", "bring"} and item.at - one.to <= 4 for one in before
    ):
        return "shipping"
    near = [one.what for one in behind]
    close = [one.what for one in before if one.clause == item.clause]
    if "tier" in close or "tier" in near or "bid" in close[:1]:
        return "extra"
    if close and close[0] in _NOT_ASKED | {"shipping"} and close[0] != "placeholder":
        return close[0]
    if "shipping" in close[:5] and "price" not in close[: close.index("shipping")]:
        return "shipping"
    told = _directly_before(scene, before, behind, item)
    if told:
        return told
    if "delivered" in near[:2]:
        return "each" if "each" in near else None
    for one in behind:
        if one.what == "for":
            continue
        if one.what in _ROLES:
            return _role_of(one.what, near)
        if one.what in _NOT_ASKED:
            return one.what
        if one.what == "shipping":
            if _has_its_own(scene, item, one, scene.ahead(place, 8)):
                return None
            return "shipping" if one.at - item.to <= 1 and not set(close) & {*_ROLES, "price"} else None
        if one.what == NUMBER and one.value == 1 and near[:1] == ["for"]:
            return "each"
        if one.what == NUMBER and goods.quantity and one.value == goods.quantity > 1 and not one.unit:
            if near[:1] == ["for"] or one.spelled:
                return "lot"
            break
    for what in close:
        if what in _NOT_ASKED or what == "shipping":
            return what
        if what in _ROLES:
            return _role_of(what, close)
        if what == "price":
            return next((one for one in close if one in _ROLES), None)
    if before and before[0].what in _ROLES and before[0].clause == item.clause - 1:
        return before[0].what
    tokens = tokens[max(item.at - 2, 0) : item.at]
    at_so_much = bool(tokens) and (tokens[-1] in _AT or (tokens[0] in _AT and not tokens[-1].isalnum()))
    return "each" if at_so_much and goods.quantity and goods.quantity > 1 else None


def _has_its_own(scene: Scene, item: Item, shipping: Item, ahead: list[Item]) -> bool:
    """Does an amount of its own follow sending, as in "40 euro plus postage 6.99"?"""
    tokens = scene.tokens[shipping.field]
    follows = next((one for one in ahead if one.what == NUMBER and one.at >= shipping.to), None)
    if (
        follows is not None
        and follows.at - shipping.to <= 3
        and follows.clause == shipping.clause
        and (follows.unit in _MONEY or tokens[follows.at - 1] in _FOR_SO_MUCH)
        and tokens[item.at - 1] not in _PLUS
    ):
        return True
    behind = [word for word in tokens[shipping.to : shipping.to + 2] if word not in {":", "="}]
    return not _PLUS.isdisjoint(tokens[item.to : shipping.to]) and bool(behind) and behind[0][0:1].isdigit()


def _directly_before(scene: Scene, before: list[Item], behind: list[Item], item: Item) -> str | None:
    """The role by the word directly before an amount, where none stands directly behind it."""
    if not before or before[0].clause != item.clause or item.at - before[0].to > 1:
        return None
    lot_behind = bool(behind) and behind[0].what == "lot"  # "5 euro each if all are taken"
    if before[0].what == "each" and lot_behind and not scene.stands("piece", before[0].field, before[0].at):
        return "each"
    if behind and behind[0].at == item.to and behind[0].what in {*_ROLES, "for", *_NOT_ASKED}:
        return None
    what = before[0].what
    if what in {"panel_one", "inverter_one"}:
        return "each" if item.at == before[0].to else None
    return (
        what
        if what in _ROLES and not any(one.what in _ROLES and one.at == before[0].at for one in before[1:])
        else None
    )


def _role_of(what: str, near: list[str]) -> str:
    return "each" if what in {"each", "lot"} and "each" in near[: near.index(what) + 2] else what
