"""How do the cells of a panel lie as it stands, and which of them share a current?

A panel has three bypass sections in series, each a third of its width and as long as it. Half cells lie in two halves,
one after the other along the panel, and in each section the halves are parallel; a row of them is half as high.
"""

from collections.abc import Hashable
from dataclasses import dataclass
from functools import reduce
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array, Panel
from service.core.sky.shade import SECTIONS

Metres = NDArray[np.floating[Any]]

# The frame and the margin around the cells (trade figure, from memory).
MARGIN_M = 0.02
_HALVES = 2
# Nearly all panels have six columns of cells along their long sides (from memory). Where size and number of cells make
# that no cells of 100 to 220 mm, about square, a usual one is taken: 156 to 182 mm.
_COLUMNS, CELL_M = 6, 0.17
_CELL_BOUNDS_M, _MOST_OBLONG = (0.1, 0.22), 1.25


@dataclass(frozen=True, slots=True)
class Parts:
    """Sections or halves of a panel, side by side from one of its edges to the other.

    ``ends_m``: where each begins and ends, from the edge; ``row_m``: how wide a row of cells is in that direction.
    """

    ends_m: tuple[tuple[float, float], ...]
    row_m: float

    def covered(self, from_m: Metres | float, to_m: Metres | float) -> list[Metres]:
        """Of each part, how many rows of cells lie between two distances from the edge, in shadow; each as ``to_m``.

        A part of a row counts as a part; more than one row may be told.

        >>> [float(rows) for rows in Parts(((0.0, 0.25), (0.25, 0.5)), 0.125).covered(0.0625, np.array(0.3125))]
        [1.5, 0.5]
        """
        return [
            np.maximum(np.minimum(to_m, end) - np.maximum(from_m, begin), 0.0) * (1.0 / self.row_m)
            for begin, end in self.ends_m
        ]

    def dark_by_band(self, from_m: Metres, to_m: Metres) -> list[Metres]:
        """Of each part, what a band of shadow between two distances from the edge covers of its darkest row, 0 to 1.

        By where it lies among the rows. A band less than two rows wide may lie across three.

        >>> [round(float(row), 9) for row in Parts(((0.0, 0.5),), 0.1).dark_by_band(np.array(0.18), np.array(0.23))]
        [0.3]
        """
        rows = []
        for begin, end in self.ends_m:
            first = (np.clip(from_m, begin, end) - begin) * (1.0 / self.row_m)
            last = (np.clip(to_m, begin, end) - begin) * (1.0 / self.row_m)
            edge = np.floor(first) + 1.0  # of the row in which it begins
            beyond = np.clip(last - edge, 0.0, 1.0)
            rows.append(np.maximum(np.minimum(last, edge) - first, beyond))
        return rows

    def dark_from_edge(self, to_m: Metres) -> list[Metres]:
        """Of each part, what a shadow from the edge to this distance covers of its darkest row, 0 to 1."""
        return [np.clip((to_m - begin) * (1.0 / self.row_m), 0.0, 1.0) for begin, _ in self.ends_m]


# Columns of half cells from left to right: two at the left edge, one on each side of the middle, two at the right edge.
# Of which the mean counts beside a wall: of whole cells, of the halves of a lengthwise panel; and between two walls.
_NEXT_TO = {"left": (0, 1), "right": (5, 4)}
_IN_HALVES = {"left": (0, 3), "right": (5, 2)}
SLICE_DEG = 1.0
_DARKER_ENDS = ((0, 5), (0, 3), (2, 5), (2, 3))


@dataclass(frozen=True, slots=True)
class Places:
    """Where on a panel the sky is looked up past slab and walls.

    Attributes:
        down_m: how far down from the upper edge, (t,); the mean counts.
        in_m: how far in from the left and from the right edge, (p, 2).
        groups: numbers of those; of each group the mean counts, of all groups the least.
        corner_m: how far from the middle of the upper edge the outermost cells lie, which count under a slab where the
            panel is turned out of its facade.
        across_m: from side to side.
        ends_m: for each of ``down_m`` how far down the string's upper and its lower end lie, of which beside a wall the
            darker one counts, (t, 2).
        slice_deg: how wide the slices of azimuth are in which it is looked up, a whole part of 360.
        house_steepness: of the house behind (``sky.house``); None: it hides nothing.
    """

    down_m: tuple[float, ...]
    in_m: tuple[tuple[float, float], ...]
    groups: tuple[tuple[int, ...], ...]
    corner_m: float = 0.0
    across_m: float = 0.0
    ends_m: tuple[tuple[float, float], ...] = ((0.0, 0.0),)
    slice_deg: float = SLICE_DEG
    house_steepness: float | None = None

    def least(self, light: Metres) -> Metres:
        """(m,) of m planes by what they see in the mean of ``down_m`` from each place of ``in_m``, (m, p)."""
        means = [light[:, list(group)].mean(axis=1) if len(group) > 1 else light[:, group[0]] for group in self.groups]
        return reduce(np.minimum, means)


