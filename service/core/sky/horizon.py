"""Does the skyline hide the sun, and where does the sky begin?"""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.model.place import SkylinePoint

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

_ONE_DIRECTION_DEG = 1e-9
_LEAST_AROUND = 3  # so many points tell which way round


def clockwise(skyline: Sequence[SkylinePoint]) -> tuple[SkylinePoint, ...] | None:
    """The same ring of points clockwise from north, whichever of them was named first, and whichever way round.

    Points of which no two lie at one azimuth may come in any order. Where two do at unlike heights, the ring has to be
    walked once around, either way, to tell which side of the upright edge is the high one. None: it was not. Four
    points at two azimuths are a ring both ways, of a block or of a gap: they count as told clockwise.

    >>> pairs = ((9, 5), (9, 0), (50, 0), (1, 5))
    >>> edge = [SkylinePoint(azimuth_deg=azimuth, height_deg=height) for azimuth, height in pairs]
    >>> [one.height_deg for one in clockwise(edge)], [one.height_deg for one in clockwise(edge[::-1])]
    ([5, 5, 0, 0], [5, 5, 0, 0])
    """
    ring = sorted(skyline, key=lambda point: point.azimuth_deg)
    edges = any(
        after.azimuth_deg - before.azimuth_deg < _ONE_DIRECTION_DEG and after.height_deg != before.height_deg
        for before, after in pairwise(ring)
    )
    if not edges or len(ring) < _LEAST_AROUND:
        return tuple(ring)
    for walked in (list(skyline), list(reversed(skyline))):
        back = [at for at, one in enumerate(walked) if one.azimuth_deg < walked[at - 1].azimuth_deg]
        if len(back) <= 1:
            first = back[0] if back else 0
            return (*walked[first:], *walked[:first])
    return None


def skyline_height_deg(skyline: Sequence[SkylinePoint], azimuth_deg: ArrayLike) -> Floats:
    """Height of the skyline in a direction, by straight lines between the points, all around the compass.

    Points come as ``clockwise`` puts them; the last joins the first through north. One point alone is a skyline of
    that height all around. Two points at one azimuth are an upright edge: first the height before it, then the height
    behind it, going clockwise. No points: nought.

    Args:
        skyline: the points, as seen from the panel.
        azimuth_deg: (n,) deg, clockwise from north.

    Returns:
        (n,) height above the level, deg.

    >>> hill = [SkylinePoint(azimuth_deg=350, height_deg=10), SkylinePoint(azimuth_deg=30, height_deg=20)]
    >>> [float(skyline_height_deg(hill, azimuth)) for azimuth in (350, 0, 10, 190)]
    [10.0, 12.5, 15.0, 15.0]
    """
    direction = np.mod(np.asarray(azimuth_deg, dtype=np.float64), 360.0)
    if not skyline:
        return np.zeros_like(direction)
    ring = sorted(skyline, key=lambda point: point.azimuth_deg)  # a stable sort keeps the two sides of an edge
    azimuths = np.array([ring[-1].azimuth_deg - 360.0, *(p.azimuth_deg for p in ring), ring[0].azimuth_deg + 360.0])
    heights = [ring[-1].height_deg, *(p.height_deg for p in ring), ring[0].height_deg]
    # Points nearer than any instrument tells apart are an edge: a slope between them could overflow.
    same = np.diff(azimuths) < _ONE_DIRECTION_DEG
    azimuths[1:][same] = azimuths[:-1][same]
    return np.interp(direction, azimuths, heights)


def above_skyline(skyline: Sequence[SkylinePoint], sun_zenith_deg: ArrayLike, sun_azimuth_deg: ArrayLike) -> Bools:
    """Is the sun's middle at or above the skyline? (n,); while it is not, beam and circumsolar light are hidden.

    >>> wall = [SkylinePoint(azimuth_deg=180, height_deg=20)]
    >>> above_skyline(wall, [69.0, 71.0], [180.0, 180.0]).tolist()
    [True, False]
    """
    above: Bools = 90.0 - np.asarray(sun_zenith_deg) >= skyline_height_deg(skyline, sun_azimuth_deg)
    return above
