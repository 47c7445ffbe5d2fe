"""How warm are an array's cells, hour by hour, at their hottest, and how cool in light?"""

from dataclasses import dataclass

import numpy as np

from service.core.model.hours import Floats, SkyYear
from service.core.panel import cell_temperature_c
from service.core.sky import PlaneLight

# An input whose window ends below the volts of still cooler cells loses a part of these hours' light only.
COOL_SHARE = 0.01


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CellYear:
    """Cell temperature of each hour, (n,), of the hottest one, and how cool cells are in light (``cool_c``), C."""

    by_hour_c: Floats
    hottest_c: float
    cool_c: float


def cell_year(mount: str, light: PlaneLight, sky: SkyYear) -> CellYear:
    """Of an array that is mounted so, by the light behind its cover."""
    cells = cell_temperature_c(light.after_cover_w_per_m2, sky.air_c, sky.wind_m_per_s, mount)
    return CellYear(by_hour_c=cells, hottest_c=float(np.max(cells)), cool_c=cool_cell_c(cells, light))


def cool_cell_c(cells: Floats, light: PlaneLight) -> float:
    """How cool the cells are in light: below this, in whole C, falls no more than ``COOL_SHARE`` of a year's light."""
    low = np.floor(cells)
    coldest = float(np.min(low))
    by_degree = np.cumsum(np.bincount((low - coldest).astype(np.intp), light.effective_w_per_m2))
    return coldest + float(np.searchsorted(by_degree, COOL_SHARE * by_degree[-1], side="right"))
