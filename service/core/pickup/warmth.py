"""How warm may the cells be at the door, where nobody measured them?"""

from service.core.panel import cell_temperature_c
from service.core.pickup.facts import Between

_MOUNT = "free_standing"
_LIGHT_WIND_M_PER_S, _STILL_M_PER_S = 1.0, 0.0


def cells_of(air_c: Between, w_per_m2: Between) -> Between:
    """Cell temperature in C of a panel held or leaned outdoors.

    Likely: in balance with sun and a light wind (Faiman). At the cool end it has just been carried out and is as
    cold as the least air; at the warm end it stands in still air, in the most light, in the warmest air.

    >>> round(cells_of(Between.exactly(20.0), Between.exactly(800.0)).likely, 1)
    45.1
    """
    likely = float(cell_temperature_c(w_per_m2.likely, air_c.likely, _LIGHT_WIND_M_PER_S, _MOUNT))
    high = float(cell_temperature_c(w_per_m2.high, air_c.high, _STILL_M_PER_S, _MOUNT))
    return Between(low=min(air_c.low, likely), likely=likely, high=max(high, likely))
