"""What is asked, for how much of it, and what does sending cost?"""

from dataclasses import dataclass

from service.core.adverts.goods import PIECES, Goods
from service.core.adverts.lexemes import CURRENCIES, Item
from service.core.adverts.reading import Price
from service.core.adverts.scene import Scene, numbers

_ROLES = ("each", "lot", "per_set")
_NOT_ASKED = frozenset({"new_price", "extra", "deposit", "placeholder"})
_PLACEHOLDERS = frozenset({0.0, 1.0, 123.0, 1234.0, 9999.0, 99999.0})
_TOGETHER_SHARE = 0.02


@dataclass(frozen=True, slots=True)
class Asked:
    """The price, its place, and what sending costs."""

    price: Price
    item: Item | None
    conflict: bool
    shipping_cost: float | None


def asked_of(scene: Scene, goods: Goods) -> Asked:
    """The price of an offer."""
    offers: list[tuple[Item, str | None]] = []
    shipping: float | None = None
    for place in numbers(scene):
        item = scene.items[place]
        if item.unit not in CURRENCIES and item.unit != "money" and not _bare(scene, place):
            continue
        role = _role(scene, place)
        if role == "shipping":
            shipping = item.value if shipping is None else shipping
        elif role not in _NOT_ASKED:
            offers.append((item, role))
    if shipping is None and scene.has("delivered"):
        shipping = 0.0
    field = next((item for item in scene.price if item.what == "#"), None)
    chosen, basis = _chosen(offers, field)
    free = chosen is None and (scene.has("giveaway") or any(one.what == "giveaway" for one in scene.price))
    if free or (field is not None and field.value == 0 and scene.has("giveaway")):
        return Asked(Price(value=0.0, each=0.0), field, False, shipping)
    if chosen is None:
        return Asked(Price(), None, False, shipping)
    currency = _currency(chosen, field, offers)
    price = _based(chosen.value, currency, _basis(basis, goods, scene, chosen), goods)
    return Asked(price, chosen, _conflict(chosen, field, offers, goods), shipping)


def _chosen(offers: list[tuple[Item, str | None]], field: Item | None) -> tuple[Item | None, str | None]:
    for wanted in ("each", "per_set", "lot"):
        of_role = [item for item, role in offers if role == wanted]
        if of_role:
            return of_role[0], wanted
    plain = [item for item, role in offers if role is None]
    if plain:
        return plain[0], None
    return (field, None) if field is not None and field.value not in _PLACEHOLDERS - {1.0} else (None, None)


def _currency(chosen: Item, field: Item | None, offers: list[tuple[Item, str | None]]) -> str | None:
    for item in (chosen, *([field] if field is not None else []), *(item for item, _ in offers)):
        if item.unit in CURRENCIES:
            return item.unit
    return None


def _basis(role: str | None, goods: Goods, scene: Scene, chosen: Item) -> str:
    if goods.kind == "set" and (role in {"per_set", "each"} or goods.quantity == 1):
        return "set"
    if role == "each" or goods.quantity == 1:
        return "each"
    if role == "lot":
        return "lot"
    for place in numbers(scene):
        if scene.items[place] is chosen and goods.quantity is not None:
            near = list(scene.back(place, 6))
            if any(one.what == "for" and chosen.at - one.to <= 2 for one in near) and any(
                one.what in {"panel_many", "inverter_many", "other_goods"} for one in near
            ):
                return "lot"
    return "unknown"


def _based(value: float, currency: str | None, basis: str, goods: Goods) -> Price:
    each = None
    if basis in {"each", "set"}:
        each = value
    elif basis == "lot" and goods.quantity:
        each = round(value / goods.quantity, 4)
    return Price(value=value, currency=currency, basis=basis, each=each)


def _conflict(chosen: Item, field: Item | None, offers: list[tuple[Item, str | None]], goods: Goods) -> bool:
    if field is None or field is chosen or field.value in _PLACEHOLDERS:
        return False
    pieces = goods.quantity or 1
    values = [item.value for item, _ in offers] + [chosen.value * pieces, chosen.value / pieces]
    return not any(abs(field.value - value) <= _TOGETHER_SHARE * max(field.value, 1.0) for value in values)


def _bare(scene: Scene, place: int) -> bool:
    """A figure without a currency that only a price can be: "asking 60", "60 each", "postage 6.99"."""
    item = scene.items[place]
    if item.unit or item.glued in {"-", "/", "x"}:
        return False
    before = next(scene.back(place, 1), None)
    behind = next(scene.ahead(place, 1), None)
    if before is not None and before.what in {"price", "shipping"} and item.at - before.to <= 1:
        return True
    tokens = scene.tokens[item.field]
    if item.to < len(tokens) and tokens[item.to] in PIECES:
        return False
    return (behind is not None and behind.what in {"each", "price"} and behind.at - item.to <= 1
            and behind.clause == item.clause)  # fmt: skip


def _role(scene: Scene, place: int) -> str | None:  # noqa: PLR0911 - a row of questions
    """What an amount is for: what stands directly behind it, else before it, else later in its clause."""
    item = scene.items[place]
    behind = [one for one in scene.ahead(place, 6) if one.clause == item.clause]
    until = next((at for at, one in enumerate(behind) if one.unit in CURRENCIES), len(behind))
    near = [one.what for one in behind[:until] if one.at - item.to <= 3]
    before = []
    for one in scene.back(place, 8):
        if one.unit in CURRENCIES or item.at - one.to > 6:
            break
        before.append(one)
    close = [one.what for one in before if one.clause == item.clause]
    if "tier" in close or "tier" in near:
        return "extra"
    if "delivered" in near:
        return None
    if near[:1] and near[0] in _ROLES and "each" in near:
        return "each"
    for what in close:
        if what in _NOT_ASKED or what == "shipping":
            return what
    for what in (*near, *close, *(one.what for one in before)):
        if what in _ROLES or what in _NOT_ASKED:
            return what
        if what == "shipping" and what in near[:1]:
            return what
    return None
