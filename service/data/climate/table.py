"""What is the climate of a place? One packed table of the world's land, read once, asked by coordinates."""

from dataclasses import dataclass
from importlib import resources
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from service.core.errors import NoClimateError
from service.core.model.climate import PlaceClimate
from service.core.model.sun_days import SunDays
from service.core.sky.clear_sky import clear_sky_months, extraterrestrial_months
from service.data.climate import air, recipe
from service.data.climate.accuracy import FAR_ISLAND, Region, region_of, sd_share_of, year_to_year_sd_share
from service.data.climate.grid import KM_A_DEGREE, Field, Weights, grid_of
from service.data.climate.packing import LN_INDEX_STEP, unpack_ln, unpack_quantiles
from service.data.climate.terrain import Terrain, terrain
from service.data.places import is_open_sea
from service.data.sun import load_sun_days

Floats = NDArray[np.float64]

SOUTH_END_DEG, NORTH_END_DEG = -57.0, 72.0
_ISLAND_WITHIN_DEG = 1.5  # an island's one-degree cell is at most 0.7 degrees off
_SECOND_WITHIN_DEG = 2.0
_DARK_KWH_A_DAY = 0.05
# Wind at panel height among houses; no table carries it. By day the four stations of tests/reference/hours_extract.json
# have 4.0 to 5.0 m/s at 10 m over open land; about 0.35 of it is taken to reach a balcony or yard in a suburb.
_WIND_M_PER_S = 1.5
_SOURCE = "NASA MERRA-2 2011-2015 and GLDAS-2.1 2012-2022, corrected; air ITU-R P.1510-1"
_SOURCE_ISLAND = "estimated from rain and cloud water (ITU-R P.837-7, P.840); air ITU-R P.1510-1"
_SOURCE_SATELLITE = "CM SAF 2006-2025, " + _SOURCE


@dataclass(frozen=True, slots=True, eq=False)
class ClimateTable:
    """The world's land between 57 S and 72 N: indices and quantiles by cell, air by month, terrain, the sun.

    ``index`` and ``days`` (daily quantiles) lie on the reanalysis cells with their ``height_m``, ``second_index`` and
    ``satellite_index`` on grids of their own, ``island_index`` and ``island_days`` where no reanalysis cell reaches.
    """

    index: Field
    days: Field
    height_m: Field
    second_index: Field
    satellite_index: Field
    island_index: Field
    island_days: Field
    air_at_sea_level_c: Field
    terrain: Terrain
    sun_days: SunDays

    def at(self, latitude_deg: float, longitude_deg: float, elevation_m: float | None = None) -> PlaceClimate:
        """The climate of one place.

        Args:
            latitude_deg: -57 to 72.
            longitude_deg: -180 to 180.
            elevation_m: height above the sea; None: from the terrain table (to about 100 m).

        Raises:
            NoClimateError: beyond 57 S to 72 N, or on the open sea (more than some 22 km from any coast).
        """
        if not SOUTH_END_DEG <= latitude_deg <= NORTH_END_DEG or is_open_sea(latitude_deg, longitude_deg):
            raise NoClimateError(latitude_deg, longitude_deg)
        height = self.terrain.height_m(latitude_deg, longitude_deg) if elevation_m is None else elevation_m
        turbidity = self.terrain.turbidity(latitude_deg, longitude_deg)
        clear = clear_sky_months(
            self.sun_days, latitude_deg, np.asarray([height]), turbidity[np.newaxis], days_a_month=2
        )[0]
        air_c = self.air_at_sea_level_c.at(latitude_deg, longitude_deg) - air.LAPSE_K_PER_M * height
        light = self._light(latitude_deg, longitude_deg, height, clear, air_c)
        clear_sky_index = np.exp(light.ln_index)
        kwh_a_day = clear_sky_index * clear
        return PlaceClimate(
            latitude_deg=latitude_deg,
            longitude_deg=longitude_deg,
            elevation_m=height,
            sun_days=self.sun_days,
            clear_sky_index=_fixed(clear_sky_index),
            day_quantiles=_fixed(light.day_quantiles),
            linke_turbidity=_fixed(turbidity),
            air_c=_fixed(air_c),
            air_swing_k=_fixed(air.swing_k(self._clearness(kwh_a_day, latitude_deg))),
            wind_m_per_s=_WIND_M_PER_S,
            coldest_air_c=air.coldest_c(air_c),
            hottest_air_c=air.hottest_c(air_c, latitude_deg),
            climate_sd_share=sd_share_of(light.region, light.grids_apart_ln, float(clear_sky_index.mean())),
            year_to_year_sd_share=year_to_year_sd_share(kwh_a_day, light.day_quantiles),
            region=light.region.code,
            grids_apart_share=float(np.expm1(abs(light.grids_apart_ln))),
            nearest_km=light.nearest_km,
            source=light.source,
        )

    def grids_ln(self, latitude_deg: float, longitude_deg: float, height_m: float, clear: Floats) -> Floats | None:
        """What both grids say together of the ln index (12,), given the clear sky there; None where no cell is near."""
        each = self._each_grid_ln(latitude_deg, longitude_deg, height_m, clear)
        return None if each is None else recipe.blended_ln(*each, latitude_deg)

    def _each_grid_ln(
        self, latitude_deg: float, longitude_deg: float, height_m: float, clear: Floats
    ) -> tuple[Floats, Floats] | None:
        """The corrected reanalysis and the second grid as it is, ln index (12,) each; None where no cell is near."""
        weights = self.index.grid.around(latitude_deg, longitude_deg)
        if not weights:
            return None
        cell_m = np.asarray([self.height_m.values[cell] for cell, _ in weights])
        above = recipe.height_ln(height_m, cell_m) @ np.asarray([weight for _, weight in weights])
        return self.index.mean(weights) + above, self._second_ln(latitude_deg, longitude_deg, clear)

    def _light(
        self, latitude_deg: float, longitude_deg: float, height_m: float, clear: Floats, air_c: Floats
    ) -> "_Light":
        each = self._each_grid_ln(latitude_deg, longitude_deg, height_m, clear)
        if each is None:
            return self._island_light(latitude_deg, longitude_deg)
        ln_index = recipe.blended_ln(*each, latitude_deg) + recipe.cold_ln(air_c)
        share = recipe.satellite_share(latitude_deg, longitude_deg)
        if share > 0.0:
            by_satellite = self.satellite_index.at(latitude_deg, longitude_deg) + recipe.low_sun_ln(clear)
            ln_index = (1.0 - share) * ln_index + share * by_satellite
        source = _SOURCE_SATELLITE if share > 0.0 else _SOURCE
        days = self.days.mean(self.index.grid.around(latitude_deg, longitude_deg))
        apart_ln = _apart_ln(*each, clear, latitude_deg)
        return _Light(ln_index, days, region_of(latitude_deg, longitude_deg), source, grids_apart_ln=apart_ln)

    def _island_light(self, latitude_deg: float, longitude_deg: float) -> "_Light":
        cell, away_deg = self.island_index.grid.nearest(latitude_deg, longitude_deg)
        if away_deg > _ISLAND_WITHIN_DEG:
            raise NoClimateError(latitude_deg, longitude_deg)
        index, days = self.island_index.values[cell], self.island_days.values[cell]
        return _Light(index, days, FAR_ISLAND, _SOURCE_ISLAND, away_deg * KM_A_DEGREE)

    def _second_ln(self, latitude_deg: float, longitude_deg: float, clear: Floats) -> Floats:
        """The second grid's ln index here; nan where it has none, is not to be used, or the month is dark."""
        absent = np.full(12, np.nan)
        if latitude_deg > recipe.FIRST_GRID_ALONE_NORTH_OF_DEG:
            return absent
        grid = self.second_index.grid
        weights: Weights = grid.around(latitude_deg, longitude_deg)
        if not weights:
            cell, away_deg = grid.nearest(latitude_deg, longitude_deg)
            if away_deg > _SECOND_WITHIN_DEG:
                return absent
            weights = [(cell, 1.0)]
        index = sum(np.exp(self.second_index.values[cell]) * weight for cell, weight in weights)
        return np.where(clear < _DARK_KWH_A_DAY, np.nan, np.log(index))

    def _clearness(self, kwh_a_day: Floats, latitude_deg: float) -> Floats:
        outside = extraterrestrial_months(self.sun_days, latitude_deg, days_a_month=2)
        return np.where(outside > _DARK_KWH_A_DAY, kwh_a_day / np.maximum(outside, _DARK_KWH_A_DAY), np.nan)


