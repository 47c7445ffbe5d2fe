"""Which rating is each figure? A figure belongs to the name that waits for it, or to the name directly behind it."""

from collections.abc import Iterable
from itertools import pairwise

from service.core.adverts.lexemes import Item
from service.core.adverts.scene import Scene, numbers

Found = dict[str, tuple[float, Item, float]]

_UNIT_OF = {"voc": "V", "isc": "A", "vmp": "V", "imp": "A", "max_in": "V", "start": "V", "input_current": "A",
            "tracking": "V", "input_range": "V"}  # fmt: skip
_REACH = 8
_RANGES = frozenset({"-", "to", "bis", "tot", "a", "az", "do", "til", "..."})


def panel_figures(scene: Scene, kind: str) -> Found:
    """Ratings, size, weight, cells and coefficients of one panel."""
    found: Found = {}
    elsewhere = _elsewhere(scene)
    for place in numbers(scene):
        item = scene.items[place]
        if place in elsewhere:
            continue
        _power(scene, place, item, kind, found)
        if item.unit in {"%/K", "V/K"}:
            _coefficient(scene, place, item, found)
        elif item.unit in {"V", "A", ""}:
            name = _name(scene, place, ("voc", "isc", "vmp", "imp"))
            if name and (item.unit == _UNIT_OF[name] or (not item.unit and _plain(item, name))):
                _keep(found, name, item.value, item, 0.97 if item.unit else 0.9)
        if item.unit == "kg" and item.value < 80:
            _keep(found, "weight", item.value, item, 0.95)
        if item.unit == "":
            _cells(scene, place, item, found)
    _size(scene, found)
    if kind != "panel":
        found.pop("weight", None)
    return found


def _keep(found: Found, name: str, value: float, item: Item, sure: float) -> None:
    found.setdefault(name, (value, item, sure))


def _plain(item: Item, name: str) -> bool:
    return (5 <= item.value <= 1500) if name in {"voc", "vmp"} else (0.05 <= item.value <= 30)


def _elsewhere(scene: Scene) -> set[int]:
    """Figures at other conditions, and meter readings."""
    gone: set[int] = set()
    for place in numbers(scene):
        item = scene.items[place]
        for one in scene.back(place, 20) if "elsewhere" in scene.by_what else ():
            if one.what == "standard":
                break
            if one.what == "elsewhere":
                gone.add(place)
                break
        if item.unit in {"V", "A", "W"} and scene.in_sentence(item.sentence, "measured"):
            gone.add(place)
    return gone


def _name(scene: Scene, place: int, names: Iterable[str]) -> str | None:
    """The name of a figure: the nearest before it that no other figure of its unit took; else directly behind it."""
    item = scene.items[place]
    wanted = set(names)
    behind = next((one for one in scene.ahead(place, 1)), None)
    taken = False
    for one in scene.back(place, 10):
        if item.at - one.to > _REACH:
            break
        if one.what in wanted and (not item.unit or _UNIT_OF[one.what] == item.unit):
            return None if taken else one.what
        if one.what == "#" and (one.unit == item.unit):
            taken = True
    if behind is not None and behind.what in wanted and behind.at - item.to <= 1 and behind.clause == item.clause:
        return behind.what if item.unit else None
    return None


def _power(scene: Scene, place: int, item: Item, kind: str, found: Found) -> None:
    if item.unit != "W":
        if not item.unit and kind in {"panel", "set"} and 40 <= item.value <= 800:
            name = next((one for one in scene.back(place, 2)), None)
            if name is not None and name.what == "power" and item.at - name.to <= 2:
                _keep(found, "power", item.value, item, 0.9)
        return
    if kind == "inverter" or not 3 <= item.value <= 1000 or item.glued in {"-", "/"}:
        return
    if any(one.what == "lot" and item.at - one.to <= 2 for one in scene.back(place, 3)):
        return
    if kind == "set" and _owner(scene, place) != "panel":
        return
    known = found.get("power")
    if known is None:
        found["power"] = (item.value, item, 0.97)


def _owner(scene: Scene, place: int) -> str | None:
    """Whose power in a set: the goods directly behind it, or the goods before it in the same clause."""
    item = scene.items[place]
    best: tuple[int, str] | None = None
    for one in (*scene.ahead(place, 5), *scene.back(place, 6)):
        good = one.what.partition("_")[0]
        if good in {"panel", "inverter"} and one.what.endswith(("_one", "_many")):
            away = one.at - item.to if one.at >= item.to else item.at - one.to
            away += 6 * (one.clause != item.clause) + (1 if one.at >= item.to else 0)
            if away <= 8 and (best is None or away < best[0]):
                best = (away, good)
    return best[1] if best else None


def _coefficient(scene: Scene, place: int, item: Item, found: Found) -> None:
    for one in (*scene.back(place, 4), *scene.ahead(place, 2)):
        if one.what in {"voc", "isc", "power"} and abs(one.at - item.at) <= 6:
            if one.what == "voc":
                value = item.value
                if item.unit == "V/K":
                    voc = found.get("voc")
                    if voc is None:
                        return
                    value = 100 * item.value / voc[0]
                _keep(found, "voc_coefficient", -abs(value), item, 0.95)
            elif one.what == "power" and item.unit == "%/K":
                _keep(found, "power_coefficient", -abs(item.value), item, 0.95)
            return


