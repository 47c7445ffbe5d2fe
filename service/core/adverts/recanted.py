"""Which figure does a seller take back in the same breath: "60 V, sorry, 50 V", "40 each, no wait, 90 each"?

The later one counts where it is of the same quantity and nothing but a correction stands between the two; it has the
name and the place of the first one then. Where that is not sure of an amount, neither is a price.
"""

from collections.abc import Sequence
from itertools import pairwise

from service.core.adverts.small_words import SmallWords
from service.core.adverts.walk import INVERTERS, MONEY_UNITS, NUMBER, PANELS, Item

_FARTHEST, _NAMED, _BEHIND, _ONE_WORD = 14, 6, 2, 1  # pieces; items
_NO, _UNSURE, _YES = 0, 1, 2
_NAMES = frozenset(("voc", "isc", "vmp", "imp", "mpp_point", "max_in", "start", "input_current", "output_current",
                    "max_sc", "tracking", "input_range", "ac_out", "dc_power", "surge", "battery", "system", "length",
                    "width", "weight", "cells", "coefficient", "measured", "elsewhere"))  # fmt: skip
_FOR_SO_MANY = frozenset(("each", "lot", "per_set", "priced_each"))
_PRICING = _FOR_SO_MANY | {"price", "piece", "for", "selling", "takes", "bids", "pickup"}
_GOODS = PANELS | INVERTERS | {"set_one", "set_many"}
_BESIDE = _GOODS | {
    "each",
    "piece",
    "power",
    "limited",
    "rated",
    "without",
    "label",
    "p:label",
    "inputs",
    "but",
    "again",
}
_OTHER_SUMS = frozenset(("shipping", "bring", "delivered", "sent", "deposit", "extra", "accessory", "other_goods",
                         "new_price", "battery", "bid"))  # fmt: skip
_ENDS = frozenset(".!?;\n")


def without_recanted(items: Sequence[Item], fields: Sequence[Sequence[str]], small: SmallWords) -> list[Item]:
    """Items, of which a figure that is corrected has the value of the one that stands in its place.

    Args:
        items: of title and body, in order.
        fields: the pieces of title and body.
        small: the small words of all languages.
    """
    places = [place for place, item in enumerate(items) if item.what == NUMBER]
    kept: list[Item | None] = list(items)
    slots: dict[int, int] = {}  # where the figure that stands for several is kept
    for first, second in pairwise(places):
        old, new = items[first], items[second]
        if old.field != new.field or new.at - old.to > _FARTHEST or new.at < old.to:
            continue
        tokens = fields[old.field]
        if not _corrects(tokens[old.to : new.at], small) or not _is_one_quantity(items, (first, second), tokens):
            continue
        if not _says_nothing_else(items, (first, second), tokens, small):
            continue
        told = _may_be_another_sum(items, second, tokens, small) if old.unit in MONEY_UNITS else _NO
        if told == _YES:
            continue
        slot = slots[second] = slots.get(first, first)
        kept[second] = kept[slot] = None
        if told == _NO:
            _put_in_place(items, kept, (first, second))
            kept[slot] = new
    return [item for item in kept if item is not None] if slots else list(items)


def _corrects(between: Sequence[str], small: SmallWords) -> bool:
    """Does a word say that what stands before it was wrong: "sorry", "I mean", "or rather"?"""
    if not small.recanting.isdisjoint(between):
        return True
    if small.recanting_signs.isdisjoint(between):
        return False
    words = [word for word in between if word.isalnum()]
    return any(first + second in small.recanting_two for first, second in pairwise(words))


def _is_one_quantity(items: Sequence[Item], places: tuple[int, int], tokens: Sequence[str]) -> bool:
    """Have both figures one unit, or has one of them none of its own and nothing else that it could be?"""
    first, second = places
    old, new = items[first], items[second]
    if old.unit == new.unit or {old.unit, new.unit} <= MONEY_UNITS:
        return bool(old.unit) or _same_goods(items, places)
    if not old.unit:  # "max 60, sorry, 50 V"
        return second == first + 1 and old.to - old.at == _ONE_WORD and not old.spelled
    behind = items[second + 1] if second + 1 < len(items) else None
    alone = behind is None or behind.at > new.to or (old.unit in MONEY_UNITS and behind.what in _FOR_SO_MANY)
    ended = new.to >= len(tokens) or not (tokens[new.to].isalnum() or tokens[new.to] in "-/%°") or not alone
    return not new.unit and alone and not new.spelled and ended  # "60 V, sorry, 50."


