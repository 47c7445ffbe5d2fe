"""What is asked, for how much of it, and what does sending cost?"""

from itertools import chain
from typing import NamedTuple

from service.core.adverts.amounts import ROLES, a_watt, offers_of
from service.core.adverts.bills_and_deposits import paid_in_parts
from service.core.adverts.bundles import one_or_all
from service.core.adverts.each_thing import on_request
from service.core.adverts.field import PLACEHOLDERS, held_to_field, is_gross
from service.core.adverts.free_things import goods_are_free
from service.core.adverts.goods import Goods
from service.core.adverts.marked_price import marked_as_price, stands_first
from service.core.adverts.not_money import without_watts_and_years
from service.core.adverts.pieces import of_pallet
from service.core.adverts.portions import of_panels_in_set
from service.core.adverts.price_of_field import pieces_of_field
from service.core.adverts.price_of_some import pieces_of_price
from service.core.adverts.priced_apart import priced_apart
from service.core.adverts.reading import Price
from service.core.adverts.scene import Scene, numbers
from service.core.adverts.sending_costs import MONEY, Offers
from service.core.adverts.token_price import without_tokens
from service.core.adverts.walk import CURRENCIES, NUMBER, Item
from service.core.adverts.with_sending import cost_by_difference, price_with_sending
from service.core.adverts.zeros import without_zeros

_TOGETHER_SHARE = 0.02
_TOKEN = 1.0
_WITH_END = 2  # a word and what stands behind it
_LEAST = 2  # pieces of which a price may be for some


class Asked(NamedTuple):
    """The price, its place, and what sending costs."""

    price: Price
    item: Item | None
    conflict: bool
    shipping_cost: float | None
    mixed: bool = False  # goods of several kinds, each with a price of its own


def asked_of(scene: Scene, goods: Goods) -> Asked:
    """The price of an offer."""
    offers, places, shipping, measured = offers_of(scene, goods)
    field = _field(scene)
    if not all(item.value for item, _ in offers):
        offers, places = without_zeros(scene, offers, places, field)
    offers, places, field = without_tokens(scene, offers, places, field)
    offers, places = without_watts_and_years(scene, offers, places, field, goods)
    others = [item for item, _ in offers]
    others += [field] if field is not None and field.value not in PLACEHOLDERS else []
    dear = price_with_sending(scene, others, shipping) if scene.tells("delivered", "sent", "shipping") else None
    if dear is not None:
        places = [place for place, (item, _) in zip(places, offers, strict=True) if item is not dear]
        offers = [offer for offer in offers if offer[0] is not dear]
        shipping = None
    elif shipping is None and not measured and scene.has("delivered"):
        shipping = 0.0
    given, brought = _given(scene)
    if brought and shipping is None and dear is None and not measured:
        shipping = 0.0
    if _mixed(scene, goods, offers, places) or _mixed_panels(scene, offers, places):
        return Asked(Price(), None, False, shipping, mixed=True)
    chosen, basis = _chosen(scene, offers, field, goods)
    held = held_to_field(chosen, basis, offers, field, goods)
    contradicted = held is not None
    if held is not None:
        chosen, basis = held
    elif chosen is not None and field is not None and _is_unmarked(scene, chosen, offers, field, goods):
        contradicted = stands_first(scene, chosen)
        chosen, basis = _of_field(scene, field)
    if given and (chosen is None or chosen.value == 0 or (chosen is field and chosen.value in PLACEHOLDERS)):
        return Asked(Price(value=0.0, each=0.0), field, False, shipping)
    parts = paid_in_parts(scene) if chosen is None else None
    if parts is not None:
        price = _based(parts.value, _currency(scene, parts, None, []), _basis("lot", goods, scene, parts), goods)
        return Asked(price, parts, False, shipping)
    if chosen is None or (0 < chosen.value <= _TOKEN and _bids_wanted(scene)):
        return Asked(Price(), None, False, shipping)
    currency = _currency(scene, chosen, field, offers)
    price = _based(chosen.value, currency, _basis(basis, goods, scene, chosen), goods)
    price = _divided(scene, goods, chosen, price, by_set=basis == "per_set")
    if dear is not None:
        shipping = cost_by_difference(price, dear, goods.quantity)
    conflict = contradicted or _conflict(scene, chosen, field, offers, goods)
    return Asked(price, chosen, conflict, shipping)


