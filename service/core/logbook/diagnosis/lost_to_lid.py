"""How much of a whole log's energy does a lid take: a limit lower than stated, or one that sinks in the heat?

The days that a cause is found on are the clear ones, on which a lid cuts most. What it costs is told of all days: only
steps that lie at the lid lose anything. What they would have given is told by the day's steps below it, and is at
least midway between the lid and a clear day's: between clouds a step that reaches the lid has the sun's full light.
"""

from dataclasses import dataclass

import numpy as np

from service.core.model.hours import Floats, Ints

_UNDER_LID = 0.93
_CLEAREST = 0.75  # of the days taken for clear some have clouds
# Over the lid, from which on a step lies at it: a limit is known to a hundredth, a lid that sinks in the heat is not.
AT_LIMIT, AT_HOT_LID = 0.95, 0.85


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoggedSteps:
    """Steps of a log, (n,) each: power, that of the stated set before its limit in the light of that time, the day.

    ``clear_days``: the days whose light is known best.
    """

    power_w: Floats
    free_w: Floats
    day: Ints
    clear_days: Ints
    limit_w: float


def lost_to_lid(steps: LoggedSteps, lid_w: Floats, at_share: float) -> float:
    """Share of what the set would have given under its stated limit alone, from 0 to 1.

    Args:
        steps: of the whole log; power that is not known does not count.
        lid_w: (n,) above which the set gives nothing.
        at_share: of the lid, from which on a step counts as held back by it.
    """
    known = np.isfinite(steps.power_w) & (steps.free_w > 0.0)
    power = np.where(known, steps.power_w, 0.0)
    days = int(steps.day.max(initial=0)) + 1
    lid = np.minimum(lid_w, steps.limit_w)
    level = np.ones(days)
    for _ in range(2):
        under = known & (steps.free_w * level[steps.day] < _UNDER_LID * lid) & (power < _UNDER_LID * lid)
        free = np.bincount(steps.day, under * steps.free_w, minlength=days)
        made = np.bincount(steps.day, under * power, minlength=days)
        level = np.divide(made, free, out=np.ones(days), where=free > 0.0)
    told = steps.clear_days[free[steps.clear_days] > 0.0]
    clear = (float(np.quantile(level[told], _CLEAREST)) if told.size else 1.0) * steps.free_w
    held = known & (power >= at_share * lid) & (clear > lid)
    would = np.maximum(steps.free_w * level[steps.day], (lid + clear) / 2.0)
    lost = float(np.where(held, np.maximum(np.minimum(would, steps.limit_w) - power, 0.0), 0.0).sum())
    return lost / max(float(power.sum()) + lost, 1e-9)
