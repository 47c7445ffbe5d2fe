"""On how many days was the set off, or its log silent, and what is that worth beside all that was to be expected?"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from service.core.logbook.expected import DAY_S
from service.core.logbook.gaps import CONNECTION_LOST, SET_OFF, Gap
from service.core.logbook.snow import Silence, SnowFacts
from service.core.logbook.zones import Zone

# An evening's switch or two days away happen to every set; from these on it is the first thing to be told of a log.
_LEAST_DAYS, _LEAST_SHARE = 5, 0.1
_A_DAY_S = DAY_S // 3  # a gap that takes a third of a day counts as a day
_AN_HOUR_OR_TWO = 0.2  # of a further day, are none


@dataclass(frozen=True, slots=True, kw_only=True)
class LostTime:
    """Gaps of one kind that take a day or more together.

    Attributes:
        days: on how many days; ``gaps``: in how many stretches.
        first_s, last_s: Unix seconds of the first's begin and the last's end.
        kwh: what the log lacks for it.
        share: of that and what was logged.
        sureness_share: how sure the kind is.
    """

    days: int
    gaps: int
    first_s: int
    last_s: int
    kwh: float
    share: float
    sureness_share: float

    @property
    def stands_out(self) -> bool:
        """Is it the first thing to be told?"""
        return self.days >= _LEAST_DAYS and self.share >= _LEAST_SHARE


def off_time(gaps: Sequence[Gap], logged_kwh: float) -> LostTime | None:
    """The time in which the set gave nothing though it was logged; None: less than a day."""
    return _lost([gap for gap in gaps if gap.kind == SET_OFF and gap.input is None], logged_kwh)


def unlogged_time(gaps: Sequence[Gap], logged_kwh: float) -> LostTime | None:
    """The time of which nothing was logged and no counter made it good; None: less than a day."""
    lost = [gap for gap in gaps if gap.kind == CONNECTION_LOST and gap.input is None]
    return _lost([gap for gap in lost if (gap.missed_kwh.middle or 0.0) > 0.0], logged_kwh)


def under_snow(gaps: Sequence[Gap], snow: SnowFacts, zone: Zone) -> bool:
    """May snow explain each of the stretches in which the set was off?"""
    off = [gap for gap in gaps if gap.kind == SET_OFF and gap.input is None]
    return all(
        snow.may_lie(Silence(since_s=gap.begin_s, days=ceil((gap.end_s - gap.begin_s) / DAY_S)), zone) for gap in off
    )


def _lost(gaps: Sequence[Gap], logged_kwh: float) -> LostTime | None:
    long = [gap for gap in gaps if gap.end_s - gap.begin_s >= _A_DAY_S]
    if not long:
        return None
    kwh = sum(gap.missed_kwh.middle or 0.0 for gap in long)
    return LostTime(
        days=sum(ceil((gap.end_s - gap.begin_s) / DAY_S - _AN_HOUR_OR_TWO) for gap in long),
        gaps=len(long),
        first_s=min(gap.begin_s for gap in long),
        last_s=max(gap.end_s for gap in long),
        kwh=kwh,
        share=kwh / max(kwh + logged_kwh, 1e-9),
        sureness_share=min(gap.sureness_share for gap in long),
    )
