"""What do days, months and years of a log add up to, how much of each was logged, and what will the year be?"""

from dataclasses import dataclass
from math import sqrt

import numpy as np

from service.core.logbook.expected import Expected
from service.core.logbook.grid import spread_out
from service.core.logbook.pieces import Course, Pieces
from service.core.logbook.zones import Zone
from service.core.model.band import Z_90, Band
from service.core.model.hours import Bools, Floats, Ints

# Of a set of which nothing was logged yet: how far its true level may lie from the middle, when weather is left out.
_LEVEL_SD, _FAULTY_LEVEL_SD = 0.08, 0.4


@dataclass(frozen=True, slots=True, kw_only=True)
class SpanTotal:
    """A day, a month or a year to date.

    Attributes:
        first_day: the first local day, counted from 1 January 1970.
        logged_kwh: what the log holds of it.
        expected_kwh: for the whole of it.
        known_share: part of what was to be expected that lies in logged time: a day with little of it is no low day.
        ratio: logged over expected of the time logged; None where that is nothing.
        joined: does its energy stem from a reading over several days, spread by what was to be expected?
    """

    first_day: int
    logged_kwh: float
    expected_kwh: float
    known_share: float
    ratio: float | None
    joined: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """Days, months, and both of them up to the last row; ``year_kwh`` is what a whole year will give by this log."""

    days: tuple[SpanTotal, ...]
    months: tuple[SpanTotal, ...]
    month_to_date: SpanTotal | None
    year_to_date: SpanTotal | None


def totals_of(pieces: Pieces, usable: Bools, now: Expected, zone: Zone) -> Totals:
    """The log by the calendar of its site."""
    if not pieces.energy_wh.size:
        return Totals(days=(), months=(), month_to_date=None, year_to_date=None)
    counted = spread_out(pieces, now)
    known = spread_out(pieces.part(usable), now)
    days = _Days(counted, known, pieces, now, zone)
    last = int(days.day[-1])
    months = days.day.astype("datetime64[D]").astype("datetime64[M]").astype(np.int64)
    years = days.day.astype("datetime64[D]").astype("datetime64[Y]").astype(np.int64)
    last_month, last_year = months[days.day == last][0], years[days.day == last][0]
    return Totals(
        days=days.totals(np.arange(days.day.size)),
        months=days.totals(months - months[0]),
        month_to_date=days.totals(np.where(months == last_month, 0, 1))[0],
        year_to_date=days.totals(np.where(years == last_year, 0, 1))[0],
    )


class _Days:
    """Sums by local day: (n,) each, from the first day of the log to the last."""

    def __init__(self, counted: Pieces, known: Pieces, pieces: Pieces, now: Expected, zone: Zone) -> None:
        """Sum up."""
        first, last = zone.day_of(np.array([pieces.begin_s[0], pieces.end_s[-1] - 1])).tolist()
        self.day = np.arange(first, last + 1)
        edges = zone.midnight_s(np.arange(first, last + 2))
        self.logged = self._sum(counted, counted.energy_wh, edges)
        self.compared = self._sum(known, known.energy_wh, edges)
        self.expected = np.diff(now.course.at(edges))
        self.known = self._sum(known, known.expected_wh(now.course), edges)
        long = pieces.seconds > 1.5 * 86_400
        self.joined = self._sum(pieces.part(long), np.ones(int(long.sum())), edges) > 0.0

    def _sum(self, pieces: Pieces, amounts: Floats, edges: Ints) -> Floats:
        if not amounts.size:
            return np.zeros(self.day.size)
        return np.diff(Course.of_pieces(pieces, amounts).at(edges))

    def totals(self, group: Ints) -> tuple[SpanTotal, ...]:
        """One total for each value of ``group`` (n,), from 0 on, in order."""
        sums = [np.bincount(group, weights=one) / 1000.0 for one in (self.logged, self.compared, self.expected,
                                                                    self.known)]  # fmt: skip
        firsts = np.unique(group, return_index=True)[1]
        joined = np.bincount(group, weights=self.joined) > 0
        found = []
        for at, first in enumerate(firsts.tolist()):
            logged, compared, expected, known = (float(one[at]) for one in sums)
            found.append(
                SpanTotal(
                    first_day=int(self.day[first]), logged_kwh=logged, expected_kwh=expected,
                    known_share=min(known / expected, 1.0) if expected > 0 else 0.0,
                    ratio=compared / known if known > 1e-6 else None, joined=bool(joined[at]),
                )
            )  # fmt: skip
        return tuple(found)


def projected_year(
    promised_kwh: Band, ratio: float | None, days_sd_share: float, year_sd_share: float, *, faulty: bool
) -> tuple[Band, float]:
    """What a usual year gives by what the log says of the set, kWh, and the level that this rests on.

    Args:
        promised_kwh: a usual year before there was a log.
        ratio: logged over expected; None: nothing is known.
        days_sd_share: how far the weather of the logged days may have moved that.
        year_sd_share: how far one year's light lies from another's.
        faulty: was something found to be wrong? Then the level may be anywhere.

    The level is the mean of what the log says and of no change, each by how sure it is.
    """
    middle = promised_kwh.middle or 0.0
    if ratio is None or ratio <= 0.0:
        return promised_kwh, 1.0
    sd = max(days_sd_share, 0.01)
    before = _FAULTY_LEVEL_SD if faulty else _LEVEL_SD
    weight = before**2 / (before**2 + sd**2)
    level = 1.0 + weight * (ratio - 1.0)
    reach = Z_90 * sqrt(weight * sd**2 + year_sd_share**2)
    kwh = middle * level
    return Band(max(kwh * (1.0 - reach), 0.0), kwh, kwh * (1.0 + reach)), level
