"""What does a long level edge before the panel hide: a hand rail over its top row, or the row of panels in front?

Both are as long as the facade or the row, so that only the sun's profile angle matters. Their shadow is a level band
across the panel's face, hard-edged, and what it costs hangs on how the cells are wired. A panel has three bypass
sections, each a third of its width and as long as it. A string of cells runs at the current of its darkest cell, so a
band that covers the share d of a row of cells leaves the string 1 - d of its beam.

- Upright the sections stand side by side. A band reaches all three, and no bypass diode helps. Whole cells lie in one
  string: the panel loses d of its beam. Half cells lie in two halves, one above the other, and in each section the
  upper half is parallel to the lower: each gives what its own darkest row leaves, so that the panel loses the mean of
  both d, half of d where the band touches one half. A row of them is half as high. So half cells lose as much as whole
  ones to a band thinner than half a cell, and less to a wider one.
- Lengthwise the sections lie one above another, and halves side by side, touched alike. Of the three sections those
  with the greatest d may be given up with all their light; the others run on at the greatest d among them. The inverter
  takes the cheapest way.

That a section with a shaded cell is lost whole, unless its panel runs at that cell's current, is the usual rule by
blocks (Martinez-Moreno, Munoz and Lorenzo, Solar Energy Materials and Solar Cells 94 (2010) 2298-2303; Deline and
others, Solar Energy 96 (2013) 274-282; both from memory); that parallel halves add up follows from the circuit.

Against panels reckoned cell by cell with single diodes (``tests/reference/test_bands_across_cells.py``) a band along
the edge of a row is up to a tenth of the power too dear, for a string at a low current has a higher voltage; of half
cells upright 0.03, as the other half holds the voltage. It is up to 0.033 too cheap where bypass diodes drop half a
volt each. A band that lies across two rows is dearer here than there: one of 5 cm, wherever it lies upright, with four
fifths of the light from the sun, costs half cells 0.18 and whole ones 0.13 in the mean, and 0.235 of both by this rule.
Valid for three sections: a panel with two, lengthwise, loses a half where a third is reckoned; upright it is all one.
"""

from dataclasses import replace
from itertools import pairwise

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
        The same where there is neither, else with the ways past the bands, shares of (m, n). Where a band's edge lies
        among the rows of cells is not known: it counts as if it fell on one row as far as that row is high, which is
        the most that it can cover; a rail's and a row's are added up, lest two thin ones, one in each half, cost whole
        cells less than half cells. The band's penumbra is left out, and so is the sky that a hand rail hides.
    """
    if not has_edges(array):
        return shading
    azimuth = np.radians(azimuth_deg)[:, None]
    out = sun[0] * np.sin(azimuth) + sun[1] * np.cos(azimuth)
    seen = (out > _LEAST_COSINE) & (cosine > _LEAST_COSINE)
    slope = slope_m(array)
    to_cosine = np.where(seen, 1.0 / np.maximum(cosine, _LEAST_COSINE), 0.0)
    parts, row_m = _parts_and_row(array)
    edges = np.linspace(MARGIN_M, slope - MARGIN_M, parts + 1)
    dimmed = np.zeros((parts, *cosine.shape))

    def band(low_m: Floats, high_m: Floats) -> None:
        """A shadow between two heights along the slope, from the lower edge."""
        for part, (low, high) in enumerate(pairwise(edges)):
            covered = np.minimum(high_m, high) - np.maximum(low_m, low)
            dimmed[part] += np.where(seen, np.clip(covered / row_m, 0.0, 1.0), 0.0)

    if (rail := array.hand_rail) is not None:
        top = slope + (rail.above_top_edge_m * out - rail.distance_m * sun[2]) * to_cosine
        band(top, top + rail.thickness_m * out * to_cosine)
    if (row := array.row_in_front) is not None:
        top = (row.above_bottom_edge_m * out - row.distance_m * sun[2]) * to_cosine
        band(np.zeros_like(top), top)
    ways = ways_past_bands(np.minimum(dimmed, 1.0), one_above_another=array.orientation == "lengthwise")
    return replace(shading, ways_past_bands=ways)


def ways_past_bands(dimmed: Floats, *, one_above_another: bool) -> tuple[tuple[float, Floats], ...]:
    """What bands cost that cover so much of the darkest row of cells in each part of a panel, parts in the first axis.

    Args:
        dimmed: (k, ...) 0 to 1; of the k bypass sections, or of the halves of an upright panel (one half: whole cells).
        one_above_another: are the parts sections in series, of which each may be given up? Else they are parallel.

    Returns:
        Ways to run the panel, of which the cheapest counts: the share lost of all its light, then of its beam, (...).

    >>> [(float(all_light), beam.tolist()) for all_light, beam in ways_past_bands(
    ...     np.array([[0.3], [0.0]]), one_above_another=False)]
    [(0.0, [0.15])]
    """
    if not one_above_another:
        return ((0.0, np.asarray(dimmed.mean(axis=0))),)
    count, darkest_first = dimmed.shape[0], list(dimmed)
    for last in range(count - 1, 0, -1):  # quicker than np.sort along a first axis of three
        for at in range(last):
            pair = darkest_first[at], darkest_first[at + 1]
            darkest_first[at], darkest_first[at + 1] = np.maximum(*pair), np.minimum(*pair)
    return tuple((given_up / count, (1.0 - given_up / count) * darkest_first[given_up]) for given_up in range(count))


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
    """How many sections or halves a panel has one above another, and how high a row of its cells is, m."""
    if array.orientation == "lengthwise":
        return SECTIONS, CELL_M
    return (2, CELL_M / 2.0) if array.panel.half_cells else (1, CELL_M)
