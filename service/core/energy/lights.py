"""What light falls on planes that were asked about already? Arrays that stand alike share it, whatever their panels.

A part of a question, not of the service: made with it, and let go with it. Of forty shadows asked about one after the
other the light of each is wanted once: the last ``MOST_KEPT`` stands are kept.
"""

from collections.abc import Hashable
from dataclasses import dataclass, field

from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.sky import PlaneLight, has_edges, plane_light

MOST_KEPT = 16  # of eight arrays before a change, and after it; 0.4 MB each


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
        found = self._known.pop(stand, None)
        if found is None:
            found = plane_light(sky, array, ground_reflectance_share)
            if len(self._known) >= MOST_KEPT:
                self._known.pop(next(iter(self._known)))
        self._known[stand] = found  # the last in the order in which they are let go
        return found
