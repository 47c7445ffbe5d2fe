"""How far would the year move if the panel lay or were cut or shaded otherwise, had another house, or hung warmer?

Asked where nobody told which.
"""

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import log

import numpy as np

from service.core.energy.chain import WATT_HOURS_PER_KWH
from service.core.energy.lights import light_key
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array
from service.core.model.fixing import Fixing
from service.core.model.hours import Floats, SkyYear
from service.core.model.place import Cover, Shade
from service.core.panel import HEAT_LOSS
from service.core.sky import (
    USUAL_RATIO,
    Daylight,
    daylight_of,
    effective_light,
    ground_before_house_share,
    has_edges,
    house_hiding,
    house_over_panel,
    house_steepness,
    ratio_of,
    stands_under_or_beside,
    surroundings_of,
)

# So far aside may the facade look that was taken square to a panel standing by itself: judgement.
TURNED_DEG = 45.0
# Of what nobody told how it hangs, what its rail may let through: as where that mount was told.
BEHIND_A_RAIL = Cover(material="not_known", light_through_share=0.8)
_STOREY_M = 3.0  # of house above a panel whose mount nobody told: it may hang on a wall
_SQUARE = frozenset({"hung_on_rail", "behind_rail", "wall", "fence", "sloped_roof"})
_OTHER_WAY = {"upright": "lengthwise", "lengthwise": "upright"}
_FULL_SUN_W_PER_M2, _RATED_AT_C = 1000.0, 25.0
# In dim light a cell has fewer volts, by its thermal voltage (a 24th of them) for each factor of e, which grow with
# heat: of the volts that are left heat takes 1/24/298 K more, and 1/24 of some 0.29 %/K. A sheet steeper or flatter
# than the model's own (``panel.warmth``) moves the ideality, and that voltage with it, by 0.067 for each per cent.
_DIM_PER_K, _DIM_PER_STEEPNESS, _MODELS_OWN_PER_K = 0.00026, 0.28, 0.0036
_FAR = 0.25  # of the light: half cells behind a row bring several times as much in some hours, nothing in others
_NO_LIGHT_KWH_PER_M2 = 1e-3
_LEAST_LEFT = 0.5  # of the rated power by heat alone: no air is so hot


@dataclass(frozen=True, slots=True)
class Otherwise:
    """How much less and how much more light cells may get, as shares; ``far``: as what they get so much more.

    None where that is not so far from what was taken that the hours would differ much from brighter ones.
    """

    less: float = 0.0
    more: float = 0.0
    far: Array | None = None


def lain_otherwise(
    arrays: Sequence[Array],
    on_cells_kwh_per_m2: Sequence[float],
    sky: SkyYear,
    ground_reflectance_share: float,
    assumptions: Assumptions,
) -> list[Otherwise]:
    """How much less and how much more light the cells of each array may get for what nobody told of it.

    That is which way its panels lie and what cells they have, which counts where something casts an edge of shadow
    across them, and whether shadows by the clock have hard edges or soft ones.

    Args:
        arrays: of the completed request.
        on_cells_kwh_per_m2: of each the light of the year that drives its current, as it was taken to lie.
        sky: the place's hours.
        ground_reflectance_share: 0 to 1.
        assumptions: which values nobody gave.

    Returns:
        Shares of the year's light on the cells, neither negative: of the least and of the most that any of the other
        choices leaves: how it lies and its cells, where something casts an edge of shadow across them, and edges of
        shadows by the clock, all soft or all hard; how high the house is that hides something, and whether one does
        where nobody told the mount; how a facade looks that was taken square to a panel standing by itself. Nought
        where the light on the cells was measured. Arrays that stand alike are looked at once.
    """
    daylight = None
    known: dict[Hashable, float] = {}
    found = []
    for at, (array, on_cells) in enumerate(zip(arrays, on_cells_kwh_per_m2, strict=True)):
        less, more, most = 0.0, 0.0, array
        moves = sky.plane_w_per_m2 is None
        for one in _others(array, f"/arrays/{at}", assumptions) if moves else ():
            daylight = daylight_of(sky) if daylight is None else daylight
            key = light_key(one)
            if key not in known:
                known[key] = _kwh_per_m2(one, sky, daylight, ground_reflectance_share)
            moved = known[key] / max(on_cells, _NO_LIGHT_KWH_PER_M2) - 1.0
            less = max(less, -moved)
            if moved > more:
                more, most = moved, one
        found.append(Otherwise(less, more, most if more > _FAR else None))
    return found


def _kwh_per_m2(array: Array, sky: SkyYear, daylight: Daylight, ground_reflectance_share: float) -> float:
    """The year's light on the cells, in single precision, which a doubt is well told by."""
    around = surroundings_of(array, sky, daylight).in_single()
    light = effective_light(array, (array.plane,), daylight.in_single(), around, ground_reflectance_share)
    return float(light.sum(dtype=np.float64)) / WATT_HOURS_PER_KWH


