"""What does a storm do to each panel, beside its weight and beside what its fixing is stated to carry?

Orders of magnitude and never a verdict: neither a railing nor a mount is proven here, and no load is called harmless.
"""

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from math import cos, radians, sin

from service.core.fixing.coefficients import STANDING, coefficients
from service.core.fixing.notes import Note, ballast_note, capacity_note, notes_of
from service.core.fixing.wind import HIGHEST_M, TERRAINS, peak_pressure_pa
from service.core.model.assumption import Assumptions
from service.core.model.band import Band
from service.core.model.facts import Array, Setup
from service.core.model.fixing import Fixing
from service.core.model.place import Site

GRAVITY_N_PER_KG = 9.81
# Between a frame or slab and roofing or paving, least first: trade figures, from memory.
FRICTION = (0.25, 0.4, 0.6)
ON_BUILDING = frozenset({"hung_on_rail", "behind_rail", "balcony_floor", "wall", "flat_roof", "sloped_roof"})
AT_RAILING = frozenset({"hung_on_rail", "behind_rail"})


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrayForces:
    """The wind on one panel of an array. In every band ``cautious`` is the greatest.

    Attributes:
        at: index of the array.
        reference_height_m: the height whose gust counts: that of the building where the panel hangs on one.
        pressure_pa: gust pressure there; all three alike where wind, terrain and heights were given.
        area_m2, weight_n: of one panel.
        push_n, pull_n: square to the panel, towards what holds it and away from it.
        pull_over_weight: pull over the panel's weight.
        capacity_n: what all fixings of one panel together are stated to carry; None where nobody said.
        capacity_used_share: the greater of push and pull over that.
        ballast_kg: for what stands: the weights on one panel that would keep it from sliding and lifting, less its own
            weight; None for what hangs. ``ballast_given_kg``: what was said to lie on it.
        clause: where the coefficients are read.
    """

    at: int
    name: str
    mount: str
    count: int
    reference_height_m: float
    pressure_pa: Band
    area_m2: float
    weight_n: float
    push_n: Band
    pull_n: Band
    pull_over_weight: Band
    capacity_n: float | None
    capacity_used_share: Band | None
    ballast_kg: Band | None
    ballast_given_kg: float | None
    clause: str
    notes: tuple[Note, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FixingForces:
    """All arrays whose mount was described, and RFC 6901 pointers to what nobody described."""

    arrays: tuple[ArrayForces, ...]
    not_looked_at: tuple[str, ...]


def fixing_key(setup: Setup, assumptions: Assumptions) -> Hashable:
    """All that ``fixing_forces`` hangs on."""
    return setup.site, setup.arrays, assumptions.within("/site", "/arrays")


def fixing_forces(setup: Setup, assumptions: Assumptions) -> FixingForces:
    """The wind on every panel, as far as somebody said how it is held.

    Args:
        setup: the complete request.
        assumptions: what of it was assumed: the bands span the ranges of wind, terrain and heights that were.

    An array whose mount nobody named is not looked at.
    """
    arrays, open_at = [], []
    for at, array in enumerate(setup.arrays):
        if assumptions.assumed(f"/arrays/{at}/mount"):
            open_at.append(f"/arrays/{at}/mount")
            continue
        arrays.append(_of_array(at, array, setup.site, assumptions))
        open_at += _undescribed(at, array)
    if setup.site.people_below is None and any(one.mount in ON_BUILDING for one in arrays):
        open_at.append("/site/people_below")
    return FixingForces(arrays=tuple(arrays), not_looked_at=tuple(open_at))


def _of_array(at: int, array: Array, site: Site, assumptions: Assumptions) -> ArrayForces:
    panel, fixing = array.panel, array.fixing or Fixing()
    area = panel.length_mm * panel.width_mm / 1e6
    found = coefficients(array.mount, array.plane.tilt_deg, area)
    pressure = _pressure(at, array, site, assumptions)
    push, pull = (_each(lambda c, q: c * q * area, cf, pressure) for cf in (found.push, found.pull))
    weight = panel.weight_kg * GRAVITY_N_PER_KG
    greatest = _each(max, push, pull)
    capacity = fixing.capacity_per_panel_n
    used = None if capacity is None else _scaled(greatest, 1 / capacity)
    ballast = _ballast(pull, array.plane.tilt_deg, panel.weight_kg) if array.mount in STANDING else None
    railing_said = not assumptions.assumed(f"/arrays/{at}/fixing/railing_height_m")
    notes = list(notes_of(array, site, fixing, railing_said=railing_said))
    if used is not None and capacity is not None:
        notes.insert(0, capacity_note(used, capacity))
    if ballast is not None and fixing.ballast_per_panel_kg is not None:
        notes.insert(0, ballast_note(ballast, fixing.ballast_per_panel_kg))
    return ArrayForces(
        at=at, name=array.name, mount=array.mount, count=array.count,
        reference_height_m=max(_reference_heights(at, array, assumptions)[1], 0.0), pressure_pa=pressure, area_m2=area,
        weight_n=weight, push_n=push, pull_n=pull, pull_over_weight=_scaled(pull, 1 / weight), capacity_n=capacity,
        capacity_used_share=used, ballast_kg=ballast,
        ballast_given_kg=fixing.ballast_per_panel_kg, clause=found.clause, notes=tuple(notes),
    )  # fmt: skip


def _pressure(at: int, array: Array, site: Site, assumptions: Assumptions) -> Band:
    """Gust pressure in Pa with the strongest, the middle and the weakest of what was not given."""
    pointer = "/site/basic_wind_velocity_m_per_s"
    wind = site.basic_wind_velocity_m_per_s
    low, middle, high = _reference_heights(at, array, assumptions)
    smooth, said, rough = site.terrain, site.terrain, site.terrain
    if assumptions.assumed("/site/terrain"):
        words = list(TERRAINS)
        place = words.index(said)
        smooth, rough = words[max(place - 1, 0)], words[min(place + 1, len(words) - 1)]
    return Band(
        peak_pressure_pa(assumptions.high(pointer, wind), high, TERRAINS[smooth]),
        peak_pressure_pa(wind, middle, TERRAINS[said]),
        peak_pressure_pa(assumptions.low(pointer, wind), low, TERRAINS[rough]),
    )


def _reference_heights(at: int, array: Array, assumptions: Assumptions) -> tuple[float, float, float]:
    """Least, middle and greatest height whose gust counts: the building's (clause 7.2.2), else the panel's own."""
    own = array.height_above_ground_m
    pointer = f"/arrays/{at}/height_above_ground_m"
    heights = (assumptions.low(pointer, own), own, assumptions.high(pointer, own))
    building = array.fixing.building_height_m if array.fixing else None
    if array.mount not in ON_BUILDING or building is None:
        return heights
    pointer = f"/arrays/{at}/fixing/building_height_m"
    buildings = (assumptions.low(pointer, building), building, assumptions.high(pointer, building))
    return (max(heights[0], buildings[0]), max(own, building), max(heights[2], buildings[2]))


def _ballast(pull: Band, tilt_deg: float, panel_kg: float) -> Band:
    """Weights on one panel, kg: friction under what the lift leaves holds the sideways pull. Tipping is not counted."""
    up, aside = cos(radians(tilt_deg)), sin(radians(tilt_deg))
    least, middle, most = FRICTION
    rubs = Band(least, middle, most)
    return _each(lambda force, mu: max(force * (up + aside / mu) / GRAVITY_N_PER_KG - panel_kg, 0.0), pull, rubs)


def _undescribed(at: int, array: Array) -> list[str]:
    """Pointers to what was not said of this array's fixing and would be looked at."""
    fixing = array.fixing or Fixing()
    names = [] if fixing.capacity_per_panel_n is not None else ["capacity_per_panel_n"]
    if array.mount in STANDING and fixing.ballast_per_panel_kg is None:
        names.append("ballast_per_panel_kg")
    if array.mount in AT_RAILING and fixing.railing_length_m is None:
        names.append("railing_length_m")
    return [f"/arrays/{at}/fixing/{name}" for name in names]


def _each(combine: Callable[[float, float], float], one: Band, other: Band) -> Band:
    pairs = ((one.cautious, other.cautious), (one.middle, other.middle), (one.hopeful, other.hopeful))
    return Band(*(combine(a or 0.0, b or 0.0) for a, b in pairs))


def _scaled(band: Band, by: float) -> Band:
    return _each(lambda value, factor: value * factor, band, Band(by, by, by))


def above_the_standard(forces: FixingForces) -> bool:
    """Does any reference height lie above what the standard's profile is made for?"""
    return any(one.reference_height_m > HIGHEST_M for one in forces.arrays)
