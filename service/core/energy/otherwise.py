"""How far would the year move if the panel lay the other way, or had the other cells, where nobody told which?"""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

from service.core.energy.chain import WATT_HOURS_PER_KWH
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.sky import daylight_of, effective_light, has_edges, surroundings_of

_OTHER_WAY = {"upright": "lengthwise", "lengthwise": "upright"}


def lain_otherwise(
    array: Array,
    on_cells_kwh_per_m2: float,
    sky: SkyYear,
    ground_reflectance_share: float,
    pointer: str,
    assumptions: Assumptions,
) -> tuple[float, float]:
    """How much less and how much more light the cells may get for what nobody told of the panel.

    Args:
        array: of the completed request, at ``pointer`` ("/arrays/0").
        on_cells_kwh_per_m2: the light of the year that drives its current, as it was taken to lie.
        sky: the place's hours.
        ground_reflectance_share: 0 to 1.
        pointer: where it stands in the request.
        assumptions: which values nobody gave.

    Returns:
        Shares of the year's light on the cells, neither negative: of the least and of the most that any of the other
        choices, alone or together, leaves. Nought where nothing casts an edge of shadow across the cells, for then
        none of them moves the year, and where the light on them was measured.
    """
    others = tuple(_others(array, pointer, assumptions)) if has_edges(array) and sky.plane_w_per_m2 is None else ()
    if not others or not on_cells_kwh_per_m2 > 0.0:
        return 0.0, 0.0
    daylight = daylight_of(sky)
    less = more = 0.0
    for one in others:
        around = surroundings_of(one, sky, daylight)
        light_w_per_m2 = effective_light(one, (one.plane,), daylight, around, ground_reflectance_share)
        moved = float(light_w_per_m2.sum()) / WATT_HOURS_PER_KWH / on_cells_kwh_per_m2 - 1.0
        less, more = max(less, -moved), max(more, moved)
    return less, more


def _others(array: Array, pointer: str, assumptions: Assumptions) -> Iterator[Array]:
    ways, cells = [array.orientation], [array.panel.half_cells]
    if assumptions.assumed(f"{pointer}/orientation"):
        ways.append(_OTHER_WAY[array.orientation])
    if assumptions.assumed(f"{pointer}/panel/half_cells"):
        cells.append(not array.panel.half_cells)
    for way, half_cells in list(product(ways, cells))[1:]:
        yield replace(array, orientation=way, panel=replace(array.panel, half_cells=half_cells))
