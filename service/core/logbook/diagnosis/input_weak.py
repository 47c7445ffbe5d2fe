"""Does an input give far less than it should beside another: from a day on, always, or on some days?

What two inputs give in the same hours, over what each was to give in them, is almost free of the weather. It is not
where planes or shade differ: a dull day parts their light otherwise than a clear one. How far single days lie apart for
that is known from the typical year and from the log itself, and counts.
"""

from dataclasses import dataclass
from math import exp, hypot, log, sqrt
from types import MappingProxyType

import numpy as np

from service.core.logbook.diagnosis.diagnose import Suspect
from service.core.logbook.diagnosis.input_dead import SECTION_SHARE
from service.core.logbook.pieces import LogNote
from service.core.model.hours import Bools, Floats, Ints

DEAD, SECTION = "input_dead", "bypass_section_lost"
_HALF_SHARE, _NEAR_SECTION = 0.6, 0.07  # at most so much is left of a dead or half input; how near to a lost section
_LEAST_DAYS, _A_SIDE = 5, 3
_FLOOR_SD = 0.04  # two inputs of one set differ from day to day: angle, dirt, warmth, rounding
_DAYS_ALIKE = 2.0  # see ``expected``
_FELL_SD, _FELL_LOG, _LOW_LOG = 6.0, log(0.8), log(0.85)
_CLEAN_SHARE = 0.15  # days that do not fit a fall
# Two inputs that are sound may lie apart for label, dirt, mismatch, ground and horizon, all days alike.
_LASTING_SD, _LASTING_TIMES, _LASTING_LOG = 0.1, 2.6, log(0.78)
_OTHER_TOO_HIGH = 1.5  # of what it should: then it is the other's facts that are wrong
_UNEVEN_LOG, _HARDLY = 0.45, 0.2  # a shadow takes mornings or afternoons; of hardly anything no less
_FROM_A_DAY = "from_a_day"
_LOWEST_LOG, _HIGHEST_LOG, _STEP_LOW_LOG, _STEP_HIGH_LOG = -4.0, 1.2, -1.6, 0.7
_GOOD_DAY_SHARE, _GOOD_DAY_QUANTILE, _KNOWN_SHARE, _LEAST_DAY_WH, _LEAST_ROUNDINGS = 0.3, 0.8, 0.5, 20.0, 5.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SharedDays:
    """What inputs gave and were to give in the hours that all of them know; (k, d) each, Wh, by day.

    Attributes:
        numbers: (k,) of the inputs; ``panels``: (k,) how many each has.
        day: (d,) counted from 1 January 1970.
        energy, expected: of the whole day; ``morning_energy``, ``morning_expected`` of what lies before its middle.
        whole_expected: what the whole day was to give, known or not.
        day_log_sd: how far the logarithm of an input's energy over the others' usually lies from its season's.
        rounding_wh: of readings.
        by_the_hour: do the rows part a morning from an afternoon?
    """

    numbers: tuple[int, ...]
    panels: tuple[int, ...]
    day: Ints
    energy: Floats
    expected: Floats
    morning_energy: Floats
    morning_expected: Floats
    whole_expected: Floats
    day_log_sd: Floats
    rounding_wh: float
    by_the_hour: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WeakInput:
    """An input that gave less than it should beside another.

    Attributes:
        number: of the input; ``other`` that which it was compared with.
        code: the cause that such a level speaks for; None: none of the known ones.
        pattern: from_a_day, always, some_days.
        since_day: the first day of it, from 1 January 1970; always: the first compared.
        days: how many there are; ``days_told``: of how many.
        level_share: what is left of it. ``before_share``: beside what was expected before; None: it was never else.
        day_sd_share: how far a single day's ratio lies from its middle.
        lost_share: of what the whole set would have given in the hours compared; ``lasting_share`` on those days alone.
        sureness_share: that it is so.
    """

    number: int
    other: int
    code: str | None
    pattern: str
    since_day: int
    days: int
    days_told: int
    level_share: float
    before_share: float | None
    day_sd_share: float
    lost_share: float
    lasting_share: float
    sureness_share: float

    def suspect(self) -> Suspect:
        """As a cause beside the others."""
        shown = {
            "level_beside_other_input_share": self.level_share, "days_at_that_level": float(self.days),
            "days_compared": float(self.days_told), "spread_of_single_days_share": self.day_sd_share,
        }  # fmt: skip
        if self.before_share is not None:
            shown["level_before_share"] = self.before_share
        return Suspect(
            code=self.code or DEAD, sureness_share=self.sureness_share, effect_share=self.lost_share, evidence=shown,
            lasting_share=self.lasting_share if self.pattern == _FROM_A_DAY else None,
        )  # fmt: skip

    def note(self) -> LogNote:
        """What is said of it where no known cause leaves so much."""
        facts = {
            "input": self.number, "other": self.other, "since_day": self.since_day, "days": self.days,
            "percent": 100.0 * self.level_share, "spread": 100.0 * self.day_sd_share,
        }  # fmt: skip
        return LogNote(code="inputs_apart", count=1, facts=MappingProxyType(facts))


