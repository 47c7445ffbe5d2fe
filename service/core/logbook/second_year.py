"""What has changed since a year ago, over the same days of the year, and how sure is that?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp, hypot, log, sqrt

import numpy as np

from service.core.logbook.expected import BY_CLIMATE
from service.core.logbook.totals import SpanTotal

_LEAST_KNOWN_SHARE = 0.5  # of a day's expected energy in logged time, for it to be compared
_YEAR_DAYS, _MONTH_DAYS = 365, 30
_LEAST_DAYS, _DAYS_A_MONTH = 28, 7
# How far a month of one year lies from that of another for its light alone (a year: ``year_sd_share``).
_MONTH_SD = {"climate": 0.16, "weather": 0.05, "peers": 0.04}
_SURE_SD = 2.0
_STATION_SD = 0.02  # what weather or neighbours leave open from one year to the next
LESS, MORE, SAME, CANNOT_TELL = "less", "more", "about_the_same", "cannot_tell"
_SMALL_SHARE, _BLIND_SHARE = 0.03, 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthPair:
    """A month of the last year beside that of the year before: the days that both know, kWh of them, the change."""

    first_day: int
    days: int
    before_kwh: float
    after_kwh: float
    change_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondYear:
    """What a log of more than a year says of the second.

    Attributes:
        what: less, more, about_the_same, cannot_tell.
        change_share: of the days that both years know, the light of each year left out as far as it is known.
        doubt_share: two standard deviations of it.
        before_kwh, after_kwh: of these days, each as if wholly logged.
        months: in order of time.
        lowest: the month that lost the most; None where none lost more than its light explains.
        first_day, last_day: of the last year's days that were compared.
    """

    what: str
    change_share: float
    doubt_share: float
    before_kwh: float
    after_kwh: float
    months: tuple[MonthPair, ...]
    lowest: MonthPair | None
    first_day: int
    last_day: int


def second_year(days: Sequence[SpanTotal], basis: str, year_sd_share: float) -> SecondYear | None:
    """Set the days of the last year beside the same ones before; None where fewer than four weeks can be compared.

    Args:
        days: of the log, in order.
        basis: what their expectation rests on; by weather or neighbours the light is left out, by the climate not.
        year_sd_share: how far one year's light lies from another's, by the climate.
    """
    known = {one.first_day: one for one in days if one.known_share >= _LEAST_KNOWN_SHARE and one.ratio is not None}
    latest = max(known, default=0)
    both = [day for day in known if day > latest - _YEAR_DAYS and day - _YEAR_DAYS in known]
    if len(both) < _LEAST_DAYS:
        return None
    of_months: dict[int, list[int]] = {}
    for day in both:
        of_months.setdefault(_month(day), []).append(day)
    pairs = [_pair(month, some, known) for month, some in sorted(of_months.items()) if len(some) >= _DAYS_A_MONTH]
    if not pairs:
        return None
    sides = [_sum_of([known[day - back] for day in both]) for back in (_YEAR_DAYS, 0)]
    (before_kwh, before), (after_kwh, after) = sides
    if before <= 0.0:
        return None
    month_sd = _MONTH_SD.get(basis, _MONTH_SD["climate"])
    lasting = year_sd_share if basis in BY_CLIMATE else _STATION_SD
    doubt = _SURE_SD * sqrt(2.0) * hypot(month_sd / sqrt(len(both) / _MONTH_DAYS), lasting)
    change = after / before - 1.0
    lowest = min(pairs, key=lambda one: one.change_share)
    fell = log(max(1.0 + lowest.change_share, 0.01)) < -_SURE_SD * sqrt(2.0) * hypot(month_sd, lasting)
    return SecondYear(
        what=_what(change, doubt), change_share=change, doubt_share=1.0 - exp(-doubt), before_kwh=before_kwh,
        after_kwh=after_kwh, months=tuple(pairs), lowest=lowest if fell else None, first_day=min(both),
        last_day=max(both),
    )  # fmt: skip


def _sum_of(days: Sequence[SpanTotal]) -> tuple[float, float]:
    """Energy of days as if wholly logged, kWh, and it over what was to be expected."""
    kwh = sum((one.ratio or 0.0) * one.expected_kwh for one in days)
    expected = sum(one.expected_kwh for one in days)
    return kwh, kwh / expected if expected > 0.0 else 0.0


def _pair(month: int, days: Sequence[int], known: Mapping[int, SpanTotal]) -> MonthPair:
    (before_kwh, before), (after_kwh, after) = (
        _sum_of([known[day - back] for day in days]) for back in (_YEAR_DAYS, 0)
    )  # fmt: skip
    return MonthPair(
        first_day=int(np.datetime64(month, "M").astype("datetime64[D]").astype(np.int64)), days=len(days),
        before_kwh=before_kwh, after_kwh=after_kwh, change_share=after / before - 1.0 if before > 0.0 else 0.0,
    )  # fmt: skip


def _what(change: float, doubt: float) -> str:
    moved = log(max(1.0 + change, 0.01))
    if abs(moved) > max(doubt, _SMALL_SHARE):
        return LESS if moved < 0.0 else MORE
    return SAME if doubt < _BLIND_SHARE else CANNOT_TELL


def _month(day: int) -> int:
    return int(np.datetime64(day, "D").astype("datetime64[M]").astype(np.int64))