AT_THE_EDGE = Places((0.0,), ((0.0, 0.0),), ((0,),))


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A panel's parts down from its upper edge and in from a side edge: one kind is in series, the other parallel."""

    along: Parts
    across: Parts
    series_along: bool

    @property
    def ends_m(self) -> tuple[tuple[float, float], ...]:
        """How far down each string of cells begins and ends, where beside a wall it is darkest.

        A quarter of a whole cell inside, at the middle of a half cell: a shadow that ends slantwise covers hardly more
        of a cell than there, and whole cells in one string are no less dark than their halves.
        """
        parts = self.along
        inside = parts.row_m / (2.0 if len(parts.ends_m) == _HALVES else 4.0)
        return tuple((begin + inside, end - inside) for begin, end in parts.ends_m)


def layout_of(array: Array) -> Layout:
    """The layout of an array's panels. Whole cells where nobody tells: one string as long as the panel."""
    short, long = _size_m(array.panel)
    high, wide = cell_size_m(array.panel)
    sections = _parts(short, SECTIONS, wide)
    halves = _parts(long, _HALVES, high / 2.0) if array.panel.half_cells else _parts(long, 1, high)
    if array.orientation == "lengthwise":
        return Layout(along=sections, across=halves, series_along=True)
    return Layout(along=halves, across=sections, series_along=False)


def cell_size_m(panel: Panel) -> tuple[float, float]:
    """A whole cell's pitch along the panel's long side and along its short one, by size and number of cells."""
    short, long = _size_m(panel)
    wide = (short - 2.0 * MARGIN_M) / _COLUMNS
    high = (long - 2.0 * MARGIN_M) * _COLUMNS / panel.cells_in_series
    least, most = _CELL_BOUNDS_M
    if least <= wide <= most and wide / _MOST_OBLONG <= high <= wide * _MOST_OBLONG:
        return high, wide
    return CELL_M, CELL_M


def layout_key(array: Array) -> Hashable:
    """All that its layout hangs on."""
    panel = array.panel
    return array.orientation, panel.length_mm, panel.width_mm, panel.cells_in_series, panel.half_cells


def darkest_places(array: Array) -> Places:
    """Where the cells lie that see the least past slab and walls, and so tell what their strings get of the sky.

    A row of cells counts by the mean of its two halves' middles. Under a slab that is the upmost row; of two parallel
    halves the mean of the upmost half row of each. Beside a wall it is the column next to it. Between two walls the
    darker of both ends counts, of parallel halves the mean of the darker end of each; of whole cells in one string none
    of these may give more, or two walls could cost half cells more. So it does before a facade from which the panel may
    be turned, for then either end may be the darker one. How deep a wall's edge lies before a leaning panel is told by
    the ends of each string along.
    """
    layout, width = layout_of(array), across_m(array)
    down, near = _two_places(layout.along), _two_places(layout.across)
    ends = layout.ends_m
    if len(layout.along.ends_m) != _HALVES:
        lowest = layout.along.ends_m[-1][1] + MARGIN_M
        ends = tuple((metres, lowest - metres) for metres in down)
    sides = sorted({wall.side for wall in array.walls})
    if not sides:
        return Places(down, ((0.0, 0.0),), ((0,),), corner_m(array))
    if array.facade_azimuth_deg is not None:
        sides = sorted(_NEXT_TO)
    quarter = near[0] - MARGIN_M
    middle = width / 2.0 + quarter
    columns = [near[0], MARGIN_M + 3.0 * quarter, width - middle, middle]
    columns += [width - columns[1], width - columns[0]]
    groups = [_NEXT_TO[side] for side in sides]
    if layout.series_along:
        parted = [_IN_HALVES[side] for side in sides] if len(sides) == 1 else list(_DARKER_ENDS)
        groups = parted if array.panel.half_cells else groups + parted
    used = sorted({at for group in groups for at in group})
    return Places(
        down,
        tuple((columns[at], width - columns[at]) for at in used),
        tuple(tuple(used.index(at) for at in group) for group in groups),
        corner_m(array),
        width,
        ends,
    )


