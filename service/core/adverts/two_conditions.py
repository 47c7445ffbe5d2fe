"""Which of two figures holds at standard conditions: "NOCT / STC: 302 W / 400 W, Voc 35.0 V / 37.1 V"?

Also in columns without bars, and in blocks of lines under a line that names other conditions.
"""

from itertools import pairwise
from typing import NamedTuple

from service.core.adverts.scene import Scene
from service.core.adverts.twins import STANDARD, leave_out_twins
from service.core.adverts.walk import NUMBER, Item

_UNITS = frozenset(("V", "A", "W"))
_RATINGS = frozenset(("voc", "isc", "vmp", "imp", "power"))
_UNIT_OF = {"voc": "V", "vmp": "V", "isc": "A", "imp": "A", "power": "W"}
_BETWEEN = frozenset(("/", "|", "\n", ";"))
_CLOSING = frozenset((".", ",", ";", "!", "\n"))
_TO_OTHER, _TO_NAME = 6, 7
_CONDITIONS = frozenset(("elsewhere", "standard"))
_LABELS = _CONDITIONS | _RATINGS


class Columns(NamedTuple):
    """Places of figures at other conditions, and those of figures at standard ones, by the name of the rating."""

    gone: set[int]
    standard: dict[str, int]


def of_two_conditions(scene: Scene) -> Columns:
    """The figures of an advert that names other conditions than the standard ones somewhere."""
    found = Columns(set(), {})
    leave_out_twins(scene, found.gone, found.standard)
    labels = [at for at in scene.places(_LABELS) if _label(scene, at)]
    for first, second in pairwise(labels):
        if _side_by_side(scene, first, second):
            _pair_before(scene, first, second, found)
            _in_pairs(scene, second, _next_heading(scene, labels, second), found)
    if scene.lined:
        _under_lines(scene, found.gone)
    return found


def _label(scene: Scene, place: int) -> str:
    """The kind of conditions that is named there; a name of a rating may hold it: "power STC"."""
    item = scene.items[place]
    if item.what in _CONDITIONS:
        return item.what
    return "standard" if scene.tokens[item.field][item.to - 1] in STANDARD else ""


def _side_by_side(scene: Scene, first: int, second: int) -> bool:
    """Do both kinds of conditions stand in a row, with no figure of a rating between them?"""
    one, two = scene.items[first], scene.items[second]
    if _label(scene, first) == _label(scene, second) or one.field != two.field or not 0 <= two.at - one.to <= _TO_OTHER:
        return False
    return all(item.unit not in _UNITS for item in scene.items[first + 1 : second])


def _next_heading(scene: Scene, labels: list[int], place: int) -> int:
    return next((at for at in labels if at > place), len(scene.items))


def _in_pairs(scene: Scene, second: int, end: int, found: Columns) -> None:
    """Pairs of figures behind a heading whose second kind of conditions stands at ``second``."""
    standard_second = _label(scene, second) == "standard"
    place = second + 1
    while place + 1 < end:
        one, two = scene.items[place], scene.items[place + 1]
        if not (one.what == two.what == NUMBER and _belong(scene, one, two)):
            place += 1
            continue
        _one_pair(scene, place, found, standard_second=standard_second)
        place += 2


def _one_pair(scene: Scene, place: int, found: Columns, *, standard_second: bool) -> None:
    other, own = (place, place + 1) if standard_second else (place + 1, place)
    unit = scene.items[place + 1].unit
    found.gone.add(other)
    name = _name(scene, place, unit)
    if name is not None:
        found.standard.setdefault(name, own)
    elif unit != "W":
        found.gone.add(own)


