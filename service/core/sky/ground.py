"""How much light does the ground before a panel get among what makes the skyline, and how much do that thing's faces?

The ground is taken to lie where the panel is: while the sun is behind the skyline it lights no ground either, and of an
even sky the ground keeps what a level place sees over the skyline: cos^2 of its height where that is the same all
around (the configuration factor from an element to a coaxial disk; Siegel and Howell, Thermal Radiation Heat Transfer,
appendix of configuration factors). Higher up, the ground before a house sees no less of the houses opposite.

A face in the skyline sees half the sky and half the ground, less what that takes which stands opposite to it, on the
panel's other side: as the wall of a round court that is as high as that, in the middle of what is seen of it, at half
its angle of height. An element of such a wall sees the opening, z radii above it, with k / 2, where
k = (z^2 + 2) / sqrt(z^2 + 4) - z (an element of a cylinder to its open end, ibid.), the ground likewise, the rest of
the wall with 1 - k. The sun does not shine on faces: while it is before the panel, it is behind them. Light goes to and
fro between them and the ground until it is spent.
"""

from collections.abc import Sequence
from typing import TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.model.place import SkylinePoint
from service.core.sky.horizon import skyline_height_deg

Floats = NDArray[np.float64]
Light = TypeVar("Light", float, Floats)

# Of faces that nobody told: plaster and brick, from memory; glass is darker, white paint twice as bright.
GREY_FACES_SHARE = 0.25
# Of what faces throw back so much goes on between them in a court: brighter ones would stay bright down to its floor.
_MOST_BETWEEN_FACES = 0.7
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


def faces_light(
    facing_share: float, ground_share_back: float, faces_share: float, even_sky_w_per_m2: Light, on_ground: Light
) -> tuple[Light, Light]:
    """What open faces in the skyline throw back, and all light on the ground with what it has from them, W/m2.

    The first is over the light of an even sky that they hide, and never more than that. Of faces that have something
    opposite it is less, as ``dome.faces_seen`` weighs them.

    Args:
        facing_share: of their light that the faces throw back, 0 to 1.
        ground_share_back: likewise of the ground.
        faces_share: what ``dome.faces_seen`` has of level ground.
        even_sky_w_per_m2: on level ground with nothing around, (n,).
        on_ground: ``ground_light``, both together, (n,).
    """
    half = 0.5 * facing_share
    settled = (on_ground + half * faces_share * even_sky_w_per_m2) / (1.0 - half * faces_share * ground_share_back)
    back = np.minimum(half * (even_sky_w_per_m2 + ground_share_back * settled), even_sky_w_per_m2)
    return back, on_ground + faces_share * back


def grey_faces(hidden: float, ground_share_back: float, sky_share: float, even_sky: float, on_ground: float) -> float:
    """What a plane would get from the skyline's faces, were they grey, as in a round court that leaves as much sky.

    Args:
        hidden: of an even sky what the skyline takes from the plane, over any time.
        ground_share_back: of its light that the ground throws back, 0 to 1.
        sky_share: ``sky_over_ground``.
        even_sky: of level ground with nothing around, over the same time.
        on_ground: ``ground_light``, both together, likewise.
    """
    if sky_share <= 0.0 or even_sky <= 0.0:
        return 0.0
    opening = float(face_opening_share(np.sqrt(1.0 / sky_share - 1.0), GREY_FACES_SHARE))
    back, _ = faces_light(GREY_FACES_SHARE, ground_share_back, (1.0 - sky_share) * opening, even_sky, on_ground)
    return hidden * opening * back / even_sky


def face_opening_share(opposite: ArrayLike, facing_share: float) -> Floats:
    """How bright a face is over one with nothing opposite, of which the height's tangent is told: see above.

    >>> face_opening_share([0.0, 1.0], 0.0).round(3).tolist()
    [1.0, 0.539]
    """
    tangent = np.asarray(opposite)
    over = tangent - tangent / (1.0 + np.hypot(1.0, tangent))  # less the tangent of half the angle
    slant = np.sqrt(over * over + 4.0)
    opening = 4.0 / ((over * over + 2.0 + over * slant) * slant)
    return np.asarray(opening / (1.0 - min(facing_share, _MOST_BETWEEN_FACES) * (1.0 - opening)))
