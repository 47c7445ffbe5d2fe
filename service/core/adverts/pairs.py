"""Does each figure of a row of ratings stand before its name: "39.8 Voc / 9.7 Isc", "39.8 V (Voc), 9.7 A (Isc)"?

The row as a whole tells it. One that begins with a name is not looked at here; what can be read both ways says nothing.
"""

from collections.abc import Sequence
from itertools import pairwise

from service.core.adverts.brackets import alone_in_bracket, listed_in_bracket
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_BOUNDS = {"voc": (5.0, 160.0), "vmp": (5.0, 160.0), "isc": (0.2, 30.0), "imp": (0.2, 30.0)}
_NAMES = _BOUNDS.keys() | {"mpp_point"}
_UNITS = {"voc": {"V", ""}, "vmp": {"V", ""}, "isc": {"A", ""}, "imp": {"A", ""}}
_ABOVE = (("voc", "vmp"), ("isc", "imp"))
_HEADINGS = frozenset(("power", "cells", "mpp_point", "tracking", "max_in", "start", "input_range", "input_current"))
_LIMITS = frozenset(("max_in", "start", "input_range", "input_current"))
_COUNTED = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "piece", "each", "cells", "stock"))
_PASSED = frozenset(("plus", "coef_voltage"))
_NOMINAL_V = frozenset((12.0, 24.0, 48.0))
_PARTING = frozenset(",/|;")
_SET_OFF = (["-"], ["–"], ["—"], ["="], ["-", ">"])  # "39.8 V - Voc"
_AT_POINT = {"V": "vmp", "A": "imp"}
_NEAR = 3

Pairs = list[tuple[Item, Item]]  # a figure and its name