def _divided(scene: Scene, goods: Goods, chosen: Item, price: Price, *, by_set: bool) -> Price:
    """The price with what one piece of it costs, where it is for a part of them: a pair, a set of several, a pallet."""
    some = _pieces_of_price(scene, chosen, price, goods)
    if some is not None:
        return price._replace(basis="lot", each=round(chosen.value / some, 4))
    if goods.bundles > 1:
        return _of_equal_sets(scene, goods, chosen, price, by_set=by_set)
    if price.basis != "lot":
        return price
    if goods.pallets > 1 and price.each is not None and _a_pallet(scene, chosen):
        return price._replace(each=round(chosen.value * goods.pallets / (goods.quantity or 1), 4))
    return price._replace(each=None) if _per_pallet(scene, chosen) else price  # how many are on one is not told


def _of_equal_sets(scene: Scene, goods: Goods, chosen: Item, price: Price, *, by_set: bool) -> Price:
    """The price for one piece, where an amount tells whether it buys one of several equal sets or all of them."""
    told, pieces = "one" if by_set else one_or_all(scene, chosen), (goods.quantity or 0) / goods.bundles
    if told == "one" and pieces:
        return price._replace(basis="lot", each=round(chosen.value / pieces, 4))
    return price if price.basis != "lot" or told == "all" or scene.tells("whole") else price._replace(each=None)


def _pieces_of_price(scene: Scene, chosen: Item, price: Price, goods: Goods) -> int | None:
    """How many of more pieces the price is for, as "the pair"; None where it is for one, for all or nobody tells."""
    if goods.kind == "set" or goods.quantity is None or goods.quantity < _LEAST:
        return None
    if price.basis == "set":
        return None
    told = pieces_of_price(scene, chosen, goods.quantity)
    return pieces_of_field(scene, goods.quantity) if told is None and chosen.field > 1 else told


def _field(scene: Scene) -> Item | None:
    """The amount of the price field, if it is none a watt."""
    field = next((item for item in scene.price if item.what == NUMBER and not a_watt(scene, item)), None)
    amounts = (scene.items[at] for at in numbers(scene))
    if field is not None and any(one.value == field.value and a_watt(scene, one) for one in amounts):
        return None
    return field


def _bids_wanted(scene: Scene) -> bool:
    """Are offers asked for, so that a price of 1 only fills a field?"""
    return scene.has("bids") or any(one.what == "bids" for one in scene.price)


def _given(scene: Scene) -> tuple[bool, bool]:
    """Are the goods given away; or is it only that they are sent or brought for nothing?"""
    places = scene.said("giveaway")
    free = [place for place in places if any(
        one.what in {"shipping", "bring"} and one.clause == scene.items[place].clause
        for one in (*scene.back(place, 4), *scene.ahead(place, 4)))]  # fmt: skip
    given = any(place not in free and goods_are_free(scene, place) for place in places)
    return given or any(one.what == "giveaway" for one in scene.price), bool(free)


def _a_pallet(scene: Scene, chosen: Item) -> bool:
    """Is it the price of one pallet?"""
    if chosen.field > 1:
        return True
    place = next(at for at in numbers(scene) if scene.items[at] is chosen)
    near = (*scene.back(place, 4), *scene.ahead(place, 4))
    return any(of_pallet(scene, one) and one.clause == chosen.clause and not _counted(scene, one) for one in near)


def _per_pallet(scene: Scene, chosen: Item) -> bool:
    """Is it the price "per" pallet where nothing else is said of one?"""
    if chosen.field > 1 or "pallet" in scene.by_what:
        return False
    place = next(at for at in numbers(scene) if scene.items[at] is chosen)
    near = (*scene.back(place, 4), *scene.ahead(place, 4))
    small = scene.small
    per = any(one.what == "lot" and scene.tokens[one.field][one.at] in small.per_pallet and one.clause == chosen.clause
              and of_pallet(scene, one) for one in near)  # fmt: skip
    return per and sum(word.startswith(small.pallet) for word in chain(*scene.tokens[:2])) == 1


def _counted(scene: Scene, one: Item) -> bool:
    """Does a number stand directly before it?"""
    return one.what == "pallet" and one.at > 0 and scene.tokens[one.field][one.at - 1][:1].isdigit()


def _mixed(scene: Scene, goods: Goods, offers: Offers, places: list[int]) -> bool:
    """Are parts of a mixed lot priced one by one, so that nobody knows what all of it costs?"""
    roles = {role for _, role in offers}
    if goods.kind != "set" or "each" not in roles or roles & {"lot", "per_set"}:
        return False
    if len({item.value for item, _ in offers if item.field < 2}) > 1:
        return True
    return goods.quantity == 1 and any(
        role == "each" and item.field < 2 and of_panels_in_set(scene, place)
        for place, (item, role) in zip(places, offers, strict=True)
    )


