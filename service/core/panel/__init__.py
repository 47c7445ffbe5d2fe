"""What does a panel give, and what does an inverter's input draw from it?

The datasheet's sanity (``datasheet``), the electrical model fitted to it (``diode``, ``warmth``), its curve at an
irradiance and a temperature (``curve``), the temperature of its cells (``temperature``), and the input's window and
limits (``drawn``, ``joined``, ``in_string``); ``many`` asks it of many panels at once.
"""

from service.core.panel.branch import Branch, Drawn
from service.core.panel.curve import (
    MaxPower,
    current_at,
    curve_at,
    irradiance_through_w_per_m2,
    max_power,
    open_circuit_voltage_v,
    voltage_at,
)
from service.core.panel.datasheet import (
    CRYSTALLINE,
    Doubt,
    cells_in_series_of,
    check_outer,
    check_power,
    check_product,
    datasheet_doubts,
    voc_coefficient_doubt,
)
from service.core.panel.diode import Diode, five_parameters_of, with_series_resistance
from service.core.panel.drawn import (
    drawn_power,
    drawn_together,
    excluded_from_w_per_m2,
    running_power_w,
)
from service.core.panel.in_string import drawn_in_string
from service.core.panel.many import Panels
from service.core.panel.temperature import HEAT_LOSS, HeatLoss, cell_temperature_c
from service.core.panel.warmth import diode_of

__all__ = [
    "CRYSTALLINE",
    "HEAT_LOSS",
    "Branch",
    "Diode",
    "Doubt",
    "Drawn",
    "HeatLoss",
    "MaxPower",
    "Panels",
    "cell_temperature_c",
    "cells_in_series_of",
    "check_outer",
    "check_power",
    "check_product",
    "current_at",
    "curve_at",
    "datasheet_doubts",
    "diode_of",
    "drawn_in_string",
    "drawn_power",
    "drawn_together",
    "excluded_from_w_per_m2",
    "five_parameters_of",
    "irradiance_through_w_per_m2",
    "max_power",
    "open_circuit_voltage_v",
    "running_power_w",
    "voc_coefficient_doubt",
    "voltage_at",
    "with_series_resistance",
]
