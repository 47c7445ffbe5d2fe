"""Which moment does each hour of the year stand for: in universal time, and on the wall clock of the place?"""

from datetime import UTC, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from service.core.model.hours import HOURS, REFERENCE_YEAR, Calendar, Ints

_MINUTES_A_DAY = 1440


def calendar_of(time_zone: str, longitude_deg: float) -> Calendar:
    """The hours of the reference year, from 1 January 00:00 local standard time.

    Args:
        time_zone: IANA name, such as "Europe/Berlin".
        longitude_deg: decides which of the zone's offsets is the standard one: that nearest to the sun's time. (The
            flag in the time zone database is of no use here: Dublin's calls summer time standard.)

    Returns:
        Arrays of shape (8760,), read-only. ``utc`` is the beginning of each hour, ``day_of_year`` (1 to 365) counts
        in standard time, ``month``, ``weekday`` and ``clock_h`` are the wall clock's, summer time included.

    Raises:
        zoneinfo.ZoneInfoNotFoundError: no such zone.

    >>> summer_noon = 24 * 180 + 12
    >>> float(calendar_of("Europe/Berlin", 13.4).clock_h[summer_noon])
    13.0
    """
    return _calendar(time_zone, _standard_offset_min(ZoneInfo(time_zone), longitude_deg))


@lru_cache(maxsize=8)  # places of one zone share it: 350 kB
def _calendar(time_zone: str, standard_min: int) -> Calendar:
    zone = ZoneInfo(time_zone)
    hours = np.arange(HOURS, dtype=np.int64)
    start = np.datetime64(f"{REFERENCE_YEAR}-01-01T00:00", "m") - np.timedelta64(standard_min, "m")
    utc = start + hours * np.timedelta64(60, "m")
    wall_min = hours * 60 + (_offsets_min(zone, utc) - standard_min)
    wall = np.datetime64(f"{REFERENCE_YEAR}-01-01T00:00", "m") + wall_min * np.timedelta64(1, "m")
    days = wall.astype("datetime64[D]")
    calendar = Calendar(
        utc=utc.astype("datetime64[s]"),
        day_of_year=hours // 24 + 1,
        month=wall.astype("datetime64[M]").astype(np.int64) % 12 + 1,
        weekday=(days.astype(np.int64) + 3) % 7,  # day 0, 1 January 1970, was a Thursday
        clock_h=(wall_min % _MINUTES_A_DAY) / 60.0,
    )
    return _read_only(calendar)


def calendar_of_hours(utc: NDArray[np.datetime64], time_zone: str, longitude_deg: float) -> Calendar:
    """The wall clock of any hours in a row, in whatever years.

    Args:
        utc: (n,) datetime64[s], the beginning of each hour.
        time_zone: IANA name.
        longitude_deg: as for ``calendar_of``.

    Returns:
        Arrays of shape (n,), read-only. ``day_of_year`` counts the days of standard time from 1 at the first hour's.
    """
    zone = ZoneInfo(time_zone)
    standard_min = standard_offset_min(time_zone, longitude_deg)
    wall = utc + _offsets_min(zone, utc) * np.timedelta64(60, "s")
    standard = (utc + np.timedelta64(standard_min * 60, "s")).astype("datetime64[D]")
    days = wall.astype("datetime64[D]")
    return _read_only(
        Calendar(
            utc=utc.copy(),
            day_of_year=(standard - standard[0]).astype(np.int64) + 1,
            month=wall.astype("datetime64[M]").astype(np.int64) % 12 + 1,
            weekday=(days.astype(np.int64) + 3) % 7,
            clock_h=(wall - days).astype(np.float64) / 3600.0,
        )
    )


def standard_offset_min(time_zone: str, longitude_deg: float) -> int:
    """How far the place's standard time is ahead of universal time, in minutes."""
    return _standard_offset_min(ZoneInfo(time_zone), longitude_deg)


def _read_only(calendar: Calendar) -> Calendar:
    for array in (calendar.utc, calendar.day_of_year, calendar.month, calendar.weekday, calendar.clock_h):
        array.setflags(write=False)
    return calendar


def _standard_offset_min(zone: ZoneInfo, longitude_deg: float) -> int:
    """Of the offsets that the zone has in the middle of the year's months, the one nearest to the sun's time."""
    offsets = {_offset_min(zone, datetime(REFERENCE_YEAR, month, 15, 12, tzinfo=UTC)) for month in range(1, 13)}
    solar_min = longitude_deg * 4.0

    def away(offset_min: int) -> float:
        return abs((offset_min - solar_min + _MINUTES_A_DAY / 2) % _MINUTES_A_DAY - _MINUTES_A_DAY / 2)

    return min(sorted(offsets), key=away)


def _offset_min(zone: ZoneInfo, moment: datetime) -> int:
    offset = moment.astimezone(zone).utcoffset() or timedelta(0)
    return round(offset.total_seconds() / 60.0)


def _offsets_min(zone: ZoneInfo, utc: np.ndarray) -> Ints:
    """The zone's offset at each hour. Read once a day; only the days on which it changes are read by the hour."""
    epoch = datetime(1970, 1, 1, tzinfo=UTC)
    since_epoch_min = utc.astype("datetime64[m]").astype(np.int64)

    def at(row: int) -> int:
        return _offset_min(zone, epoch + timedelta(minutes=int(since_epoch_min[row])))

    count = utc.size
    edges = [*range(0, count, 24), count - 1]
    seen = [at(row) for row in edges]
    offsets = np.empty(count, dtype=np.int64)
    for (first, offset), (last, next_offset) in zip(
        zip(edges, seen, strict=True), zip(edges[1:], seen[1:], strict=False), strict=False
    ):
        offsets[first:last] = offset if offset == next_offset else [at(row) for row in range(first, last)]
    offsets[count - 1] = seen[-1]
    return offsets
