"""Which plane does a panel get whose plane was left open? Settled once, before any physics; then all are known."""

from dataclasses import replace

from service.core.completion.defaults import row_for
from service.core.completion.node import Node
from service.core.model.assumption import Assumption
from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.tilt import PlaneBounds, best_plane, bounds_by_mount, narrowed

# Nobody said how it stands: free-standing in the middle, but it may turn out upright and turned aside.
_OPEN_TILT_DEG = (15.0, 90.0)
_OPEN_FACES_DEG = (90.0, 270.0)


def settled(array: Array, node: Node, sky: SkyYear, ground_reflectance_share: float) -> Array:
    """The array with its plane settled by its mount; what the caller gave of it stays as given.

    Args:
        array: complete but for its plane.
        node: the plane as given; tilt and azimuth that were not given are written down there.
        sky: the year at the place.
        ground_reflectance_share: 0 to 1.

    Returns:
        The array in its plane. Hung on a rail, wall or fence: upright. Where the face is not known, the azimuth is
        that of the middle face, with all faces from east to west as its range (``low`` to ``high`` through the side
        of the midday sun, which is north in the southern hemisphere).
    """
    tilt, azimuth = node.get("tilt_deg"), node.get("azimuth_deg")
    if tilt is not None and azimuth is not None:
        return replace(array, plane=Plane(tilt_deg=tilt, azimuth_deg=azimuth))
    bounds = narrowed(bounds_by_mount(array.mount), tilt_deg=tilt, azimuth_deg=azimuth)
    found = best_plane(array, sky, ground_reflectance_share, bounds)
    if tilt is None:
        _note_tilt(array.mount, bounds, found, node)
    if azimuth is None:
        _note_azimuth(array.mount, bounds, found, node)
    plane = Plane(
        tilt_deg=found.tilt_deg if tilt is None else tilt,
        azimuth_deg=found.azimuth_deg if azimuth is None else azimuth,
    )
    return replace(array, plane=plane)


def _note_tilt(mount: str, bounds: PlaneBounds, found: Plane, node: Node) -> None:
    if mount == "free_standing":
        _note(node, "tilt_deg", found.tilt_deg, "best_if_free", _OPEN_TILT_DEG)
    elif bounds.low_tilt_deg < bounds.high_tilt_deg:  # the caller may choose: no doubt, but a free hand
        _note(node, "tilt_deg", found.tilt_deg, "best_within_mount", None)
    else:
        code = "upright_by_mount" if found.tilt_deg == 90 else "pitch_by_mount"
        row = row_for(node.at("tilt_deg"), code)
        _note(node, "tilt_deg", found.tilt_deg, code, (row.low, row.high))


def _note_azimuth(mount: str, bounds: PlaneBounds, found: Plane, node: Node) -> None:
    if bounds.facing == "not_known":
        faces = (bounds.low_azimuth_deg, bounds.high_azimuth_deg)
        _note(node, "azimuth_deg", found.azimuth_deg, "middle_of_faces", faces)
    elif mount == "free_standing":
        _note(node, "azimuth_deg", found.azimuth_deg, "best_if_free", _OPEN_FACES_DEG)
    else:
        _note(node, "azimuth_deg", found.azimuth_deg, "best_within_mount", None)


def _note(node: Node, name: str, value: float, code: str, span: tuple[float | None, float | None] | None) -> None:
    low, high = span or (None, None)
    source = row_for(node.at(name), code).source
    node.log.append(Assumption(pointer=node.at(name), value=value, code=code, source=source, low=low, high=high))
