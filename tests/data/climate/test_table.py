"""Does every place on land have a climate, the sea none, and is each value within its bounds?"""

from pathlib import Path

import numpy as np
import pytest

import service.data.climate
from service.core.errors import NoClimateError
from service.core.model.climate import PlaceClimate
from service.core.sky.clear_sky import clear_sky_months
from service.data.climate import ClimateTable, load_climate
from service.data.climate.accuracy import CLOUDLESS_SD_SHARE
from service.data.climate.recipe import height_ln, second_alone_ln

TABLE = Path(service.data.climate.__file__).parent / "climate.npz"


@pytest.fixture(scope="module")
def table() -> ClimateTable:
    """The packaged table."""
    return load_climate()


LAND = {
    "Berlin": (52.5, 13.4),
    "Tromso": (69.65, 18.95),
    "Ushuaia": (-54.8, -68.3),
    "Singapore": (1.3, 103.8),
    "Quito": (-0.2, -78.5),
    "Anadyr, at the date line": (65.0, 180.0),
    "Taveuni, across the date line": (-16.9, -179.95),
    "Dead Sea": (31.5, 35.45),
    "Honolulu": (21.3, -157.86),
    "Ponta Delgada": (37.74, -25.67),
    "Male": (4.17, 73.5),
    "Tarawa": (1.35, 172.98),
    "Stanley": (-51.7, -57.86),
    "Saint-Denis": (-20.9, 55.5),
}


@pytest.mark.parametrize("place", LAND.values(), ids=LAND)
def test_a_place_on_land_has_a_plausible_climate(table: ClimateTable, place: tuple[float, float]) -> None:
    climate = table.at(*place)
    assert np.all((climate.clear_sky_index > 0.2) & (climate.clear_sky_index < 1.08))
    assert climate.day_quantiles.shape == (12, 12)
    assert climate.day_quantiles.mean(axis=1) == pytest.approx(np.ones(12), abs=1e-9)
    assert np.all(np.diff(climate.day_quantiles, axis=1) >= -1e-9)
    assert np.all((climate.linke_turbidity > 1.4) & (climate.linke_turbidity < 9.0))
    assert climate.coldest_air_c < climate.air_c.min() < climate.air_c.max() < climate.hottest_air_c
    assert np.all((climate.air_swing_k >= 3.0) & (climate.air_swing_k <= 17.0))
    assert 0.01 <= climate.year_to_year_sd_share <= 0.06
    assert 0.03 <= climate.climate_sd_share <= 0.12


@pytest.mark.parametrize("sea", [(0.0, -30.0), (56.0, 3.0), (38.0, 5.0), (-45.0, 100.0), (30.0, -179.9)])
def test_the_open_sea_has_no_climate(table: ClimateTable, sea: tuple[float, float]) -> None:
    with pytest.raises(NoClimateError) as refused:
        table.at(*sea)
    assert (refused.value.latitude_deg, refused.value.longitude_deg) == sea


@pytest.mark.parametrize("place", [(78.2, 15.6), (72.1, 25.0), (-64.8, -64.0), (-90.0, 0.0)])
def test_beyond_57_south_and_72_north_there_is_no_climate(table: ClimateTable, place: tuple[float, float]) -> None:
    with pytest.raises(NoClimateError):
        table.at(*place)


def test_an_island_without_a_cell_says_so_and_has_a_wide_band(table: ClimateTable) -> None:
    island, mainland = table.at(21.3, -157.86), table.at(52.5, 13.4)
    assert island.region == "far_island"
    assert "rain" in island.source
    assert 0.0 < island.nearest_km < 90.0
    assert island.climate_sd_share > 2.0 * mainland.climate_sd_share
    assert mainland.nearest_km == 0.0


def test_where_its_two_grids_are_far_apart_the_band_holds_more_than_at_stations(table: ClimateTable) -> None:
    """Under the clouds of Sichuan the reanalysis has 1.44 times the second grid's light."""
    chengdu, new_york = table.at(30.67, 104.07), table.at(40.7, -74.0)
    assert chengdu.region == new_york.region == "elsewhere"
    assert 0.3 < chengdu.grids_apart_share < 0.6
    assert new_york.grids_apart_share < 0.12
    assert chengdu.climate_sd_share == pytest.approx(
        np.hypot(new_york.climate_sd_share, 0.5 * (np.log1p(chengdu.grids_apart_share) - 0.12))
    )
    assert table.at(21.3, -157.86).grids_apart_share == table.at(59.9, 10.7).grids_apart_share == 0.0


def test_under_a_sky_that_hardly_ever_has_clouds_the_band_is_wider(table: ClimateTable) -> None:
    cairo, new_york = table.at(30.05, 31.25), table.at(40.7, -74.0)
    assert cairo.region == new_york.region == "elsewhere"
    assert cairo.clear_sky_index.mean() > 0.9
    assert max(cairo.grids_apart_share, new_york.grids_apart_share) < 0.12
    assert cairo.climate_sd_share == pytest.approx(np.hypot(new_york.climate_sd_share, CLOUDLESS_SD_SHARE))