def _pair_before(scene: Scene, first: int, second: int, found: Columns) -> None:
    """The pair directly before both kinds of conditions in a bracket, or at the end: "37.0/39.5 V (NOCT/STC)"."""
    if first < 2 or not scene.whats[first - 2] == scene.whats[first - 1] == NUMBER:
        return
    one, two, heading, last = (scene.items[at] for at in (first - 2, first - 1, first, second))
    tokens = scene.tokens[heading.field]
    between = tokens[two.to : heading.at]
    told = between == ["("] or (not between and _CLOSING.issuperset(tokens[last.to : last.to + 1]))
    if told and two.field == heading.field and _belong(scene, one, two):
        _one_pair(scene, first - 2, found, standard_second=_label(scene, second) == "standard")


def _belong(scene: Scene, one: Item, two: Item) -> bool:
    """Are they one rating at two conditions: like units, and nothing but a sign between?"""
    if one.field != two.field or one.unit not in {"", two.unit} or two.unit not in {"", *_UNITS} or two.at < one.to:
        return False
    between = scene.tokens[one.field][one.to : two.at]
    if not one.unit and between == [two.unit.lower()]:  # "11.0 A 13.7 A", where the first one may be a word
        return True
    return len(between) <= 1 and _BETWEEN.issuperset(between)


def _name(scene: Scene, place: int, unit: str) -> str | None:
    """The name that stands last before a pair, if it is one of a rating in that unit."""
    item = scene.items[place]
    for at in range(place - 1, max(place - 5, -1), -1):
        one = scene.items[at]
        if one.field != item.field or one.what == NUMBER or item.at - one.to > _TO_NAME:
            return None
        if one.what in _RATINGS and unit in {"", _UNIT_OF[one.what]}:
            return one.what
    return None


def _under_lines(scene: Scene, gone: set[int]) -> None:
    """Figures in the lines below one that names only other conditions, up to one without figures of ratings."""
    ends = [at for at, word in enumerate(scene.tokens[1]) if word == "\n"]
    ends.append(len(scene.tokens[1]))
    other = {scene.items[at].at for at in scene.by_what["elsewhere"] if scene.items[at].field == 1}
    low, under = 0, False
    place = next((at for at, item in enumerate(scene.items) if item.field == 1), len(scene.items))
    for end in ends:
        start = place
        while place < len(scene.items) and scene.items[place].at < end and scene.items[place].field == 1:
            place += 1
        line = range(start, place)
        rated = [at for at in line if scene.whats[at] == NUMBER and _is_rating(scene, at)]
        standard = any(scene.whats[at] == "standard" for at in line)
        if under and rated and not standard:
            gone.update(rated)
        elif rated or standard:
            under = False
        else:
            named = any(low <= at < end for at in other) and all(_in_bracket(scene, at) for at in line)
            under = named or (under and low == end)
        low = end + 1


def _in_bracket(scene: Scene, place: int) -> bool:
    """Is it no figure, or one that only tells the conditions: "NOCT (45 °C)", not "NOCT 45 °C"?"""
    return scene.whats[place] != NUMBER or scene.tokens[1][scene.items[place].at - 1] in scene.small.at_condition


def _is_rating(scene: Scene, place: int) -> bool:
    """Has a figure the unit of a rating, or the name of one directly before it?"""
    item = scene.items[place]
    return item.unit in _UNITS or (not item.unit and scene.whats[place - 1] in _RATINGS)


def conditions_behind(scene: Scene, place: int, item: Item) -> str | None:
    """The kind of conditions that a bracket or "at" tells directly behind a figure: "302 W (NOCT)", "35 V at NOCT"."""
    tokens = scene.tokens[item.field]
    for one in scene.ahead(place, 2):
        if one.what not in _CONDITIONS:
            continue
        between, behind = tokens[item.to : one.at], tokens[one.to : one.to + 1]
        if between == ["("] and behind == [")"]:
            return one.what
        told = 1 <= len(between) <= 2 and scene.small.at_condition.issuperset(between)
        heads = behind in ([":"], ["="]) or any(
            more.what == NUMBER and 0 <= more.at - one.to <= 1 for more in scene.ahead(place, 5)
        )
        return one.what if told and not heads else None
    return None
