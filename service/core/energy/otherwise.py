"""How far would the year move if the panel lay the other way, or had the other cells, where nobody told which?"""

from collections.abc import Iterator
from dataclasses import replace
from math import hypot

from service.core.model.assumption import Assumptions
from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.sky import daylight_of, has_edges, plane_light

_OTHER_WAY = {"upright": "lengthwise", "lengthwise": "upright"}


def lain_otherwise(
    array: Array, sky: SkyYear, ground_reflectance_share: float, pointer: str, assumptions: Assumptions
) -> tuple[float, float]:
    """How much less and how much more light the cells may get for what nobody told of the panel.

    Args:
        array: of the completed request, at ``pointer`` ("/arrays/0").
        sky: the place's hours.
        ground_reflectance_share: 0 to 1.
        pointer: where it stands in the request.
        assumptions: which values nobody gave.

    Returns:
        Shares of the year's light on the cells, neither negative; independent choices as root sums of squares. Nought
        where nothing casts an edge of shadow across the cells, for then neither moves the year, and where the light on
        them was measured.
    """
    others = tuple(_others(array, pointer, assumptions)) if has_edges(array) and sky.plane_w_per_m2 is None else ()
    if not others:
        return 0.0, 0.0
    daylight = daylight_of(sky)
    base, *years = (
        float(plane_light(sky, one, ground_reflectance_share, daylight).effective_w_per_m2.sum())
        for one in (array, *others)
    )
    less = more = 0.0
    for year in years if base > 0.0 else ():
        moved = year / base - 1.0
        less, more = hypot(less, max(-moved, 0.0)), hypot(more, max(moved, 0.0))
    return less, more


def _others(array: Array, pointer: str, assumptions: Assumptions) -> Iterator[Array]:
    if assumptions.assumed(f"{pointer}/orientation"):
        yield replace(array, orientation=_OTHER_WAY[array.orientation])
    if assumptions.assumed(f"{pointer}/panel/half_cells"):
        yield replace(array, panel=replace(array.panel, half_cells=not array.panel.half_cells))
