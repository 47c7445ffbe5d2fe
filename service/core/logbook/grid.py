"""How does a log look on a regular grid, and on the days of a calendar?"""

from dataclasses import replace

import numpy as np

from service.core.logbook.expected import DAY_S, HOUR_S, Expected
from service.core.logbook.pieces import Course, Pieces
from service.core.logbook.series import LONGEST_STEP_S, SHORTEST_STEP_S, LoggedSeries
from service.core.logbook.zones import Zone
from service.core.model.hours import Bools

# A lost row or two are bridged evenly; over a longer stretch only the sum is known.
_MOST_BRIDGED_STEPS, _MOST_BRIDGED_S = 3.5, 2.1 * HOUR_S
_KNOWN_SHARE = 0.5  # of a step, from which on its mean counts
# Rounding of a reading may be this part of the most that a step can hold; else steps are joined.
_COARSE_SHARE = 0.34
_STEPS_S = (300, 600, 900, 1800, 3600, 7200, 86_400)


def series_of(
    pieces: Pieces, usable: Bools, zone: Zone, most_w: float, number: int | None = None
) -> LoggedSeries | None:
    """The log on even steps; None where it has no piece of at most a day.

    Args:
        pieces: the log, in order.
        usable: (n,) which of them count; the others are left open.
        zone: of the site.
        most_w: what the set can give at most.
        number: of the inverter's input, None for the set.
    """
    shape = _known_shape(pieces, usable)
    told = pieces.part(shape)
    if not told.energy_wh.size:
        return None
    step_s = _step(pieces, most_w)
    if step_s == LONGEST_STEP_S:
        return _by_day(told, zone, number)
    away = (told.begin_s - told.begin_s[0]) % step_s
    phase = int(np.median(np.where(away > step_s // 2, away - step_s, away)))
    first = int(told.begin_s[0]) + phase
    first -= step_s * max(-(-(first - int(told.begin_s[0])) // step_s), 0)
    count = max(-(-(int(told.end_s[-1]) - first - step_s // 10) // step_s), 1)
    edges = first + step_s * np.arange(count + 1)
    energy = np.diff(Course.of_pieces(told, told.energy_wh).at(edges))
    known = np.diff(Course.of_pieces(told, told.seconds.astype(np.float64)).at(edges)) / step_s
    good = known >= _KNOWN_SHARE
    values = np.divide(energy, known, out=np.full(count, np.nan), where=good)
    whole = known > 0.999
    values = np.where(whole, energy, values)
    return LoggedSeries(start_s=edges[:-1], step_s=step_s, energy_wh=values, time_zone=zone.name, input=number)


def _known_shape(pieces: Pieces, usable: Bools) -> Bools:
    """Of which pieces it is known how their energy lies in time: short ones, and those that are nought."""
    seconds = pieces.seconds
    most = max(min(_MOST_BRIDGED_STEPS * pieces.step_s, _MOST_BRIDGED_S), 1.25 * pieces.step_s)
    return usable & ((seconds <= most) | (pieces.energy_wh <= pieces.resolution_wh)) & (seconds > 0)


def _step(pieces: Pieces, most_w: float) -> int:
    """The step of the grid: the log's own, or as many of it as its rounding asks for; 5 minutes to a day."""
    if pieces.step_s >= 0.9 * DAY_S:
        return LONGEST_STEP_S
    own = max(pieces.step_s, SHORTEST_STEP_S)
    if pieces.resolution_wh <= _COARSE_SHARE * most_w * own / HOUR_S:
        return own
    fitting = (
        step for step in _STEPS_S if step >= own and pieces.resolution_wh <= _COARSE_SHARE * most_w * step / HOUR_S
    )
    return next(fitting, LONGEST_STEP_S)


def _by_day(told: Pieces, zone: Zone, number: int | None) -> LoggedSeries | None:
    """Days of standard time; a piece of about a day belongs to the day that its middle is in."""
    short = told.seconds < 0.9 * DAY_S
    if short.any():  # many readings a day, too coarse to be told apart
        day = (told.begin_s + told.seconds // 2 + zone.standard_offset_s) // DAY_S
    else:
        day = zone.day_of(told.begin_s + told.seconds // 2)
    single = told.seconds < 1.3 * DAY_S
    if not single.any():
        return None
    first, last = int(day[single].min()), int(day[single].max())
    count = last - first + 1
    energy = np.bincount(day[single] - first, weights=told.energy_wh[single], minlength=count)
    seconds = np.bincount(day[single] - first, weights=told.seconds[single], minlength=count)
    values = np.where(seconds >= 0.3 * DAY_S, energy, np.nan)
    start = (first + np.arange(count)) * DAY_S - zone.standard_offset_s
    return LoggedSeries(start_s=start, step_s=LONGEST_STEP_S, energy_wh=values, time_zone=zone.name, input=number)


def spread_out(pieces: Pieces, now: Expected) -> Pieces:
    """The same energy with pieces longer than an hour cut at the full hours, each part by what was to be expected.

    So that what a counter made good after a gap is no peak of its last day; where nothing was to be expected, evenly.
    """
    return spread_over(pieces, now.course)


def spread_over(pieces: Pieces, course: Course) -> Pieces:
    """The same by any course that begins at a full hour."""
    long = pieces.seconds > HOUR_S + 60
    if not long.any():
        return pieces
    rows = np.flatnonzero(long)
    first_s = int(course.at_s[0])
    hours = (pieces.end_s[rows] - 1 - first_s) // HOUR_S - (pieces.begin_s[rows] - first_s) // HOUR_S + 1
    owner = np.repeat(rows, hours)
    within = np.arange(owner.size) - np.repeat(np.cumsum(hours) - hours, hours)
    hour = first_s + ((pieces.begin_s[owner] - first_s) // HOUR_S + within) * HOUR_S
    begin = np.maximum(hour, pieces.begin_s[owner])
    end = np.minimum(hour + HOUR_S, pieces.end_s[owner])
    expected = course.between(begin, end)
    totals = np.bincount(owner, weights=expected, minlength=pieces.begin_s.size)
    weight = np.where(totals[owner] > 0.0, expected, end - begin)
    totals = np.bincount(owner, weights=weight, minlength=pieces.begin_s.size)
    energy = pieces.energy_wh[owner] * weight / totals[owner]
    all_begin = np.concatenate([pieces.begin_s[~long], begin])
    order = np.argsort(all_begin, kind="stable")

    def joined(short: np.ndarray, parts: np.ndarray) -> np.ndarray:
        return np.asarray(np.concatenate([short[~long], parts])[order])

    return replace(
        pieces,
        begin_s=all_begin[order],
        end_s=joined(pieces.end_s, end),
        energy_wh=joined(pieces.energy_wh, energy),
        at_least=joined(pieces.at_least, pieces.at_least[owner]),
        share=None if pieces.share is None else joined(pieces.share, pieces.share[owner]),
    )
