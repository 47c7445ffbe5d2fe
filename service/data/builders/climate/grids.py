"""What do the four sources say, each on its own grid? Read, averaged, turned into clear-sky indices."""

import csv
import gzip
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from service.data.builders.climate.cells import World, mean_clear_sky, mean_height_m

Floats = NDArray[np.float64]

QUANTILES = 12
_DARK_KWH_A_DAY = 0.05  # below this a month's clear sky is too dark for an index
_NIGHT_INDEX = 0.5  # stands where there is no light to measure; multiplied with nearly nothing


@dataclass(frozen=True, slots=True, eq=False)
class Reanalysis:
    """Cells (n,) of 3 degrees: centre, index (n, 12) uncorrected, daily quantiles (n, 12, 12), mean height (n,)."""

    latitude_deg: Floats
    longitude_deg: Floats
    index: Floats
    day_quantiles: Floats
    height_m: Floats


@dataclass(frozen=True, slots=True, eq=False)
class MonthlyGrid:
    """Cells (n,) with their centre, clear-sky index (n, 12), nan where too dark, and mean height (n,)."""

    latitude_deg: Floats
    longitude_deg: Floats
    index: Floats
    height_m: Floats


def reanalysis(path: Path, tables: World) -> Reanalysis:
    """MERRA-2 2011-2015 from the package gsee-climate-data: histograms of daily irradiance by cell and month."""
    with np.load(path) as packed:
        values, chances = packed["xk"].astype(np.float64), packed["pk"].astype(np.float64)
        latitudes, longitudes = packed["lat"], packed["lon"]
    rows, columns = np.nonzero(np.isfinite(chances).any(axis=(2, 3)))
    # Some bins are negative; December of 69 and 72 N is missing, there the sun does not rise.
    values = np.clip(np.nan_to_num(values[rows, columns]), 0.0, None)
    chances = np.nan_to_num(chances[rows, columns])
    chances /= np.maximum(chances.sum(axis=-1, keepdims=True), 1e-12)
    mean_w = (values * chances).sum(axis=-1)
    clear = _clear_sky_of(tables, latitudes[rows], longitudes[columns], 3.0, points=6)
    return Reanalysis(
        latitude_deg=latitudes[rows],
        longitude_deg=longitudes[columns],
        index=_indices(mean_w * 0.024, clear, _NIGHT_INDEX),
        day_quantiles=_quantiles(values, chances),
        height_m=_heights_of(tables, latitudes[rows], longitudes[columns], 3.0),
    )


def second_grid(path: Path, tables: World) -> MonthlyGrid:
    """GLDAS-2.1 monthly means 2012-2022, 1 degree."""
    return _monthly(path, tables, 1.0, points=3)


def satellite(path: Path, tables: World) -> MonthlyGrid:
    """CM SAF monthly means 2006-2025, 0.2 degrees, central Europe."""
    return _monthly(path, tables, 0.2, points=1)


def _monthly(path: Path, tables: World, size_deg: float, points: int) -> MonthlyGrid:
    with gzip.open(path, "rt", encoding="utf-8") as file:
        rows = [[float(cell) for cell in row] for row in list(csv.reader(file))[1:]]
    table = np.asarray(rows)
    latitude, longitude, mean_w = table[:, 0], table[:, 1], table[:, 2:]
    clear = _clear_sky_of(tables, latitude, longitude, size_deg, points)
    return MonthlyGrid(
        latitude_deg=latitude,
        longitude_deg=longitude,
        index=_indices(mean_w * 0.024, clear, np.nan),
        height_m=_heights_of(tables, latitude, longitude, size_deg),
    )


def _indices(kwh_a_day: Floats, clear: Floats, where_dark: float) -> Floats:
    light = (clear >= _DARK_KWH_A_DAY) & (kwh_a_day > 0.0)
    return np.where(light, kwh_a_day / np.maximum(clear, _DARK_KWH_A_DAY), where_dark)


def _quantiles(values: Floats, chances: Floats) -> Floats:
    """Twelve even quantiles of daily irradiation over their mean, read straight between the bins' middles."""
    levels = (np.arange(QUANTILES) + 0.5) / QUANTILES
    out = np.ones((*values.shape[:2], QUANTILES))
    for cell in range(values.shape[0]):
        for month in range(12):
            below = np.cumsum(chances[cell, month]) - chances[cell, month] / 2.0
            found = np.interp(levels, below, values[cell, month])
            if found.mean() > 0.0:
                out[cell, month] = found / found.mean()
    return out


def _clear_sky_of(tables: World, latitude: Floats, longitude: Floats, size_deg: float, points: int) -> Floats:
    clear = np.zeros((latitude.size, 12))
    for at in np.unique(latitude):
        on_row = latitude == at
        clear[on_row] = mean_clear_sky(tables, float(at), longitude[on_row], size_deg, points)
    return clear


def _heights_of(tables: World, latitude: Floats, longitude: Floats, size_deg: float) -> Floats:
    pairs = zip(latitude, longitude, strict=True)
    return np.asarray([mean_height_m(tables, float(lat), float(lon), size_deg) for lat, lon in pairs])