def figures_first(scene: Scene, found: dict[str, tuple[float, Item, float]], gone: set[int]) -> set[int]:
    """Keeps in ``found`` the figures that stand before their names; places of those that may belong to two names."""
    unsure: set[int] = set()
    before: set[str] = set()  # names whose figures stand behind them, nearer the beginning
    done = -1
    for place in scene.places(_NAMES):
        if place <= done or (scene.whats[place] == "mpp_point" and not _is_first(scene, place)):
            continue
        listed = listed_in_bracket(scene, place, _BOUNDS)
        if listed:
            figures, names = listed
            done = names[-1]
            unsure.update(figures)
            pairs = [(scene.items[at], scene.items[name]) for at, name in zip(figures, names, strict=False)]
            if len(figures) == len(names) and gone.isdisjoint(figures) and _can_be(pairs):
                _keep(found, pairs, before)
            continue
        row = _row(scene, place)
        done = row[-1]
        if scene.items[row[0]].what != NUMBER:
            before.update(scene.items[at].what for at in row[: len(row) // 2 * 2 : 2])
            continue
        enclosed = alone_in_bracket(scene, scene.items[row[0]], scene.items[place], _BOUNDS)
        paired = row[: len(row) // 2 * 2] if enclosed else row  # what is left over may be a temperature
        headed = _headed(scene, row[0]) and not (enclosed and _is_heading_only(scene, row[0]))
        if not gone.isdisjoint(paired) or headed:
            unsure.update(row if enclosed else row[:1] if _of_limit(scene, row[0]) else ())
            continue
        told = _told_first(scene, [scene.items[at] for at in row])
        if told is None:
            unsure.update(row)
        elif not told and len(row) > 2:  # its first figure is none of the row
            unsure.add(row[0])
        _keep(found, told or (), before)
    return unsure


def _keep(found: dict[str, tuple[float, Item, float]], pairs: Sequence[tuple[Item, Item]], before: set[str]) -> None:
    for figure, name in pairs:
        rating = _rating(figure, name)
        if rating not in before:
            found.setdefault(rating, (figure.value, figure, 0.97 if figure.unit else 0.9))


def _rating(figure: Item, name: Item) -> str:
    """The rating that a name tells; "at full power" is one of a voltage or of a current."""
    return _AT_POINT.get(figure.unit, "") if name.what == "mpp_point" else name.what


def _is_first(scene: Scene, place: int) -> bool:
    """Does a name stand behind its figure, as far as the signs between them tell?"""
    before, name = scene.before(_first_at(scene, place)), scene.items[place]
    if before is None or not _is_figure(before):
        return False
    between = scene.tokens[name.field][before.to : name.at]
    if name.what == "mpp_point":
        return bool(before.unit) and alone_in_bracket(scene, before, name, _BOUNDS)
    set_off = bool(before.unit) and (between in _SET_OFF or (between == [","] and _comma_behind(scene, place)))
    return not between or set_off or alone_in_bracket(scene, before, name, _BOUNDS)


def _first_at(scene: Scene, place: int) -> int:
    """The place of the first meaning that the same word has."""
    items = scene.items
    while place and items[place - 1].at == items[place].at and items[place - 1].field == items[place].field:
        place -= 1
    return place


def _comma_behind(scene: Scene, place: int) -> bool:
    name, behind = scene.items[place], scene.behind(place)
    return behind is not None and _is_figure(behind) and scene.tokens[name.field][name.to : behind.at] == [","]


def _row(scene: Scene, place: int) -> list[int]:
    """Places of names and figures that take turns; with the figure directly before the first name."""
    items = scene.items
    row = [_first_at(scene, place) - 1, place] if _is_first(scene, place) else [place]
    end = items[place].to
    for at in range(place + 1, len(items)):
        one, last = items[at], items[row[-1]]
        if one.sentence != last.sentence or one.at - end > _NEAR:
            break
        if one.at < end or one.what in _PASSED:
            continue
        if one.what not in _BOUNDS and at + 1 < len(items) and items[at + 1].at == one.at:
            continue  # a further meaning of the same word
        if one.what == last.what != NUMBER:  # "open circuit voltage Voc"
            end = one.to
            continue
        named = one.what in _BOUNDS or (one.what == "mpp_point" and _is_first(scene, at))
        if not named and not _is_figure(one):
            break
        if (one.what == NUMBER) == (last.what == NUMBER) or (one.what == NUMBER and _is_count(scene, at)):
            break
        row.append(at)
        end = one.to
    return row


def _is_figure(one: Item) -> bool:
    return one.what == NUMBER and not one.spelled and one.unit in {"V", "A", ""}


def _is_count(scene: Scene, place: int) -> bool:
    behind = scene.behind(place)
    return behind is not None and behind.what in _COUNTED and behind.at == scene.items[place].to


def _headed(scene: Scene, place: int) -> bool:
    """Does the figure belong to a heading before it: "Pmax 100 Voc 22", not "60 cells 39.5 Voc"?"""
    item, before = scene.items[place], scene.before(place)
    if before is None or before.what not in _HEADINGS or item.at - before.to > 1 or item.clause != before.clause:
        return False
    counted = scene.before(place - 1)
    return counted is None or counted.what != NUMBER or counted.to != before.at


def _is_heading_only(scene: Scene, place: int) -> bool:
    """Is the heading before a figure the one word "current", which the name in brackets behind it tells more of?"""
    before = scene.before(place)
    return before is not None and before.what == "input_current" and before.to - before.at == 1


def _of_limit(scene: Scene, place: int) -> bool:
    """Is it the figure of a limit, as in "max 30 A Isc 9.2 A"?"""
    before = scene.before(place)
    return before is not None and before.what in _LIMITS and scene.items[place].at - before.to <= 1


def _told_first(scene: Scene, row: list[Item]) -> Pairs | None:  # noqa: PLR0911 - a row of questions
    """The pairs of a row that begins with a figure; none where names stand first; None where both may be."""
    first = list(zip(row[::2], row[1::2], strict=False))
    then = list(zip(row[2::2], row[1::2], strict=False))
    tokens = scene.tokens[row[0].field]
    if any(alone_in_bracket(scene, figure, name, _BOUNDS) for figure, name in first):
        return first if _can_be(first) else None
    if all(tokens[one.to : after.at] == [","] for one, after in pairwise(row)):
        return None
    nominal = row[0].unit == "V" and row[0].value in _NOMINAL_V  # of a battery, as in "12V Voc 21.6V"
    if nominal or not _can_be(first):
        return []
    if len(row) % 2 == 0:
        return first
    signs = [tokens[name.to : figure.at] for figure, name in then]
    if any(not scene.small.rating_is.isdisjoint(between) for between in signs):
        return []
    parted = any(not _PARTING.isdisjoint(between) for between in signs)
    loose = any(figure.to != name.at for figure, name in first[1:])
    if (parted and not loose) or not _can_be(then):
        return first
    return [] if loose and not parted else None


def _can_be(pairs: Pairs) -> bool:
    """Have the figures the units and sizes of such ratings, with those of an open circuit above those at full power?"""
    value: dict[str, float] = {}
    for figure, name in pairs:
        rating = _rating(figure, name)
        low, high = _BOUNDS.get(rating, (0.0, 0.0))
        if not low <= figure.value <= high or figure.unit not in _UNITS[rating]:
            return False
        value.setdefault(rating, figure.value)
    return all(value[more] > value[less] for more, less in _ABOVE if more in value and less in value)
