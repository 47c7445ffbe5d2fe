"""Which moments do the time stamps of a log name? Text becomes Unix seconds, many thousand stamps at once."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

import numpy as np
from numpy.typing import NDArray

from service.core.logbook.zones import Zone, zone_of
from service.core.model.hours import Bools, Floats, Ints

# Length of a stamp -> has it seconds, and how does it end: nothing, Z, an offset of hours and minutes.
_FORMS = {10: (False, ""), 16: (False, ""), 17: (False, "Z"), 19: (True, ""), 20: (True, "Z"), 22: (False, "+"),
          25: (True, "+")}  # fmt: skip
_DATE_ONLY = 10
_DAY_S, _HOUR_S = 86_400, 3600
# So many days on both sides of a change of clocks tell the hour of noon, of those with a good part of a usual day.
_DAYS_AROUND, _LEAST_AROUND, _LEAST_ROWS, _GOOD_DAY_SHARE, _HALF = 20, 5, 5, 0.3, 0.5
_YEARS = (1990, 2099)
_MONTH_BEGINS = (  # days since 1970, of the months from the first of those years on
    np.arange(f"{_YEARS[0]}-01", f"{_YEARS[1] + 1}-02", dtype="datetime64[M]").astype("datetime64[D]").astype(np.int64)
)


class StampError(ValueError):
    """A stamp that names no moment; ``at`` is its place in the list."""

    def __init__(self, at: int) -> None:
        """Keep where it stands."""
        super().__init__(f"stamp {at} names no moment")
        self.at = at


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Moments:
    """The moments of a log's rows, in its order.

    Attributes:
        seconds: (n,) Unix seconds.
        without_offset: how many stamps were read on the wall clock of the site.
        twice: how many of those fall in an hour that the clock runs through twice.
        keeps_standard_time: stamps without an offset name hours that the wall clock skips, or the sun's noon stays at
            one hour of theirs while the wall clock is put on or back, so that all were read in standard time.
    """

    seconds: Ints
    without_offset: int
    twice: int
    keeps_standard_time: bool


def moments_of(
    texts: Sequence[str], time_zone: str, longitude_deg: float, energy: Floats | None = None
) -> Moments:  # fmt: skip
    """The moments that stamps name.

    Args:
        texts: "2026-05-01T10:00:00+02:00", with Z or any offset; without either in the site's wall-clock time; a space
            for the T, seconds left out, a date alone (its local midnight), "01.05.2026 10:00" are read as well.
        time_zone: IANA name of the site's zone.
        longitude_deg: tells which of its offsets is standard time.
        energy: (n,) what the set gave about each, in any unit: by it the sun's noon is known; None: nobody knows.

    Of an hour that the wall clock runs through twice a stamp that occurs a second time is the later one.

    Raises:
        StampError: the first stamp that names no moment from 1990 to 2099.
    """
    wall, offset = _wall_and_offset(texts)
    bare = offset == _NO_OFFSET
    seconds = wall - np.where(bare, 0, offset) * 60
    count, twice, standard = int(np.count_nonzero(bare)), 0, False
    if count:
        zone = zone_of(time_zone, longitude_deg, int(wall[bare].min()), int(wall[bare].max()))
        read = zone.utc_of_wall(wall[bare])
        standard = bool(read.skipped.any()) or (energy is not None and _noon_stays(wall[bare], energy[bare], zone))
        if standard:
            seconds[bare] = wall[bare] - zone.standard_offset_s
        else:
            twice = int(np.count_nonzero(read.twice))
            seconds[bare] = read.seconds + _second_time(wall[bare], read.twice) * read.step_s
    return Moments(seconds=seconds, without_offset=count, twice=twice, keeps_standard_time=standard)


def _noon_stays(wall_s: Ints, energy: Floats, zone: Zone) -> bool:
    """Does the middle of the days' energy stay at one hour of the stamps where the wall clock is put on or back?"""
    given = np.maximum(np.nan_to_num(energy), 0.0)
    day = wall_s // _DAY_S
    first, hour = int(day.min()), wall_s % _DAY_S / _HOUR_S
    if not zone.changes or not given.any():
        return False
    sums = np.bincount(day - first, weights=given)
    middle = np.bincount(day - first, weights=given * hour) / np.maximum(sums, 1e-12)
    told = sums > _GOOD_DAY_SHARE * float(np.median(sums[sums > 0.0]))
    told &= np.bincount(day - first, weights=given > 0.0) >= _LEAST_ROWS
    moved = []
    for moment, before, after in zone.changes:
        at = (moment + before) // _DAY_S - first
        sides = [(max(at - _DAYS_AROUND, 0), max(at, 0)), (max(at + 1, 0), max(at + 1 + _DAYS_AROUND, 0))]
        early, late = (middle[begin:end][told[begin:end]] for begin, end in sides)
        if min(early.size, late.size) >= _LEAST_AROUND:
            moved.append(float(np.median(late) - np.median(early)) * _HOUR_S / (after - before))
    return bool(moved) and float(np.mean(moved)) < _HALF


