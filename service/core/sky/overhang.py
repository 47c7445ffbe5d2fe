"""Does a slab above or a wall beside the panel hide the sun, and which part of the sky is left?

Every obstacle is seen from the edge of the panel that its shadow reaches first: a slab from the upper edge, a wall
from the side edge next to it. A shadow on the outermost row of cells already holds back the string that the row
belongs to, so a panel gives little more than its darkest row lets through. Averaged over the panel's face the light
is more: 1.6 m under a slab that reaches 1 m out, an upright plane at 54 N loses 10 to 14 % of its year at the upper
edge and some 5 % over the face of a panel 1.7 m high. The account is on the cautious side by less than that gap.

A slab is level and long and ends in the facade behind the panel, so that nothing of the sky behind is seen either; a
side wall is upright, as high as the slab or higher, and likewise joins the facade. Both are taken as black: the light
that they throw back is not counted.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.model.place import Overhang, Plane, SideWall
from service.core.sky.incidence import direction

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


def profile_angle_deg(overhang: Overhang) -> float:
    """Height of the slab's front edge above the level, as seen from the panel's upper edge, straight outwards, deg.

    An upright plane under a long slab sees sin(profile angle) / 2 of an even sky, of 1/2 without the slab.

    >>> round(profile_angle_deg(Overhang(above_top_edge_m=1.0, reaches_out_m=3.0**0.5)), 6)
    30.0
    """
    if overhang.reaches_out_m == 0.0:
        return 90.0
    return float(np.degrees(np.arctan2(overhang.above_top_edge_m, overhang.reaches_out_m)))


def open_half_angle_deg(walls: Sequence[SideWall], side: str) -> float:
    """How far to this ``side`` ("left" or "right") one can look out past the nearest wall, from straight outwards, deg.

    180 where there is no wall on that side: nothing is cut, not even behind.

    >>> round(open_half_angle_deg([SideWall(side="left", distance_m=0.5, reaches_out_m=0.5)], "left"), 6)
    45.0
    """
    angles = [
        float(np.degrees(np.arctan2(wall.distance_m, wall.reaches_out_m))) if wall.reaches_out_m > 0.0 else 90.0
        for wall in walls
        if wall.side == side
    ]
    return min(angles, default=180.0)


def clear_of_slab(
    overhang: Overhang | None, plane: Plane, sun_zenith_deg: ArrayLike, sun_azimuth_deg: ArrayLike
) -> Bools:
    """Does the sun reach the panel's upper edge below the slab? Answers (n,) for angles (n,)."""
    return sun_clear(overhang, (), plane.azimuth_deg, direction(sun_zenith_deg, sun_azimuth_deg))


def clear_of_walls(
    walls: Sequence[SideWall], plane: Plane, sun_zenith_deg: ArrayLike, sun_azimuth_deg: ArrayLike
) -> Bools:
    """Does the sun reach the panel's side edges past the walls? Answers (n,) for angles (n,)."""
    return sun_clear(None, walls, plane.azimuth_deg, direction(sun_zenith_deg, sun_azimuth_deg))


def sun_clear(overhang: Overhang | None, walls: Sequence[SideWall], azimuth_deg: ArrayLike, sun: Floats) -> Bools:
    """Does the sun reach the panel past slab and walls?

    Args:
        overhang: the slab, or None.
        walls: the side walls.
        azimuth_deg: (m, 1) or a number, the way the facade looks; slab and walls lie square to it.
        sun: (3, n) unit vectors to the sun: east, north, up.

    Returns:
        (m, n) or (n,): True where it does, as far as these obstacles go.
    """
    azimuth = np.radians(azimuth_deg)
    east, north, up = sun
    out = east * np.sin(azimuth) + north * np.cos(azimuth)
    clear: Bools = np.ones(np.shape(out), dtype=np.bool_)
    if overhang is not None:
        # tan of the sun's profile angle is up / out: it must not exceed that of the slab's edge.
        clear &= (out > 0.0) & (up * overhang.reaches_out_m <= out * overhang.above_top_edge_m)
    if walls:
        right = east * np.cos(azimuth) - north * np.sin(azimuth)
        for wall in walls:
            aside = right if wall.side == "right" else -right
            clear &= (aside <= 0.0) | ((out > 0.0) & (aside * wall.reaches_out_m <= out * wall.distance_m))
    return clear
