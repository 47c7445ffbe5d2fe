"""Is an amount what sending costs: "plus 6,99 postage", "£60 each. Postage only, £25", "40 euro plus postage 6.99"?"""

from bisect import bisect_left

from service.core.adverts.scene import Scene
from service.core.adverts.walk import CURRENCIES, NUMBER, Item

Offers = list[tuple[Item, str | None]]  # an amount, and what it is for

_TO_MEASURE, _TO_FURTHER, _NEAR_STEPS = 2, 12, 6
MONEY = (*sorted(CURRENCIES), "money")
SIGNS_BEHIND = frozenset(".,;!?)\n")


def plus_before(scene: Scene, item: Item) -> bool:
    """Does "plus" stand directly before an amount, at most with the point that cuts it short: "zzgl. 6,99"?"""
    tokens, at = scene.tokens[item.field], item.at
    if tokens[at - 1] in scene.small.plus_sending:
        return at > 0
    return at > 1 and tokens[at - 1] == "." and tokens[at - 2] in scene.small.plus_sending


def with_sending_in(scene: Scene, place: int, item: Item) -> bool:
    """Is sending in the price, as in 20 euro posted?"""
    return any(one.what == "sent" and one.at == item.to for one in scene.ahead(place, 3))


def sentence_of_sending(scene: Scene, place: int, item: Item, offers: Offers) -> bool:
    """Is it told behind a price, in a sentence that begins with sending: "£60 each. Postage only, £25"?"""
    before = scene.back(place, 4)
    one = next((one for one in before if one.what == "shipping"), None)
    if one is None or offers[-1][0].sentence == item.sentence:
        return False
    tokens = scene.tokens[item.field]
    start = scene.items[bisect_left(scene.sentences, item.sentence)].at
    said = {*tokens[start : one.at], *tokens[one.to : item.at]} - scene.small.only
    return one.at - start <= 1 and not said and one.clause != item.clause


def sending_behind(behind: list[Item], item: Item) -> bool:
    """Does a word for sending stand close behind an amount?"""
    return any(one.what == "shipping" and one.at - item.to <= 2 for one in behind)


def so_much(scene: Scene, between: list[str]) -> bool:
    """Does a word for "for" stand between sending and what it costs?"""
    return len(between) <= 3 and between[-1] in scene.small.sending_for


def has_its_own(scene: Scene, item: Item, shipping: Item, ahead: list[Item]) -> bool:
    """Does an amount of its own follow sending, as in "40 euro plus postage 6.99"?"""
    tokens = scene.tokens[shipping.field]
    follows = next((one for one in ahead if one.what == NUMBER and one.at >= shipping.to), None)
    if (
        follows is not None
        and follows.at - shipping.to <= 3
        and follows.clause == shipping.clause
        and (follows.unit in MONEY or tokens[follows.at - 1] in scene.small.sending_for)
        and not plus_before(scene, item)
    ):
        return True
    if follows is not None and follows.at == shipping.to and not follows.unit and ends(tokens, follows):
        return True  # "35 € postage 8"
    behind = [word for word in tokens[shipping.to : shipping.to + 2] if word not in {":", "="}]
    on_top = not scene.small.plus_sending.isdisjoint(tokens[item.to : shipping.to])
    return on_top and bool(behind) and behind[0][0:1].isdigit()


def ends(tokens: list[str], item: Item) -> bool:
    """Does nothing, or a sign that closes, stand behind a figure?"""
    return item.to >= len(tokens) or tokens[item.to] in SIGNS_BEHIND


def counts_sent(scene: Scene, place: int, item: Item) -> bool:
    """Does a figure count what is sent in one go, with its amount behind it: "can post 2 at a time for £9"?"""
    ahead = scene.ahead(place, 5)
    if item.value % 1 or any(one.what == "shipping" and one.at >= item.to for one in ahead):
        return False
    return any(one.unit in MONEY and one.clause == item.clause for one in ahead)


def by_measure(scene: Scene, place: int, item: Item, pieces: int | None) -> bool:
    """Is sending charged for each piece, mile or kilogram, or less for further ones, so that nobody told the sum?"""
    tokens, small = scene.tokens[item.field], scene.small
    to = item.to + (item.unit == "DKK" and tokens[item.to : item.to + 1] == ["."])
    behind = [word for word in tokens[to : to + 2 * _TO_MEASURE] if word != "."]
    for word in behind[: _TO_MEASURE + 1]:
        if word in small.sent_measures:
            return True
        if word != "/" and word not in small.per_measure:
            break
    if pieces == 1:
        return False
    if scene.stands("each", item.field, to) or (
        tokens[to : to + 1] == ["/"] and scene.stands("each", item.field, to + 1)
    ):
        return True
    before = scene.back(place, 3)
    at = item.at - (item.at > 0 and not tokens[item.at - 1].isalnum())
    if any(one.what == "each" and one.to == at for one in before) and any(one.what == "shipping" for one in before):
        return True
    return _in_steps(scene, place, item)


def _in_steps(scene: Scene, place: int, item: Item) -> bool:
    """Does another amount follow for each further one: "postage £20 for the first, £10 for each further"?"""
    tokens, small = scene.tokens[item.field], scene.small
    near = tokens[max(item.at - _NEAR_STEPS, 0) : item.to + _NEAR_STEPS]
    if small.first_sent.isdisjoint(near):
        return False
    for one in scene.ahead(place, _TO_FURTHER):
        if one.unit in MONEY:
            return not small.further_sent.isdisjoint(tokens[item.to : one.to + _NEAR_STEPS])
    return False