def _cells(scene: Scene, place: int, item: Item, found: Found) -> None:
    if item.value != int(item.value) or not 8 <= item.value <= 160:
        return
    near: list[Item] = []
    for one in scene.ahead(place, 4):
        if one.what == "#" or one.at - item.to > 3:
            break
        near.append(one)
    before = [one for one in scene.back(place, 3) if item.at - one.to <= 1]
    named = any(one.what == "cells" and one.at - item.to <= 2 for one in near) or any(
        one.what == "cells" for one in before
    )
    half = any(one.what == "half" for one in near)
    if half and (named or near[0].what == "half"):
        _keep(found, "cells", item.value // 2, item, 0.93)
    elif named and item.value < 108:
        found["cells"] = (item.value, item, 0.95)


def _size(scene: Scene, found: Found) -> None:
    places = numbers(scene)
    for first, second in pairwise(places):
        one, two = scene.items[first], scene.items[second]
        if one.field != two.field or two.at - one.to > 1 or two.at == one.to:
            continue
        sign = scene.tokens[one.field][one.to]
        if sign not in {"x", "*", "by", "sur", "per", "por", "op", "na", "auf", "mal"}:
            continue
        unit_of = two.unit or one.unit
        third = _third(scene, second)
        if third is not None and third.unit == "mm":
            unit_of = unit_of or "third"
        values = [_mm(value) for value in (one, two)]
        if unit_of not in {"mm", "", "third"} or not all(300 <= value <= 2600 for value in values):
            continue
        found["length"] = (max(values), one, 0.95)
        found["width"] = (min(values), two, 0.95)
        return


def _third(scene: Scene, place: int) -> Item | None:
    item = scene.items[place]
    behind = next(scene.ahead(place, 1), None)
    if behind is not None and behind.what == "#" and behind.at - item.to == 1:
        return behind
    return None


def _mm(item: Item) -> float:
    if item.unit == "mm":
        return item.value
    value = item.value
    for scale in (1.0, 10.0, 1000.0):
        if 300 <= value * scale <= 2600 and (scale > 1 or value >= 300):
            return value * scale
    return value


def inverter_figures(scene: Scene, kind: str) -> Found:
    """Limits of one inverter."""
    found: Found = {}
    for place in numbers(scene):
        item = scene.items[place]
        if item.unit == "W":
            _ac(scene, place, item, kind, found)
        elif item.unit == "V" or (item.unit == "" and _ranged(scene, place)):
            _volts(scene, place, item, found)
        elif item.unit == "A" and kind == "inverter":
            name = _name(scene, place, ("isc", "input_current"))
            _keep(found, "max_short_circuit" if name == "isc" else "max_current", item.value, item, 0.9)
        if item.unit == "" and item.value in {1, 2, 3, 4, 6, 8}:
            _inputs(scene, place, item, int(item.value), found)
    for place, item in enumerate(scene.items):
        if item.what[:2] == "n:":
            _inputs(scene, place, item, int(item.what[2:]), found)
    return found


def _ac(scene: Scene, place: int, item: Item, kind: str, found: Found) -> None:
    if item.glued in {"-", "/"} or item.value < 100:
        return
    if kind == "set" and _owner(scene, place) != "inverter":
        return
    limited = any(one.what == "limited" and item.at - one.to <= 3 for one in scene.back(place, 3))
    if limited:
        found["ac_power"] = (item.value, item, 0.9)
    else:
        _keep(found, "ac_power", item.value, item, 0.95)


def _ranged(scene: Scene, place: int) -> bool:
    item = scene.items[place]
    behind = next(scene.ahead(place, 1), None)
    tokens = scene.tokens[item.field]
    if behind is not None and behind.what in {"range", "plus"}:
        more = list(scene.ahead(place, 2))
        return len(more) > 1 and more[1].what == "#" and more[1].unit == "V" and more[1].at - item.to <= 2
    return (behind is not None and behind.what == "#" and behind.unit == "V" and behind.at - item.to == 1
            and tokens[item.to] in _RANGES)  # fmt: skip


def _volts(scene: Scene, place: int, item: Item, found: Found) -> None:
    if _ranged(scene, place):
        high = next(one for one in scene.ahead(place, 2) if one.what == "#")
        names = {one.what for one in scene.back(place, 6) if item.at - one.to <= _REACH}
        if "battery" not in names and (names & {"tracking", "input_range", "between"} or item.value < high.value):
            _keep(found, "tracking_min", item.value, item, 0.9)
            _keep(found, "tracking_max", high.value, high, 0.9)
        return
    if place and any(scene.items[place] is found[name][1] for name in found):
        return
    if item.value in {230.0, 240.0, 120.0, 400.0}:
        return
    name = _name(scene, place, ("max_in", "start"))
    if name:
        _keep(found, name, item.value, item, 0.93)


def _inputs(scene: Scene, place: int, item: Item, count: int, found: Found) -> None:
    for one in scene.ahead(place, 3):
        if one.what in {"inputs", "tracking"} and one.at - item.to <= 2:
            _keep(found, "inputs", count, item, 0.93)
