"""How warm is the air by month? ITU-R P.1510-1 maps, brought to the sea's level so that they can be interpolated."""

from dataclasses import dataclass
from importlib import resources

import numpy as np
from numpy.typing import NDArray

from service.data.builders.climate.cells import World
from service.data.climate.air import LAPSE_K_PER_M
from service.data.climate.terrain import STEPS_A_DEGREE

STEP_DEG = 1.5
_SOUTH_DEG, _NORTH_DEG = -60.0, 75.0


@dataclass(frozen=True, slots=True, eq=False)
class SeaLevelAir:
    """Land cells (n,): centre times 2; monthly mean air brought to the sea's level, half kelvins, int8 (n, 12)."""

    latitude_x2: NDArray[np.int16]
    longitude_x2: NDArray[np.int16]
    celsius_x2: NDArray[np.int8]


def sea_level_air(tables: World) -> SeaLevelAir:
    """Every second node of the maps (0.75 degrees apart) that has land nearby, mean over its neighbours."""
    smooth_air = np.stack([_smoothed(_map(f"v1_t_month{month:02d}.npz")) for month in range(1, 13)], axis=-1) - 273.15
    latitudes, longitudes = np.arange(-90.0, 90.1, 0.75), np.arange(-180.0, 180.1, 0.75)
    heights = _smoothed(_node_heights(tables.height_m, latitudes, longitudes))
    land = _smoothed(_node_heights((tables.height_m > 0.0).astype(np.float32), latitudes, longitudes)) > 0.0
    wanted = np.zeros_like(land)
    rows = np.nonzero((latitudes >= _SOUTH_DEG) & (latitudes <= _NORTH_DEG))[0]
    wanted[np.ix_(rows[::2], np.arange(0, longitudes.size - 1, 2))] = True
    wanted &= _near(land)
    at_sea_level = smooth_air + LAPSE_K_PER_M * heights[..., np.newaxis]
    row, column = np.nonzero(wanted)
    return SeaLevelAir(
        latitude_x2=np.rint(latitudes[row] * 2).astype(np.int16),
        longitude_x2=np.rint(longitudes[column] * 2).astype(np.int16),
        celsius_x2=np.clip(np.rint(at_sea_level[row, column] * 2), -127, 127).astype(np.int8),
    )


def _map(name: str) -> NDArray[np.float64]:
    with resources.as_file(resources.files("itur") / "data" / "1510" / name) as path, np.load(path) as packed:
        return np.asarray(packed["arr_0"], dtype=np.float64)


def _node_heights(field: NDArray[np.float32], latitudes: NDArray, longitudes: NDArray) -> NDArray[np.float64]:
    """Mean of the 5' field over 0.75 x 0.75 degrees about each node."""
    half = round(0.375 * STEPS_A_DEGREE)
    out = np.empty((latitudes.size, longitudes.size))
    for i, latitude in enumerate(latitudes):
        middle = round((90.0 - latitude) * STEPS_A_DEGREE)
        band = field[max(middle - half, 0) : middle + half].mean(axis=0)
        for j, longitude in enumerate(longitudes):
            centre = round((longitude + 180.0) * STEPS_A_DEGREE)
            out[i, j] = band[np.arange(centre - half, centre + half) % band.size].mean()
    return out


def _smoothed(field: NDArray[np.float64]) -> NDArray[np.float64]:
    """Weights 1, 2, 1 along both axes; the longitude closes (first and last column are the same meridian)."""
    padded = np.pad(field, ((1, 1), (0, 0)), mode="edge")
    rows = (padded[:-2] + 2.0 * padded[1:-1] + padded[2:]) / 4.0
    round_ = np.concatenate([rows[:, -2:-1], rows, rows[:, 1:2]], axis=1)
    return np.asarray((round_[:, :-2] + 2.0 * round_[:, 1:-1] + round_[:, 2:]) / 4.0)


def _near(land: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Land, or within two nodes of it, so that every land place has all four neighbours."""
    return _smoothed(_smoothed(land.astype(np.float64))) > 0.0
