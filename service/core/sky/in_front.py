"""What do a hand rail and the row in front hide of an even sky, and the row of the ground, from each row of cells?

Both are as long as the railing or the row, level, and turn with the panel, so that straight ahead only the profile
angles of their edges matter: at the tilt t the sky between the angles p and q over the level is (cos(t + p) -
cos(t + q)) / 2 of that on level ground. A string of cells gets what its darkest row sees; a row counts by the middles
of its two halves (``cell_layout.Rows``). What a rail and the row before it both hide counts once.

Below the level a row of cells sees the ground beyond over the row's upper edge, and down to the trench between panel
and row. The row itself is dark, and closed down to the height of the panel's lower edge, where the trench has its
floor. Of the light that this floor would get it keeps, of sun and sky alike, what is left of an even sky between the
row and the panel itself, which is the trench's other side: by crossed strings from the floor's ends to both upper
edges (Hottel in McAdams, Heat Transmission, 3rd ed. 1954). A rail hides no ground.
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

    def ground_left_share(self, tilt_deg: Floats) -> Floats:
        """What the row leaves planes of these tilts, (m,), of an even ground's light, (m, s) by bypass sections."""
        tilt = np.radians(tilt_deg)[:, None]
        up_m = self.slope_m - np.array(self.rows.down_m)
        if self.row is None:
            return np.asarray(self.rows.by_section(np.ones((tilt.size, up_m.size))))
        ahead = np.maximum(self.row.distance_m + up_m * np.cos(tilt), _LEAST)
        over_row = np.arctan(np.maximum(up_m * np.sin(tilt) - self.row.above_bottom_edge_m, 0.0) / ahead)
        to_floor = np.arctan(up_m * np.sin(tilt) / ahead)
        beyond, floor = _down_to(tilt, over_row), 1.0 - _down_to(tilt, to_floor)
        left = beyond + floor * self._open_over_trench(self.row, tilt)
        return np.asarray(self.rows.by_section(np.clip(left, 0.0, 1.0)))

    def _open_over_trench(self, row: RowInFront, tilt: Floats) -> Floats:
        """What the floor between the row and panels at these tilts, rad, keeps of an even sky."""
        wide, high, slope = max(row.distance_m, _LEAST), row.above_bottom_edge_m, self.slope_m
        past_row = wide / (np.hypot(wide, high) + high)
        past_panel = (wide + 2.0 * slope * np.cos(tilt)) / (
            np.sqrt(wide * wide + slope * slope + 2.0 * wide * slope * np.cos(tilt)) + slope
        )
        return np.asarray((past_row + past_panel) / 2.0)

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


def _down_to(tilt: Floats, below: Floats) -> Floats:
    """Part of what planes see of an even ground that lies between the level and these angles below it, rad; (m, d)."""
    whole = 1.0 - np.cos(tilt)
    part = np.cos(tilt - np.minimum(below, tilt)) - np.cos(tilt)
    return np.where(whole > _LEAST, part / np.maximum(whole, _LEAST), 1.0)


def in_front_of(array: Array) -> InFront | None:
    """Rail and row in front of an array's panels; None: there is neither, or none of a height that hides anything."""
    rail, row = array.hand_rail, array.row_in_front
    rail = None if rail is None or rail.thickness_m <= 0.0 else rail
    row = None if row is None or row.above_bottom_edge_m <= 0.0 else row
    if rail is None and row is None:
        return None
    return InFront(rail=rail, row=row, rows=rows_of(array), slope_m=slope_m(array))


def ground_past_row_share(array: Array) -> float:
    """What the row in front leaves an array's panels of an even ground's light; 1: all, or there is no row."""
    if array.row_in_front is None:
        return 1.0
    in_front = InFront(rail=None, row=array.row_in_front, rows=rows_of(array), slope_m=slope_m(array))
    return float(in_front.ground_left_share(np.array([array.plane.tilt_deg])).max())
