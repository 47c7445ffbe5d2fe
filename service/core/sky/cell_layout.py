"""How do the cells of a panel lie as it stands, and which of them share a current?

A panel has three bypass sections in series, each a third of its width and as long as it. Half cells lie in two halves,
one after the other along the panel, and in each section the halves are parallel; a row of them is half as high.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.sky.shade import SECTIONS

Metres = NDArray[np.floating[Any]]

# The frame and the margin around the cells; a whole cell is 156 to 182 mm wide (trade figures, from memory).
MARGIN_M, CELL_M = 0.02, 0.17


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

        >>> [float(rows) for rows in Parts(((0.0, 0.2), (0.2, 0.4)), 0.1).covered(0.05, np.array(0.25))]
        [1.5, 0.5]
        """
        return [
            np.maximum(np.minimum(to_m, end) - np.maximum(from_m, begin), 0.0) * (1.0 / self.row_m)
            for begin, end in self.ends_m
        ]

    def dark_from_edge(self, to_m: Metres) -> list[Metres]:
        """Of each part, what a shadow from the edge to this distance covers of its darkest row, 0 to 1."""
        return [np.clip((to_m - begin) * (1.0 / self.row_m), 0.0, 1.0) for begin, _ in self.ends_m]

    def darkest_cells_m(self) -> tuple[float, float]:
        """How far from the edge the cells are that see the least past what stands over it, in two places of one weight.

        Of two halves, which are parallel, the row next to the edge in each; else both halves of the row next to it.
        """
        begins = [begin for begin, _ in self.ends_m]
        if len(begins) == 2:
            return begins[0] + self.row_m / 2.0, begins[1] + self.row_m / 2.0
        return begins[0] + self.row_m / 4.0, begins[0] + self.row_m * 0.75


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A panel's parts down from its upper edge and in from a side edge: one kind is in series, the other parallel."""

    along: Parts
    across: Parts
    series_along: bool


def layout_of(array: Array) -> Layout:
    """The layout of an array's panels. Whole cells where nobody tells: one string as long as the panel."""
    short, long = sorted((array.panel.length_mm / 1000.0, array.panel.width_mm / 1000.0))
    sections = _parts(short, SECTIONS, CELL_M)
    halves = _parts(long, 2, CELL_M / 2.0) if array.panel.half_cells else _parts(long, 1, CELL_M)
    if array.orientation == "lengthwise":
        return Layout(along=sections, across=halves, series_along=True)
    return Layout(along=halves, across=sections, series_along=False)


def darkest_cells_m(array: Array) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the cells lie that see the least past slab and walls: down from the upper edge, in from a side edge."""
    layout = layout_of(array)
    return layout.along.darkest_cells_m(), layout.across.darkest_cells_m()


def slope_m(array: Array) -> float:
    """How far it is from the panel's lower to its upper edge, along the panel."""
    return _sides_m(array)[0]


def across_m(array: Array) -> float:
    """How far it is from one side edge of the panel to the other."""
    return _sides_m(array)[1]


def _sides_m(array: Array) -> tuple[float, float]:
    short, long = sorted((array.panel.length_mm / 1000.0, array.panel.width_mm / 1000.0))
    return (short, long) if array.orientation == "lengthwise" else (long, short)


def _parts(side_m: float, count: int, row_m: float) -> Parts:
    edges = [float(edge) for edge in np.linspace(MARGIN_M, side_m - MARGIN_M, count + 1)]
    return Parts(tuple(pairwise(edges)), min(row_m, edges[1] - edges[0]))
