"""What is the climate of a place? One packed table of the world's land, read once, asked by coordinates."""

from dataclasses import dataclass
from importlib import resources
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from service.core.errors import NoClimateError
from service.core.model.climate import PlaceClimate
from service.core.sky.clear_sky import clear_sky_months, extraterrestrial_months
from service.data.climate import air, recipe
from service.data.climate.accuracy import WITHOUT_CELL, region_of
from service.data.climate.grid import Cell, Grid, arc_deg
from service.data.climate.packing import LN_INDEX_STEP, unpack_ln, unpack_quantiles
from service.data.climate.terrain import Terrain, terrain
from service.data.places import is_open_sea

Floats = NDArray[np.float64]

SOUTH_END_DEG, NORTH_END_DEG = -57.0, 72.0
_NEAREST_WITHIN_DEG = 3.0
_SECOND_WITHIN_DEG = 2.0
_KM_A_DEGREE = 111.195
_DARK_KWH_A_DAY = 0.05
# Wind at panel height among houses; no table carries it. See ``PlaceClimate.wind_m_per_s``.
_WIND_M_PER_S = 1.5
_YEAR_TO_YEAR_SD_SHARE = 0.025
_SATELLITE_WEIGHT = 0.5
_SATELLITE_EDGE_DEG = 1.0
_SOURCE = "NASA MERRA-2 2011-2015 and GLDAS-2.1 2012-2022, corrected; air ITU-R P.1510-1"
_SOURCE_SATELLITE = "CM SAF 2006-2025, " + _SOURCE


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """Values of a grid's cells, (rows, columns, ...)."""

    grid: Grid
    values: Floats

    def mean(self, weights: list[tuple[Cell, float]]) -> Floats:
        """The weighted mean of some cells."""
        return np.asarray(sum(self.values[cell] * weight for cell, weight in weights))


@dataclass(frozen=True, slots=True, eq=False)
class ClimateTable:
    """The world's land between 57 S and 72 N: indices and quantiles by cell, air by month, terrain."""

    cells: Field
    quantiles: Floats
    heights_m: Floats
    second: Field
    satellite: Field
    air_at_sea_level: Field
    terrain: Terrain

    def at(self, latitude_deg: float, longitude_deg: float, elevation_m: float | None = None) -> PlaceClimate:
        """The climate of one place.

        Args:
            latitude_deg: -57 to 72.
            longitude_deg: -180 to 180.
            elevation_m: height above the sea; None: from the terrain table (to about 100 m).

        Raises:
            NoClimateError: beyond 57 S to 72 N, on the open sea, or more than 3 degrees from the nearest cell.
        """
        if not SOUTH_END_DEG <= latitude_deg <= NORTH_END_DEG or is_open_sea(latitude_deg, longitude_deg):
            raise NoClimateError(latitude_deg, longitude_deg)
        height = self.terrain.height_m(latitude_deg, longitude_deg) if elevation_m is None else elevation_m
        turbidity = self.terrain.turbidity(latitude_deg, longitude_deg)
        clear = clear_sky_months(latitude_deg, np.asarray([height]), turbidity[np.newaxis])[0]
        weights, nearest_km = self._cells_for(latitude_deg, longitude_deg)
        ln_index = self._ln_index(latitude_deg, longitude_deg, height, weights, clear)
        share = _satellite_share(latitude_deg, longitude_deg)
        if share > 0.0:
            from_satellite = self.satellite.mean(self.satellite.grid.around(latitude_deg, longitude_deg))
            ln_index = (1.0 - share) * ln_index + share * from_satellite
        index = np.exp(ln_index)
        air_c = self._air_c(latitude_deg, longitude_deg, height)
        swing = air.swing_k(_clearness(index * clear, latitude_deg))
        region = region_of(latitude_deg, longitude_deg) if nearest_km == 0.0 else WITHOUT_CELL
        return PlaceClimate(
            latitude_deg=latitude_deg,
            longitude_deg=longitude_deg,
            elevation_m=height,
            clear_sky_index=_fixed(index),
            day_quantiles=_fixed(sum(self.quantiles[cell] * weight for cell, weight in weights)),
            linke_turbidity=_fixed(turbidity),
            air_c=_fixed(air_c),
            air_swing_k=_fixed(swing),
            wind_m_per_s=_WIND_M_PER_S,
            coldest_air_c=air.coldest_c(air_c),
            hottest_air_c=air.hottest_c(air_c, swing),
            climate_sd_share=region.sd_share,
            year_to_year_sd_share=_YEAR_TO_YEAR_SD_SHARE,
            region=region.code,
            nearest_km=nearest_km,
            source=_SOURCE_SATELLITE if share > 0.0 else _SOURCE,
        )

    def _cells_for(self, latitude_deg: float, longitude_deg: float) -> tuple[list[tuple[Cell, float]], float]:
        """The cells around the place, else the nearest one and its distance in km."""
        grid = self.cells.grid
        weights = grid.around(latitude_deg, longitude_deg)
        if weights:
            return weights, 0.0
        cell = grid.nearest(latitude_deg, longitude_deg, _NEAREST_WITHIN_DEG)
        if cell is None:
            raise NoClimateError(latitude_deg, longitude_deg)
        centre = grid.centres(np.asarray([cell]))
        return [(cell, 1.0)], float(arc_deg(latitude_deg, longitude_deg, *centre)[0] * _KM_A_DEGREE)

    def _ln_index(
        self,
        latitude_deg: float,
        longitude_deg: float,
        height_m: float,
        weights: list[tuple[Cell, float]],
        clear: Floats,
    ) -> Floats:
        above = sum(recipe.height_ln(height_m, self.heights_m[cell]) * weight for cell, weight in weights)
        corrected = self.cells.mean(weights) + above
        if latitude_deg > recipe.FIRST_GRID_ALONE_NORTH_OF_DEG:
            return corrected
        near = self.second.grid.around(latitude_deg, longitude_deg)
        if not near:
            cell = self.second.grid.nearest(latitude_deg, longitude_deg, _SECOND_WITHIN_DEG)
            near = [] if cell is None else [(cell, 1.0)]
        second = np.log(sum(np.exp(self.second.values[cell]) * w for cell, w in near)) if near else np.full(12, np.nan)
        second = np.where(clear < _DARK_KWH_A_DAY, np.nan, second)
        return recipe.blended_ln(corrected, second, latitude_deg)

    def _air_c(self, latitude_deg: float, longitude_deg: float, height_m: float) -> Floats:
        grid = self.air_at_sea_level.grid
        weights = grid.around(latitude_deg, longitude_deg)
        if not weights:
            cell = grid.nearest(latitude_deg, longitude_deg, 10.0)
            weights = [] if cell is None else [(cell, 1.0)]
        return self.air_at_sea_level.mean(weights) - air.LAPSE_K_PER_M * height_m


