"""What does a long level edge before the panel hide: a hand rail over its top row, or the row of panels in front?

Both are as long as the facade or the row, so that only the sun's profile angle matters. Their shadow is a level band
across the panel's face, hard-edged, and what it costs hangs on how the cells are wired. Of a panel's three bypass
sections, each is a third of its width and as long as it: they stand side by side where the panel stands upright, so
that a band across a row of cells reaches all three, and lie one above another where it lies lengthwise. Half cells are
wired as two halves in parallel, one above another in an upright panel: a band in one leaves the other at work. That
a section with a shaded cell is lost whole, unless its panel runs at that cell's current, is the usual rule by blocks
(Martinez-Moreno, Munoz and Lorenzo, Solar Energy Materials and Solar Cells 94 (2010) 2298-2303; Deline and others,
Solar Energy 96 (2013) 274-282; both from memory).
"""

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.sky.shade import SECTIONS, Shading

Floats = NDArray[np.float64]

# The frame and the margin around the cells; a whole cell is 156 to 182 mm wide (trade figures, from memory).
MARGIN_M, CELL_M = 0.02, 0.17
_LEAST_COSINE = 1e-6


def has_edges(array: Array) -> bool:
    """Does a hand rail or a row in front cast its band on this array?"""
    return array.hand_rail is not None or array.row_in_front is not None


def slope_m(array: Array) -> float:
    """How far it is from the panel's lower to its upper edge, along the panel."""
    long, short = array.panel.length_mm, array.panel.width_mm
    lengthwise = array.orientation == "lengthwise"
    return (min(long, short) if lengthwise else max(long, short)) / 1000.0


def with_edges(array: Array, azimuth_deg: Floats, sun: Floats, cosine: Floats, shading: Shading) -> Shading:
    """The shadows of the hours with those of a hand rail and a row in front, for m planes of an array.

    Args:
        array: its hand rail, row in front, orientation and panel are used.
        azimuth_deg: (m,) of the planes.
        sun: (3, n) unit vectors to the sun.
        cosine: (m, n) of incidence, 0 where the sun is behind.
        shading: the other shadows, (n,).

    Returns:
        The same where there is neither, else shadows of (m, n). The band's penumbra is left out, and so is the sky
        that a hand rail hides.
    """
    if not has_edges(array):
        return shading
    azimuth = np.radians(azimuth_deg)[:, None]
    out = sun[0] * np.sin(azimuth) + sun[1] * np.cos(azimuth)
    seen = (out > _LEAST_COSINE) & (cosine > _LEAST_COSINE)
    slope = slope_m(array)
    to_cosine = np.where(seen, 1.0 / np.maximum(cosine, _LEAST_COSINE), 0.0)
    lost, dimmed = np.zeros_like(cosine), np.zeros_like(cosine)

    def band(low_m: Floats, high_m: Floats) -> None:
        """A shadow between two heights along the slope, from the lower edge."""
        low = np.maximum(low_m, MARGIN_M) / slope
        high = np.minimum(high_m, slope - MARGIN_M) / slope
        touched = seen & (high > low)
        lost[:] += np.where(touched, (np.ceil(high * parts) - np.floor(low * parts)) / parts, 0.0)
        dimmed[:] = np.maximum(dimmed, np.where(touched, np.minimum((high - low) * slope / row_m, 1.0), 0.0))

    parts, row_m = _parts_and_row(array)
    if (rail := array.hand_rail) is not None:
        top = slope + (rail.above_top_edge_m * out - rail.distance_m * sun[2]) * to_cosine
        band(top, top + rail.thickness_m * out * to_cosine)
    if (row := array.row_in_front) is not None:
        top = (row.above_bottom_edge_m * out - row.distance_m * sun[2]) * to_cosine
        band(np.zeros_like(top), top)
    return Shading(
        beam_through_share=shading.beam_through_share,
        sections_lost_share=np.minimum(shading.sections_lost_share + lost, 1.0),
        hard_time_share=np.maximum(shading.hard_time_share, dimmed),
    )


def sky_behind_row(array: Array, tilt_deg: Floats) -> Floats:
    """The part of an even sky that the row in front hides from planes of these tilts, (m,), seen from their middle.

    Between the level and an edge at the profile angle p a plane at tilt t sees (cos t - cos(t + p)) / 2 of it.
    """
    row = array.row_in_front
    if row is None:
        return np.zeros_like(tilt_deg)
    tilt, half = np.radians(tilt_deg), slope_m(array) / 2.0
    over = np.maximum(row.above_bottom_edge_m - half * np.sin(tilt), 0.0)
    profile = np.arctan2(over, row.distance_m + half * np.cos(tilt))
    return np.asarray((np.cos(tilt) - np.cos(tilt + profile)) / 2.0)


def _parts_and_row(array: Array) -> tuple[int, float]:
    """In how many parts, one above another, a panel works apart, and how high a row of its cells is, m."""
    if array.orientation == "lengthwise":
        return SECTIONS, CELL_M
    return (2, CELL_M / 2.0) if array.panel.half_cells else (1, CELL_M)
