"""Are panels of two powers offered together: "mix of 235 and 250 W", so that no single power holds for all?

Where each sort is counted ("3 of 400 W and 2 of 410 W"), no single count does either.
"""

from itertools import pairwise

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, NUMBER, Item

_COUNTED = (
    "panel_one",
    "panel_many",
    "piece",
    "each",
    "times",
    "between",
    "used",
    "unused",
    "new",
    "bifacial",
    "count",
    "cells",
    "half",
)
_COUNTED_OR_NUMBER = (NUMBER, *_COUNTED)
_FARTHEST, _MOST = 6, 500
_BOUNDS_W = (30.0, 800.0)
_LEAST_SHARE, _LIKE_SHARE = 0.35, 0.99  # other figures are farther apart, the same power is nearer
_NEAR = 4
_ROUNDED_SHARE = 0.02
_IN_SERIES = (30, 160)  # cells of one panel


def without_totals(scene: Scene, powers: list[Item]) -> list[Item]:
    """Powers of one panel, without those of so many together: "800 W of panels, 2 x 400 W"."""
    if len(powers) < 2:
        return powers
    totals = [count * item.value for item in powers for count in _times_before(scene, item)]
    return [item for item in powers
            if not any(abs(item.value - total) <= _ROUNDED_SHARE * total for total in totals)]  # fmt: skip


def _times_before(scene: Scene, item: Item) -> list[int]:
    """Its number, where an x stands between: "2 x 400 W", "400 W x 2"."""
    tokens, at, to = scene.tokens[item.field], item.at, item.to
    told: list[str] = []
    if at > 1 and tokens[at - 1] == "x":
        told.append(tokens[at - 2])
    if to + 1 < len(tokens) and tokens[to] == "x":
        told.append(tokens[to + 1])
    return [int(word) for word in told if word.isdecimal() and 1 < int(word) <= _MOST]


def of_one_sort(scene: Scene, kind: str, powers: list[Item], found: dict[str, tuple[float, Item, float]]) -> list[Item]:
    """The powers of panels; none where they are of two sorts, whose cells go from ``found`` too.

    A set has powers of its panels and of its inverter.
    """
    of_cells = kind == "panel" and several_cells(scene)
    if of_cells:
        found.pop("cells", None)
    several = kind == "panel" and len({item.value for item in powers}) > 1
    if kind == "panel" and powers and several:
        return [] if of_cells or _two_sorts(scene, powers) or counts_of_sorts(scene) else powers
    mixed = kind == "panel" and powers and _two_sorts(scene, powers)
    return [] if mixed else powers


def single_count(scene: Scene, kind: str, quantity: int | None) -> int | None:
    """The pieces on offer; none where several sorts are counted and nobody tells their sum."""
    if kind != "panel" or quantity is None:
        return quantity
    counts = counts_of_sorts(scene)
    return quantity if not counts or quantity == sum(counts) else None


def counts_of_sorts(scene: Scene) -> list[int]:
    """How many there are of each of several sorts beside one another; none where it is not told of two."""
    if scene.sorts is None:
        scene.sorts = _counts_of_sorts(scene)
    return scene.sorts


def _counts_of_sorts(scene: Scene) -> list[int]:
    found: list[tuple[int, Item]] = []
    powers = scene.units.get("W", [])
    differ = len(powers) > 1 and len({scene.items[place].value for place in powers}) > 1
    for place in powers if differ else []:
        item = scene.items[place]
        count = _count_before(scene, place, item)
        if count is None:
            continue
        near = found and found[-1][1].field == item.field and item.sentence - found[-1][1].sentence <= 1
        if not near or not _differ(found[-1][1], item):
            if len(found) > 1:
                break
            found = []
        found.append((count, item))
    return [count for count, _ in found] if len(found) > 1 else []


def several_cells(scene: Scene) -> bool:
    """Are different numbers of cells in series told: "60 cells 250 W and 72 cells 300 W"?"""
    counts = {scene.items[at - 1].value for at in scene.by_what.get("cells", [])
              if at and scene.whats[at - 1] == NUMBER and not scene.items[at - 1].unit
              and scene.items[at].at - scene.items[at - 1].to <= 1}  # fmt: skip
    told = sorted(value for value in counts if _IN_SERIES[0] <= value <= _IN_SERIES[1])
    return any(high != 2 * low for low, high in pairwise(told))


def _count_before(scene: Scene, place: int, item: Item) -> int | None:
    """The number of panels of a power that stands behind it: "3 panels 400 W", "3x 400 W", "3 of 400 W"."""
    if item.spelled or not _BOUNDS_W[0] <= item.value <= _BOUNDS_W[1]:
        return None
    if not scene.whats[place - 1].startswith(_COUNTED_OR_NUMBER):
        return None
    if not INVERTERS.isdisjoint(scene.near(place, 0, 2)) and any(
           one.what in INVERTERS and one.at - item.to <= 2 and one.clause == item.clause
           for one in scene.ahead(place, 2)):  # fmt: skip
        return None
    known, last = item.at, ""  # where words begin of which all are known
    for one in scene.back(place, 6):
        if one.what == NUMBER and last != "cells":
            return int(one.value) if _is_count(scene, one, item, known) else None
        if one.what != NUMBER and not one.what.startswith(_COUNTED):
            return None
        known, last = min(known, one.at), one.what
    return None


def _is_count(scene: Scene, one: Item, item: Item, known: int) -> bool:
    """Is it a number of pieces, with nothing but known words up to ``known``?"""
    if one.unit or one.value % 1 or not 1 <= one.value <= _MOST or one.glued in {"-", "/", "x"}:
        return False
    between = scene.tokens[item.field][one.to : known]
    spelled = scene.tokens[item.field][one.to - 1] in scene.small.number_behind  # "5no 250w"
    told = known < item.at or bool(between) or spelled
    return item.at - one.to <= _FARTHEST and told and scene.small.count_words.issuperset(between)


def _two_sorts(scene: Scene, powers: list[Item]) -> bool:
    """Does another power stand joined before one of ``powers``, with or without its unit?"""
    for place in scene.units.get("W", []):
        item = scene.items[place]
        if item not in powers:
            continue
        for one in scene.back(place, 4):
            between = scene.tokens[item.field][one.to : item.at]
            if len(between) > _NEAR:
                break
            if _is_power(scene, one) and _differ(one, item) and _joined(scene, one, between):
                return True
    return False


def _is_power(scene: Scene, one: Item) -> bool:
    if one.what != NUMBER or one.unit not in {"", "W"} or one.spelled or one.glued in {"x", "-"}:
        return False
    tokens = scene.tokens[one.field]
    return "x" not in tokens[max(one.at - 1, 0) : one.at] or one.unit == "W"


def _differ(one: Item, item: Item) -> bool:
    low, high = sorted((one.value, item.value))
    return _BOUNDS_W[0] <= low and high <= _BOUNDS_W[1] and _LEAST_SHARE < low / high < _LIKE_SHARE


def _joined(scene: Scene, one: Item, between: list[str]) -> bool:
    """Is nothing but "and" between them, and a count before the second; or are they said to be mixed?"""
    if scene.in_sentence(one.sentence, "mixed"):
        return not {"(", ")"}.intersection(between)
    if not scene.small.others.isdisjoint(between):  # "some of 230 W and others of 250 W"
        return scene.small.sorts_between.issuperset(between)
    joins = scene.small.sorts_joining
    counted = [word for word in between if word not in joins]
    if one.unit != "W":
        return bool(between) and not counted
    return len(counted) < len(between) and all(word == "x" or word.isdigit() for word in counted)