@dataclass(frozen=True, slots=True)
class Rows:
    """Two places in each row of cells down a panel, by which the darkest row of each string is found.

    Attributes:
        down_m: how far down from the upper edge, (d,), the two of a row next to each other.
        halves: the places fall in two halves, whose strings are parallel.
        cut: each half has its own string, of half rows.
    """

    down_m: tuple[float, ...]
    halves: bool
    cut: bool

    def by_section(self, seen: Metres) -> Metres:
        """(..., s) by the darkest row of each bypass section where they lie one above another, else (..., 1)."""
        if self.halves:
            return self.least(seen)[..., None]
        *planes, places = seen.shape
        rows = seen.reshape(*planes, SECTIONS, places // SECTIONS // 2, 2)
        return np.asarray(rows.mean(axis=-1).min(axis=-1))

    def least(self, seen: Metres) -> Metres:
        """(...,) what strings get of the sky by what is seen from each place, (..., d).

        Of halves the mean of each one's darkest half row; whole cells in their place are given no more than that.
        """
        *planes, places = seen.shape
        rows = seen.reshape(*planes, places // 2, 2).mean(axis=-1).min(axis=-1)
        if not self.halves:
            return np.asarray(rows)
        halves = seen.reshape(*planes, _HALVES, places // _HALVES).min(axis=-1).mean(axis=-1)
        return np.asarray(halves if self.cut else np.minimum(rows, halves))


def rows_of(array: Array) -> Rows:
    """All rows of a panel, evenly over each half or section; those next to an edge as wide as a row is."""
    layout = layout_of(array)
    if layout.series_along:
        row_m = layout.along.row_m
        firsts = [first for ends in layout.along.ends_m for first in _starts(ends, row_m)]
        return Rows(tuple(first + row_m * at for first in firsts for at in (0.25, 0.75)), halves=False, cut=False)
    parts = half_rows(array)
    upper, lower = ([first + parts.row_m / 2.0 for first in _starts(ends, parts.row_m)] for ends in parts.ends_m)
    if len(upper) > 1:
        upper[1], lower[-2] = upper[0] + parts.row_m, lower[-1] - parts.row_m
    return Rows((*upper, *lower), halves=True, cut=bool(array.panel.half_cells))


def _starts(ends_m: tuple[float, float], row_m: float) -> list[float]:
    begin, end = ends_m
    return [float(first) for first in np.linspace(begin, end - row_m, max(int((end - begin) / row_m + 1e-6), 1))]


def half_rows(array: Array) -> Parts:
    """The halves of an upright panel and their rows, were its cells cut."""
    high, _ = cell_size_m(array.panel)
    return _parts(slope_m(array), _HALVES, high / 2.0)


def corner_m(array: Array) -> float:
    """How far from the middle of the upper edge the outermost cells' middles lie, along it."""
    high, wide = cell_size_m(array.panel)
    return max(across_m(array) / 2.0 - MARGIN_M - (high if array.orientation == "lengthwise" else wide) / 2.0, 0.0)


def slope_m(array: Array) -> float:
    """How far it is from the panel's lower to its upper edge, along the panel."""
    return _sides_m(array)[0]


def across_m(array: Array) -> float:
    """How far it is from one side edge of the panel to the other."""
    return _sides_m(array)[1]


def _two_places(parts: Parts) -> tuple[float, float]:
    """From the edge, the middles of the next rows of two halves, or of both halves of the next row of whole cells."""
    first, last = parts.ends_m[0][0], parts.ends_m[-1][0]
    if len(parts.ends_m) == _HALVES:
        return first + parts.row_m / 2.0, last + parts.row_m / 2.0
    return first + parts.row_m / 4.0, first + parts.row_m * 0.75


def _sides_m(array: Array) -> tuple[float, float]:
    short, long = _size_m(array.panel)
    return (short, long) if array.orientation == "lengthwise" else (long, short)


def _size_m(panel: Panel) -> tuple[float, float]:
    """Its short and its long side."""
    return min(panel.length_mm, panel.width_mm) / 1000.0, max(panel.length_mm, panel.width_mm) / 1000.0


def _parts(side_m: float, count: int, row_m: float) -> Parts:
    edges = [float(edge) for edge in np.linspace(MARGIN_M, side_m - MARGIN_M, count + 1)]
    return Parts(tuple(pairwise(edges)), min(row_m, edges[1] - edges[0]))