def test_how_far_the_grids_are_apart_is_what_each_alone_would_say(table: ClimateTable) -> None:
    place = table.at(30.67, 104.07, 500.0)
    clear = clear_sky_months(table.sun_days, 30.67, np.asarray([500.0]), place.linke_turbidity[None], days_a_month=2)[0]
    alone = []
    for name in ("index", "second_index"):
        field = getattr(table, name)
        weights = field.grid.around(30.67, 104.07)
        index = sum(np.exp(field.values[cell]) * weight for cell, weight in weights)
        if name == "index":
            above = sum(weight * height_ln(500.0, table.height_m.values[cell]) for cell, weight in weights)
            alone.append(index * np.exp(above) @ clear)
        else:
            alone.append(np.exp(second_alone_ln(np.log(index), 30.67)) @ clear)
    assert alone[0] / alone[1] - 1.0 == pytest.approx(place.grids_apart_share, abs=0.01)


def test_the_height_is_the_caller_s_or_the_terrain_s(table: ClimateTable) -> None:
    assert table.at(47.0, 11.5, 2100.0).elevation_m == 2100.0
    assert table.at(52.38, 13.06).elevation_m == pytest.approx(50.0, abs=60.0)
    assert table.at(-0.2, -78.5).elevation_m == pytest.approx(2850.0, abs=300.0)


def test_higher_up_the_air_is_colder_by_the_standard_lapse(table: ClimateTable) -> None:
    low, high = table.at(47.0, 11.5, 600.0), table.at(47.0, 11.5, 1600.0)
    assert low.air_c - high.air_c == pytest.approx(np.full(12, 6.5))


def test_the_satellite_fades_out_towards_the_border_of_its_box(table: ClimateTable) -> None:
    inside, border, outside = (table.at(50.0, lon, 300.0) for lon in (12.0, 15.9999, 16.0001))
    assert "CM SAF" in inside.source
    assert "CM SAF" not in outside.source
    assert border.clear_sky_index == pytest.approx(outside.clear_sky_index, rel=1e-3)


def test_the_index_does_not_jump_between_cells(table: ClimateTable) -> None:
    along = [table.at(40.0, float(lon), 800.0).clear_sky_index for lon in np.arange(-106.0, -99.0, 0.05)]
    assert np.abs(np.diff(along, axis=0)).max() < 0.012


def test_seasons_are_turned_round_in_the_south(table: ClimateTable) -> None:
    assert table.at(-36.8, 174.8).air_c[0] > table.at(-36.8, 174.8).air_c[6] + 5.0
    assert table.at(52.5, 13.4).air_c[0] < table.at(52.5, 13.4).air_c[6] - 15.0


def test_the_same_place_always_has_the_same_climate(table: ClimateTable) -> None:
    first, second = table.at(54.2, 12.3), load_climate().at(54.2, 12.3)
    names = [name for name in PlaceClimate.__slots__ if isinstance(getattr(first, name), np.ndarray)]
    assert names
    assert all(getattr(first, name).tobytes() == getattr(second, name).tobytes() for name in names)


def test_arrays_of_a_climate_cannot_be_written_to(table: ClimateTable) -> None:
    with pytest.raises(ValueError, match="read-only"):
        table.at(54.2, 12.3).clear_sky_index[0] = 1.0


# Column rules of the packed table: name -> (columns after the first axis, least, most)
RULES: dict[str, tuple[tuple[int, ...], float, float]] = {
    "cell_latitude_deg": ((), -57, 72),
    "cell_longitude_deg": ((), -180, 177),
    "cell_height_m": ((), -50, 6000),
    "cell_ln_index": ((12,), -1300, 30),
    "cell_day_quantiles": ((12, 12), 0, 230),
    "second_latitude_x2": ((), -109, 149),
    "second_longitude_x2": ((), -359, 359),
    "second_ln_index": ((12,), 0, 255),
    "satellite_latitude_x5": ((), 225, 280),
    "satellite_longitude_x5": ((), 25, 80),
    "satellite_ln_index": ((12,), 0, 254),
    "island_latitude_x2": ((), -115, 145),
    "island_longitude_x2": ((), -359, 359),
    "island_ln_index": ((12,), 60, 181),
    "island_day_quantiles": ((12, 12), 0, 230),
    "air_latitude_x2": ((), -120, 150),
    "air_longitude_x2": ((), -360, 357),
    "air_sea_level_c_x2": ((12,), -100, 90),
}


LATITUDES = {name.partition("_")[0]: name for name in RULES if "latitude" in name}


def test_the_packed_columns_are_the_ones_described() -> None:
    with np.load(TABLE) as packed:
        assert set(packed.files) == set(RULES)


@pytest.mark.parametrize("name", sorted(RULES))
def test_a_packed_column_keeps_its_shape_and_range(name: str) -> None:
    columns, least, most = RULES[name]
    with np.load(TABLE) as packed:
        values = packed[name]
        rows = len(packed[LATITUDES[name.partition("_")[0]]])
    assert values.shape == (rows, *columns)
    assert least <= values.min()
    assert values.max() <= most


def test_the_table_stays_under_a_megabyte() -> None:
    assert TABLE.stat().st_size < 1_000_000
