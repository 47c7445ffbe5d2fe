"""What is the climate of a place on land, from a table that needs no network?"""

from service.data.climate.table import ClimateTable, load_climate

__all__ = ["ClimateTable", "load_climate"]
