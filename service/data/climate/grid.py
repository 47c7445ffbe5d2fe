"""Which cells of a regular grid surround a place, and how much does each count?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Cell = tuple[int, int]
Weights = list[tuple[Cell, float]]


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """A grid of cell centres ``step_deg`` apart, rows northwards, columns eastwards; ``valid`` (rows, columns).

    A grid that spans the globe closes at the date line.
    """

    south_deg: float
    west_deg: float
    step_deg: float
    valid: NDArray[np.bool_]

    def around(self, latitude_deg: float, longitude_deg: float) -> Weights:
        """Bilinear weights over the valid ones of the four centres around the place; they sum to 1. Empty: none."""
        y = (latitude_deg - self.south_deg) / self.step_deg
        x = (longitude_deg - self.west_deg) % 360.0 / self.step_deg
        row, column = int(np.floor(y)), int(np.floor(x))
        north, east = y - row, x - column
        found: Weights = []
        for down, weight_y in ((0, 1.0 - north), (1, north)):
            for right, weight_x in ((0, 1.0 - east), (1, east)):
                cell = self._cell(row + down, column + right)
                if cell is not None and weight_y * weight_x > 0.0:
                    found.append((cell, weight_y * weight_x))
        total = sum(weight for _, weight in found)
        return [(cell, weight / total) for cell, weight in found]

    def nearest(self, latitude_deg: float, longitude_deg: float, reach_deg: float) -> Cell | None:
        """The valid centre nearest on the globe within ``reach_deg`` of arc, or None."""
        cells = np.argwhere(self.valid)
        apart = arc_deg(latitude_deg, longitude_deg, *self.centres(cells))
        best = int(np.argmin(apart))
        return None if apart[best] > reach_deg else (int(cells[best, 0]), int(cells[best, 1]))

    def centres(self, cells: NDArray[np.intp]) -> tuple[Floats, Floats]:
        """Latitudes and longitudes (n,) of cells (n, 2)."""
        at = np.asarray([self.south_deg, self.west_deg]) + cells.astype(np.float64) * self.step_deg
        return at[:, 0], at[:, 1]

    def _cell(self, row: int, column: int) -> Cell | None:
        rows, columns = self.valid.shape
        if columns * self.step_deg >= 360.0:
            column %= columns
        inside = 0 <= row < rows and 0 <= column < columns
        return (row, column) if inside and self.valid[row, column] else None


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """Values of a grid's cells, (rows, columns, ...); nan where there is no cell."""

    grid: Grid
    values: Floats

    def mean(self, weights: Weights) -> Floats:
        """The weighted mean of some cells."""
        return np.asarray(sum(self.values[cell] * weight for cell, weight in weights), dtype=np.float64)

    def at(self, latitude_deg: float, longitude_deg: float) -> Floats:
        """Bilinear over the valid cells around, else the nearest cell's, however far."""
        weights = self.grid.around(latitude_deg, longitude_deg)
        if weights:
            return self.mean(weights)
        cell = self.grid.nearest(latitude_deg, longitude_deg, 180.0)
        return np.asarray(self.values[cell], dtype=np.float64)


@dataclass(frozen=True, slots=True, eq=False)
class Scattered:
    """A grid and where in it the listed cells lie."""

    grid: Grid
    rows: NDArray[np.intp]
    columns: NDArray[np.intp]

    def field(self, values: Floats) -> Field:
        """Listed values (n, ...) put into the grid (rows, columns, ...)."""
        full = np.full((*self.grid.valid.shape, *values.shape[1:]), np.nan)
        full[self.rows, self.columns] = values
        return Field(self.grid, full)


def scattered(latitude_deg: Floats, longitude_deg: Floats, step_deg: float) -> Scattered:
    """The smallest grid that holds the listed centres (n,); it closes at the date line where it spans the globe."""
    south, west = float(latitude_deg.min()), float(longitude_deg.min())
    rows = np.rint((latitude_deg - south) / step_deg).astype(np.intp)
    columns = np.rint((longitude_deg - west) / step_deg).astype(np.intp)
    valid = np.zeros((int(rows.max()) + 1, int(columns.max()) + 1), dtype=np.bool_)
    valid[rows, columns] = True
    return Scattered(Grid(south, west, step_deg, valid), rows, columns)


def arc_deg(latitude_deg: float, longitude_deg: float, latitudes_deg: Floats, longitudes_deg: Floats) -> Floats:
    """Angle at the earth's centre between one place and others, degrees (haversine)."""
    phi, others = np.deg2rad(latitude_deg), np.deg2rad(latitudes_deg)
    half_north = np.sin((others - phi) / 2.0) ** 2
    half_east = np.sin(np.deg2rad(longitudes_deg - longitude_deg) / 2.0) ** 2
    half = np.sqrt(half_north + np.cos(phi) * np.cos(others) * half_east)
    return np.asarray(np.rad2deg(2.0 * np.arcsin(half)), dtype=np.float64)
