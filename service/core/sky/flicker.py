"""How much does the light come and go within an hour? Hourly means hide it; an inverter's limit cuts what is above."""

import numpy as np

from service.core.model.hours import Floats

# Fitted by eye on a week of 5-minute values of level ground at Golden, Colorado (March 2019): relative deviation 0.12,
# 0.20, 0.40, 0.28, 0.20 and 0.07 at a part of 0.1, 0.3, 0.5, 0.7, 0.9 and 1.0 of the cloudless light.
_SIZE = 0.20
_FULL_FROM = 0.5
_TOP = 1.15


def flicker_share(ghi_w_per_m2: Floats, clear_ghi_w_per_m2: Floats) -> Floats:
    """Standard deviation of the light within each hour over its mean, (n,), by the hour's part of the cloudless light.

    Largest under broken clouds; nought under none, and small under a closed cover. What it does to an inverter's limit
    was checked on minutes, 5 minutes and quarter-hours: tests/reference/test_within_the_hour.py.

    >>> flicker_share(np.array([100.0, 350.0, 700.0]), np.full(3, 700.0)).round(3).tolist()
    [0.174, 0.393, 0.091]
    """
    part = np.divide(ghi_w_per_m2, clear_ghi_w_per_m2, out=np.zeros_like(ghi_w_per_m2), where=clear_ghi_w_per_m2 > 1.0)
    size = _SIZE * 4.0 / _TOP**2 * np.maximum(_TOP - part, 0.0)
    return np.asarray(size * np.minimum(part / _FULL_FROM, 1.0))
