"""Is money wanted before the goods in words of one's own: "first transfer, then I post", "£10 deposit holds it"?

Or told to be there before they are sent: "I post it once the transfer has arrived".
"""

from itertools import takewhile

from service.core.adverts.asked_roles import AT_FIRST, ONCE
from service.core.adverts.scene import Scene
from service.core.adverts.stretch import stretch_around
from service.core.adverts.walk import Item

_PAYMENT = "q:advance_payment"
_TO_MONEY, _TO_GOODS, _TO_HOLD, _TO_NO = 4, 9, 7, 3
_TO_ARRIVED = 6
_PARTS = frozenset(",.:;!?\n()|")
_ENDS = frozenset(".;!?\n()|")


def add_paid_first(scene: Scene) -> None:
    """Raises the doubt for such wordings, where none is raised yet."""
    known = scene.by_what
    if _PAYMENT in known:
        return
    if "deposit" in known:
        found = [place for place in scene.said("deposit") if _holds(scene, scene.items[place])]
        if found:
            known[_PAYMENT] = found
            return
    if ("shipping" in known or "pickup" in known) and scene.field_roles[1] & AT_FIRST:
        goods = [at for what in ("shipping", "pickup") for at in known.get(what, ()) if _behind_money(scene, at)]
        if goods:
            known[_PAYMENT] = goods
            return
    if "shipping" in known and scene.field_roles[1] & ONCE:
        goods = [at for at in known["shipping"] if _once_paid(scene, scene.items[at])]
        if goods:
            known[_PAYMENT] = goods


def _once_paid(scene: Scene, sending: Item) -> bool:
    """Is money named behind a word such as "once" in the sentence of sending, with nothing of goods between?"""
    tokens, small = scene.tokens[sending.field], scene.small
    low, high = stretch_around(tokens, sending.at, sending.to, 2 * _TO_GOODS, _ENDS)
    for at in range(low, high):
        if tokens[at] in small.once and tokens[at - 1 if at else 0] not in small.no_payment:
            words = list(takewhile(lambda word: word not in _PARTS, tokens[at + 1 : at + 1 + _TO_ARRIVED]))
            if _money_there(scene, words):
                return True
    return False


def _money_there(scene: Scene, words: list[str]) -> bool:
    """Does one of them name money, and none before it a look at the goods, a number or a "no"?"""
    small = scene.small
    money = next((at for at, word in enumerate(words) if word.startswith(small.money_named)), None)
    if money is None:
        return False
    return not any(
        word.startswith(small.looked_at) or word[0].isdigit() or word in small.no_payment for word in words[:money]
    )


def _holds(scene: Scene, item: Item) -> bool:
    """Does a deposit hold or reserve the goods, in the words behind it?"""
    behind = scene.tokens[item.field][item.to : item.to + _TO_HOLD]
    return any(word.startswith(scene.small.reserves) for word in takewhile(lambda word: word not in _ENDS, behind))


def _behind_money(scene: Scene, place: int) -> bool:
    """Does "first" with a word for paying close by stand before a word for sending; "then" before one for fetching?"""
    item, small = scene.items[place], scene.small
    tokens = scene.tokens[item.field]
    before = list(takewhile(lambda word: word not in _ENDS, reversed(tokens[max(item.at - _TO_GOODS, 0) : item.at])))
    before.reverse()
    for at, word in enumerate(before):
        if word in small.at_first and _pays(scene, before, at):
            rest = before[at + 1 :]
            return scene.whats[place] == "shipping" or not small.only_then.isdisjoint(rest)
    return False


def _pays(scene: Scene, words: list[str], at: int) -> bool:
    small = scene.small
    near = (*words[max(at - _TO_MONEY, 0) : at], *words[at + 1 : at + 1 + _TO_MONEY])
    if not small.no_payment.isdisjoint(words[max(at - _TO_NO, 0) : at + _TO_NO]):
        return False
    looks = any(word.startswith(small.looked_at) for word in words[at + 1 : at + 1 + _TO_MONEY])
    return not looks and any(word.startswith(small.money_sent) for word in near)
