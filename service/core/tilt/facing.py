"""Which way does a railing face, by when the sun came to it and left it?

From the minute at which the sun came until it left it was seen, so the railing looks towards it all that time, within
90 degrees of either end. That alone is certain: it makes the range, and where the sun was seen over nearly half of the
compass it makes a narrow one. For what hid the sun at an end may be the railing's own line, a horizon, or something
that stands in the way; the sun passes the railing's line at the same azimuth on every date, and an upright edge of a
building as well, so that no number of dates parts these two. A slanted line or a roof it passes at another azimuth on
another date: those are parted. Within the range that azimuth is taken which leaves the fewest ends to obstacles, where
two dates agree about it, and else the middle.
"""

from calendar import monthrange
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.errors import ContradictionError
from service.core.model.hours import REFERENCE_YEAR, Bools, Calendar, Floats
from service.core.model.sun_days import SunDays
from service.core.sky import sun_of_any_year

# A note is good to so many minutes: a clock, the sun's width (2 minutes) and an eye that was not there at once. One
# that was rounded is good to half of that step more. Nobody rounds all times alike: "half past seven" stands beside
# 16:02. So each time has the coarsest of these steps that it may have been rounded to; where all times of an observer
# are full hours, or the one that there is, these are.
_NOTED_MINUTES = 6.0
_ROUNDED_TO_MINUTES = (30, 15, 10, 5)
_AN_HOUR = 60
_DUSK_MINUTES = 21  # so long before sunrise or after sunset a note may be: half an hour rounded, and a clock
_DAYS_BESIDE_A_SWITCH = 7  # from year to year the day on which the clocks are changed moves by less
_STEP_DEG = 0.5
_MINUTES_A_DAY = 1440
_SURE_DEG = 12.0
_DATES_TO_BE_SURE = 2
_LEAP_MONTH = 2  # a 29 February is read as the 28th in years without one
# Nobody says of which year a note is. By the leap days the sun of a date moves by up to a day: not much, but near the
# zenith its azimuth turns by many degrees with that. Four years in a row are all that there are.
_YEARS = tuple(range(REFERENCE_YEAR, REFERENCE_YEAR + 4))


@dataclass(frozen=True, slots=True, kw_only=True)
class SunSeen:
    """On a day the sun reached the railing and left it, at these minutes of the clock; None: not noted."""

    month: int
    day: int
    from_minute: int | None
    to_minute: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacle:
    """Where the sun stood when something other than the railing's own line let it through, or hid it."""

    month: int
    day: int
    at_minute: int
    appears: bool
    azimuth_deg: float
    height_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Facing:
    """The railing's azimuth with the range of what the notes admit, clockwise from low to high, and obstacles.

    ``basis`` tells what it rests on: "both_ends", the sun was seen over nearly half of the compass on two dates or more
    (then it is ``sure``); "one_date" likewise on one date; "fewest_obstacles", two dates agree about an end, but an
    upright edge of a building at that end would look alike; "middle", the middle of the range.
    """

    azimuth_deg: float
    low_azimuth_deg: float
    high_azimuth_deg: float
    obstacles: tuple[Obstacle, ...]
    sure: bool
    basis: str

    def admits(self, azimuth_deg: float) -> bool:
        """Does an azimuth lie in the range? To the half degree in which it is told."""
        width = (self.high_azimuth_deg - self.low_azimuth_deg) % 360.0
        return (azimuth_deg - self.low_azimuth_deg + _STEP_DEG) % 360.0 <= width + 2.0 * _STEP_DEG


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Day:
    """A note, by how many minutes its two times may be off, and the sun in each minute of that day's clock.

    Azimuth and height have a row for each of ``_YEARS``, the table's own first: (4, 1440).
    """

    seen: SunSeen
    off_minutes: tuple[int, int]
    azimuth_deg: Floats
    height_deg: Floats


