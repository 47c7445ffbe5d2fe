"""What of an even sky do a hand rail and the row in front hide from each row of a panel's cells?

Both are as long as the railing or the row, level, and turn with the panel, so that straight ahead only the profile
angles of their edges matter: at the tilt t the sky between the angles p and q over the level is (cos(t + p) -
cos(t + q)) / 2 of that on level ground. A string of cells gets what its darkest row sees; a row counts by the middles
of its two halves (``cell_layout.Rows``). What a rail and the row before it both hide counts once.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.model.place import HandRail, RowInFront
from service.core.sky.cell_layout import Rows, rows_of, slope_m

Floats = NDArray[np.float64]

_LEAST = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class InFront:
    """What stands in front of a panel and turns with it; the panel's rows, and how long it is along its slope."""

    rail: HandRail | None
    row: RowInFront | None
    rows: Rows
    slope_m: float

    def row_edge(self, tilt_deg: Floats) -> Floats:
        """Tangent of the row's height straight ahead, from each row of cells of planes, (m, d); 0: there is none."""
        tilt = np.radians(tilt_deg)[:, None]
        if self.row is None:
            return np.zeros((tilt.size, len(self.rows.down_m)))
        up_m = self.slope_m - np.array(self.rows.down_m)
        over = np.maximum(self.row.above_bottom_edge_m - up_m * np.sin(tilt), 0.0)
        return np.asarray(over / np.maximum(self.row.distance_m + up_m * np.cos(tilt), _LEAST))

    def rail_edges(self, tilt_deg: Floats) -> tuple[Floats, Floats, Floats]:
        """How far the rail's lower and upper edge are over each row of cells and how far ahead it is, m; (m, d) each.

        Not above 0 where the panel leans out past it.
        """
        rail, tilt, down_m = self.rail, np.radians(tilt_deg)[:, None], np.array(self.rows.down_m)
        if rail is None:
            nought = np.zeros((tilt.size, down_m.size))
            return nought, nought, nought + 1.0
        lower = rail.above_top_edge_m + down_m * np.sin(tilt)
        ahead = rail.distance_m - down_m * np.cos(tilt)
        return lower, lower + rail.thickness_m, np.where(np.abs(ahead) < _LEAST, _LEAST, ahead)

    def hidden_share(self, tilt_deg: Floats) -> Floats:
        """Of an even sky's light on level ground what planes of these tilts, (m,), lose, (m, s).

        By the darkest row of each bypass section that has one of its own (``Rows.by_section``).
        """
        tilt = np.radians(tilt_deg)[:, None]
        over_row = np.arctan(self.row_edge(tilt_deg))
        hidden = np.cos(tilt) - np.cos(tilt + over_row)
        if self.rail is not None:
            lower, upper, ahead = self.rail_edges(tilt_deg)
            ends = np.arctan2(lower, ahead), np.arctan2(upper, ahead)
            most = np.maximum(np.pi - tilt, over_row)
            low, high = (np.clip(pick(*ends), over_row, most) for pick in (np.minimum, np.maximum))
            hidden = hidden + (np.cos(tilt + low) - np.cos(tilt + high))
        return np.asarray(-self.rows.by_section(-hidden / 2.0), np.float64)


def in_front_of(array: Array) -> InFront | None:
    """Rail and row in front of an array's panels; None: there is neither."""
    if array.hand_rail is None and array.row_in_front is None:
        return None
    return InFront(rail=array.hand_rail, row=array.row_in_front, rows=rows_of(array), slope_m=slope_m(array))
