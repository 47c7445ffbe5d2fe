"""How much of the clear sky's light comes down in a month? From two grids and a satellite's, corrected and blended.

Every index here is monthly global irradiation on level ground over that of the clear sky; "ln" is its logarithm.
The forms were fitted on open station means and scored with whole regions left out: see ``accuracy.py``.
"""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

CLEAREST_LN = 0.05  # a month cannot beat the clear-sky model by more than 5 %
# Norwegian stations came out worse with the second grid (11 stations, p90 7.9 -> 11.5 %), so there it is left out.
FIRST_GRID_ALONE_NORTH_OF_DEG = 58.0
# Learned on open stations outside the satellite's means, see ``service/data/builders/climate/cold_months.py``.
COLD_LN_PER_10_K = 0.064
_COLD_BELOW_C, _COLDEST_C = 5.0, -15.0
# Learned on open stations in the satellite's box, see ``service/data/builders/climate/low_sun_months.py``.
LOW_SUN_LN = 0.05
_LOW_BELOW_KWH, _LOWEST_KWH = 2.5, 1.5
_TROPICS_EDGE_DEG, _TROPICS_WIDTH_DEG = 35.15, 2.80
_FADE_DEG = 0.5


def tropics_weight(latitude_deg: float | Floats) -> Floats:
    """1 near the equator, 0 towards the poles, one half at 35.15 degrees."""
    return np.asarray(1.0 / (1.0 + np.exp((np.abs(latitude_deg) - _TROPICS_EDGE_DEG) / _TROPICS_WIDTH_DEG)))


def corrected_ln(reanalysis_index: Floats, latitude_deg: float | Floats) -> Floats:
    """The reanalysis reads 10 to 30 % too high under clouds: ln of the corrected index, before the site's height.

    Args:
        reanalysis_index: (..., 12), uncorrected.
        latitude_deg: of the cell, broadcast against it.
    """
    cloud = np.maximum(1.10 - reanalysis_index, 0.0) + 0.01
    low = tropics_weight(latitude_deg)
    at_mid_latitudes = 0.200 - 1.0438 * cloud**0.5353
    at_low_latitudes = -0.0086 - 0.7507 * cloud
    return np.asarray(np.minimum((1.0 - low) * at_mid_latitudes + low * at_low_latitudes, 0.03))


def height_ln(site_m: float, cell_m: float | Floats) -> Floats:
    """Higher than its cell's mean a site has more cloud about it: 12.6 % less a km, kept to -0.5 and 2 km."""
    return -0.1264 * np.clip((site_m - np.asarray(cell_m)) / 1000.0, -0.5, 2.0)


def blended_ln(corrected: Floats, second: Floats, latitude_deg: float) -> Floats:
    """The corrected reanalysis and the second grid together, (12,); where the second is nan the first alone."""
    low = tropics_weight(latitude_deg)
    both = 0.055 + 0.794 * corrected + 0.327 * second + low * (-0.115 - 0.728 * corrected + 0.496 * second)
    return np.where(np.isfinite(second), np.minimum(both, CLEAREST_LN), corrected)


def second_alone_ln(second: Floats, latitude_deg: float) -> Floats:
    """What the second grid would say alone: the same form, fitted on the same stations without the reanalysis."""
    low = tropics_weight(latitude_deg)
    return np.asarray(np.minimum(-0.062 + 0.666 * second + low * (-0.004 + 0.176 * second), CLEAREST_LN))


def cold_depth(air_c: Floats) -> Floats:
    """How far monthly air lies under 5 C, in tens of kelvins, at most 2: no station stands where months are colder."""
    return np.asarray((_COLD_BELOW_C - np.clip(air_c, _COLDEST_C, _COLD_BELOW_C)) / 10.0)


def cold_ln(air_c: Floats) -> Floats:
    """Both grids read too high in cold months (snow clouds, low sun): 6.2 % less for each 10 K under 5 C.

    With each of 12 regions left out in turn it is 0.055 to 0.087, and the left-out sites get a little better: those
    outside Europe of quality B from 8.8 to 7.9 (90th percentile of yearly errors), their single months from 11.1 to
    10.6 (root mean square), months of the measured European ones from 6.2 to 6.0. Places without a cold month keep what
    they had. Doubtful in high mountains, where the satellite of central Europe asks for none of it, and north of 54
    degrees in Europe, where no open station stands.
    """
    return -COLD_LN_PER_10_K * cold_depth(air_c)


def low_sun_depth(clear_kwh_a_day: Floats) -> Floats:
    """How far a month's cloudless day lies under 2.5 kWh/m2 (the noon sun under some 25 degrees), 1 at 1.5: (12,)."""
    return np.asarray(np.clip((_LOW_BELOW_KWH - clear_kwh_a_day) / (_LOW_BELOW_KWH - _LOWEST_KWH), 0.0, 1.0))


def low_sun_ln(clear_kwh_a_day: Floats) -> Floats:
    """The satellite reads too high while the sun is low: 5 % less than in the rest of the year.

    Seven Dutch stations ask for 4.9 % (standard error over sites 0.7), ten German typical years of measured radiation
    for 4.4 (2.6), each site with a level of its own. By what the other country asks for, the 90th percentile of single
    months' errors of the 12 measured stations falls from 10.4 to 8.5 %, their root mean square from 6.0 to 5.6, that of
    the German ones from 16.4 to 15.7. Other shapes (November to January, the noon sun under 25, 22 or 30 degrees) ask
    for 3.6 to 5.8 and give 8.5 to 8.8. Against 69 other measured series in the box, too, the satellite was high in
    November and December.
    """
    return -LOW_SUN_LN * low_sun_depth(clear_kwh_a_day)


def satellite_share(latitude_deg: float, longitude_deg: float) -> float:
    """How much the satellite's mean counts: one half inside its box, less over the last half degree before the border.

    The southern border runs along the Po, where the grids have 4 to 7 % less than the satellite: a fade over a whole
    degree kept most of that.
    Against 69 measured series in the box the blend of the grids read 1.7 % high (sd 3.2, p90 5.3, single months 11.3),
    the satellite 3.7 % high (2.6, 6.9, 12.2), the mean of both 2.7, 2.7, 6.5, 11.1.
    """
    inside = min(latitude_deg - 45.0, 56.0 - latitude_deg, longitude_deg - 5.0, 16.0 - longitude_deg)
    return 0.5 * float(np.clip(inside / _FADE_DEG, 0.0, 1.0))
