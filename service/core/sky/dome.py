"""Which part of an even sky does a tilted plane still see between the skyline, a slab above and walls beside it?"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.model.place import Overhang, SideWall, SkylinePoint
from service.core.sky.horizon import skyline_height_deg
from service.core.sky.overhang import down_the_panel, open_half_angle_deg
from service.core.sky.transposition import sky_share

Floats = NDArray[np.float64]

# Slices of one degree of azimuth, from straight behind on the left over the front (0) to straight behind on the right.
_STEP_DEG = 1.0
_FROM_FRONT_DEG = np.arange(-180.0 + _STEP_DEG / 2.0, 180.0, _STEP_DEG)
_AHEAD = np.cos(np.radians(_FROM_FRONT_DEG))
_COMPASS_DEG = np.arange(_STEP_DEG / 2.0, 360.0, _STEP_DEG)
_COMPASS_DEG.setflags(write=False)
_FROM_FRONT_DEG.setflags(write=False)
_AHEAD.setflags(write=False)
# Stands for the tangent of a right angle; its square still fits into a number.
_STEEPEST = 1e12
Places = tuple[Sequence[float], Sequence[float]]
AT_THE_EDGE: Places = ((0.0,), (0.0,))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SkySeen:
    """Shares of an even sky's light on level ground that reach planes: bare, past the skyline, past all obstacles.

    Each of shape (m,) for m planes, each at most the one before.
    """

    bare_share: Floats
    after_skyline_share: Floats
    after_overhang_share: Floats


def sky_seen(
    tilt_deg: ArrayLike,
    azimuth_deg: ArrayLike,
    skyline: Sequence[SkylinePoint],
    overhang: Overhang | None,
    walls: Sequence[SideWall],
    facade_azimuth_deg: float | None = None,
    places_m: Places = AT_THE_EDGE,
) -> SkySeen:
    """Shares of an even sky's light on level ground that reach planes with obstacles around them.

    In each slice of azimuth the sky lies between a lower edge (the plane's own horizon or the skyline) and an upper
    one (the slab's front edge, else overhead); the light between them is an integral in closed form. Slices behind a
    side wall count by the part of them that is open. Within 0.0001 where the skyline has no upright edges, else 0.002.
    Of several places on the panel the mean is told, each place from the upper edge with each from a side.

    Args:
        tilt_deg: (m,) or a number, 0 to 90.
        azimuth_deg: (m,) or a number, clockwise from north.
        skyline: points all around the compass.
        overhang: slab above.
        walls: side walls.
        facade_azimuth_deg: the way slab and walls look out; None: as each plane does.
        places_m: how far down from the panel's upper edge the slab is seen from, one or more places; and how far in
            from the panel's edge next to it each wall is, likewise.

    Returns:
        The three shares of each plane.

    >>> under_slab = Overhang(above_top_edge_m=1.0, reaches_out_m=3.0**0.5)
    >>> sky_seen(90.0, 180.0, (), under_slab, ()).after_overhang_share.round(4).tolist()
    [0.25]
    """
    tilts, azimuths = np.broadcast_arrays(np.atleast_1d(tilt_deg), np.atleast_1d(azimuth_deg))
    bare = sky_share(tilts)
    past_skyline = past_all = bare
    if skyline or overhang is not None or walls:
        tilt = tilts[:, None]
        low = _own_horizon(tilt, _AHEAD)
        if skyline:
            heights = skyline_height_deg(skyline, azimuths[:, None] + _FROM_FRONT_DEG)
            low = np.maximum(low, np.minimum(np.tan(np.radians(heights)), _STEEPEST))
            overhead = np.full_like(_AHEAD, _STEEPEST)
            past_skyline = np.minimum(_light_under(tilt, low, [overhead], _AHEAD, np.ones_like(_AHEAD)), bare)
        past_all = past_skyline
        if overhang is not None or walls:
            from_facade, turned = _FROM_FRONT_DEG, np.zeros_like(tilt)
            if facade_azimuth_deg is not None:
                turned = azimuths[:, None] - facade_azimuth_deg
                from_facade = (turned + _FROM_FRONT_DEG + 180.0) % 360.0 - 180.0
            ahead = np.maximum(np.cos(np.radians(from_facade)), 0.0)
            highs = _slab_edges(overhang, ahead, down_the_panel(tilt, turned), places_m[0])
            part = _open_part(walls, from_facade, places_m[1])
            past_all = np.minimum(_light_under(tilt, low, highs, _AHEAD, part), past_skyline)
    return SkySeen(bare_share=bare, after_skyline_share=past_skyline, after_overhang_share=past_all)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Dome:
    """What stands around a place by the compass, whichever way a panel there is turned: for many planes.

    Attributes, in the slices of azimuth of which something is open, k of 360:
        azimuth_deg: (k,) their middles.
        low: tangent of the height of the skyline, (k,).
        part: what is open between walls, (k,).
        ahead: how far each slice looks out of the facade, the cosine, (k,).
        overhang, facade_azimuth_deg, down_m: as of ``sky_seen``.
    """

    azimuth_deg: Floats
    low: Floats
    part: Floats
    ahead: Floats
    overhang: Overhang | None
    facade_azimuth_deg: float
    down_m: tuple[float, ...]

    def seen_share(self, tilt_deg: Floats, azimuth_deg: Floats) -> Floats:
        """``after_overhang_share`` of (m,) planes: the same for azimuths in whole degrees, else within 0.0001."""
        tilt, azimuth = tilt_deg[:, None], azimuth_deg[:, None]
        ahead = np.cos(np.radians(self.azimuth_deg - azimuth))
        low = np.maximum(_own_horizon(tilt, ahead), self.low)
        down = down_the_panel(tilt, azimuth - self.facade_azimuth_deg)
        highs = _slab_edges(self.overhang, self.ahead, down, self.down_m)
        return np.asarray(np.minimum(_light_under(tilt, low, highs, ahead, self.part), sky_share(tilt_deg)))


def dome_of(
    skyline: Sequence[SkylinePoint],
    overhang: Overhang | None,
    walls: Sequence[SideWall],
    facade_azimuth_deg: float | None,
    places_m: Places = AT_THE_EDGE,
) -> Dome:
    """The dome over a place; the facade's azimuth is needed where there is a slab or a wall."""
    low, part, ahead = np.zeros_like(_COMPASS_DEG), np.ones_like(_COMPASS_DEG), np.zeros_like(_COMPASS_DEG)
    if skyline:
        low = np.minimum(np.tan(np.radians(skyline_height_deg(skyline, _COMPASS_DEG))), _STEEPEST)
    if facade_azimuth_deg is not None and (overhang is not None or walls):
        from_facade = (_COMPASS_DEG - facade_azimuth_deg + 180.0) % 360.0 - 180.0
        ahead = np.maximum(np.cos(np.radians(from_facade)), 0.0)
        part = _open_part(walls, from_facade, places_m[1])
    open_ = part > 0.0 if overhang is None else (part > 0.0) & (ahead > 0.0)
    return Dome(
        azimuth_deg=_COMPASS_DEG[open_],
        low=low[open_],
        part=part[open_],
        ahead=ahead[open_],
        overhang=overhang,
        facade_azimuth_deg=facade_azimuth_deg or 0.0,
        down_m=tuple(places_m[0]),
    )


def _own_horizon(tilt_deg: Floats, ahead: Floats) -> Floats:
    """Tangent of the height above which a plane sees at all in each slice: nought in front, more behind; (m, 360)."""
    steepness = np.minimum(np.tan(np.radians(tilt_deg)), _STEEPEST)
    horizon: Floats = np.clip(-steepness * ahead, 0.0, _STEEPEST)
    return horizon


def _slab_edges(
    overhang: Overhang | None, ahead: Floats, down: tuple[Floats, Floats], down_m: Sequence[float]
) -> list[Floats]:
    """Tangents of the height of the slab's front edge in each slice, seen from each place down the panel.

    Nought behind, where slab and facade hide all. ``ahead`` (360,) or (m, 360): how far the slices look out of the
    facade, not below 0; ``down``: of ``down_the_panel``, (m, 1).
    """
    if overhang is None:
        return [np.full_like(ahead, _STEEPEST)]
    edges = []
    for metres in down_m:
        above = overhang.above_top_edge_m + metres * down[0]
        reaches = np.maximum(overhang.reaches_out_m - metres * down[1], 0.0)
        steepness = np.minimum(above, _STEEPEST * reaches) / np.maximum(reaches, 1.0 / _STEEPEST)
        overhead = reaches * _STEEPEST <= above
        edges.append(np.where(ahead > 0.0, np.where(overhead, _STEEPEST, ahead * steepness), 0.0))
    return edges


def _open_part(walls: Sequence[SideWall], from_facade_deg: Floats, in_m: Sequence[float]) -> Floats:
    """Which part of each slice lies between the side walls, 0 to 1, in the mean of places in from the sides.

    ``from_facade_deg`` (360,) or (m, 360): the slices' angles from straight out of the facade.
    """
    part: Floats = np.zeros_like(from_facade_deg)
    for metres in in_m if walls else (0.0,):
        left, right = open_half_angle_deg(walls, "left", metres), open_half_angle_deg(walls, "right", metres)
        for around in (-360.0, 0.0, 360.0):  # a slice straight behind may reach to either side
            begin = from_facade_deg + (around - _STEP_DEG / 2.0)
            part += np.maximum(np.minimum(begin + _STEP_DEG, right) - np.maximum(begin, -left), 0.0) / _STEP_DEG
    return part / len(in_m) if walls else part


def _light_under(tilt_deg: Floats, low: Floats, highs: Sequence[Floats], ahead: Floats, part: Floats) -> Floats:
    """Even light on the planes, (m,), of the open part of slices over a lower edge; the mean of several upper ones.

    Edges are given by tangents of their heights. The integral of (sin h cos tilt + cos h sin tilt cos a) cos h / pi
    over h, a the slice's angle from the front and ``ahead`` its cosine, times the slice's width.
    """
    tilt = np.radians(tilt_deg)
    level, upright = np.cos(tilt), np.sin(tilt) * ahead
    low_term, low_upright = _terms(low)
    light = np.zeros(np.broadcast(tilt, low).shape[0])
    for high in highs:
        high_term, high_upright = _terms(np.maximum(high, low))
        # sin^2 h = 1 - 1 / (1 + tan^2 h)
        slices = np.maximum((low_term - high_term) * level + (high_upright - low_upright) * upright, 0.0)
        light += (slices * part).sum(axis=1)
    return np.asarray(light * (np.radians(_STEP_DEG) / (2.0 * np.pi * len(highs))))


def _terms(tangent: Floats) -> tuple[Floats, Floats]:
    """Of a height's tangent: the square of its cosine, and the height and half the sine of twice the height."""
    square = 1.0 / (1.0 + tangent * tangent)
    return square, np.arctan(tangent) + tangent * square
