"""What do the rows of a log say once they are in order: their times and values, doubles and impossible ones taken out?

A log of intervals, of power samples or of months becomes pieces here; a running counter in ``counter``.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from service.core.logbook.pieces import LogNote, Pieces
from service.core.logbook.zones import Zone
from service.core.model.hours import Bools, Floats, Ints

HOUR_S, DAY_S = 3600, 86_400
# What an inverter gives for minutes above its rating; more is an error of the reading.
MOST_OVER_RATING = 1.25
# Below nought: what a meter shows of the inverter's own draw by night; what is further down is an error.
_OWN_DRAW_W = 15.0
_USUAL_STEPS_S = np.array([
    10, 15, 20, 30, 60, 120, 180, 240, 300, 360, 600, 720, 900, 1200, 1800, 3600, 7200, 10800, 14400, 21600, 43200,
    86_400, 604_800,
])  # fmt: skip
_THOUSAND = 1000.0
# A clamp that was put on the wrong way round: so many values far below nought at least, and next to nothing above.
_LEAST_TURNED, _MOST_UPRIGHT_SHARE = 3, 0.02
# A whole log is taken to be in the other unit if its energy lies this far from what could be expected.
_OTHER_UNIT_TIMES = 100.0
_ROUNDED_TO_WH = (1000.0, 500.0, 100.0, 50.0, 10.0, 5.0, 1.0, 0.5, 0.1, 0.01)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rows:
    """A log as sent: moments in any order, values in Wh or W, nan where a row has none. Arrays (n,).

    Attributes:
        kind: counter, interval, power or month.
        stamp: which moment of its step a row names: start, middle or end.
        step_s: where the caller told it, else None.
    """

    kind: str
    at_s: Ints
    value: Floats
    stamp: str
    step_s: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ceiling:
    """What the set can give at most, and what it gives in a usual hour of the year: W."""

    most_w: float
    usual_w: float


def ordered(rows: Rows) -> tuple[Rows, tuple[LogNote, ...]]:
    """The rows by time, each moment once.

    A moment that occurs twice with the same value counts once; with values that differ it is not used.
    """
    notes = []
    empty = ~np.isfinite(rows.value)
    if count := int(np.count_nonzero(empty)):
        notes.append(LogNote(code="empty_rows", count=count))
    at, value = rows.at_s[~empty], rows.value[~empty]
    if (np.diff(at) > 0).all():
        kept = Rows(kind=rows.kind, at_s=at, value=value, stamp=rows.stamp, step_s=rows.step_s)
        return kept, tuple(notes)
    if (back := int(np.count_nonzero(np.diff(at) < 0))) > 0:
        notes.append(LogNote(code="unordered", count=back))
    order = np.lexsort((value, at))
    at, value = at[order], value[order]
    first = np.concatenate([[True], np.diff(at) > 0]) if at.size else np.zeros(0, dtype=np.bool_)
    same = ~first & np.concatenate([[False], np.diff(value) == 0])
    if count := int(np.count_nonzero(same)):
        notes.append(LogNote(code="duplicates", count=count))
    disputed = ~first & ~same
    if disputed.any():
        moments = np.unique(at[disputed])
        group = np.isin(at, moments)
        begins = np.searchsorted(at, moments)
        ends = np.searchsorted(at, moments, side="right") - 1
        facts = {"low": float(value[begins].sum()), "high": float(value[ends].sum()), "first": int(moments[0])}
        notes.append(LogNote(code="disputed", count=int(moments.size), facts=MappingProxyType(facts)))
        first &= ~group
    kept = Rows(kind=rows.kind, at_s=at[first], value=value[first], stamp=rows.stamp, step_s=rows.step_s)
    return kept, tuple(notes)


def step_of(at_s: Ints, told_s: int | None) -> int:
    """How far rows in order lie apart where none is missing, s: a usual step within a tenth of what a quarter keeps."""
    if told_s is not None:
        return told_s
    if at_s.size < 2:
        return DAY_S
    apart = float(np.percentile(np.diff(at_s), 25, method="lower"))
    near = int(_USUAL_STEPS_S[np.argmin(np.abs(np.log(_USUAL_STEPS_S / apart)))])
    return near if abs(near - apart) <= 0.1 * near else max(round(apart), 1)


def resolution_of(values_wh: Floats) -> float:
    """What values are rounded to, Wh: the largest usual amount of which nearly all are multiples; 0: none is found."""
    seen = values_wh[values_wh > 0.0]
    if not seen.size:
        return 0.0
    if seen.size > 5000:
        seen = seen[:: seen.size // 5000]
    for amount in _ROUNDED_TO_WH:
        off = np.abs(
            seen / amount - np.maximum(np.rint(seen / amount), 1.0)
        )  # what is above nought is once it at least
        if np.count_nonzero(off < 0.005) >= 0.98 * seen.size:
            return amount
    return 0.0


def interval_pieces(rows: Rows, ceiling: Ceiling, zone: Zone) -> tuple[Pieces, tuple[LogNote, ...]]:
    """Pieces of rows in order that hold energy of intervals (Wh), power (W) or months (Wh).

    An interval lasts until the next stamp where that comes about a step later, else one step. A power sample stands for
    the time around its moment, where the stamp is the middle.
    """
    begin, end, step_s = _bounds(rows, zone)
    hours = (end - begin) / HOUR_S
    energy = rows.value * hours if rows.kind == "power" else rows.value.copy()
    energy, unit = _in_the_right_unit(*_turned(energy, hours), hours, ceiling)
    below = energy < 0.0
    drawn = below & (energy >= -_OWN_DRAW_W * hours)
    impossible = (below & ~drawn) | (energy > MOST_OVER_RATING * ceiling.most_w * hours)
    resolution = resolution_of(rows.value if rows.kind == "power" else energy)
    notes = [*unit, *_counted("below_zero", drawn), *_counted("impossible", impossible, energy)]
    energy[drawn] = 0.0
    pieces = Pieces(
        begin_s=begin,
        end_s=end,
        energy_wh=energy,
        at_least=np.zeros(energy.size, dtype=np.bool_),
        resolution_wh=resolution * (step_s / HOUR_S if rows.kind == "power" else 1.0),
        step_s=step_s,
        running_sum=False,
    )
    return pieces.part(~impossible), tuple(notes)


def _bounds(rows: Rows, zone: Zone) -> tuple[Ints, Ints, int]:
    """Begin and end of each interval, and the usual step."""
    at = rows.at_s
    if rows.kind == "month":
        months = zone.wall_s(at).astype("datetime64[s]").astype("datetime64[M]")
        begin, end = (zone.midnight_s(one.astype("datetime64[D]").astype(np.int64)) for one in (months, months + 1))
        return begin, end, 30 * DAY_S
    step_s = step_of(at, rows.step_s)
    apart = np.diff(at)
    length = np.where((apart >= 0.5 * step_s) & (apart < 1.5 * step_s), apart, np.minimum(step_s, apart))
    if rows.stamp == "end":
        return np.concatenate([at[:1] - step_s, at[1:] - length]), at, step_s
    begin, end = at, np.concatenate([at[:-1] + length, at[-1:] + step_s])
    shift = step_s // 2 if rows.stamp == "middle" else 0
    return begin - shift, end - shift, step_s


def _turned(energy: Floats, hours: Floats) -> tuple[Floats, list[LogNote]]:
    """The values with their sign turned where they all lie below nought, by more than an inverter draws."""
    far = energy < -_OWN_DRAW_W * hours
    above, below = float(energy[energy > 0.0].sum()), -float(energy[energy < 0.0].sum())
    if np.count_nonzero(far) < _LEAST_TURNED or above > _MOST_UPRIGHT_SHARE * below:
        return energy, []
    return -energy, [LogNote(code="turned_clamp", count=int(np.count_nonzero(energy < 0.0)))]


def _in_the_right_unit(
    energy: Floats, notes: list[LogNote], hours: Floats, ceiling: Ceiling
) -> tuple[Floats, list[LogNote]]:  # fmt: skip
    """Wh that were called kWh, all or some, divided by a thousand; kWh that were called Wh multiplied."""
    lit = energy > 0.0
    if not lit.any():
        return energy, notes
    most = MOST_OVER_RATING * ceiling.most_w * hours
    high = energy > most
    if high.any() and np.count_nonzero(high) >= 0.02 * np.count_nonzero(lit):
        swapped = _too_large(lit, high)
        if (energy[high & swapped] / _THOUSAND <= most[high & swapped]).all():
            told = LogNote(code="unit_too_large", count=int(np.count_nonzero(swapped & lit)))
            return np.where(swapped, energy / _THOUSAND, energy), [*notes, told]
    usual = ceiling.usual_w * float(hours.sum())
    if float(energy[lit].sum()) * _OTHER_UNIT_TIMES < usual and float(energy.max() * _THOUSAND) <= float(most.max()):
        lifted = energy * _THOUSAND
        if (lifted <= most).all() and float(lifted[lit].sum()) < 3.0 * usual:
            return lifted, [*notes, LogNote(code="unit_too_small", count=int(np.count_nonzero(lit)))]
    return energy, notes


def _too_large(lit: Bools, high: Bools) -> Bools:
    """Which rows are in the smaller unit: all of them, or the stretches whose rows by day are too large."""
    if np.count_nonzero(high) > 0.3 * np.count_nonzero(lit):
        return np.ones(lit.size, dtype=np.bool_)
    # The unit changed on the way: from the first too large row of a stretch to its last one, dim rows in between.
    rows = np.flatnonzero(high)
    longest = 10 * max(int(np.median(np.diff(rows))) if rows.size > 1 else 1, 300)
    begins = np.concatenate([[True], np.diff(rows) > longest])
    ends = np.concatenate([np.diff(rows) > longest, [True]])
    inside = np.zeros(lit.size + 1)
    np.add.at(inside, rows[begins], 1.0)
    np.add.at(inside, rows[ends] + 1, -1.0)
    return np.asarray(np.cumsum(inside[:-1]) > 0.5)


def _counted(code: str, which: Bools, energy: Floats | None = None) -> Sequence[LogNote]:
    count = int(np.count_nonzero(which))
    if not count:
        return ()
    facts = {} if energy is None else {"largest": float(energy[which][np.argmax(np.abs(energy[which]))]) / _THOUSAND}
    return (LogNote(code=code, count=count, facts=MappingProxyType(facts)),)