@dataclass(frozen=True, slots=True, eq=False)
class _Light:
    """What the table says of a place's light: ln index (12,), quantiles (12, 12), how sure, from where."""

    ln_index: Floats
    day_quantiles: Floats
    region: Region
    source: str
    nearest_km: float = 0.0
    grids_apart_ln: float = 0.0


def _apart_ln(first: Floats, second: Floats, clear: Floats, latitude_deg: float) -> float:
    """By how much the second grid's year differs from the first one's, each alone, in ln; 0 where there is but one."""
    other = recipe.second_alone_ln(second, latitude_deg)
    both = np.isfinite(other)
    light = clear[both]
    if not both.any():
        return 0.0
    return float(np.log((np.exp(other[both]) @ light) / (np.exp(first[both]) @ light)))


def load_climate(path: Path | None = None) -> ClimateTable:
    """Read the packed table (some 20 ms, 12 MB in memory); ``path`` is for tests of a freshly built one."""
    packaged = resources.files("service.data.climate") / "climate.npz"
    with resources.as_file(packaged) as default, np.load(path or default) as packed:
        arrays = dict(packed)
    cells = grid_of(arrays["cell_latitude_deg"], arrays["cell_longitude_deg"], 3.0)
    islands = grid_of(arrays["island_latitude_x2"] / 2, arrays["island_longitude_x2"] / 2, 1.0)
    second = grid_of(arrays["second_latitude_x2"] / 2, arrays["second_longitude_x2"] / 2, 1.0)
    satellite = grid_of(arrays["satellite_latitude_x5"] / 5, arrays["satellite_longitude_x5"] / 5, 0.2)
    at_sea_level = grid_of(arrays["air_latitude_x2"] / 2, arrays["air_longitude_x2"] / 2, 1.5)
    return ClimateTable(
        index=Field(cells, arrays["cell_ln_index"] * LN_INDEX_STEP),
        days=Field(cells, unpack_quantiles(arrays["cell_day_quantiles"])),
        height_m=Field(cells, arrays["cell_height_m"].astype(np.float64)),
        second_index=Field(second, unpack_ln(arrays["second_ln_index"])),
        satellite_index=Field(satellite, unpack_ln(arrays["satellite_ln_index"])),
        island_index=Field(islands, unpack_ln(arrays["island_ln_index"])),
        island_days=Field(islands, unpack_quantiles(arrays["island_day_quantiles"])),
        air_at_sea_level_c=Field(at_sea_level, arrays["air_sea_level_c_x2"] / 2.0),
        terrain=terrain(),
        sun_days=load_sun_days(),
    )


def _fixed(values: object) -> Floats:
    array = np.asarray(values, dtype=np.float64)
    array.setflags(write=False)
    return array
