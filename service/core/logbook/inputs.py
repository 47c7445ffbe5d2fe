"""What do inputs that were logged apart make together, where not all of them know the same time?

Each input's energy counts where its own log knows it; a stretch that one of them lacks is no gap of the others. Which
part of the set a piece tells of follows from what its inputs were to give.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from service.core.logbook.expected import HOUR_S, reference_rows, season_of
from service.core.logbook.grid import spread_over
from service.core.logbook.pieces import Course, Pieces
from service.core.model.hours import Bools, Floats, Ints

_LONG_STEPS = 1.5  # a piece longer than so many steps spans a gap
_DAYS, _SPREAD_DAYS, _FARTHEST_LOG = 365, 61, 2.0
_BRIDGED_SHARE = 0.25  # of a step: less between two pieces is a trifle of their stamps


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class InputShares:
    """What each input with panels gives in the hours of the reference year.

    Attributes:
        numbers: (k,) of the inputs.
        hours_w: (k, 8760) d.c. power of each in its season, by the rows of the reference year.
        day_log_sd: (k, 365) how far the logarithm of what an input gives over what the others do usually lies, on a
            single day, from that of its season: planes and shade that differ make it so.
        standard_offset_s: how far the rows' clock is ahead of universal time.
    """

    numbers: tuple[int, ...]
    hours_w: Floats
    day_log_sd: Floats
    standard_offset_s: int

    def at(self, begins: Ints) -> Floats:
        """(k, n) power in the hours that begin at ``begins``."""
        return np.asarray(self.hours_w[:, reference_rows(begins, self.standard_offset_s)])


def input_shares(numbers: Sequence[int], dc_w: Sequence[Floats], standard_offset_s: int) -> InputShares:
    """From a typical year.

    Args:
        numbers: the input of each array.
        dc_w: d.c. power of each array by the rows of the reference year, (8760,) each.
        standard_offset_s: how far their clock is ahead of universal time.
    """
    inputs = sorted(set(numbers))
    each = [sum(one for at, one in zip(numbers, dc_w, strict=True) if at == number) for number in inputs]
    season = np.array([season_of(np.asarray(one)) for one in each])
    days, usual = (np.asarray(one).reshape(len(inputs), _DAYS, 24).sum(axis=2) for one in (each, season))

    def beside(energy: Floats) -> Floats:
        return np.asarray(np.log(np.maximum(energy, 1.0) / np.maximum(energy.sum(axis=0) - energy, 1.0)))

    off = np.clip(beside(days) - beside(usual), -_FARTHEST_LOG, _FARTHEST_LOG)
    weight = np.minimum(days.sum(axis=0) / np.maximum(usual.sum(axis=0), 1.0), 1.0)
    around = np.array([_smooth(weight * one**2) for one in off]) / np.maximum(_smooth(weight), 1e-9)
    return InputShares(
        numbers=tuple(inputs), hours_w=season, day_log_sd=np.sqrt(around), standard_offset_s=standard_offset_s
    )


def _smooth(days: Floats) -> Floats:
    """Mean of the days around each, (365,)."""
    return np.asarray(np.convolve(np.tile(days, 3), np.ones(_SPREAD_DAYS) / _SPREAD_DAYS, "same")[_DAYS : 2 * _DAYS])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Courses:
    """What each logged input was to give, beside the whole set, in d.c. energy that grows over the log's time."""

    of_input: tuple[Course, ...]
    of_set: Course
    count: int  # of the inputs that give anything


