"""What do yearly flows of energy and money come to: when is the set paid back, and what is it worth?"""

from service.core.payback.flows import (
    HomeYear,
    cash_flows,
    savings,
    unpaid_after_each_year,
    yearly_costs,
    years_kept,
)
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
)
from service.core.payback.outlay import OutlayParts, fetching_cost, outlay_parts, sound_share
from service.core.payback.prices import PricedPeriod, dearer, priced_periods
from service.core.payback.returns import internal_rates_of_return

__all__ = [
    "Crossing",
    "HomeYear",
    "OutlayParts",
    "PricedPeriod",
    "cash_flows",
    "crossing_years",
    "dearer",
    "discounted",
    "discounted_payback_years",
    "fetching_cost",
    "first_crossings",
    "internal_rates_of_return",
    "levelised_cost_per_kwh",
    "net_present_value",
    "outlay_parts",
    "priced_periods",
    "savings",
    "simple_payback_years",
    "sound_share",
    "unpaid_after_each_year",
    "worth_up_to",
    "worth_up_to_each_year",
    "yearly_costs",
    "years_kept",
]
