"""What would many sets give at this home, quickly? A year of hours in some 400 groups of like hours.

Hours of two months, of one hour of the clock and of like light are put together. Light and heat of a group are its
means; what the home uses of a power is the mean of its hours' own curves, so that nothing of demand and prices is lost.
What is lost lies in the light: limits act on a group's mean, and the year comes out within some tenths of a per cent.
Good for an order of sets; what is told of a set comes from the whole chain.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from service.core.energy.kernel import (
    COLDEST_C,
    STEP_C,
    STEP_W_PER_M2,
    Light,
    PlaceRecord,
    light_among,
    open_planes,
    place_record,
)
from service.core.energy.kernel.place import single
from service.core.model.facts import Array, Setup
from service.core.model.hours import Bools, Floats, Ints, SkyYear
from service.core.sky import house_hiding
from service.core.tilt.home import Home, home_of
from service.core.worth import AtTheMeter

Singles = NDArray[np.float32]
_LIGHTS = 5  # groups of like light in each hour of two months
_DAYS_PER_YEAR = 365.0
_AT_ONCE = 64  # rows of powers; what many more need on the way is fetched anew each time, at three times the cost

# Of rows of powers, each (m,): kWh of the year, and what they save.
Sums = tuple[Floats, Floats | None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Curves:
    """A curve over power in each of k groups, on straight lines between a few powers; see ``tilt.home.Curves``.

    ``base``, ``slope``: (k * stretches,) by group and stretch, for all hours of a group.
    """

    base: Singles
    slope: Singles
    stretches: int
    per_w: np.float32

    def sums(self, power_w: Singles) -> Singles:
        """(m,) of all groups together, at powers (m, k)."""
        root = power_w * self.per_w
        np.sqrt(root, out=root)
        at = root.astype(np.int32)  # narrow, as that is quick; look-ups want it wide
        if root.size and root.max() >= self.stretches:
            np.minimum(at, self.stretches - 1, out=at)
        at += np.arange(0, power_w.shape[-1] * self.stretches, self.stretches, dtype=np.int32)
        cells = at.astype(np.intp)
        found: Singles = np.vecdot(self.slope.take(cells, mode="clip"), power_w)  # inside, as said above
        found += self.base.take(cells, out=root, mode="clip").sum(axis=-1)
        return found


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GroupedYear:
    """A home's year in k groups of hours.

    Attributes:
        hours: (k,) how many hours each has.
        irradiance_w_per_m2, cell_c: (places, k) effective light behind glass and dirt, and cell temperature.
        flicker_share: (k,) as of the place's record; None: light is steady.
        up_share: part of the year in which a set runs.
        like_days: (k,) number of the days of two months and of like light to which it belongs; a day's groups stand in
            the order of its hours.
        saved: money in thousandths of a year over power before downtime; None: no price is known.
    """

    hours: Singles
    irradiance_w_per_m2: Floats
    cell_c: Floats
    flicker_share: Singles | None
    up_share: float
    like_days: Ints
    saved: Curves | None

    def sunniest_first(self) -> tuple[int, ...]:
        """The places by the light that works there in a year; of equal ones the first."""
        light = self.irradiance_w_per_m2 @ self.hours
        return tuple(sorted(range(light.size), key=lambda place: (-round(float(light[place]), 3), place)))

    def running(self, starts: Bools, groups: Ints) -> Bools:
        """Where an input runs that starts there, (m, n) both: from then on to the day's end; of ``groups`` (n,)."""
        days = self.like_days[groups]
        order = np.argsort(days, kind="stable")
        begins = np.searchsorted(days[order], days[order])
        last_start = np.maximum.accumulate(np.where(starts[:, order], np.arange(order.size), -1), axis=1)
        running = np.empty(starts.shape, bool)
        running[:, order] = last_start >= begins
        return running

    def sums(self, ac_w: Singles) -> Sums:
        """Of powers (m, k) under the limit, before downtime; see ``some_at_a_time`` for very many."""
        year = np.asarray(ac_w @ (self.hours * np.float32(self.up_share)), np.float64) / 1000.0
        return year, None if self.saved is None else np.asarray(self.saved.sums(ac_w), np.float64) / 1000.0


def some_at_a_time(rows: int, sums: Callable[[slice], Sums]) -> Sums:
    """The sums of many rows, asked for by parts of them."""
    parts = [sums(slice(first, first + _AT_ONCE)) for first in range(0, max(rows, 1), _AT_ONCE)]
    saved = [one for _, one in parts if one is not None]
    return np.concatenate([year for year, _ in parts]), np.concatenate(saved) if saved else None


