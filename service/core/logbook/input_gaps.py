"""What does the log of one input lack while another input's goes on, and what was that worth?

Such a stretch is a gap of that input only: what the others gave counts, and what they gave over what they were to give
is the weather of those days.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from service.core.logbook.expected import DAY_S, HOUR_S, Expected
from service.core.logbook.gaps import (
    CONNECTION_LOST,
    LEAST_DAYLIGHT_S,
    LEAST_STEPS,
    Gap,
    Level,
    Sorted,
    band_of,
    kind_of,
)
from service.core.logbook.grid import spread_over
from service.core.logbook.inputs import courses_of, place_of
from service.core.logbook.log import Log
from service.core.logbook.pieces import Course, LogNote, Pieces
from service.core.model.hours import Bools, Floats, Ints

# How far what an input would have given lies from what the others make of it, and by how much more on a single day.
_SURE_SHARE, _SD_SHARE, _SD_OF_A_DAY = 0.8, 0.08, 0.1
_LEAST_SHARED_DAYS, _MOST_BESIDE = 3, 2.0
_OWN_WEIGHT = 0.05  # of the whole log's level beside that of the gap's own days, in parts of a usual day
_LONG_STEPS = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class InputGaps:
    """The gaps of single inputs, in order of time, and what is said of each input that has some."""

    gaps: tuple[Gap, ...]
    notes: tuple[LogNote, ...]


def input_gaps(log: Log, told: Sorted, season: Expected, now: Expected) -> InputGaps:
    """Find the gaps of inputs that were logged apart.

    Args:
        log: in order.
        told: the gaps of the whole set; what lies in them is not told again.
        season: by which night and day are told apart.
        now: what was to be expected of the whole set.
    """
    total = log.total
    if (len(log.inputs) < 2 and log.shares is None) or not total.energy_wh.size:
        return InputGaps(gaps=(), notes=())
    courses = courses_of(log.inputs, log.shares)
    level = Level(total, now, told.usable)
    whole = courses.of_set.between(total.begin_s, total.end_s)
    expected = now.course.between(total.begin_s, total.end_s)
    gaps: list[Gap] = []
    notes: list[LogNote] = []
    for (number, pieces), course in zip(log.inputs, courses.of_input, strict=True):
        part = np.divide(course.between(total.begin_s, total.end_s), whole, out=np.zeros(whole.size), where=whole > 0.0)
        if not (part > 0.0).any():
            continue
        one = _One(number, pieces, total, (expected * part, expected), season, level, told.usable)
        found, lost = one.gaps()
        gaps += found
        notes += one.notes(found, lost)
    fed = () if log.shares is None else log.shares.numbers
    logged = {number for number, _ in log.inputs}
    notes += [
        LogNote(code="input_without_log", count=1, facts=MappingProxyType({"input": number}))
        for number in fed
        if number not in logged
    ]
    return InputGaps(gaps=tuple(sorted(gaps, key=lambda gap: gap.begin_s)), notes=tuple(notes))


class _One:
    """One input beside the whole set's pieces."""

    def __init__(
        self, number: int, pieces: Pieces, total: Pieces, expected_wh: tuple[Floats, Floats], season: Expected,
        level: Level, usable: Bools,
    ) -> None:  # fmt: skip
        """``expected_wh``: (n,) each, of the input and of the set in each of the set's pieces."""
        self.number, self.pieces, self.total, self.season, self.level = number, pieces, total, season, level
        self.at, own = np.full(usable.size, -1), np.zeros(usable.size)
        if pieces.energy_wh.size:
            self.at = place_of(pieces, total.begin_s, total.end_s)
            spread = spread_over(pieces, season.course)
            own = Course.of_pieces(spread, spread.energy_wh).between(total.begin_s, total.end_s)
        self.expected, whole = expected_wh
        share = np.ones(usable.size) if total.share is None else total.share
        self.own = np.where(usable, own, 0.0)
        self.others = np.where(usable, total.energy_wh - own, 0.0)
        self.others_expected = np.where(usable, whole * share - self.expected * (self.at >= 0), 0.0)
        self.usual_day_wh = float(whole.sum()) / max(np.unique(total.begin_s // DAY_S).size, 1)
        self.beside = self._beside(usable & (self.at >= 0) & (self.others_expected > 0.0))

    def _beside(self, shared: Bools) -> float:
        """What the input gives of its part, over what the others give of theirs."""
        days = np.unique(self.total.begin_s[shared] // DAY_S).size
        others = _ratio(self.others[shared], self.others_expected[shared])
        if days < _LEAST_SHARED_DAYS or others <= 0.0:
            return 1.0
        return min(_ratio(self.own[shared], self.expected[shared]) / others, _MOST_BESIDE)

    def _would(self, where: Bools) -> float:
        """What it would have given in some of the set's pieces, by what the others gave in them, kWh."""
        own = _OWN_WEIGHT * self.usual_day_wh
        logged = float(self.others[where].sum()) + own * self.level.overall
        level = logged / max(float(self.others_expected[where].sum()) + own, 1e-9)
        return float(self.expected[where].sum()) * self.beside * level / 1000.0

    def gaps(self) -> tuple[list[Gap], Floats]:
        """Gaps, and of single lost rows (r,) what each would have held, kWh."""
        found, lost = [], []
        for first, last in _runs(self.at < 0):
            begin, end = int(self.total.begin_s[first]), int(self.total.end_s[last])
            inside = np.zeros(self.at.size, dtype=np.bool_)
            inside[first : last + 1] = True
            would = self._would(inside)
            if self._is_gap(begin, end):
                found.append(self._gap(begin, end, CONNECTION_LOST, _SURE_SHARE, would, would, 0.0))
            elif would > 0.0:
                lost.append(would)
        found += self._made_good()
        return found, np.array(lost)

    def _made_good(self) -> list[Gap]:
        """Of a counter: what it brought at the end of a gap that others do not have."""
        if not self.pieces.running_sum:
            return []
        found = []
        long = np.flatnonzero(self.pieces.seconds > _LONG_STEPS * self.pieces.step_s)
        longest = self.total.seconds > _LONG_STEPS * self.total.step_s
        for at in long.tolist():
            inside = self.at == at
            begin, end = int(self.pieces.begin_s[at]), int(self.pieces.end_s[at])
            if not inside.any() or longest[inside].any() or not self._is_gap(begin, end):
                continue
            would = self._would(inside)
            regained = float(self.pieces.energy_wh[at]) / 1000.0
            kind, sureness, missed = kind_of(regained, would, self.pieces.resolution_wh, self._sd(begin, end))
            found.append(self._gap(begin, end, kind, sureness, would, missed.middle or 0.0, regained))
        return found

    def _is_gap(self, begin_s: int, end_s: int) -> bool:
        step_s = self.pieces.step_s
        least_s = 0.5 * step_s if step_s >= 0.9 * DAY_S else max(0.9 * LEAST_STEPS * step_s, LEAST_DAYLIGHT_S)
        daylight = float(self.season.day_course.between(np.array([begin_s]), np.array([end_s]))[0])
        return end_s - begin_s >= least_s and daylight >= min(LEAST_DAYLIGHT_S, 0.5 * HOUR_S + step_s)

    def _sd(self, begin_s: int, end_s: int) -> float:
        days = max((end_s - begin_s) / DAY_S, 1.0)
        return float(np.hypot(_SD_SHARE, _SD_OF_A_DAY / np.sqrt(days)))

    def _gap(
        self, begin_s: int, end_s: int, kind: str, sureness: float, would: float, missed: float, regained: float
    ) -> Gap:  # fmt: skip
        return Gap(
            begin_s=begin_s, end_s=end_s, kind=kind, missed_kwh=band_of(missed, self._sd(begin_s, end_s)),
            would_have_kwh=would, regained_kwh=regained, sureness_share=sureness, input=self.number,
        )  # fmt: skip

    def notes(self, found: Sequence[Gap], lost: Floats) -> list[LogNote]:
        """What is said of the input's own log."""
        open_ = [gap for gap in found if (gap.missed_kwh.middle or 0.0) > 0.0]
        notes = []
        if open_:
            days = sum(gap.end_s - gap.begin_s for gap in open_) / DAY_S
            kwh = sum(gap.missed_kwh.middle or 0.0 for gap in open_)
            facts = {"input": self.number, "days": days, "kwh": kwh}
            notes.append(LogNote(code="input_gaps", count=len(open_), facts=MappingProxyType(facts)))
        if lost.size:
            facts = {"input": self.number, "kwh": float(lost.sum())}
            notes.append(LogNote(code="input_lost_rows", count=int(lost.size), facts=MappingProxyType(facts)))
        return notes


def _ratio(some: Floats, of: Floats) -> float:
    whole = float(of.sum())
    return float(some.sum()) / whole if whole > 0.0 else 0.0


def _runs(marked: Bools) -> list[tuple[int, int]]:
    """First and last number of each row of marked ones."""
    edges = np.diff(np.concatenate([[0], marked.astype(np.int64), [0]]))
    begins: Ints = np.flatnonzero(edges == 1)
    return list(zip(begins.tolist(), (np.flatnonzero(edges == -1) - 1).tolist(), strict=True))
