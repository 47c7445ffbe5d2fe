"""Does the unit of a rating stand before its figure: "Isc (A) 14,02", "Imp in A: 13,28"? Such a letter is no word then.

As a word it would mean something in most languages: "à", "to", "and".
"""

from collections.abc import Sequence

from service.core.adverts.walk import Item

_NAMES = ("voc", "isc", "vmp", "imp", "power", "input_current", "max_sc", "max_in")
_LETTERS = frozenset(("v", "a", "w"))
_OPENS, _CLOSES = frozenset("(["), frozenset(")]")
_TO_FIGURE = frozenset(":=")


def units_of_names(
    items: list[Item],
    by_what: dict[str, list[int]],
    fields: tuple[list[str], list[str]],
    between: frozenset[str],
) -> set[tuple[int, int]]:
    """Fields and pieces of the letters that are units behind a name. ``between``: words as "in", brackets."""
    found: set[tuple[int, int]] = set()
    for name in _NAMES:
        if name not in by_what:
            continue
        for place in by_what[name]:
            item = items[place]
            words, to = fields[item.field], item.to
            if to + 1 >= len(words) or words[to + 1] not in _LETTERS:
                continue
            opens, closes = words[to], words[to + 2] if to + 2 < len(words) else ""
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
