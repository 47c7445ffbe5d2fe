"""Do figures stand below the names of their ratings, in a table with a row of names and a row of values?

Columns are parted by bars or semicolons, else by blanks; then every figure needs a name, in their order. With two rows
of values nobody knows which panel is sold, so nothing is read of them.
"""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise

from service.core.adverts.asked_roles import COLUMNS
from service.core.adverts.places_of_pieces import first_from
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

Found = dict[str, tuple[float, Item, float]]
_Line = tuple[int, int]  # from which piece of the body to which

_BOUNDS = {"voc": (5.0, 160.0), "vmp": (5.0, 160.0), "isc": (0.2, 30.0), "imp": (0.2, 30.0), "power": (40.0, 800.0)}
_UNITS = {"voc": "V", "vmp": "V", "isc": "A", "imp": "A", "power": "W"}
_OF_RATINGS = frozenset(("", *_UNITS.values()))
_ABOVE = (("voc", "vmp"), ("isc", "imp"))
_PARTING = ("|", ";")
_SIGNS = frozenset(_PARTING)
_FEWEST, _MOST_ROWS = 2, 4
_MEANINGS = 3  # a word for power has other meanings too
_AROUND = 2  # lines above and below
_SURE = 0.9


def below_names(scene: Scene, ratings: list[int], found: Found) -> set[int]:
    """Keeps in ``found`` the figures below their names; places of all figures that are in columns.

    Watts stay for who looks for powers, unless there are several rows of values. ``ratings``: places of their names.
    """
    whats = scene.whats
    if not (ratings and scene.lined):
        return set()
    parted = bool(scene.field_roles[1] & COLUMNS)
    # Most names stand behind the figure of the one before them; a line with a figure heads nothing.
    heading = [at for at in ratings if whats[at - 1] != whats[at] and scene.items[at].field == 1 and (
               (whats[at - 1] != NUMBER and not _UNITS.keys().isdisjoint(whats[max(at - _MEANINGS, 0) : at]))
               or (parted and scene.tokens[1][scene.items[at].at - 1] in _PARTING))]  # fmt: skip
    if not heading:
        return set()
    ends = [-1, *(at for at, word in enumerate(scene.tokens[1]) if word == "\n"), len(scene.tokens[1])]
    taken: set[int] = set()
    done = -1
    for place in heading:
        number = bisect_right(ends, scene.items[place].at)
        if number > done:
            done = number
            taken |= _table(scene, ends, number, found)
    return taken


def _table(scene: Scene, ends: list[int], number: int, found: Found) -> set[int]:
    """One table, whose names stand in the line before end ``number``."""
    head = (ends[number - 1] + 1, ends[number])
    if figures_in(scene, head):
        return set()
    words = scene.tokens[1]
    sign = next((sign for sign in _PARTING if sign in words[head[0] : head[1]]), "")
    rows: list[dict[str, int]] = []
    taken: set[int] = set()
    for low, high in zip(ends[number : number + _MOST_ROWS], ends[number + 1 : number + 1 + _MOST_ROWS], strict=False):
        line = (low + 1, high)
        places = figures_in(scene, line)
        if not places:
            if rows:
                break
            continue  # a row of lines or units below the names
        if "elsewhere" in scene.by_what and "elsewhere" in scene.whats[slice(*between(scene, line))]:
            taken.update(places)
            continue
        row = _by_cell(scene, head, line, sign) if sign else _by_order(scene, head, places)
        if row is None:
            break
        rows.append(row)
        taken.update(places)
    if len(rows) == 1 and len(_UNITS.keys() & set(scene.whats[slice(*between(scene, head))])) < _FEWEST:
        return set()  # with one name known, only several panels tell anything
    if len(rows) != 1 or not _can_be(scene, rows[0]):
        return taken
    if "measured" in scene.by_what and _read_off(scene, ends, number):
        return {place for place in taken if scene.items[place].unit != "W"}
    for name, place in rows[0].items():
        item = scene.items[place]
        if name != "power" or "W" not in scene.units:
            found.setdefault(name, (item.value, item, _SURE))
    return {place for place in taken if scene.items[place].unit != "W"}


def _read_off(scene: Scene, ends: list[int], number: int) -> bool:
    """Do the lines around a table tell that a meter was read?"""
    low, high = ends[max(number - 1 - _AROUND, 0)], ends[min(number + 1 + _AROUND, len(ends) - 1)]
    told = (scene.items[at] for at in scene.by_what["measured"])
    return any(item.field == 1 and low < item.at < high for item in told)


