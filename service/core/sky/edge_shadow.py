"""What do long edges around a panel hide: a slab above, walls beside it, a hand rail before it, the row in front?

Slab, rail and row are as long as the facade or the row, so that only the sun's profile angle matters. Their shadow is a
level band across the panel's face, hard-edged: a slab's without end upwards, a row's without end downwards. A wall's is
a band along the panel, slanted where that leans. What a band costs hangs on how the cells are wired (``cell_layout``).
A string of cells runs at the current of its darkest cell, so a band that covers the share d of a row of cells leaves
the string 1 - d of its beam.

- Upright the sections stand side by side. A level band reaches all three, and no bypass diode helps. Whole cells lie in
  one string: the panel loses d of its beam. Half cells lie in two halves, one above the other, and in each section the
  upper half is parallel to the lower: each gives what its own darkest row leaves, so that the panel loses the mean of
  both d, half of d where the band touches one half. A row of them is half as high. So half cells lose as much as whole
  ones to a band thinner than half a cell, and less to a wider one. A wall's shadow reaches one section after the other.
- Lengthwise the sections lie one above another, and halves side by side: level bands reach one section after the other,
  a wall's shadow one half after the other and all sections alike.
- Of the three sections those with the greatest d may be given up with all their light; the others run on at the
  greatest d among them. The inverter takes the cheapest way.

That a section with a shaded cell is lost whole, unless its panel runs at that cell's current, is the usual rule by
blocks (Martinez-Moreno, Munoz and Lorenzo, Solar Energy Materials and Solar Cells 94 (2010) 2298-2303; Deline and
others, Solar Energy 96 (2013) 274-282; both from memory); that parallel halves add up follows from the circuit.

Against panels reckoned cell by cell with single diodes (``tests/reference/test_bands_across_cells.py``) a band along
the edge of a row is up to a tenth of the power too dear, for a string at a low current has a higher voltage; of half
cells upright 0.03, as the other half holds the voltage. It is up to 0.033 too cheap where bypass diodes drop half a
volt each. A rail's band counts by where it lies among the rows, as far as size and number of cells tell: across two
rows it covers less of the darker one. Under slabs, beside walls and behind rows
(``tests/reference/test_slab_across_cells.py``) the rule leaves at most 0.03 of the power more than the cells, in the
mean 0.06 less; whole years come 0.065 of the bare one below to 0.012 above, behind rails 0.08 below to 0.005 above.
What slab, rail and row hide of the sky is looked up together, from each row of cells (``in_front``); which row the
sun's shadow lies on and which sees the least of the sky is not.
Valid for three sections: a panel with two, lengthwise, loses a half where a third is reckoned; upright it is all one.
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import reduce
from itertools import combinations
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.model.place import SideWall
from service.core.sky.cell_layout import Layout, Parts, across_m, corner_m, half_rows, layout_of, slope_m
from service.core.sky.incidence import direction
from service.core.sky.overhang import slab_shadow_m, turned_m
from service.core.sky.shade import SECTIONS, Shading
from service.core.sky.side_walls import Stands, face_of, stands, wall_shadows_m

Floats = NDArray[np.float64]
Shares = NDArray[np.floating[Any]]
Ways = tuple[tuple[float, Shares], ...]
# What walls darken of the darkest column of each part across, in each string along, or alike in all of them.
Columns = Sequence[Sequence[Shares]]

_LEAST_COSINE = 1e-6


def has_edges(array: Array) -> bool:
    """Does a slab, a side wall, a hand rail or a row in front cast its shadow on this array?"""
    return stands_under_or_beside(array) or stands_behind(array)


def stands_under_or_beside(array: Array) -> bool:
    """A slab or a side wall."""
    return array.slab is not None or bool(array.walls)


def stands_behind(array: Array) -> bool:
    """A hand rail or a row in front, which turn with the panel."""
    return array.hand_rail is not None or array.row_in_front is not None


def ways_past_slab_and_walls(array: Array, tilt_deg: Floats, azimuth_deg: Floats, sun: Floats) -> Ways:
    """``ways_past_edges`` of slab and side walls alone, for light on the front."""
    before = replace(array, hand_rail=None, row_in_front=None)
    return ways_past_edges(before, tilt_deg, azimuth_deg, sun, rear=False)


def ways_past_edges(array: Array, tilt_deg: Floats, azimuth_deg: Floats, sun: Floats, *, rear: bool = True) -> Ways:
    """The ways to run an array's panels behind the shadows of all edges, for m planes.

    Args:
        array: its slab, walls, hand rail, row in front, orientation and panel are used.
        tilt_deg: (m,) of the planes.
        azimuth_deg: (m,) likewise; slab and walls stand square to them unless the array tells its facade.
        sun: (3, n) unit vectors to the sun.
        rear: does light from behind count? Else what is told of suns behind the planes has no meaning.

    Returns:
        As ``ways_past_bands``, of (m, n); none where there is no edge. A rail's band counts by where it lies among the
        rows of cells, whole ones as no less dark than half cells in their place. What slab, rail and row cover in one
        part is added up, lest two thin bands, one in each half, cost whole cells less than half cells; what two of them
        cover counts once. Walls cover columns, and where these cross a dark row, light is left where neither falls. So
        both together leave no more than either alone. The band's penumbra is left out.
    """
    if not has_edges(array):
        return ()
    layout = layout_of(array)
    rows, columns = _dark_parts(array, layout, tilt_deg, azimuth_deg, sun, rear=rear)
    in_series, parallel = crossed(layout, rows, columns)
    in_order = layout.series_along and not stands_behind(array) and len(columns) <= 1
    return ways_past_bands(in_series, parallel, in_order=in_order)


def ways_past_dim_sections(
    array: Array, tilt_deg: Floats, azimuth_deg: Floats, sun: Floats, dims: tuple[Floats, Floats]
) -> tuple[Ways, tuple[tuple[Shares, Shares], ...]]:
    """``ways_past_edges`` of panels whose bypass sections see sky or ground unlike each other, and what each way loses.

    ``dims``: (m, 3) what each section from the upper edge down misses of the even sky, and of the ground, that the one
    which sees most of it sees. The same sections are given up with the sun's light and theirs, whichever of the seven
    choices costs least.
    """
    layout = layout_of(array)
    sections, parallel = crossed(layout, *_dark_parts(array, layout, tilt_deg, azimuth_deg, sun, rear=False))
    if parallel:
        dark = reduce(np.add, parallel) * (1.0 / len(parallel))
        sections = [dark + (1.0 - dark) * section for section in sections]
    ways, dimmed = [], []
    for count in range(SECTIONS, 0, -1):
        for kept in combinations(range(SECTIONS), count):
            share = count / SECTIONS
            ways.append((1.0 - share, reduce(np.maximum, (sections[at] for at in kept)) * share))
            sky, ground = (dim[:, kept].max(axis=1, keepdims=True) * share for dim in dims)
            dimmed.append((sky, ground))
    return tuple(ways), tuple(dimmed)


def shading_past_edges(
    array: Array,
    tilt: Floats,
    azimuth: Floats,
    sun: Floats,
    seen_shares: tuple[Floats, Floats],
    under: Ways,
    by_clock: Shading,
) -> Shading:
    """All shadows of each hour on m planes, of which ``under`` (slab and walls) and ``by_clock`` are known already.

    ``seen_shares``: of the even sky and of the ground what is seen by bypass sections, (m, s) each.
    """
    if not stands_behind(array):
        return replace(by_clock, ways_past_bands=under) if under else by_clock
    sky, ground = seen_shares
    dims = _missing(sky), _missing(ground)
    if not any(dim.any() for dim in dims):
        return replace(by_clock, ways_past_bands=ways_past_edges(array, tilt, azimuth, sun, rear=False))
    ways, dimmed = ways_past_dim_sections(array, tilt, azimuth, sun, dims)
    return replace(by_clock, ways_past_bands=ways, dimmed_past_bands=dimmed)


def _missing(seen_share: Floats) -> Floats:
    """What each section misses of what the one that sees most sees, (m, s)."""
    most = seen_share.max(axis=1, keepdims=True)
    return np.where(most > 0.0, 1.0 - seen_share / np.where(most > 0.0, most, 1.0), 0.0)


def _dark_parts(
    array: Array, layout: Layout, tilt_deg: Floats, azimuth_deg: Floats, sun: Floats, *, rear: bool
) -> tuple[Sequence[Shares], Columns]:
    """What edges darken of the darkest row of each part along, and what walls do of columns."""
    tilt, azimuth = tilt_deg[:, None], azimuth_deg[:, None]
    along = _dark_along(array, layout.along, tilt, azimuth, sun)
    return along, _dark_across(array, layout, tilt, azimuth, sun, rear=rear)


def crossed(layout: Layout, rows: Sequence[Shares], columns: Columns) -> tuple[Sequence[Shares], Sequence[Shares]]:
    """What is dark of parts in series and of parallel ones where rows and columns are, as ``ways_past_bands`` takes it.

    Beside a leaning panel a wall's shadow is slanted, and darkens a section unlike in its two halves, or each section
    unlike: then the parallel parts are added up in each section.
    """
    if len(columns) <= 1:
        alike = columns[0] if columns else ()
        return (rows, alike) if layout.series_along else (alike, rows)
    if layout.series_along:
        means = [reduce(np.add, halves) * (1.0 / len(halves)) for halves in columns]
        return [mean + (1.0 - mean) * row for mean, row in zip(means, rows, strict=True)] if rows else means, ()
    halves = columns
    if rows:
        halves = [[dark + (1.0 - dark) * row for dark in half] for half, row in zip(columns, rows, strict=True)]
    return [reduce(np.add, section) * (1.0 / len(section)) for section in zip(*halves, strict=True)], ()


def ways_past_bands(in_series: Sequence[Shares], parallel: Sequence[Shares], *, in_order: bool = False) -> Ways:
    """What shadows cost that cover so much of the darkest row of cells in each part of a panel.

    Args:
        in_series: 0 to 1, of the bypass sections, each of which may be given up; none: no shadow tells them apart.
        parallel: of the halves, or of whole cells; none likewise. Any shapes that go together.
        in_order: no section is darker than the one before.

    Returns:
        Ways to run the panel, of which the cheapest counts: the share lost of all its light, then of its beam.

    >>> [(float(all_light), beam.tolist()) for all_light, beam in ways_past_bands([], [np.array(0.3), np.array(0.0)])]
    [(0.0, 0.15)]
    """
    dark = reduce(np.add, parallel) * (1.0 / len(parallel)) if parallel else None
    if not in_series:
        return () if dark is None else ((0.0, dark),)
    sections = list(in_series) if in_order else _darkest_first(in_series)
    if dark is not None:
        sections = [dark + (1.0 - dark) * section for section in sections]
    kept = [1.0 - given_up / len(sections) for given_up in range(len(sections))]
    return tuple((1.0 - share, section * share) for share, section in zip(kept, sections, strict=True))


def _darkest_first(shares: Sequence[Shares]) -> list[Shares]:
    """Sorted in every hour: quicker than np.sort along a first axis of three."""
    ordered = list(shares)
    for last in range(len(ordered) - 1, 0, -1):
        for at in range(last):
            pair = ordered[at], ordered[at + 1]
            ordered[at], ordered[at + 1] = np.maximum(*pair), np.minimum(*pair)
    return ordered


def dark_columns(
    walls: Sequence[SideWall], layout: Layout, panels: Stands, out: Shares, right: Shares, *, rear: bool
) -> Columns:
    """What side walls darken of the darkest column of each part from the left on, 0 to 1; none: nothing does.

    Of panels as they stand, (m, n), by suns out of the facade and to the right of that, (n,): in each string along, or
    once for all of them where all panels stand upright. ``rear``: does light from behind count?
    """
    if not walls:
        return []
    ends_m = layout.ends_m[:1] if panels.upright else layout.ends_m
    face = face_of(panels, out, right, rear=rear)
    return [_dark_string(layout.across, wall_shadows_m(walls, panels, ends, out, right, face)) for ends in ends_m]


def _dark_string(parts: Parts, shadows_m: tuple[Shares | None, Shares | None]) -> list[Shares]:
    """By the shadows from the left and from the right."""
    left_m, right_m = shadows_m
    left = () if left_m is None else parts.dark_from_edge(left_m)
    right_first = () if right_m is None else parts.dark_from_edge(right_m)  # parts lie alike from either edge
    if not left or not right_first:
        return list(left or right_first[::-1])
    # What both shadows cover in a part is all of its row, so that it may count twice.
    return [np.minimum(one + other, 1.0) for one, other in zip(left, right_first[::-1], strict=True)]


def _dark_across(
    array: Array, layout: Layout, tilt_deg: Floats, azimuth_deg: Floats, sun: Floats, *, rear: bool
) -> Columns:
    """``dark_columns`` of an array's planes, (m, n)."""
    if not array.walls:
        return []
    turned = azimuth_deg - (azimuth_deg if array.facade_azimuth_deg is None else array.facade_azimuth_deg)
    panels = stands(tilt_deg[:, 0], turned[:, 0], across_m(array))
    return dark_columns(array.walls, layout, panels, *_out_and_right(array, azimuth_deg, sun), rear=rear)


