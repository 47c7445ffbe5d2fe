"""What do yearly flows of energy and money come to: when is the set paid back, and what is it worth?"""

from service.core.payback.energy import AtPrices, HomeYear, scaled, shifted_use, stacked
from service.core.payback.flows import (
    WITHIN_THE_HOUR,
    cash_flows,
    drawn_cost,
    parts_kept,
    savings,
    savings_by_price,
    time_kept,
    unpaid_after_each_year,
    yearly_costs,
)
from service.core.payback.hours import MeterSums, in_order, meter_sums, minute_of, priced_hours, rate_of_minute
from service.core.payback.measures import (
    Crossing,
    crossing_years,
    discounted,
    discounted_payback_years,
    first_crossings,
    levelised_cost_per_kwh,
    net_present_value,
    simple_payback_years,
    worth_up_to,
    worth_up_to_each_year,
    years_to_meet,
)
from service.core.payback.outlay import OutlayParts, fetching_cost, outlay_parts, sound_share
from service.core.payback.prices import PricedPeriod, priced_periods, yearly_fees
from service.core.payback.returns import internal_rates_of_return

__all__ = [
    "WITHIN_THE_HOUR",
    "AtPrices",
    "Crossing",
    "HomeYear",
    "MeterSums",
    "OutlayParts",
    "PricedPeriod",
    "cash_flows",
    "crossing_years",
    "discounted",
    "discounted_payback_years",
    "drawn_cost",
    "fetching_cost",
    "first_crossings",
    "in_order",
    "internal_rates_of_return",
    "levelised_cost_per_kwh",
    "meter_sums",
    "minute_of",
    "net_present_value",
    "outlay_parts",
    "parts_kept",
    "priced_hours",
    "priced_periods",
    "rate_of_minute",
    "savings",
    "savings_by_price",
    "scaled",
    "shifted_use",
    "simple_payback_years",
    "sound_share",
    "stacked",
    "time_kept",
    "unpaid_after_each_year",
    "worth_up_to",
    "worth_up_to_each_year",
    "yearly_costs",
    "yearly_fees",
    "years_to_meet",
]
