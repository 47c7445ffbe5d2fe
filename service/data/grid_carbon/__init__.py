"""How much greenhouse gas comes with a kWh of a country's electricity, as a dated yearly average?"""

from service.data.grid_carbon.table import load_grid_carbon

__all__ = ["load_grid_carbon"]
