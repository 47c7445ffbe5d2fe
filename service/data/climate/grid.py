"""Which cells of a regular grid surround a place, and how much does each count?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

KM_A_DEGREE = 111.195  # of a great circle

Floats = NDArray[np.float64]
Weights = list[tuple[int, float]]

_NO_CELL = -1


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """Listed cells on a regular grid: their centres (n,), and for each node of the grid the cell that lies there.

    ``cell_at`` (rows northwards, columns eastwards) holds a number into the list, or -1. A grid that spans the globe
    closes at the date line.
    """

    latitude_deg: Floats
    longitude_deg: Floats
    step_deg: float
    south_deg: float
    west_deg: float
    cell_at: NDArray[np.int32]

    def around(self, latitude_deg: float, longitude_deg: float) -> Weights:
        """Bilinear weights over those of the four centres around the place that have a cell; empty where none has."""
        y = (latitude_deg - self.south_deg) / self.step_deg
        x = (longitude_deg - self.west_deg) % 360.0 / self.step_deg
        row, column = int(np.floor(y)), int(np.floor(x))
        north, east = y - row, x - column
        found: Weights = []
        for down, weight_y in ((0, 1.0 - north), (1, north)):
            for right, weight_x in ((0, 1.0 - east), (1, east)):
                cell = self._cell(row + down, column + right)
                if cell != _NO_CELL and weight_y * weight_x > 0.0:
                    found.append((cell, weight_y * weight_x))
        total = sum(weight for _, weight in found)
        return [(cell, weight / total) for cell, weight in found]

    def nearest(self, latitude_deg: float, longitude_deg: float) -> tuple[int, float]:
        """The cell nearest on the globe, and the arc to its centre in degrees."""
        apart = arc_deg(latitude_deg, longitude_deg, self.latitude_deg, self.longitude_deg)
        cell = int(np.argmin(apart))
        return cell, float(apart[cell])

    def _cell(self, row: int, column: int) -> int:
        rows, columns = self.cell_at.shape
        if columns * self.step_deg >= 360.0:
            column %= columns
        inside = 0 <= row < rows and 0 <= column < columns
        return int(self.cell_at[row, column]) if inside else _NO_CELL


def grid_of(latitude_deg: Floats, longitude_deg: Floats, step_deg: float) -> Grid:
    """The smallest grid that holds the listed centres (n,), which lie whole steps apart."""
    south, west = float(latitude_deg.min()), float(longitude_deg.min())
    rows = np.rint((latitude_deg - south) / step_deg).astype(np.intp)
    columns = np.rint((longitude_deg - west) / step_deg).astype(np.intp)
    cell_at = np.full((int(rows.max()) + 1, int(columns.max()) + 1), _NO_CELL, dtype=np.int32)
    cell_at[rows, columns] = np.arange(rows.size)
    return Grid(
        latitude_deg=np.asarray(latitude_deg, dtype=np.float64),
        longitude_deg=np.asarray(longitude_deg, dtype=np.float64),
        step_deg=step_deg,
        south_deg=south,
        west_deg=west,
        cell_at=cell_at,
    )


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """Values of a grid's cells, (n, ...) in the order of its list."""

    grid: Grid
    values: Floats

    def mean(self, weights: Weights) -> Floats:
        """The weighted mean of some cells."""
        return np.asarray(sum(self.values[cell] * weight for cell, weight in weights), dtype=np.float64)

    def at(self, latitude_deg: float, longitude_deg: float) -> Floats:
        """Bilinear over the cells around, else the nearest cell's, however far."""
        weights = self.grid.around(latitude_deg, longitude_deg)
        return self.mean(weights or [(self.grid.nearest(latitude_deg, longitude_deg)[0], 1.0)])


def arc_deg(latitude_deg: float, longitude_deg: float, latitudes_deg: Floats, longitudes_deg: Floats) -> Floats:
    """Angle at the earth's centre between one place and others, degrees (haversine)."""
    phi, others = np.deg2rad(latitude_deg), np.deg2rad(latitudes_deg)
    half_north = np.sin((others - phi) / 2.0) ** 2
    half_east = np.sin(np.deg2rad(longitudes_deg - longitude_deg) / 2.0) ** 2
    half = np.sqrt(half_north + np.cos(phi) * np.cos(others) * half_east)
    return np.asarray(np.rad2deg(2.0 * np.arcsin(half)), dtype=np.float64)
