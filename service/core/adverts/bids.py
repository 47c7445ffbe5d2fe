"""Does the writer tell what he pays for goods ("I give £40 for a panel"), or offer goods for so much?

What he pays stands right behind a word for paying; what he asks behind the goods and a word such as "for".
"""

from service.core.adverts.asked_roles import I_PAY
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, MONEY_UNITS, Item

_GOODS = ("panel_one", "panel_many", "inverter_one", "inverter_many", "set_one", "set_many")
_ENDS = frozenset(".,;!?\n()|")
_TO_PAY, _TO_GOODS, _TO_END, _TO_AMOUNT = 3, 8, 2, 8  # pieces
_MOST = 12  # amounts that are looked at


def tells_bids_only(scene: Scene) -> bool:
    """Are goods named, and all amounts what the writer would pay?"""
    if scene.price or not scene.roles & I_PAY:
        return False
    amounts = [scene.items[at] for unit in scene.units.keys() & MONEY_UNITS for at in scene.units[unit]]
    if not amounts or len(amounts) > _MOST or not (scene.tells(*_GOODS) or "W" in scene.units):
        return False
    return all(_is_paid(scene, item) for item in amounts)


def kind_of_bids(scene: Scene) -> str:
    """What bids are for where goods behind "for" are none on offer."""
    if not tells_bids_only(scene):
        return "other"
    return "inverter" if scene.tells(*INVERTERS) else "panel"


def _is_paid(scene: Scene, item: Item) -> bool:
    """As in "I give £40 for a panel", "I'll give you £40 for it", "zahle 40 € das Stück", "budget 40 €"?"""
    tokens, small = scene.tokens[item.field], scene.small
    at, left = item.at - 1, _TO_PAY
    while at > 0 and left and (tokens[at] in small.before_bid or not tokens[at].isalnum()):
        if tokens[at] in _ENDS:
            return False
        at, left = at - 1, left - 1
    if tokens[at] in small.only_buyers_pay:
        return True
    if tokens[at] not in small.i_pay:
        return False
    return scene.in_sentence(item.sentence, "needed") or _for_goods(scene, item)  # "interested in a panel, offer £40"


def _for_goods(scene: Scene, item: Item) -> bool:
    """Does "for" stand directly behind an amount, and goods behind that, or nothing but "it"?"""
    tokens, small = scene.tokens[item.field], scene.small
    at = item.to + (tokens[item.to : item.to + 1] == ["."])  # the point of "kr."
    if at >= len(tokens) or tokens[at] not in small.bid_for:
        return False
    last = min(at + 1 + _TO_GOODS, len(tokens))
    end = next((to for to in range(at + 1, last) if tokens[to] in _ENDS), last)
    if end - at <= _TO_END:
        return True
    if scene.stands("each", item.field, at):
        return True  # "für ein Modul"
    return any(scene.stands(what, item.field, to) for what in _GOODS for to in range(at + 1, end))


def sells_for_so_much(scene: Scene) -> None:
    """A word for bidding with goods directly behind it and "for" before the amount sells: "ofrezco placa por 40 €"."""
    for place in tuple(scene.by_what.get("bid", [])):
        item = scene.items[place]
        amount = next((one for one in scene.ahead(place, 8) if one.unit in MONEY_UNITS), None)
        if amount is None or amount.clause != item.clause or not _goods_first(scene, place, item, amount):
            continue
        tokens = scene.tokens[item.field]
        before = _before(tokens, amount)
        told = before in scene.small.bid_for or before in scene.small.paid_for
        if told and amount.at - item.to <= _TO_AMOUNT:
            item.what = scene.whats[place] = "selling"
            scene.by_what["bid"].remove(place)
            scene.by_what.setdefault("selling", []).append(place)
            scene.by_what["selling"].sort()
    if not scene.by_what.get("bid", True):
        del scene.by_what["bid"]


def _before(tokens: list[str], amount: Item) -> str:
    at = amount.at - 1
    return tokens[at] if tokens[at].isalnum() else tokens[at - 1]  # the sign of its currency


def _goods_first(scene: Scene, place: int, item: Item, amount: Item) -> bool:
    ahead = (one for one in scene.ahead(place, 6) if one.at >= item.to)
    goods = next((one for one in ahead if one.what in _GOODS), None)
    return goods is not None and goods.at < amount.at and goods.at - item.to <= _TO_END