def in_columns(scene: Scene, found: Found) -> set[int]:
    """Keeps figures of a column for standard conditions, by the names of their rows; places of those of another column.

    As in a table with a row "| NOCT | STC |" above "Voc | 35.0 V | 37.1 V".
    """
    if not ({"elsewhere", "standard"} <= scene.by_what.keys() and scene.lined):
        return set()
    sign = parting_sign(scene)
    gone: set[int] = set()
    columns: tuple[int, int, int] | None = None  # how many, which tells of other conditions, which of standard ones
    ends = [-1, *(at for at, word in enumerate(scene.tokens[1]) if word == "\n"), len(scene.tokens[1])]
    for low, high in pairwise(ends) if sign else []:
        cells = [between(scene, cell) for cell in cells_of(scene.tokens[1], (low + 1, high), sign)]
        whats = [set(scene.whats[start:end]) for start, end in cells]
        other = [at for at, told in enumerate(whats) if "elsewhere" in told]
        standard = [at for at, told in enumerate(whats) if "standard" in told]
        if len(other) == len(standard) == 1 and other != standard and not figures_in(scene, (low + 1, high)):
            columns = (len(cells), other[0], standard[0])
        elif other == [next((at for at, told in enumerate(whats) if told), -1)] and not standard:
            gone.update(figures_in(scene, (low + 1, high)))  # a row for other conditions
        elif columns is not None and len(cells) == columns[0]:
            gone |= {place for place in range(*cells[columns[1]]) if _is_number(scene, place)}
            _keep_standard(scene, cells, columns, found)
    return gone


def parting_sign(scene: Scene) -> str:
    """What parts the columns of the body, should it hold a table: a bar, else a semicolon, where there are any."""
    if not scene.field_roles[1] & COLUMNS:
        return ""
    words = scene.tokens[1]
    told = {words[at] for at in scene.pieces[1].places(COLUMNS, _SIGNS)}
    return next((sign for sign in _PARTING if sign in told), "")


def _is_number(scene: Scene, place: int) -> bool:
    return scene.whats[place] == NUMBER


def _keep_standard(scene: Scene, cells: Sequence[_Line], columns: tuple[int, int, int], found: Found) -> None:
    """The figure in the column for standard conditions, if its row has one name."""
    names = {scene.whats[at] for cell in cells[: min(columns[1:])] for at in range(*cell)} & _UNITS.keys()
    values = [at for at in range(*cells[columns[2]]) if _is_number(scene, at)]
    if len(names) == 1 and len(values) == 1 and (name := names.pop()) != "power":
        item = scene.items[values[0]]
        if _fits(name, item):
            found.setdefault(name, (item.value, item, _SURE))


def figures_in(scene: Scene, line: _Line) -> list[int]:
    """Places of the figures in a line of the body that may be ratings."""
    low, high = between(scene, line)
    return [place for place in range(low, high) if scene.whats[place] == NUMBER
            and not scene.items[place].spelled and scene.items[place].unit in _OF_RATINGS]  # fmt: skip


def between(scene: Scene, line: _Line) -> _Line:
    """The items that begin between two pieces of the body: from which to which."""
    low = first_from(scene.items, 1, line[0])
    return low, first_from(scene.items, 1, line[1], low)


def cells_of(words: list[str], line: _Line, sign: str) -> list[_Line]:
    """The cells of a line, parted by a sign: from which piece of the body to which."""
    cuts = [at for at in range(*line) if words[at] == sign]
    return list(zip([line[0], *(cut + 1 for cut in cuts)], [*cuts, line[1]], strict=True))


def _by_cell(scene: Scene, head: _Line, line: _Line, sign: str) -> dict[str, int] | None:
    """The figure below each name; None where the line has other columns."""
    names, values = cells_of(scene.tokens[1], head, sign), cells_of(scene.tokens[1], line, sign)
    if len(names) != len(values):
        return None
    row: dict[str, int] = {}
    for name_cell, value_cell in zip(names, values, strict=True):
        low, high = between(scene, name_cell)
        told = _UNITS.keys() & set(scene.whats[low:high])
        places = figures_in(scene, value_cell)
        if len(told) == 1 and len(places) == 1 and _fits(next(iter(told)), scene.items[places[0]]):
            row.setdefault(next(iter(told)), places[0])
    return row


def _by_order(scene: Scene, head: _Line, places: list[int]) -> dict[str, int] | None:
    """As many figures as names, in their order; a first column may tell the model. None where it is not so."""
    low, high = between(scene, head)
    names: dict[str, int] = {}
    others: set[int] = set()
    for at in range(low, high):
        if scene.whats[at] in _UNITS:
            names.setdefault(scene.whats[at], scene.items[at].at)
        else:
            others.add(scene.items[at].at)
    others -= {head[0], *names.values()}
    more = len(places) - len(names)
    if others or len(names) < _FEWEST or not 0 <= more <= (head[0] not in names.values()):
        return None
    pairs = dict(zip(names, places[more:], strict=True))
    return pairs if all(_fits(name, scene.items[place]) for name, place in pairs.items()) else None


def _fits(name: str, item: Item) -> bool:
    low, high = _BOUNDS[name]
    return item.unit in {_UNITS[name], ""} and low <= item.value <= high


def _can_be(scene: Scene, row: dict[str, int]) -> bool:
    """Do at least two stand there, and those of an open circuit above those at full power?"""
    value = {name: scene.items[place].value for name, place in row.items()}
    return len(row) >= _FEWEST and all(value[more] > value[less] for more, less in _ABOVE
                                       if more in value and less in value)  # fmt: skip
