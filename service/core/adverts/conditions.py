"""Which figures hold at other conditions than those of a rating: "43 V at -10 °C", "at 200 W/m² only 80 W"?"""

from bisect import bisect_left
from typing import NamedTuple

from service.core.adverts.asked_roles import SQUARE_METRES, TEMPERATURE
from service.core.adverts.scene import Scene, measured_in
from service.core.adverts.small_words import SmallWords
from service.core.adverts.walk import Item

_ENDS = frozenset((".", "!", "?", "\n", ";", "|", "•"))
_NAMES = ("voc", "isc", "vmp", "imp", "power", "mpp_point")
_STANDARD = frozenset(("25", "25.0", "25,0", "1000", "1.000"))
_RATED = ("V", "A", "W")
_NEAR, _SENTENCE, _BEHIND = 12, 40, 6


class _Condition(NamedTuple):
    """A temperature or a light, in pieces ``at`` up to ``to``; ``told``: "at" or a bracket stands before it."""

    at: int
    to: int
    standard: bool
    told: bool
    heads: bool  # its sentence begins with it


def at_other_conditions(scene: Scene) -> set[int]:
    """Places of the figures that hold at other temperatures or lights, and of those that are such themselves."""
    gone: set[int] = set()
    for field in (0, 1) if scene.roles & (TEMPERATURE | SQUARE_METRES) else ():
        tokens = scene.tokens[field]
        found = _conditions(scene, field, tokens) if tokens else []
        if found:
            gone |= _spoilt(scene, field, tokens, found)
    return gone


def _conditions(scene: Scene, field: int, tokens: list[str]) -> list[_Condition]:
    found: list[_Condition] = []
    roles, small = scene.field_roles[field], scene.small
    if roles & TEMPERATURE:
        found += [
            _condition(tokens, at - 1, _behind(tokens, at, small), small)
            for at in scene.pieces[field].places(TEMPERATURE, small.of_temperature)
            if at and _is_figure(tokens, at - 1, small) and _is_temperature(tokens, at, small)
        ]
    for place in scene.units.get("W", []) if roles & SQUARE_METRES else []:
        item = scene.items[place]
        if item.field == field and _a_light(tokens, item, small):
            squared = tokens[item.to + 2 : item.to + 3] == ["2"]
            found.append(_condition(tokens, item.at, item.to + 2 + squared, small))
    return sorted(found)


def _is_figure(tokens: list[str], at: int, small: SmallWords) -> bool:
    """Digits, or a word behind "minus"."""
    return tokens[at][0:1].isdigit() or (at > 0 and tokens[at - 1] in small.minus and tokens[at].isalpha())


def _is_temperature(tokens: list[str], at: int, small: SmallWords) -> bool:
    word, behind = tokens[at], tokens[at + 1] if at + 1 < len(tokens) else ""
    if word in small.degree_short:
        return behind in small.celsius or (behind == "." and tokens[at + 2 : at + 3] == ["c"])
    return word in small.celsius or behind in small.celsius or _told(tokens, at - 1, small) is not None


def _behind(tokens: list[str], at: int, small: SmallWords) -> int:
    """Behind the words of a degree."""
    return next((to + 1 for to in range(at, min(at + 3, len(tokens))) if tokens[to] in small.celsius), at + 1)


def _a_light(tokens: list[str], item: Item, small: SmallWords) -> bool:
    """Are they watts a square metre?"""
    to = item.to + 1
    return to < len(tokens) and tokens[item.to] == "/" and tokens[to] in small.square_metres


def _told(tokens: list[str], at: int, small: SmallWords) -> int | None:
    """Where "at" or a bracket stands before the figure of a condition."""
    for step in (1, 2):
        if at >= step and tokens[at - step] in small.at_condition:
            return at - step
        if at < step or tokens[at - step] not in small.minus:
            return None
    return None


def _condition(tokens: list[str], at: int, to: int, small: SmallWords) -> _Condition:
    told = _told(tokens, at, small)
    before = tokens[told - 1] if told else ""
    ranged = before in small.of_temperature  # "-40 °C a 85 °C"
    ranged = ranged or (told is not None and before[0:1].isdigit() and tokens[told] in small.degree_range)
    heads = told is not None and (told == 0 or tokens[told - 1] in _ENDS)
    return _Condition(at, to, tokens[at] in _STANDARD, told is not None and not ranged, heads)


def _spoilt(scene: Scene, field: int, tokens: list[str], found: list[_Condition]) -> set[int]:
    starts = [one.at for one in found]
    own = set(starts)
    gone: set[int] = set()
    for place in measured_in(scene, "", *_RATED):
        item = scene.items[place]
        if item.field != field:
            continue
        number = bisect_left(starts, item.at)
        holds = (number and _holds_before(scene, place, item, found[number - 1], tokens)) or (
            number < len(found) and item.unit and _holds_behind(item, found[number], tokens, scene.small)
        )
        if item.at in own or holds:
            gone.add(place)
    return gone


def _holds_before(scene: Scene, place: int, item: Item, one: _Condition, tokens: list[str]) -> bool:
    """Does a figure hold at a condition before it: directly, by the name between, or by how its sentence begins?"""
    if one.standard or item.at - one.to > _SENTENCE:
        return False
    between = tokens[one.to : item.at]
    if one.heads and _ENDS.isdisjoint(between):
        return True
    if item.at - one.to > _NEAR or "," in between or not _ENDS.isdisjoint(between):
        return False
    if any(word[0:1].isdigit() for word in between):
        return False
    if one.told:
        return True
    near = next((name for name in scene.back(place, 4) if name.what in _NAMES), None)
    return near is not None and near.to <= one.at and one.at - near.to <= 3


def _holds_behind(item: Item, one: _Condition, tokens: list[str], small: SmallWords) -> bool:
    """As in "43 V at -10 °C", "43 V (-10 °C)"."""
    if one.standard or not one.told or one.at - item.to > _BEHIND:
        return False
    return small.beside_condition.issuperset(tokens[item.to : one.at])
