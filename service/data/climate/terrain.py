"""How high is the ground here, how hazy is its air, and is it land? From the two world tables that pvlib ships."""

from collections.abc import Mapping
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

import h5py
import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

STEPS_A_DEGREE = 12  # both tables have cells of 5 arc minutes, rows from the north pole, columns from 180 W
ROWS, COLUMNS = 180 * STEPS_A_DEGREE, 360 * STEPS_A_DEGREE
_NO_DATA = 255  # in the table of heights: the sea (and a few summits above 6500 m, which nobody asks about)


@dataclass(frozen=True, slots=True)
class Terrain:
    """The folder of the two tables; each look-up reads one chunk of them (some 1 to 3 ms, then the system's cache).

    The tables are read without importing pvlib itself, which would cost a second at start.
    """

    folder: Path

    def height_m(self, latitude_deg: float, longitude_deg: float) -> float:
        """Height of the ground above the sea, m, to about 100 m; the sea counts as 0."""
        row, column = cell_of(latitude_deg, longitude_deg)
        return float(heights_m(self._read("Altitude", row, column)))

    def turbidity(self, latitude_deg: float, longitude_deg: float) -> Floats:
        """Linke turbidity of air mass 2 by month, (12,)."""
        row, column = cell_of(latitude_deg, longitude_deg)
        return np.asarray(self._read("LinkeTurbidity", row, column), dtype=np.float64) / 20.0

    def land_within(self, latitude_deg: float, longitude_deg: float, reach_deg: float) -> bool:
        """Is there land within ``reach_deg`` of latitude and as far east and west?"""
        row, column = cell_of(latitude_deg, longitude_deg)
        down = round(reach_deg * STEPS_A_DEGREE)
        along = min(round(down / max(np.cos(np.deg2rad(latitude_deg)), 0.1)), COLUMNS // 2)
        rows = slice(max(row - down, 0), min(row + down + 1, ROWS))
        first, last = column - along, column + along + 1
        pieces = [slice(max(first, 0), min(last, COLUMNS))]
        if first < 0:
            pieces.append(slice(first + COLUMNS, COLUMNS))
        if last > COLUMNS:
            pieces.append(slice(0, last - COLUMNS))
        return any(bool((self._read("Altitude", rows, piece) != _NO_DATA).any()) for piece in pieces)

    def whole(self) -> Mapping[str, NDArray[np.uint8]]:
        """Both tables as they are, for the builders: "Altitude" (2160, 4320), "LinkeTurbidity" (2160, 4320, 12)."""
        return {name: self._read(name, slice(None), slice(None)) for name in _FILES}

    def _read(self, name: str, rows: int | slice, columns: int | slice) -> NDArray[np.uint8]:
        with h5py.File(self.folder / _FILES[name], "r") as file:
            return np.asarray(file[name][rows, columns])


_FILES: Mapping[str, str] = {"Altitude": "Altitude.h5", "LinkeTurbidity": "LinkeTurbidities.h5"}


def heights_m(coded: NDArray[np.uint8]) -> Floats:
    """The table's bytes as metres: 28 m a step from -450 m, the sea as 0."""
    return np.where(coded == _NO_DATA, 0.0, coded.astype(np.float64) * 28.0 - 450.0)


def cell_of(latitude_deg: float, longitude_deg: float) -> tuple[int, int]:
    """Row and column of the 5' cell that holds the place."""
    row = int((90.0 - latitude_deg) * STEPS_A_DEGREE)
    column = int((longitude_deg + 180.0) % 360.0 * STEPS_A_DEGREE)
    return min(row, ROWS - 1), min(column, COLUMNS - 1)


def terrain() -> Terrain:
    """The tables of the installed pvlib.

    Raises:
        FileNotFoundError: pvlib is not installed, or its tables are missing.
    """
    found = find_spec("pvlib")
    if found is None or not found.submodule_search_locations:
        raise FileNotFoundError("pvlib")
    return Terrain(Path(found.submodule_search_locations[0]) / "data")
