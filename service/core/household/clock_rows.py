"""Which hour of the clock, and of which kind of day, is each row of the year? Read off the calendar once."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from service.core.model.hours import Calendar, Floats, Ints

HOURS_A_DAY = 24
_SATURDAY = 5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ClockRows:
    """The wall clock of the rows of a year; the arrays are shared by all who ask, and read-only.

    ``hour``: (8760,) whole wall-clock hour, 0 to 23. ``hour_of_kind``: (8760,) the same, 24 more at a weekend.
    ``rows_of_hour``: (24,) how many rows each hour has.
    """

    hour: Ints
    hour_of_kind: Ints
    rows_of_hour: Ints

    def means(self, per_row: Floats, rows: Ints | None = None) -> Floats:
        """(24,) mean over the days by wall-clock hour; 0 for an hour that no row has.

        Args:
            per_row: (8760,) what is asked about.
            rows: (n,) where only in these there is something; ``per_row`` has but them then.
        """
        hour = self.hour if rows is None else self.hour.take(rows)
        sums = np.bincount(hour, weights=per_row, minlength=HOURS_A_DAY)
        return np.asarray(sums / np.maximum(self.rows_of_hour, 1))


@lru_cache(maxsize=8)  # as many as there are calendars: 140 kB
def clock_rows(calendar: Calendar) -> ClockRows:
    """The rows of a calendar."""
    hour = calendar.clock_h.astype(np.int64)
    rows = ClockRows(
        hour=hour,
        hour_of_kind=hour + HOURS_A_DAY * (calendar.weekday >= _SATURDAY),
        rows_of_hour=np.bincount(hour, minlength=HOURS_A_DAY),
    )
    for array in (rows.hour, rows.hour_of_kind, rows.rows_of_hour):
        array.setflags(write=False)
    return rows
