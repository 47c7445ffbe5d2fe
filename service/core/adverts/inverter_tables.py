"""Do limits of an inverter stand in a table: below their names, or behind a name that tells the unit?

As in "MPPT range | Start | Max DC" above "22-55 V | 20 V | 60 V", and in "Start voltage (V) | 20". Of several inverters
in one table nobody knows which is sold, so nothing is read of them. What a grid has is no limit.
"""

from collections.abc import Sequence
from itertools import pairwise

from service.core.adverts.direct import GRID_V
from service.core.adverts.scene import Scene
from service.core.adverts.tables import Found, between, cells_of, figures_in, parting_sign
from service.core.adverts.volts_of_others import MOST_INPUT_V, may_be_of_string, other_volts
from service.core.adverts.walk import Item

_UNITS = {"v": "V", "vdc": "V", "volt": "V", "volts": "V", "a": "A", "adc": "A", "w": "W", "va": "W", "watt": "W"}
_OPENS = frozenset("([")
_CLOSES = frozenset(")]")
_INPUT = frozenset(("tracking", "start", "input_range", "input_current"))
_LIMITS = _INPUT | {"max_in"}
_OF_PANELS = frozenset(("voc", "vmp", "cells"))
_OF_GRIDS = frozenset(("ac_out", "system", "output_current", "battery"))
_SHORT = frozenset(("isc", "max_sc"))
_CURRENTS = frozenset(("input_current", "imp", "max_in"))
_OUT = frozenset(("ac_out", "rated", "power"))
_NO_OUTPUT = frozenset(("dc_power", "surge", "panel_one", "panel_many"))
_WINDOWS = frozenset(("tracking", "operating"))
_MOST_V, _MOST_A = 1500.0, 60.0
_LEAST_W, _MOST_W = 100.0, 20_000.0
_TO_VALUE = frozenset(":|=")
_RANGED = frozenset("-~x/")
_ENDING = frozenset("\n|;,")
_COLUMNS, _FEWEST, _MOST_ROWS, _LONGEST_NAME = 3, 2, 4, 7
_SURE = 0.9

_Line = tuple[int, int]


def limits_in_tables(scene: Scene, kind: str) -> tuple[Found, frozenset[int]]:
    """What the tables of the body tell, and the places of all figures in them, which are nothing else."""
    found: Found = {}
    taken: set[int] = set()
    if not scene.tells(*_LIMITS):
        return found, frozenset()
    words = scene.tokens[1]
    sign = parting_sign(scene) if scene.lined else ""
    if sign:
        _tables(scene, sign, found, taken)
    if kind == "inverter" and not (scene.tells(*_OF_PANELS) or _OPENS.isdisjoint(words)):
        _bracketed(scene, found, taken)
    return found, frozenset(taken)


def _tables(scene: Scene, sign: str, found: Found, taken: set[int]) -> None:
    words = scene.tokens[1]
    ends = [-1, *(at for at, word in enumerate(words) if word == "\n"), len(words)]
    lines = [(low + 1, high) for low, high in pairwise(ends)]
    done = 0
    for number, line in enumerate(lines):
        cells = cells_of(words, line, sign) if number >= done and sign in words[line[0] : line[1]] else ()
        if len(cells) >= _COLUMNS and _heads(scene, cells):
            done = number + 1 + _below(scene, cells, lines[number + 1 :], sign, found, taken)


def _whats(scene: Scene, cell: _Line) -> set[str]:
    return set(scene.whats[slice(*between(scene, cell))])


def _heads(scene: Scene, cells: Sequence[_Line]) -> bool:
    """Are they the names of limits, with no figures and no ratings of panels among them?"""
    line = (cells[0][0], cells[-1][1])
    told = _whats(scene, line)
    if _INPUT.isdisjoint(told) or not _OF_PANELS.isdisjoint(told) or figures_in(scene, line):
        return False
    return sum(not _LIMITS.isdisjoint(_whats(scene, cell)) for cell in cells) >= _FEWEST


def _below(
    scene: Scene, heads: Sequence[_Line], lines: Sequence[_Line], sign: str, found: Found, taken: set[int]
) -> int:
    """Keeps what the one row of values below the names tells; how many lines the table has below them."""
    words = scene.tokens[1]
    units = [_unit(words[low:high]) for low, high in heads]
    rows: list[Sequence[_Line]] = []
    count = 0
    for line in lines[: _MOST_ROWS + 1]:
        cells = cells_of(words, line, sign)
        if len(cells) != len(heads):
            break
        count += 1
        if figures_in(scene, line):
            rows.append(cells)
            taken.update(figures_in(scene, line))
        elif not rows:  # a row of lines, or of units
            units = [_unit(words[low:high]) or unit for (low, high), unit in zip(cells, units, strict=True)]
    if len(rows) == 1:
        for head, unit, cell in zip(heads, units, rows[0], strict=True):
            _keep(scene, head, unit, cell, found)
    return count