def _same_goods(items: Sequence[Item], places: tuple[int, int]) -> bool:
    """Are both of two bare figures numbers of the same goods: "three panels, no, two panels"?"""
    named: list[str] = []
    for place in places:
        item = items[place]
        near = (one for one in items[place + 1 : place + 3] if one.at - item.to <= _BEHIND and one.at >= item.to)
        named.append(next((one.what[:5] for one in near if one.what in _GOODS or one.what == "piece"), ""))
    return bool(named[1]) and named[0] in {named[1], ""}


def _says_nothing_else(
    items: Sequence[Item], places: tuple[int, int], tokens: Sequence[str], small: SmallWords
) -> bool:
    """Is all between the two of the correction or of what both have in common; and has the second no other name?"""
    first, second = places
    old, new = items[first], items[second]
    money = old.unit in MONEY_UNITS
    own = {one.what for one in items[max(first - _NAMED, 0) : first] if one.sentence == old.sentence}
    own |= {one.what for one in items[first + 1 : second] if one.at == old.to}
    meant: set[int] = set()
    for one in items[first + 1 : second]:
        known = one.what in own or one.what in (_PRICING if money else _BESIDE) or one.what == "max_in"
        if not known and not all(_of_a_correction(word, small) for word in tokens[one.at : one.to] if word.isalnum()):
            return False
        meant.update(range(one.at, one.to))
    for at in range(old.to, new.at):
        word = tokens[at]
        if word.isalnum() and at not in meant and not _of_a_correction(word, small):
            return False
    behind = next((one for one in items[second + 1 : second + 2] if one.at - new.to <= 1), None)
    if behind is not None and behind.what in _NAMES and behind.what not in own | {"max_in"}:
        return behind.sentence != new.sentence or behind.clause != new.clause
    return not _only_told_otherwise(items, places, tokens, small)


def _of_a_correction(word: str, small: SmallWords) -> bool:
    return (word in small.recanting or word in small.recanting_signs or word in small.recanting_beside
            or word in small.light_words)  # fmt: skip


def _only_told_otherwise(
    items: Sequence[Item], places: tuple[int, int], tokens: Sequence[str], small: SmallWords
) -> bool:
    """Is it "that is" with the same said of all: "45 euro l'uno, cioè 180 in totale", "2x300 W, cioè 600 W"?"""
    first, second = places
    old, new = items[first], items[second]
    before = {one.what for one in items[first + 1 : second]} & _FOR_SO_MANY
    after = {one.what for one in items[second + 1 : second + 3] if one.clause == new.clause} & _FOR_SO_MANY
    if before and after and before.isdisjoint(after):
        return True
    if small.that_is.isdisjoint(tokens[old.to : new.at]):
        return False
    low, high = sorted((old.value, new.value))
    return low > 0 and high / low >= 2 and not high % low


def _may_be_another_sum(items: Sequence[Item], second: int, tokens: Sequence[str], small: SmallWords) -> int:
    """Is the second amount for something else, or may it be?"""
    new = items[second]
    for one in items[second + 1 : second + 4]:
        if one.clause != new.clause or one.at - new.to > _BEHIND:
            break
        if one.what in _PRICING:
            return _YES if one.what == "for" else _NO
        if one.what in _OTHER_SUMS:
            return _YES
    word = tokens[new.to] if new.to < len(tokens) else ""
    known = any(one.at == new.to for one in items[second + 1 : second + 3])
    if known or not word.isalnum() or _of_a_correction(word, small):
        return _NO
    begun = tokens[new.at - 1] in _ENDS or any(word in _ENDS for word in tokens[max(new.at - 6, 0) : new.at])
    return _YES if begun else _UNSURE


def _put_in_place(items: Sequence[Item], kept: list[Item | None], places: tuple[int, int]) -> None:
    """The second figure goes on with the clause of the first; what it costs is for as many as the first told."""
    first, second = places
    old, new = items[first], items[second]
    sentence, clause = new.sentence, new.clause
    told = any(one.what in _FOR_SO_MANY for one in items[second + 1 : second + 3] if one.clause == clause)
    for at in range(first + 1, second):
        one = items[at]
        if told or one.what not in _FOR_SO_MANY:
            kept[at] = None
        one.at, one.to, one.sentence, one.clause = new.to - 1, new.to, old.sentence, old.clause
    for one in items[second:]:
        if one.sentence != sentence or one.field != new.field:
            break
        one.sentence = old.sentence
        if one.clause == clause:
            one.clause = old.clause
    if not new.unit:
        new.unit, new.value, new.factor = old.unit, new.value * old.factor, old.factor
    new.peak = new.peak or old.peak
    new.at, new.glued = old.at, old.glued
