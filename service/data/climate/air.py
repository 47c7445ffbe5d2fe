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
    Set beside the record lows of 55 cities (from memory) it lies 4.6 K under them on average, under 44 of them, and is
    at worst 5 K too warm (Hamburg). Places shielded from cold outbreaks come out up to 16 K too cold (Tokyo).
    """
    deduction = np.clip(12.0 + 0.85 * float(np.ptp(air_c)), 9.0, 38.0)
    return float(air_c.min() - deduction)


def hottest_c(air_c: Floats, latitude_deg: float) -> float:
    """An estimate of the hottest air of many years, from the monthly means (12,).

    The hottest month's mean and 10 K in the tropics; beyond 35 degrees 21 K, less 0.4 K for each degree that the mean
    exceeds 20 C; straight between from 15 degrees on. Set beside the record highs of 55 cities (from memory): off by
    2.5 K on average, 7 K at worst.
    """
    warmest = float(air_c.max())
    away = float(np.clip((abs(latitude_deg) - 15.0) / 20.0, 0.0, 1.0))
    beyond = 21.0 - 0.4 * max(warmest - 20.0, 0.0)
    return warmest + (1.0 - away) * 10.0 + away * beyond
