"""Does the unit of a rating stand before its figure: "Isc (A) 14,02", "Imp in A: 13,28"? Such a letter is no word then.

As a word it would mean something in most languages: "à", "to", "and".
"""

from collections.abc import Mapping, Sequence

from service.core.adverts.walk import Item

NAMES = frozenset(("voc", "isc", "vmp", "imp", "power", "input_current", "max_sc", "max_in"))
LETTERS = frozenset(("v", "a", "w"))
_OPENS, _CLOSES = frozenset("(["), frozenset(")]")
_TO_FIGURE = frozenset(":=")
_NOTHING_BEHIND = [""] * 3


def units_of_names(
    items: Sequence[Item],
    by_what: Mapping[str, list[int]],
    fields: tuple[list[str], list[str]],
    between: frozenset[str],
) -> set[tuple[int, int]]:
    """Fields and pieces of the letters that are units behind a name. ``between``: words as "in", brackets."""
    found: set[tuple[int, int]] = set()
    for name in by_what.keys() & NAMES:
        for place in by_what[name]:
            item = items[place]
            words = fields[item.field][item.to : item.to + 3] + _NOTHING_BEHIND
            opens, letter, closes = words[0], words[1], words[2]
            if letter not in LETTERS:
                continue
            if opens in _OPENS:
                told = closes in _CLOSES
            else:
                told = opens in between and (closes in _TO_FIGURE or closes[:1].isdigit())
            if told:
                found.add((item.field, item.to + 1))
    return found


def without_units(items: Sequence[Item], units: set[tuple[int, int]]) -> list[Item]:
    """The items without the meanings of such letters."""
    return [one for one in items if (one.field, one.at) not in units or one.to > one.at + 1]
