"""How much of a panel is in the shadow of slab and walls that stand still, whichever plane the panel is turned to?"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.model.hours import Bools, Floats, Ints
from service.core.model.place import Plane, SideWall
from service.core.sky.cell_layout import Layout, across_m, corner_m, layout_of, slope_m
from service.core.sky.edge_shadow import Columns, Shares, Ways, crossed, dark_columns, ways_past_bands
from service.core.sky.overhang import past_slabs_edge, turned_m
from service.core.sky.side_walls import Stands, may_reach, stands

Singles = NDArray[np.float32]
_LEAST = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeforeFacade:
    """Slab and walls before a facade whose azimuth is known, in some hours of a place.

    Attributes:
        hidden: (n,) is the sun hidden from all of the panel, in any plane?
        partly: (n,) may one of their shadows end on the panel? Neither: the sun is free of them in every plane.
        layout, corner_m, across_m: of the panel.
        facade_azimuth_deg: the way slab and walls look out.
        walls: side walls.
        sun: (2, n) to the sun, out of the facade and up.
        right: (n,) likewise to the right as one looks out.
        past: (n,) by how much the sun stands over the slab's edge; None: there is no slab.
    """

    hidden: Bools
    partly: Bools
    layout: Layout
    corner_m: float
    across_m: float
    facade_azimuth_deg: float
    walls: tuple[SideWall, ...]
    sun: Shares
    right: Shares
    past: Shares | None

    def in_single(self, hours: Ints) -> "BeforeFacade":
        """In some of the hours, by their number among them, in single precision."""
        return replace(
            self,
            hidden=self.hidden[hours],
            partly=self.partly[hours],
            sun=self.sun[:, hours].astype(np.float32),
            right=self.right[hours].astype(np.float32),
            past=None if self.past is None else self.past[hours].astype(np.float32),
        )

    def down(self, planes: Sequence[Plane]) -> Singles:
        """``turned_m`` of these planes, (m, 3), and how they stand beside walls, (m, 6)."""
        tilts = [plane.tilt_deg for plane in planes]
        turned = [plane.azimuth_deg - self.facade_azimuth_deg for plane in planes]
        ways: list[Shares] = [*turned_m(tilts, turned, self.corner_m)]
        if self.walls:
            beside = stands(tilts, turned, self.across_m)
            ways += [beside.ahead[:, 0], beside.aside[:, 0], beside.level[:, 0]]
        return np.stack(ways, axis=1).astype(np.float32)

    def ways(self, down: Singles) -> Ways:
        """The ways to run the panel in planes by their ``down``, where the sun is not ``hidden``.

        Of (m, n), or of (1, n) where all are tilted and turned alike; for light on the front.
        """
        rows: list[Shares] = []
        if (down == down[0]).all():
            down = down[:1]
        columns = self._columns(down)
        if self.past is not None:
            past = self.past + down[:, 2:3] * self.sun[1] if down[:, 2].any() else self.past
            rows = self.layout.along.dark_from_edge(past / np.maximum(down[:, :2] @ self.sun, _LEAST))
        in_series, parallel = crossed(self.layout, rows, columns)
        return ways_past_bands(in_series, parallel, in_order=self.layout.series_along and len(columns) <= 1)

    def _columns(self, down: Singles) -> Columns:
        """``dark_columns``, (m, n), or (1, n) of planes that stand upright and are not turned."""
        if not self.walls:
            return []
        ahead, aside, level = (down[:, at : at + 1] for at in (3, 4, 5))
        panels = Stands(half_m=self.across_m / 2.0, ahead=ahead, aside=aside, level=level)
        if panels.darkest_above:
            panels = replace(panels, ahead=ahead[:1], aside=aside[:1], level=level[:1] if panels.upright else level)
        return dark_columns(self.walls, self.layout, panels, self.sun[0], self.right, rear=False)


def before_facade(array: Array, facade_azimuth_deg: float, sun: Floats) -> BeforeFacade:
    """An array's slab and walls, all squarely before a facade, for suns (3, n)."""
    azimuth = np.radians(facade_azimuth_deg)
    out, up = sun[0] * np.sin(azimuth) + sun[1] * np.cos(azimuth), sun[2]
    right = sun[0] * np.cos(azimuth) - sun[1] * np.sin(azimuth)
    hidden, partly, past = np.zeros(up.shape, np.bool_), np.zeros(up.shape, np.bool_), None
    layout, corner = layout_of(array), corner_m(array)
    if array.slab is not None:
        past = past_slabs_edge(array.slab, out, up)
        # On a metre down the panel the sun gains on the edge by this at most, in the plane that faces it.
        hidden |= (out <= 0.0) | (past >= slope_m(array) * np.hypot(out, up))
        partly |= past + up * corner > 0.0
    if array.walls:
        every, any_ = may_reach(array.walls, across_m(array), slope_m(array), out, right)
        hidden |= every
        partly |= any_
    return BeforeFacade(
        hidden=hidden,
        partly=partly & ~hidden,
        layout=layout,
        corner_m=corner,
        across_m=across_m(array),
        facade_azimuth_deg=facade_azimuth_deg,
        walls=array.walls,
        sun=np.stack((out, up)),
        right=right,
        past=past,
    )
