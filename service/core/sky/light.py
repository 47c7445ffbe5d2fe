"""What falls on an array's plane hour by hour, and what do skyline, overhang, shade, cover and glass leave of it?

The account runs in that order, each stage at most the one before, so that the light which each takes can be named.
Obstacles hide beam and circumsolar light while the sun stands behind them, slab and walls by the cells in their shadow,
and take their part of the even sky, as the darkest cells see it. The skyline dims the ground, too (``sky.ground``), and
a row in front hides it; slab, walls and shade by the clock leave the light from the ground whole. Before the panel's
own house (``sky.before_house``) the ground is dimmer at every stage. Shade by the clock and what rails and rows darken
comes on top. The light after the cover warms the cells (the coefficients of cell temperature were measured against
light before incidence loss); the effective light drives the current.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.sky.before_house import ground_before_house_share
from service.core.sky.cell_layout import AT_THE_EDGE, darkest_places
from service.core.sky.daylight import Daylight, Surroundings, daylight_of, ground_w_per_m2, surroundings_of
from service.core.sky.dome import sky_seen
from service.core.sky.edge_shadow import (
    Ways,
    shading_past_edges,
    stands_behind,
    stands_under_or_beside,
    ways_past_slab_and_walls,
)
from service.core.sky.faces import faces_lit
from service.core.sky.faces_doubt import more_by_faces_kwh_per_m2
from service.core.sky.faces_seen import FacesSeen, faces_seen
from service.core.sky.ground import thrown_back
from service.core.sky.house import house_hiding, past_house_share
from service.core.sky.in_front import ground_past_row_share, in_front_of
from service.core.sky.incidence import direction, ground_modifier, modifier, sky_modifier
from service.core.sky.shade import Shading, after_shading, taken_by_bands
from service.core.sky.transposition import ground_share

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaneLight:
    """Light on one array's plane, W/m2, each of shape (n,), read-only; each at most the one before, none below 0.

    Attributes:
        open_w_per_m2: on the bare plane, nothing around, nothing in front; its ground lies before its house.
        after_skyline_w_per_m2: past the skyline, and past the house behind.
        after_overhang_w_per_m2: past slab and side walls.
        after_shade_w_per_m2: past what comes by the clock; of a hard shadow, what still does work.
        after_cover_w_per_m2: through the cover. This drives the cell temperature.
        effective_w_per_m2: through the panel's glass, as if at square incidence. This drives the current.
        ground_left_share: what skyline, row and its own house leave of the light that the ground sends over the year.
        more_by_faces_kwh_per_m2: what the skyline's faces may add over the year, by the sun on them, and as bright ones
            where nobody told it; with it the year is no more than the bare plane's.
    """

    open_w_per_m2: Floats
    after_skyline_w_per_m2: Floats
    after_overhang_w_per_m2: Floats
    after_shade_w_per_m2: Floats
    after_cover_w_per_m2: Floats
    effective_w_per_m2: Floats
    ground_left_share: float = 1.0
    more_by_faces_kwh_per_m2: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Reached:
    """Light on m planes by where it comes from and how far it has come, W/m2, the cosine of incidence; (m, n).

    ``overhang_sky`` is what slab and walls leave, ``sky`` what is left past rail and row, too, with what faces in the
    skyline throw back, which all cells see alike, and ``even`` without; of the ground's light
    the skyline leaves ``skyline_ground``, and a row ``ground``, ``before_house`` is what its own house leaves of all of
    it, (m,); ``under``: the ways past the shadows of slab and walls,
    behind rail and row looked for only where each stage is told; ``shading``: all shadows of each hour, (n,), with the
    ways past those of all edges, of each plane and hour.
    """

    bare_beam: Floats
    beam: Floats
    cosine: Floats
    sky: Floats
    even: Floats
    overhang_sky: Floats
    skyline_sky: Floats
    bare_sky: Floats
    ground: Floats
    skyline_ground: Floats
    bare_ground: Floats
    before_house: Floats
    under: Ways
    shading: Shading


def effective_light(
    array: Array,
    planes: Sequence[Plane],
    daylight: Daylight,
    surroundings: Surroundings,
    ground_reflectance_share: float,
) -> Floats:
    """The light that drives the current, W/m2, were the array in each of these planes: (m, n), hours with light only.

    The same figures as ``plane_light`` gives; meant for looking at many planes. Slab and walls turn with the plane
    unless the array tells its facade's azimuth.
    """
    reached = _reached(array, planes, daylight, surroundings, ground_reflectance_share)
    return _effective(array, planes, reached)


def light_of_planes(
    array: Array,
    planes: Sequence[Plane],
    daylight: Daylight,
    surroundings: Surroundings,
    ground_reflectance_share: float,
) -> tuple[Floats, Floats]:
    """Behind the cover, and of that what drives the current, were the array in each of these planes: (m, n) each."""
    reached = _reached(array, planes, daylight, surroundings, ground_reflectance_share)
    total = reached.beam + reached.sky + reached.ground
    on_cells = after_shading(total, reached.beam, reached.shading, reached.even, reached.ground) * _through(array)
    return on_cells, _effective(array, planes, reached)


def plane_light(
    sky: SkyYear, array: Array, ground_reflectance_share: float, daylight: Daylight | None = None
) -> PlaneLight:
    """What falls on the array's plane in each hour, and what is left of it after each obstacle.

    Args:
        sky: the year; any number of hours, with the sun at mid-hour.
        array: its plane, skyline, overhang, side walls, shade and cover are used.
        ground_reflectance_share: 0 to 1, of the ground in front.
        daylight: ``daylight_of(sky)``, where it is at hand.

    Returns:
        The light by stage, (n,) each. Valid for hourly means; hours in which the sun rises, sets or passes an edge
        are all or nothing. Not modelled: light thrown back by walls, slabs and rows, their shadow on the ground.
        What makes the skyline throws back ``facing_reflectance_share`` where that is told, else nothing.
    """
    daylight = daylight_of(sky) if daylight is None else daylight
    surroundings = surroundings_of(array, sky, daylight)
    planes = (array.plane,)
    reached = _reached(array, planes, daylight, surroundings, ground_reflectance_share, by_stage=True)
    total = after_overhang = reached.beam + reached.sky + reached.ground
    if stands_behind(array):
        after_overhang = reached.beam + reached.overhang_sky + reached.skyline_ground
    if reached.under:
        after_overhang = after_overhang - taken_by_bands(after_overhang, reached.beam, reached.under)
    after_shade = after_shading(total, reached.beam, reached.shading, reached.even, reached.ground)
    if reached.under:  # rounding alone could lift it
        after_shade = np.minimum(after_shade, after_overhang)
    after_cover = after_shade * _through(array)
    # Rounding alone could lift the last stage by one bit where all light meets the glass squarely.
    effective = np.minimum(_effective(array, planes, reached), after_cover)
    left_share, faces = _below(array, daylight, surroundings, ground_reflectance_share, reached)
    in_year = partial(_spread, rows=daylight.rows, hours=sky.ghi_w_per_m2.size)
    return PlaneLight(
        open_w_per_m2=in_year(reached.bare_beam + reached.bare_sky + reached.bare_ground),
        after_skyline_w_per_m2=in_year(reached.beam + reached.skyline_sky + reached.skyline_ground),
        after_overhang_w_per_m2=in_year(after_overhang),
        after_shade_w_per_m2=in_year(after_shade),
        after_cover_w_per_m2=in_year(after_cover),
        effective_w_per_m2=in_year(effective),
        ground_left_share=left_share,
        more_by_faces_kwh_per_m2=faces,
    )


def _below(
    array: Array, daylight: Daylight, surroundings: Surroundings, ground_reflectance_share: float, reached: _Reached
) -> tuple[float, float]:
    """``ground_left_share`` and ``more_by_faces_kwh_per_m2`` of an array in its plane."""
    past_row = ground_past_row_share(array) * float(reached.before_house[0])
    if not array.skyline:
        return past_row, 0.0
    on_ground = ground_w_per_m2(daylight, surroundings)
    ghi = float(daylight.ghi_w_per_m2.sum())
    left_share = past_row * float(on_ground.sum()) / ghi if ghi > 0.0 else past_row
    more = more_by_faces_kwh_per_m2(array, daylight, ground_reflectance_share, on_ground)
    bare = reached.bare_beam + reached.bare_sky + reached.bare_ground
    hidden = float((bare - reached.beam - reached.skyline_sky - reached.skyline_ground).sum()) / 1000.0
    return left_share, min(more, max(hidden, 0.0)) * _through(array)


def _reached(
    array: Array,
    planes: Sequence[Plane],
    daylight: Daylight,
    surroundings: Surroundings,
    ground_reflectance_share: float,
    *,
    by_stage: bool = False,
) -> _Reached:
    tilt, azimuth = _angles(planes)
    as_sun = daylight.sun.dtype
    turned = tilt.astype(as_sun), azimuth.astype(as_sun)
    cosine = np.maximum(direction(tilt, azimuth).T.astype(as_sun) @ daylight.sun, 0.0)
    bare_beam = daylight.from_sun_w_per_m2 * cosine
    house = house_hiding(array, tilt, azimuth)
    beam = _past_skyline_and_house(array, azimuth, house, bare_beam, daylight, surroundings)
    places = darkest_places(array) if stands_under_or_beside(array) else AT_THE_EDGE
    places = replace(places, slice_deg=daylight.slice_deg, house_steepness=house)
    under: Ways = ()
    if stands_under_or_beside(array) and (by_stage or not stands_behind(array)):
        under = ways_past_slab_and_walls(array, *turned, daylight.sun)
    in_front = in_front_of(array)
    around = array.skyline, array.slab, array.walls, array.facade_azimuth_deg
    seen = sky_seen(tilt, azimuth, *around, places, in_front).of(as_sun)
    ground_left = np.ones((1, 1), as_sun) if in_front is None else in_front.ground_left_share(tilt).astype(as_sun)
    left = seen.past_all_share, ground_left
    shading = shading_past_edges(array, *turned, daylight.sun, left, under, surroundings.shading)
    even = daylight.even_sky_w_per_m2
    skyline_sky, overhang_sky = seen.after_skyline_share[:, None] * even, seen.after_overhang_share[:, None] * even
    past_all = sky = seen.past_all_share.max(axis=1)[:, None] * even if stands_behind(array) else overhang_sky
    before_house = ground_before_house_share(array, tilt, azimuth, daylight)
    by_ground = (ground_reflectance_share * before_house * ground_share(tilt)).astype(as_sun)[:, None]
    bare_sky = seen.bare_share[:, None] * even
    bare_ground = skyline_ground = by_ground * daylight.ghi_w_per_m2
    if array.skyline:
        on_ground = ground_w_per_m2(daylight, surroundings)
        if array.facing_reflectance_share:
            lit = faces_lit(array.skyline, array.facing_reflectance_share)
            faces = faces_seen(array, lit, tilt, azimuth, places, in_front)
            stages = bare_sky, skyline_sky, overhang_sky, sky
            on_ground, skyline_sky, overhang_sky, sky = _lit_by_faces(
                faces, daylight, ground_reflectance_share, on_ground, stages
            )
        skyline_ground = by_ground * on_ground
    return _Reached(
        bare_beam=bare_beam,
        beam=beam,
        cosine=cosine,
        bare_sky=bare_sky,
        skyline_sky=skyline_sky,
        overhang_sky=overhang_sky,
        sky=sky,
        even=past_all,
        bare_ground=bare_ground,
        before_house=before_house,
        skyline_ground=skyline_ground,
        ground=skyline_ground if in_front is None else skyline_ground * ground_left.max(axis=1, keepdims=True),
        under=under,
        shading=shading,
    )


def _past_skyline_and_house(
    array: Array,
    azimuth_deg: Floats,
    house_steepness: float | None,
    beam: Floats,
    daylight: Daylight,
    surroundings: Surroundings,
) -> Floats:
    """What skyline and house leave of the beam and circumsolar light on planes, (m, n)."""
    if array.skyline:
        beam = beam * surroundings.skyline_open_share
    if house_steepness is None:
        return beam
    facade = azimuth_deg if array.facade_azimuth_deg is None else np.array([array.facade_azimuth_deg])
    return beam * past_house_share(house_steepness, facade, daylight.sun)


def _lit_by_faces(
    faces: FacesSeen, daylight: Daylight, ground_reflectance_share: float, on_ground: Floats, stages: Sequence[Floats]
) -> list[Floats]:
    """Light on the ground, and each stage of the sky's but the first, with what faces send, none above the one before.

    ``on_ground``: (n,), of which there is never more than with nothing around; ``stages``: (m, n) each.
    """
    most = np.minimum(daylight.even_sky_w_per_m2, daylight.ghi_w_per_m2)
    back, on_ground = thrown_back(faces, ground_reflectance_share, most, on_ground)
    lit = [stages[0]]
    for stage, more in zip(stages[1:], back, strict=True):
        lit.append(np.minimum(stage + more, lit[-1]))
    return [np.minimum(on_ground, daylight.ghi_w_per_m2), *lit[1:]]


def _effective(array: Array, planes: Sequence[Plane], reached: _Reached) -> Floats:
    tilt, _ = _angles(planes)
    beam = reached.beam * modifier(reached.cosine)
    of_sky, of_ground = (through(tilt).astype(beam.dtype)[:, None] for through in (sky_modifier, ground_modifier))
    sky, ground = reached.sky * of_sky, reached.ground * of_ground
    even = sky if reached.even is reached.sky else reached.even * of_sky
    return after_shading(beam + sky + ground, beam, reached.shading, even, ground) * _through(array)


def _angles(planes: Sequence[Plane]) -> tuple[Floats, Floats]:
    return np.array([plane.tilt_deg for plane in planes]), np.array([plane.azimuth_deg for plane in planes])


def _through(array: Array) -> float:
    return 1.0 if array.cover is None else array.cover.light_through_share


def _spread(values: Floats, rows: Ints, hours: int) -> Floats:
    """The only plane's hours with light, (1, n), back in their rows of the year, nought elsewhere."""
    year = np.zeros(hours)
    year[rows] = values[0]
    year.setflags(write=False)
    return year