def courses_of(inputs: Sequence[tuple[int, Pieces]], shares: InputShares | None) -> Courses:
    """The course of each logged input and of the set.

    Where the logs hold energy of an input without panels, or nothing is known of the inputs, all that were logged count
    alike.
    """
    offset_s = 0 if shares is None else shares.standard_offset_s
    first = min((int(one.begin_s[0]) for _, one in inputs if one.energy_wh.size), default=0)
    first = (first + offset_s) // HOUR_S * HOUR_S - offset_s
    last = max((int(one.end_s[-1]) for _, one in inputs if one.energy_wh.size), default=first + HOUR_S)
    begins = first + HOUR_S * np.arange(-(-(last - first) // HOUR_S))
    strange = shares is None or any(
        number not in shares.numbers and float(one.energy_wh.sum()) > 0.0 for number, one in inputs
    )
    if shares is None or strange:
        even = Course.of_steps(first, HOUR_S, np.ones(begins.size))
        whole = Course.of_steps(first, HOUR_S, np.full(begins.size, float(len(inputs))))
        return Courses(of_input=tuple(even for _ in inputs), of_set=whole, count=len(inputs))
    hours = shares.at(begins)
    nothing = np.zeros(begins.size)
    each = [hours[shares.numbers.index(number)] if number in shares.numbers else nothing for number, _ in inputs]
    return Courses(
        of_input=tuple(Course.of_steps(first, HOUR_S, one) for one in each),
        of_set=Course.of_steps(first, HOUR_S, hours.sum(axis=0)),
        count=len(shares.numbers),
    )


def summed_inputs(inputs: Sequence[tuple[int, Pieces]], courses: Courses) -> Pieces:
    """The whole set from its inputs: in each stretch the energy of those that know it, and which share they stand for.

    The pieces are those of the first input; where it knows nothing, or only a sum over a gap, those of the others.
    """
    told = [(one, course) for (_, one), course in zip(inputs, courses.of_input, strict=True) if one.energy_wh.size]
    if not told:
        return inputs[0][1]
    edges = _edges([one for one, _ in told])
    begin, end = edges[:-1], edges[1:]
    energy, known = np.zeros(begin.size), np.zeros(begin.size)
    fed = np.zeros(begin.size)
    told_of, at_least = (np.zeros(begin.size, dtype=np.bool_) for _ in range(2))
    for one, course in told:
        at = place_of(one, begin, end)
        inside = at >= 0
        spread = spread_over(one, course)
        energy += Course.of_pieces(spread, spread.energy_wh).between(begin, end)
        known += inside * course.between(begin, end)
        at_least |= inside & one.at_least[at]
        told_of |= inside
        fed += inside * (course.total[-1] > 0.0)
    whole = courses.of_set.between(begin, end)
    share = np.divide(known, whole, out=fed / courses.count, where=whole > 0.0)
    first = told[0][0]
    pieces = replace(
        first,
        begin_s=begin,
        end_s=end,
        energy_wh=np.maximum(energy, 0.0),
        at_least=at_least,
        resolution_wh=max(one.resolution_wh for one, _ in told),
        step_s=max(one.step_s for one, _ in told),
        share=np.minimum(share, 1.0),
    )
    return pieces.part(told_of)


def place_of(pieces: Pieces, begin_s: Ints, end_s: Ints) -> Ints:
    """(n,) the number of the piece in which the middle of each stretch lies; -1: in none."""
    middle = begin_s + (end_s - begin_s) // 2
    at = np.searchsorted(pieces.begin_s, middle, side="right") - 1
    return np.asarray(np.where((at >= 0) & (middle < pieces.end_s[at]), at, -1))


def _edges(logs: Sequence[Pieces]) -> Ints:
    """The moments that part the whole set's pieces."""
    found = [logs[0].begin_s, logs[0].end_s]
    for k, one in enumerate(logs[1:], start=1):
        own = np.concatenate([one.begin_s, one.end_s])
        free = np.ones(own.size, dtype=np.bool_)
        for before in logs[:k]:
            free &= ~_within_short(before, own)
        found += [own[free], *_ends_of_runs(one)]
    return np.unique(np.concatenate(found))


def _within_short(pieces: Pieces, moments_s: Ints) -> Bools:
    """Which moments lie in a piece that spans no gap."""
    at = np.searchsorted(pieces.begin_s, moments_s, side="right") - 1
    short = pieces.seconds <= _LONG_STEPS * pieces.step_s
    return np.asarray((at >= 0) & (moments_s < pieces.end_s[at]) & short[at])


def _ends_of_runs(pieces: Pieces) -> tuple[Ints, Ints]:
    """Where a log begins and ends, with its gaps."""
    apart = pieces.begin_s[1:] - pieces.end_s[:-1] > _BRIDGED_SHARE * pieces.step_s
    begins = np.concatenate([[True], apart])
    return pieces.begin_s[begins], pieces.end_s[np.concatenate([apart, [True]])]
