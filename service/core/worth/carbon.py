"""How much greenhouse gas does the set keep out of the air, reckoned with the average of its grid?

Every kWh that the set gives replaces one from the grid, at home or next door. It is counted at the dated life-cycle
mean of the country's generation. That is not what the plant gives off that is throttled at that moment (more, mostly),
nor is the making of the set taken off (its panels owe some years of it).
"""

from service.core.model.carbon import GridCarbon


def co2_avoided_kg_per_year(year_kwh: float, area: str, table: GridCarbon) -> float | None:
    """Kilograms of CO2 equivalent of the first year; None where the table has no figure for the country.

    >>> from service.core.model.carbon import GridCarbonOfArea
    >>> row = GridCarbonOfArea(area="XY", g_co2e_per_kwh=250, year=2025, previous_g_co2e_per_kwh=0, previous_year=2024)
    >>> co2_avoided_kg_per_year(600.0, "XY-AB", GridCarbon(read_on="2026-11-25", source="made up", areas=(row,)))
    150.0
    """
    found = table.of(area)
    return None if found is None else year_kwh * found.g_co2e_per_kwh / 1000.0
