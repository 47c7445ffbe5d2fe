"""Which plane does a panel get whose plane was left open? Settled once, before any physics; then all are known."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from service.core.completion.defaults import row_for
from service.core.completion.node import Node
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumption
from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.tilt import (
    AT_RAILING_OR_WALL,
    Facade,
    Facing,
    PlaneBounds,
    TiltWish,
    best_listed,
    best_plane,
    facade_to_hold,
    faces_beside,
    light_beside,
    middle_face,
    narrowed,
    open_bounds,
)

# Nobody said how it stands: free-standing in the middle, but it may turn out upright and turned aside.
_OPEN_TILT_DEG = (15.0, 90.0)
_HALF_CIRCLE_DEG = 180.0
_FACES_TRIED, _IN_TEN = 13, 10.0  # of the faces that an unknown one may be, in a row; per cent of them
_OPEN_FACES, _BY_MOUNT = (
    frozenset({"middle_of_faces", "one_front", "sun_seen"}),
    frozenset({"upright_by_mount", "pitch_by_mount"}),
)
_Span = tuple[float | None, float | None]
_FACES_AS_FACADE = AT_RAILING_OR_WALL | {"sloped_roof"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """What a request says of where panels may stand, beside each array's own plane.

    ``wish``: bounds, planes and hinge tilts. ``facing``: of the railing, by when the sun was seen. ``one_front``:
    nobody told the front of this array nor of others, so that it is one; ``front_azimuth_deg``: as taken for others.
    """

    wish: TiltWish = field(default_factory=TiltWish)
    facing: Facing | None = None
    one_front: bool = False
    front_azimuth_deg: float | None = None


def settled(
    array: Array, node: Node, sky: SkyYear, ground_reflectance_share: float, places: Places | None = None
) -> Array:
    """The array with its plane settled by its mount; what the caller gave of it stays as given.

    Args:
        array: complete but for its plane.
        node: the plane as given; tilt and azimuth that were not given are written down there.
        sky: the year at the place.
        ground_reflectance_share: 0 to 1.
        places: what else the request says of planes.

    Returns:
        The array in its plane: the one of most light over the year that mount, fixing, bounds, the list or the hinge
        leave. Not of most energy: what limits cut is not looked at, nor do arrays spread for them, as ``tilt_advice``
        has them do, and the reason told says so. Slab, walls and house stay while the panel is turned, before
        a facade that is written down where nobody told it. Hung on a rail, wall or fence: upright. Where the face is
        not known, the azimuth is that of the notes of the sun, or that of the middle face, with all faces from east to
        west as its range (``low`` to ``high``, clockwise, through the side of the midday sun: from west over north to
        east in the southern hemisphere). Of an open mount before a facade that was told the range is from the azimuth
        taken to the facade's: there it stands free, or hangs.

    Raises:
        ContradictionError: no plane of the list agrees with what was given of this one.
    """
    tilt, azimuth = node.get("tilt_deg"), node.get("azimuth_deg")
    if tilt is not None and azimuth is not None:
        plane = Plane(tilt_deg=tilt, azimuth_deg=azimuth)
        return array if array.plane == plane else replace(array, plane=plane)
    places = places or Places()
    wish, told_facade, held = places.wish, array.facade_azimuth_deg, None
    if azimuth is None:
        front_deg = places.front_azimuth_deg
        held = facade_to_hold(array, sky, ground_reflectance_share, wish, places.facing, tilt, front_deg=front_deg)
        array = array if held is None else _before(array, node, held, "one_front" if places.one_front else held.code)
    if wish.planes:
        found = best_listed(array, sky, ground_reflectance_share, _agreeing(wish.planes, tilt, azimuth))
        codes = ("best_of_planes", "best_of_planes")
    else:
        found, codes = _found(array, sky, ground_reflectance_share, (tilt, azimuth), places)
    spans = _tilt_span(node, codes[0]), _azimuth_span(codes[1], found, sky, places.facing, told_facade)
    plane = Plane(
        tilt_deg=found.tilt_deg if tilt is None else tilt,
        azimuth_deg=found.azimuth_deg if azimuth is None else azimuth,
    )
    ends = spans[0] if tilt is None else (tilt, tilt), spans[1] if azimuth is None else (azimuth, azimuth)
    if held is None:
        sides = _sides(array, sky, ground_reflectance_share, plane, codes, ends)
    else:
        sides = held.at_most if "best_if_free" in codes else held.in_ten
    if tilt is None:
        _note(node, "tilt_deg", found.tilt_deg, codes[0], spans[0], sides)
    if azimuth is None:
        _note(node, "azimuth_deg", found.azimuth_deg, codes[1], spans[1], sides)
    return replace(array, plane=plane)


def _found(
    array: Array, sky: SkyYear, ground_reflectance_share: float, given: _Span, places: Places
) -> tuple[Plane, tuple[str, str]]:
    """Within the bounds: the plane taken, and why its tilt and azimuth are so; ``given``: what of these was told."""
    (tilt, azimuth), wish = given, places.wish
    bounds = narrowed(open_bounds(array, wish), tilt_deg=tilt, azimuth_deg=azimuth)
    told = azimuth is not None or array.facade_azimuth_deg is not None or wish.low_azimuth_deg is not None
    facing = None if told or array.mount not in AT_RAILING_OR_WALL else places.facing
    if facing is not None:
        bounds = narrowed(bounds, azimuth_deg=facing.azimuth_deg)
    one_front = places.one_front and bounds.facing == "not_known"
    if one_front and places.front_azimuth_deg is not None:
        bounds = narrowed(bounds, azimuth_deg=places.front_azimuth_deg)
    hinge = wish.hinge_tilts_deg if tilt is None else ()
    found = _best(array, sky, ground_reflectance_share, bounds, hinge)
    looks = "one_front" if one_front else _azimuth_code(array, bounds, wish, seen=facing is not None)
    return found, (_tilt_code(array, bounds, wish, found), looks)


def _agreeing(planes: Sequence[Plane], tilt: float | None, azimuth: float | None) -> list[Plane]:
    agreeing = [one for one in planes if tilt in {None, one.tilt_deg} and azimuth in {None, one.azimuth_deg}]
    if not agreeing:
        name, given = ("tilt_deg", tilt) if azimuth is None else ("azimuth_deg", azimuth)
        problem = f"none of them has the {name} that an array was given"
        raise ContradictionError(
            "/tilt/planes", problem, given=f"{name} {given:g}", accepted=f"a plane with {name} {given:g} among them",
            example=[{"tilt_deg": planes[0].tilt_deg, "azimuth_deg": planes[0].azimuth_deg, name: given}],
        )  # fmt: skip
    return agreeing


def _before(array: Array, node: Node, facade: Facade, code: str) -> Array:
    """The array with the facade that slab, walls and house belong to, written down, before which it may be turned."""
    pointer = f"{node.pointer.rpartition('/')[0]}/facade_azimuth_deg"
    node.log.append(
        Assumption(
            pointer=pointer,
            value=facade.azimuth_deg,
            code=code,
            source=row_for(pointer, code).source,
            low=facade.low_azimuth_deg,
            high=facade.high_azimuth_deg,
        )
    )
    return replace(array, facade_azimuth_deg=facade.azimuth_deg)


def _best(
    array: Array, sky: SkyYear, ground_reflectance_share: float, bounds: PlaneBounds, hinge: Sequence[float]
) -> Plane:
    """Within bounds, or in the best place of a hinge; an unknown face is one face for all of its places."""
    if not hinge:
        return best_plane(array, sky, ground_reflectance_share, bounds)
    if bounds.facing == "not_known":
        between = replace(bounds, low_tilt_deg=min(hinge), high_tilt_deg=max(hinge))
        bounds = narrowed(bounds, azimuth_deg=middle_face(array, sky, ground_reflectance_share, between))
    at_each = [best_plane(array, sky, ground_reflectance_share, narrowed(bounds, tilt_deg=place)) for place in hinge]
    return best_listed(array, sky, ground_reflectance_share, at_each)


def _tilt_code(array: Array, bounds: PlaneBounds, wish: TiltWish, found: Plane) -> str:
    if wish.hinge_tilts_deg:
        return "best_of_hinge"
    if wish.low_tilt_deg is not None or wish.high_tilt_deg is not None:
        return "best_within_bounds"
    if array.fixing is not None and array.fixing.leans_out:
        return "best_within_fixing"
    if array.mount == "free_standing":
        return "best_if_free"
    if bounds.low_tilt_deg < bounds.high_tilt_deg:  # the caller may choose: no doubt, but a free hand
        return "best_within_mount"
    return "upright_by_mount" if found.tilt_deg == 90 else "pitch_by_mount"


def _azimuth_code(array: Array, bounds: PlaneBounds, wish: TiltWish, *, seen: bool) -> str:
    if wish.low_azimuth_deg is not None:
        return "best_within_bounds"
    if seen:
        return "sun_seen"
    if array.facade_azimuth_deg is not None and array.mount in _FACES_AS_FACADE:
        return "as_the_facade"
    if bounds.facing == "not_known":
        return "middle_of_faces"
    return "best_if_free" if array.mount == "free_standing" else "best_within_mount"


def _tilt_span(node: Node, code: str) -> _Span:
    if code == "best_if_free":
        return _OPEN_TILT_DEG
    row = row_for(node.at("tilt_deg"), code)
    return row.low, row.high


def _azimuth_span(code: str, found: Plane, sky: SkyYear, facing: Facing | None, told_facade_deg: float | None) -> _Span:
    if code == "best_if_free" and told_facade_deg is not None:  # it stands free as it was found, or hangs as that looks
        turned = (told_facade_deg - found.azimuth_deg) % 360.0
        ends = found.azimuth_deg, told_facade_deg
        return ends if turned <= _HALF_CIRCLE_DEG else ends[::-1]
    if code == "sun_seen" and facing is not None:
        return facing.low_azimuth_deg, facing.high_azimuth_deg
    return (
        faces_beside(found.azimuth_deg, sky)
        if code in {"best_if_free", "middle_of_faces", "one_front"}
        else (None, None)
    )


def _sides(
    array: Array,
    sky: SkyYear,
    ground_reflectance_share: float,
    plane: Plane,
    codes: tuple[str, str],
    ends: tuple[_Span, _Span],
) -> _Span:
    """How much less and how much more of the year's light comes in other planes that it may have; None: not looked at.

    Where nobody told the mount, in the least and the most happy one of its flattest and steepest, turned to either end
    and the middle of its faces. Where only the face is open, a tenth of the faces have less, and a tenth more; where
    the mount alone tells the tilt, in the least and the most happy of the tilts that it may have.
    """
    (flattest, steepest), (first, last) = ends
    free, leans = "best_if_free" in codes, bool(_BY_MOUNT & set(codes))
    if first is None or last is None or not (free or leans or _OPEN_FACES & set(codes)):
        return None, None
    steps = np.linspace(0.0, (last - first) % 360.0, 3 if free else 1 if first == last else _FACES_TRIED)
    tilts = {plane.tilt_deg}
    if free or leans:
        tilts |= {tilt for tilt in (flattest, steepest) if tilt is not None}
    others = [
        Plane(tilt_deg=tilt, azimuth_deg=float((first + step) % 360.0)) for tilt in sorted(tilts) for step in steps
    ]
    apart = light_beside(array, sky, ground_reflectance_share, (plane, *others))
    beyond = (0.0, 100.0) if free else (_IN_TEN, 100.0 - _IN_TEN)
    low, high = np.percentile(np.reshape(apart, (len(tilts), len(steps))), beyond, axis=1)
    return max(-float(low.min()), 0.0), max(float(high.max()), 0.0)


def _note(node: Node, name: str, value: float, code: str, span: _Span, sides: _Span) -> None:
    source = row_for(node.at(name), code).source
    (low, high), (less, more) = span, sides
    node.log.append(
        Assumption(
            pointer=node.at(name), value=value, code=code, source=source, low=low, high=high, less_share=less,
            more_share=more,
        )
    )  # fmt: skip
