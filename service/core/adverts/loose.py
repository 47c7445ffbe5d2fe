"""Is a figure with a word that is seldom money behind it a price: "25e a piece", "1.2k for the lot", "2,5 tys. zł"?

An amount only where a sign of money, or a word for what is priced, stands directly beside it: "on the 2e floor", "10k
cycles" are none.
"""

from itertools import chain

from service.core.adverts.lexicon import JOINING, Phrases
from service.core.adverts.numerals import Figure
from service.core.adverts.walk import DECIDING, MONEY_UNITS, Item, Walk

_OF_PRICES = frozenset(("each", "lot", "per_set", "piece"))
_BEFORE = frozenset(("lot", "price", "each", "priced_each", "bids"))
_FARTHEST = 6
_LEAST = 5.0  # "3e", "4e" count floors
_NO_UNIT = ("", 1.0, False, False)


def loose_amount(walk: Walk, item: Item, figure: Figure, money: str) -> bool:
    """Makes an amount of ``item``, whose figure stands before such a word; False where nothing tells that it is one."""
    words, to = walk.padded, item.to
    unit, factor = walk.loose[words[to]]
    if not walk.glued(to) and len(words[to]) == 1:
        return False
    end = to + 1 + (words[to + 1] == "." and len(words[to]) > 1)
    after = walk.units.get(words[end], _NO_UNIT)[0]
    large = factor > 1
    told = large and (bool(money) or after in MONEY_UNITS)
    if not told and not money and (large or figure.value >= _LEAST) and _stands_apart(walk, item.at):
        told = _priced(walk, item.at, end, large=large)
    if not told:
        return False
    if after in MONEY_UNITS and large:
        unit, end = after, end + 1
    item.unit, item.value, item.to = money or unit, figure.value * factor, end
    return True


def _stands_apart(walk: Walk, at: int) -> bool:
    """Is nothing before it but a sign or a word that is known: not "the 25e piece"?"""
    return not at or not walk.words[at - 1].isalnum() or (bool(walk.items) and walk.items[-1].to == at)


def _priced(walk: Walk, at: int, end: int, *, large: bool) -> bool:
    """Does a word for what is priced stand behind it, or before it with nothing behind?"""
    words = walk.padded
    place = end + (words[end] == "/")
    start = walk.lexicon.known[words[place]] if words[place] else ()
    if isinstance(start, Phrases):
        follow = [word for word in words[place + 1 : place + _FARTHEST] if word not in JOINING]
        longer = (told for rest, told, _ in start.by_second.get(follow[0] if follow else "", ())
                  if list(rest) == follow[: len(rest)])  # fmt: skip
        told = {*start.alone, *chain.from_iterable(longer)}
    else:
        told = set(start) if isinstance(start, tuple) else set()
    if not _OF_PRICES.isdisjoint(told):
        return not large or "piece" not in told  # "2 Tsd. Stück" are many
    last = walk.items[-1] if walk.items else None
    behind = not words[end] or words[end] in DECIDING
    return behind and last is not None and last.what in _BEFORE and at - last.to <= 1 and last.sentence == walk.sentence
