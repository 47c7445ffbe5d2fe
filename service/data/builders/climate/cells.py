"""What is the mean clear sky, height and haze over a cell of a grid?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.sun_days import SunDays
from service.core.sky.clear_sky import clear_sky_months
from service.data.climate.terrain import COLUMNS, ROWS, STEPS_A_DEGREE, heights_m, terrain
from service.data.sun import load_sun_days

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class World:
    """Heights (2160, 4320) in m with the sea at 0, Linke turbidity (2160, 4320, 12) times 20, and the sun's days."""

    height_m: NDArray[np.float32]
    turbidity_x20: NDArray[np.uint8]
    sun_days: SunDays


def world() -> World:
    """Both tables that pvlib ships, whole, and our own of the sun."""
    tables = terrain()
    return World(heights_m(tables.heights[:]).astype(np.float32), tables.turbidities[:], load_sun_days())


def mean_height_m(tables: World, latitude_deg: float, longitude_deg: float, size_deg: float) -> float:
    """Mean height of a cell about its centre, the sea counted as 0."""
    rows, columns = _window(latitude_deg, longitude_deg, size_deg)
    return float(tables.height_m[np.ix_(rows, columns)].mean())


def mean_clear_sky(tables: World, latitude_deg: float, longitudes_deg: Floats, size_deg: float, points: int) -> Floats:
    """Monthly clear sky of cells on one latitude, mean over ``points`` x ``points`` of each: (n, 12) kWh/m2 a day.

    Each point has its own height and turbidity.
    """
    offsets = ((np.arange(points) + 0.5) / points - 0.5) * size_deg
    total = np.zeros((longitudes_deg.size, 12))
    for offset in offsets:
        at = latitude_deg + offset
        row = int(np.clip((90.0 - at) * STEPS_A_DEGREE, 0, ROWS - 1))
        columns = ((longitudes_deg[:, np.newaxis] + offsets + 180.0) % 360.0 * STEPS_A_DEGREE).astype(int) % COLUMNS
        flat = columns.ravel()
        heights, turbidity = tables.height_m[row, flat], tables.turbidity_x20[row, flat] / 20.0
        months = clear_sky_months(tables.sun_days, at, heights, turbidity)
        total += months.reshape(longitudes_deg.size, points, 12).mean(axis=1)
    return total / points


def _window(latitude_deg: float, longitude_deg: float, size_deg: float) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    half = round(size_deg * STEPS_A_DEGREE / 2)
    row = round((90.0 - latitude_deg) * STEPS_A_DEGREE)
    column = round((longitude_deg + 180.0) * STEPS_A_DEGREE)
    rows = np.arange(max(row - half, 0), min(row + half, ROWS))
    return rows, np.arange(column - half, column + half) % COLUMNS
