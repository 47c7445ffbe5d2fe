"""How much greenhouse gas the set keeps out of the air."""

import pytest

from service.core.model.carbon import GridCarbon, GridCarbonOfArea
from service.core.worth import co2_avoided_kg_per_year

ROW = GridCarbonOfArea(area="DE", g_co2e_per_kwh=329.65, year=2025, previous_g_co2e_per_kwh=336.38, previous_year=2024)
GRID = GridCarbon(read_on="2026-11-25", source="Ember, Our World in Data, CC BY 4.0", areas=(ROW,))


def test_each_kwh_counts_at_the_average_of_the_country():
    """600 kWh x 329.65 g."""
    assert co2_avoided_kg_per_year(600.0, "DE", GRID) == pytest.approx(197.79)


def test_a_country_without_a_figure_gets_none():
    assert co2_avoided_kg_per_year(600.0, "AT", GRID) is None
