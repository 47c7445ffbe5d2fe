"""What else changes with the clouds: how far does a plane's light move, and which hours move, when level ground's does?

A brighter climate or year has fewer clouds; its clear hours are no brighter. So the sun's own light gains most, a plane
that faces it gains more than level ground, and hours near a limit gain least.
"""

from math import cos, radians

import numpy as np

from service.core.model.hours import Floats, SkyYear

# Of 1 % more light on level ground the sun's own has 2.2 % more. Chosen on own runs of ``typical_year`` with its
# monthly indices moved by 2 % each way, 13 places from 65 N to 37 S, no station in it. What the sky has follows, as
# both make up the light.
SUN_MOVES = 2.2
_CLEAREST = 1.12  # an hour of this clear-sky index has no cloud to lose
_LEAST_CLEAR_W_PER_M2 = 20.0


def plane_moves(sky: SkyYear, open_light_kwh_per_m2: float, tilt_deg: float, ground_reflectance_share: float) -> float:
    """Relative change of a plane's yearly light over that of level ground, when climate or year are cloudier.

    Args:
        sky: the year.
        open_light_kwh_per_m2: on the bare plane over the year.
        tilt_deg: of the plane.
        ground_reflectance_share: of the ground before it.

    Returns:
        At least 1, which level ground has: a plane with its back to the sun moves less than that, or against it, but
        how the light parts into the sun's and the sky's is then as much in doubt as how much there is. Within 0.08 of
        ``typical_year`` asked again (root mean square 0.02), for planes of 35 to 90 degrees from east over the
        equator's side to west at those 13 places.

    >>> import types
    >>> even = types.SimpleNamespace(ghi_w_per_m2=np.array([500.0]), dhi_w_per_m2=np.array([250.0]))
    >>> round(plane_moves(even, 0.6, 30.0, 0.2), 3)
    1.254
    """
    level, sky_light = (float(np.sum(light)) / 1000.0 for light in (sky.ghi_w_per_m2, sky.dhi_w_per_m2))
    total = open_light_kwh_per_m2
    if total <= 0.0 or sky_light <= 0.0:
        return 1.0
    sky_moves = (level - SUN_MOVES * (level - sky_light)) / sky_light
    tilt_cosine = cos(radians(tilt_deg))
    from_sky = sky_light * (1.0 + tilt_cosine) / 2.0
    from_ground = ground_reflectance_share * level * (1.0 - tilt_cosine) / 2.0
    from_sun = total - from_sky - from_ground
    return max((SUN_MOVES * from_sun + sky_moves * from_sky + from_ground) / total, 1.0)


def cloud_to_lose(sky: SkyYear) -> Floats:
    """(n,) how much an hour's relative light moves with the clouds, up to a factor that is common to all hours.

    A straight line in the hour's clear-sky index, nought where there is no cloud: ``typical_year`` asked again moves
    hours of index 0.3, 0.6, 0.9 and 1.05 by 2.0, 1.7, 1.1 and 0.5 times the year's share in cloudy climates, where the
    line has 2.5, 1.7, 0.6 and 0.3.
    """
    clear = np.maximum(sky.clear_ghi_w_per_m2, _LEAST_CLEAR_W_PER_M2)
    return np.asarray(np.clip(_CLEAREST - sky.ghi_w_per_m2 / clear, 0.0, None))
