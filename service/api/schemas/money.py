"""How are prices, the outlay and the account written in a request?"""

from typing import Annotated

from pydantic import ConfigDict, Field

from service.api import fields as f
from service.api.schemas.base import In


class RateIn(In):
    """Prices of some hours: by month, day of the week, time of day. What is left out does not matter.

    Where ``from_clock`` is the later one it spans midnight, and each hour counts on its own day; holidays count as the
    weekday they fall on.
    """

    model_config = ConfigDict(
        json_schema_extra={"examples": [{"from_clock": "22:00", "to_clock": "06:00", "import_price_per_kwh": 0.22}]}
    )

    name: f.Name | None = None
    months: Annotated[list[f.Month], f.several("Months, 1 to 12.", 1, 12)] | None = None
    days: f.Days | None = Field(default=None, description="All days, Monday to Friday, the weekend, or one day.")
    from_clock: f.Clock | None = None
    to_clock: f.Clock | None = None
    import_price_per_kwh: f.ImportPricePerKwh | None = None
    export_price_per_kwh: f.ExportPricePerKwh | None = None


PRICE_LENGTHS = (24, 168, 8760)
_AS_LONG_AS = {"anyOf": [{"minItems": n, "maxItems": n} for n in PRICE_LENGTHS]}


class HourlyPricesIn(In):
    """Prices that change from hour to hour: a day by the clock, a week from Monday, or a year in standard time."""

    import_prices_per_kwh: Annotated[
        list[f.HourImportPrice],
        Field(min_length=24, max_length=8760, description="24, 168 or 8760 prices.", json_schema_extra=_AS_LONG_AS),
    ]
    export_prices_per_kwh: (
        Annotated[
            list[f.HourExportPrice],
            Field(
                min_length=24,
                max_length=8760,
                description="24, 168 or 8760 prices; the period's own where absent.",
                json_schema_extra=_AS_LONG_AS,
            ),
        ]
        | None
    ) = None


class TariffPeriodIn(In):
    """Prices from one day on, until the next period."""

    model_config = ConfigDict(
        json_schema_extra={"examples": [{"valid_from": "2026-01-01", "import_price_per_kwh": 0.34, "export": "unpaid"}]}
    )

    valid_from: f.Day | None = Field(default=None)
    import_price_per_kwh: f.ImportPricePerKwh | None = None
    export: f.Export | None = Field(
        default=None,
        description="What happens to surplus: unpaid, paid, or netted. Netted is what the meter's netting says; with "
        "instant, over the year.",
    )
    export_price_per_kwh: f.ExportPricePerKwh | None = None
    rates: (
        Annotated[
            list[RateIn],
            f.several(
                "Prices that go by the clock; the first that holds counts, the period's own are the rest.", 1, 24
            ),
        ]
        | None
    ) = None
    hourly: HourlyPricesIn | None = None
    fee_per_year: f.FeePerYear | None = None
    fee_per_kva_year: f.FeePerKvaYear | None = None
    export_tax_share: f.ExportTaxShare | None = None


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
    second_hand: f.Yes | None = Field(
        default=None,
        description="Are these used panels, to which `faulty_share` applies? Where nobody says, panels are.",
    )


class FetchingIn(In):
    """Fetching the things oneself."""

    km: f.Km
    per_km: f.PerKm
    trips: f.Trips | None = None
    hours: f.Hours | None = None
    per_hour: f.PerHour | None = None


class OutlayIn(In):
    """What has to be paid."""

    items: Annotated[list[OutlayItemIn], f.several("The things to be paid.", 1, 40)]
    freight: f.Freight | None = None
    freight_less: f.FreightLess | None = None
    freight_more: f.FreightMore | None = None
    fetching: FetchingIn | None = None
    registration: f.Registration | None = None
    faulty_share: f.FaultyShare | None = None


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
