"""What does a shade cost over a whole log that a few clear days have shown?

Clear days may all lie in one season, whose sun crosses other heights than that of the rest. So what is missing is
summed over all bright days, by where the sun stands: in each field of the sky on the shaded side beside what the day
gave outside it. Clouds take their part in and out of the shade alike.
"""

import numpy as np

from service.core.logbook.diagnosis.lost_to_lid import LoggedSteps
from service.core.model.hours import Floats

_FIELD_DEG = 10.0
_BEFORE_EDGE_DEG = 20.0  # sectors are tried in steps of this: the true edge lies within it
_BRIGHT_LEVEL = 0.5  # of a cloudless day's: light of dull days comes from everywhere and is hardly shaded
_LEAST_OF_BLOCKED = 0.3  # of what the shade blocks, for a field to lie in it
_UNDER_LIMIT = 0.93


def lost_to_shade(
    steps: LoggedSteps, side_deg: Floats, height_deg: Floats, edge_deg: float, blocked_share: float
) -> float:  # fmt: skip
    """Share of what the set would have given without the shade, from 0 to 1.

    Args:
        steps: of the whole log, in the light that was supposed.
        side_deg: (n,) of the sun from noon, before it below 0.
        height_deg: (n,) of the sun.
        edge_deg: where the shade begins, on which side by its sign.
        blocked_share: what it takes of the beam.
    """
    beyond = np.sign(edge_deg) * side_deg - (abs(edge_deg) - _BEFORE_EDGE_DEG)
    known = np.isfinite(steps.power_w) & (steps.free_w > 0.0)
    power = np.where(known, steps.power_w, 0.0)
    outside = known & (beyond < 0.0) & (steps.free_w < _UNDER_LIMIT * steps.limit_w)
    days = int(steps.day.max(initial=0)) + 1
    free, made = (np.bincount(steps.day, outside * one, minlength=days) for one in (steps.free_w, power))
    level = np.divide(made, free, out=np.zeros(days), where=free > 0.0)[steps.day]
    inside = np.flatnonzero(known & (beyond >= 0.0) & (height_deg > 0.0) & (level >= _BRIGHT_LEVEL))
    if not inside.size:
        return 0.0
    field = (beyond[inside] // _FIELD_DEG).astype(np.int64) * 10 + (height_deg[inside] // _FIELD_DEG).astype(np.int64)
    would = np.bincount(field, np.minimum(steps.free_w * level, steps.limit_w)[inside])
    missing = would - np.bincount(field, power[inside])
    lost = float(missing[missing > _LEAST_OF_BLOCKED * blocked_share * would].sum())
    return lost / max(float(power.sum()) + lost, 1e-9)
