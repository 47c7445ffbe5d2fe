"""In which cells of the world does one time zone hold throughout?

A table of runs of cells in rows from the north pole, columns from 180 W, made of the boundaries of the package tzfpy
by ``python -m service.data.builders.time_zones``. Cells that a boundary crosses, and those that two zones claim, are
left open: there the boundaries are asked, which takes them 80 ms and 33 MB to unpack when first used.
"""

from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

TABLE = "zone_cells.npz"
CELLS_A_DEGREE = 10
ROWS, COLUMNS = 180 * CELLS_A_DEGREE, 360 * CELLS_A_DEGREE


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ZoneCells:
    """Runs of cells: those of row r stand from ``row_starts[r]``; ``zones`` counts in ``names``, 0 is open."""

    names: tuple[str, ...]
    row_starts: NDArray[np.int32]
    first_columns: NDArray[np.uint16]
    zones: NDArray[np.uint16]

    def zone_at(self, latitude_deg: float, longitude_deg: float) -> str | None:
        """The zone of the whole cell around a place; None where that is open."""
        row, column = int((90.0 - latitude_deg) * CELLS_A_DEGREE), int((longitude_deg + 180.0) * CELLS_A_DEGREE)
        if not (0 <= row < ROWS and 0 <= column < COLUMNS):
            return None
        first, end = self.row_starts[row : row + 2]
        run = first + np.searchsorted(self.first_columns[first:end], column, side="right") - 1
        return self.names[self.zones[run]] or None


@cache
def zone_cells() -> ZoneCells:
    """The packaged table."""
    with files(__package__).joinpath(TABLE).open("rb") as file, np.load(file, allow_pickle=False) as table:
        return ZoneCells(
            names=("", *table["names"].tobytes().decode("ascii").split()),
            row_starts=table["row_starts"],
            first_columns=table["first_columns"],
            zones=table["zones"],
        )
