"""What was not logged, or not made: where are the gaps, of what kind are they, what were they worth?"""

from dataclasses import dataclass

import numpy as np

from service.core.logbook.expected import BY_CLIMATE, DAY_S, DULL_DAYS, HOUR_S, Expected
from service.core.logbook.pieces import Course, Pieces
from service.core.model.band import Z_90, Band
from service.core.model.hours import Bools, Floats, Ints

NIGHT, CONNECTION_LOST, SET_OFF, UNKNOWN = "night", "connection_lost", "set_off", "unknown"
# A gap has at least so many rows and so much daylight; less is a lost row.
LEAST_STEPS, LEAST_DAYLIGHT_S = 3, HOUR_S
_LEAST_OFF_S = 1.4 * HOUR_S
# Under the thickest cloud, and under a thin cover of snow, a set still gives this part of what its season gives.
_DULLEST_SHARE = 0.03
# Between rows of the same day that gave a good part of what the season does no cloud takes all but this.
_DULLEST_BETWEEN_SHARE, _GOOD_PART = 0.12, 0.3
_BRIGHT_SHARE = 0.3  # of the day's best hour: a set that gives nothing only while the sun is low may be shaded
_OFTEN_SHARE = 0.2  # of the days: what comes back at the same hour is no switch
_LEAST_SIGNS = 3.0  # readings' roundings that such dull light would have shown
_NIGHTS_APART_S = 20 * HOUR_S
# How fast days forget each other's weather, and what the whole log weighs beside its nearest days.
_FORGETS_DAYS, _WHOLE_LOG_WEIGHT = 1.5, 0.3
_LEAST_RATIO_SD = 0.08
_HARDLY_SHARE, _LITTLE_SHARE = 0.12, 0.25  # of what would have come: regained by a counter


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A stretch by day of which the log tells nothing, or in which the set gave nothing.

    Attributes:
        begin_s, end_s: Unix seconds.
        kind: connection_lost (made, and not logged), set_off (not made), unknown (the log cannot tell).
        missed_kwh: what the log lacks; 0 where a counter made it good.
        would_have_kwh: what the set would have given meanwhile.
        regained_kwh: what the counter's jump at the end brought.
        sureness_share: how sure the kind is.
        input: whose log lacks it, while another input's does not; None: the whole set's.
    """

    begin_s: int
    end_s: int
    kind: str
    missed_kwh: Band
    would_have_kwh: float
    regained_kwh: float
    sureness_share: float
    input: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Holes:
    """What lies between pieces, and long pieces of a counter; arrays (n,)."""

    begin_s: Ints
    end_s: Ints
    regained_wh: Floats
    piece: Ints  # its place among the pieces, -1: nothing was logged
    zero: Bools  # rows are there and all nought


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sorted:
    """The log with its gaps told apart.

    Attributes:
        gaps: the longest known, in order of time.
        usable: (n,) which pieces compare with what was expected: made and logged, neither off nor a lower bound.
        nights: how many holes have no daylight worth the name. ``lost_rows``: how many rows are lost one by one.
        lost_rows_kwh: what those would have held.
    """

    gaps: tuple[Gap, ...]
    usable: Bools
    nights: int
    lost_rows: int
    lost_rows_kwh: float


def sorted_gaps(pieces: Pieces, season: Expected, now: Expected) -> Sorted:
    """Find and class the gaps of a log.

    Args:
        pieces: the log, in order.
        season: what the season gives, by which night and day are told apart.
        now: what was to be expected, from the weather of the days where that is known.
    """
    off = _off_runs(pieces, season)
    holes = _holes(pieces)
    daylight = season.day_course.between(holes.begin_s, holes.end_s)
    rows = (holes.end_s - holes.begin_s) / pieces.step_s
    by_day = pieces.step_s >= 0.9 * DAY_S
    least_s = 0.5 * pieces.step_s if by_day else max(LEAST_STEPS * pieces.step_s * 0.9, LEAST_DAYLIGHT_S)
    long = (daylight >= (0.5 * HOUR_S if by_day else LEAST_DAYLIGHT_S)) & (holes.end_s - holes.begin_s >= least_s)
    lit = season.course.between(holes.begin_s, holes.end_s) > 0.0
    short = ~long & (daylight > 0.0) & (rows >= 0.5) & (holes.piece < 0)
    usable = ~pieces.at_least
    usable[off.piece_of_run >= 0] = False
    counted = np.flatnonzero(long & (holes.piece >= 0))
    still = pieces.energy_wh[holes.piece[counted]] <= 2.0 * pieces.resolution_wh
    usable[holes.piece[counted[still]]] = False
    level = Level(pieces, now, usable)
    gaps = [_gap(holes, at, pieces, season, now, level) for at in np.flatnonzero(long).tolist()]
    gaps += [_off_gap(begin, end, season, now, level) for begin, end in off.runs]
    lost = season.course.between(holes.begin_s[short], holes.end_s[short])
    return Sorted(
        gaps=tuple(sorted((gap for gap in gaps if gap is not None), key=lambda gap: gap.begin_s)),
        usable=usable,
        nights=int(np.count_nonzero(~long & ~short & ~lit)),
        lost_rows=int(np.rint(rows[short]).sum()),
        lost_rows_kwh=float(lost.sum()) / 1000.0 * level.overall,
    )


def _holes(pieces: Pieces) -> Holes:
    """Stretches between pieces; of a counter also pieces that are longer than readings lie apart."""
    between = np.flatnonzero(pieces.begin_s[1:] > pieces.end_s[:-1])
    long = np.flatnonzero(pieces.running_sum & (pieces.seconds > 1.5 * pieces.step_s))
    begin = np.concatenate([pieces.end_s[between], pieces.begin_s[long]])
    end = np.concatenate([pieces.begin_s[between + 1], pieces.end_s[long]])
    order = np.argsort(begin, kind="stable")
    return Holes(
        begin_s=begin[order],
        end_s=end[order],
        regained_wh=np.concatenate([np.zeros(between.size), pieces.energy_wh[long]])[order],
        piece=np.concatenate([np.full(between.size, -1), long])[order],
        zero=np.zeros(order.size, dtype=np.bool_),
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Off:
    runs: tuple[tuple[int, int], ...]
    piece_of_run: Ints


def _off_runs(pieces: Pieces, season: Expected) -> _Off:
    """Stretches of rows that are all nought although even the dullest day would have shown something."""
    seconds = pieces.seconds
    typical = pieces.expected_wh(season.course)
    lit = season.day_course.between(pieces.begin_s, pieces.end_s) > 0.5 * np.minimum(seconds, 6 * HOUR_S)
    lit &= seconds <= 1.5 * pieces.step_s
    rows = np.flatnonzero(lit)
    none = np.full(pieces.begin_s.size, -1)
    if not rows.size:
        return _Off((), none)
    energy = pieces.energy_wh[rows]
    nought = energy <= 0.0
    apart = np.concatenate([[False], pieces.begin_s[rows][1:] - pieces.end_s[rows][:-1] > _NIGHTS_APART_S])
    change = np.concatenate([[True], nought[1:] != nought[:-1]]) | apart
    run = np.cumsum(change) - 1
    begins = np.flatnonzero(change)
    ends = np.concatenate([begins[1:], [rows.size]]) - 1
    good = energy > _GOOD_PART * typical[rows]
    between = good[np.maximum(begins - 1, 0)] & good[np.minimum(ends + 1, rows.size - 1)]
    within_day = pieces.end_s[rows[ends]] - pieces.begin_s[rows[begins]] < DAY_S // 2
    dullest = np.where(between & within_day, _DULLEST_BETWEEN_SHARE, _DULLEST_SHARE)
    before, after = rows[np.maximum(begins - 1, 0)], rows[np.minimum(ends + 1, rows.size - 1)]
    same_day = between & (pieces.end_s[after] - pieces.begin_s[before] < DAY_S // 2)
    many = pieces.end_s[rows[ends]] - pieces.begin_s[rows[begins]] > (DULL_DAYS - 1) * DAY_S
    known = _dullest_known(pieces, rows, season, many[run])
    least = max(pieces.resolution_wh, 1.0)
    dull = np.where(
        _bright(pieces, rows, season),
        np.where(same_day[run], dullest[run], np.minimum(dullest[run], known)) * typical[rows],
        0.0,
    )
    shown = dull if pieces.running_sum else np.where(dull >= 0.5 * least, dull, 0.0)
    signs = np.bincount(run, weights=shown) / least
    length = np.bincount(run, weights=seconds[rows])
    least_s = 0.9 * pieces.step_s if pieces.step_s >= 2 * HOUR_S else _LEAST_OFF_S
    off = nought[begins] & (signs >= _LEAST_SIGNS) & (length >= least_s)
    off = _seldom(off, pieces.begin_s[rows[begins]], pieces.end_s[rows[ends]], season)
    runs = []
    for at in np.flatnonzero(off).tolist():
        first, last = int(rows[begins[at]]), int(rows[ends[at]])
        none[first : last + 1] = at
        runs.append((int(pieces.begin_s[first]), int(pieces.end_s[last])))
    return _Off(tuple(runs), none)


def _dullest_known(pieces: Pieces, rows: Ints, season: Expected, many: Bools) -> Floats:
    """(rows,) half of what the dullest day of the season gives of it, or the dullest days in a row where ``many``."""
    if season.dull_shares is None:
        return np.ones(rows.size)
    hour = np.minimum((pieces.begin_s[rows] - season.first_s) // HOUR_S, season.hours_w.size - 1)
    one, several = (share[hour] for share in season.dull_shares)
    return np.asarray(0.5 * np.where(many, several, one))


def _bright(pieces: Pieces, rows: Ints, season: Expected) -> Bools:
    """Which rows lie in hours that give a good part of what the best hour of their day does."""
    hours = season.hours_w[: season.hours_w.size // 24 * 24].reshape(-1, 24)
    best = np.repeat(hours.max(axis=1), 24)
    hour = (pieces.begin_s[rows] + pieces.seconds[rows] // 2 - season.first_s) // HOUR_S
    hour = np.minimum(hour, best.size - 1)
    bright = season.hours_w[hour] >= _BRIGHT_SHARE * best[hour]
    return np.asarray(bright | (pieces.seconds[rows] > DAY_S // 2))


def _seldom(off: Bools, begin_s: Ints, end_s: Ints, season: Expected) -> Bools:
    """The stretches without those that come back day after day at the same hour: shade, or a wrong clock."""
    short = np.flatnonzero(off & (end_s - begin_s < DAY_S // 3))
    if short.size < 5:
        return off
    hour = (begin_s[short] + (end_s[short] - begin_s[short]) // 2) % DAY_S
    away = np.abs((hour[:, np.newaxis] - hour + DAY_S // 2) % DAY_S - DAY_S // 2)
    alike = (away < 1.5 * HOUR_S).sum(axis=1)
    often = alike > max(_OFTEN_SHARE * season.hours_w.size / 24, 4)
    off = off.copy()
    off[short[often]] = False
    return off


class Level:
    """What the log gave over what was to be expected, overall and around a moment."""

    def __init__(self, pieces: Pieces, now: Expected, usable: Bools) -> None:
        """Sum the usable pieces by day."""
        expected = pieces.part(usable).expected_wh(now.course)
        middle = pieces.begin_s[usable] + pieces.seconds[usable] // 2
        day = (middle - now.first_s) // DAY_S
        count = int(day.max(initial=0)) + 1
        self.logged = np.bincount(day, weights=pieces.energy_wh[usable], minlength=count)
        self.expected = np.bincount(day, weights=expected, minlength=count)
        self.day = np.arange(count)
        self.first_s = now.first_s
        total = float(self.expected.sum())
        self.overall = float(self.logged.sum()) / total if total > 0 else 1.0
        self.followed = now.basis not in BY_CLIMATE
        seen = self.expected > 0.02 * self.expected.max(initial=0.0)
        off = self.logged[seen] / np.maximum(self.expected[seen], 1e-9) / max(self.overall, 1e-9) - 1.0
        self.day_sd = float(np.sqrt(np.mean(off**2))) if seen.sum() > 2 else max(float(now.day_sd_share.mean()), 0.1)

    def around(self, begin_s: int, end_s: int) -> float:
        """The ratio to count with in a gap: that of the days next to it, beside that of the whole log."""
        if self.overall <= 0.0:
            return 1.0
        low, high = (begin_s - self.first_s) / DAY_S, (end_s - self.first_s) / DAY_S
        away = np.maximum(np.maximum(low - self.day - 1.0, self.day - high), 0.0)
        weight = np.exp(-away / _FORGETS_DAYS)
        total = float(self.expected.sum())
        own = _WHOLE_LOG_WEIGHT * total / max(self.day.size, 1) * (10.0 if self.followed else 3.0)
        expected = float((weight * self.expected).sum())
        return (float((weight * self.logged).sum()) + own * self.overall) / max(expected + own, 1e-9)

    def sd_share(self, begin_s: int, end_s: int) -> float:
        """How far that may be off, relative."""
        days = max((end_s - begin_s) / DAY_S, 0.5)
        return float(np.hypot(self.day_sd / np.sqrt(max(days / 2.0, 1.0)), _LEAST_RATIO_SD))


def _gap(holes: Holes, at: int, pieces: Pieces, season: Expected, now: Expected, level: Level) -> Gap | None:
    begin, end = _trimmed(int(holes.begin_s[at]), int(holes.end_s[at]), season)
    if end <= begin:
        return None
    would = _between(now.course, begin, end) * level.around(begin, end) / 1000.0
    regained, sd = float(holes.regained_wh[at]) / 1000.0, level.sd_share(begin, end)
    if holes.piece[at] < 0:
        kind, sureness = (
            (CONNECTION_LOST, 0.8) if not pieces.running_sum else _before_counter_day(holes, at, pieces, now)
        )
        missed = band_of(would, sd)
    elif pieces.at_least[holes.piece[at]]:  # set back meanwhile: what it shows is a part of what came
        kind, sureness = (CONNECTION_LOST, 0.7) if regained > _HARDLY_SHARE * would else (UNKNOWN, 0.5)
        missed = Band(0.0, max(would - regained, 0.0), max(would * (1.0 + Z_90 * sd) - regained, 0.0))
    else:
        kind, sureness, missed = kind_of(regained, would, pieces.resolution_wh, sd)
    return Gap(
        begin_s=begin, end_s=end, kind=kind, missed_kwh=missed, would_have_kwh=would, regained_kwh=regained,
        sureness_share=sureness,
    )  # fmt: skip


def kind_of(regained: float, would: float, resolution_wh: float, sd: float) -> tuple[str, float, Band]:
    """By what a counter brought at the end of a gap, kWh: its kind, how sure that is, and what is missing."""
    if regained * 1000.0 <= 2.0 * resolution_wh:
        return SET_OFF, 0.95, band_of(would, sd)
    if regained < _HARDLY_SHARE * would:  # the hours at its ends ran
        return SET_OFF, 0.8, band_of(would - regained, sd)
    if regained < _LITTLE_SHARE * would:
        doubt = max(would * (1.0 + Z_90 * sd) - regained, 0.0)
        return UNKNOWN, 0.5, Band(0.0, would - regained, doubt)
    return CONNECTION_LOST, 0.95, Band(0.0, 0.0, 0.0)


def _before_counter_day(holes: Holes, at: int, pieces: Pieces, now: Expected) -> tuple[str, float]:
    """A counter that begins each day: the first reading of the day on which the gap ends tells whether the set ran."""
    after = int(np.searchsorted(pieces.begin_s, holes.end_s[at]))
    if after >= pieces.begin_s.size:
        return UNKNOWN, 0.5
    expected = _between(now.course, int(pieces.begin_s[after]), int(pieces.end_s[after]))
    long = int(pieces.end_s[after] - pieces.begin_s[after]) > 1.5 * pieces.step_s
    if not long or expected < 50.0:
        return CONNECTION_LOST, 0.7
    ran = float(pieces.energy_wh[after]) > 0.1 * expected
    return (CONNECTION_LOST, 0.9) if ran else (SET_OFF, 0.8)


def _off_gap(begin: int, end: int, season: Expected, now: Expected, level: Level) -> Gap:
    begin, end = _trimmed(begin, end, season)
    would = _between(now.course, begin, end) * level.around(begin, end) / 1000.0
    return Gap(
        begin_s=begin, end_s=end, kind=SET_OFF, missed_kwh=band_of(would, level.sd_share(begin, end)),
        would_have_kwh=would, regained_kwh=0.0, sureness_share=0.9,
    )  # fmt: skip


def _trimmed(begin_s: int, end_s: int, season: Expected) -> tuple[int, int]:
    """A stretch without the night hours at its ends."""
    first = (begin_s - season.first_s) // HOUR_S
    last = (end_s - 1 - season.first_s) // HOUR_S
    lit = np.flatnonzero(season.daylight[first : last + 1])
    if not lit.size:
        return begin_s, begin_s
    low = season.first_s + (first + int(lit[0])) * HOUR_S
    high = season.first_s + (first + int(lit[-1]) + 1) * HOUR_S
    return max(begin_s, low), min(end_s, high)


def _between(course: Course, begin_s: int, end_s: int) -> float:
    return float(course.between(np.array([begin_s]), np.array([end_s]))[0])


def band_of(kwh: float, sd_share: float) -> Band:
    """Missed energy: the cautious end is the smaller one."""
    return Band(max(kwh * (1.0 - Z_90 * sd_share), 0.0), kwh, kwh * (1.0 + Z_90 * sd_share))
