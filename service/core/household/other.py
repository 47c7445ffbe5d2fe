"""What can a set still meet where another plant on the roof takes its share of the demand first?

Both feed the same home, so at each instant min(R + P, D) is used, of which the plant alone would meet min(R, D). The
set's own part is the difference, and its expectation within the hour is that of two closed forms.
"""

import numpy as np

from service.core.household.self_use import self_used_w
from service.core.model.hours import Floats


def used_beside_w(
    production_w: Floats,
    demand_w: Floats,
    always_on_w: float,
    k: float,
    other_w: Floats,
    other_used_w: Floats,
) -> Floats:
    """Expected power of the set used at home beside another plant, (n,) in W.

    Args:
        production_w: (n,) of the set.
        demand_w: (n,) mean demand of the home, nothing taken off.
        always_on_w: power that is always drawn.
        k: shape of the rest, as in ``self_used_w``.
        other_w: (n,) of the plant.
        other_used_w: (n,) what of the plant's power is used: ``self_used_w`` of it alone.

    Never above the production, nor above what the plant leaves of the demand.
    """
    both = self_used_w(production_w + other_w, demand_w, always_on_w, k)
    left = np.maximum(demand_w - other_used_w, 0.0)
    return np.asarray(np.clip(both - other_used_w, 0.0, np.minimum(production_w, left)), dtype=np.float64)
