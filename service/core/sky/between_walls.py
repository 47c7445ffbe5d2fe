"""Which part of each slice of the sky lies between side walls, seen from places on panels as they stand?"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.place import SideWall
from service.core.sky.cell_layout import Places
from service.core.sky.side_walls import Stands, open_half_angle_deg, stands

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BetweenWalls:
    """Side walls and m panels before a facade, and slices of azimuth.

    Attributes:
        walls: the walls.
        from_facade_deg: how far the slices' middles look out of the facade, (k,) or (m, k), -180 to 180.
        step_deg: how wide they are.
        panels: as they stand; one where all of them count alike.
        places: on each panel.
    """

    walls: Sequence[SideWall]
    from_facade_deg: Floats
    step_deg: float
    panels: Stands
    places: Places

    @property
    def alike(self) -> bool:
        """Is the same open from all along the panels?"""
        return not self.walls or self.panels.upright

    def open_parts(self, ends_m: Sequence[float] = (0.0,)) -> Floats:
        """What of each slice is open, 0 to 1, from each place across, so far down: (p, k) or (p, m, k).

        Of several ends of a string each side counts from where less is open.
        """
        if not self.walls:
            return np.ones((len(self.places.in_m), *self.from_facade_deg.shape[-1:]))
        in_m = np.array(self.places.in_m)[:, :, None, None]
        left, right = (
            open_half_angle_deg(self.walls, side, in_m[:, at], self.panels, ends_m)
            for at, side in enumerate(("left", "right"))
        )  # (p, m, 1)
        if left.shape[1] == 1 and self.from_facade_deg.ndim == 1:
            left, right = left[:, 0], right[:, 0]
        part: Floats = np.zeros(np.broadcast_shapes(left.shape, self.from_facade_deg.shape))
        one_side = len({wall.side for wall in self.walls}) == 1
        for around in (-360.0, 0.0, 360.0) if one_side else (0.0,):  # a slice straight behind may reach to either side
            begin = self.from_facade_deg + (around - self.step_deg / 2.0)
            part += np.maximum(np.minimum(begin + self.step_deg, right) - np.maximum(begin, -left), 0.0)
        return part / self.step_deg

    def may_be_open(self) -> NDArray[np.bool_]:
        """(k,) is any of a slice open, however a panel is turned? A wall hides all behind on its side."""
        sides, ahead = {wall.side for wall in self.walls}, 90.0 + self.step_deg / 2.0
        left = (self.from_facade_deg > -ahead) | ("left" not in sides)
        open_ = left & ((self.from_facade_deg < ahead) | ("right" not in sides))
        return np.asarray(open_ if open_.ndim == 1 else open_.any(axis=0))


def between_walls(
    walls: Sequence[SideWall],
    from_facade_deg: Floats,
    step_deg: float,
    places: Places,
    tilt_deg: Floats,
    turned_deg: Floats,
) -> BetweenWalls:
    """Panels of these tilts, (m,), turned out of their facade by so much, (m,) or (1,)."""
    if not turned_deg.any() and (tilt_deg >= 90.0).all():
        tilt_deg, turned_deg = np.full(1, 90.0), np.zeros(1)
    panels = stands(tilt_deg, np.broadcast_to(turned_deg, tilt_deg.shape), places.across_m)
    return BetweenWalls(walls=walls, from_facade_deg=from_facade_deg, step_deg=step_deg, panels=panels, places=places)
