"""Into which slices of azimuth is the sky cut, in each of which an obstacle has one height?"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from service.core.model.hours import Floats

# Stands for the tangent of a right angle; its square still fits into a number.
STEEPEST = 1e12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Slices:
    """Slices of azimuth, k of 360 / ``step_deg``, each of (k,).

    Attributes:
        from_front_deg: from straight behind on the left over the front (0) to straight behind on the right.
        ahead: the cosine of these.
        compass_deg: their middles by the compass, from north.
    """

    step_deg: float
    from_front_deg: Floats
    ahead: Floats
    compass_deg: Floats


@cache
def slices_of(step_deg: float) -> Slices:
    """Those of this width, read-only."""
    from_front = np.arange(-180.0 + step_deg / 2.0, 180.0, step_deg)
    ahead, compass = np.cos(np.radians(from_front)), np.arange(step_deg / 2.0, 360.0, step_deg)
    for one in (from_front, ahead, compass):
        one.setflags(write=False)
    return Slices(step_deg=step_deg, from_front_deg=from_front, ahead=ahead, compass_deg=compass)
