"""How far over a panel's face does a side wall's shadow reach, and how far past the wall does one look?

A wall is upright, as high as the slab or higher, and stands still: its front edge lies ``reaches_out_m`` out of the
facade, from the middle of the panel's upper edge, and ``distance_m`` aside from where the panel's side edge is while it
looks as the facade does. A panel that is turned swings about that middle, its lower end towards the wall or away. From
a point on it, as far down and aside as it lies, the edge is so much further or less far out and aside (``Stands``), and
the sun is hidden where it stands further aside than the edge: a line on the panel's face, straight, and parallel to its
sides where the panel is upright. Where it leans, its lower end comes out past the edge, and the line is slanted. One
dark cell is enough for a string, so that each string of cells counts by its end that is darker, upper or lower
(``ends_m``). What would go through the wall counts as lying on it.

A wall joins the facade and goes on behind it: from there no light comes on its side. Walls are taken as black. Of
several panels in a row each counts as the one next to the wall.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.model.place import SideWall

Metres = NDArray[np.floating[Any]]

_LEAST = 1e-9
_AHEAD_DEG, _AROUND_DEG = 90.0, 180.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stands:
    """How m panels stand before a facade, as far as its walls are concerned.

    Attributes:
        half_m: from the middle of the upper edge to either side edge.
        ahead, aside: the way that each panel looks, out of the facade and to the right of that, of length one; (m, 1).
        level: how far one comes on level ground on each metre down the panel, (m, 1).
    """

    half_m: float
    ahead: Metres
    aside: Metres
    level: Metres

    @property
    def upright(self) -> bool:
        """Do all stand upright, so that a wall's edge is seen alike from all along?"""
        return not (self.level > _LEAST).any()

    @property
    def darkest_above(self) -> bool:
        """Is none turned, so that of each string the upper end lies deepest beside a wall?"""
        return bool(not self.aside.any() and (self.ahead > 0.0).all())

    def down(self, wall: SideWall, down_m: float) -> tuple[Metres, Metres]:
        """How much less far out and aside a wall's edge is, so far down the panel, than from its upper edge; (m, 1)."""
        towards = self.aside if wall.side == "right" else -self.aside
        level_m = self.level * down_m
        room_m = wall.distance_m + self.half_m * (1.0 - np.abs(self.ahead))
        fits_m = np.where(towards > 0.0, np.minimum(level_m, room_m / np.maximum(towards, _LEAST)), level_m)
        return self.ahead * np.where(self.ahead > 0.0, fits_m, level_m), towards * fits_m


def stands(tilt_deg: ArrayLike, turned_deg: ArrayLike, across_m: float) -> Stands:
    """Panels of these tilts, turned to the right of the way in which their facade looks, (m,) each.

    ``across_m``: from side to side.
    """
    tilt, turned = np.radians(np.atleast_1d(tilt_deg))[:, None], np.radians(np.atleast_1d(turned_deg))[:, None]
    return Stands(
        half_m=across_m / 2.0, ahead=np.cos(turned), aside=np.sin(turned), level=np.maximum(np.cos(tilt), 0.0)
    )


def open_half_angle_deg(
    walls: Sequence[SideWall],
    side: str,
    in_from_edge_m: ArrayLike = 0.0,
    panels: Stands | None = None,
    ends_m: Sequence[float] = (0.0,),
) -> Metres:
    """How far to this ``side`` ("left" or "right") one can look out past the nearest wall, from straight outwards, deg.

    From so far in from the side edge of each panel, and so far down it, from where one sees least: (m, 1), or
    (p, m, 1) where distances are (p, 1, 1). 180 where there is no wall on that side: nothing is cut, not even behind.

    >>> beside = [SideWall(side="left", distance_m=0.5, reaches_out_m=0.5)]
    >>> open_half_angle_deg(beside, "left").round(6).item()
    45.0
    """
    panels = stands(0.0, 0.0, 0.0) if panels is None else panels
    inwards = panels.half_m - np.asarray(in_from_edge_m)  # towards the wall, from the panel's middle
    further_out = inwards * (panels.aside if side == "right" else -panels.aside)
    less_aside = inwards * panels.ahead
    angle: Metres = np.full(further_out.shape, _AROUND_DEG)
    for wall in walls:
        if wall.side != side:
            continue
        out, aside = wall.reaches_out_m + further_out, wall.distance_m + panels.half_m - less_aside
        for down_m in ends_m[:1] if panels.darkest_above else ends_m:
            less_out, less_aside_too = panels.down(wall, down_m)
            ends_out, ends_aside = out - less_out, aside - less_aside_too
            past = np.degrees(np.arctan2(np.maximum(ends_aside, 0.0), np.maximum(ends_out, _LEAST)))
            angle = np.minimum(angle, np.where(ends_out > 0.0, past, _AHEAD_DEG))
    return angle


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Face:
    """How the sun stands to the faces of m panels.

    Attributes:
        over: one over how squarely it meets them, from the front or from behind, (m, n).
        behind: (m, n) is it behind them, though out of the facade? None: on none, or that matters to nobody.
    """

    over: Metres
    behind: NDArray[np.bool_] | None


