"""In which hours does an input run, where a start voltage or a light that its limits exclude decides?"""

import numpy as np

from service.core.energy.kernel.input_table import STEP_W_PER_M2, TEMPERATURES, InputTable, Threshold
from service.core.energy.kernel.lit import Light
from service.core.model.hours import Bools

# So near a threshold, in ln, the tables' light (bins of the cosine, single precision) is not trusted: an hour decides
# on a day's energy. Some ten hours of a year and plane are then computed once more.
_NEAR_LN = 4e-3


def running(table: InputTable, light: Light, drawn: Bools) -> Bools:
    """Which hours run: this or an earlier hour of the same day started, and every one since had a point to work at.

    Args:
        table: of the input.
        light: of m planes.
        drawn: (m, n) where the table has a power.
    """
    has_point = drawn if table.points_from is None else _reached(table.points_from, light)
    if table.excluded_from is not None:
        has_point = has_point & ~_reached(table.excluded_from, light)
    if table.starts_from is None:
        return has_point
    hour = np.arange(has_point.shape[-1])
    starts = _reached(table.starts_from, light) & has_point
    last_start = np.maximum.accumulate(np.where(starts, hour, -1), axis=-1)
    last_stop = np.maximum.accumulate(np.where(has_point, light.first_of_day - 1, hour), axis=-1)
    return np.asarray(last_start > last_stop)


def _reached(threshold: Threshold, light: Light) -> Bools:
    """In which hours the light reaches a threshold; by whole degrees, as its logarithm is nearly a straight line."""
    by_degree = np.log(np.maximum(threshold.by_degree_w_per_m2, 1e-30) / STEP_W_PER_M2)
    at = 0.5 + np.linspace(0.0, TEMPERATURES - 1, by_degree.size)
    needed = np.interp(light.steps, at, np.minimum(by_degree, 99.0))
    over = np.log(np.maximum(light.nodes, 1e-9, dtype=np.float64)) - needed
    reached = np.asarray(over >= 0.0)
    near = np.abs(over) < _NEAR_LN
    for plane in np.flatnonzero(near.any(axis=-1)):
        hours = np.flatnonzero(near[plane])
        irradiance_w_per_m2, cell_c = light.exactly(int(plane), hours)
        reached[plane, hours] = irradiance_w_per_m2 >= threshold.exactly(cell_c)
    return reached
