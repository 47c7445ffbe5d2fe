"""How many inverters may hang on one wire tells no number of pieces, and its amperes no limit of an input.

As in "max. 5 units per string of 20 A", "3 Stück pro Strang".
"""

from collections.abc import Sequence

from service.core.adverts.small_words import SmallWords
from service.core.adverts.walk import INVERTERS, Item

_ENDS = frozenset((",", ";", ".", "\n", "|", "!", "?", "(", ")"))
_AMPERES = frozenset(("a", "amp", "amps", "ampere", "ac", "-", "."))
_MOST, _TO_PER, _TO_WIRE, _BEHIND = 40, 4, 5, 6


def spans_of_wires(
    items: list[Item], figures: Sequence[int], words: Sequence[list[str]], small: SmallWords
) -> list[tuple[int, int, int]]:
    """Fields, and from which piece to which, that tell how many go on one wire and what it carries.

    ``figures``: places of all figures.
    """
    spans: list[tuple[int, int, int]] = []
    for place in figures:
        item = items[place]
        if not item.unit and item.value <= _MOST and item.field < len(words):
            end = _wire_behind(words[item.field], item, small)
            if end:
                spans.append((item.field, item.at, end))
    return spans


def without_shared_wires(items: list[Item], spans: Sequence[tuple[int, int, int]]) -> list[Item]:
    """The items that do not begin there, and inverters."""
    return [one for one in items if one.what in INVERTERS
            or not any(one.field == field and low <= one.at < high for field, low, high in spans)]  # fmt: skip


def _wire_behind(words: list[str], item: Item, small: SmallWords) -> int:
    """Behind "units per branch of 20 A", where these words stand behind a number; else 0."""
    per = 0
    for at in range(item.to, min(item.to + 1 + _TO_PER, len(words))):
        if words[at] in small.on_a_wire:
            per = at
            break
        if words[at] in _ENDS and words[at] != ".":
            return 0
    if per <= item.to:  # something is counted
        return 0
    for at in range(per + 1, min(per + 1 + _TO_WIRE, len(words))):
        if words[at] in small.shared_wire:
            return _end(words, at + 1)
        if not (words[at][0].isdigit() or words[at] in small.one_wire or words[at] in _AMPERES):
            return 0
    return 0


def _end(words: list[str], at: int) -> int:
    to = at
    while to < min(at + _BEHIND, len(words)) and words[to] not in _ENDS:
        to += 1
    return to
