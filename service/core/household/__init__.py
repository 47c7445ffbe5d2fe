"""What does the home use through the year, and how much of the set's production is used at home?"""

from service.core.household.demand import demand_w
from service.core.household.self_use import (
    k_of,
    on_one_phase_w,
    self_use_sd_share,
    self_used_w,
    with_allowance_w,
)
from service.core.model.demand import DemandShape

__all__ = [
    "DemandShape",
    "demand_w",
    "k_of",
    "on_one_phase_w",
    "self_use_sd_share",
    "self_used_w",
    "with_allowance_w",
]
