"""Which amount do others ask or offer, or did the seller ask at first: "neighbour sold his at 40, I want 90 each"?

Only where the amount that is asked follows: "I was offered 40, but it's 90", "first 120, then 105, last price 90",
"new 150 each. Want 90 each".
"""

from collections.abc import Sequence
from itertools import pairwise

from service.core.adverts.asked_roles import AT_FIRST, OTHERS_PRICES
from service.core.adverts.other_amounts import without_amounts
from service.core.adverts.scene import Scene, measured_in
from service.core.adverts.walk import MONEY_UNITS, Item

_BEFORE, _BEHIND, _FARTHEST, _TO_FIRST, _NEW_BESIDE = 12, 5, 26, 3, 3  # pieces
_MOST_NEW_SHARE = 0.7  # of the price when new
_ENDS = frozenset(".!?;\n")
_PARTS = _ENDS | {","}
_NO_PRICE = frozenset(("deposit", "share", "shipping", "bring", "extra", "tier"))


def leave_out_others_prices(scene: Scene) -> None:
    """Such amounts are no prices here."""
    if not (scene.roles & (OTHERS_PRICES | AT_FIRST) or "new" in scene.by_what):
        return
    amounts = measured_in(scene, *MONEY_UNITS)
    gone = {first for first, second in pairwise(amounts) if _is_others(scene, first, second)}
    without_amounts(scene, amounts, gone | _earlier(scene, amounts))


def _is_others(scene: Scene, first: int, second: int) -> bool:
    """Is the first of two amounts somebody else's, or what they cost new, and the second one asked?"""
    one, two = scene.items[first], scene.items[second]
    if one.field != two.field or two.at - one.to > _FARTHEST:
        return False
    small, tokens = scene.small, scene.tokens[one.field]
    between = tokens[one.to : two.at]
    if not scene.roles & OTHERS_PRICES:
        return False
    if _when_new(scene, first, two, between):
        return True
    if small.mine.isdisjoint(between) and small.i_ask.isdisjoint(between) and small.turning.isdisjoint(between):
        return False
    before = _of_the_sentence(tokens[max(one.at - _BEFORE, 0) : one.at])
    if not (small.strangers.isdisjoint(before) and small.others_selling.isdisjoint(before)):
        return small.i_ask.isdisjoint(before)
    beside = (*before, *_up_to_a_part(between[:_BEHIND]))
    return not small.offered.isdisjoint(beside) and not small.to_me.isdisjoint(beside)


def _of_the_sentence(before: Sequence[str]) -> Sequence[str]:
    at = len(before)
    while at and before[at - 1] not in _ENDS:
        at -= 1
    return before[at:]


def _up_to_a_part(behind: Sequence[str]) -> Sequence[str]:
    return behind[: next((at for at, word in enumerate(behind) if word in _PARTS), len(behind))]


def _when_new(scene: Scene, first: int, two: Item, between: Sequence[str]) -> bool:
    """As in "new 150 each. Want 90 each": is "new" beside it, and is less asked in what follows?"""
    one = scene.items[first]
    if two.value > _MOST_NEW_SHARE * one.value or scene.small.i_ask.isdisjoint(between):
        return False
    beside = (*scene.back(first, 2), *scene.ahead(first, 3))
    return any(near.what == "new" and -_NEW_BESIDE <= near.at - one.to <= _NEW_BESIDE and near.clause == one.clause
               for near in beside)  # fmt: skip


def _earlier(scene: Scene, amounts: Sequence[int]) -> set[int]:
    """Places of what was asked first and then: "first 120, then 105, last price 90"."""
    gone: set[int] = set()
    if not scene.roles & AT_FIRST:
        return gone
    begun = False
    small = scene.small
    for first, second in pairwise(amounts):
        one, two = scene.items[first], scene.items[second]
        tokens = scene.tokens[one.field]
        between = tokens[one.to : two.at] if one.field == two.field else []
        near = 0 < len(between) <= _FARTHEST and two.value < one.value
        told = not (small.then.isdisjoint(between) and small.price_now.isdisjoint(between))
        words = [word for word in tokens[max(one.at - _TO_FIRST, 0) : one.at] if word.isalnum()]
        begun = (begun or not small.at_first.isdisjoint(words[-2:])) and near and told
        if begun and not any(what in _NO_PRICE for what in scene.whats[first + 1 : second]):
            gone.add(first)
    return gone
