"""What does the house hide on which panels hang, or before which they stand?

Its facade is taken as long, and as high as the building is told or assumed over the panel's upper edge, some way behind
that: at a railing as deep as a balcony is, at a wall right behind. Of an even sky and of the sun what stands lower than
its roof edge is hidden behind; in front nothing. So an upright panel that looks straight out loses nothing, a flat one
almost half. The facade is black: what it throws back is not counted. Where a slab is told, that brings a facade without
end, and nothing is looked up here. A side wall hides its own side alone, so that beside one the house stands as ever.
"""

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from service.core.model.facts import Array
from service.core.model.hours import Floats
from service.core.sky.slices import STEEPEST
from service.core.sky.transposition import sky_share

# From the upper edge back to the facade, m: balconies are some 1.2 m deep, on their floor a panel leans near the wall.
# From memory; three metres of house over them hide all but the last 2 to 22 degrees up to the zenith.
DEPTH_M: Mapping[str, float] = MappingProxyType(
    {"hung_on_rail": 1.2, "behind_rail": 1.1, "balcony_floor": 0.5, "wall": 0.1}
)
_UPRIGHT_DEG = 90.0


def house_steepness(array: Array) -> float | None:
    """Tangent of the height of the house's roof edge, seen straight back from the panel's upper edge.

    None where the panels are at no house, it ends below them or its height is not known, or a slab brings it.
    """
    building_m = None if array.fixing is None else array.fixing.building_height_m
    depth_m = DEPTH_M.get(array.mount)
    if depth_m is None or building_m is None or array.slab is not None:
        return None
    above_m = building_m - array.height_above_ground_m
    return above_m / depth_m if above_m > 0.0 else None


def house_hiding(array: Array, tilt_deg: Floats, azimuth_deg: Floats) -> float | None:
    """``house_steepness``, but None where all planes (m,) stand upright and square to the facade: it hides nothing."""
    steepness = house_steepness(array)
    if steepness is None:
        return None
    facade = azimuth_deg if array.facade_azimuth_deg is None else array.facade_azimuth_deg
    square = (tilt_deg == _UPRIGHT_DEG) & ((azimuth_deg - facade) % 360.0 == 0.0)
    return None if square.all() else steepness


def past_house_share(steepness: float, facade_azimuth_deg: Floats, sun: Floats) -> Floats:
    """1 while the sun stands before the facade or over its roof edge, else 0, (m, n).

    Args:
        steepness: ``house_steepness``.
        facade_azimuth_deg: (m,) the way facades look.
        sun: (3, n) unit vectors to the sun.

    >>> to_sun = np.array([[0.0, 0.0, 0.0], [-0.6, 0.6, 0.1], [0.8, 0.8, 0.99]])
    >>> past_house_share(1.0, np.array([180.0]), to_sun).tolist()
    [[1.0, 1.0, 1.0]]
    >>> past_house_share(4.0, np.array([180.0]), to_sun).tolist()
    [[1.0, 0.0, 1.0]]
    """
    facade = np.radians(facade_azimuth_deg)[:, None].astype(sun.dtype)
    back = -(np.sin(facade) * sun[0] + np.cos(facade) * sun[1])
    return np.asarray(sun[2] >= steepness * back, sun.dtype)


def sky_past_house_share(steepness: float, tilt_deg: Floats, from_facade_deg: Floats) -> Floats:
    """Share of an even sky's light on level ground that reaches planes past a house alone, (m,).

    What is left of the sky lies above the ground, before the roof edge's great circle and before the plane: a triangle
    on the sphere. Of such a one a plane gets the sum over its sides of their lengths times the cosines between their
    poles and the plane's (Lambert), over 2 pi. Exact.

    Args:
        steepness: ``house_steepness``.
        tilt_deg: (m,) 0 to 90.
        from_facade_deg: (m,) how far planes are turned out of their facade.

    >>> sky_past_house_share(1.0, np.array([0.0, 45.0, 90.0]), np.zeros(3)).round(4).tolist()
    [0.8536, 0.8536, 0.5]
    """
    tilt, turn = np.radians(tilt_deg), np.radians(from_facade_deg)
    level, upright = np.cos(tilt), np.sin(tilt)
    ahead, aside = np.cos(turn), np.abs(np.sin(turn))
    out = 1.0 / np.hypot(1.0, steepness)  # of the pole of the roof edge's circle, upwards
    over = steepness * out
    along_ground = np.pi - np.arctan2(aside, ahead)
    along_roof = np.pi - np.arctan2(upright * aside, over * level - out * upright * ahead)
    along_plane = np.pi - np.arctan2(over * aside, out * upright - over * level * ahead)
    light = along_ground * level + along_roof * (over * upright * ahead + out * level) + along_plane
    return np.asarray(np.minimum(light / (2.0 * np.pi), sky_share(tilt_deg)))


def house_edge(steepness: float, from_facade_deg: Floats) -> Floats:
    """Tangent of the height of a house's roof edge in slices that look so far out of its facade; nought in front."""
    return np.clip(-steepness * np.cos(np.radians(from_facade_deg)), 0.0, STEEPEST)
