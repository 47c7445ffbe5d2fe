"""Does each figure of a row of ratings stand before its name: "39.8 Voc / 9.7 Isc"?

The row as a whole tells it. One that begins with a name is not looked at here; what can be read both ways says nothing.
"""

from collections.abc import Sequence

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_BOUNDS = {"voc": (5.0, 160.0), "vmp": (5.0, 160.0), "isc": (0.05, 30.0), "imp": (0.05, 30.0)}
_UNITS = {"voc": {"V", ""}, "vmp": {"V", ""}, "isc": {"A", ""}, "imp": {"A", ""}}
_ABOVE = (("voc", "vmp"), ("isc", "imp"))
_HEADINGS = frozenset(("power", "cells", "mpp_point", "tracking", "max_in", "start", "input_range", "input_current"))
_LIMITS = frozenset(("max_in", "start", "input_range", "input_current"))
_COUNTED = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "piece", "each", "cells", "stock"))
_PASSED = frozenset(("plus", "coef_voltage"))
_NOMINAL_V = frozenset((12.0, 24.0, 48.0))
_PARTING = frozenset(",/|;")
_JOINING = frozenset((":", "=", "(", "is", "ist"))
_NEAR = 3

Pairs = list[tuple[Item, Item]]  # a figure and its name


def figures_first(scene: Scene, found: dict[str, tuple[float, Item, float]], gone: set[int]) -> set[int]:
    """Keeps in ``found`` the figures that stand before their names; places of those that may belong to two names."""
    unsure: set[int] = set()
    before: set[str] = set()  # names whose figures stand behind them, nearer the beginning
    done = -1
    for place in sorted(at for name in _BOUNDS for at in scene.by_what.get(name, ())):
        if place <= done:
            continue
        row = _row(scene, place)
        done = row[-1]
        if scene.items[row[0]].what != NUMBER:
            before.update(scene.items[at].what for at in row[: len(row) // 2 * 2 : 2])
            continue
        if not gone.isdisjoint(row) or _headed(scene, row[0]):
            unsure.update(row[:1] if _of_limit(scene, row[0]) else ())
            continue
        told = _told_first([scene.items[at] for at in row], scene.tokens[scene.items[place].field])
        if told is None:
            unsure.update(row)
        elif not told and len(row) > 2:  # its first figure is none of the row
            unsure.add(row[0])
        for figure, name in told or ():
            if name.what not in before:
                found.setdefault(name.what, (figure.value, figure, 0.97 if figure.unit else 0.9))
    return unsure


def _row(scene: Scene, place: int) -> list[int]:
    """Places of names and figures that take turns; with the figure directly before the first name."""
    items = scene.items
    before = scene.before(place)
    row = [place - 1, place] if before is not None and _is_figure(before) and before.to == items[place].at else [place]
    for at in range(place + 1, len(items)):
        one, last = items[at], items[row[-1]]
        if one.sentence != last.sentence or one.at - last.to > _NEAR:
            break
        if one.at < last.to or one.what in _PASSED:
            continue
        if one.what not in _BOUNDS and not _is_figure(one):
            break
        if (one.what == NUMBER) == (last.what == NUMBER) or (one.what == NUMBER and _is_count(scene, at)):
            break
        row.append(at)
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


def _of_limit(scene: Scene, place: int) -> bool:
    """Is it the figure of a limit, as in "max 30 A Isc 9.2 A"?"""
    before = scene.before(place)
    return before is not None and before.what in _LIMITS and scene.items[place].at - before.to <= 1


def _told_first(row: Sequence[Item], tokens: Sequence[str]) -> Pairs | None:
    """The pairs of a row that begins with a figure; none where names stand first; None where both may be."""
    first = list(zip(row[::2], row[1::2], strict=False))
    then = list(zip(row[2::2], row[1::2], strict=False))
    nominal = row[0].unit == "V" and row[0].value in _NOMINAL_V  # of a battery, as in "12V Voc 21.6V"
    if nominal or not _can_be(first):
        return []
    if len(row) % 2 == 0:
        return first
    signs = [tokens[name.to : figure.at] for figure, name in then]
    if any(not _JOINING.isdisjoint(between) for between in signs):
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
        low, high = _BOUNDS[name.what]
        if figure.unit not in _UNITS[name.what] or not low <= figure.value <= high:
            return False
        value.setdefault(name.what, figure.value)
    return all(value[more] > value[less] for more, less in _ABOVE if more in value and less in value)
