"""How high is the ground here, and how hazy is its air? From the two world tables that pvlib ships."""

from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

import h5py
import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

STEPS_A_DEGREE = 12  # both tables have cells of 5 arc minutes, rows from the north pole, columns from 180 W
ROWS, COLUMNS = 180 * STEPS_A_DEGREE, 360 * STEPS_A_DEGREE
_CHUNKS_KEPT_BYTES = 512 * 1024  # the six chunks of a place's turbidity; more only costs memory
_NO_DATA = 255  # in the table of heights: the sea (and a few summits above 6500 m, which nobody asks about)


@dataclass(frozen=True, slots=True, eq=False)
class Terrain:
    """The two tables, held open; a look-up reads one chunk of each month (1.4 ms, 0.05 ms near the last one)."""

    heights: h5py.Dataset
    turbidities: h5py.Dataset

    def height_m(self, latitude_deg: float, longitude_deg: float) -> float:
        """Height of the ground above the sea, m, to about 100 m; the sea counts as 0."""
        return float(heights_m(np.asarray(self.heights[cell_of(latitude_deg, longitude_deg)])))

    def turbidity(self, latitude_deg: float, longitude_deg: float) -> Floats:
        """Linke turbidity of air mass 2 by month, (12,)."""
        return np.asarray(self.turbidities[cell_of(latitude_deg, longitude_deg)], dtype=np.float64) / 20.0


def heights_m(coded: NDArray[np.uint8]) -> Floats:
    """The table's bytes as metres: 28 m a step from -450 m, the sea as 0."""
    return np.where(coded == _NO_DATA, 0.0, coded.astype(np.float64) * 28.0 - 450.0)


def cell_of(latitude_deg: float, longitude_deg: float) -> tuple[int, int]:
    """Row and column of the 5' cell that holds the place."""
    row = int((90.0 - latitude_deg) * STEPS_A_DEGREE)
    column = int((longitude_deg + 180.0) % 360.0 * STEPS_A_DEGREE)
    return min(row, ROWS - 1), min(column, COLUMNS - 1)


def terrain() -> Terrain:
    """Open the tables of the installed pvlib without importing it, which would cost a second at start.

    Raises:
        FileNotFoundError: pvlib is not installed, or its tables are missing.
    """
    found = find_spec("pvlib")
    if found is None or not found.submodule_search_locations:
        raise FileNotFoundError("pvlib")
    folder = Path(found.submodule_search_locations[0]) / "data"
    return Terrain(
        heights=_opened(folder / "Altitude.h5")["Altitude"],
        turbidities=_opened(folder / "LinkeTurbidities.h5")["LinkeTurbidity"],
    )


def _opened(path: Path) -> h5py.File:
    return h5py.File(path, "r", rdcc_nbytes=_CHUNKS_KEPT_BYTES)
