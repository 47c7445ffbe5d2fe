"""Do watts go into an inverter or come out, and do amperes flow in an input or in another wire?

As in "1000 W DC, 800 W AC", "in 1000 W, out 800 W"; "five a branch of 20 A", "trunk cable 25 A".
"""

from itertools import takewhile
from typing import NamedTuple

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item

_OF_INPUTS = frozenset(("inputs", "tracking", "input_range", "input_current", "isc", "imp", "vmp", "voc", "max_sc",
                        "start"))  # fmt: skip
_NAMING = frozenset(("input_current", "max_in"))
_SIGNS = frozenset((":", "=", "(", ".", "-"))
_PARTS = frozenset((",", ";", ".", "|", "\n", "!", "?"))
_ENDS = frozenset((".", "!", "?", "\n"))
_TO_WHO, _TO_TAKE = 8, 2
_VOLTS_OF_INPUTS = (8.0, 150.0)
_BEFORE, _BEHIND, _TO_FIGURE = 5, 3, 4
_AROUND, _FAR, _MOST_BEFORE, _MOST_BEHIND = 4, 10, 6, 4


class _Told(NamedTuple):
    """A word for what goes in or comes out, at a piece of a field."""

    inwards: bool
    at: int


def watts_go_in(scene: Scene, place: int) -> bool:
    """Are the watts at a place what goes in from panels?

    A word may stand before or behind its figure; of a row "in 1000 W out 800 W" the first figure tells which.
    """
    item = scene.items[place]
    if "takes" in scene.by_what and _of_panels(scene, place, item):
        return True
    before, behind = _told_before(scene, item), _told_behind(scene, place, item)
    if before is None:
        return behind is not None and behind.inwards
    last = next((one for one in scene.back(place, 4) if one.what == NUMBER), None)
    if last is not None and last.unit == "W" and before.at <= last.to and _told_before(scene, last) is None:
        return behind is not None and behind.inwards  # the word ends the figure before it
    return before.inwards


def _of_panels(scene: Scene, place: int, item: Item) -> bool:
    """As in "takes 1000 W of panels", where other watts are told as well?"""
    if len(scene.units["W"]) == 1 or "takes" not in scene.near(place, 3, -1):
        return False
    if not any(one.what == "takes" and item.at - one.to <= _TO_TAKE for one in scene.back(place, 3)):
        return False
    return any(one.what in PANELS and one.at - item.to <= _TO_TAKE and one.clause == item.clause
               for one in scene.ahead(place, 3))  # fmt: skip


def _told_before(scene: Scene, item: Item) -> _Told | None:
    tokens, small = scene.tokens[item.field], scene.small
    for at in range(item.at - 1, max(item.at - 1 - _BEFORE, -1), -1):
        word = tokens[at]
        if word in small.flowing_in:  # a word that means other things too
            alone = at == 0 or not tokens[at - 1].isalpha()
            return _Told(inwards=True, at=at) if alone else None
        told = _told(scene, word, at)
        if told is not None:
            return told
        if word not in _SIGNS and word not in small.beside_watts:
            return None
    return None


def _told_behind(scene: Scene, place: int, item: Item) -> _Told | None:
    tokens, small = scene.tokens[item.field], scene.small
    for at in range(item.to - 1, min(item.to + _BEHIND, len(tokens))):
        word = tokens[at]
        if at >= item.to and word in small.flowing_in:
            return None if tokens[at + 1 : at + 2] and tokens[at + 1].isalpha() else _Told(inwards=True, at=at)
        told = _told(scene, word, at)
        if told is not None:
            return None if told.inwards and _heads_another(scene, place, at) else told
        if at >= item.to and word != "(" and word not in small.beside_watts:
            return None
    return None


def _told(scene: Scene, word: str, at: int) -> _Told | None:
    small = scene.small
    if word in small.direct or word.startswith(small.input_begins):
        return _Told(inwards=True, at=at)
    if word in small.alternating or word in small.put_out:
        return _Told(inwards=False, at=at)
    return None


def _heads_another(scene: Scene, place: int, at: int) -> bool:
    """Does a word behind watts begin other figures, or a name: "800 W input 16-60 V", "800 W DC inverter"?"""
    for one in scene.ahead(place, 6):
        if one.at <= at:
            continue
        if one.at - at > _TO_FIGURE or not _PARTS.isdisjoint(scene.tokens[one.field][at : one.at]):
            return False
        if one.what in INVERTERS:
            return True
        if one.what == NUMBER:
            return one.unit in {"V", "A"} or (not one.unit and one.glued != "x")
    return False


def amperes_of_input(scene: Scene, place: int, item: Item) -> bool:
    """Does anything near tell that amperes of an inverter are those of an input, and nothing that they are not?"""
    return _beside_input(scene, place, item) and not _of_other_wires(scene, place, item)


def _beside_input(scene: Scene, place: int, item: Item) -> bool:
    """In whatever sentence: a line may end between a name and its figure."""
    low, high = _VOLTS_OF_INPUTS
    for one in scene.items[max(place - _MOST_BEFORE, 0) : place + 1 + _MOST_BEHIND]:
        away = item.at - one.to if one.at < item.at else one.at - item.to
        if (
            one.field == item.field
            and away <= _FAR
            and (one.what in _OF_INPUTS or (one.unit == "V" and low <= one.value <= high))
        ):
            return True
    return False


def _of_other_wires(scene: Scene, place: int, item: Item) -> bool:
    """Does a word for a branch, a cable, charging or the like stand close beside, in their part of the sentence?"""
    tokens, stems = scene.tokens[item.field], scene.small.other_wires
    for at in range(item.at - 1, max(item.at - 1 - _AROUND, -1), -1):
        if tokens[at] in _PARTS:
            break
        if tokens[at].startswith(stems):
            return True
    if _named_input(scene, place, item):
        return False  # "max DC input 14 A on each branch connector"
    for at in range(item.to, min(item.to + _AROUND, len(tokens))):
        if tokens[at] in _PARTS:
            break
        if tokens[at].startswith(stems):
            return True
    return False


def _named_input(scene: Scene, place: int, item: Item) -> bool:
    """Does a name that tells of an input stand directly before amperes?"""
    named = scene.before(place)
    if named is None or named.what not in _NAMING or named.clause != item.clause or item.at - named.to > 1:
        return False
    return any(word.startswith(scene.small.input_begins) for word in scene.tokens[item.field][named.at : named.to])


def by_another(scene: Scene, item: Item) -> bool:
    """Is it said close to watts that a maker or an installer raises the output to them, so that an owner does not?"""
    tokens, stems = scene.tokens[item.field], scene.small.by_another
    before = takewhile(lambda word: word not in _ENDS, reversed(tokens[max(item.at - _TO_WHO, 0) : item.at]))
    behind = takewhile(lambda word: word not in _ENDS, tokens[item.to : item.to + _TO_WHO])
    return any(word.startswith(stems) for words in (before, behind) for word in words)
