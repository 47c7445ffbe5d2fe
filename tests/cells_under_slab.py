"""What light falls on each cell of a panel under a slab, beside walls, behind a row? Ray by ray from points on them.

Nothing is taken from the service: a ray from a point on the panel is hidden where it goes into the facade behind,
through the slab, through a wall or through the row in front.
"""

from dataclasses import dataclass

import numpy as np

MARGIN, CELL = 0.02, 0.17
ROWS_ALONG, COLUMNS = 9, 6  # of whole cells, on an upright panel
LONG_M, SHORT_M = ROWS_ALONG * CELL + 2 * MARGIN, COLUMNS * CELL + 2 * MARGIN
_POINTS = 6  # along and across each cell


@dataclass(frozen=True, kw_only=True)
class Stand:
    """A panel looking the way its facade does, or turned to the right of it about its upper edge's middle.

    Slab and walls in metres, (above, reaches) and (side, away, reaches).
    ``row``: of a row in front, (above the lower edge, away from it).
    """

    tilt_deg: float = 90.0
    orientation: str = "upright"
    half_cells: bool = False
    slab: tuple[float, float] | None = None
    walls: tuple[tuple[str, float, float], ...] = ()
    row: tuple[float, float] | None = None
    turned_deg: float = 0.0  # under a slab alone

    @property
    def halves(self):
        return 2 if self.half_cells else 1

    def cells_m(self):
        """How high and how wide a cell is, and how many there are down and across."""
        cut = self.halves
        if self.orientation == "upright":
            return CELL / cut, CELL, ROWS_ALONG * cut, COLUMNS
        return CELL, CELL / cut, COLUMNS, ROWS_ALONG * cut

    def points_m(self, points):
        """How far points on the cells are from the upper and the left edge; rows, columns, and points in a cell."""
        high, wide, rows, columns = self.cells_m()
        in_cell = (np.arange(points) + 0.5) / points
        down = MARGIN + high * (np.arange(rows)[:, None] + in_cell)
        inwards = MARGIN + wide * (np.arange(columns)[:, None] + in_cell)
        return down[:, None, :, None], inwards[None, :, None, :]

    def sees(self, down, inwards, out, right, up):
        """Does a ray out of the facade, to the right and up leave a point on the panel freely?"""
        tilt = np.radians(self.tilt_deg)
        width = LONG_M if self.orientation == "lengthwise" else SHORT_M
        behind = (self.slab is None and not self.walls) | (np.asarray(out) > 0.0)  # no facade behind a row
        free = np.broadcast_to(behind, np.broadcast_shapes(np.shape(out), np.shape(down), np.shape(inwards)))
        if self.slab is not None:
            above, reaches = self.slab
            length = (above + down * np.sin(tilt)) / np.maximum(up, 1e-9)  # of the ray, to the slab's underside
            turned = np.radians(self.turned_deg)
            comes_out = down * np.cos(tilt) * np.cos(turned) - (inwards - width / 2) * np.sin(turned)
            free = free & (out * length >= reaches - comes_out)
        for side, away, reaches in self.walls:
            aside, from_edge = (-right, inwards) if side == "left" else (right, width - inwards)
            length = (away + from_edge) / np.maximum(aside, 1e-9)  # of the ray, to the wall
            free = free & ((aside <= 0.0) | (out * length >= reaches))
        if self.row is not None:
            above, away = self.row
            up_slope = (SHORT_M if self.orientation == "lengthwise" else LONG_M) - down
            level_m = away + up_slope * np.cos(tilt)  # from the point to the row, which is so much higher:
            higher_m = above - up_slope * np.sin(tilt)
            free = free & ((out <= 0.0) | (up * level_m >= out * higher_m))
        return free

    def beam_share(self, out, right, up):
        """(rows, columns) of each cell the part of its face that the sun reaches."""
        down, inwards = self.points_m(_POINTS * 4)
        return self.sees(down, inwards, out, right, up).mean(axis=(2, 3))

    def sky_share(self):
        """(rows, columns) of each cell what it sees of an even sky's light, relative to a bare panel."""
        height, front = np.radians(np.arange(1.5, 90, 3.0)), np.radians(np.arange(-178.5, 180, 3.0))
        h, a = (grid.ravel() for grid in np.meshgrid(height, front))
        out, right, up = np.cos(h) * np.cos(a), np.cos(h) * np.sin(a), np.sin(h)
        tilt, turned = np.radians(self.tilt_deg), np.radians(self.turned_deg)
        squarely = out * np.cos(turned) + right * np.sin(turned)
        light = np.maximum(up * np.cos(tilt) + squarely * np.sin(tilt), 0.0) * np.cos(h)
        down, inwards = (points[..., None] for points in self.points_m(2))
        return (self.sees(down, inwards, out, right, up) * light).sum(axis=-1).mean(axis=(2, 3)) / light.sum()

    def light(self, sun_share, sun):
        """(rows, columns) light on each cell, 1 on a bare panel, of which so much comes from a sun given as a ray."""
        return sun_share * self.beam_share(*sun) + (1.0 - sun_share) * self.sky_share()
