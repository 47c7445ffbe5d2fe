"""Column rules of the table of the grids' greenhouse gas."""

import re
from datetime import date

import pytest

from service.data.grid_carbon import load_grid_carbon

TABLE = load_grid_carbon()


@pytest.mark.parametrize("row", TABLE.areas, ids=lambda row: row.area)
def test_every_figure_is_dated_and_plausible(row):
    assert re.fullmatch(r"[A-Z]{2}", row.area)
    for grams in (row.g_co2e_per_kwh, row.previous_g_co2e_per_kwh):
        assert 10 < grams < 900
    assert row.year == row.previous_year + 1
    assert 0.6 < row.g_co2e_per_kwh / row.previous_g_co2e_per_kwh < 1.6


def test_no_country_stands_twice():
    areas = [row.area for row in TABLE.areas]
    assert len(areas) == len(set(areas))


def test_the_source_and_its_licence_are_named_and_the_day_of_reading_is_a_date():
    assert "Ember" in TABLE.source
    assert "Our World in Data" in TABLE.source
    assert "CC BY 4.0" in TABLE.source
    assert date.fromisoformat(TABLE.read_on) >= date(2025, 1, 1)


def test_a_region_takes_its_countrys_figure_but_never_a_neighbours():
    assert TABLE.of("US-UT").area == "US"
    assert TABLE.of("DE").g_co2e_per_kwh == 329.65  # Ember by way of Our World in Data, 2025
    assert TABLE.of("ZZ") is None
    assert TABLE.of("") is None
