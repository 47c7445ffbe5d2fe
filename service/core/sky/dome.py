"""Which part of an even sky does a tilted plane still see past skyline, slab, walls, and what stands in front?

And which part does its rear see past the skyline?
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import reduce
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.model.place import Overhang, SideWall, SkylinePoint
from service.core.sky.between_walls import BetweenWalls, between_walls
from service.core.sky.cell_layout import AT_THE_EDGE, Places
from service.core.sky.horizon import skyline_height_deg
from service.core.sky.house import house_edge, sky_past_house_share
from service.core.sky.in_front import InFront
from service.core.sky.overhang import turned_m
from service.core.sky.slices import STEEPEST, Slices, slices_of
from service.core.sky.transposition import sky_share

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SkySeen:
    """Shares of an even sky's light on level ground that reach planes: bare, past the skyline, slab and walls, and all.

    Each of shape (m,) for m planes, the last (m, s) by bypass sections where rail or row hide from some of them more
    than from others, else (m, 1); each at most the one before.
    """

    bare_share: Floats
    after_skyline_share: Floats
    after_overhang_share: Floats
    past_all_share: Floats

    def of(self, kind: np.dtype[Any]) -> "SkySeen":
        """The same in numbers of that kind."""
        return SkySeen(
            bare_share=self.bare_share.astype(kind, copy=False),
            after_skyline_share=self.after_skyline_share.astype(kind, copy=False),
            after_overhang_share=self.after_overhang_share.astype(kind, copy=False),
            past_all_share=self.past_all_share.astype(kind, copy=False),
        )


def sky_seen(
    tilt_deg: ArrayLike,
    azimuth_deg: ArrayLike,
    skyline: Sequence[SkylinePoint],
    overhang: Overhang | None,
    walls: Sequence[SideWall],
    facade_azimuth_deg: float | None = None,
    places: Places = AT_THE_EDGE,
    in_front: InFront | None = None,
) -> SkySeen:
    """Shares of an even sky's light on level ground that reach planes with obstacles around them.

    In each slice of azimuth the sky lies between a lower edge (the plane's own horizon or the skyline) and an upper
    one (the slab's front edge, else overhead); the light between them is an integral in closed form. Slices behind a
    side wall count by the part of them that is open. Within 0.0001 where the skyline has no upright edges, else 0.002,
    in slices of one degree; off by the square of their width.

    Args:
        tilt_deg: (m,) or a number, 0 to 90.
        azimuth_deg: (m,) or a number, clockwise from north.
        skyline: points all around the compass.
        overhang: slab above.
        walls: side walls.
        facade_azimuth_deg: the way slab, walls and house look out; None: as each plane does.
        places: on the panel, from which slab, walls and house, which counts with the skyline, are seen; the slices.
        in_front: hand rail and row in front of it, which turn with the plane.

    Returns:
        The four shares of each plane. Past a house alone they are exact.

    >>> under_slab = Overhang(above_top_edge_m=1.0, reaches_out_m=3.0**0.5)
    >>> sky_seen(90.0, 180.0, (), under_slab, ()).after_overhang_share.round(4).tolist()
    [0.25]
    """
    tilts, azimuths = np.broadcast_arrays(np.atleast_1d(tilt_deg), np.atleast_1d(azimuth_deg))
    bare = sky_share(tilts)
    slices = slices_of(places.slice_deg)
    past_all = None if in_front is None else np.maximum(bare[:, None] - in_front.hidden_share(tilts), 0.0)
    past_skyline = past_overhang = most = _past_house(places, tilts, azimuths, facade_azimuth_deg)
    if skyline or overhang is not None or walls or (places.house_steepness is not None and in_front is not None):
        tilt = tilts[:, None]
        from_facade, turned = out_of_facade_deg(azimuths, facade_azimuth_deg, slices)
        behind = None if places.house_steepness is None else house_edge(places.house_steepness, from_facade)
        low, past_skyline = _past_skyline(skyline, tilt, azimuths[:, None], most, slices, behind)
        past_overhang = past_skyline
        if overhang is not None or walls or in_front is not None:
            ahead = np.maximum(np.cos(np.radians(from_facade)), 0.0)
            between = between_walls(walls, from_facade, slices.step_deg, places, tilts, turned[:, 0])
            if overhang is not None or walls:
                edges = slab_edges(overhang, ahead, tilt, turned, places)
                past_overhang = np.minimum(_from_places(tilt, low, edges, slices.ahead, between), past_skyline)
            if in_front is not None and past_all is not None:
                rows = replace(places, down_m=in_front.rows.down_m)
                edges = slab_edges(overhang, ahead, tilt, turned, rows)
                past_all = np.minimum(past_all, _past_in_front(in_front, tilts, low, edges, between, slices))
    return SkySeen(
        bare_share=bare,
        after_skyline_share=past_skyline,
        after_overhang_share=past_overhang,
        past_all_share=past_overhang[:, None] if past_all is None else np.minimum(past_all, past_overhang[:, None]),
    )


def out_of_facade_deg(azimuth_deg: Floats, facade_azimuth_deg: float | None, slices: Slices) -> tuple[Floats, Floats]:
    """How far the slices before planes (m,) look out of their facade, (m, k) or (k,), and how they are turned."""
    if facade_azimuth_deg is None:
        return slices.from_front_deg, np.zeros((1, 1))
    from_facade = (azimuth_deg[:, None] + slices.from_front_deg - facade_azimuth_deg + 180.0) % 360.0 - 180.0
    return from_facade, azimuth_deg[:, None] - facade_azimuth_deg


def _past_house(places: Places, tilt_deg: Floats, azimuth_deg: Floats, facade_azimuth_deg: float | None) -> Floats:
    """What planes (m,) would see past the house alone, in closed form: nothing beside it may add to that."""
    if places.house_steepness is None:
        return np.asarray(sky_share(tilt_deg))
    turned_deg = np.zeros_like(tilt_deg) if facade_azimuth_deg is None else azimuth_deg - facade_azimuth_deg
    return sky_past_house_share(places.house_steepness, tilt_deg, turned_deg)


def _past_skyline(
    skyline: Sequence[SkylinePoint],
    tilt_deg: Floats,
    azimuth_deg: Floats,
    most: Floats,
    slices: Slices,
    behind: Floats | None,
) -> tuple[Floats, Floats]:
    """The lower edges of the slices of sky before planes (m, 1), (m, k), and what these see above the skyline, (m,).

    ``most``: what they would see past the house alone; ``behind``: ``house_edge`` of the slices, where one stands.
    """
    ahead = slices.ahead
    low = own_horizon(tilt_deg, ahead)
    if not skyline and behind is None:
        return low, most
    if behind is not None:
        low = np.maximum(low, behind)
    if skyline:
        heights = skyline_height_deg(skyline, azimuth_deg + slices.from_front_deg)
        low = np.maximum(low, np.minimum(np.tan(np.radians(heights)), STEEPEST))
    overhead = np.full_like(ahead, STEEPEST)
    return low, np.minimum(light_between(tilt_deg, low, [overhead], ahead, slices.step_deg).sum(axis=1), most)


def _past_in_front(
    in_front: InFront, tilt_deg: Floats, low: Floats, edges: Sequence[Floats], between: BetweenWalls, slices: Slices
) -> Floats:
    """(m, s) of an even sky what planes see past rail and row among all else, from their rows of cells.

    ``edges``: of the slab, from each row; ``low``, ``between``: as for what is seen past the slab.
    """
    highs = np.stack(np.broadcast_arrays(*edges), axis=-2)
    open_ = between.may_be_open() & highs.reshape(-1, slices.ahead.size).any(axis=0)
    light = light_past(in_front, tilt_deg, low[:, open_], highs[..., open_], slices.ahead[open_], slices.step_deg)
    if between.alike:
        part = between.open_parts()[..., open_]
        seen = np.einsum("mdk,pk->mpd" if part.ndim == low.ndim else "mdk,pmk->mpd", light, part)
    else:
        parts = (between.open_parts((metres,))[..., open_] for metres in in_front.rows.down_m)
        seen = np.stack([_through(light[:, row], part) for row, part in enumerate(parts)], axis=-1)
    sections = np.moveaxis(in_front.rows.by_section(seen), -1, 0)
    return np.stack([between.places.least(section) for section in sections], axis=-1)


def light_past(
    in_front: InFront, tilt_deg: Floats, low: Floats, highs: Floats, ahead: Floats, step_deg: float
) -> Floats:
    """Even light from slices on each row of cells past rail and row, (m, d, k), between edges as told.

    ``low``: (m, k); ``highs``: (d, k) or (m, d, k), or with one d for all; ``ahead``: (k,) how far the slices look out
    of the plane.
    """
    tilt = tilt_deg[:, None, None]
    low = np.maximum(low[:, None], in_front.row_edge(tilt_deg)[:, :, None] * np.maximum(ahead, 0.0))
    light = light_between(tilt, low, [highs], ahead, step_deg)
    if in_front.rail is None:
        return light
    lower, upper, to_rail = (edge[:, :, None] for edge in in_front.rail_edges(tilt_deg))
    over = ahead / to_rail
    begin, end = (np.clip(np.maximum(edge * over, 0.0), low, np.maximum(highs, low)) for edge in (lower, upper))
    return light - light_between(tilt, begin, [end], ahead, step_deg)


def sky_behind(tilt_deg: ArrayLike, azimuth_deg: ArrayLike, skyline: Sequence[SkylinePoint]) -> Floats:
    """Shares of an even sky's light on level ground that reach the rears of planes past a skyline, (m,).

    Of a plane at the tilt t the rear sees, in each slice of azimuth behind it, the sky from the skyline up to the
    plane itself: with nothing around (1 - cos t) / 2. Accuracy as ``sky_seen``'s, arguments as there.

    >>> court = [SkylinePoint(azimuth_deg=0, height_deg=90), SkylinePoint(azimuth_deg=180, height_deg=90)]
    >>> [sky_behind(90.0, 180.0, around).round(4).tolist() for around in ((), court)]
    [[0.5], [0.0]]
    """
    tilts, azimuths = np.broadcast_arrays(np.atleast_1d(tilt_deg), np.atleast_1d(azimuth_deg))
    bare = 1.0 - sky_share(tilts)
    if not skyline:
        return np.asarray(bare)
    tilt = tilts[:, None]
    slices = slices_of(AT_THE_EDGE.slice_deg)
    ahead = slices.ahead
    heights = skyline_height_deg(skyline, azimuths[:, None] + 180.0 + slices.from_front_deg)
    low = np.minimum(np.tan(np.radians(heights)), STEEPEST)
    plane = np.where(ahead > 0.0, own_horizon(tilt, -ahead), 0.0)  # the front's own horizon, seen from behind
    light = light_between(180.0 - tilt, low, [plane], ahead, slices.step_deg)
    return np.asarray(np.minimum(light.sum(axis=1), bare))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Dome:
    """What stands around a place by the compass, whichever way a panel there is turned: for many planes.

    Attributes, in the slices of azimuth of which something is open, k of 360 / ``places.slice_deg``:
        azimuth_deg: (k,) their middles.
        low: tangent of the height of skyline and house, (k,).
        from_facade_deg: how far each slice looks out of the facade, (k,).
        ahead: its cosine, not below 0, (k,).
        overhang, walls, facade_azimuth_deg, places: slab and walls, the way they look out, the places on the panel.
        house_alone: is there nothing but a house?
    """

    azimuth_deg: Floats
    low: Floats
    from_facade_deg: Floats
    ahead: Floats
    overhang: Overhang | None
    walls: Sequence[SideWall]
    facade_azimuth_deg: float
    places: Places
    house_alone: bool

    def seen_share(self, tilt_deg: Floats, azimuth_deg: Floats) -> Floats:
        """``after_overhang_share`` of (m,) planes: the same for azimuths in whole degrees, else within 0.0001."""
        most = _past_house(self.places, tilt_deg, azimuth_deg, self.facade_azimuth_deg)
        if self.house_alone:
            return most
        tilt = tilt_deg[:, None]
        ahead = np.cos(np.radians(self.azimuth_deg - azimuth_deg[:, None]))
        low = np.maximum(own_horizon(tilt, ahead), self.low)
        turned = azimuth_deg[:, None] - self.facade_azimuth_deg
        edges = slab_edges(self.overhang, self.ahead, tilt, turned, self.places)
        between = between_walls(
            self.walls, self.from_facade_deg, self.places.slice_deg, self.places, tilt_deg, turned[:, 0]
        )
        return np.asarray(np.minimum(_from_places(tilt, low, edges, ahead, between), most))


def dome_of(
    skyline: Sequence[SkylinePoint],
    overhang: Overhang | None,
    walls: Sequence[SideWall],
    facade_azimuth_deg: float | None,
    places: Places = AT_THE_EDGE,
) -> Dome:
    """The dome over a place; the facade's azimuth is needed where there is a slab, a wall or a house."""
    compass_deg = slices_of(places.slice_deg).compass_deg
    low, ahead = np.zeros_like(compass_deg), np.zeros_like(compass_deg)
    from_facade = np.zeros_like(compass_deg)
    open_ = np.ones(compass_deg.shape, np.bool_)
    if skyline:
        low = np.minimum(np.tan(np.radians(skyline_height_deg(skyline, compass_deg))), STEEPEST)
    if facade_azimuth_deg is not None and (overhang is not None or walls):
        from_facade = (compass_deg - facade_azimuth_deg + 180.0) % 360.0 - 180.0
        ahead = np.maximum(np.cos(np.radians(from_facade)), 0.0)
        open_ = between_walls(walls, from_facade, places.slice_deg, places, np.zeros(1), np.zeros(1)).may_be_open()
    if facade_azimuth_deg is not None and places.house_steepness is not None:
        low = np.maximum(low, house_edge(places.house_steepness, compass_deg - facade_azimuth_deg))
    if overhang is not None:
        open_ &= ahead > 0.0
    return Dome(
        azimuth_deg=compass_deg[open_],
        low=low[open_],
        from_facade_deg=from_facade[open_],
        ahead=ahead[open_],
        overhang=overhang,
        walls=walls,
        facade_azimuth_deg=facade_azimuth_deg or 0.0,
        places=places,
        house_alone=not (skyline or overhang is not None or walls),
    )


def own_horizon(tilt_deg: Floats, ahead: Floats) -> Floats:
    """Tangent of the height above which a plane sees at all in each slice: nought in front, more behind; (m, k)."""
    steepness = np.minimum(np.tan(np.radians(tilt_deg)), STEEPEST)
    horizon: Floats = np.clip(-steepness * ahead, 0.0, STEEPEST)
    return horizon


def slab_edges(
    overhang: Overhang | None, ahead: Floats, tilt_deg: Floats, turned_deg: Floats, places: Places
) -> list[Floats]:
    """Tangents of the height of the slab's front edge in each slice, seen from each place down the panel.

    Nought behind, where slab and facade hide all. ``ahead`` (360,) or (m, 360): how far the slices look out of the
    facade, not below 0; ``tilt_deg``: (m, 1); ``turned_deg``: out of the facade, (m, 1) or (1, 1).
    """
    if overhang is None:
        return [np.full_like(ahead, STEEPEST)]
    edges = []
    down, outwards, further_in = turned_m(tilt_deg, turned_deg, places.corner_m)
    for metres in places.down_m:
        above = overhang.above_top_edge_m + metres * down
        reaches = np.maximum(overhang.reaches_out_m + further_in - metres * outwards, 0.0)
        steepness = np.minimum(above, STEEPEST * reaches) / np.maximum(reaches, 1.0 / STEEPEST)
        overhead = reaches * STEEPEST <= above
        edges.append(np.where(ahead > 0.0, np.where(overhead, STEEPEST, ahead * steepness), 0.0))
    return edges


def _from_places(
    tilt_deg: Floats, low: Floats, edges: Sequence[Floats], ahead: Floats, between: BetweenWalls
) -> Floats:
    """(m,) what planes see between the lower edge, the slab's from each place down them, and the walls."""
    places = between.places
    if between.alike:
        light, part = light_between(tilt_deg, low, edges, ahead, between.step_deg), between.open_parts()
        return np.asarray(places.least(_through(light, part)))
    lights = [light_between(tilt_deg, low, [edge], ahead, between.step_deg) for edge in edges]
    if len(lights) < len(places.ends_m):
        lights *= len(places.ends_m)
    parts = (between.open_parts(ends) for ends in places.ends_m)
    seen = reduce(np.add, (_through(light, part) for light, part in zip(lights, parts, strict=True)))
    return np.asarray(places.least(seen * (1.0 / len(lights))))


def _through(light: Floats, part: Floats) -> Floats:
    """(m, p) of what slices bring planes, (m, k), what is left where of these so much is open, (p, k) or (p, m, k)."""
    # Not a matrix product, whose last digit hangs on how many planes are asked about.
    return np.asarray(np.einsum("mk,pk->mp" if part.ndim == light.ndim else "mk,pmk->mp", light, part))


def light_between(tilt_deg: Floats, low: Floats, highs: Sequence[Floats], ahead: Floats, step_deg: float) -> Floats:
    """Even light on the planes from each slice over a lower edge, (m, k), in the mean of several upper edges.

    Edges are given by tangents of their heights. The integral of (sin h cos tilt + cos h sin tilt cos a) cos h / pi
    over h, a the slice's angle from the front and ``ahead`` its cosine, times the slice's width.
    """
    tilt = np.radians(tilt_deg)
    level, upright = np.cos(tilt), np.sin(tilt) * ahead
    low_term, low_upright = height_terms(low)
    light: Floats | None = None
    for high in highs:
        high_term, high_upright = height_terms(np.maximum(high, low))
        # sin^2 h = 1 - 1 / (1 + tan^2 h)
        slices = np.maximum((low_term - high_term) * level + (high_upright - low_upright) * upright, 0.0)
        light = slices if light is None else light + slices
    return np.asarray(light * (np.radians(step_deg) / (2.0 * np.pi * len(highs))))


def height_terms(tangent: Floats) -> tuple[Floats, Floats]:
    """Of a height's tangent: the square of its cosine, and the height and half the sine of twice the height."""
    square = 1.0 / (1.0 + tangent * tangent)
    return square, np.arctan(tangent) + tangent * square
