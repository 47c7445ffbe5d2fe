"""What does a plant give in each hour that stands on the roof already?

It needs no datasheet here, for only its share of the demand is asked: light on its plane, warm cells, and one share
for all else.
"""

from dataclasses import replace

import numpy as np

from service.core.model.facts import Setup
from service.core.model.hours import Floats, SkyYear
from service.core.panel import cell_temperature_c
from service.core.sky import plane_light

# Loss of power by warm cells, per kelvin: the usual figure of crystalline silicon (IEC 61215 datasheets, 0.3 to 0.4 %).
_POWER_PER_K = -0.0035
# What inverter (0.96), leads (0.99), dirt (0.98), mismatch and age (0.96) leave together; trade figures, from memory.
_SYSTEM_SHARE = 0.9
_MOUNT = "sloped_roof"


def other_generation_w(setup: Setup, sky: SkyYear) -> Floats | None:
    """A.c. power of the plant on the roof in each hour, (8760,) in W; None where there is none.

    Its own hours as given; else those of its size on its plane with nothing around it, brought to its yearly energy
    where that is known (whatever its size, of which 1000 W is taken where only the year is known).
    """
    plant = setup.household.other_generation
    if plant is None:
        return None
    if plant.values_w is not None:
        return np.asarray(plant.values_w, dtype=np.float64)
    if plant.plane is None:
        return np.zeros(sky.ghi_w_per_m2.size)
    bare = replace(
        setup.arrays[0],
        plane=plant.plane,
        mount=_MOUNT,
        skyline=(),
        overhang=None,
        side_walls=(),
        cover=None,
        shade=(),
        hand_rail=None,
        row_in_front=None,
        facing_reflectance_share=None,
    )
    light = plane_light(sky, bare, setup.site.ground_reflectance_share)
    cell_c = cell_temperature_c(light.after_cover_w_per_m2, sky.air_c, sky.wind_m_per_s, _MOUNT)
    per_watt = light.effective_w_per_m2 / 1000.0 * np.maximum(1.0 + _POWER_PER_K * (cell_c - 25.0), 0.0) * _SYSTEM_SHARE
    power = per_watt * (1000.0 if plant.panel_power_w is None else plant.panel_power_w)
    total_kwh = float(power.sum()) / 1000.0
    if plant.year_kwh is None or total_kwh == 0.0:
        return np.asarray(power, dtype=np.float64)
    return np.asarray(power * (plant.year_kwh / total_kwh), dtype=np.float64)
