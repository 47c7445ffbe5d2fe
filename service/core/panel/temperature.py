"""How warm are the cells? By light, air, wind and how freely the panel hangs."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray


@dataclass(frozen=True, slots=True)
class HeatLoss:
    """What a mount lets go: W/(m2 K) in still air, and more for each m/s of wind; where the pair comes from."""

    still_w_per_m2_k: float
    wind_w_s_per_m3_k: float
    source: str


_FREE = HeatLoss(
    25.0,
    6.84,
    "Faiman, Progress in Photovoltaics 16 (2008) 307-315, doi 10.1002/pip.813: seven panel types on open racks",
)
_RAIL = HeatLoss(20.0, 5.42, "judgement: half way between an open rack and a wall; no measurement found")
_CLOSE = HeatLoss(15.0, 4.0, "common practice for panels close to a wall or a roof; no source")

HEAT_LOSS: Mapping[str, HeatLoss] = MappingProxyType(
    {
        "free_standing": _FREE,
        "ground_frame": _FREE,
        "flat_roof": _FREE,
        "fence": _FREE,
        "hung_on_rail": _RAIL,
        "behind_rail": _RAIL,
        "balcony_floor": _RAIL,
        "wall": _CLOSE,
        "sloped_roof": _CLOSE,
    }
)


def cell_temperature_c(
    irradiance_w_per_m2: ArrayLike, air_c: ArrayLike, wind_m_per_s: ArrayLike, mount: str
) -> NDArray[np.float64]:
    """Cell temperature in C by Faiman (2008): T = Ta + G / (u0 + u1 v).

    Args:
        irradiance_w_per_m2: on the panel after shade and before incidence loss (as u0 and u1 were measured), (n,).
        air_c: air temperature, (n,) or a number.
        wind_m_per_s: wind at the panel, (n,) or a number.
        mount: how it is fixed, a key of ``HEAT_LOSS``; sets u0 and u1.

    Heat stored from the hour before and radiation to a cold night sky are not modelled.

    Raises:
        KeyError: no such mount.

    >>> round(float(cell_temperature_c(900, 20, 5, "free_standing")), 4)
    35.2027
    """
    loss = HEAT_LOSS[mount]
    light, air, wind = (np.asarray(part, np.float64) for part in (irradiance_w_per_m2, air_c, wind_m_per_s))
    return np.asarray(air + light / (loss.still_w_per_m2_k + loss.wind_w_s_per_m3_k * wind), np.float64)
