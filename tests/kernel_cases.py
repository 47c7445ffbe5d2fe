"""Sets for the kernel, and their year by the plain chain."""

from collections.abc import Sequence

import numpy as np

from service.core.energy.chain import Lit, input_hours
from service.core.energy.kernel import dc_w, input_table, light_among, open_planes, output_table, place_record
from service.core.inverter import curve_through, output_of
from service.core.model.facts import Array, Inverter
from service.core.model.hours import Floats, SkyYear
from service.core.sky import plane_light

REFLECTANCE_SHARE = 0.2


def plain_ac_w(arrays: Sequence[Array], inverter: Inverter, sky: SkyYear) -> Floats:
    """(8760,) by the plain chain, each array alone on its input."""
    dc = np.zeros(sky.ghi_w_per_m2.size)
    for array, limits in zip(arrays, inverter.inputs, strict=False):
        lit = Lit(at=0, array=array, light=plane_light(sky, array, REFLECTANCE_SHARE))
        dc += input_hours([lit], sky, limits, 0.0)[0].dc_w
    curve = curve_through(inverter.weighted_efficiency_share, inverter.efficiency_weighting)
    return output_of(dc, inverter.ac_power_w, min(inverter.set_limit_w, inverter.ac_power_w), curve).ac_w


def kernel_ac_w(arrays: Sequence[Array], inverter: Inverter, sky: SkyYear) -> Floats:
    """The same by the kernel, in the hours with light."""
    record = place_record(sky)
    tables = [input_table(array, limits, 1.0) for array, limits in zip(arrays, inverter.inputs, strict=False)]
    dc = np.zeros(record.air_c.size, dtype=np.float32)
    for array, table in zip(arrays, tables, strict=True):
        if array.skyline or array.overhang or array.side_walls or array.shade:
            light = light_among(array, sky, record, [array.plane], REFLECTANCE_SHARE)
        else:
            light = open_planes(array, record, [array.plane], REFLECTANCE_SHARE).light()
        dc += dc_w(light, table)[0]
    ac_w = output_table(inverter, sum(table.most_w for table in tables)).of(dc)
    year = np.zeros(sky.ghi_w_per_m2.size)
    year[record.daylight.rows] = ac_w
    return year
