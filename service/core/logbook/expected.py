"""What was to be expected of the set in the hours of a log: from the climate, or from the weather of those days?"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import hypot, sqrt

import numpy as np

from service.core.energy.other_light import OtherLight
from service.core.logbook.pieces import Course
from service.core.model.band import Z_90, Band, SpreadPart, ends_of
from service.core.model.hours import HOURS, Floats, Ints

HOUR_S, DAY_S = 3600, 86_400
_DAYS = HOURS // 24
# The mean of so many days around a day stands for its season: weather is left out, the sun's height is not.
_SEASON_DAYS = 31
_SPREAD_DAYS = 61  # over which days their spread is read
# A dull day follows a dull day more often than not: days in a row count as half as many independent ones (daily sums
# of radiation in Europe have a correlation of 0.3 to 0.4 from one day to the next, from memory).
_DAYS_ALIKE = 2.0
# A step counts as day where the season gives more than this part of what the set can give at most.
_DAYLIGHT_SHARE = 0.015
_LEAST_SD_SHARE = 0.01
DULL_DAYS = 5  # so many dull days in a row: in deep winter a single one may give nothing at all
YEAR_TO_YEAR = "year_to_year"
# Given weather that leaves more than this part of the expected energy open is no measure of the whole log.
_MOST_OPEN_SHARE, _MARGINS_H = 0.2, 48
BY_CLIMATE = frozenset({"climate", "weather_in_part"})
# Single months of the climate table are less sure than its years: nine tenths within 7 to 15 %, of years within 4 to 8.
_MONTH_TIMES = 1.7
_BEFORE_MONTH = np.concatenate([[0], np.cumsum([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30])])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TypicalYear:
    """A set's year without the days on which it stands still, ready to be asked for other light.

    Attributes:
        other_light: of the set's ``EnergyYear``.
        kept_share: (8760,) what an export limit leaves of each hour; None: there is none.
        standard_offset_s: how far the rows' clock is ahead of universal time.
    """

    other_light: OtherLight
    kept_share: Floats | None
    standard_offset_s: int

    def hours_w(self, scale: float = 1.0) -> Floats:
        """(8760,) a.c. power by the rows of the reference year at other light, every limit kept."""
        hours = self.other_light.ac_and_clipped_w(scale)[0] / max(self.other_light.up_share, 1e-9)
        return np.asarray(hours if self.kept_share is None else hours * self.kept_share)

    def day_sd_share(self) -> Floats:
        """(365,) how far a day's energy usually lies from that of its season, relative."""
        days = self.hours_w().reshape(_DAYS, 24).sum(axis=1)
        season = season_of(self.hours_w()).reshape(_DAYS, 24).sum(axis=1)
        around = np.convolve(np.tile((days - season) ** 2, 3), np.ones(_SPREAD_DAYS) / _SPREAD_DAYS, "same")
        return np.asarray(np.sqrt(around[_DAYS : 2 * _DAYS]) / np.maximum(season, 1e-9))

    def usual_days_wh(self) -> Floats:
        """(365,) what the season of each day gives."""
        return np.asarray(season_of(self.hours_w()).reshape(_DAYS, 24).sum(axis=1))

    def clear_days_wh(self) -> Floats:
        """(365,) what a cloudless day gives: hour by hour the best of the month around it."""
        days, reach = self.hours_w().reshape(_DAYS, 24), _SEASON_DAYS // 2
        around = np.concatenate([days[-reach:], days, days[:reach]])
        best = np.lib.stride_tricks.sliding_window_view(around, _SEASON_DAYS, axis=0).max(axis=2)
        return np.asarray(best.sum(axis=1))

    def dullest_share(self, days: int) -> Floats:
        """(365,) what so many days in a row give of their season's at least, within a month around each day."""
        hours = self.hours_w()
        given, season = (one.reshape(_DAYS, 24).sum(axis=1) for one in (hours, season_of(hours)))
        reach = _SEASON_DAYS // 2 + days
        wrapped = np.concatenate([given[-reach:], given, given[:reach]])
        runs = np.convolve(wrapped, np.ones(days) / days, "valid")
        around = np.lib.stride_tricks.sliding_window_view(runs, runs.size - _DAYS + 1).min(axis=1)
        return np.asarray(around / np.maximum(season, 1e-9))

    def dullest_hours_share(self) -> Floats:
        """(8760,) what the three hours around each give of their season's at least, within a month around each day.

        On the dullest day the inverter may stand still in some of its hours and work in others.
        """
        hours = self.hours_w()
        three, season = (np.roll(one, 1) + one + np.roll(one, -1) for one in (hours, season_of(hours)))
        days, reach = three.reshape(_DAYS, 24), _SEASON_DAYS // 2
        around = np.concatenate([days[-reach:], days, days[:reach]])
        least = np.lib.stride_tricks.sliding_window_view(around, _SEASON_DAYS, axis=0).min(axis=2)
        return np.asarray(least.ravel() / np.maximum(season, 1e-9))