def _bracketed(scene: Scene, found: Found, taken: set[int]) -> None:
    """Keeps figures without a unit behind a name with one in brackets: "Start voltage (V): 20"."""
    words = scene.tokens[1]
    for at in range(2, len(words) - 2):
        if words[at - 1] not in _OPENS or words[at] not in _UNITS or words[at + 1] not in _CLOSES:
            continue
        to = next((to for to in range(at + 2, min(at + 5, len(words))) if words[to] not in _TO_VALUE), at)
        end = to + 1
        while end + 1 < len(words) and words[end] in _RANGED and words[end + 1][0].isdigit():
            end += 2
        places = figures_in(scene, (to, end))
        low = at - 1
        while low > max(at - _LONGEST_NAME, 0) and not (words[low - 1] in _ENDING or words[low - 1][0].isdigit()):
            low -= 1
        if places and scene.items[places[0]].at == to and not scene.items[places[-1]].unit:
            _keep(scene, (low, at - 1), _UNITS[words[at]], (to, end), found)
            taken.update(places)


def _unit(words: list[str]) -> str:
    """The unit that ends a cell, perhaps in brackets."""
    last = next((word for word in reversed(words) if word not in _CLOSES), "")
    return _UNITS.get(last, "")


def _keep(scene: Scene, head: _Line, unit: str, cell: _Line, found: Found) -> None:
    words = scene.tokens[1]
    values = [
        one for one in map(scene.items.__getitem__, figures_in(scene, cell)) if words[one.to : one.to + 1] != ["x"]
    ]
    units = {one.unit for one in values} - {""}
    if not values or len(units) > 1:
        return
    unit = next(iter(units), unit)
    name, heading = _name(scene, head, unit), words[head[0] : head[1]]
    if name in _WINDOWS:
        _keep_window(name, values, heading, found)
    elif name == "max_in" and values[0].value > MOST_INPUT_V and not may_be_of_string(scene, heading, values[0]):
        return
    elif name and len({one.value for one in values}) == 1 and _fits(unit, values[0], name):
        if name == "ac_power" and "power" not in _whats(scene, head):
            found[name] = (values[0].value, values[0], _SURE)
        else:
            found.setdefault(name, (values[0].value, values[0], _SURE))


def _keep_window(name: str, values: list[Item], words: list[str], found: Found) -> None:
    """Both ends of a range, or the one that its name tells."""
    if len(values) == _FEWEST and values[0].value < values[1].value < GRID_V[0]:
        for end, one in zip(("min", "max"), values, strict=True):
            found.setdefault(f"{name}_{end}", (one.value, one, _SURE))
    elif len(values) == 1 and _fits("V", values[0], "max_in"):
        for end in {"min", "max"}.intersection(words):
            found.setdefault(f"{name}_{end}", (values[0].value, values[0], _SURE))


def _name(scene: Scene, head: _Line, unit: str) -> str:
    """Which limit a name and a unit tell; "" for what comes out, and for what is none."""
    told, words = _whats(scene, head), scene.tokens[1][head[0] : head[1]]
    out = not scene.small.put_out.isdisjoint(words)
    if unit == "W":
        return "ac_power" if _NO_OUTPUT.isdisjoint(told) and (out or not _OUT.isdisjoint(told)) else ""
    if out or not _OF_GRIDS.isdisjoint(told) or not _OF_PANELS.isdisjoint(told):
        return ""
    if unit == "V":
        if other_volts(scene, words):
            return ""
        named = next((what for what in ("start", "tracking", "input_range", "max_in") if what in told), "")
        return {"input_range": "operating"}.get(named, named) if _SHORT.isdisjoint(told) else ""
    if unit == "A":
        return "max_short_circuit" if told & _SHORT else "max_current" if told & _CURRENTS else ""
    return ""


def _fits(unit: str, item: Item, name: str) -> bool:
    """Can it be such a limit? Volts such as grids have are none."""
    if unit == "W":
        return _LEAST_W <= item.value <= _MOST_W
    if unit == "A":
        return 0 < item.value <= _MOST_A
    return 0 < item.value <= _MOST_V and not (name in {"max_in", "start"} and GRID_V[0] <= item.value <= GRID_V[1])
