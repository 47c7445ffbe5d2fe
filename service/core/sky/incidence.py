"""At which angle does the light meet the panel, and how much of it passes the glass?"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.model.place import Plane
from service.core.sky.hemisphere import GROUND_AVERAGE, SKY_AVERAGE

Floats = NDArray[np.float64]

# One sheet of plain glass, after De Soto, Klein & Beckman, Solar Energy 80 (2006) 78-88, section 2.3.
GLASS_REFRACTIVE_INDEX = 1.526
GLASS_EXTINCTION_PER_M = 4.0
GLASS_THICKNESS_M = 0.002

_TILTS_DEG = np.arange(91.0)


def direction(zenith_deg: ArrayLike, azimuth_deg: ArrayLike) -> Floats:
    """Unit vectors to the sun, or outwards from planes of this tilt and azimuth: rows east, north, up.

    Args:
        zenith_deg: (n,) or a number, from overhead.
        azimuth_deg: (n,) or a number, clockwise from north.

    Returns:
        (3, n), or (3,) for numbers.
    """
    zenith, azimuth = np.radians(zenith_deg), np.radians(azimuth_deg)
    level = np.sin(zenith)
    return np.stack(np.broadcast_arrays(level * np.sin(azimuth), level * np.cos(azimuth), np.cos(zenith)))


def cos_incidence(sun_zenith_deg: ArrayLike, sun_azimuth_deg: ArrayLike, plane: Plane) -> Floats:
    """Cosine of the angle between the sun and the plane's normal; negative while the sun stands behind the plane.

    Args:
        sun_zenith_deg: (n,) or a number, from overhead, deg.
        sun_azimuth_deg: (n,) or a number, clockwise from north, deg.
        plane: the plane of the panel.

    Returns:
        (n,) cosines, -1 to 1. Duffie & Beckman, Solar Engineering of Thermal Processes, 4th ed., eq. 1.6.3.

    >>> round(float(cos_incidence(32.0, 172.0, Plane(tilt_deg=30, azimuth_deg=180))), 5)
    0.99681
    """
    cosine: Floats = np.tensordot(
        direction(plane.tilt_deg, plane.azimuth_deg), direction(sun_zenith_deg, sun_azimuth_deg), axes=1
    )
    return np.clip(cosine, -1.0, 1.0)


def incidence_angle_deg(sun_zenith_deg: ArrayLike, sun_azimuth_deg: ArrayLike, plane: Plane) -> Floats:
    """The angle between the sun and the plane's normal, 0 to 180 deg; over 90 the sun stands behind the plane.

    >>> round(float(incidence_angle_deg(50.0, 265.0, Plane(tilt_deg=90, azimuth_deg=90))), 2)
    139.74
    """
    return np.degrees(np.arccos(cos_incidence(sun_zenith_deg, sun_azimuth_deg, plane)))


def modifier(cosine: ArrayLike) -> Floats:
    """Share of light at this incidence that passes the glass, relative to square incidence; 0 from behind.

    Reflection at the front (Fresnel, Snell) and absorption on the longer way through the glass (Bouguer); no
    coating, no dirt, one surface. Monotone in the cosine.

    Args:
        cosine: (n,) or a number, cosine of the incidence angle.

    Returns:
        (n,) between 0 and 1. De Soto, Klein & Beckman, Solar Energy 80 (2006), eqs. 9 to 11.

    >>> [round(float(modifier(np.cos(np.radians(angle)))), 4) for angle in (0, 60, 80)]
    [1.0, 0.946, 0.6341]
    """
    n = GLASS_REFRACTIVE_INDEX
    k_l = GLASS_EXTINCTION_PER_M * GLASS_THICKNESS_M
    c = np.minimum(np.maximum(cosine, 0.0), 1.0)
    c_r = np.sqrt((1.0 - 1.0 / (n * n)) + c * c * (1.0 / (n * n)))
    # Passed across the plane of incidence, 1 - ((c - n c_r)/(c + n c_r))^2 = 4 n c c_r / (c + n c_r)^2; along alike.
    across, along = c + n * c_r, c_r + n * c
    passed = (c * c_r) * (1.0 / (across * across) + 1.0 / (along * along))
    square_on = 2.0 / ((1.0 + n) * (1.0 + n))
    share: Floats = passed * np.exp(k_l - k_l / c_r) * (1.0 / square_on)
    return np.minimum(share, 1.0)


def sky_modifier(tilt_deg: ArrayLike) -> Floats:
    """Average of the modifier over the even sky that planes of this tilt see, (m,) or a number, 0 to 90 deg.

    >>> round(float(sky_modifier(30.0)), 4)
    0.9577
    """
    average: Floats = np.interp(np.asarray(tilt_deg, dtype=np.float64), _TILTS_DEG, SKY_AVERAGE)
    return average


def ground_modifier(tilt_deg: ArrayLike) -> Floats:
    """Average of the modifier over the even ground that planes of this tilt see, (m,) or a number, 0 to 90 deg.

    Between whole degrees within 0.0005, at tilts under 2 deg, where hardly any ground is seen.

    >>> round(float(ground_modifier(30.0)), 4)
    0.7598
    """
    average: Floats = np.interp(np.asarray(tilt_deg, dtype=np.float64), _TILTS_DEG, GROUND_AVERAGE)
    return average