def season_of(hours_w: Floats) -> Floats:
    """(8760,) hours averaged over the days around each, hour of day by hour of day."""
    days = hours_w.reshape(_DAYS, 24)
    reach = _SEASON_DAYS // 2
    around = np.concatenate([days[-reach - 1 :], days, days[:reach]])
    sums = np.cumsum(around, axis=0)
    return np.asarray((sums[_SEASON_DAYS:] - sums[:-_SEASON_DAYS]).ravel() / _SEASON_DAYS)


def reference_rows(begin_s: Ints, standard_offset_s: int) -> Ints:
    """The row of the reference year that an hour of any year falls in; 29 February counts as the 28th."""
    standard = (begin_s + standard_offset_s).astype("datetime64[s]")
    months = standard.astype("datetime64[M]")
    day = (standard.astype("datetime64[D]") - months.astype("datetime64[D]")).astype(np.int64)
    month = months.astype(np.int64) % 12
    hour = (begin_s + standard_offset_s) // HOUR_S % 24
    return np.asarray((_BEFORE_MONTH[month] + np.minimum(day, np.where(month == 1, 27, 30))) * 24 + hour)


@dataclass(frozen=True, eq=False)
class Expected:
    """What was to be expected hour by hour over the span of a log.

    Attributes:
        first_s: Unix seconds of the first hour.
        hours_w: (n,) the middle.
        low_w, high_w: (n,) the ends of the band if all hours were as dull or as bright as each other's: causes that
            stay the same all the time.
        daylight: (n,) 1 where the season's hour gives something, else 0.
        day_sd_share: (n,) how far single days lie from this, relative, beyond those causes.
        year_sd_share: how far a whole year may lie from it for its weather.
        month_sd_share: how far a month's part of the year may lie from it for what the table does not know.
        basis: climate, weather, weather_in_part, peers.
        dull_shares: (n,) each: what the dullest day of its season gives of the season's, or its dullest hours around
            this one where they give less, and the dullest days in a row. None: not known.
    """

    first_s: int
    hours_w: Floats
    low_w: Floats
    high_w: Floats
    daylight: Floats
    day_sd_share: Floats
    year_sd_share: float
    month_sd_share: float
    basis: str
    dull_shares: tuple[Floats, Floats] | None = None

    @cached_property
    def course(self) -> Course:
        """The energy that was to be expected, growing, Wh."""
        return Course.of_steps(self.first_s, HOUR_S, self.hours_w)

    @cached_property
    def day_course(self) -> Course:
        """The seconds of daylight, growing."""
        return Course.of_steps(self.first_s, HOUR_S, self.daylight * HOUR_S)

    def known_wh(self, begin_s: Ints, end_s: Ints, share: Floats | None = None) -> Floats:
        """(n,) the energy of each hour that lies in pieces of time, in order; an hour known in part counts in part.

        ``share``: of each piece, the part of the set that it tells of; None: all of it.
        """
        if not begin_s.size:
            return np.zeros(self.hours_w.size)
        at = np.empty(2 * begin_s.size, dtype=np.int64)
        at[0::2], at[1::2] = begin_s, end_s
        seconds = np.zeros(at.size)
        np.cumsum(end_s - begin_s if share is None else (end_s - begin_s) * share, out=seconds[1::2])
        seconds[2::2] = seconds[1:-1:2]
        edges = self.first_s + HOUR_S * np.arange(self.hours_w.size + 1)
        return np.asarray(self.hours_w * np.diff(np.interp(edges, at, seconds)) / HOUR_S)

    def weather_sd_share(self, known_wh: Floats) -> float:
        """How far a sum of hours may lie from what was expected because of the weather of those days.

        Days that give much weigh much; of n even days it is the spread of one day, times the root of 2/n. Less than a
        year also has what is unsure about single months.
        """
        total = float(known_wh.sum())
        if total <= 0.0:
            return 1.0
        hour = np.arange(known_wh.size)
        by_day = np.bincount(hour // 24, weights=known_wh * self.day_sd_share)
        by_month = np.bincount(hour // (30 * 24), weights=known_wh)
        days = _DAYS_ALIKE * float((by_day**2).sum()) / total**2
        months = self.month_sd_share**2 * float((by_month**2).sum()) / total**2
        return sqrt(days + months + self.year_sd_share**2)

    def band(self, begin_s: Ints, end_s: Ints, share: Floats | None = None) -> Band:
        """The energy to be expected in pieces of time, in order, kWh, with all that makes it unsure."""
        known = self.known_wh(begin_s, end_s, share)
        whole = self.course.between(begin_s, end_s)
        middle = float(whole.sum() if share is None else whole @ share)
        if middle <= 0.0:
            return Band(0.0, 0.0, 0.0)
        share = np.divide(known, self.hours_w, out=np.zeros_like(known), where=self.hours_w > 0.0)
        total = float(known.sum())
        ends = [float((share * one).sum()) / total for one in (self.low_w, self.high_w)] if total > 0.0 else [1.0, 1.0]
        low_days, high_days = ends_of([SpreadPart("weather_of_the_days", self.weather_sd_share(known))])
        low = 1.0 - hypot(1.0 - min(ends[0], 1.0), 1.0 - low_days)
        high = 1.0 + hypot(max(ends[1], 1.0) - 1.0, high_days - 1.0)
        kwh = middle / 1000.0
        return Band(max(low, 0.0) * kwh, kwh, high * kwh)


def sd_share_of(band: Band) -> float:
    """Relative standard deviation of a sum, below its middle."""
    if not band.middle or band.cautious is None:
        return 1.0
    return max((band.middle - band.cautious) / band.middle / Z_90, _LEAST_SD_SHARE)


def hours_of_span(begin_s: int, end_s: int, standard_offset_s: int) -> Ints:
    """The beginnings of the hours of standard time that cover a span, with a day before and after."""
    first = (begin_s - DAY_S + standard_offset_s) // HOUR_S * HOUR_S - standard_offset_s
    count = -(-(end_s + DAY_S - first) // HOUR_S)
    return np.asarray(first + HOUR_S * np.arange(count))


def from_climate(typical: TypicalYear, begins: Ints, spread: Sequence[SpreadPart]) -> Expected:
    """What the season gives in each of the hours ``begins``: the typical year's, averaged over a month's days.

    Args:
        typical: the set's year.
        begins: (n,) whole hours in a row.
        spread: of the typical year.
    """
    share = {part.code: part.relative_sd_share for part in spread}
    lasting = [part for part in spread if part.code != YEAR_TO_YEAR]
    rows = reference_rows(begins, typical.standard_offset_s)
    low, high = ends_of(lasting)
    middle = season_of(typical.hours_w())
    most = float(middle.max(initial=0.0))
    return Expected(
        first_s=int(begins[0]),
        hours_w=middle[rows],
        low_w=season_of(typical.hours_w(low))[rows],
        high_w=season_of(typical.hours_w(high))[rows],
        daylight=np.where(middle[rows] > _DAYLIGHT_SHARE * most, 1.0, 0.0),
        day_sd_share=typical.day_sd_share()[rows // 24],
        year_sd_share=share.get(YEAR_TO_YEAR, 0.0),
        month_sd_share=_MONTH_TIMES * share.get("climate_data", 0.0),
        basis="climate",
        dull_shares=(
            np.minimum(typical.dullest_share(1)[rows // 24], typical.dullest_hours_share()[rows]),
            typical.dullest_share(DULL_DAYS)[rows // 24],
        ),
    )


def from_weather(
    season: Expected, hours_w: Floats, known: Floats, spread: Sequence[SpreadPart], day_sd_share: float
) -> Expected:
    """What the weather of those days gives; hours that it does not know take the season's.

    Args:
        season: the same hours from the climate.
        hours_w: (n,) a.c. power from the weather of each hour.
        known: (n,) whether the weather tells of it.
        spread: causes that stay the same all the time, the series' own doubt among them.
        day_sd_share: how far a day usually lies from what its weather gives.
    """
    low, high = ends_of(spread)
    hours = np.where(known, hours_w, season.hours_w)
    margin = 24 if hours.size > _MARGINS_H else 0  # a day before and after, which the log does not know either
    of_log = season.hours_w[margin : hours.size - margin]
    left_open = of_log * np.equal(known[margin : hours.size - margin], 0.0)
    total = float(of_log.sum())
    open_share = float(left_open.sum()) / total if total > 0.0 else 0.0
    return replace(
        season,
        hours_w=hours,
        low_w=np.where(known, hours * low, season.low_w),
        high_w=np.where(known, hours * high, season.high_w),
        day_sd_share=np.where(known, day_sd_share, season.day_sd_share),
        year_sd_share=season.year_sd_share * open_share,
        month_sd_share=season.month_sd_share * open_share,
        basis="weather" if open_share < _MOST_OPEN_SHARE else "weather_in_part",
    )
