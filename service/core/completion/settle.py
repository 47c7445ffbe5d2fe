"""Which plane does a panel get whose plane was left open? By the most light first, then the whole set by energy."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from service.core.completion.defaults import row_for
from service.core.completion.node import Node
from service.core.model.assumption import Assumption
from service.core.model.facts import Array, Setup
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.tilt import PlaneBounds, best_plane, bounds_by_mount, narrowed

PlanesOf = Callable[[Setup, tuple[PlaneBounds, ...]], tuple[Plane, ...]]

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


def settled_by_energy(setup: Setup, nodes: Sequence[Node], log: list[Assumption], planes_of: PlanesOf) -> Setup:
    """The set with the planes that were left open where together they give the most energy.

    Args:
        setup: complete, each array ``settled``.
        nodes: the arrays as given.
        log: what was assumed; planes that move are written down anew.
        planes_of: ``most_energy_planes`` at the place.

    A face that nobody told stays the middle one: nobody can turn a railing.
    """
    as_given = [node.child("plane") for node in nodes]
    bounds = tuple(_left_open(array, node) for array, node in zip(setup.arrays, as_given, strict=True))
    planes = planes_of(setup, bounds)
    moved = {
        node.at(name): value
        for node, plane in zip(as_given, planes, strict=True)
        for name, value in (("tilt_deg", plane.tilt_deg), ("azimuth_deg", plane.azimuth_deg))
    }
    log[:] = [replace(one, value=moved[one.pointer]) if one.pointer in moved else one for one in log]
    arrays = tuple(replace(array, plane=plane) for array, plane in zip(setup.arrays, planes, strict=True))
    return replace(setup, arrays=arrays)


def _left_open(array: Array, node: Node) -> PlaneBounds:
    bounds = bounds_by_mount(array.mount)
    azimuth = array.plane.azimuth_deg if bounds.facing == "not_known" else node.get("azimuth_deg")
    return narrowed(bounds, tilt_deg=node.get("tilt_deg"), azimuth_deg=azimuth)


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
