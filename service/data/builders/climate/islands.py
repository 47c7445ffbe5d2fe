"""How sunny are the islands that no radiation cell reaches? By rain and cloud water, as on the world's coasts."""

from dataclasses import dataclass
from importlib import resources

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import RegularGridInterpolator

from service.data.builders.climate.grids import Reanalysis
from service.data.climate import recipe
from service.data.climate.grid import Field, Grid
from service.data.climate.table import NORTH_END_DEG, SOUTH_END_DEG
from service.data.places import is_open_sea

Floats = NDArray[np.float64]

_COAST_BELOW_M = 60.0  # mean height of 3 x 3 degrees, the sea counted as nought: coasts, archipelagos, lowlands
_COAST_WITHIN_DEG = 57.0
_SCAN_DEG = 0.25
_DONORS = 16
_CLOUD_LEVELS = ("5", "20", "50")  # exceeded in so many per cent of the year


@dataclass(frozen=True, slots=True, eq=False)
class Islands:
    """One-degree cells (n,) without a reanalysis cell around: centre times 2, ln index and daily quantiles."""

    latitude_x2: NDArray[np.int16]
    longitude_x2: NDArray[np.int16]
    ln_index: Floats
    day_quantiles: Floats


@dataclass(frozen=True, slots=True)
class _Water:
    """Monthly rain (ITU-R P.837-7) and cloud liquid water exceeded in parts of the year (ITU-R P.840), the world."""

    rain_mm: RegularGridInterpolator
    cloud_kg_per_m2: RegularGridInterpolator

    def features(self, latitude_deg: float, longitude_deg: float) -> Floats:
        """(12, 6) predictors: mean over 1.5 degrees about the place."""
        steps = (-0.75, 0.0, 0.75)
        points = np.asarray([(latitude_deg + dy, longitude_deg + dx) for dy in steps for dx in steps])
        rain = np.log1p(self.rain_mm(_wrapped(points, -180.0)).mean(axis=0) / 30.0)
        cloud = np.maximum(self.cloud_kg_per_m2(_wrapped(points, 0.0)).mean(axis=0), 0.0)
        away = abs(latitude_deg) / 50.0
        yearly = np.asarray([1.0, np.log(0.02 + cloud[2]), np.log(0.02 + cloud[1]), away, away**2])
        return np.column_stack([np.tile(yearly, (12, 1)), rain, rain**2])


def islands(cells: Reanalysis, corrected: Floats, grid: Grid, second: Field) -> Islands:
    """Fit on coasts, apply to land without a cell; days borrowed from the 16 coasts most like it.

    With 30-degree sectors of longitude left out in turn the yearly index of the coasts comes back with a standard
    deviation of 5.1 % (tropics 4.4), bias nil; at Kahului and Guam, not in the fit, -0.3 and -6.7 %.
    """
    water = _water()
    coast = np.nonzero((cells.height_m < _COAST_BELOW_M) & (np.abs(cells.latitude_deg) <= _COAST_WITHIN_DEG))[0]
    predictors, known = [], []
    for k in coast:
        latitude, longitude = float(cells.latitude_deg[k]), float(cells.longitude_deg[k])
        near = second.grid.around(latitude, longitude)
        by_second = np.log(sum(np.exp(second.values[cell]) * w for cell, w in near)) if near else np.full(12, np.nan)
        known.append(recipe.blended_ln(corrected[k], by_second, latitude))
        predictors.append(water.features(latitude, longitude))
    factors = np.linalg.lstsq(np.concatenate(predictors), np.concatenate(known), rcond=None)[0]

    places = _land_without_cell(grid)
    ln_index = np.asarray([np.minimum(water.features(*at) @ factors, recipe.CLEAREST_LN) for at in places])
    donors = cells.day_quantiles[coast]
    apart = np.abs(np.asarray(known)[np.newaxis] - ln_index[:, np.newaxis]) / 0.1  # (islands, coasts, 12)
    apart += np.abs(np.abs(cells.latitude_deg[coast]) - np.abs(places[:, :1]))[..., np.newaxis] / 10.0
    nearest = np.argsort(apart, axis=1, kind="stable")[:, :_DONORS]
    borrowed = donors[nearest, np.arange(12)].mean(axis=1)
    return Islands(
        latitude_x2=np.rint(places[:, 0] * 2).astype(np.int16),
        longitude_x2=np.rint(places[:, 1] * 2).astype(np.int16),
        ln_index=ln_index,
        day_quantiles=borrowed,
    )


def _land_without_cell(grid: Grid) -> Floats:
    """Centres (n, 2) of one-degree cells with any land or coastal water that no reanalysis cell surrounds."""
    found: set[tuple[float, float]] = set()
    for latitude in np.arange(SOUTH_END_DEG + _SCAN_DEG / 2, NORTH_END_DEG, _SCAN_DEG):
        for longitude in np.arange(-180.0 + _SCAN_DEG / 2, 180.0, _SCAN_DEG):
            centre = (float(np.floor(latitude)) + 0.5, float(np.floor(longitude)) + 0.5)
            if centre in found or is_open_sea(float(latitude), float(longitude)):
                continue
            if not grid.around(float(latitude), float(longitude)):
                found.add(centre)
    return np.asarray(sorted(found))


def _water() -> _Water:
    rain = np.stack([_map("837", f"v7_mt_month{month:02d}") for month in range(1, 13)], axis=-1)
    cloud = np.stack([_map("840", f"v7_lred_{level}") for level in _CLOUD_LEVELS], axis=-1)
    return _Water(
        _interpolator(_map("837", "v7_lat_mt")[:, 0], _map("837", "v7_lon_mt")[0], rain),
        _interpolator(_map("840", "v7_lat")[:, 0], _map("840", "v7_lon")[0], cloud),
    )


def _interpolator(latitude: Floats, longitude: Floats, values: Floats) -> RegularGridInterpolator:
    order = np.argsort(latitude)
    return RegularGridInterpolator((latitude[order], longitude), values[order], bounds_error=False, fill_value=None)


def _map(recommendation: str, name: str) -> Floats:
    place = resources.files("itur") / "data" / recommendation / f"{name}.npz"
    with resources.as_file(place) as path, np.load(path) as packed:
        return np.asarray(packed["arr_0"], dtype=np.float64)


def _wrapped(points: Floats, west_deg: float) -> Floats:
    return np.column_stack([points[:, 0], (points[:, 1] - west_deg) % 360.0 + west_deg])