def _dark_along(array: Array, parts: Parts, tilt_deg: Floats, azimuth_deg: Floats, sun: Floats) -> list[Shares]:
    """What slab, hand rail and row in front darken of the darkest row of each part, (m, n); none: nothing does."""
    slab, rail, row = array.slab, array.hand_rail, array.row_in_front
    if slab is None and rail is None and row is None:
        return []
    slope, under = slope_m(array), np.zeros((1, 1), sun.dtype)  # down to where the slab's shadow reaches
    if slab is not None:
        out, _ = _out_and_right(array, azimuth_deg, sun)
        facade = azimuth_deg if array.facade_azimuth_deg is None else array.facade_azimuth_deg
        down, outwards, further_in = turned_m(tilt_deg, azimuth_deg - facade, corner_m(array))
        under = np.clip(slab_shadow_m(slab, down, outwards, out, sun[2], further_in), 0.0, slope)
        if rail is None and row is None:
            return parts.dark_from_edge(under)
    azimuth = np.radians(azimuth_deg)
    out = sun[0] * np.sin(azimuth) + sun[1] * np.cos(azimuth)
    cosine = direction(tilt_deg[:, 0], azimuth_deg[:, 0]).T @ sun
    to_cosine = np.where(cosine > _LEAST_COSINE, 1.0 / np.maximum(cosine, _LEAST_COSINE), 0.0)
    over = np.full_like(cosine, slope)  # from where the row's shadow reaches down
    if row is not None:
        over = slope - np.maximum((row.above_bottom_edge_m * out - row.distance_m * sun[2]) * to_cosine, 0.0)
        over = np.maximum(over, under)
    dark = [parts.covered(np.zeros_like(under), under), parts.covered(over, np.asarray(slope, sun.dtype))]
    if rail is not None:
        low = (rail.distance_m * sun[2] - rail.above_top_edge_m * out) * to_cosine
        high = low - rail.thickness_m * out * to_cosine
        if (tilt_deg < 90.0).any():  # from behind the sun shines over the rail on what leans out past it
            low, high = np.maximum(low, high), np.minimum(low, high)
        dark.append(_by_rail(array, parts, np.maximum(high, under), np.minimum(low, over)))
    return [np.minimum(reduce(np.add, in_part), 1.0) for in_part in zip(*dark, strict=True)]


def _by_rail(array: Array, parts: Parts, from_m: Floats, to_m: Floats) -> list[Shares]:
    """What a rail's band darkens of each part's darkest row; of whole cells no less than of half cells in their place.

    Those would lose more where it lies across two whole rows, half in either half.
    """
    dark = parts.dark_by_band(from_m, to_m)
    if len(parts.ends_m) > 1:
        return dark
    upper, lower = half_rows(array).dark_by_band(from_m, to_m)
    return [np.maximum(dark[0], (upper + lower) / 2.0)]


def _out_and_right(array: Array, azimuth_deg: Floats, sun: Floats) -> tuple[Floats, Floats]:
    """Towards the sun, out of the facade of slab and walls and to the right as one looks out; (m, n) or (1, n)."""
    facade = array.facade_azimuth_deg
    azimuth = np.radians(azimuth_deg if facade is None else np.full((1, 1), facade, sun.dtype))
    return sun[0] * np.sin(azimuth) + sun[1] * np.cos(azimuth), sun[0] * np.cos(azimuth) - sun[1] * np.sin(azimuth)