def face_of(panels: Stands, out: Metres, right: Metres, *, rear: bool = True) -> Face:
    """By suns out of the facade and to the right, as for ``wall_shadows_m``.

    ``rear``: does light from behind count? The front gets none, so that it is all one how dark it is then.
    """
    squarely = _product(panels.ahead, out, panels.aside, right)
    over = 1.0 / np.maximum(np.abs(squarely), _LEAST)
    behind = (squarely <= 0.0) & (out > 0.0) if rear else None
    return Face(over=over, behind=behind if behind is not None and behind.any() else None)


def wall_shadows_m(
    walls: Sequence[SideWall],
    panels: Stands,
    ends_m: tuple[float, float],
    out: Metres,
    right: Metres,
    face: Face | None = None,
) -> tuple[Metres | None, Metres | None]:
    """How far in from the left and from the right edge of panels the shadows of side walls reach, m; (m, n) each.

    Args:
        walls: the side walls.
        panels: m of them.
        ends_m: how far down them a string begins and ends, of which the darker end counts.
        out: out of the facade towards the sun, of a unit vector, (n,) or (m, n).
        right: likewise to the right as one looks out.
        face: ``face_of`` all this, where it is at hand.

    Returns:
        Not above 0 where there is none, the panel's width or more where a wall and the facade hide the sun; None: no
        shadow can fall from that side. It falls from the side next to the wall inwards, from the other one where the
        sun stands behind the panel, which then leans.
    """
    shadows: list[Metres | None] = [None, None]
    face = face_of(panels, out, right) if face is None else face
    for wall in walls:
        aside = right if wall.side == "right" else -right
        inwards = _past_edge(wall, panels, ends_m, out, aside)
        inwards *= face.over
        inwards += panels.half_m
        all_or_none = np.where(aside > 0.0, np.inf, 0.0).astype(inwards.dtype)
        inwards = np.where((aside > 0.0) & (out > 0.0), inwards, all_or_none)
        near, behind = wall.side == "right", face.behind
        shadows[near] = _further(shadows[near], inwards if behind is None else np.where(behind, 0.0, inwards))
        if behind is not None:
            shadows[not near] = _further(shadows[not near], np.where(behind, inwards, 0.0))
    return shadows[0], shadows[1]


def _past_edge(wall: SideWall, panels: Stands, ends_m: tuple[float, float], out: Metres, aside: Metres) -> Metres:
    """By how much the sun stands past a wall's edge, towards the wall, from a string's darker end, (m, n)."""
    ends = ends_m[:1] if panels.upright or panels.darkest_above else ends_m
    past: Metres | None = None
    for down_m in ends:
        less_out, less_aside = panels.down(wall, down_m)
        seen = _product(wall.reaches_out_m - less_out, aside, less_aside - (wall.distance_m + panels.half_m), out)
        past = seen if past is None else np.maximum(past, seen, out=past)
    return np.zeros(()) if past is None else past


def _product(one: Metres, ones: Metres, other: Metres, others: Metres) -> Metres:
    """(m, n) the sum of two products of (m, 1) and (n,) or (m, n): of rows one matrix product, which asks least."""
    if ones.ndim == 1:
        pair = np.hstack(np.broadcast_arrays(one, other))
        return np.asarray(pair.astype(ones.dtype, copy=False) @ np.stack((ones, others)))
    return np.asarray(one * ones + other * others)


def _further(one: Metres | None, other: Metres) -> Metres:
    return other if one is None else np.maximum(one, other)


def may_reach(walls: Sequence[SideWall], across_m: float, down_m: float, out: Metres, right: Metres) -> Metres:
    """(2, n) is all of a panel, and any of it, in some wall's shadow, however it is turned and tilted?

    The former at least where it is told, the latter at most.
    """
    level, half_m = np.hypot(out, right), across_m / 2.0
    around_m = np.hypot(half_m, down_m)  # all of it, round the middle of its upper edge
    every, any_ = np.zeros(out.shape, np.bool_), np.zeros(out.shape, np.bool_)
    for wall in walls:
        aside = right if wall.side == "right" else -right
        past = aside * wall.reaches_out_m - out * (wall.distance_m + half_m)
        every |= (aside > 0.0) & ((out <= 0.0) | (past > around_m * level))
        any_ |= (aside > 0.0) & (past + around_m * level > 0.0)
    return np.stack((every, any_))
