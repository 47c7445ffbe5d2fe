"""When does an average home use its energy? The published household profile of 2025, as a table of relative power."""

from service.data.households.table import load_demand_shape

__all__ = ["load_demand_shape"]
