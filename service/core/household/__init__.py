"""What does the home use through the year, and how much of the set's production is used at home?"""

from service.core.household.clock_rows import ClockRows, clock_rows
from service.core.household.demand import HEATER_SHARE, RUN_HOURS, BesideMachines, demand_w, mean_day_w, quarters_w
from service.core.household.log import LoggedYear, year_of_log
from service.core.household.other import used_beside_w
from service.core.household.other_use import used_otherwise
from service.core.household.self_use import (
    SD_PUBLIC_SHAPE,
    k_of,
    k_of_quarters,
    on_one_phase_w,
    repeats_one_week,
    self_use_sd_share,
    self_used_w,
    with_allowance_w,
)
from service.core.household.storage import (
    Beside,
    Plan,
    StoredYear,
    WithBox,
    carried_out,
    feeding,
    following,
    in_spells,
    spell_swing,
    stored_year,
)
from service.core.model.demand import DemandShape

__all__ = [
    "HEATER_SHARE",
    "RUN_HOURS",
    "SD_PUBLIC_SHAPE",
    "Beside",
    "BesideMachines",
    "ClockRows",
    "DemandShape",
    "LoggedYear",
    "Plan",
    "StoredYear",
    "WithBox",
    "carried_out",
    "clock_rows",
    "demand_w",
    "feeding",
    "following",
    "in_spells",
    "k_of",
    "k_of_quarters",
    "mean_day_w",
    "on_one_phase_w",
    "quarters_w",
    "repeats_one_week",
    "self_use_sd_share",
    "self_used_w",
    "spell_swing",
    "stored_year",
    "used_beside_w",
    "used_otherwise",
    "with_allowance_w",
    "year_of_log",
]
