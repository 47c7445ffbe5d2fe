"""How does each panel of a lot stand against the others? The light cancels, so this beats any estimate of it."""

from collections.abc import Sequence
from math import hypot
from statistics import median

# 1.4826 median deviations are one standard deviation of a normal spread; three of them and a panel stands apart.
_MAD_TO_SD, _APART_SD = 1.4826, 3.0
STEADY_LIGHT_SHARE = 0.03  # how far the light may wander between two readings of one minute (judgement)


def against_lot(values: Sequence[float], label_share: float, meter_share: float) -> tuple[str, ...]:
    """For each panel: ``alone``, ``agrees``, ``low`` or ``scattered``; the order of the panels does not matter.

    From three panels on, one is low that lies below the median by more than three robust standard deviations (from the
    median of the absolute deviations) and by more than what two sound panels of one type can differ. Of two, the lower
    one is, by the second rule alone. Where a lot falls apart so that no median speaks for it, the panels well below the
    best are ``scattered``: nobody can say which half is sound.

    Args:
        values: one reading a panel, above nought.
        label_share: tolerance of one label.
        meter_share: of the meter, from reading to reading.

    >>> against_lot([7.02, 6.05], 0.05, 0.02), against_lot([7.0, 6.9, 7.1, 5.2, 7.0], 0.05, 0.02)[3]
    (('agrees', 'low'), 'low')
    """
    if len(values) < 2:
        return ("alone",) * len(values)
    one = hypot(label_share, meter_share, STEADY_LIGHT_SHARE)
    pair = hypot(label_share, label_share, meter_share, STEADY_LIGHT_SHARE)
    best = max(values)
    if len(values) == 2:
        return tuple("low" if value < (1 - pair) * best else "agrees" for value in values)
    middle = median(values)
    robust_sd = _MAD_TO_SD * median(abs(value - middle) for value in values)
    slack = max(one * middle, _APART_SD * robust_sd)
    return tuple(
        "low" if value < middle - slack else "scattered" if value < (1 - pair) * best else "agrees" for value in values
    )
