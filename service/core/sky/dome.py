"""Which part of an even sky does a tilted plane still see between the skyline, a slab above and walls beside it?"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.model.place import Overhang, SideWall, SkylinePoint
from service.core.sky.horizon import skyline_height_deg
from service.core.sky.overhang import open_half_angle_deg
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
) -> SkySeen:
    """Shares of an even sky's light on level ground that reach planes with obstacles around them.

    In each slice of azimuth the sky lies between a lower edge (the plane's own horizon or the skyline) and an upper
    one (the slab's front edge, else overhead); the light between them is an integral in closed form. Slices behind a
    side wall count by the part of them that is open. Within 0.0001 where the skyline has no upright edges, else 0.002.

    Args:
        tilt_deg: (m,) or a number, 0 to 90.
        azimuth_deg: (m,) or a number, clockwise from north.
        skyline: points all around the compass.
        overhang: slab above, seen from the panel's upper edge.
        walls: side walls, each seen from the panel's edge next to it.
        facade_azimuth_deg: the way slab and walls look out; None: as each plane does.

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
            past_skyline = np.minimum(_light_between(tilt, low, overhead, _AHEAD).sum(axis=1), bare)
        past_all = past_skyline
        if overhang is not None or walls:
            from_facade = _FROM_FRONT_DEG
            if facade_azimuth_deg is not None:
                from_facade = (azimuths[:, None] + _FROM_FRONT_DEG - facade_azimuth_deg + 180.0) % 360.0 - 180.0
            high = _slab_edge(overhang, from_facade)
            slices = _light_between(tilt, low, high, _AHEAD) * _open_part(walls, from_facade)
            past_all = np.minimum(slices.sum(axis=1), past_skyline)
    return SkySeen(bare_share=bare, after_skyline_share=past_skyline, after_overhang_share=past_all)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Dome:
    """What stands around a place by the compass, whichever way a panel there is turned: for many planes.

    Tangents of the heights between which the sky is open, and the open part, in each slice of azimuth from north on,
    (360,) each.
    """

    low: Floats
    high: Floats
    part: Floats

    def seen_share(self, tilt_deg: Floats, azimuth_deg: Floats) -> Floats:
        """``after_overhang_share`` of (m,) planes: the same for azimuths in whole degrees, else within 0.0001."""
        tilt = tilt_deg[:, None]
        ahead = np.cos(np.radians(_COMPASS_DEG - azimuth_deg[:, None]))
        low = np.maximum(_own_horizon(tilt, ahead), self.low)
        seen = (_light_between(tilt, low, self.high, ahead) * self.part).sum(axis=1)
        return np.asarray(np.minimum(seen, sky_share(tilt_deg)))


def dome_of(
    skyline: Sequence[SkylinePoint],
    overhang: Overhang | None,
    walls: Sequence[SideWall],
    facade_azimuth_deg: float | None,
) -> Dome:
    """The dome over a place; the facade's azimuth is needed where there is a slab or a wall."""
    low, high, part = np.zeros_like(_COMPASS_DEG), np.full_like(_COMPASS_DEG, _STEEPEST), np.ones_like(_COMPASS_DEG)
    if skyline:
        low = np.minimum(np.tan(np.radians(skyline_height_deg(skyline, _COMPASS_DEG))), _STEEPEST)
    if facade_azimuth_deg is not None and (overhang is not None or walls):
        from_facade = (_COMPASS_DEG - facade_azimuth_deg + 180.0) % 360.0 - 180.0
        high, part = _slab_edge(overhang, from_facade), _open_part(walls, from_facade)
    return Dome(low=low, high=high, part=part)


def _own_horizon(tilt_deg: Floats, ahead: Floats) -> Floats:
    """Tangent of the height above which a plane sees at all in each slice: nought in front, more behind; (m, 360)."""
    steepness = np.minimum(np.tan(np.radians(tilt_deg)), _STEEPEST)
    horizon: Floats = np.clip(-steepness * ahead, 0.0, _STEEPEST)
    return horizon


def _slab_edge(overhang: Overhang | None, from_facade_deg: Floats) -> Floats:
    """Tangent of the height of the slab's front edge in each slice: nought behind, where slab and facade hide all.

    ``from_facade_deg`` (360,) or (m, 360): the slices' angles from straight out of the facade.
    """
    if overhang is None:
        return np.full_like(_AHEAD, _STEEPEST)
    ahead: Floats = np.maximum(np.cos(np.radians(from_facade_deg)), 0.0)
    if overhang.reaches_out_m * _STEEPEST <= overhang.above_top_edge_m:
        return np.where(ahead > 0.0, _STEEPEST, 0.0)
    edge: Floats = np.minimum(ahead * (overhang.above_top_edge_m / overhang.reaches_out_m), _STEEPEST)
    return edge


def _open_part(walls: Sequence[SideWall], from_facade_deg: Floats) -> Floats:
    """Which part of each slice lies between the side walls, 0 to 1; angles as for ``_slab_edge``."""
    left, right = open_half_angle_deg(walls, "left"), open_half_angle_deg(walls, "right")
    part: Floats = np.zeros_like(from_facade_deg)
    for around in (-360.0, 0.0, 360.0):  # a slice straight behind may reach to either side
        begin = from_facade_deg + (around - _STEP_DEG / 2.0)
        part += np.maximum(np.minimum(begin + _STEP_DEG, right) - np.maximum(begin, -left), 0.0) / _STEP_DEG
    return part


def _light_between(tilt_deg: Floats, low: Floats, high: Floats, ahead: Floats) -> Floats:
    """Even light on the planes from each slice between two heights given by their tangents, (m, 360).

    The integral of (sin h cos tilt + cos h sin tilt cos a) cos h / pi over h, a the slice's angle from the front and
    ``ahead`` its cosine, times the slice's width.
    """
    tilt = np.radians(tilt_deg)
    high = np.maximum(high, low)
    low_term, high_term = 1.0 / (1.0 + low * low), 1.0 / (1.0 + high * high)
    level = low_term - high_term  # sin^2 h = 1 - 1 / (1 + tan^2 h)
    upright = np.arctan(high) - np.arctan(low) + high * high_term - low * low_term
    width = np.radians(_STEP_DEG) / (2.0 * np.pi)
    light: Floats = np.maximum(level * np.cos(tilt) + upright * (np.sin(tilt) * ahead), 0.0) * width
    return light