def held_otherwise(
    array: Array, free_w: Floats, on_panel_kwh_per_m2: float, sky: SkyYear, pointer: str, assumptions: Assumptions
) -> tuple[float, float]:
    """How much less and how much more the array may give for how air and wind cool it, where nobody told its mount.

    Args:
        array: of the completed request, at ``pointer`` ("/arrays/0").
        free_w: (n,) its d.c. power by the hour before any limit.
        on_panel_kwh_per_m2: the light of the year that warms it at work: behind its cover, before the glass, without
            what falls on snow.
        sky: the place's hours.
        pointer: where it stands in the request.
        assumptions: which values nobody gave.

    Returns:
        Shares of the year's energy, neither negative, by the mount that cools it least and by the one that cools it
        most. The light of an hour goes by its power, that of all hours is the year's; the power by the sheet's
        coefficient and a little more in dim light. Within 8 % of what the whole chain makes of the mount, or
        0.003 of the year.
    """
    total = float(free_w.sum())
    if not assumptions.assumed(f"{pointer}/mount") or not min(total, on_panel_kwh_per_m2) > 0.0:
        return 0.0, 0.0
    to_light = on_panel_kwh_per_m2 * WATT_HOURS_PER_KWH / total
    kelvin = [
        to_light * float(free_w @ (free_w / (one.still_w_per_m2_k + one.wind_w_s_per_m3_k * sky.wind_m_per_s))) / total
        for one in (HEAT_LOSS[array.mount], *dict.fromkeys(HEAT_LOSS.values()))
    ]
    light_w_per_m2 = to_light * float(free_w @ free_w) / total
    dim = max(-log(light_w_per_m2 / _FULL_SUN_W_PER_M2), 0.0)
    per_k = -array.panel.power_coefficient_pct_per_k / 100.0
    per_k += dim * (_DIM_PER_K + _DIM_PER_STEEPNESS * (per_k - _MODELS_OWN_PER_K))
    warmth_c = float(free_w @ sky.air_c) / total + kelvin[0]
    per_k /= max(1.0 - per_k * (warmth_c - _RATED_AT_C), _LEAST_LEFT)
    return per_k * (max(kelvin) - kelvin[0]), per_k * (kelvin[0] - min(kelvin))


def ground_otherwise(
    array: Array, sky: SkyYear, per_reflectance: float, reflectance: float, pointer: str, assumptions: Assumptions
) -> tuple[float, float]:
    """How much less and how much more light may come from the ground before the house that panels hang on.

    Less before a house as high, or panels as low, as either may be where nobody told it. More before a short house or
    a bright one, up to what open ground sends. Of a mount that nobody told it is no cause of its own: what a usual
    house takes is in ``lain_otherwise`` or in ``upright_at_a_house``.

    Args:
        array: of the completed request, at ``pointer`` ("/arrays/0").
        sky: the place's hours.
        per_reflectance: how far the array's light moves with the ground's reflectance, over that light.
        reflectance: of the ground, 0 to 1.
        pointer: where it stands in the request.
        assumptions: which values nobody gave.

    Returns:
        Shares of the year's light, neither negative.
    """
    ratio = house_over_panel(array)
    if ratio is None:
        return 0.0, 0.0
    tilt, azimuth = np.array([array.plane.tilt_deg]), np.array([array.plane.azimuth_deg])
    daylight = daylight_of(sky)

    def left(over_panel: float | None) -> float:
        return float(ground_before_house_share(array, tilt, azimuth, daylight, over_panel)[0])

    now = left(ratio)
    least = min((left(one) for one in _houses(array, pointer, assumptions)), default=now)
    from_ground = reflectance * per_reflectance / max(now, _LEAST_LEFT)
    return max(from_ground * (now - least), 0.0), from_ground * (1.0 - now)


