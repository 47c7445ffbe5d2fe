"""What does a running counter tell: which energy fell between its readings, where was it set back, what jumped?"""

from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from service.core.logbook.limits import Ceiling
from service.core.logbook.pieces import LogNote, Pieces
from service.core.logbook.rows import DAY_S, HOUR_S, Rows, resolution_of, step_of
from service.core.logbook.unit_marks import rounded_to
from service.core.logbook.units import (
    A_THOUSANDTH,
    AS_SAID,
    FACTORS,
    MOST_OVER_RATING,
    OVER_CLEAR,
    TIMES_THOUSAND,
    stretches_of,
)
from service.core.logbook.zones import Zone
from service.core.model.hours import Bools, Floats, Ints

_MOST_PASSES = 5
# A counter that begins each day at nought is known by this share of the nights around.
_DAILY_SHARE, _LEAST_DAYS, _NIGHTS_AROUND = 0.6, 3, 4
_LONG_STEPS = 3.0
# Where a counter goes on in another unit: what may be added meanwhile must be less than this share of the reading.
_SHARP_SHARE, _JOINT_DECADES, _MOST_JOINTS, _AROUND = 0.3, (2.85, 3.15), 200, 4
_CHANGES = (
    (AS_SAID, A_THOUSANDTH), (TIMES_THOUSAND, AS_SAID), (AS_SAID, TIMES_THOUSAND), (A_THOUSANDTH, AS_SAID)
)  # fmt: skip
_THOUSAND = 1000.0


@dataclass(slots=True, eq=False)
class _Readings:
    """Readings in order, Wh, with what can have come at most from one to the next."""

    at: Ints
    value: Floats
    resolution: float
    most_w: float

    def most_wh(self, seconds: Ints) -> Floats:
        """What can be added in so much time: what the set gives, and the rounding of both readings."""
        return np.asarray(self.most_w * seconds / HOUR_S * MOST_OVER_RATING + 2.0 * self.resolution + 1.0)

    def joints(self, most: Floats) -> dict[int, frozenset[tuple[int, int]]]:
        """The readings after which the counter goes on in another unit: which changes of unit make it go on.

        ``most``: (n - 1,) what can have come at most from each to the next, Wh.
        """
        old, new = self.value[:-1], self.value[1:]
        with np.errstate(divide="ignore", invalid="ignore"):
            decades = np.abs(np.log10(np.maximum(new, 0.0) / np.maximum(old, 0.0)))
        near = np.flatnonzero((decades > _JOINT_DECADES[0]) & (decades < _JOINT_DECADES[1]))
        if near.size > _MOST_JOINTS:
            return {}
        found = {int(row): frozenset(pair for pair in _CHANGES if self._goes_on(int(row), float(most[row]), *pair))
                 for row in near}  # fmt: skip
        return {row: pairs for row, pairs in found.items() if pairs}

    def _goes_on(self, row: int, most: float, before: int, after: int) -> bool:
        early, late = self.value[max(row - _AROUND, 0) : row + 1], self.value[row + 1 : row + 2 + _AROUND]
        rounding = rounded_to(early) * FACTORS[before] + rounded_to(late) * FACTORS[after]
        old, new = float(early[-1]) * FACTORS[before], float(late[0]) * FACTORS[after]
        return -rounding - 1.0 <= new - old <= most + rounding < _SHARP_SHARE * old

    def without(self, drop: Bools) -> "_Readings":
        return _Readings(self.at[~drop], self.value[~drop], self.resolution, self.most_w)


def counter_pieces(rows: Rows, ceiling: Ceiling, zone: Zone) -> tuple[Pieces, tuple[LogNote, ...]]:
    """Pieces between the readings of a counter, which are in order, Wh.

    A reading that stands out and is taken back by the next is dropped. Where the counter was set back the new reading
    counts from nought: at least that much came. A counter that begins each day at nought is read day by day. A jump
    that the set cannot have made ends the count there and begins it anew.
    """
    at, value, unit = _in_the_right_unit(rows, ceiling, zone)
    told = _Readings(at, value, resolution_of(value), ceiling.most_w)
    below = told.value < 0.0
    readings, spikes = _without_spikes(told.without(below))
    step_s = step_of(readings.at, rows.step_s)
    notes = [*unit, *_note("impossible", int(np.count_nonzero(below))), *_note("counter_spikes", spikes)]
    at, value = readings.at, readings.value
    begin, end, rise = at[:-1].copy(), at[1:], np.diff(value)
    fell = rise < -1.5 * readings.resolution
    slipped = (rise < 0.0) & ~fell | fell & (value[1:] > 0.98 * value[:-1]) & (rise > -50.0)
    fell &= ~slipped
    at_least = fell.copy()
    daily = _daily(at, fell, zone)
    if daily.size:
        anew = fell | ((daily > 0) & (end - begin > _LONG_STEPS * step_s))
        midnight = zone.midnight_s(zone.day_of(end))
        begin = np.where(anew & (daily > 0), np.maximum(begin, np.minimum(midnight, end)), begin)
        at_least = fell & (daily == 0)
        notes.append(LogNote(code="counter_daily", count=int(np.count_nonzero(fell & (daily > 0)))))
        fell = anew
    energy = np.where(slipped, 0.0, np.where(fell, value[1:], rise))
    jumped = energy > readings.most_wh(np.maximum(end - begin, 1))
    if resets := int(np.count_nonzero(at_least)):
        facts = {"first": int(end[at_least][0]), "at_least_kwh": float(energy[at_least & ~jumped].sum()) / _THOUSAND}
        notes.append(LogNote(code="counter_reset", count=resets, facts=MappingProxyType(facts)))
    notes += [*_note("counter_slipped", int(np.count_nonzero(slipped))),
              *_note("counter_jump", int(np.count_nonzero(jumped & (end > begin))))]  # fmt: skip
    pieces = Pieces(
        begin_s=begin,
        end_s=end,
        energy_wh=np.maximum(energy, 0.0),
        at_least=at_least,
        resolution_wh=readings.resolution,
        step_s=step_s,
        running_sum=True,
    )
    return pieces.part(~jumped & (end > begin)), tuple(notes)