def facing_of(
    notes: Sequence[SunSeen], calendar: Calendar, days: SunDays, latitude_deg: float, longitude_deg: float
) -> Facing:
    """The azimuth that explains the notes best, and all that agree with them.

    Args:
        notes: one or more days, by the wall clock of the place.
        calendar: of the place's typical year, for its clock.
        days: the sun's table.
        latitude_deg: of the place.
        longitude_deg: of the place.

    Returns:
        The range holds the truth as long as each note is off by no more than its clock (6 minutes) and its rounding,
        which each time shows by itself; within a week of a change of clocks an hour more. ``sure`` where
        it is within 12 deg and two dates or more were noted. Obstacles are told of ends that the azimuth taken does not
        explain, unless it is but the middle of a range.

    Raises:
        ContradictionError: the sun was down at a time noted, left before it came, or no azimuth lets it in throughout.
    """
    good_to = _good_to_minutes(notes)
    seen = [_day(at, note, good_to, calendar, days, (latitude_deg, longitude_deg)) for at, note in enumerate(notes)]
    azimuths = np.arange(0.0, 360.0, _STEP_DEG)
    possible = np.ones(azimuths.size, dtype=np.bool_)
    for day in seen:
        possible &= _sees(day, azimuths)
    if not possible.any():
        raise ContradictionError(
            "/site/sun_seen", "no direction of the railing lets the sun in at all of these times",
            accepted="wall-clock times of the place at which the sun came and left, on one day each",
            example=[{"month": 5, "day": 10, "from_clock": "07:40", "to_clock": "16:02"}],
        )  # fmt: skip
    low, high = _span_of(azimuths, possible)
    width = (high - low) % 360.0
    ends = [end for day in seen for end in _ends(day, azimuths)]
    dates = len({(note.month, note.day) for note in notes})
    azimuth, basis = (low + width / 2.0) % 360.0, "middle"
    likeliest = _agreed_by_two_dates(azimuths, possible, ends) if dates >= _DATES_TO_BE_SURE else None
    if likeliest is not None:
        azimuth, basis = likeliest, "fewest_obstacles"
    if width <= _SURE_DEG:
        basis = "both_ends" if dates >= _DATES_TO_BE_SURE else "one_date"
    at = round(azimuth / _STEP_DEG) % azimuths.size
    told = basis != "middle" and dates >= _DATES_TO_BE_SURE
    return Facing(
        azimuth_deg=azimuth,
        low_azimuth_deg=low,
        high_azimuth_deg=high,
        obstacles=tuple(_obstacle(day, appears=up) for day, up, explained in ends if told and not explained[at]),
        sure=basis == "both_ends",
        basis=basis,
    )


def _agreed_by_two_dates(azimuths: Floats, possible: Bools, ends: Sequence[tuple[_Day, bool, Bools]]) -> float | None:
    """The azimuth that leaves the fewest ends to something in the way; None where no two dates speak for it."""
    hidden = np.sum([~explained for _, _, explained in ends], axis=0)
    first, last = _span_of(azimuths, np.asarray(possible & (hidden == hidden[possible].min())))
    width = (last - first) % 360.0
    if width > _SURE_DEG:
        return None
    middle = (first + width / 2.0) % 360.0
    at = round(middle / _STEP_DEG) % azimuths.size
    # An end that all azimuths of the range explain, such as a sunrise, speaks for none of them.
    speak = {day.seen for day, _, explained in ends if explained[at] and not explained[possible].all()}
    return middle if len(speak) >= _DATES_TO_BE_SURE else None


def _good_to_minutes(notes: Sequence[SunSeen]) -> Callable[[int], int]:
    """By how many minutes each of the times noted may be off."""
    noted = [minute for one in notes for minute in (one.from_minute, one.to_minute) if minute is not None]
    in_hours = all(minute % _AN_HOUR == 0 for minute in noted)
    steps = (_AN_HOUR,) if in_hours else _ROUNDED_TO_MINUTES

    def good_to(minute: int) -> int:
        step = next((step for step in steps if minute % step == 0), 1)
        return int(np.ceil(_NOTED_MINUTES + step / 2.0))

    return good_to


