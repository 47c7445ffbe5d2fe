"""How is the table of the average home's demand read?"""

import json
from importlib.resources import files

import numpy as np

from service.core.model.demand import DemandShape

TABLE = "demand_shape.json"


def load_demand_shape() -> DemandShape:
    """Read the packaged shape: 12 months x 3 kinds of day x 24 wall-clock hours, and the factor by day of the year."""
    raw = json.loads(files(__package__).joinpath(TABLE).read_text(encoding="utf-8"))
    by_hour = np.array(raw["by_month_kind_hour"], dtype=np.float64)
    by_hour.setflags(write=False)
    return DemandShape(
        by_month_kind_hour=by_hour, day_polynomial=tuple(raw["day_polynomial"]), source=str(raw["source"])
    )
