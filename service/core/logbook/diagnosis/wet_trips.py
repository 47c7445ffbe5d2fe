"""Does the set stay off on wet mornings: nothing while the sun is up already, then all at once?

Damp in leads and plugs lowers the insulation; the inverter measures it before it starts and waits until it is dry.
"""

from collections.abc import Mapping

import numpy as np

from service.core.logbook.diagnosis.frame import Frame
from service.core.model.hours import Floats

_SOME_SHARE = 0.12  # of the cloudless day's top: as much should come at least before a morning counts
_NOTHING_SHARE = 0.01
_AT_ONCE_SHARE = 0.05  # what comes first on a late morning; in dull light it begins with less
_LATE_S = 3600


def wet_evidence(frame: Frame, cloudless_w: Floats) -> Mapping[str, float]:
    """How many mornings are late.

    Args:
        frame: the log.
        cloudless_w: (n,) power of the stated set under a cloudless sky.

    Returns:
        ``late_days_share``: days with nothing for an hour or more after the sun was well up, and then much at once;
        ``late_h``: how late these are in the mean; ``off_again_share``: days that go dark for an hour again later.
    """
    days = frame.days
    top = max(float(cloudless_w.max(initial=0.0)), 1.0)
    power = np.nan_to_num(frame.power_w)
    up = (cloudless_w > _SOME_SHARE * top) & np.isfinite(frame.power_w)
    gives = up & (power > _NOTHING_SHARE * top)
    order = np.arange(power.size)
    first = np.full(days, power.size)
    last = np.full(days, -1)
    np.minimum.at(first, frame.day[gives], order[gives])
    np.maximum.at(last, frame.day[gives], order[gives])
    dark = up & ~gives
    before = dark & (order < first[frame.day]) & (last[frame.day] >= 0)
    inside = dark & (order > first[frame.day]) & (order < last[frame.day])
    late_h = np.bincount(frame.day, before, minlength=days) * frame.step_s / 3600.0
    again_h = np.bincount(frame.day, inside, minlength=days) * frame.step_s / 3600.0
    known = max(int(np.count_nonzero(last >= 0)), 1)
    at_once = np.zeros(days, dtype=np.bool_)
    begun = first < power.size
    at_once[begun] = power[first[begun]] > _AT_ONCE_SHARE * top
    late = (late_h * 3600.0 >= _LATE_S) & at_once
    return {
        "late_days_share": float(np.count_nonzero(late)) / known,
        "late_h": float(late_h[late].mean()) if late.any() else 0.0,
        "off_again_share": float(np.count_nonzero(again_h * 3600.0 >= _LATE_S)) / known,
    }
