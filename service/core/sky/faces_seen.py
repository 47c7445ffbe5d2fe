"""How much of what the skyline's faces throw back do planes see, and the ground before them?"""

from dataclasses import dataclass
from functools import reduce

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.sky.between_walls import between_walls
from service.core.sky.cell_layout import AT_THE_EDGE, Places
from service.core.sky.dome import (
    STEEPEST,
    light_between,
    light_past,
    out_of_facade_deg,
    own_horizon,
    slab_edges,
    slices_of,
)
from service.core.sky.faces import BANDS, borders, towards
from service.core.sky.horizon import skyline_height_deg
from service.core.sky.in_front import InFront

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
    steep = np.minimum(np.tan(np.radians(skyline_height_deg(array.skyline, compass))), STEEPEST)
    edges_up = list(np.moveaxis(borders(steep), -1, 0))
    bright = towards(lit, compass)
    upwards = [1.0 / (1.0 + edge[0] * edge[0]) for edge in edges_up]
    bands = [upwards[band] - upwards[band + 1] for band in range(BANDS)]
    on_ground = (np.stack(bands, axis=1) * bright[:, 0]).sum(axis=2).mean(axis=1)

    def light(highs: list[Floats]) -> Floats:
        """(c, m, k) what comes of each slice up to those heights above each border."""
        parts = [light_between(tilt, np.maximum(own, low), [high], slices.ahead, slices.step_deg)
                 for low, high in zip(edges_up, highs, strict=False)]  # fmt: skip
        return np.asarray(np.einsum("bmk,cmkb->cmk", np.stack(parts), bright))

    bare = past = past_all = light(edges_up[1:]).sum(axis=2)
    if array.slab is not None or array.walls or in_front is not None:
        from_facade, turned = out_of_facade_deg(azimuth_deg, array.facade_azimuth_deg, slices)
        ahead = np.maximum(np.cos(np.radians(from_facade)), 0.0)
        between = between_walls(array.walls, from_facade, slices.step_deg, places, tilt_deg, turned[:, 0])
        weight = reduce(np.minimum, (between.open_parts(ends) for ends in places.ends_m)).min(axis=0)
        edge = reduce(np.minimum, slab_edges(array.slab, ahead, tilt, turned, places))
        highs = [np.minimum(edge, border) for border in edges_up[1:]]
        past = past_all = np.minimum((light(highs) * weight).sum(axis=2), bare)
        if in_front is not None:
            parts = [light_past(in_front, tilt_deg, np.maximum(own, low), high[:, None], slices.ahead, slices.step_deg)
                     for low, high in zip(edges_up, highs, strict=False)]  # fmt: skip
            seen = np.einsum("bmk,cmkb->cmk", np.stack([part.min(axis=1) for part in parts]), bright)
            past_all = np.minimum((seen * weight).sum(axis=2), past)
    return FacesSeen(on_planes_share=np.stack((bare, past, past_all), axis=1), on_ground_share=on_ground)
