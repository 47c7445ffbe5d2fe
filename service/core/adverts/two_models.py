"""Which limit has the inverter that is sold where a sheet tells those of two: "Max. DC voltage: 60 V / 50 V"?

Nobody knows which of them it is, so the careful value is kept, and doubted: the lower of greatest volts and amperes,
the higher of those at which it begins. Figures beside each other with a name of their own each are none of two models.
"""

from collections.abc import Set

from service.core.adverts.scene import Scene
from service.core.adverts.unequal import CONFLICT, place_of
from service.core.adverts.walk import NUMBER, Item

_Found = dict[str, tuple[float, Item, float]]
_Cell = tuple[Item, Item, int, int]  # both ends of a range, or one figure twice; its first piece and that behind it
_GREATEST = ("max_in", "max_current", "max_short_circuit", "tracking_max", "operating_max", "ac_power")
_LEAST = ("tracking_min", "operating_min", "start")
_NAMES = frozenset(("max_in", "tracking", "input_range", "start", "input_current", "max_sc", "isc", "imp", "voc", "vmp",
                    "ac_out", "output_current", "system", "surge", "limited", "dc_power", "rated", "power",
                    "inputs"))  # fmt: skip
_BETWEEN = frozenset("/|")
_TO = frozenset("-~")
_ENDS = frozenset(",.;()\n/")
_TO_OWN = 6  # pieces
_TWO = 2
_LABEL, _BEHIND, _AROUND, _MOST = 12, 2, 16, 8  # pieces; items; cells


def careful_of_two(scene: Scene, kind: str, found: _Found) -> None:
    """Of limits that stand with a stroke between them the careful one is kept; in sets watts may be of panels."""
    if not found or not _has_stroke(scene):
        return
    _in_order(scene, found)
    for name in (*_GREATEST, *_LEAST):
        if name not in found or (name == "ac_power" and (kind != "inverter" or "switchable" in scene.by_what)):
            continue
        value, item, sure = found[name]
        cells = _cells(scene, item)
        if name.endswith(("_min", "_max")) and cells[0][0] is cells[0][1]:
            continue  # "24/56 V" is one range
        if len(cells) > 1 and _of_one_name(scene, item.field, cells):
            ends = [high if name.endswith("_max") else low for low, high, _, _ in cells]
            best = (min if name in _GREATEST else max)(ends, key=_value)
            if any(one.value != value for one in ends):
                found[name] = (best.value, best, sure)
                scene.by_what.setdefault(CONFLICT, []).append(place_of(scene, item))


def _has_stroke(scene: Scene) -> bool:
    """Does a stroke stand anywhere?"""
    title, body = scene.tokens[0], scene.tokens[1]
    return "/" in title or "/" in body or "|" in title or "|" in body


def _in_order(scene: Scene, found: _Found) -> None:
    """Of "input current / short-circuit current: 14 A / 18 A" the first figure is that of the first name."""
    now, short = found.get("max_current"), found.get("max_short_circuit")
    if now is None or short is None or now[0] <= short[0] or now[1].field != short[1].field:
        return
    cells = _cells(scene, short[1])
    if len(cells) == _TWO and cells[1][0] is now[1] and not _of_one_name(scene, now[1].field, cells):
        found["max_current"], found["max_short_circuit"] = short, now


def _value(item: Item) -> float:
    return item.value


def _cells(scene: Scene, item: Item) -> list[_Cell]:
    """The figure or range of an item and those of its unit beside it with a stroke between them."""
    tokens = scene.tokens[item.field]
    figures = [scene.items[at] for at in scene.by_what.get(NUMBER, ()) if scene.items[at].field == item.field]
    at = next(at for at, one in enumerate(figures) if one.at == item.at)
    if at and figures[at - 1].to == item.at - 1 and tokens[item.at - 1] in _TO:
        at -= 1
    cells = [_cell(tokens, figures, at)]
    unit = cells[0][1].unit
    while len(cells) < _MOST:
        end = cells[-1][3]
        behind = next((n for n, one in enumerate(figures) if one.at == end + 1), None)
        if behind is None or tokens[end] not in _BETWEEN:
            break
        cells.append(_cell(tokens, figures, behind))
    while len(cells) < _MOST:
        first = cells[0][2]
        before = next((n for n, one in enumerate(figures) if one.to == first - 1), None)
        if before is None or tokens[first - 1] not in _BETWEEN:
            break
        if before and figures[before - 1].to == figures[before].at - 1 and tokens[figures[before].at - 1] in _TO:
            before -= 1
        cells.insert(0, _cell(tokens, figures, before))
    ranged = cells[0][0] is not cells[0][1]
    alike = all(high.unit in {"", unit} and (low is not high) == ranged for low, high, _, _ in cells)
    return cells if unit and alike else cells[:1]


def _cell(tokens: list[str], figures: list[Item], at: int) -> _Cell:
    low = figures[at]
    if at + 1 < len(figures) and figures[at + 1].at == low.to + 1 and tokens[low.to] in _TO:
        return low, figures[at + 1], low.at, figures[at + 1].to
    return low, low, low.at, low.to


def _of_one_name(scene: Scene, field: int, cells: list[_Cell]) -> bool:
    """Does one name stand before them all, none with a stroke in it, and no other one behind?"""
    tokens, first, end = scene.tokens[field], cells[0][2], cells[-1][3]
    low = first
    while low > max(first - _LABEL, 0) and tokens[low - 1] not in {"\n", ";"} and not tokens[low - 1][0].isdigit():
        low -= 1
    at = place_of(scene, cells[0][0])
    near = scene.items[max(at - _AROUND, 0) : at + _AROUND]
    names = [
        one for one in near if one.what in _NAMES and one.field == field and low < one.to and one.at < end + _BEHIND
    ]
    if any(
        one.at >= end
        and tokens[one.at - 1] not in {"\n", ".", ";"}
        and not _heads(tokens, one.to, scene.small.line_cut_short)
        for one in names
    ):
        return False
    columns = "|" in tokens[first:end]
    label = tokens[low:first]
    if columns:
        return any(one.to <= first for one in names)
    return "/" not in label


def _heads(tokens: list[str], to: int, cut_short: Set[str]) -> bool:
    """Does it name figures of its own behind it, before its clause ends? No clause ends with "max."."""
    for at in range(to, min(to + _TO_OWN, len(tokens))):
        word = tokens[at]
        if word in {":", "=", "|"} or word[0].isdigit():
            return True
        if word in _ENDS and not (word == "." and tokens[at - 1] in cut_short):
            return False
    return False
