"""Which way does a railing face, by when the sun came to it and left it?

The sun comes to an upright plane when it rises, or when it passes the plane's own line from behind; it leaves when it
sets or passes that line again. An obstacle can only let it come later or leave earlier. So an azimuth at which the sun
was seen before it could come is impossible, and of the possible ones that is taken which explains most of what was
noted by the plane alone; what it does not explain is an obstacle, where the sun then stood. On two dates the line's
azimuth stays and the sun's changes, so that two dates part the one from the other.
"""

from calendar import monthrange
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.hours import REFERENCE_YEAR, Calendar, Floats
from service.core.model.sun_days import SunDays
from service.core.sky import sun_position

# A note is good to so many minutes: a clock, the sun's width (2 minutes) and an eye that was not there at once.
_NOTED_MINUTES = 8.0
_STEP_DEG = 0.5
_MINUTES_A_DAY = 1440
# An end that only an obstacle explains weighs as much as one that is this many times as far off as a note may be.
_OBSTACLE_COST = 9.0
_IMPOSSIBLE = 1e3
_SURE_DEG = 12.0
_LEAP_MONTH = 2  # a 29 February is read as the 28th


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
    """The railing's azimuth with the range of what the notes admit, clockwise from low to high, and obstacles."""

    azimuth_deg: float
    low_azimuth_deg: float
    high_azimuth_deg: float
    obstacles: tuple[Obstacle, ...]
    sure: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Day:
    seen: SunSeen
    azimuth_deg: Floats
    height_deg: Floats


def facing_of(
    notes: Sequence[SunSeen], calendar: Calendar, days: SunDays, latitude_deg: float, longitude_deg: float
) -> Facing:
    """The azimuth that explains the notes best.

    Args:
        notes: one or more days, by the wall clock of the place.
        calendar: of the place's typical year, for its clock.
        days: the sun's table.
        latitude_deg: of the place.
        longitude_deg: of the place.

    Returns:
        ``sure`` where all azimuths that explain the notes about as well lie within 12 deg. One date with something in
        the way leaves more: then the middle of them, and no obstacle is told.

    Raises:
        ContradictionError: the sun was down at a time noted, or no azimuth lets it in at all of them.
    """
    seen = [_day(at, note, calendar, days, (latitude_deg, longitude_deg)) for at, note in enumerate(notes)]
    azimuths = np.arange(0.0, 360.0, _STEP_DEG)
    off = [misfit for day in seen for misfit in _misfits(day, azimuths)]
    costs = np.array([_cost(minutes) for _, _, minutes in off])
    total = costs.sum(axis=0)
    best = float(total.min())
    if best >= _IMPOSSIBLE:
        raise ContradictionError(
            "/site/sun_seen", "no direction of the railing lets the sun in at all of these times",
            accepted="wall-clock times of the place at which the sun came and left, on one day each",
            example=[{"month": 5, "day": 10, "from_clock": "07:40", "to_clock": "16:02"}],
        )  # fmt: skip
    near = total <= best + 1.0
    low, high = _span_of(azimuths, near)
    tight = azimuths[total <= best + 1e-9]
    azimuth = _middle(tight) if tight.size > 1 else float(tight[0])
    at = round(azimuth / _STEP_DEG) % azimuths.size
    width = (high - low) % 360.0
    sure = width <= _SURE_DEG
    if not sure:  # which end an obstacle stands at is then open as well
        azimuth = low + width / 2.0
    obstacles = tuple(
        _obstacle(day, appears=appears) for day, appears, minutes in off if minutes[at] > 1.5 * _NOTED_MINUTES
    )
    return Facing(
        azimuth_deg=azimuth % 360.0,
        low_azimuth_deg=low,
        high_azimuth_deg=high,
        obstacles=obstacles if sure else (),
        sure=sure,
    )


def _cost(minutes_late: Floats) -> Floats:
    """Of an end that came so much later, or left so much sooner, than the plane alone has it."""
    ratio = minutes_late / _NOTED_MINUTES
    cost = np.minimum(np.square(ratio), _OBSTACLE_COST)
    return np.where(ratio < -3.0, _IMPOSSIBLE, np.where(ratio < 0.0, np.square(ratio), cost))


