"""Column rules of the table of prices."""

import re
from datetime import date

import pytest

from service.data.prices import load_prices

PRICES = load_prices()
AREA = re.compile(r"[A-Z]{2}(-[A-Z]{2,3})?")


@pytest.mark.parametrize("row", PRICES.household, ids=lambda row: row.area)
def test_every_household_price_is_dated_sourced_and_plausible(row):
    assert AREA.fullmatch(row.area)
    assert re.fullmatch(r"[A-Z]{3}", row.currency)
    assert 0.05 < row.price_per_kwh < 0.8
    assert row.period.startswith("20")
    assert row.source
    assert (row.previous_period is None) == (row.previous_price_per_kwh is None)


@pytest.mark.parametrize("row", PRICES.export_examples, ids=lambda row: f"{row.area} {row.period}")
def test_every_export_example_is_dated_and_sourced(row):
    assert AREA.fullmatch(row.area)
    assert row.price_per_kwh is None or 0 <= row.price_per_kwh < 0.5
    assert row.period
    assert row.kind
    assert row.source


def test_no_area_stands_twice():
    areas = [row.area for row in PRICES.household]
    assert len(areas) == len(set(areas))


def test_the_day_of_reading_is_a_date():
    assert date.fromisoformat(PRICES.read_on) >= date(2025, 1, 1)


def test_a_region_takes_its_countrys_price_but_never_a_neighbours():
    assert PRICES.of("BE-VLG").area == "BE"
    assert PRICES.of("DE").price_per_kwh == 0.3869  # Eurostat nrg_pc_204, 2025-S2
    assert PRICES.of("US-UT") is None
    assert PRICES.of("US") is None
    assert PRICES.of("ZZ") is None


def test_a_price_for_great_britain_alone_is_not_used_for_northern_ireland():
    assert PRICES.of("GB-SCT").currency == "GBP"
    assert PRICES.of("GB-NIR") is None


def test_examples_are_found_by_region_and_country():
    assert {row.area for row in PRICES.export_examples_of("US-UT")} == {"US-UT"}
    assert any(row.price_per_kwh == 0 for row in PRICES.export_examples_of("DE"))