def _lit(day: _Day, azimuths: Floats, minutes: slice) -> Bools:
    """(years, m, minutes): does the sun stand before a railing of this azimuth?"""
    apart = np.abs((day.azimuth_deg[:, None, minutes] - azimuths[:, None] + 180.0) % 360.0 - 180.0)
    return np.asarray((apart < 90.0) & (day.height_deg[:, None, minutes] > 0.0))


def _sees(day: _Day, azimuths: Floats) -> Bools:
    """(m,): may the sun have stood before it as was noted, in one year or another?

    Between two ends that are further apart than they may be off it was seen all the time. Else it was seen at some
    time between the earliest and the latest that the note admits, and nobody knows at which.
    """
    (off_before, off_after), note = day.off_minutes, day.seen
    begin = None if note.from_minute is None else note.from_minute + off_before
    end = None if note.to_minute is None else note.to_minute - off_after
    if begin is None and note.to_minute is not None:
        begin = note.to_minute + off_after
    if end is None and note.from_minute is not None:
        end = note.from_minute - off_before
    first, last = sorted(min(max(minute or 0, 0), _MINUTES_A_DAY - 1) for minute in (begin, end))
    throughout = begin is not None and end is not None and begin <= end
    minutes = np.arange(first, last + 1)
    found = np.zeros(azimuths.size, dtype=np.bool_)
    for azimuth, height in zip(day.azimuth_deg, day.height_deg, strict=True):
        above = minutes[height[minutes] > 0.0]
        if not above.size:
            return np.ones(azimuths.size, dtype=np.bool_)
        # By the arc that the sun passes. What lies between two of the azimuths looked at is not lost: the range reaches
        # to the next one.
        passed = np.unwrap(azimuth[above], period=360.0)
        middle, half = (passed.max() + passed.min()) / 2.0, (passed.max() - passed.min()) / 2.0
        apart = np.abs((azimuths - middle + 180.0) % 360.0 - 180.0)
        # Before it all the time: within 90 degrees of both ends of the arc; at some time: of what is nearest to it.
        found |= (apart + half if throughout else apart - half) < 90.0 + _STEP_DEG
    return found


def _ends(day: _Day, azimuths: Floats) -> list[tuple[_Day, bool, Bools]]:
    """For each end noted: does the sun come to, or leave, a railing of each azimuth within what a note may be off?"""
    found = []
    ends = ((day.seen.from_minute, day.off_minutes[0], True), (day.seen.to_minute, day.off_minutes[1], False))
    for noted, allowed, appears in ends:
        if noted is not None:
            near = slice(max(noted - allowed - 1, 0), noted + allowed + 1)
            edge = np.diff(_lit(day, azimuths, near).astype(np.int8), axis=2)
            found.append((day, appears, np.asarray((edge == (1 if appears else -1)).any(axis=(0, 2)))))
    return found


