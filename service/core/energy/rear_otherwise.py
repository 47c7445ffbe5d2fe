"""How much more may come to the rears, where the light was measured on planes that tell little of the sky behind?"""

from collections.abc import Sequence

import numpy as np

from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.sky import counts_rear, level_at_most, rear_light


def rears_otherwise(arrays: Sequence[Array], sky: SkyYear, ground_reflectance_share: float) -> list[float]:
    """How much more the rear of each array may give than it was reckoned to, over that; noughts where sky was given.

    That of a cloudless sky while the sun stands before none of the planes. A rear of which the caller told the share
    of the front's light has no doubt of this kind.

    Args:
        arrays: in the order of the planes that were measured.
        sky: the hours.
        ground_reflectance_share: 0 to 1.
    """
    if sky.plane_w_per_m2 is None or not any(counts_rear(one) and one.rear_light_share is None for one in arrays):
        return [0.0] * len(arrays)
    at_most = level_at_most(sky, [array.plane for array in arrays])

    def more(array: Array) -> float:
        if not counts_rear(array) or array.rear_light_share is not None:
            return 0.0
        nothing = np.zeros_like(sky.ghi_w_per_m2)
        before, then = (
            float(rear_light(one, array, ground_reflectance_share, nothing).sum()) for one in (sky, at_most)
        )
        return max(then / before - 1.0, 0.0) if before > 0.0 else 0.0

    return [more(array) for array in arrays]
