"""Where does the sun stand as seen from the earth's centre, at midnight of each day of the reference year?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SunDays:
    """The geocentric sun at 00:00 universal time of consecutive days; read-only arrays of one shape (n,).

    Attributes:
        first_day: the first row's date.
        declination_deg: north positive.
        greenwich_hour_angle_deg: within some 4 degrees of 180, from which it differs by the equation of time.
        distance_au: from the earth to the sun.
    """

    first_day: np.datetime64
    declination_deg: Floats
    greenwich_hour_angle_deg: Floats
    distance_au: Floats
