"""What is open about the planes of a set, by what the caller asks and what its mounts allow?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from service.core.errors import ContradictionError
from service.core.model.facts import Array
from service.core.model.place import Plane
from service.core.sky import house_steepness, stands_under_or_beside
from service.core.tilt.bounds import PlaneBounds, bounds_by_mount, narrowed
from service.core.tilt.lattice import compass

# What hangs on or stands before a railing or wall faces as it does.
AT_RAILING_OR_WALL = frozenset({"hung_on_rail", "behind_rail", "wall", "fence"})
# What hangs before them may lean out from them, as far as its fixing lets it.
MAY_LEAN = frozenset({"hung_on_rail", "wall", "fence"})
ANYWHERE = PlaneBounds(low_tilt_deg=0.0, high_tilt_deg=90.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltWish:
    """What is asked about the planes. None and empty: as the mounts allow, nothing beside.

    Attributes:
        objective: energy, self_used or money.
        low_tilt_deg, high_tilt_deg, low_azimuth_deg, high_azimuth_deg: ends that take the place of the mounts'.
        planes: the only ones allowed, where any are named.
        hinge_tilts_deg: the only tilts allowed.
        changes_per_year: how many planes a year, of 2, 4 and 12.
        map_steps_deg: of tilt and azimuth, where a map is wanted.
    """

    objective: str = "energy"
    low_tilt_deg: float | None = None
    high_tilt_deg: float | None = None
    low_azimuth_deg: float | None = None
    high_azimuth_deg: float | None = None
    planes: tuple[Plane, ...] = ()
    hinge_tilts_deg: tuple[float, ...] = ()
    changes_per_year: tuple[int, ...] = (2, 4)
    map_steps_deg: tuple[float, float] | None = None


def places_wished(asked: Mapping[str, Any] | None) -> TiltWish:
    """Of what a request asks about planes that which says where panels may stand: bounds, planes, tilts of a hinge.

    Args:
        asked: under the names of the interface, only what was given; None: nothing.

    Raises:
        ContradictionError: both planes and the tilts of a hinge are named, or ends of bounds exclude each other.
    """
    asked = asked or {}
    planes = tuple(Plane(tilt_deg=one["tilt_deg"], azimuth_deg=one["azimuth_deg"]) for one in asked.get("planes") or ())
    hinge = tuple(asked.get("hinge_tilts_deg") or ())
    if planes and hinge:
        raise ContradictionError(
            "/tilt/hinge_tilts_deg", "is named beside planes", given=list(hinge),
            accepted="either planes or the tilts of a hinge", example=None,
        )  # fmt: skip
    ends = {name: value for name, value in (asked.get("bounds") or {}).items() if value is not None}
    return _consistent(TiltWish(planes=planes, hinge_tilts_deg=hinge, **ends))


@dataclass(frozen=True, slots=True, kw_only=True)
class Freedom:
    """What each array may do, and which of them are moved together: by number, with its turn from the first of them."""

    bounds: tuple[PlaneBounds, ...]
    moving: Mapping[int, float]

    @property
    def together(self) -> PlaneBounds:
        """The bounds of what moves together, as those of its first array."""
        return self.bounds[next(iter(self.moving))]


def freedom_of(arrays: Sequence[Array], given: Sequence[Mapping[str, float]], wish: TiltWish) -> Freedom:
    """The bounds of each array, and the largest group from the first movable array on that moves as one.

    Args:
        arrays: complete, with the planes that they have.
        given: of each array what the request gave of its plane. Where that is one part only, it is nailed down; where
            it is both, it is how the array stands now, and as open as its mount leaves it.
        wish: what is asked.

    A railing, wall, fence or roof keeps its azimuth. Arrays move as one where they have the same freedom, or the same
    tilts and each its own fixed azimuth; others stay as they stand while these are moved.

    Raises:
        ContradictionError: ends of bounds that exclude each other.
    """
    _consistent(wish)
    bounds = tuple(_bounds(array, said, wish) for array, said in zip(arrays, given, strict=True))
    open_ones = [at for at, one in enumerate(bounds) if movable(one)]
    first = open_ones[0] if open_ones else 0
    lead = bounds[first]
    moving = {first: 0.0}
    for at, one in enumerate(bounds):
        if at == first:
            continue
        if one == lead:
            moving[at] = 0.0
        elif one.azimuth_span_deg() == lead.azimuth_span_deg() == 0.0 and _tilts(one) == _tilts(lead):
            moving[at] = (one.low_azimuth_deg - lead.low_azimuth_deg) % 360.0
    return Freedom(bounds=bounds, moving=moving)


def inside(plane: Plane, bounds: PlaneBounds) -> Plane:
    """The plane moved into bounds."""
    span = bounds.azimuth_span_deg()
    turned = (plane.azimuth_deg - bounds.low_azimuth_deg) % 360.0
    if span < 360.0 and turned > span:
        turned = span if turned - span < 360.0 - turned else 0.0
    return Plane(
        tilt_deg=min(max(plane.tilt_deg, bounds.low_tilt_deg), bounds.high_tilt_deg),
        azimuth_deg=compass(bounds.low_azimuth_deg + turned) if span < 360.0 else plane.azimuth_deg,
    )


def open_bounds(array: Array, wish: TiltWish) -> PlaneBounds:
    """What mount, fixing and wish leave open of a plane of which nothing was given.

    Slab, side walls and house stand as the facade does, and nobody told which way that looks.
    """
    bounds = bounds_by_mount(array.mount, array.fixing)
    facade = array.facade_azimuth_deg
    if bounds.facing == "not_known" and facade is not None:
        bounds = narrowed(bounds, azimuth_deg=facade)
    elif bounds.facing == "chosen" and stands_before_a_facade(array) and facade is None:
        bounds = replace(bounds, low_azimuth_deg=90.0, high_azimuth_deg=270.0, facing="not_known")
    return _widened(bounds, wish)


def stands_before_a_facade(array: Array) -> bool:
    """Is there a slab above, a wall beside or a house behind it, which stays where it is when the panel is turned?"""
    return stands_under_or_beside(array) or house_steepness(array) is not None


def facade_not_known(array: Array, said: Mapping[str, float]) -> bool:
    """May it be turned, stands before a facade, and nobody told which way that looks, nor the panel?"""
    turns = bounds_by_mount(array.mount).facing == "chosen"
    return turns and stands_before_a_facade(array) and array.facade_azimuth_deg is None and "azimuth_deg" not in said


def _tilts(bounds: PlaneBounds) -> tuple[float, float]:
    return bounds.low_tilt_deg, bounds.high_tilt_deg


def movable(bounds: PlaneBounds) -> bool:
    """Do bounds leave more than one plane?"""
    return bounds.low_tilt_deg < bounds.high_tilt_deg or bounds.azimuth_span_deg() > 0.0


def _bounds(array: Array, said: Mapping[str, float], wish: TiltWish) -> PlaneBounds:
    bounds = bounds_by_mount(array.mount, array.fixing)
    stands = array.plane
    if bounds.facing == "not_known":
        tilt = stands.tilt_deg if array.mount == "sloped_roof" or list(said) == ["tilt_deg"] else None
        bounds = narrowed(bounds, tilt_deg=tilt, azimuth_deg=stands.azimuth_deg)
        if "tilt_deg" in said:  # as it stands it can stand
            bounds = replace(
                bounds,
                low_tilt_deg=min(bounds.low_tilt_deg, stands.tilt_deg),
                high_tilt_deg=max(bounds.high_tilt_deg, stands.tilt_deg),
            )
    elif facade_not_known(array, said):
        bounds = narrowed(bounds, tilt_deg=said.get("tilt_deg"), azimuth_deg=stands.azimuth_deg)
    elif len(said) == 1:
        bounds = narrowed(bounds, tilt_deg=said.get("tilt_deg"), azimuth_deg=said.get("azimuth_deg"))
    return _widened(bounds, wish)


def _consistent(wish: TiltWish) -> TiltWish:
    low, high = wish.low_tilt_deg, wish.high_tilt_deg
    if low is not None and high is not None and low > high:
        raise ContradictionError(
            "/tilt/bounds/high_tilt_deg", "is less than low_tilt_deg", given=high, accepted=f"{low:g} to 90", example=90
        )
    if (wish.low_azimuth_deg is None) != (wish.high_azimuth_deg is None):
        missing = "low_azimuth_deg" if wish.low_azimuth_deg is None else "high_azimuth_deg"
        pointer = f"/tilt/bounds/{missing}"
        raise ContradictionError(
            pointer, "is missing: an arc of directions has two ends",
            accepted="both ends, clockwise from the first to the second, or neither", example=180,
        )  # fmt: skip
    return wish


def _widened(bounds: PlaneBounds, wish: TiltWish) -> PlaneBounds:
    low, high = wish.low_tilt_deg, wish.high_tilt_deg
    if low is not None:
        bounds = replace(bounds, low_tilt_deg=low, high_tilt_deg=max(bounds.high_tilt_deg, low))
    if high is not None:
        bounds = replace(bounds, low_tilt_deg=min(bounds.low_tilt_deg, high), high_tilt_deg=high)
    if wish.low_azimuth_deg is not None and wish.high_azimuth_deg is not None:
        bounds = replace(
            bounds,
            low_azimuth_deg=wish.low_azimuth_deg,
            high_azimuth_deg=wish.high_azimuth_deg,
            facing="chosen",
        )
    return bounds
