"""What of an array's surroundings stays as it is, however the panel is turned?

Skyline, slab and walls before a known facade, and shadows by the clock hide the sun in some hours and a part of the
sky, whichever plane the panel is in. So light behind them is as linear in the hours as under an open sky; of hard
shadows alone the better of two ways counts, in their hours.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.core.energy.kernel.place import PlaceRecord, Singles, single
from service.core.model.facts import Array
from service.core.model.hours import Floats, Ints, SkyYear
from service.core.model.place import Plane
from service.core.sky import Dome, Surroundings, counts_rear, dome_of, has_edges, sun_clear, surroundings_of


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HardShade:
    """Hours with a hard shadow (k,), and in each the share of sections lost and of the hour, (k,)."""

    hours: Ints
    sections_lost_share: Singles
    time_share: Singles

    def taken(self, total: Singles, beam: Singles) -> Singles:
        """Of light in these hours, (m, k), its part from the sun given: as ``core.sky.after_shading``."""
        return np.asarray(np.minimum(total * self.sections_lost_share, beam * self.time_share))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Around:
    """What stands around an array.

    Attributes:
        open_share: (n,) what of the sun's light passes skyline, slab, walls and soft shadows.
        hard: where there are hard shadows.
        dome: what of the sky is seen.
        surroundings: the same as the plain chain has it.
    """

    open_share: Floats
    hard: HardShade | None
    dome: Dome
    surroundings: Surroundings

    def sky_share(self, planes: Sequence[Plane]) -> Floats:
        """(m,) of an even sky's light on level ground what reaches each plane."""
        tilt, azimuth = (np.array([getattr(one, name) for one in planes]) for name in ("tilt_deg", "azimuth_deg"))
        return self.dome.seen_share(tilt, azimuth)


def around_of(array: Array, sky: SkyYear, record: PlaceRecord) -> Around | None:
    """What stands around an array at a place; None where it turns with the panel, a rear counts, or it throws light."""
    daylight, facade = record.daylight, array.facade_azimuth_deg
    before_a_facade = array.overhang is not None or bool(array.side_walls)
    thrown_back = array.facing_reflectance_share is not None
    if counts_rear(array) or has_edges(array) or thrown_back or (before_a_facade and facade is None):
        return None
    surroundings = surroundings_of(array, sky, daylight)
    shading = surroundings.shading
    open_share = surroundings.skyline_open_share * shading.beam_through_share
    if before_a_facade and facade is not None:
        open_share = open_share * sun_clear(array.overhang, array.side_walls, facade, daylight.sun)
    hours = np.flatnonzero(shading.sections_lost_share > 0.0)
    hard = HardShade(
        hours=hours,
        sections_lost_share=single(shading.sections_lost_share[hours]),
        time_share=single(shading.hard_time_share[hours]),
    )
    return Around(
        open_share=open_share,
        hard=hard if hours.size else None,
        dome=dome_of(array.skyline, array.overhang, array.side_walls, facade),
        surroundings=surroundings,
    )