def _second_time(wall: Ints, twice: Bools) -> Ints:
    """1 where a stamp of an hour that comes twice has occurred before, else 0."""
    again = np.zeros(wall.size, dtype=np.int64)
    rows = np.flatnonzero(twice)
    if rows.size:
        order = rows[np.argsort(wall[rows], kind="stable")]
        again[order[1:]] = np.diff(wall[order]) == 0
    return again


_NO_OFFSET = 100_000  # minutes: no offset of any zone


def _wall_and_offset(texts: Sequence[str]) -> tuple[Ints, Ints]:
    """Seconds of the clock that each stamp shows, and how many minutes that clock is ahead of universal time."""
    count = len(texts)
    lengths = np.fromiter(map(len, texts), dtype=np.int64, count=count)
    letters = np.frombuffer("".join(texts).encode("ascii", "replace"), dtype=np.uint8)
    begins = np.cumsum(lengths) - lengths
    wall, offset = np.zeros(count, dtype=np.int64), np.full(count, _NO_OFFSET, dtype=np.int64)
    odd = np.ones(count, dtype=np.bool_)
    for length, form in _FORMS.items():
        rows = np.flatnonzero(lengths == length)
        dotted = letters[begins[rows] + 2] == ord(".")
        for day_first, part in ((False, rows[~dotted]), (True, rows[dotted])):
            if part.size:
                whole = part.size == count  # of one form, as logs are: no copy
                table = (
                    letters.reshape(count, length) if whole else letters[begins[part, np.newaxis] + np.arange(length)]
                )
                stamps = _Letters(table)
                wall[part], offset[part] = _read(stamps, day_first=day_first, has_seconds=form[0], ending=form[1])
                odd[part] = ~stamps.good
    _one_by_one(texts, np.flatnonzero(odd), wall, offset)
    return wall, offset


def _one_by_one(texts: Sequence[str], rows: Ints, wall: Ints, offset: Ints) -> None:
    """What is of no usual form, such as fractions of a second."""
    for at in rows.tolist():
        try:
            moment = datetime.fromisoformat(texts[at].strip().upper())
        except ValueError:
            raise StampError(at) from None
        away = moment.utcoffset()
        if not _YEARS[0] <= moment.year <= _YEARS[1]:
            raise StampError(at)
        wall[at] = round(moment.replace(tzinfo=UTC).timestamp())
        offset[at] = _NO_OFFSET if away is None else round(away.total_seconds() / 60)