def _mixed_panels(scene: Scene, offers: Offers, places: list[int]) -> bool:
    """Are panels of several powers priced each by itself: "3 of 410 W at 45, 5 of 300 W at 20"?"""
    if len(offers) < 2 or len({scene.items[at].value for at in scene.units.get("W", [])}) < 2:
        return False
    told = [places[number] for number, (item, role) in enumerate(offers)
            if item.field < 2 and (role == "each" or role is None)]  # fmt: skip
    if len({scene.items[place].value for place in told}) < 2:
        return False
    priced: dict[float, float] = {}
    for place in told:
        for one in scene.back(place, 8):
            if one.what != NUMBER:
                continue
            if one.unit in MONEY:
                break
            if one.unit == "W" and scene.tokens[one.field][one.to - 1] not in scene.small.power_behind:  # "die 300er"
                priced.setdefault(one.value, scene.items[place].value)
                break
    return len(priced) > 1 and len(set(priced.values())) > 1 and not priced_apart(scene)


def _chosen(scene: Scene, offers: Offers, field: Item | None, goods: Goods) -> tuple[Item | None, str | None]:
    """For one piece before for a set before for the lot; but a figure a piece may only explain the price of the lot."""
    first: dict[str | None, Item] = {}
    for item, role in offers:
        first.setdefault(role, item)
    each, lot = first.get("each"), first.get("lot")
    if each is not None and lot is not None and goods.quantity and goods.quantity > 1:
        alike = abs(each.value * goods.quantity - lot.value) <= _TOGETHER_SHARE * lot.value
        if alike and ("whole" in scene.by_what or (lot.field, lot.at) < (each.field, each.at)):
            return lot, "lot"
    if each is not None and goods.quantity and goods.quantity > 1:  # "1395 euro (45 a panel)"
        for item, role in offers:
            if role == "each" and abs(item.value * goods.quantity - each.value) <= _TOGETHER_SHARE * each.value:
                return each, "lot"
    order = ("per_set", "each", "lot") if goods.kind == "set" else ("each", "per_set", "lot")
    if goods.kind == "set" and goods.quantity == 1 and each is not None and lot is not None and lot.value > each.value:
        order = ("per_set", "lot", "each")  # parts one by one, then all of it together
    for wanted in order:
        if wanted in first:
            return first[wanted], wanted
    plain = [item for item, role in offers if role is None]
    if plain:
        as_field = [item for item in plain if field is not None and item.value == field.value]
        return (as_field or plain)[0], _priced_by(scene) if len({item.value for item in plain}) == 1 else None
    if field is None or (field.value in PLACEHOLDERS - {1.0}) or "placeholder" in scene.by_what:
        return None, None
    return _of_field(scene, field)


def _of_field(scene: Scene, field: Item) -> tuple[Item, str | None]:
    """The field's amount, and for how much it is told to be."""
    told = next((one.what for one in scene.price if one.what in ROLES), None)
    return field, told or _priced_by(scene)


def _is_unmarked(scene: Scene, chosen: Item, offers: Offers, field: Item, goods: Goods) -> bool:
    """Does no word mark an amount of the text as the price, so that the field's is?"""
    if field.value in PLACEHOLDERS or "placeholder" in scene.by_what:
        return False
    plain = any(item is chosen and role is None for item, role in offers)
    return plain and not marked_as_price(scene, chosen, field, goods)


def _priced_by(scene: Scene) -> str | None:
    """For how much a price is said to be, without an amount."""
    for at in scene.by_what.get("price", []):
        for one in scene.ahead(at, 3):
            if one.what == NUMBER or one.at - scene.items[at].to > 3:
                break
            if one.what in ROLES and not on_request(scene, one):
                return one.what
    told = any(not on_request(scene, scene.items[at]) for at in scene.by_what.get("priced_each", []))
    return "each" if told else None


def _currency(scene: Scene, chosen: Item, field: Item | None, offers: Offers) -> str | None:
    """The currency that a sign, code or word of the country tells; crowns of a Swede or Norwegian are not Danish."""
    if chosen.unit in CURRENCIES:
        unit = chosen.unit
    elif field is not None and field.unit in CURRENCIES:
        unit = field.unit
    else:
        unit = next((item.unit for item, _ in offers if item.unit in CURRENCIES), "")
    return None if not unit or (unit == "DKK" and "not_danish" in scene.by_what) else unit


