"""Which planes give a whole set the most energy, where planes were left open?"""

from collections.abc import Sequence

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.facts import Setup
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.tilt.bounds import PlaneBounds
from service.core.tilt.search import best_apart, best_together, surveyed
from service.core.tilt.stand import Stand, stand_of
from service.core.tilt.sums import Together, worth_of

# Other planes that bring less than this are not worth leaving those of the most light, nor one plane for all.
_WORTH_MOVING = 0.0005


def most_energy_planes(setup: Setup, sky: SkyYear, bounds: Sequence[PlaneBounds]) -> tuple[Plane, ...]:
    """The planes of the most energy of the set over the year, a.c. limit, start voltage and window in.

    Args:
        setup: complete, its arrays in planes of the most light.
        sky: the place's hours.
        bounds: of each array; where an end equals the other nothing is looked for.

    Returns:
        A plane for each array, within its bounds: that of ``setup``, unless others bring 0.05 % more, the same for all
        that are open alike, unless planes of their own bring that much again (under a low limit they spread). The
        planes of ``setup`` also where nothing is open, or where no energy can be computed of other planes: a sheet
        that makes no curve, light that was measured in the planes.
    """
    stands = tuple(array.plane for array in setup.arrays)
    is_open = [at for at, one in enumerate(bounds) if _is_open(one)]
    if not is_open or sky.plane_w_per_m2 is not None:
        return stands
    try:
        stand = stand_of(setup, sky)
    except ContradictionError:
        return stands  # told by whoever asks for the energy; compatibility judges such a sheet
    worth = worth_of("energy", stand, None)

    def better(planes: tuple[Plane, ...], than: tuple[Plane, ...]) -> tuple[Plane, ...]:
        brings = [
            np.sum([stand.dc_w(kind, [plane]) for kind, plane in zip(stand.kind_of, each, strict=True)], axis=0)
            for each in (planes, than)
        ]
        here, there = (float(worth(dc)[0]) for dc in brings)
        return planes if here > there * (1 + _WORTH_MOVING) else than

    found = better(_moved_alike(stand, stands, bounds, is_open), stands)
    if len(stands) == 1:
        return found
    return better(best_apart(stand, None, bounds, found, "energy"), found)


def _moved_alike(
    stand: Stand, stands: tuple[Plane, ...], bounds: Sequence[PlaneBounds], is_open: Sequence[int]
) -> tuple[Plane, ...]:
    """The best same plane for the arrays that are open as the first open one is; the others as they stand."""
    lead = bounds[is_open[0]]
    moving = {at: 0.0 for at in is_open if bounds[at] == lead}
    together = Together(stand=stand, home=None, moving=moving, still=stands)
    return together.planes_of(best_together(surveyed(together, lead), "energy"))


def _is_open(bounds: PlaneBounds) -> bool:
    return bounds.low_tilt_deg < bounds.high_tilt_deg or bounds.azimuth_span_deg() > 0.0