class _Letters:
    """Stamps of one length, (n, length) bytes; ``good`` are those that are of the form looked for so far."""

    def __init__(self, letters: NDArray[np.uint8]) -> None:
        """Nothing is known yet."""
        self.columns = np.ascontiguousarray(letters.T)
        self.length, self.count = self.columns.shape
        self.good = np.ones(self.count, dtype=np.bool_)

    def number(self, first: int, last: int, low: int, high: int) -> NDArray[np.int32]:
        """The number that stands from ``first`` to before ``last``; it has to lie between ``low`` and ``high``."""
        value = np.zeros(self.count, dtype=np.int32)
        for column in self.columns[first:last]:
            digit = column - np.uint8(ord("0"))  # what is less than "0" comes out large
            self.good &= digit <= 9
            value = value * np.int32(10) + digit
        self.good &= (value >= low) & (value <= high)
        return value

    def sign(self, at: int, accepted: str) -> None:
        """One of the signs ``accepted`` has to stand at a place."""
        found = self.columns[at] == ord(accepted[0])
        for other in accepted[1:]:
            found |= self.columns[at] == ord(other)
        self.good &= found

    def day(self, *, day_first: bool) -> Ints:
        """Days since 1970 of "2026-05-01", or of "01.05.2026"."""
        if day_first:
            self.sign(2, ".")
            self.sign(5, ".")
            day, month, year = self.number(0, 2, 1, 31), self.number(3, 5, 1, 12), self.number(6, 10, *_YEARS)
        else:
            self.sign(4, "-")
            self.sign(7, "-")
            year, month, day = self.number(0, 4, *_YEARS), self.number(5, 7, 1, 12), self.number(8, 10, 1, 31)
        months = (np.clip(year, *_YEARS) - _YEARS[0]) * 12 + np.clip(month, 1, 12) - 1
        begin = _MONTH_BEGINS[months]
        self.good &= day <= _MONTH_BEGINS[months + 1] - begin
        return np.asarray(begin + day - 1)

    def offset_min(self) -> Ints:
        """Minutes of "+02:00"."""
        self.sign(0, "+-")
        self.sign(3, ":")
        away = self.number(1, 3, 0, 15).astype(np.int64) * 60 + self.number(4, 6, 0, 59)
        return np.where(self.columns[0] == ord("-"), -away, away)


def _read(stamps: _Letters, *, day_first: bool, has_seconds: bool, ending: str) -> tuple[Ints, Ints]:
    """Clock seconds of stamps of one form, and the minutes that their clock is ahead of universal time.

    Dates and offsets are read where they change from one row to the next, as they seldom do.
    """
    days = _where_it_changes(stamps, 0, _DATE_ONLY, lambda some: some.day(day_first=day_first))
    seconds = days * _DAY_S
    if stamps.length > _DATE_ONLY:
        stamps.sign(10, "Tt ")
        stamps.sign(13, ":")
        hour, minute = stamps.number(11, 13, 0, 24), stamps.number(14, 16, 0, 59)
        within = hour * np.int32(3600) + minute * np.int32(60)
        if has_seconds:
            stamps.sign(16, ":")
            within += stamps.number(17, 19, 0, 59)
        stamps.good &= within <= _DAY_S
        seconds += within
    offset = np.full(stamps.count, _NO_OFFSET, dtype=np.int64)
    if ending == "Z":
        stamps.sign(stamps.length - 1, "Zz")
        offset[:] = 0
    elif ending == "+":
        offset = _where_it_changes(stamps, stamps.length - 6, stamps.length, _Letters.offset_min)
    return seconds, offset


def _where_it_changes(stamps: _Letters, first: int, last: int, read: Callable[["_Letters"], Ints]) -> Ints:
    """What ``read`` makes of columns ``first`` to before ``last``, asked only for rows unlike the one before."""
    columns = stamps.columns[first:last]
    new = np.ones(stamps.count, dtype=np.bool_)
    new[1:] = False
    for column in columns:
        new[1:] |= column[1:] != column[:-1]
    some = _Letters(np.ascontiguousarray(columns[:, new]).T)
    found = read(some)
    group = np.cumsum(new) - 1
    stamps.good &= some.good[group]
    return np.asarray(found[group])