def _basis(role: str | None, goods: Goods, scene: Scene, chosen: Item) -> str:
    if goods.kind == "set" and (role in {"per_set", "each", "lot"} or goods.quantity == 1):
        return "set" if goods.quantity == 1 or role != "lot" else "lot"
    if role == "each" or goods.quantity == 1:
        return "each"
    if role in {"lot", "per_set"} or (role is None and chosen.field < 2 and _for_all(scene, chosen, goods)):
        return "lot"
    one = {"panel": "panel", "inverter": "inverter"}.get(goods.kind)
    titled = [scene.items[at].field for at in scene.by_what.get(f"{one}_one", [])]
    if role is None and 0 in titled and f"{one}_many" not in scene.by_what and goods.quantity and scene.tokens[0]:
        return "each" if not (_counted_in_title(scene) or _counted_in_plural(scene, f"{one}_one")) else "unknown"
    return "unknown"


def _counted_in_plural(scene: Scene, name: str) -> bool:
    """Is a word that is a singular elsewhere counted, so that it is none here: "4 Module"?"""
    return any(one.what == NUMBER and not one.unit and one.value > 1 and one.to == scene.items[at].at
               for at in scene.by_what.get(name, []) for one in scene.back(at, 1))  # fmt: skip


def _counted_in_title(scene: Scene) -> bool:
    return any(
        scene.items[at].field == 0 and not scene.items[at].unit and scene.items[at].value > 1 for at in numbers(scene)
    )


def _for_all(scene: Scene, chosen: Item, goods: Goods) -> bool:
    """Does the amount stand for a number of pieces: ten panels for 500, 500 for the ten?"""
    if goods.quantity is None:
        return False
    if _said_of_all(scene, scene.tokens[chosen.field][chosen.to : chosen.to + 3]):
        return True
    place = next(at for at in numbers(scene) if scene.items[at] is chosen)
    before = [one for one in scene.back(place, 6) if chosen.at - one.to <= 8]
    if before and before[0].what == "for" and chosen.at - before[0].to <= 1:
        return any(one.what.endswith(("_many", "_goods")) or one.what == "piece"
                   or (one.what == NUMBER and one.value == goods.quantity) for one in before)  # fmt: skip
    behind = [one for one in scene.ahead(place, 3) if one.at - chosen.to <= 4]
    behind = behind[1:] if behind and behind[0].what == "times" else behind
    if behind and behind[0].what == NUMBER and behind[0].value == goods.quantity > 1 and not behind[0].unit:
        return _so_many(scene, scene.tokens[chosen.field][chosen.to : behind[0].at])
    return (len(behind) > 1 and behind[0].what == "for" and behind[1].what == NUMBER
            and behind[1].value == goods.quantity and not behind[1].unit)  # fmt: skip


def _said_of_all(scene: Scene, behind: list[str]) -> bool:
    """Does nothing but a word for all of them stand behind: "120 € in tutto"?"""
    words = behind[1:] if behind[:1] and behind[0] in scene.small.before_all else behind
    ended = len(words) < _WITH_END or not words[1].isalnum()
    return bool(words) and words[0] in scene.small.all_of_them and ended


def _so_many(scene: Scene, between: list[str]) -> bool:
    """Does a word for "for" stand alone between an amount and a number, at most with the point of "kr." before it?

    As in "450 € por 9 placas".
    """
    if len(between) == 2 and between[0] == ".":
        return between[1] in scene.small.for_so_many_kr
    return len(between) == 1 and between[0] in scene.small.for_so_many


def _based(value: float, currency: str | None, basis: str, goods: Goods) -> Price:
    each = None
    if basis in {"each", "set"}:
        each = value
    elif basis == "lot" and goods.quantity:
        each = round(value / goods.quantity, 4)
    return Price(value, currency, basis, each)


def _conflict(scene: Scene, chosen: Item, field: Item | None, offers: Offers, goods: Goods) -> bool:
    if field is None or field is chosen or field.value in PLACEHOLDERS or "placeholder" in scene.by_what:
        return False
    pieces = goods.quantity
    if pieces is None:
        return is_gross(chosen, field)
    values = [item.value for item, _ in offers] + [chosen.value * pieces, chosen.value / pieces]
    return not any(abs(field.value - value) <= _TOGETHER_SHARE * max(field.value, 1.0) for value in values)