def grouped_year(setup: Setup, sky: SkyYear, meter: AtTheMeter, most_ac_w: float, as_of: date) -> GroupedYear:
    """The year of a home at its places.

    Args:
        setup: a complete request with one array at each place; its panels stand for any.
        sky: the place's hours.
        meter: the home as its meter sees it.
        most_ac_w: no set gives more.
        as_of: on which the account begins.
    """
    record = place_record(sky)
    lights = [_light(array, sky, record, setup.site.ground_reflectance_share) for array in setup.arrays]
    nodes = np.concatenate([light.nodes for light in lights])
    steps = np.concatenate([light.steps for light in lights])
    rows = record.daylight.rows
    group, like_days = _groups(nodes.sum(axis=0), sky, rows)
    hours = np.bincount(group)

    def mean(values: Floats, weights: Floats | None = None) -> Floats:
        if weights is None:
            return np.asarray(np.bincount(group, values) / hours)
        return np.asarray(np.bincount(group, values * weights) / np.bincount(group, weights))

    bright = np.asarray(nodes, np.float64) + 1e-6
    home = home_of(meter, setup, sky.calendar, rows, most_ac_w, as_of)
    up_share = 1.0 - min(setup.downtime_days_per_year / _DAYS_PER_YEAR, 1.0)
    return GroupedYear(
        hours=single(hours.astype(np.float64)),
        irradiance_w_per_m2=np.stack([STEP_W_PER_M2 * mean(row) for row in np.asarray(nodes, np.float64)]),
        cell_c=np.stack([
            COLDEST_C + STEP_C * (mean(row, weights) - 0.5)
            for row, weights in zip(np.asarray(steps, np.float64), bright, strict=True)
        ]),
        flicker_share=None if record.flicker_share is None else single(
            mean(np.asarray(record.flicker_share, np.float64), bright.sum(axis=0))
        ),
        up_share=up_share,
        like_days=like_days,
        saved=_saved(home, group, hours.size, up_share),
    )  # fmt: skip


def _light(array: Array, sky: SkyYear, record: PlaceRecord, ground_reflectance_share: float) -> Light:
    plane = array.plane
    house = house_hiding(array, np.array([plane.tilt_deg]), np.array([plane.azimuth_deg]))
    if array.surrounded or house is not None:
        return light_among(array, sky, record, [array.plane], ground_reflectance_share)
    return open_planes(array, record, [array.plane], ground_reflectance_share).light()


def _groups(light: Singles, sky: SkyYear, rows: Ints) -> tuple[Ints, Ints]:
    """Of each hour with light the number of its group, from 0 without gaps; and to which like days a group belongs."""
    calendar = sky.calendar
    slot = (calendar.month[rows] - 1) // 2 * 24 + calendar.clock_h[rows].astype(np.int64)
    order = np.lexsort((light, slot))
    begins = np.flatnonzero(np.diff(slot[order], prepend=-1))
    sizes = np.diff(np.append(begins, rows.size))
    rank = np.arange(rows.size) - np.repeat(begins, sizes)
    level = np.empty(rows.size, np.int64)
    level[order] = rank * _LIGHTS // np.repeat(sizes, sizes)
    keys, group = np.unique(slot * _LIGHTS + level, return_inverse=True)
    return np.asarray(group, np.int64).reshape(-1), keys // (24 * _LIGHTS) * _LIGHTS + keys % _LIGHTS


def _saved(home: Home, group: Ints, groups: int, up_share: float) -> Curves | None:
    """What powers save that run in this part of the year."""
    if home.worth_used is None or home.worth_sent is None:
        return None
    of_use, stretches = home.worth_used - home.worth_sent, home.use.base_w.size // group.size

    def of_groups(values: Singles) -> Floats:
        sums: Floats = np.zeros((groups, stretches))
        np.add.at(sums, group, np.asarray(values, np.float64))
        return sums.ravel()

    slope = home.use.slope.reshape(-1, stretches) * of_use[:, None] + home.worth_sent[:, None]
    return Curves(
        base=single(of_groups(home.use.base_w.reshape(-1, stretches) * of_use[:, None])),
        slope=single(of_groups(slope) * up_share),
        stretches=stretches,
        per_w=np.float32(home.use.per_w * up_share),
    )
