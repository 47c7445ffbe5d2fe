"""How is the table of the grids' greenhouse gas read?"""

import json
from importlib.resources import files

from service.core.model.carbon import GridCarbon, GridCarbonOfArea

TABLE = "grid_carbon.json"


def load_grid_carbon() -> GridCarbon:
    """Read the packaged table of yearly averages by country."""
    raw = json.loads(files(__package__).joinpath(TABLE).read_text(encoding="utf-8"))
    return GridCarbon(
        read_on=raw["read_on"], source=raw["source"], areas=tuple(GridCarbonOfArea(**row) for row in raw["areas"])
    )
