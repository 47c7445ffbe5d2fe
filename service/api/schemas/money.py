"""How are prices, the outlay and the account written in a request?"""

from typing import Annotated

from pydantic import ConfigDict, Field

from service.api import fields as f
from service.api.schemas.base import In


class TariffPeriodIn(In):
    """Prices from one day on, until the next period."""

    valid_from: f.Day | None = Field(default=None)
    import_price_per_kwh: f.ImportPricePerKwh
    export: f.Export | None = Field(default=None, description="What happens to surplus: unpaid, paid, or netted.")
    export_price_per_kwh: f.ExportPricePerKwh | None = None


class TariffIn(In):
    """What a kWh bought costs and a kWh sent out earns, in dated periods of one currency."""

    model_config = ConfigDict(
        json_schema_extra={
            "examples": [
                {
                    "currency": "EUR",
                    "periods": [{"valid_from": "2026-01-01", "import_price_per_kwh": 0.34, "export": "unpaid"}],
                }
            ]
        }
    )

    currency: f.Currency | None = None
    periods: Annotated[list[TariffPeriodIn], f.several("Dated prices.", 1, 40)]


class OutlayItemIn(In):
    """One thing to be paid before the set runs."""

    what: f.What
    amount: f.Amount


class OutlayIn(In):
    """What has to be paid."""

    items: Annotated[list[OutlayItemIn], f.several("The things to be paid.", 1, 40)]


class InverterSwapIn(In):
    """The inverter replaced once."""

    year: f.Year
    amount: f.Amount


class MoneyIn(In):
    """The conventions of the account."""

    years: f.Years | None = None
    discount_rate_share: f.DiscountRateShare | None = None
    price_growth_share: f.PriceGrowthShare | None = None
    ageing_share_per_year: f.AgeingSharePerYear | None = None
    inverter_swap: InverterSwapIn | None = None
    resale_share: f.ResaleShare | None = None
    running_cost_per_year: f.RunningCostPerYear | None = None