def _misfits(day: _Day, azimuths: Floats) -> list[tuple[_Day, bool, Floats]]:
    """For each end noted: how many minutes the plane of each azimuth lets the sun in sooner, or longer, than noted."""
    apart = np.abs((day.azimuth_deg[None, :] - azimuths[:, None] + 180.0) % 360.0 - 180.0)
    lit = (apart < 90.0) & (day.height_deg > 0.0)
    found = []
    minute = np.arange(_MINUTES_A_DAY)
    for noted, appears in ((day.seen.from_minute, True), (day.seen.to_minute, False)):
        if noted is None:
            continue
        # The stretch of light that holds the time, or the one nearest to it.
        inside = lit[:, min(noted, _MINUTES_A_DAY - 1)]
        edges = np.diff(lit.astype(np.int8), axis=1) == (1 if appears else -1)
        distance = np.abs(minute[:-1] - noted)
        usable = edges & ((minute[:-1] <= noted + 30) if appears else (minute[:-1] >= noted - 30))[None, :]
        nearest = np.where(usable, distance[None, :], 10 * _MINUTES_A_DAY).min(axis=1)
        late = np.where(inside, nearest, -nearest)
        found.append((day, appears, np.clip(late, -_MINUTES_A_DAY, _MINUTES_A_DAY).astype(np.float64)))
    return found


def _day(at: int, note: SunSeen, calendar: Calendar, days: SunDays, place: tuple[float, float]) -> _Day:
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
    first = np.datetime64(f"{REFERENCE_YEAR}-{note.month:02d}-{min(note.day, days_here):02d}T00:00", "m")
    row = int((first - np.datetime64(f"{REFERENCE_YEAR}-01-01T00:00", "m")) / np.timedelta64(60, "m")) + 12
    ahead_h = (calendar.clock_h[row] - row % 24) % 24.0  # summer time
    midnight = calendar.utc[row - 12] - np.timedelta64(round(3600 * float(ahead_h)), "s")
    moments = midnight.astype("datetime64[s]") + np.arange(_MINUTES_A_DAY) * np.timedelta64(60, "s")
    sun = sun_position(days, moments, *place)
    height = 90.0 - sun.apparent_zenith_deg
    for name, minute in (("from_clock", note.from_minute), ("to_clock", note.to_minute)):
        if minute is not None and height[max(minute - 15, 0) : minute + 16].max(initial=-90.0) <= 0.0:
            pointer = f"/site/sun_seen/{at}/{name}"
            raise ContradictionError(
                pointer, "the sun is down at that time",
                given=f"{minute // 60:02d}:{minute % 60:02d}", accepted="a time between sunrise and sunset",
                example="12:00",
            )  # fmt: skip
    return _Day(seen=note, azimuth_deg=sun.azimuth_deg, height_deg=height)


def _obstacle(day: _Day, *, appears: bool) -> Obstacle:
    noted = day.seen.from_minute if appears else day.seen.to_minute
    minute = min(noted or 0, _MINUTES_A_DAY - 1)
    return Obstacle(
        month=day.seen.month,
        day=day.seen.day,
        at_minute=minute,
        appears=appears,
        azimuth_deg=float(day.azimuth_deg[minute]),
        height_deg=max(float(day.height_deg[minute]), 0.0),
    )


def _middle(azimuths: Floats) -> float:
    turned = np.radians(azimuths)
    return float(np.degrees(np.arctan2(np.sin(turned).mean(), np.cos(turned).mean()))) % 360.0


def _span_of(azimuths: Floats, near: np.ndarray) -> tuple[float, float]:
    """The shortest arc, clockwise, that holds all of the azimuths that are near."""
    held = azimuths[near]
    gaps = np.diff(np.append(held, held[0] + 360.0))
    widest = int(np.argmax(gaps))
    return float(held[(widest + 1) % held.size]), float(held[widest])
