"""How much greenhouse gas comes with a kWh from the grid? Dated averages by country, as plain values."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class GridCarbonOfArea:
    """Greenhouse gas of a kWh generated in a country, over its life cycle, as the mean of ``year``, in g CO2e.

    A mean of all plants: neither the plant that a kWh less would throttle, nor what is imported.
    """

    area: str
    g_co2e_per_kwh: float
    year: int
    previous_g_co2e_per_kwh: float
    previous_year: int


@dataclass(frozen=True, slots=True, kw_only=True)
class GridCarbon:
    """The table, with its source and the ISO date on which it was read."""

    read_on: str
    source: str
    areas: tuple[GridCarbonOfArea, ...]

    def of(self, area: str) -> GridCarbonOfArea | None:
        """The figure of the country that an ISO 3166 area lies in; None where there is none, never a neighbour's."""
        country = area.partition("-")[0]
        return next((row for row in self.areas if row.area == country), None)
