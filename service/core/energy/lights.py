"""What light falls on planes that were asked about already, and how warm are the cells behind them?

Arrays that stand alike share it, whatever their panels. A part of a question, not of the service: made with it, and let
go with it. Of forty shadows asked about one after the other the light of each is wanted once: the last ``MOST_KEPT``
stands are kept.
"""

from collections.abc import Hashable
from dataclasses import dataclass, field

from service.core.energy.cells import CellYear, cell_year
from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.sky import (
    Daylight,
    PlaneLight,
    daylight_of,
    has_edges,
    house_over_panel,
    house_steepness,
    layout_key,
    plane_light,
)

MOST_KEPT = 16  # of eight arrays before a change, and after it; 0.5 MB each


@dataclass(frozen=True, slots=True, eq=False)
class _OnPlane:
    """The light of a stand, and cells by the way of mounting."""

    light: PlaneLight
    cells: dict[str, CellYear] = field(default_factory=dict)


def light_key(array: Array) -> Hashable:
    """All that the light on an array hangs on beside the place: arrays of one key get the same."""
    return (
        array.plane, array.skyline, array.overhang, array.side_walls, array.cover, array.shade,
        array.facade_azimuth_deg, array.hand_rail, array.row_in_front, array.facing_reflectance_share,
        layout_key(array) if has_edges(array) else None, house_over_panel(array), house_steepness(array),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class Lights:
    """The light on planes, by the year and by how arrays stand."""

    _known: dict[Hashable, _OnPlane] = field(default_factory=dict, init=False)
    _daylights: dict[SkyYear, Daylight] = field(default_factory=dict, init=False)

    def on(self, sky: SkyYear, array: Array, ground_reflectance_share: float) -> PlaneLight:
        """``plane_light``, asked once of each stand."""
        return self._stand(sky, array, ground_reflectance_share).light

    def with_cells(self, sky: SkyYear, array: Array, ground_reflectance_share: float) -> tuple[PlaneLight, CellYear]:
        """The same and its ``cell_year``, asked once of each way of mounting."""
        found = self._stand(sky, array, ground_reflectance_share)
        if array.mount not in found.cells:
            found.cells[array.mount] = cell_year(array.mount, found.light, sky)
        return found.light, found.cells[array.mount]

    def _stand(self, sky: SkyYear, array: Array, ground_reflectance_share: float) -> _OnPlane:
        stand = (sky, ground_reflectance_share, light_key(array))
        found = self._known.pop(stand, None)
        if found is None:
            found = _OnPlane(plane_light(sky, array, ground_reflectance_share, self._daylight(sky)))
            if len(self._known) >= MOST_KEPT:
                self._known.pop(next(iter(self._known)))
        self._known[stand] = found  # the last in the order in which they are let go
        return found

    def _daylight(self, sky: SkyYear) -> Daylight:
        """The hours with light of the last year asked about."""
        if sky not in self._daylights:
            self._daylights.clear()
            self._daylights[sky] = daylight_of(sky)
        return self._daylights[sky]