def _day(
    at: int,
    note: SunSeen,
    good_to: Callable[[int], int],
    calendar: Calendar,
    days: SunDays,
    place: tuple[float, float],
) -> _Day:
    if note.from_minute is None and note.to_minute is None:
        where = f"/site/sun_seen/{at}"
        raise ContradictionError(
            where, "has neither from_clock nor to_clock", accepted="one of them at least, or both",
            example={"month": note.month, "day": min(note.day, 28), "from_clock": "12:00"},
        )  # fmt: skip
    days_here = monthrange(REFERENCE_YEAR, note.month)[1]
    last = days_here + (note.month == _LEAP_MONTH)
    if note.day > last:
        where = f"/site/sun_seen/{at}/day"
        raise ContradictionError(
            where, "the month has no such day", given=note.day, accepted=f"1 to {last}", example=last
        )
    _in_order(at, note)
    first = np.datetime64(f"{REFERENCE_YEAR}-{note.month:02d}-{min(note.day, days_here):02d}T00:00", "m")
    row = int((first - np.datetime64(f"{REFERENCE_YEAR}-01-01T00:00", "m")) / np.timedelta64(60, "m")) + 12
    ahead_h = (calendar.clock_h[row] - row % 24) % 24.0  # summer time
    midnight = calendar.utc[row - 12] - np.timedelta64(round(3600 * float(ahead_h)), "s")
    moments = midnight.astype("datetime64[s]") + np.arange(_MINUTES_A_DAY) * np.timedelta64(60, "s")
    azimuths, heights = _year_by_year(note, first, moments, days, place)
    height = heights.max(axis=0)
    switch = _AN_HOUR if _beside_a_switch(calendar, row) else 0
    begin, end = (0 if minute is None else good_to(minute) + switch for minute in (note.from_minute, note.to_minute))
    for name, minute, off in (("from_clock", note.from_minute, begin), ("to_clock", note.to_minute, end)):
        dusk = max(off, _DUSK_MINUTES)
        if minute is not None and height[max(minute - dusk, 0) : minute + dusk + 1].max(initial=-90.0) <= 0.0:
            pointer = f"/site/sun_seen/{at}/{name}"
            raise ContradictionError(
                pointer, "the sun is down at that time",
                given=f"{minute // 60:02d}:{minute % 60:02d}", accepted="a time between sunrise and sunset",
                example="12:00",
            )  # fmt: skip
    return _Day(seen=note, off_minutes=(begin, end), azimuth_deg=azimuths, height_deg=heights)


def _year_by_year(
    note: SunSeen, first: np.datetime64, moments: NDArray[np.datetime64], days: SunDays, place: tuple[float, float]
) -> tuple[Floats, Floats]:
    """Azimuth and height on the note's day in each of ``_YEARS``, at the clock times of ``moments``, on ``first``."""
    azimuths, heights = [], []
    for year in _YEARS:
        day = min(note.day, monthrange(year, note.month)[1])
        later = np.datetime64(f"{year}-{note.month:02d}-{day:02d}", "D") - first.astype("datetime64[D]")
        sun = sun_of_any_year(days, moments + later, *place)
        azimuths.append(sun.azimuth_deg)
        heights.append(90.0 - sun.apparent_zenith_deg)
    return np.array(azimuths), np.array(heights)


def _beside_a_switch(calendar: Calendar, noon: int) -> bool:
    """Are the clocks changed within a week of that day? Then nobody knows which time the note of another year is in."""
    days = noon + 24 * np.arange(-_DAYS_BESIDE_A_SWITCH, _DAYS_BESIDE_A_SWITCH + 1)
    rows = days % calendar.clock_h.size
    return bool(np.ptp((calendar.clock_h[rows] - rows % 24) % 24.0) > 0.0)


def _in_order(at: int, note: SunSeen) -> None:
    if note.from_minute is not None and note.to_minute is not None and note.from_minute >= note.to_minute:
        clock = f"{note.to_minute // 60:02d}:{note.to_minute % 60:02d}"
        pointer = f"/site/sun_seen/{at}/to_clock"
        raise ContradictionError(
            pointer, "the sun would leave before it came", given=clock,
            accepted="a time after from_clock; what came in the evening and left in the morning as two notes",
            example="20:00",
        )  # fmt: skip


def _obstacle(day: _Day, *, appears: bool) -> Obstacle:
    noted = day.seen.from_minute if appears else day.seen.to_minute
    minute = min(noted or 0, _MINUTES_A_DAY - 1)
    return Obstacle(
        month=day.seen.month,
        day=day.seen.day,
        at_minute=minute,
        appears=appears,
        azimuth_deg=float(day.azimuth_deg[0, minute]),
        height_deg=max(float(day.height_deg[0, minute]), 0.0),
    )


def _span_of(azimuths: Floats, near: Bools) -> tuple[float, float]:
    """The shortest arc, clockwise, that holds all of the azimuths that are near."""
    held = azimuths[near]
    gaps = np.diff(np.append(held, held[0] + 360.0))
    widest = int(np.argmax(gaps))
    return float(held[(widest + 1) % held.size]), float(held[widest])
