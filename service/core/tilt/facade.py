"""Which way does the facade look that a slab, side walls or the house behind belong to, where nobody told?

A building does not turn with a panel. Where nothing lets the panel turn, it stands square to its facade, and the one
azimuth is that of both (``before_its_facade``). Where it may turn, by its mount, within an arc or among the planes of a
list, the facade is settled first and held; the panel is turned before it, as it is where the facade is told. Every path
asks here.
"""

from dataclasses import dataclass, replace

import numpy as np

from service.core.model.facts import Array
from service.core.model.hours import Floats, SkyYear
from service.core.model.place import Plane
from service.core.sky import house_steepness
from service.core.tilt.best import faces_beside, faces_between
from service.core.tilt.bounds import PlaneBounds, bounds_by_mount
from service.core.tilt.facing import Facing
from service.core.tilt.lattice import compass
from service.core.tilt.scene import Scene, grouped, scene_of
from service.core.tilt.wish import AT_RAILING_OR_WALL, TiltWish, open_bounds, stands_before_a_facade

_EAST_DEG, _WEST_DEG = 90.0, 270.0
_HALF_CIRCLE_DEG = 180.0
# Whose facade is the one of the railing at which the sun was seen.
_AT_THAT_RAILING = AT_RAILING_OR_WALL | {"balcony_floor"}
# Facades looked at, and planes before each: between those the light is read from straight lines.
# Where a house is behind and a wall beside, light bends sharply as the facade turns past south.
_FACE_STEP_DEG, _BESIDE_A_WALL_STEP_DEG = 30.0, 15.0
_TURNS_DEG, _ARC_STEPS = (-60.0, -30.0, 0.0, 30.0, 60.0), 5
_IN_TEN, _UPRIGHT_DEG = 10.0, 90.0

Sides = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Facade:
    """The azimuth taken, with its range, clockwise; ``code`` is sun_seen or middle_of_faces.

    How much less and how much more of the year's light comes before the other facades of the range, each with its own
    best plane: ``in_ten`` before a tenth of them, ``at_most`` before the least and the most happy, also flattest and
    upright, square to them. As shares.
    """

    azimuth_deg: float
    low_azimuth_deg: float
    high_azimuth_deg: float
    code: str
    in_ten: Sides
    at_most: Sides


