"""Which hours of a place's year are so alike that one may stand for them where only a map is wanted?

Those of one hour of the day within some days, and of these the dull ones apart from the bright ones. Days are taken
together by how far the sun moves north or south in them: few about the equinoxes, more about the solstices. So shadows
fall in a group of hours nearly as they do in its mean, and weather is told apart by light.
"""

from dataclasses import dataclass

import numpy as np

from service.core.energy.kernel.place import PlaceRecord, Singles, single
from service.core.energy.kernel.snow import Snow
from service.core.model.hours import Floats, Ints
from service.core.sky import Daylight

# How far the sun goes north or south within a group, and by how much a day counts at least, for what else the seasons
# change. Of steps of 1.2 to 2.4 and 0.1 to 0.2 deg these left maps behind rails and beside walls nearest (own runs).
SHORT_STEP_DEG, _LEAST_A_DAY_DEG = 2.0, 0.2
_TROPIC_DEG, _EQUINOX_DAY, _DAYS = 23.45, 81.0, 365.0  # Cooper, Solar Energy 12 (1969) 333-346
_DULL_OR_BRIGHT = 2
_SLICE_DEG = 5.0
_NEXT_TO_NOTHING = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LikeHours:
    """A place's hours in groups.

    Attributes:
        group: (n,) the group of each hour, from 0.
        hours: (g,) how many each has.
        record: the groups as hours of a place: light, air and sun in the mean. ``daylight.rows`` are those of the hour
            in each whose sun is next to the mean. No day has a beginning: nothing tells what ran before.
    """

    group: Ints
    hours: Singles
    record: PlaceRecord

    def mean(self, values: Floats) -> Floats:
        """(g, ...) of (n, ...)."""
        in_order = np.argsort(self.group, kind="stable")
        starts = np.flatnonzero(np.diff(self.group[in_order], prepend=-1))
        sums = np.add.reduceat(values[in_order], starts, axis=0)
        return np.asarray(sums / self.hours.reshape(-1, *(1,) * (values.ndim - 1)), np.float64)


def like_hours(record: PlaceRecord, step_deg: float = SHORT_STEP_DEG) -> LikeHours:
    """The hours of a place with light, some 4400, in some 1300 groups.

    ``step_deg``: how far the sun goes north or south within a group at most.
    """
    daylight = record.daylight
    rows, ghi = daylight.rows, daylight.ghi_w_per_m2
    group = _groups(rows, ghi, step_deg)
    hours = np.bincount(group).astype(np.float64)

    def mean(values: Floats, weight: Floats | None = None) -> Floats:
        weight = np.ones(values.size) if weight is None else weight
        sums = np.bincount(group, values * weight), np.bincount(group, weight)
        return np.asarray(sums[0] / sums[1], np.float64)

    beam, light = (np.maximum(one, _NEXT_TO_NOTHING) for one in (daylight.from_sun_w_per_m2, daylight.ghi_w_per_m2))
    sun = np.stack([mean(axis, beam) for axis in daylight.sun])
    off = np.square(daylight.sun - sun[:, group]).sum(axis=0)
    nearest = np.lexsort((off, group))
    sun /= np.linalg.norm(sun, axis=0)
    short = Daylight(
        rows=rows[nearest[np.flatnonzero(np.diff(group[nearest], prepend=-1))]],
        sun=sun,
        from_sun_w_per_m2=mean(daylight.from_sun_w_per_m2),
        even_sky_w_per_m2=mean(daylight.even_sky_w_per_m2),
        ghi_w_per_m2=mean(ghi),
        slice_deg=_SLICE_DEG,
        picked_of=daylight.whole,
    )
    flicker, snow = record.flicker_share, record.snow
    return LikeHours(
        group=group,
        hours=single(hours),
        record=PlaceRecord(
            daylight=short,
            sun=single(np.vstack((sun, np.ones(hours.size)))),
            from_sun_w_per_m2=single(short.from_sun_w_per_m2),
            even_sky_w_per_m2=single(short.even_sky_w_per_m2),
            ghi_w_per_m2=single(short.ghi_w_per_m2),
            air_c=mean(record.air_c, light),
            wind_m_per_s=mean(record.wind_m_per_s, light),
            flicker_share=None if flicker is None else single(mean(flicker.astype(np.float64), light)),
            snow=None if snow is None else Snow.of(single(mean(snow.share.astype(np.float64), light))),
            first_of_day=np.arange(hours.size),
        ),
    )


def _groups(rows: Ints, light: Floats, step_deg: float) -> Ints:
    """(n,) the group of each hour: by days, by the hour of the day, by whether it is of the duller ones there."""
    days = np.arange(rows.max(initial=0) // 24 + 1)
    moves = _TROPIC_DEG * np.radians(360.0 / _DAYS) * np.abs(np.cos(np.radians(360.0 / _DAYS * (days - _EQUINOX_DAY))))
    some_days = (np.cumsum(np.maximum(moves, _LEAST_A_DAY_DEG)) / step_deg).astype(np.int64)
    key = some_days[rows // 24] * 24 + rows % 24
    order = np.lexsort((light, key))
    starts = np.flatnonzero(np.diff(key[order], prepend=-1))
    sizes = np.diff(np.append(starts, rows.size))
    rank = np.arange(rows.size) - np.repeat(starts, sizes)
    part = np.empty(rows.size, np.int64)
    part[order] = rank * _DULL_OR_BRIGHT // np.repeat(sizes, sizes)
    # In the order of days, all dull hours of some days before their bright ones.
    by_day = (key // 24 * _DULL_OR_BRIGHT + part) * 24 + key % 24
    return np.asarray(np.unique(by_day, return_inverse=True)[1], np.int64)
