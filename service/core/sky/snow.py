"""Which part of the light does snow on the glass take, by the cold of the month and the tilt of the plane?

A rule of thumb: of how much snow falls at a place the climate table knows nothing. Steep planes shed it.
"""

import numpy as np
from numpy.typing import ArrayLike

from service.core.model.hours import Floats, Ints

# A panel that lies flat loses this share of the light of months that are cold throughout; none where the month's mean
# is above the upper bound, on a straight line between. The bounds: rain turns to snow around 1 C (Jennings et al.,
# Nature Communications 9 (2018) 1148, from memory), days scatter by some 4 K around a month's mean. Level: judgement,
# so that yearly losses come out as were measured in Ontario, 1 to 3.5 % from 60 to 5 degrees (Andrews, Pollard and
# Pearce, Solar Energy 92 (2013) 84-97; here 0.7 to 1.9 %), and near Munich, 0.3 to 2.7 % at 28 degrees (here 0.6 %),
# all from memory. Where five metres fall a year, as in upper Michigan, 5 to 12 % were measured: places equally cold
# differ by far more than a factor of two.
MOST_SHARE = 0.12
NONE_ABOVE_C, ALL_BELOW_C = 5.0, -5.0


def snow_share(month_air_c: ArrayLike) -> Floats:
    """The share of a month's light that snow takes from panels that lie flat, by the month's mean air temperature, C.

    >>> snow_share([6.0, 0.0, -20.0]).tolist()
    [0.0, 0.06, 0.12]
    """
    cold = (NONE_ABOVE_C - np.asarray(month_air_c, np.float64)) / (NONE_ABOVE_C - ALL_BELOW_C)
    return np.asarray(MOST_SHARE * np.clip(cold, 0.0, 1.0))


def snow_of_hours(air_c: Floats, month: Ints, lacking_h: ArrayLike = 0, rest_c: ArrayLike = 0.0) -> Floats | None:
    """What snow takes of the light on flat panels in each hour, (n,), by the mean air of its month.

    Args:
        air_c: (n,) air temperature.
        month: (n,) which of the months each hour lies in, 0 to m - 1; each has an hour.
        lacking_h: (m,) hours of each month that are not there.
        rest_c: (m,) mean air of those hours.

    None where no month is cold.
    """
    hours = np.bincount(month)
    lacking = np.asarray(lacking_h, np.float64)
    by_month = snow_share((np.bincount(month, air_c) + lacking * np.asarray(rest_c)) / (hours + lacking))
    return by_month[month] if by_month.any() else None


def stays_share(tilt_deg: ArrayLike) -> Floats:
    """How long snow stays on a plane, over how long it stays on a flat one: cos^2 of the tilt.

    That is the tilt's part in the formula of Townsend and Powers, "Photovoltaics and snow: an update from two winters
    of measurements in the Sierra", IEEE PVSC 37 (2011) 3231-3236, doi 10.1109/PVSC.2011.6186627.

    >>> stays_share([0.0, 60.0, 90.0]).round(3).tolist()
    [1.0, 0.25, 0.0]
    """
    return np.asarray(np.cos(np.radians(tilt_deg)) ** 2)
