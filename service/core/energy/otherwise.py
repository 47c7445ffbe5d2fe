"""How far would the year move if the panel lay the other way, or had the other cells, where nobody told which?"""

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import replace
from itertools import product

import numpy as np

from service.core.energy.chain import WATT_HOURS_PER_KWH
from service.core.energy.lights import light_key
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.sky import Daylight, daylight_of, effective_light, has_edges, surroundings_of

_OTHER_WAY = {"upright": "lengthwise", "lengthwise": "upright"}


def lain_otherwise(
    arrays: Sequence[Array],
    on_cells_kwh_per_m2: Sequence[float],
    sky: SkyYear,
    ground_reflectance_share: float,
    assumptions: Assumptions,
) -> list[tuple[float, float]]:
    """How much less and how much more light the cells of each array may get for what nobody told of its panel.

    Args:
        arrays: of the completed request.
        on_cells_kwh_per_m2: of each the light of the year that drives its current, as it was taken to lie.
        sky: the place's hours.
        ground_reflectance_share: 0 to 1.
        assumptions: which values nobody gave.

    Returns:
        Shares of the year's light on the cells, neither negative: of the least and of the most that any of the other
        choices, alone or together, leaves. Nought where nothing casts an edge of shadow across the cells, for then
        none of them moves the year, and where the light on them was measured. Arrays that stand alike are looked at
        once.
    """
    daylight = None
    known: dict[Hashable, float] = {}
    found = []
    for at, (array, on_cells) in enumerate(zip(arrays, on_cells_kwh_per_m2, strict=True)):
        less = more = 0.0
        moves = has_edges(array) and sky.plane_w_per_m2 is None and on_cells > 0.0
        for one in _others(array, f"/arrays/{at}", assumptions) if moves else ():
            daylight = daylight_of(sky) if daylight is None else daylight
            key = light_key(one)
            if key not in known:
                known[key] = _kwh_per_m2(one, sky, daylight, ground_reflectance_share)
            moved = known[key] / on_cells - 1.0
            less, more = max(less, -moved), max(more, moved)
        found.append((less, more))
    return found


def _kwh_per_m2(array: Array, sky: SkyYear, daylight: Daylight, ground_reflectance_share: float) -> float:
    """The year's light on the cells, in single precision, which a doubt is well told by."""
    around = surroundings_of(array, sky, daylight).in_single()
    light = effective_light(array, (array.plane,), daylight.in_single(), around, ground_reflectance_share)
    return float(light.sum(dtype=np.float64)) / WATT_HOURS_PER_KWH


def _others(array: Array, pointer: str, assumptions: Assumptions) -> Iterator[Array]:
    ways, cells = [array.orientation], [array.panel.half_cells]
    if assumptions.assumed(f"{pointer}/orientation"):
        ways.append(_OTHER_WAY[array.orientation])
    if assumptions.assumed(f"{pointer}/panel/half_cells"):
        cells.append(not array.panel.half_cells)
    for way, half_cells in list(product(ways, cells))[1:]:
        yield replace(array, orientation=way, panel=replace(array.panel, half_cells=half_cells))
