"""How much of a panel is in the shadow of slab and walls that stand still, whichever plane the panel is turned to?"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.model.hours import Bools, Floats, Ints
from service.core.model.place import Plane
from service.core.sky.cell_layout import Layout, corner_m, layout_of, slope_m
from service.core.sky.edge_shadow import Shares, Ways, dark_columns, ways_past_bands
from service.core.sky.overhang import past_slabs_edge, turned_m

Singles = NDArray[np.float32]
_LEAST = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeforeFacade:
    """Slab and walls before a facade whose azimuth is known, in some hours of a place.

    Attributes:
        hidden: (n,) is the sun hidden from all of the panel, in any plane?
        partly: (n,) may one of their shadows end on the panel? Neither: the sun is free of them in every plane.
        layout, corner_m: of the panel.
        facade_azimuth_deg: the way slab and walls look out.
        sun: (2, n) to the sun, out of the facade and up.
        past: (n,) by how much the sun stands over the slab's edge; None: there is no slab.
        columns: what walls darken of the darkest column of each part across the panel, (n,) each.
    """

    hidden: Bools
    partly: Bools
    layout: Layout
    corner_m: float
    facade_azimuth_deg: float
    sun: Shares
    past: Shares | None
    columns: tuple[Shares, ...]

    def in_single(self, hours: Ints) -> "BeforeFacade":
        """In some of the hours, by their number among them, in single precision."""
        return BeforeFacade(
            hidden=self.hidden[hours],
            partly=self.partly[hours],
            layout=self.layout,
            corner_m=self.corner_m,
            facade_azimuth_deg=self.facade_azimuth_deg,
            sun=self.sun[:, hours].astype(np.float32),
            past=None if self.past is None else self.past[hours].astype(np.float32),
            columns=tuple(column[hours].astype(np.float32) for column in self.columns),
        )

    def down(self, planes: Sequence[Plane]) -> Singles:
        """``turned_m`` of these planes, (m, 3)."""
        turned = [plane.azimuth_deg - self.facade_azimuth_deg for plane in planes]
        ways = turned_m([plane.tilt_deg for plane in planes], turned, self.corner_m)
        return np.stack(ways, axis=1).astype(np.float32)

    def ways(self, down: Singles) -> Ways:
        """The ways to run the panel in planes by their ``down``, where the sun is not ``hidden``.

        Of (m, n), or of (1, n) where all are tilted and turned alike.
        """
        rows: list[Shares] = []
        if self.past is not None:
            if (down == down[0]).all():
                down = down[:1]
            past = self.past + down[:, 2:] * self.sun[1] if down[:, 2].any() else self.past
            rows = self.layout.along.dark_from_edge(past / np.maximum(down[:, :2] @ self.sun, _LEAST))
        if self.layout.series_along:
            return ways_past_bands(rows, self.columns, in_order=True)
        return ways_past_bands(self.columns, rows)


def before_facade(array: Array, facade_azimuth_deg: float, sun: Floats) -> BeforeFacade:
    """An array's slab and walls, all squarely before a facade, for suns (3, n)."""
    azimuth = np.radians(facade_azimuth_deg)
    out, up = sun[0] * np.sin(azimuth) + sun[1] * np.cos(azimuth), sun[2]
    hidden, partly, past = np.zeros(up.shape, np.bool_), np.zeros(up.shape, np.bool_), None
    layout, corner = layout_of(array), corner_m(array)
    if array.slab is not None:
        past = past_slabs_edge(array.slab, out, up)
        # On a metre down the panel the sun gains on the edge by this at most, in the plane that faces it.
        hidden |= (out <= 0.0) | (past >= slope_m(array) * np.hypot(out, up))
        partly |= past + up * corner > 0.0
    columns = [column[0] for column in dark_columns(array, layout.across, np.full((1, 1), facade_azimuth_deg), sun)]
    if columns:
        hidden |= np.min(columns, axis=0) >= 1.0
        partly |= np.max(columns, axis=0) > 0.0
    return BeforeFacade(
        hidden=hidden,
        partly=partly & ~hidden,
        layout=layout,
        corner_m=corner,
        facade_azimuth_deg=facade_azimuth_deg,
        sun=np.stack((out, up)),
        past=past,
        columns=tuple(columns),
    )
