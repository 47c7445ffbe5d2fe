"""What of an array's surroundings stays as it is, however the panel is turned?

Skyline and shadows by the clock, slab, walls and house before a known facade hide the sun in some hours and a part of
the sky, whichever plane the panel is in. So light behind them is as linear in the hours as under an open sky. Hours
apart are those of hard shadows, of which the better of two ways counts, and those in which the shadow of a slab or a
wall may end on the panel: how much of the panel lies in it hangs on the plane.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from service.core.energy.kernel.place import PlaceRecord, Singles, single
from service.core.model.facts import Array
from service.core.model.hours import Floats, Ints, SkyYear
from service.core.model.place import Plane
from service.core.sky import (
    BeforeFacade,
    Dome,
    Shares,
    Surroundings,
    Ways,
    before_facade,
    counts_rear,
    darkest_places,
    dome_of,
    ground_w_per_m2,
    house_steepness,
    past_house_share,
    stands_behind,
    stands_under_or_beside,
    surroundings_of,
    taken_by_bands,
    taken_by_clock,
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HoursApart:
    """Hours in which a hard shadow falls, or one of slab or walls may end on the panel, (k,).

    ``sections_lost_share``, ``time_share``: of hard shadows by the clock, (k,), where there are some (``by_clock``);
    ``facade``: slab and walls in these hours, where they stand.
    """

    hours: Ints
    sections_lost_share: Singles
    time_share: Singles
    by_clock: bool
    facade: BeforeFacade | None

    def ways(self, down: Singles | None) -> Ways:
        """Past slab and walls, of planes by their ``Around.down``."""
        return () if self.facade is None or down is None else self.facade.ways(down)

    def share_of_beam(self, ways: Ways) -> Shares | None:
        """What is taken of the beam, (m, k), where that is all: no sections are given up."""
        return ways[0][1] if len(ways) == 1 and not self.by_clock else None

    def taken(self, total: Shares, beam: Shares, ways: Ways) -> Shares:
        """Of light in these hours, (m, k), its part from the sun given: as ``core.sky.after_shading``."""

        def bands(of_all: Shares, of_beam: Shares) -> Shares:
            return np.minimum(taken_by_bands(of_all, of_beam, ways), of_beam) if ways else np.zeros_like(of_all)

        return taken_by_clock(total, beam, self.sections_lost_share, self.time_share, bands)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Around:
    """What stands around an array.

    Attributes:
        open_share: (n,) what of the sun's light passes skyline, house, slab, walls and soft shadows, hours apart as if
            free.
        apart: those hours, where there are some.
        ground_w_per_m2: (n,) light on the ground past a skyline; None: there is none, the ground gets all.
        dome: what of the sky is seen.
        surroundings: the same as the plain chain has it.
    """

    open_share: Floats
    apart: HoursApart | None
    ground_w_per_m2: Floats | None
    dome: Dome
    surroundings: Surroundings

    def sky_share(self, planes: Sequence[Plane]) -> Floats:
        """(m,) of an even sky's light on level ground what reaches each plane."""
        tilt, azimuth = (np.array([getattr(one, name) for one in planes]) for name in ("tilt_deg", "azimuth_deg"))
        return self.dome.seen_share(tilt, azimuth)

    def down(self, planes: Sequence[Plane]) -> Singles | None:
        """(m, 2) how planes run down and out under a slab, beside a wall; None: there is neither."""
        return None if self.apart is None or self.apart.facade is None else self.apart.facade.down(planes)


def around_of(array: Array, sky: SkyYear, record: PlaceRecord) -> Around | None:
    """What stands around an array at a place; None where it turns with the panel, a rear counts, or it throws light."""
    daylight, facade = record.daylight, array.facade_azimuth_deg
    before, house = stands_under_or_beside(array), house_steepness(array)
    thrown_back = array.facing_reflectance_share is not None
    if counts_rear(array) or stands_behind(array) or thrown_back or (facade is None and (before or house is not None)):
        return None
    surroundings = surroundings_of(array, sky, daylight)
    shading = surroundings.shading
    open_share = surroundings.skyline_open_share * shading.beam_through_share
    by_clock = shading.sections_lost_share > 0.0
    is_apart, still = by_clock, None
    if house is not None and facade is not None:
        open_share = open_share * past_house_share(house, np.array([facade]), daylight.sun)[0]
    if before and facade is not None:
        still = before_facade(array, facade, daylight.sun)
        open_share = np.where(still.hidden, 0.0, open_share)
        is_apart = by_clock | still.partly & (open_share * daylight.from_sun_w_per_m2 > 0.0)
    hours = np.flatnonzero(is_apart)
    apart = HoursApart(
        hours=hours,
        sections_lost_share=single(shading.sections_lost_share[hours]),
        time_share=single(shading.hard_time_share[hours]),
        by_clock=bool(by_clock.any()),
        facade=None if still is None else still.in_single(hours),
    )
    places = replace(darkest_places(array), slice_deg=daylight.slice_deg, house_steepness=house)
    return Around(
        open_share=open_share,
        apart=apart if hours.size else None,
        ground_w_per_m2=ground_w_per_m2(daylight, surroundings) if array.skyline else None,
        dome=dome_of(array.skyline, array.slab, array.walls, facade, places),
        surroundings=surroundings,
    )
