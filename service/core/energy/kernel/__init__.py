"""What would many planes, panels and inverters yield at one place? The plain chain, laid out as tables and products.

``place`` keeps a place's hours with light, ``input_table`` what an input draws from its panels, ``planes`` chains them.
For arrays that are alone on their input, whose window begins below the panels' voltage of most power; yearly energy
within 0.02 % of ``energy_year``, without its account of losses. Arrays that share an input are solved (``core.panel``),
as a table of several lights is larger than a year. ``nearest`` reads maps and rankings at half the cost.
"""

from service.core.energy.kernel.around import Around, around_of
from service.core.energy.kernel.input_table import COLDEST_C, STEP_C, STEP_W_PER_M2, InputTable, input_table, wired
from service.core.energy.kernel.like_hours import SHORT_STEP_DEG, LikeHours, like_hours
from service.core.energy.kernel.lit import Light
from service.core.energy.kernel.nearest import NearestArray, NearestOutput, nearest_array, nearest_output
from service.core.energy.kernel.output_table import HourlyOutput, OutputTable, output_table
from service.core.energy.kernel.place import PlaceRecord, cells_of, place_record
from service.core.energy.kernel.planes import (
    PLANES_AT_ONCE,
    OpenPlanes,
    dc_w,
    light_among,
    open_planes,
    open_planes_like,
    together_w,
)

__all__ = [
    "COLDEST_C",
    "PLANES_AT_ONCE",
    "SHORT_STEP_DEG",
    "STEP_C",
    "STEP_W_PER_M2",
    "Around",
    "HourlyOutput",
    "InputTable",
    "Light",
    "LikeHours",
    "NearestArray",
    "NearestOutput",
    "OpenPlanes",
    "OutputTable",
    "PlaceRecord",
    "around_of",
    "cells_of",
    "dc_w",
    "input_table",
    "light_among",
    "like_hours",
    "nearest_array",
    "nearest_output",
    "open_planes",
    "open_planes_like",
    "output_table",
    "place_record",
    "together_w",
    "wired",
]
