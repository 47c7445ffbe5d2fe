"""Within which tilts and directions may a panel stand, by the way it is mounted?"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from service.core.errors import ContradictionError
from service.core.model.fixing import Fixing


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneBounds:
    """What is open about a plane. Equal ends mean that nothing is.

    Attributes:
        low_tilt_deg, high_tilt_deg: 0 to 90.
        low_azimuth_deg, high_azimuth_deg: clockwise from the first to the second, so that 315 to 45 passes north; 0
            and 360 together are all directions.
        facing: "chosen" where the panel may be turned: the best direction is taken. "not_known" where the railing,
            wall or roof faces one way that nobody told: a middle one is taken of all faces from ``low_azimuth_deg``
            to ``high_azimuth_deg`` through the side of the midday sun (south of the tropics: through north).
            "within_arc": the same, of the faces clockwise from the low to the high azimuth.
    """

    low_tilt_deg: float
    high_tilt_deg: float
    low_azimuth_deg: float = 0.0
    high_azimuth_deg: float = 360.0
    facing: str = "chosen"

    def azimuth_span_deg(self) -> float:
        """How far it is from the low to the high azimuth, clockwise, 0 to 360 deg."""
        if self.high_azimuth_deg - self.low_azimuth_deg >= 360.0:
            return 360.0
        return (self.high_azimuth_deg - self.low_azimuth_deg) % 360.0


def _upright() -> PlaneBounds:
    return PlaneBounds(
        low_tilt_deg=90.0, high_tilt_deg=90.0, low_azimuth_deg=90.0, high_azimuth_deg=270.0, facing="not_known"
    )


def _propped() -> PlaneBounds:
    # Flatter than 15 deg rain does not wash the glass, steeper than 40 deg a free frame catches much wind.
    return PlaneBounds(low_tilt_deg=15.0, high_tilt_deg=40.0)


_BY_MOUNT: Mapping[str, PlaneBounds] = MappingProxyType(
    {
        "hung_on_rail": _upright(),
        "behind_rail": _upright(),
        "wall": _upright(),
        "fence": _upright(),
        "balcony_floor": _propped(),
        "ground_frame": _propped(),
        "flat_roof": _propped(),
        "free_standing": _propped(),
        "sloped_roof": replace(_upright(), low_tilt_deg=35.0, high_tilt_deg=35.0),
    }
)


def bounds_by_mount(mount: str, fixing: Fixing | None = None) -> PlaneBounds:
    """What a mount leaves open where nobody gave the plane.

    Hung on or behind a rail, wall, fence: upright, the face not known. Where the fixing says how far it lets a panel
    lean out from upright, the tilt is as open as that. Sloped roof: 35 deg, the face not known.
    Balcony floor, ground frame, flat roof, free standing (no mount told): 15 to 40 deg, any direction.

    Args:
        mount: one of the mounts of ``core.model.facts.Array``.
        fixing: what holds it, where that was said.

    Raises:
        ContradictionError: no such mount.

    >>> bounds_by_mount("hung_on_rail").low_tilt_deg
    90.0
    """
    try:
        bounds = _BY_MOUNT[mount]
    except KeyError:
        raise ContradictionError(
            "", "no such mount", given=mount, accepted=", ".join(_BY_MOUNT), example=next(iter(_BY_MOUNT))
        ) from None
    if fixing is None or not fixing.leans_out:
        return bounds
    least = fixing.low_lean_out_deg or 0.0
    most = least if fixing.high_lean_out_deg is None else fixing.high_lean_out_deg
    return replace(bounds, low_tilt_deg=90.0 - most, high_tilt_deg=90.0 - least)


def narrowed(bounds: PlaneBounds, *, tilt_deg: float | None = None, azimuth_deg: float | None = None) -> PlaneBounds:
    """The bounds with what the caller gave of the plane nailed down; None leaves that part as it was.

    What is given counts, even outside of the mount's own bounds.

    >>> narrowed(bounds_by_mount("wall"), azimuth_deg=200.0).facing
    'chosen'
    """
    if tilt_deg is not None:
        bounds = replace(bounds, low_tilt_deg=tilt_deg, high_tilt_deg=tilt_deg)
    if azimuth_deg is not None:
        bounds = replace(bounds, low_azimuth_deg=azimuth_deg, high_azimuth_deg=azimuth_deg, facing="chosen")
    return bounds