def weak_inputs(days: SharedDays) -> tuple[WeakInput, ...]:
    """Those of the inputs that give less than they should beside the best of the others; the costliest first."""
    if len(days.numbers) < 2:
        return ()
    found = [one for at in range(len(days.numbers)) if (one := _Beside(days, at).weak()) is not None]
    return tuple(sorted(found, key=lambda one: -one.lost_share))


def all_compared(days: SharedDays) -> bool:
    """Are there days enough on which each of the inputs can be told by another?"""
    each = range(len(days.numbers)) if len(days.numbers) > 1 else ()
    return bool(each) and all(_Beside(days, at).log.size >= _LEAST_DAYS for at in each)


@dataclass(frozen=True, slots=True, eq=False)
class _Pattern:
    """Which of the days told are low, at which level (a logarithm), and beside which."""

    name: str
    low: Bools
    level: float
    before: float | None
    sd: float
    sureness: float


class _Beside:
    """One input beside the best of the others, on the days on which that one gave well."""

    def __init__(self, days: SharedDays, at: int) -> None:
        """Choose the other and the days."""
        self.days, self.at = days, at
        level = days.energy.sum(axis=1) / np.maximum(days.expected.sum(axis=1), 1e-9)
        level[at] = -1.0
        self.other = int(np.argmax(level))
        self.other_level = float(level[self.other])
        other = days.energy[self.other]
        given = other[other > 0.0]
        usual = float(np.quantile(given, _GOOD_DAY_QUANTILE)) if given.size else 0.0
        least = max(_GOOD_DAY_SHARE * usual, _LEAST_DAY_WH, _LEAST_ROUNDINGS * days.rounding_wh)
        enough = days.expected[at] >= _KNOWN_SHARE * days.whole_expected[at]
        self.told = np.flatnonzero((other >= least) & enough & (days.expected[at] > 0.0))
        self.log = self._logs(days.energy, days.expected)[self.told]
        self.usual_sd = float(days.day_log_sd[at][self.told].mean()) if self.told.size else 0.0

    def _logs(self, energy: Floats, expected: Floats) -> Floats:
        """Logarithm of what the input gave over what the other did, beside what was to be expected of that."""
        own = energy[self.at] * expected[self.other]
        other = energy[self.other] * expected[self.at]
        ratio = np.divide(own, other, out=np.zeros_like(own), where=other > 0.0)
        return np.asarray(np.log(np.clip(ratio, exp(_LOWEST_LOG), exp(_HIGHEST_LOG))))

    def weak(self) -> WeakInput | None:
        """What is wrong with it, if something is."""
        if self.log.size < _LEAST_DAYS:
            return None
        pattern = self._fell() or self._some_days() or self._always()
        if pattern is None or (exp(pattern.level) > _HARDLY and self._is_a_shadow(pattern)):
            return None
        level, low = exp(pattern.level), self.told[pattern.low]
        beside = self.days.energy[self.other][low] * self.days.expected[self.at][low]
        would = float((beside / np.maximum(self.days.expected[self.other][low], 1e-9)).sum())
        would *= 1.0 if pattern.before is None else exp(min(pattern.before, -_FELL_LOG))
        lost = max(would - float(self.days.energy[self.at][low].sum()), 0.0)
        return WeakInput(
            number=self.days.numbers[self.at], other=self.days.numbers[self.other], code=self._code(level),
            pattern=pattern.name, since_day=self._since(pattern), days=int(low.size),
            days_told=int(self.told.size), level_share=level,
            before_share=None if pattern.before is None else exp(pattern.before), day_sd_share=pattern.sd,
            lost_share=lost / max(float(self.days.energy.sum()) + lost, 1e-9), sureness_share=pattern.sureness,
            lasting_share=lost / max(float(self.days.energy[:, low].sum()) + lost, 1e-9),
        )  # fmt: skip

    def _since(self, pattern: _Pattern) -> int:
        """The first day after the last on which it gave well, that it was logged; days too dull to tell among them."""
        first = int(np.flatnonzero(pattern.low)[0])
        after = self.told[first - 1] if first else -1
        high = pattern.before or 0.0
        low = self._logs(self.days.energy, self.days.expected) < high + pattern.level / 2.0
        given = np.flatnonzero(low & (self.days.energy[self.other] > 0.0))
        return int(self.days.day[given[given > after][0]])

    def _code(self, level: float) -> str | None:
        if level <= _HALF_SHARE:
            return DEAD
        section = 1.0 - SECTION_SHARE / max(self.days.panels[self.at], 1)
        return SECTION if abs(level - section) <= _NEAR_SECTION else None

    def _fell(self) -> _Pattern | None:
        """One level, and from a day on a lower one."""
        size = self.log.size
        cut = _best_cut(np.clip(self.log, _STEP_LOW_LOG, _STEP_HIGH_LOG))
        if cut is None:
            return None
        after = np.arange(size) >= cut
        high, low = float(np.median(self.log[~after])), float(np.median(self.log[after]))
        sd = self._sd(self.log - np.where(after, low, high))
        sds = (high - low) / (sd * sqrt(_DAYS_ALIKE * (1.0 / cut + 1.0 / (size - cut))))
        if sds < _FELL_SD or low - high > _FELL_LOG or low > _LOW_LOG:
            return None
        if float(np.mean((self.log < (high + low) / 2.0) != after)) > _CLEAN_SHARE:
            return None
        level = low - min(max(high, _FELL_LOG), -_FELL_LOG)
        return _Pattern(_FROM_A_DAY, after, level, high, sd, _sureness(sds / _FELL_SD))

    def _some_days(self) -> _Pattern | None:
        """Two levels in turn: on some days it gives well."""
        upper = float(np.quantile(self.log, 0.75))
        low = self.log < upper + log(_HALF_SHARE)
        count = int(np.count_nonzero(low))
        if min(count, self.log.size - count) < _A_SIDE or upper < _FELL_LOG:
            return None
        upper, level = float(np.median(self.log[~low])), float(np.median(self.log[low]))
        sd = self._sd(self.log[~low] - upper)
        sds = (upper - level) / sd
        if sds < _FELL_SD or level - upper > log(_HALF_SHARE) or level > _LOW_LOG:
            return None
        return _Pattern("some_days", low, level - upper, upper, sd, _sureness(sds / _FELL_SD))

    def _always(self) -> _Pattern | None:
        """One level, far below what is to be expected: less sure, for the facts of both inputs count in it."""
        level = float(np.median(self.log))
        sd = self._sd(self.log - level)
        sds = -level / hypot(_LASTING_SD, 0.5 * self.usual_sd, sd * sqrt(_DAYS_ALIKE / self.log.size))
        if sds < _LASTING_TIMES or level > _LASTING_LOG or self.other_level > _OTHER_TOO_HIGH:
            return None
        every = np.ones(self.log.size, dtype=np.bool_)
        return _Pattern("always", every, level, None, sd, _sureness(sds / _LASTING_TIMES))

    def _sd(self, off: Floats) -> float:
        """How far single days lie from their middle: by the log, and no less than planes like these let expect."""
        own = 1.4826 * float(np.median(np.abs(off)))
        return max(own, hypot(_FLOOR_SD, 0.5 * self.usual_sd))

    def _is_a_shadow(self, pattern: _Pattern) -> bool:
        """Does it take the morning and leave the afternoon, or the other way round?"""
        days = self.days
        if not days.by_the_hour:
            return False
        low = self.told[pattern.low]
        rest = self.told[~pattern.low]
        evening = (days.energy - days.morning_energy, days.expected - days.morning_expected)

        def uneven(some: Ints) -> float:
            parts = [
                float(
                    self._logs(
                        energy[:, some].sum(axis=1)[:, np.newaxis], expected[:, some].sum(axis=1)[:, np.newaxis]
                    )[0]
                )
                for energy, expected in ((days.morning_energy, days.morning_expected), evening)
            ]
            return parts[0] - parts[1]

        usual = uneven(rest) if pattern.before is not None and rest.size else 0.0
        return abs(uneven(low) - usual) > _UNEVEN_LOG


def _best_cut(values: Floats) -> int | None:
    """After how many days the values fall: the split that leaves the least sum of squares."""
    size = values.size
    if size < 2 * _A_SIDE:
        return None
    cut = np.arange(_A_SIDE, size - _A_SIDE + 1)
    sums, total = np.cumsum(values)[cut - 1], float(values.sum())
    told = sums**2 / cut + (total - sums) ** 2 / (size - cut)
    return int(cut[int(np.argmax(told))])


def _sureness(times: float) -> float:
    """How sure a mark is that stands so many times over what would have been enough."""
    return min(1.0 - 0.2 * exp(-1.5 * (times - 1.0)), 0.98)