def upright_at_a_house(
    array: Array, sky: SkyYear, upright_kwh_per_m2: float, on_cells_kwh_per_m2: float, pointer: str,
    assumptions: Assumptions,
) -> float:  # fmt: skip
    """What a usual house takes of the ground's light if the panels hang on it, where neither mount nor tilt was told.

    Args:
        array: of the completed request, at ``pointer`` ("/arrays/0").
        sky: the place's hours.
        upright_kwh_per_m2: what open ground sends to an upright panel behind the array's cover.
        on_cells_kwh_per_m2: the light of the year on the cells as they were taken to stand.
        pointer: where it stands in the request.
        assumptions: which values nobody gave.

    Returns:
        Share of the latter, of the face before which most is taken.
    """
    if not all(assumptions.assumed(f"{pointer}/{name}") for name in ("mount", "plane/tilt_deg")):
        return 0.0
    azimuth = f"{pointer}/plane/azimuth_deg"
    found = assumptions.by_pointer.get(azimuth)
    ends = () if found is None else (found.low, found.high)
    faces = np.array([array.plane.azimuth_deg, *(end for end in ends if end is not None)])
    if assumptions.assumed(f"{pointer}/facade_azimuth_deg"):
        array = replace(array, facade_azimuth_deg=None)
    left = ground_before_house_share(array, np.full(faces.shape, 90.0), faces, daylight_of(sky), USUAL_RATIO)
    return upright_kwh_per_m2 * (1.0 - float(left.min())) / max(on_cells_kwh_per_m2, _NO_LIGHT_KWH_PER_M2)


def _houses(array: Array, pointer: str, assumptions: Assumptions) -> Iterator[float]:
    """How high over the panels the house may be, where that was not told."""
    above = None if array.fixing is None else array.fixing.building_height_m
    if house_over_panel(array) is None or above is None:
        return
    house, height = f"{pointer}/fixing/building_height_m", f"{pointer}/height_above_ground_m"
    panel_m = array.height_above_ground_m
    if assumptions.assumed(house):
        yield ratio_of(assumptions.high(house, above), panel_m)
    if assumptions.assumed(height):
        low_m = assumptions.low(height, panel_m)
        yield ratio_of(above - panel_m + low_m if assumptions.assumed(house) else above, low_m)


def _others(array: Array, pointer: str, assumptions: Assumptions) -> Iterator[Array]:
    yield from _other_houses(array, pointer, assumptions)
    ways, cells, shades = [array.orientation], [array.panel.half_cells], [array.shade]
    if has_edges(array):
        if assumptions.assumed(f"{pointer}/orientation"):
            ways.append(_OTHER_WAY[array.orientation])
        if assumptions.assumed(f"{pointer}/panel/half_cells"):
            cells.append(not array.panel.half_cells)
    shades += [one for edge in ("soft", "hard") if (one := _edged(array, pointer, edge, assumptions)) != array.shade]
    for way, half_cells, shade in list(product(ways, cells, shades))[1:]:
        yield replace(array, orientation=way, panel=replace(array.panel, half_cells=half_cells), shade=shade)


def _other_houses(array: Array, pointer: str, assumptions: Assumptions) -> Iterator[Array]:
    plane, house = array.plane, f"{pointer}/fixing/building_height_m"
    height = f"{pointer}/height_above_ground_m"
    tilt_open, azimuth_open = (assumptions.assumed(f"{pointer}/plane/{name}") for name in ("tilt_deg", "azimuth_deg"))
    if not tilt_open and assumptions.assumed(f"{pointer}/mount"):
        at_house = replace(array, fixing=Fixing(building_height_m=array.height_above_ground_m + _STOREY_M))
        if azimuth_open and array.facade_azimuth_deg is not None:  # there it would look as its facade does
            at_house = replace(at_house, plane=replace(plane, azimuth_deg=array.facade_azimuth_deg))
        yield replace(at_house, mount="wall")
        if array.cover is None and not azimuth_open:  # else the plane's own ends have it
            yield replace(at_house, mount="behind_rail", cover=BEHIND_A_RAIL)
    hides = house_hiding(array, np.array([plane.tilt_deg]), np.array([plane.azimuth_deg])) is not None
    if hides and assumptions.assumed(house) and array.fixing is not None and array.fixing.building_height_m is not None:
        for end in (assumptions.low, assumptions.high):
            height_m = end(house, array.fixing.building_height_m)
            yield replace(array, fixing=replace(array.fixing, building_height_m=height_m))
    elif hides and assumptions.assumed(height):
        for end in (assumptions.low, assumptions.high):
            yield replace(array, height_above_ground_m=end(height, array.height_above_ground_m))
    turns = array.mount not in _SQUARE and not assumptions.assumed(f"{pointer}/plane/azimuth_deg")
    before = stands_under_or_beside(array) or house_steepness(array) is not None
    if turns and before and array.facade_azimuth_deg is None:
        for turn in (-TURNED_DEG, TURNED_DEG):
            yield replace(array, facade_azimuth_deg=(plane.azimuth_deg + turn) % 360.0)


def _edged(array: Array, pointer: str, edge: str, assumptions: Assumptions) -> tuple[Shade, ...]:
    """Its shadows by the clock, those of untold edge all with this one."""
    return tuple(
        replace(shade, edge=edge) if assumptions.assumed(f"{pointer}/shade/{at}/edge") else shade
        for at, shade in enumerate(array.shade)
    )