def facade_to_hold(
    array: Array,
    sky: SkyYear,
    ground_reflectance_share: float,
    wish: TiltWish,
    facing: Facing | None,
    tilt_deg: float | None = None,
    *,
    front_deg: float | None = None,
) -> Facade | None:
    """The facade before which an array may be turned, if nobody told it, nor the azimuth of the panel.

    Args:
        array: complete but for its plane.
        sky: the year at the place.
        ground_reflectance_share: 0 to 1.
        wish: where panels may stand.
        facing: of the railing, by when the sun was seen; None where nobody noted that.
        tilt_deg: of the panel, where that was told.
        front_deg: which way the front was taken to look before which other arrays stand with it; None: still open.

    Returns:
        By the notes of the sun; else that front; else of the facades from east to west over the midday sun, or of the
        arc wished for where that is narrower, the one before which the panel's best plane has the middle light. None
        where no facade is there or it was told, or where the panel stands square to it: a railing or wall, or one
        azimuth alone.
    """
    if not stands_before_a_facade(array) or array.facade_azimuth_deg is not None or not _turns(array, wish):
        return None
    by_sun = facing if array.mount in _AT_THAT_RAILING else None
    faces = _faces(array, wish, by_sun)
    scene = grouped(scene_of(array, sky, ground_reflectance_share))
    looks = faces_between(scene, faces)
    sharp = array.walls and house_steepness(array) is not None
    step_deg = _BESIDE_A_WALL_STEP_DEG if sharp else _FACE_STEP_DEG
    span = np.linspace(0.0, looks.size - 1.0, int(np.ceil(faces.azimuth_span_deg() / step_deg)) + 1)
    nodes = np.unique(np.round(span).astype(np.int64))
    best, least, most = np.array([_light(scene, wish, tilt_deg, float(looks[at])) for at in nodes]).T
    light = np.interp(np.arange(looks.size), nodes, best)
    at = int(np.argsort(light, kind="stable")[(looks.size - 1) // 2])
    azimuth, taken = float(looks[at]), float(light[at])
    told_deg = front_deg if by_sun is None else by_sun.azimuth_deg
    if told_deg is not None:
        azimuth, taken = told_deg, float(light[np.argmin(np.abs(_apart(looks, told_deg)))])
    low, high = faces.low_azimuth_deg, faces.high_azimuth_deg
    if faces.facing == "not_known":
        low, high = faces_beside(azimuth, sky)
    return Facade(
        azimuth_deg=azimuth,
        low_azimuth_deg=low,
        high_azimuth_deg=high,
        code="middle_of_faces" if by_sun is None else "sun_seen",
        in_ten=_beside(np.percentile(light, (_IN_TEN, 100.0 - _IN_TEN)), taken),
        at_most=_beside(np.concatenate((least, most)), taken),
    )


def shares_a_front(array: Array, wish: TiltWish, facing: Facing | None) -> bool:
    """Is the front open at which it hangs or before which it is turned, if its azimuth is? One house has one front.

    Not where the notes of the sun tell it.
    """
    if array.facade_azimuth_deg is not None or (facing is not None and array.mount in _AT_THAT_RAILING):
        return False
    if stands_before_a_facade(array) and _turns(array, wish):
        return True
    return not wish.planes and open_bounds(array, wish).facing == "not_known"


def _apart(looks_deg: Floats, azimuth_deg: float) -> Floats:
    return np.asarray((looks_deg - azimuth_deg + _HALF_CIRCLE_DEG) % 360.0 - _HALF_CIRCLE_DEG)


def _beside(others: Floats, taken: float) -> Sides:
    if not taken > 0.0:
        return 0.0, 0.0
    return max(1.0 - float(others.min()) / taken, 0.0), max(float(others.max()) / taken - 1.0, 0.0)


def _light(scene: Scene, wish: TiltWish, tilt_deg: float | None, facade_deg: float) -> tuple[float, float, float]:
    """Before a facade that looks so, kWh/m2: on the best of some planes, and with two square ones least and most."""
    array = replace(scene.array, facade_azimuth_deg=facade_deg)
    planes = [one for one in wish.planes if tilt_deg in {None, one.tilt_deg}]
    if not planes:
        low, high = (tilt_deg, tilt_deg) if tilt_deg is not None else _tilts(array, wish)
        if wish.low_azimuth_deg is None or wish.high_azimuth_deg is None:
            looks = [compass(facade_deg + turn) for turn in _TURNS_DEG]
        else:
            arc = (wish.high_azimuth_deg - wish.low_azimuth_deg) % 360.0 or 360.0
            looks = [compass(wish.low_azimuth_deg + turn) for turn in np.linspace(0.0, arc, _ARC_STEPS).tolist()]
        tilts = dict.fromkeys((low, (low + high) / 2.0, high))
        planes = [Plane(tilt_deg=tilt, azimuth_deg=look) for tilt in tilts for look in looks]
    flattest = min(plane.tilt_deg for plane in planes)
    square = [Plane(tilt_deg=tilt, azimuth_deg=facade_deg) for tilt in (flattest, _UPRIGHT_DEG)]
    light = replace(scene, array=array).light_kwh_per_m2([*planes, *square])
    return float(light[:-2].max()), float(light[-2:].min()), float(light.max())


def _turns(array: Array, wish: TiltWish) -> bool:
    """Is more than one azimuth left, by the wish, else by the mount?"""
    if wish.planes:
        return len({plane.azimuth_deg for plane in wish.planes}) > 1
    if wish.low_azimuth_deg is not None:
        return wish.low_azimuth_deg != wish.high_azimuth_deg
    return bounds_by_mount(array.mount).facing == "chosen"


def _tilts(array: Array, wish: TiltWish) -> tuple[float, float]:
    """Between which tilts the panel stands before its facade."""
    if wish.planes or wish.hinge_tilts_deg:
        tilts = [plane.tilt_deg for plane in wish.planes] or list(wish.hinge_tilts_deg)
        return min(tilts), max(tilts)
    mount = bounds_by_mount(array.mount, array.fixing)
    return (
        mount.low_tilt_deg if wish.low_tilt_deg is None else wish.low_tilt_deg,
        mount.high_tilt_deg if wish.high_tilt_deg is None else wish.high_tilt_deg,
    )


def _faces(array: Array, wish: TiltWish, by_sun: Facing | None) -> PlaneBounds:
    """The faces that the facade may have."""
    low, high = _tilts(array, wish)
    faces = PlaneBounds(
        low_tilt_deg=low,
        high_tilt_deg=high,
        low_azimuth_deg=_EAST_DEG,
        high_azimuth_deg=_WEST_DEG,
        facing="not_known",
    )
    if by_sun is not None:
        return replace(
            faces, low_azimuth_deg=by_sun.low_azimuth_deg, high_azimuth_deg=by_sun.high_azimuth_deg, facing="within_arc"
        )
    if wish.planes or wish.low_azimuth_deg is None or wish.high_azimuth_deg is None:
        return faces
    arc = replace(
        faces, low_azimuth_deg=wish.low_azimuth_deg, high_azimuth_deg=wish.high_azimuth_deg, facing="within_arc"
    )
    return arc if arc.azimuth_span_deg() < _HALF_CIRCLE_DEG else faces
