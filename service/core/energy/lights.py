"""What light falls on planes that were asked about already? Arrays that stand alike share it, whatever their panels.

A part of a question, not of the service: made with it, and let go with it.
"""

from collections.abc import Hashable
from dataclasses import dataclass, field

from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.sky import PlaneLight, has_edges, plane_light


@dataclass(frozen=True, slots=True, eq=False)
class Lights:
    """The light on planes, by the year and by how arrays stand."""

    _known: dict[Hashable, PlaneLight] = field(default_factory=dict, init=False)

    def on(self, sky: SkyYear, array: Array, ground_reflectance_share: float) -> PlaneLight:
        """``plane_light``, asked once of each stand."""
        stand = (
            sky, ground_reflectance_share, array.plane, array.skyline, array.overhang, array.side_walls, array.cover,
            array.shade, array.facade_azimuth_deg, array.hand_rail, array.row_in_front, array.facing_reflectance_share,
            (array.orientation, array.panel) if has_edges(array) else None,
        )  # fmt: skip
        if stand not in self._known:
            self._known[stand] = plane_light(sky, array, ground_reflectance_share)
        return self._known[stand]
