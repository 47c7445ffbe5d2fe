"""What light falls on each cell of a panel under a slab, beside walls, behind a row or a rail? Ray by ray from points.

Nothing is taken from the service: a ray from a point on the panel is hidden where it goes into the facade behind,
through the slab, through a wall, through the row in front or through the rail.
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

    Slab and walls in metres, (above, reaches) and (side, away, reaches): both reach out from the middle of the upper
    edge, and a wall is so far away from the side edge of the panel unturned.
    ``row``: of a row in front, (above the lower edge, away from it); ``rail``: (above the upper edge, away, thick).
    """

    tilt_deg: float = 90.0
    orientation: str = "upright"
    half_cells: bool = False
    slab: tuple[float, float] | None = None
    walls: tuple[tuple[str, float, float], ...] = ()
    row: tuple[float, float] | None = None
    rail: tuple[float, float, float] | None = None
    turned_deg: float = 0.0  # under a slab and beside walls alone

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
        behind = (self.slab is None) | (np.asarray(out) > 0.0)  # a slab's facade; a wall's is on its side
        free = np.broadcast_to(behind, np.broadcast_shapes(np.shape(out), np.shape(down), np.shape(inwards)))
        turned = np.radians(self.turned_deg)
        comes_out = down * np.cos(tilt) * np.cos(turned) - (inwards - width / 2) * np.sin(turned)
        goes_right = down * np.cos(tilt) * np.sin(turned) + (inwards - width / 2) * np.cos(turned)
        if self.slab is not None:
            above, reaches = self.slab
            length = (above + down * np.sin(tilt)) / np.maximum(up, 1e-9)  # of the ray, to the slab's underside
            free = free & (out * length >= reaches - comes_out)
        for side, away, reaches in self.walls:
            aside, goes = (-right, -goes_right) if side == "left" else (right, goes_right)
            length = (width / 2 + away - goes) / np.maximum(aside, 1e-9)  # of the ray, to the wall
            free = free & ((aside <= 0.0) | ((out > 0.0) & (out * length >= reaches - comes_out)))
        if self.rail is not None:
            above, away, thick = self.rail
            to_rail = away - down * np.cos(tilt)  # the panel looks straight at it, or leans out past it
            length = to_rail / np.where(np.abs(out) > 1e-9, out, 1e-9)
            height = length * up - down * np.sin(tilt)
            free = free & ((length <= 0.0) | (height < above) | (height > above + thick))
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