def load_climate(path: Path | None = None) -> ClimateTable:
    """Read the packed table (some 10 ms, 6 MB); ``path`` is for tests of a freshly built one."""
    packaged = resources.files("service.data.climate") / "climate.npz"
    with resources.as_file(packaged) as default, np.load(path or default) as packed:
        arrays = dict(packed)
    cells = _grid(arrays["cell_latitude_deg"], arrays["cell_longitude_deg"], 3.0, 1)
    second = _grid(arrays["second_latitude_x2"], arrays["second_longitude_x2"], 1.0, 2)
    satellite = _grid(arrays["satellite_latitude_x5"], arrays["satellite_longitude_x5"], 0.2, 5)
    at_sea_level = _grid(arrays["air_latitude_x2"], arrays["air_longitude_x2"], 1.5, 2)
    return ClimateTable(
        cells=Field(cells.grid, cells.spread(arrays["cell_ln_index"] * LN_INDEX_STEP)),
        quantiles=cells.spread(unpack_quantiles(arrays["cell_day_quantiles"])),
        heights_m=cells.spread(arrays["cell_height_m"].astype(np.float64)),
        second=Field(second.grid, second.spread(unpack_ln(arrays["second_ln_index"]))),
        satellite=Field(satellite.grid, satellite.spread(unpack_ln(arrays["satellite_ln_index"]))),
        air_at_sea_level=Field(at_sea_level.grid, at_sea_level.spread(arrays["air_sea_level_c_x2"] / 2.0)),
        terrain=terrain(),
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Scattered:
    """A grid and where in it the listed cells lie."""

    grid: Grid
    rows: NDArray[np.intp]
    columns: NDArray[np.intp]

    def spread(self, values: Floats) -> Floats:
        """Listed values (n, ...) put into the grid (rows, columns, ...), nan elsewhere."""
        full = np.full((*self.grid.valid.shape, *values.shape[1:]), np.nan)
        full[self.rows, self.columns] = values
        return full


def _grid(latitude: NDArray[np.int16], longitude: NDArray[np.int16], step_deg: float, times: int) -> _Scattered:
    """The smallest grid that holds the listed centres (given ``times`` their degrees); the globe if they go round."""
    latitude_deg, longitude_deg = latitude / times, longitude / times
    south, west = float(latitude_deg.min()), float(longitude_deg.min())
    rows = np.rint((latitude_deg - south) / step_deg).astype(np.intp)
    columns = np.rint((longitude_deg - west) / step_deg).astype(np.intp)
    width = int(columns.max()) + 1
    valid = np.zeros((int(rows.max()) + 1, width), dtype=np.bool_)
    valid[rows, columns] = True
    return _Scattered(Grid(south, west, step_deg, valid), rows, columns)


def _satellite_share(latitude_deg: float, longitude_deg: float) -> float:
    """How much the satellite's mean counts: one half inside its box, less over the last degree before the border."""
    inside = min(latitude_deg - 45.0, 56.0 - latitude_deg, longitude_deg - 5.0, 16.0 - longitude_deg)
    return _SATELLITE_WEIGHT * float(np.clip(inside / _SATELLITE_EDGE_DEG, 0.0, 1.0))


def _clearness(kwh_a_day: Floats, latitude_deg: float) -> Floats:
    outside = extraterrestrial_months(latitude_deg)
    return np.where(outside > _DARK_KWH_A_DAY, kwh_a_day / np.maximum(outside, _DARK_KWH_A_DAY), np.nan)


def _fixed(values: object) -> Floats:
    array = np.asarray(values, dtype=np.float64)
    array.setflags(write=False)
    return array
