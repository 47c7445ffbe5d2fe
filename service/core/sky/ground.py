"""How much light does the ground before a panel get among what makes the skyline, and how much do that thing's faces?

The ground is taken to lie where the panel is: while the sun is behind the skyline it lights no ground either, and of an
even sky the ground keeps what a level place sees over the skyline: cos^2 of its height where that is the same all
around (the configuration factor from an element to a coaxial disk; Siegel and Howell, Thermal Radiation Heat Transfer,
appendix of configuration factors). Higher up, the ground before a house sees no less of the houses opposite.

What makes the skyline throws light back to the panel and to the ground, as bright as ``sky.faces`` finds it by the sky
and by the ground; and so does the ground to it. The sun does not shine on faces: while it is before the panel, it is
behind them.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from service.core.model.place import SkylinePoint
from service.core.sky.faces_seen import FacesSeen
from service.core.sky.horizon import skyline_height_deg

Floats = NDArray[np.float64]

# Of light in a closed court so much is left at most when it has been to the faces and back: rounding could make it all.
_MOST_KEPT = 0.999
_COMPASS_DEG = np.arange(0.5, 360.0)
_COMPASS_DEG.setflags(write=False)


def sky_over_ground(skyline: Sequence[SkylinePoint]) -> float:
    """Share of an even sky's light that level ground keeps past a skyline: the mean of the square of its cosine.

    >>> round(sky_over_ground([SkylinePoint(azimuth_deg=0, height_deg=60)]), 4)
    0.25
    """
    return float(np.square(np.cos(np.radians(skyline_height_deg(skyline, _COMPASS_DEG)))).mean()) if skyline else 1.0


def ground_light(
    even_sky_w_per_m2: Floats, ghi_w_per_m2: Floats, skyline_open_share: Floats, sky_share: float
) -> tuple[Floats, Floats]:
    """Light on the ground past the skyline, from the sun and from the even sky, W/m2, (n,) each.

    Args:
        even_sky_w_per_m2: of level ground with nothing around.
        ghi_w_per_m2: likewise, all light.
        skyline_open_share: 1 while the sun stands above the skyline, else 0.
        sky_share: ``sky_over_ground``.
    """
    even = np.minimum(even_sky_w_per_m2, ghi_w_per_m2)
    return (ghi_w_per_m2 - even) * skyline_open_share, even * sky_share


def thrown_back(
    seen: FacesSeen, ground_share_back: float, even_sky_w_per_m2: Floats, on_ground: Floats
) -> tuple[Floats, Floats]:
    """What faces throw back to planes, (3, m, n), and all light on the ground with what it has from them, (n,); W/m2.

    The first is never more than what the even sky would bring that they hide.

    Args:
        seen: of ``faces_lit``, and what comes after it is left out; the three stages are those of the first result.
        ground_share_back: of its light that the ground throws back, 0 to 1.
        even_sky_w_per_m2: on level ground with nothing around, (n,).
        on_ground: ``ground_light``, both together, (n,).
    """
    from_sky, from_ground = seen.on_ground_share[:2]
    settled = (on_ground + from_sky * even_sky_w_per_m2) / (1.0 - min(from_ground * ground_share_back, _MOST_KEPT))
    by_sky, by_ground, as_sky = seen.on_planes_share[:3, ..., None].astype(settled.dtype)
    back = by_sky * even_sky_w_per_m2 + by_ground * (ground_share_back * settled)
    return np.minimum(back, as_sky * even_sky_w_per_m2), settled
