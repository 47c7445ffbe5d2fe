"""How much of what the skyline's faces throw back do planes see, and the ground before them?"""

from dataclasses import dataclass
from functools import reduce
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.sky.between_walls import between_walls
from service.core.sky.cell_layout import AT_THE_EDGE, Places
from service.core.sky.dome import (
    height_terms,
    light_past,
    out_of_facade_deg,
    own_horizon,
    slab_edges,
)
from service.core.sky.faces import BANDS, borders, towards
from service.core.sky.horizon import skyline_height_deg
from service.core.sky.house import house_edge
from service.core.sky.in_front import InFront
from service.core.sky.slices import STEEPEST, Slices, slices_of

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FacesSeen:
    """What faces bring, for each of c ways in which they may be bright, as ``faces_seen`` was told them.

    In shares of the light that a level place gets from all around, were it all as bright as 1.

    Attributes:
        on_planes_share: (c, 3, m) past nothing else, past slab and walls, and past all.
        on_ground_share: (c,).
    """

    on_planes_share: Floats
    on_ground_share: Floats


def faces_seen(
    array: Array,
    lit: Floats,
    tilt_deg: Floats,
    azimuth_deg: Floats,
    places: Places = AT_THE_EDGE,
    in_front: InFront | None = None,
) -> FacesSeen:
    """What the faces of an array's skyline do for it, were it in these planes, and for level ground.

    Each slice of what the skyline hides counts by how bright its face is at that height; past all else as far as it is
    seen from all places on the panel. Accuracy and other arguments as ``sky_seen``'s.

    Args:
        array: its skyline, and what stands around it.
        lit: (c, ``SECTORS``, ``BANDS``) how bright faces are, as ``faces_lit``.
        tilt_deg: (m,) of the planes.
        azimuth_deg: (m,) likewise.
        places: on the panel, from which slab and walls are seen, and in which slices.
        in_front: hand rail and row in front of it.
    """
    tilt = tilt_deg[:, None]
    slices = slices_of(places.slice_deg)
    compass = azimuth_deg[:, None] + slices.from_front_deg
    own = own_horizon(tilt, slices.ahead)
    from_facade, turned = out_of_facade_deg(azimuth_deg, array.facade_azimuth_deg, slices)
    if places.house_steepness is not None:
        own = np.maximum(own, house_edge(places.house_steepness, from_facade))
    steep = np.minimum(np.tan(np.radians(skyline_height_deg(array.skyline, compass))), STEEPEST)
    up = borders(steep)
    bright = towards(lit, compass)
    on_ground = (bright[:, :, 0] * -np.diff(1.0 / (1.0 + up[:, 0] * up[:, 0]), axis=0)).sum(axis=1).mean(axis=1)
    step = _steps(bright)

    def light(edges: Floats, part: Floats | float) -> Floats:
        """(c, m) what comes between those heights, (b + 1, m, k), where such a part of each slice is open."""
        return np.asarray(np.einsum("bmk,cbmk->cm", _light_up_to(tilt, np.maximum(edges, own), slices) * part, step))

    bare = past = past_all = light(up, 1.0)
    if array.slab is not None or array.walls or in_front is not None:
        ahead = np.maximum(np.cos(np.radians(from_facade)), 0.0)
        between = between_walls(array.walls, from_facade, slices.step_deg, places, tilt_deg, turned[:, 0])
        part = reduce(np.minimum, (between.open_parts(ends) for ends in places.ends_m)).min(axis=0)
        edges = np.minimum(up, reduce(np.minimum, slab_edges(array.slab, ahead, tilt, turned, places)))
        past = past_all = np.minimum(light(edges, part), bare)
        if in_front is not None:
            lows = np.maximum(edges, own)
            seen = [light_past(in_front, tilt_deg, low, high[:, None], slices.ahead, slices.step_deg).min(axis=1) * part
                    for low, high in pairwise(lows)]  # fmt: skip
            past_all = np.minimum(np.einsum("bmk,cbmk->cm", np.stack(seen), bright), past)
    return FacesSeen(on_planes_share=np.stack((bare, past, past_all), axis=1), on_ground_share=on_ground)


def _steps(bright: Floats) -> Floats:
    """By how much the band below each border is brighter than that above it, (c, b + 1, m, k) of (c, b, m, k)."""
    step = np.zeros((bright.shape[0], BANDS + 1, *bright.shape[2:]))
    step[:, 1:] = bright
    step[:, :-1] -= bright
    return step


def _light_up_to(tilt_deg: Floats, tangent: Floats, slices: Slices) -> Floats:
    """Even light on planes from each slice up to a height, from the level on, (..., m, k), by its tangent.

    As ``light_between``: less what lies below another height it is the light between both.
    """
    tilt = np.radians(tilt_deg)
    square, upright = height_terms(tangent)
    light = (1.0 - square) * np.cos(tilt) + upright * (np.sin(tilt) * slices.ahead)
    return np.asarray(light * (np.radians(slices.step_deg) / (2.0 * np.pi)))
