"""Which year of hours does a meter's log tell, and what stands in its gaps?"""

from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.hours import HOURS, REFERENCE_YEAR, Bools, Calendar, Floats, Ints

# An hour counts as known from this share of its steps on; our choice.
LEAST_KNOWN_SHARE = 0.5
# A log with fewer known hours than a day has tells nothing about a day.
LEAST_KNOWN_HOURS = 24

QUARTERS = 4  # of an hour
_QUARTER_MINUTES = 60 // QUARTERS
_EPOCH = datetime(1970, 1, 1)  # noqa: DTZ001  clock time without a zone; only differences are used
_DAYS_BEFORE_MONTH = np.cumsum([0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoggedYear:
    """The year that a log tells: (8760,) mean powers in W, and the share of its hours that the log does not know.

    ``quarters_w``: (35040,) mean powers of its quarter-hours, where its steps tell them apart; else None.
    """

    values_w: Floats
    quarters_w: Floats | None
    filled_share: float


def year_of_log(first: str, step_minutes: int, values_w: tuple[float | None, ...], calendar: Calendar) -> LoggedYear:
    """The rows of the year from a meter's log with gaps.

    Args:
        first: when the first step begins: an instant (RFC 3339), or without "Z" or an offset the place's wall-clock
            time, where summer time is read from the same date of the reference year. From there on steps follow
            evenly: a logger does not jump with summer time.
        step_minutes: length of a step; 60 is a multiple of it.
        values_w: mean power of each step, None where it is missing.
        calendar: the rows of the year, for the place's standard time.

    An hour is the mean of its known steps where at least half of them are known; a quarter-hour of it of which nothing
    is known takes the hour's mean. Of a log longer than a year the
    later hours hold; 29 February is left out. A missing hour, and each hour that a shorter log does not reach, takes
    the mean of the known hours at the same hour of day on the same kind of day (Monday to Friday, weekend) in the same
    month; without such, over all months; without such, of any day at that hour; else the mean of all.

    Raises:
        ContradictionError: the log begins at no such time, or knows less than a day of hours.
    """
    begin = _standard_time(first, calendar)
    hours, means, quarters = _hourly(begin, step_minutes, values_w)
    known = ~np.isnan(means)
    if (count := int(known.sum())) < LEAST_KNOWN_HOURS:
        raise ContradictionError(
            "/household/demand/log/values_w", f"tells of {count} whole hours", given=count,
            accepted=f"at least {LEAST_KNOWN_HOURS} hours, each with half of its steps known",
            example=[210] * (LEAST_KNOWN_HOURS * 60 // step_minutes),
        )  # fmt: skip
    day = hours.astype("datetime64[D]")
    month, in_month = _month_and_day(day)
    plain = ~((month == 1) & (in_month == 28))
    row = ((_DAYS_BEFORE_MONTH[month] + in_month) * 24 + (hours - day).astype(np.int64))[plain]
    year, in_quarters = np.full(HOURS, np.nan), np.full((HOURS, QUARTERS), np.nan)
    weekend = _is_weekend(np.datetime64(f"{REFERENCE_YEAR}-01-01").astype(np.int64) + np.arange(HOURS) // 24)
    in_log = _is_weekend(day.astype(np.int64))[plain]
    weekend[row] = in_log
    told = known[plain]
    year[row[told]] = means[plain][told]  # in order of time: of two years the later known hour holds
    in_quarters[row[told]] = quarters[plain][told]
    weekend[row[told]] = in_log[told]
    gaps = np.isnan(year)
    filled = _filled(year, gaps, weekend)
    in_quarters = np.where(np.isnan(in_quarters), filled[:, np.newaxis], in_quarters)
    return LoggedYear(
        values_w=filled,
        quarters_w=in_quarters.ravel() if _QUARTER_MINUTES % step_minutes == 0 else None,
        filled_share=float(gaps.mean()),
    )


def _standard_time(first: str, calendar: Calendar) -> datetime:
    """When the log begins, in the place's standard time."""
    try:
        begin = datetime.fromisoformat(first.upper())
    except ValueError:
        raise ContradictionError(
            "/household/demand/log/first", "is no time", given=first,
            accepted="a date and time, with Z or an offset, or without either in the place's wall-clock time",
            example="2025-03-01T00:00:00+01:00",
        ) from None  # fmt: skip
    away = begin.utcoffset()
    if away is None:
        return begin - _summer_time(begin, calendar)
    rows_begin = np.datetime64(f"{REFERENCE_YEAR}-01-01T00:00:00")
    standard = timedelta(seconds=int((rows_begin - calendar.utc[0]) / np.timedelta64(1, "s")))
    return begin.replace(tzinfo=None) - away + standard


def _summer_time(wall: datetime, calendar: Calendar) -> timedelta:
    """How far the wall clock is ahead of standard time on that date, within a week of where it is put forward or back.

    29 February is as 1 March.
    """
    row = (int(_DAYS_BEFORE_MONTH[wall.month - 1]) + wall.day - 1) * 24 + wall.hour
    ahead_h = float(calendar.clock_h[row]) - row % 24
    return timedelta(hours=(ahead_h + 12.0) % 24.0 - 12.0)


def _hourly(
    begin: datetime, step_minutes: int, values_w: tuple[float | None, ...]
) -> tuple[np.ndarray, Floats, Floats]:
    """The hours of the log (datetime64[h], in order), their mean powers, and those of their quarters, (hours, 4).

    NaN where too little is known of the hour, or nothing of the quarter.
    """
    power = np.array([np.nan if value is None else value for value in values_w], dtype=np.float64)
    minute = round((begin - _EPOCH).total_seconds() / 60) + step_minutes * np.arange(power.size)
    hour = minute // 60
    at = hour - hour[0]
    known = ~np.isnan(power)
    quarter = (minute // _QUARTER_MINUTES - QUARTERS * hour[0])[known]
    shape = (int(at[-1]) + 1, QUARTERS)
    counts = np.bincount(quarter, minlength=shape[0] * QUARTERS).reshape(shape)
    totals = np.bincount(quarter, weights=power[known], minlength=shape[0] * QUARTERS).reshape(shape)
    count, total = counts.sum(axis=1), totals.sum(axis=1)
    enough = count >= LEAST_KNOWN_SHARE * (60 // step_minutes)
    hours = (hour[0] + np.arange(count.size)).astype("datetime64[h]")
    means = np.divide(total, count, out=np.full(count.size, np.nan), where=enough)
    return hours, means, np.divide(totals, counts, out=np.full(shape, np.nan), where=counts > 0)


def _month_and_day(day: np.ndarray) -> tuple[Ints, Ints]:
    """Month of the year and day of the month, both from 0."""
    month = day.astype("datetime64[M]")
    return month.astype(np.int64) % 12, (day - month.astype("datetime64[D]")).astype(np.int64)


def _is_weekend(day: Ints) -> Bools:
    """Of days since 1 January 1970, a Thursday."""
    return np.asarray((day + 3) % 7 >= 5)


def _filled(year: Floats, gaps: Bools, weekend: Bools) -> Floats:
    """The gaps filled by ever wider groups of known hours."""
    row = np.arange(HOURS)
    hour = row % 24
    month = np.searchsorted(_DAYS_BEFORE_MONTH * 24, row, side="right") - 1
    kind = weekend.astype(np.int64)
    known = ~gaps
    filled = year.copy()
    for group in ((month * 2 + kind) * 24 + hour, kind * 24 + hour, hour, np.zeros(HOURS, dtype=np.int64)):
        open_rows = np.flatnonzero(np.isnan(filled))
        if not open_rows.size:
            break
        size = int(group.max()) + 1
        count = np.bincount(group[known], minlength=size)
        total = np.bincount(group[known], weights=year[known], minlength=size)
        mean = np.divide(total, count, out=np.full(size, np.nan), where=count > 0)
        filled[open_rows] = mean[group[open_rows]]
    return filled
