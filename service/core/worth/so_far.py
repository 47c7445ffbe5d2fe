"""How much of a set has been paid back so far by what its log holds, beside what was promised?"""

from dataclasses import dataclass
from datetime import date, timedelta

from service.core.worth.result import Worth

_DAYS_OF_MONTH = (31, 28.2425, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_MONTHS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class SoFar:
    """The time that a log spans, in energy and money.

    Attributes:
        years: how long it is.
        promised_kwh: what the year told would have given in it.
        logged_share: logged over promised; None where nothing was promised.
        saved, promised_saved: money, each kWh at what it is worth in the first year; gaps of the log count as nothing.
        paid_back_share: of the outlay; None where no outlay was given.
        unpaid: of the outlay.
    """

    years: float
    promised_kwh: float
    logged_share: float | None
    saved: float
    promised_saved: float
    paid_back_share: float | None
    unpaid: float | None


def so_far(worth: Worth, months_kwh: tuple[float, ...] | None, logged_kwh: float, begin: date, end: date) -> SoFar:
    """Money so far.

    Args:
        worth: the account of the set.
        months_kwh: how its year falls on the months; None: evenly on days.
        logged_kwh: what the log holds.
        begin: first day of the log.
        end: the first day after it.

    Growth of prices and ageing are left out: over a year or two they are smaller than the doubt of each kWh's worth.
    """
    promised = worth.expected_year_kwh * _share_of_years(months_kwh, begin, end)
    year = worth.expected_year_kwh
    per_kwh = (worth.saving_first_year.middle or 0.0) / year if year > 0 else 0.0
    saved, outlay = logged_kwh * per_kwh, worth.outlay
    return SoFar(
        years=(end - begin).days / 365.2425,
        promised_kwh=promised,
        logged_share=logged_kwh / promised if promised > 0 else None,
        saved=saved,
        promised_saved=promised * per_kwh,
        paid_back_share=saved / outlay if outlay else None,
        unpaid=None if outlay is None else outlay - saved,
    )


def _share_of_years(months_kwh: tuple[float, ...] | None, begin: date, end: date) -> float:
    """The part of a year's energy that falls between two days; above 1 over more than a year."""
    total = sum(months_kwh) if months_kwh else 0.0
    if months_kwh is None or total <= 0.0:
        return (end - begin).days / 365.2425
    found, day = 0.0, begin
    while day < end:
        following = date(day.year + day.month // _MONTHS, day.month % _MONTHS + 1, 1)
        until = min(following, end)
        found += months_kwh[day.month - 1] * (until - day) / timedelta(days=_DAYS_OF_MONTH[day.month - 1])
        day = until
    return found / total
