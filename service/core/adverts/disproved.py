"""Which figure was only believed, or stands wrongly in the title: "I thought 400 W, but the sticker says 300 W"?

It is left out; what stands against it is read by its own words. As in "sold to me as 800 W, but it only gives 600 W",
"typo in the title: they are 300 W each".
"""

from collections.abc import Sequence
from itertools import pairwise

from service.core.adverts.small_words import SmallWords
from service.core.adverts.walk import INVERTERS, MONEY_UNITS, NUMBER, PANELS, Item

_UNITS = MONEY_UNITS | {"W", "V", "A"}
_GOODS = PANELS | INVERTERS
_BEFORE, _TO_TURN, _FARTHEST, _TO_TITLE, _TO_FIGURE, _TO_AS = 8, 4, 16, 5, 12, 2  # pieces
_ENDS = frozenset(".!?;\n")


def without_disproved(items: Sequence[Item], fields: Sequence[Sequence[str]], small: SmallWords) -> list[Item]:
    """Items without such figures.

    Args:
        items: of title and body, in order.
        fields: the pieces of title and body.
        small: the small words of all languages.
    """
    places = [place for place, item in enumerate(items) if item.what == NUMBER]
    gone = {first for first, second in pairwise(places)
            if _was_believed(items, (first, second), fields[items[first].field], small)}  # fmt: skip
    gone |= _wrong_in_title(items, places, fields[1], small)
    return [item for place, item in enumerate(items) if place not in gone] if gone else list(items)


def _was_believed(items: Sequence[Item], places: tuple[int, int], tokens: Sequence[str], small: SmallWords) -> bool:
    """Is a figure said to be what was thought, and the next one of its unit set against it?"""
    first, second = places
    old, new = items[first], items[second]
    if old.unit not in _UNITS or old.unit != new.unit or old.field != new.field or new.at - old.to > _FARTHEST:
        return False
    if any(one.what in _GOODS for one in items[first + 1 : second]):
        return False
    between = tokens[old.to : new.at]
    turn = next((at for at, word in enumerate(between) if word in small.turning), None)
    if turn is None or sum(word.isalnum() for word in between[:turn]) > _TO_TURN:
        return False
    before = _of_the_part(tokens[max(old.at - _BEFORE, 0) : old.at])
    if not small.believed.isdisjoint(before) or not small.believed.isdisjoint(between[:turn]):
        return True
    told = (*before, *between[:turn])
    return not small.was_sold.isdisjoint(told) and not small.sold_as.isdisjoint(before[-_TO_AS:])


def _of_the_part(before: Sequence[str]) -> Sequence[str]:
    """What stands behind the last sign that ends a sentence."""
    ends = [at for at, word in enumerate(before) if word in _ENDS]
    return before[ends[-1] + 1 :] if ends else before


def _wrong_in_title(items: Sequence[Item], places: Sequence[int], body: Sequence[str], small: SmallWords) -> set[int]:
    """Places of the figures of the title for which the body, that tells of a mistake there, has other ones."""
    if small.mistaken.isdisjoint(body) or small.title_named.isdisjoint(body):
        return set()
    named = next((at for at, word in enumerate(body) if word in small.title_named
                  and not small.mistaken.isdisjoint(body[max(at - _TO_TITLE, 0) : at + _TO_TITLE])), None)  # fmt: skip
    if named is None:
        return set()
    units = {items[place].unit for place in places if items[place].field == 0} - {""}
    told = [place for place in places if items[place].field == 1 and items[place].unit in units]
    near = [place for place in told if 0 <= items[place].at - named <= _TO_FIGURE]
    near = near or [place for place in told[::-1] if 0 <= named - items[place].to <= _TO_FIGURE]
    if not near:
        return set()
    true = items[near[0]]
    titled = [place for place in places if items[place].field == 0 and items[place].unit == true.unit]
    return set(titled) if len(titled) == 1 and items[titled[0]].value != true.value else set()