def _daily(at: Ints, fell: Bools, zone: Zone) -> Ints:
    """By how many local days each reading is after the one before, while the counter begins each day at nought, else 0.

    Some counters do so for a while only. Empty where none of it is.
    """
    days = np.diff(zone.day_of(at))
    new_day = np.flatnonzero(days > 0)
    # read once a day and set back now and then is another thing
    if np.count_nonzero(fell[new_day]) < _LEAST_DAYS or days.size < 2 * new_day.size:
        return np.empty(0, dtype=np.int64)
    sums = np.concatenate([[0], np.cumsum(fell[new_day])])
    low = np.maximum(np.arange(new_day.size) - _NIGHTS_AROUND, 0)
    high = np.minimum(np.arange(new_day.size) + _NIGHTS_AROUND + 1, new_day.size)
    often = (sums[high] - sums[low]) >= _DAILY_SHARE * (high - low)
    found = np.zeros(days.size, dtype=np.int64)
    found[new_day[often]] = days[new_day[often]]
    return found if often.any() else np.empty(0, dtype=np.int64)


def _without_spikes(readings: _Readings) -> tuple[_Readings, int]:
    """Readings that cannot be and that the next one takes back are dropped, one of a run in each pass."""
    dropped = 0
    for _ in range(_MOST_PASSES):
        at, value = readings.at, readings.value
        if at.size < 3:
            break
        up = value[1:-1] - value[:-2] > readings.most_wh(at[1:-1] - at[:-2])
        over = value[2:] - value[:-2]
        undone = (over >= -1.5 * readings.resolution) & (over <= readings.most_wh(at[2:] - at[:-2]))
        down = (value[1:-1] < value[:-2] - 1.5 * readings.resolution) & (
            value[2:] - value[1:-1] > readings.most_wh(at[2:] - at[1:-1])
        )
        drop = np.zeros(at.size, dtype=np.bool_)
        drop[1:-1] = (up | down) & undone
        drop[1:] &= ~drop[:-1]
        if not drop.any():
            break
        dropped += int(np.count_nonzero(drop))
        readings = readings.without(drop)
    return readings, dropped


def _in_the_right_unit(rows: Rows, ceiling: Ceiling, zone: Zone) -> tuple[Ints, Floats, list[LogNote]]:
    """Readings in Wh, whatever unit each stretch of them is in; those of which that cannot be told left out."""
    at, value = rows.at_s, rows.value
    if value.size < 2:
        return at, value, []
    rise = np.append(np.maximum(np.diff(value), 0.0), 0.0)  # of each reading what is added until the next
    told = _Readings(at, value, resolution_of(value), ceiling.most_w)
    found = stretches_of(
        at, np.append(at[1:], at[-1]), rise, ceiling, zone, joints=told.joints(_most_between(told, ceiling, zone))
    )
    if found is None:
        return at, value, []
    keep = ~found.doubt
    return at[keep], (value * found.factor)[keep], list(found.notes(at, rise > 0.0, zone))


def _most_between(told: _Readings, ceiling: Ceiling, zone: Zone) -> Floats:
    """(n - 1,) what the set can have given from each reading to the next: by its rating, and by a cloudless sky."""
    seconds = np.diff(told.at)
    clear = OVER_CLEAR * ceiling.clear_wh(zone.day_of(told.at[:-1])) * np.ceil(seconds / DAY_S)
    return np.minimum(told.most_wh(seconds), clear)


def _note(code: str, count: int) -> tuple[LogNote, ...]:
    return (LogNote(code=code, count=count),) if count else ()


def in_order(pieces: Pieces) -> Pieces:
    """The pieces with no end after the next one's begin."""
    end = pieces.end_s.copy()
    np.minimum(end[:-1], pieces.begin_s[1:], out=end[:-1])
    return replace(pieces, end_s=end).part(end > pieces.begin_s)
