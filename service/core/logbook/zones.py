"""What does the wall clock of a site show at a moment, and which moment does it name? Whole years at once."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo

import numpy as np

from service.core.model.hours import Bools, Ints
from service.core.sky.calendar import standard_offset_min

_DAY_S = 86_400
_MARGIN_S = 3 * _DAY_S


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReadOnWall:
    """Moments that a wall clock named: (n,) Unix seconds, which of them come twice, which the clock skips.

    ``step_s``: (n,) how much later the second of two is.
    """

    seconds: Ints
    twice: Bools
    skipped: Bools
    step_s: Ints


@dataclass(frozen=True)
class Zone:
    """A time zone over the span of a log.

    Attributes:
        name: IANA name.
        first_s, last_s: Unix seconds that the log lies between.
        standard_offset_s: how far its standard time is ahead of universal time.
    """

    name: str
    first_s: int
    last_s: int
    standard_offset_s: int

    @cached_property
    def _changes(self) -> tuple[Ints, Ints]:
        """Moments at which the offset changes, and the offsets before, between and after them."""
        zone, first = ZoneInfo(self.name), self.first_s - _MARGIN_S
        days = range(first, self.last_s + _MARGIN_S + _DAY_S, _DAY_S)
        seen = [_offset_s(zone, at) for at in days]
        moments, offsets = [], [seen[0]]
        for day, before, after in zip(days, seen, seen[1:], strict=False):
            if before != after:
                low, high = day, day + _DAY_S
                while high - low > 1:
                    middle = (low + high) // 2
                    low, high = (middle, high) if _offset_s(zone, middle) == before else (low, middle)
                moments.append(high)
                offsets.append(after)
        return np.array(moments, dtype=np.int64), np.array(offsets, dtype=np.int64)

    @property
    def changes(self) -> list[tuple[int, int, int]]:
        """The moments at which the clock is put on or back, with its offset before and after."""
        moments, offsets = self._changes
        return list(zip(moments.tolist(), offsets[:-1].tolist(), offsets[1:].tolist(), strict=True))

    def offset_s(self, seconds: Ints) -> Ints:
        """How far the wall clock is ahead of universal time at each moment, (n,)."""
        moments, offsets = self._changes
        return np.asarray(offsets[np.searchsorted(moments, seconds, side="right")])

    def wall_s(self, seconds: Ints) -> Ints:
        """What the wall clock shows, as seconds since 1970 on that clock, (n,)."""
        return np.asarray(seconds + self.offset_s(seconds))

    def utc_of_wall(self, wall_s: Ints) -> ReadOnWall:
        """The moments that the wall clock names; the first of two, and what it skips an hour later than it is named."""
        moments, offsets = self._changes
        shown = moments + offsets[:-1]
        at = np.searchsorted(shown, wall_s, side="right")
        seconds = wall_s - offsets[at]
        step = np.zeros(wall_s.size, dtype=np.int64)
        twice, skipped = np.zeros(wall_s.size, dtype=np.bool_), np.zeros(wall_s.size, dtype=np.bool_)
        for moment, before, after in zip(moments.tolist(), offsets[:-1].tolist(), offsets[1:].tolist(), strict=True):
            if after < before:
                inside = (wall_s >= moment + after) & (wall_s < moment + before)
                twice |= inside
                step[inside] = before - after
            else:
                inside = (wall_s >= moment + before) & (wall_s < moment + after)
                skipped |= inside
                seconds[inside] = wall_s[inside] - before
        return ReadOnWall(seconds=seconds, twice=twice, skipped=skipped, step_s=step)

    def midnight_s(self, days: Ints) -> Ints:
        """Unix seconds of the local midnight with which each day begins; days count from 1 January 1970."""
        return self.utc_of_wall(days * _DAY_S).seconds

    def day_of(self, seconds: Ints) -> Ints:
        """The local day of each moment, counted from 1 January 1970."""
        return np.asarray(self.wall_s(seconds) // _DAY_S)


def zone_of(name: str, longitude_deg: float, first_s: int, last_s: int) -> Zone:
    """A zone over the span of a log; the longitude tells which of its offsets is standard time."""
    standard_s = standard_offset_min(name, longitude_deg) * 60
    return Zone(name=name, first_s=first_s, last_s=last_s, standard_offset_s=standard_s)


def _offset_s(zone: ZoneInfo, second: int) -> int:
    moment = datetime(1970, 1, 1, tzinfo=UTC) + timedelta(seconds=second)
    away = moment.astimezone(zone).utcoffset()
    return 0 if away is None else round(away.total_seconds())
