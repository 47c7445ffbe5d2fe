"""What will the set yield, when, where is energy lost, and how sure is it?

Sky, panel and inverter are chained hour by hour in ``chain`` and ``year``; ``days`` makes mean days, ``spread`` tells
why the year is uncertain.
"""

from service.core.energy.again import KnownInputs, direct_current_again
from service.core.energy.at_input import more_volts, untold_points
from service.core.energy.chain import ArrayHours, Lit, input_hours, remaining_share
from service.core.energy.days import day_kinds
from service.core.energy.hour_moves import Doubts
from service.core.energy.leads import lead_resistance_ohm
from service.core.energy.lights import Lights
from service.core.energy.next_to_nothing import next_to_nothing
from service.core.energy.otherwise import TURNED_DEG
from service.core.energy.result import LOSSES, ArrayConditions, ArrayYear, DayKind, EnergyYear, Little
from service.core.energy.sheet import diode_of_sheet
from service.core.energy.spread import OfLight, spread_of
from service.core.energy.year import (
    alternating_current_w,
    array_conditions,
    direct_current,
    direct_key,
    energy_year,
    spread_key,
    year_key,
    year_spread,
)

__all__ = [
    "LOSSES",
    "TURNED_DEG",
    "ArrayConditions",
    "ArrayHours",
    "ArrayYear",
    "DayKind",
    "Doubts",
    "EnergyYear",
    "KnownInputs",
    "Lights",
    "Lit",
    "Little",
    "OfLight",
    "alternating_current_w",
    "array_conditions",
    "day_kinds",
    "diode_of_sheet",
    "direct_current",
    "direct_current_again",
    "direct_key",
    "energy_year",
    "input_hours",
    "lead_resistance_ohm",
    "more_volts",
    "next_to_nothing",
    "remaining_share",
    "spread_key",
    "spread_of",
    "untold_points",
    "year_key",
    "year_spread",
]
