"""Which items of an advert stand within orders to its reader, and are not obeyed; which before them, and are honest?"""

from collections.abc import Sequence
from itertools import chain

from service.core.adverts.commands import sentences_after
from service.core.adverts.small_words import SmallWords
from service.core.adverts.walk import Item

_MOST_ORDERS = 20
_MOST_BEFORE = 40
_CLOSING = frozenset(")].!?")  # "200 kr stk." before an order in great letters
_ENDING = frozenset(("each", "lot", "per_set"))  # "35 euro each"

Orders = Sequence[tuple[int, int]]  # from which piece of the body to which


def outside_orders(items: list[Item], orders: Orders) -> list[Item]:
    """Items that do not begin within orders, but for those that tell of them."""
    if not orders:
        return items
    within = pieces_of(orders)
    return [item for item in items if item.at not in within or item.what == "q:hostile"]


def pieces_of(spans: Orders) -> set[int]:
    """Places of all pieces of spans."""
    return set(chain.from_iterable(range(low, high) for low, high in spans))


def followers(items: list[Item], hostile: set[int]) -> set[int]:
    """Sentences close behind an order that go on with it: they tell what is to be answered."""
    telling = sorted({item.sentence for item in items if item.what == "order"})
    found = set(hostile)
    for sentence in telling:
        if sentence - 1 in found or sentence - 2 in found:
            found.add(sentence)
    return found


def further_orders(
    items: list[Item], hostile: list[int], words: Sequence[list[str]], small: SmallWords
) -> tuple[Orders, Orders]:
    """Sentences of title and body that go on ordering behind a phrase of several words that begins to."""
    begun = {items[place].sentence: items[place] for place in hostile}
    telling = [item for item in begun.values() if item.to - item.at > 1][:_MOST_ORDERS]
    found: tuple[list[tuple[int, int]], list[tuple[int, int]]] = ([], [])
    for item in telling:
        found[item.field].extend(sentences_after(words[item.field], item.at, small))
    return found


def before_orders(items: list[Item], begun: list[int], words: Sequence[list[str]]) -> set[int]:
    """Places in the sentence of an order that stand before it, where an amount, a rating or a bracket ends there.

    ``begun``: places of words of orders.
    """
    honest: set[int] = set()
    firsts = {items[place].sentence: place for place in reversed(begun)}
    for place in firsts.values():
        item = items[place]
        before = [at for at in range(max(place - _MOST_BEFORE, 0), place)
                  if items[at].sentence == item.sentence and items[at].to <= item.at]  # fmt: skip
        ended = item.at and words[item.field][item.at - 1] in _CLOSING
        if ended or any(items[at].to == item.at and (items[at].unit or items[at].what in _ENDING) for at in before):
            honest.update(before)
    return honest


def spans_of_orders(items: list[Item], ordering: set[int], honest: set[int]) -> list[tuple[int, int]]:
    """From where to where, in pieces of the body, orders reach as far as their items tell."""
    spans: dict[int, tuple[int, int]] = {}
    for place, item in enumerate(items):
        if item.field == 1 and item.sentence in ordering and place not in honest:
            low, high = spans.get(item.sentence, (item.at, item.to))
            spans[item.sentence] = (min(low, item.at), max(high, item.to))
    return list(spans.values())[:_MOST_ORDERS]
