"""How warm is the air, how far does it swing in a day, and how cold and hot can it get?"""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

LAPSE_K_PER_M = 0.0065  # standard atmosphere (ISO 2533)
_SWING_LOW_K, _SWING_HIGH_K = 3.0, 17.0


def swing_k(clearness: Floats) -> Floats:
    """Mean difference between the day's warmest and coldest hour, K, from the month's clearness (12,).

    G. H. Hargreaves and Z. A. Samani 1982 (J. Irrig. Drain. Div. ASCE 108, 225-230): clearness = 0.17 sqrt(swing),
    turned round; kept to 3 to 17 K. Clearness is global irradiation over that outside the air; nan (no sun) gives 5 K.
    """
    swing = np.clip((clearness / 0.17) ** 2, _SWING_LOW_K, _SWING_HIGH_K)
    return np.where(np.isfinite(clearness), swing, 5.0)


def coldest_c(air_c: Floats) -> float:
    """An estimate, deliberately cold, of the coldest air of many years, from the monthly means (12,).

    The coldest month's mean less 12 K and 0.85 of the year's range of monthly means, the deduction kept to 9 to 38 K.
    """
    deduction = np.clip(12.0 + 0.85 * float(np.ptp(air_c)), 9.0, 38.0)
    return float(air_c.min() - deduction)


def hottest_c(air_c: Floats, air_swing_k: Floats) -> float:
    """An estimate of the hottest air of many years: the hottest month's mean afternoon and 11 K more."""
    month = int(np.argmax(air_c))
    return float(air_c[month] + air_swing_k[month] / 2.0 + 11.0)
