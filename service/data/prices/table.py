"""How is the table of prices read?"""

import json
from importlib.resources import files

from service.core.model.price import ExportPayExample, HouseholdPrice, Prices

TABLE = "prices.json"


def load_prices() -> Prices:
    """Read the packaged table of household prices and export pay examples."""
    raw = json.loads(files(__package__).joinpath(TABLE).read_text(encoding="utf-8"))
    return Prices(
        read_on=raw["read_on"],
        household=tuple(HouseholdPrice(**{**row, "not_for": tuple(row["not_for"])}) for row in raw["household_prices"]),
        export_examples=tuple(ExportPayExample(**row) for row in raw["export_pay_examples"]),
    )
