"""Which way does the facade look that a slab or side walls belong to, where nobody told?

A building does not turn with a panel. Where nothing lets the panel turn, it stands square to its facade, and the one
azimuth is that of both (``before_its_facade``). Where it may turn, within an arc or among the planes of a list, the
facade is settled first and held; the panel is turned before it. Every path asks here.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.tilt.best import faces_beside, middle_face
from service.core.tilt.bounds import PlaneBounds, bounds_by_mount
from service.core.tilt.facing import Facing
from service.core.tilt.wish import AT_RAILING_OR_WALL, TiltWish, stands_before_a_facade

_EAST_DEG, _WEST_DEG = 90.0, 270.0
_HALF_CIRCLE_DEG = 180.0
# Whose facade is the one of the railing at which the sun was seen.
_AT_THAT_RAILING = AT_RAILING_OR_WALL | {"balcony_floor"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Facade:
    """The azimuth taken, with its range, clockwise; ``code`` is sun_seen or middle_of_faces."""

    azimuth_deg: float
    low_azimuth_deg: float
    high_azimuth_deg: float
    code: str


def facade_to_hold(
    array: Array, sky: SkyYear, ground_reflectance_share: float, wish: TiltWish, facing: Facing | None
) -> Facade | None:
    """The facade before which an array may be turned, if nobody told it, nor the azimuth of the panel.

    Args:
        array: complete but for its plane.
        sky: the year at the place.
        ground_reflectance_share: 0 to 1.
        wish: where panels may stand.
        facing: of the railing, by when the sun was seen; None where nobody noted that.

    Returns:
        By the notes of the sun; else a middle face of those from east to west over the midday sun, panel and building
        turned together (``middle_face``), or of the arc wished for where that is narrower. None where no facade is
        there or it was told, or where the panel stands square to it: no arc, or one azimuth alone.
    """
    if not stands_before_a_facade(array) or array.facade_azimuth_deg is not None:
        return None
    by_sun = facing if array.mount in _AT_THAT_RAILING else None
    turns = _turns(wish) or (by_sun is not None and array.mount not in AT_RAILING_OR_WALL)
    if not turns:
        return None
    if by_sun is not None:
        return Facade(
            azimuth_deg=by_sun.azimuth_deg,
            low_azimuth_deg=by_sun.low_azimuth_deg,
            high_azimuth_deg=by_sun.high_azimuth_deg,
            code="sun_seen",
        )
    faces = _faces(array, wish)
    azimuth = middle_face(array, sky, ground_reflectance_share, faces)
    low, high = faces.low_azimuth_deg, faces.high_azimuth_deg
    if faces.facing == "not_known":
        low, high = faces_beside(azimuth, sky)
    return Facade(
        azimuth_deg=azimuth,
        low_azimuth_deg=low,
        high_azimuth_deg=high,
        code="middle_of_faces",
    )


def _turns(wish: TiltWish) -> bool:
    """Does the wish leave more than one azimuth, where the mount's own are not asked?"""
    if wish.planes:
        return len({plane.azimuth_deg for plane in wish.planes}) > 1
    return wish.low_azimuth_deg is not None and wish.low_azimuth_deg != wish.high_azimuth_deg


def _faces(array: Array, wish: TiltWish) -> PlaneBounds:
    """The faces that the facade may have, and between which tilts the panel stands before it."""
    mount = bounds_by_mount(array.mount, array.fixing)
    low, high = _span([plane.tilt_deg for plane in wish.planes] or list(wish.hinge_tilts_deg)) or (
        mount.low_tilt_deg if wish.low_tilt_deg is None else wish.low_tilt_deg,
        mount.high_tilt_deg if wish.high_tilt_deg is None else wish.high_tilt_deg,
    )
    faces = PlaneBounds(
        low_tilt_deg=low,
        high_tilt_deg=high,
        low_azimuth_deg=_EAST_DEG,
        high_azimuth_deg=_WEST_DEG,
        facing="not_known",
    )
    if wish.planes or wish.low_azimuth_deg is None or wish.high_azimuth_deg is None:
        return faces
    arc = replace(
        faces, low_azimuth_deg=wish.low_azimuth_deg, high_azimuth_deg=wish.high_azimuth_deg, facing="within_arc"
    )
    return arc if arc.azimuth_span_deg() < _HALF_CIRCLE_DEG else faces


def _span(tilts: Sequence[float]) -> tuple[float, float] | None:
    return (min(tilts), max(tilts)) if tilts else None
