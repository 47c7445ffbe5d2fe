"""How much light would an array get in this plane or that one, with the place and its obstacles prepared once?"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Array
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.sky import Daylight, Shading, Surroundings, daylight_of, effective_light, surroundings_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

# Half-months by hours of the day: within one group the sun stays within some 6 deg.
_GROUP_DAYS = 15
# So many hours times planes stay within a processor's near cache; larger blocks were slower.
_VALUES_AT_ONCE = 8192


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scene:
    """An array at a place, ready to be asked about many planes."""

    array: Array
    daylight: Daylight
    surroundings: Surroundings
    ground_reflectance_share: float

    def light_kwh_per_m2(self, planes: Sequence[Plane]) -> Floats:
        """Effective light of the year, were the array in each of these planes, (m,)."""
        at_once = max(1, _VALUES_AT_ONCE // max(self.daylight.rows.size, 1))
        totals = [
            effective_light(
                self.array,
                planes[first : first + at_once],
                self.daylight,
                self.surroundings,
                self.ground_reflectance_share,
            ).sum(axis=1)
            for first in range(0, len(planes), at_once)
        ]
        return np.concatenate(totals) / 1000.0


def scene_of(array: Array, sky: SkyYear, ground_reflectance_share: float) -> Scene:
    """The array at the place, every hour with light on its own."""
    daylight = daylight_of(sky)
    return Scene(
        array=array,
        daylight=daylight,
        surroundings=surroundings_of(array, sky, daylight),
        ground_reflectance_share=ground_reflectance_share,
    )


def grouped(scene: Scene) -> Scene:
    """The same with like hours of half a month added up: some 300 rows, good to a few tenths of a per cent.

    Light is summed over a group; directions, skyline and shade are means over it, weighted by the light that they act
    on. What depends on the plane alone stays exact; what jumps between hours (an edge, a hard shadow) is smoothed.
    """
    daylight, shading = scene.daylight, scene.surroundings.shading
    rows = daylight.rows
    group = (rows // 24 // _GROUP_DAYS) * 24 + rows % 24
    used, index = np.unique(group, return_inverse=True)

    def sums(values: Floats) -> Floats:
        return np.bincount(index, weights=values, minlength=used.size).astype(np.float64)

    beam = daylight.from_sun_w_per_m2
    weight = np.maximum(beam, 1e-6)  # hours without beam still need a direction
    total = sums(weight)
    return Scene(
        array=scene.array,
        daylight=Daylight(
            rows=used,
            sun=np.stack([sums(weight * axis) / total for axis in daylight.sun]),
            from_sun_w_per_m2=sums(beam),
            even_sky_w_per_m2=sums(daylight.even_sky_w_per_m2),
            ghi_w_per_m2=sums(daylight.ghi_w_per_m2),
        ),
        surroundings=Surroundings(
            skyline_open_share=sums(weight * scene.surroundings.skyline_open_share) / total,
            sky_over_ground_share=scene.surroundings.sky_over_ground_share,
            shading=Shading(
                beam_through_share=sums(weight * shading.beam_through_share) / total,
                sections_lost_share=sums(weight * shading.sections_lost_share) / total,
                hard_time_share=sums(weight * shading.hard_time_share) / total,
            ),
        ),
        ground_reflectance_share=scene.ground_reflectance_share,
    )


def year_light_kwh_per_m2(array: Array, sky: SkyYear, plane: Plane, ground_reflectance_share: float) -> float:
    """Effective light of a year on the array, were it in this plane, all obstacles counted.

    Args:
        array: its skyline, overhang, walls, shade and cover are used, its own plane is not.
        sky: the year at the place.
        plane: the plane to be looked at.
        ground_reflectance_share: 0 to 1.

    Returns:
        kWh per m2 and year, past the glass as if at square incidence. Not capped by any inverter.
    """
    return float(scene_of(array, sky, ground_reflectance_share).light_kwh_per_m2([plane])[0])
