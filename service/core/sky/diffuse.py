"""How much of the light on level ground comes from the sun itself, and how much from the rest of the sky?"""

import numpy as np
from scipy.special import expit

from service.core.model.hours import Floats

_LIGHT_W_PER_M2 = 5.0  # outside the air, on a level plane: below it an hour counts as night


def diffuse_share(clearness: Floats, outside_w_per_m2: Floats, sun_height_deg: Floats, solar_h: Floats) -> Floats:
    """Diffuse share of hourly global irradiation, (days, 24).

    B. Ridley, J. Boland and P. Lauret 2010, Renewable Energy 35, 478-483, eq. 8: a logistic curve in the hour's
    clearness, solar time, the sun's height, the day's clearness and the clearness of the hours beside it. Fitted by
    them on seven stations of both hemispheres. Boland's earlier form, in the hour's clearness alone, takes too much
    beam from a low sun: an east or west wall came out 2 points lower with it at four stations.

    Args:
        clearness: (days, 24) global irradiation over that outside the air on a level plane.
        outside_w_per_m2: (days, 24) that outside the air on a level plane.
        sun_height_deg: (days, 24) at mid-hour.
        solar_h: (days, 24) local solar time at mid-hour.
    """
    light = outside_w_per_m2 > _LIGHT_W_PER_M2
    outside_of_day = outside_w_per_m2.sum(axis=1)
    of_day = (clearness * outside_w_per_m2).sum(axis=1) / np.maximum(outside_of_day, 1.0)
    before, after = np.roll(clearness, 1, axis=1), np.roll(clearness, -1, axis=1)
    light_before, light_after = np.roll(light, 1, axis=1), np.roll(light, -1, axis=1)
    beside = np.where(light_before & light_after, (before + after) / 2.0, np.where(light_before, before, after))
    exponent = (
        -5.38
        + 6.63 * clearness
        + 0.006 * solar_h
        - 0.007 * sun_height_deg
        + 1.75 * of_day[:, np.newaxis]
        + 1.31 * beside
    )
    return np.asarray(expit(-exponent), dtype=np.float64)


def diffuse_share_of_minutes(clearness: Floats) -> Floats:
    """Diffuse share of the light within minutes to a quarter-hour, from its clearness alone, any shape.

    J. Boland, J. Huang and B. Ridley 2013, Renewable and Sustainable Energy Reviews 28, 749-756: the logistic curve
    that they fitted to 15-minute values (coefficients as a public library has them). Steps shorter than an hour lack
    the neighbours that ``diffuse_share`` looks at. On a week of 5-minute values of a level and a tilted sensor
    (tests/reference/test_measured_systems.py) it errs less than Erbs' curve.

    >>> [round(float(diffuse_share_of_minutes(np.float64(k))), 3) for k in (0.2, 0.5, 0.75)]
    [0.973, 0.726, 0.234]
    """
    return np.asarray(expit(-8.645 * (clearness - 0.613)), dtype=np.float64)
