"""Which stretches of a log are written in another unit than was said: kWh among Wh, W among kW?

Runs of days are compared with what the set can give (rated power, a day without a cloud), with what their season gives
and with the days around them. A stretch that cannot be as it stands and can be at a thousandth is read so. One that is
a thousandth of its season is read at a thousand times only if its energy lies as the sun's does: a set that stands
still, or a meter's noise, is no other unit. Where a few coarse values leave it open they are left out.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from service.core.logbook.expected import DAY_S, HOUR_S
from service.core.logbook.limits import Ceiling
from service.core.logbook.pieces import LogNote
from service.core.logbook.unit_marks import best_half_day, rounded_to
from service.core.logbook.zones import Zone
from service.core.model.finding import Fact
from service.core.model.hours import Bools, Floats, Ints

# What an inverter gives for minutes above its rating; more is an error of the reading.
MOST_OVER_RATING = 1.25
AS_SAID, TIMES_THOUSAND, A_THOUSANDTH = 0, 1, 2
FACTORS = (1.0, 1000.0, 0.001)
# A set may be larger than stated by a good part, and a thick cloud or some snow leave a twentieth of a day.
OVER_CLEAR, _DULL_DECADES = 1.5, -1.3
LONGEST_FULL_H = 12.0  # of a day: even a set that is much larger than its inverter runs no longer at its rating
# Costs, as in a vote of days: of what cannot be, of each decade below a dull day, of a change of unit.
_CANNOT_BE, _TOO_MUCH, _BY_DECADE_MORE = 8.0, 3.0, 6.0
_BY_DECADE_LESS, _MOST_FOR_LESS, _CHANGE, _BEGIN = 2.0, 3.5, 1.3, 0.7
_ODD_COST = 1.5  # of a day: only then are other units thought of
_OUTLIERS_SHARE, _SINGLE_AMONG = 0.12, 3
# What a stretch has to reach once it is read otherwise: over its season, and over the days around it.
_LEAST_LEVEL, _BESIDE, _BESIDE_FEW = 0.05, (0.12, 6.0), (0.25, 4.0)
# Days that are written as the others are: snow and black days leave any small part, a unit just a thousandth.
_AS_OTHERS, _MANY_DARK_GROUPS = (0.25, 1.6), 8
_NEAR_GROUPS, _ALIVE_SHARE = 30, 0.02
_ROUNDING_GROUPS, _LEAST_SPAN = 7, 0.02
_FINE_S, _LEAST_LIT = 3 * HOUR_S, 4
# Of the sun's energy nine tenths lie in the best twelve hours of the day, of a meter's noise half.
_SUN_SHARE, _OPEN_SHARE, _MOST_APART_H = 0.8, 0.65, 5
_LEAST_DISTINCT, _FEW_GROUPS, _FINER = 3, 3, 0.1
_SMOOTHER_DECADES, _FLOOR_SHARE, _FEW_OVER = 1.0, 0.01, 0.4
_MOST_DATES = 5
_TAKEN, _OPEN, _NOT_SO = "taken", "open", "not_so"
_JOINT = -3.0
# Rows of a counter between whose reading and the next one only a change of unit makes it go on: which changes do.
Joints = Mapping[int, frozenset[tuple[int, int]]]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stretches:
    """Which rows are in which unit: (n,) one of AS_SAID, TIMES_THOUSAND, A_THOUSANDTH, and which cannot be told."""

    state: Ints
    doubt: Bools

    @property
    def factor(self) -> Floats:
        """(n,) by what each row has to be multiplied."""
        return np.asarray(FACTORS)[self.state]

    def notes(self, begin_s: Ints, lit: Bools, zone: Zone) -> tuple[LogNote, ...]:
        """What was done: how many rows, when, by what."""
        told = []
        for code, which, times in (
            ("unit_too_large", self.state == A_THOUSANDTH, 0.001),
            ("unit_too_small", self.state == TIMES_THOUSAND, 1000.0),
            ("unit_in_doubt", self.doubt, 1000.0),
        ):
            rows = np.flatnonzero(which & lit)
            if rows.size:
                facts: dict[str, Fact] = {
                    "times": times,
                    "dates": _dates(which & (lit | ~lit.any()), lit, begin_s, zone),
                }
                told.append(LogNote(code=code, count=int(rows.size), facts=MappingProxyType(facts)))
        return tuple(told)


def _dates(which: Bools, lit: Bools, begin_s: Ints, zone: Zone) -> str:
    """The days of each stretch, "2026-05-01 to 2026-05-20"; rows of nought do not part one."""
    rows = np.flatnonzero(lit)
    inside = which[rows]
    change = np.flatnonzero(np.diff(np.concatenate([[0], inside.astype(np.int8), [0]])))
    firsts, lasts = rows[change[0::2]], rows[change[1::2] - 1]
    days = [zone.day_of(begin_s[some]).astype("datetime64[D]").astype(str).tolist() for some in (firsts, lasts)]
    told = [first if first == last else f"{first} to {last}" for first, last in zip(*days, strict=True)]
    more = [f"and {len(told) - _MOST_DATES} more"] if len(told) > _MOST_DATES else []
    return ", ".join(told[:_MOST_DATES] + more)


def stretches_of(
    begin_s: Ints, end_s: Ints, energy_wh: Floats, ceiling: Ceiling, zone: Zone, *, written: Floats | None = None,
    joints: Joints | None = None,
) -> Stretches | None:  # fmt: skip
    """Tell in which unit each row is; None: all as was said.

    Args:
        begin_s: (n,) Unix seconds, of rows in order of time.
        end_s: (n,) likewise.
        energy_wh: (n,) as said.
        ceiling: what the set can give.
        zone: of the site.
        written: (n,) the values as written, where that is not energy: their digits tell how fine they are.
        joints: of a counter, whose rows are its rises: where a change of unit itself shows.
    """
    if not energy_wh.size or not (energy_wh > 0.0).any():
        return None
    groups = _Groups(begin_s, end_s, energy_wh, ceiling, zone, joints)
    groups.written = groups.energy if written is None else np.abs(written)
    as_said = groups.cost(AS_SAID)
    if float(as_said.max()) < _ODD_COST and not joints:
        return None
    costs = np.stack([as_said, groups.cost(TIMES_THOUSAND), groups.cost(A_THOUSANDTH)], axis=1)
    path = _likeliest(costs, groups.joints)
    if not path.any():
        return None
    _close_short(groups, path)
    doubt = np.zeros(path.size, dtype=np.bool_)
    settled = path.copy()
    for first, last in _runs(path):
        if path[first] == AS_SAID:
            continue
        verdict = _verdict(groups, path, first, last)
        if verdict != _TAKEN:
            settled[first : last + 1] = AS_SAID
        doubt[first : last + 1] = verdict == _OPEN
    if not settled.any() and not doubt.any():
        return None
    state = settled[groups.of_row]
    _within_days(groups, settled, state)
    return Stretches(state=state, doubt=doubt[groups.of_row])


class _Groups:
    """Rows by local day; a row that is longer than a day by itself. Arrays (g,)."""

    def __init__(
        self, begin_s: Ints, end_s: Ints, energy_wh: Floats, ceiling: Ceiling, zone: Zone,
        joints: Joints | None,
    ) -> None:  # fmt: skip
        """Put rows together."""
        seconds = end_s - begin_s
        middle = begin_s + seconds // 2
        day = zone.day_of(middle)
        long = seconds > 1.5 * DAY_S
        new = np.ones(day.size, dtype=np.bool_)
        new[1:] = (day[1:] != day[:-1]) | long[1:] | long[:-1]
        self.energy = np.maximum(energy_wh, 0.0)
        for row in joints or ():  # the rise over a joint is none
            new[row], new[row + 1], self.energy[row] = True, True, 0.0
        self.of_row = np.cumsum(new) - 1
        self.firsts = np.flatnonzero(new)
        self.count = self.firsts.size
        self.joints = {int(self.of_row[row]): pairs for row, pairs in (joints or {}).items()}
        self.middle, self.seconds = middle, seconds
        self.most = MOST_OVER_RATING * ceiling.most_w * seconds / HOUR_S
        self.written = self.energy
        self.lit_count = np.add.reduceat((self.energy > 0.0).astype(np.int64), self.firsts)
        self.rounding = None if joints is None else self._rounding()[self.of_row]
        days = np.add.reduceat(seconds, self.firsts) / DAY_S
        spans = np.where(long[self.firsts], days, np.clip(days, _LEAST_SPAN, 1.0))
        self.usual = ceiling.usual_wh(day[self.firsts]) * spans
        self.dark = ceiling.may_be_black(day[self.firsts])
        self.clear = ceiling.clear_wh(day[self.firsts]) * np.maximum(spans, 1.0)
        # As they stand rows are judged by the rating alone: a set that was described wrongly may give more than told.
        self.can_be = np.maximum(self.clear, LONGEST_FULL_H * ceiling.most_w * np.maximum(spans, 1.0) / OVER_CLEAR)

    def joined(self, path: Ints, edge: int) -> bool:
        """Does a counter's joint show the change of unit before group ``edge``?"""
        pairs = self.joints.get(edge - 1, frozenset())
        return 0 < edge < path.size and (int(path[edge - 1]), int(path[edge])) in pairs

    def rows(self, first: int, last: int) -> slice:
        """The rows of groups ``first`` to ``last``."""
        end = self.firsts[last + 1] if last + 1 < self.count else self.of_row.size
        return slice(int(self.firsts[first]), int(end))

    def _rounding(self) -> Floats:
        """(g,) twice what a counter is rounded to around each day, by its least rise of a day of several readings."""
        least = np.minimum.reduceat(np.where(self.energy > 0.0, self.energy, np.inf), self.firsts)
        several = np.diff(np.append(self.firsts, self.of_row.size)) >= _LEAST_LIT
        known = np.flatnonzero(several & np.isfinite(least))
        found = np.zeros(self.count)
        if known.size:
            reach = min(_ROUNDING_GROUPS, known.size)
            windows = np.lib.stride_tricks.sliding_window_view(least[known], reach)
            middle = np.clip(np.searchsorted(known, np.arange(self.count)) - reach // 2, 0, windows.shape[0] - 1)
            around = np.median(windows, axis=1)[middle]
            own = np.where(np.isfinite(least) & (self.lit_count > 1), least, 0.0)
            found = np.where(several, np.maximum(around, own), 0.0)
        return np.asarray(2.0 * found)

    def read(self, state: int) -> tuple[Floats, Ints]:
        """(g,) the energy of what can be, were all in this unit, and how many rows cannot be."""
        scaled = self.energy * FACTORS[state]
        over = scaled > (self.most if self.rounding is None else self.most + self.rounding * FACTORS[state])
        if not over.any():
            return np.add.reduceat(scaled, self.firsts), np.zeros(self.count, dtype=np.int64)
        counts = np.add.reduceat(over.astype(np.int64), self.firsts)
        return np.add.reduceat(np.where(over, 0.0, scaled), self.firsts), counts

    def lit(self, first: int, last: int) -> Ints:
        """The rows of groups ``first`` to ``last`` that hold something."""
        rows = self.rows(first, last)
        return np.asarray(np.flatnonzero(self.energy[rows] > 0.0) + rows.start)

    def lit_as_said(self, path: Ints) -> Ints:
        """The rows of groups in the unit that was said that hold something which can be."""
        return np.flatnonzero((path == AS_SAID)[self.of_row] & (self.energy > 0.0) & (self.energy <= self.most))

    def finer(self, rows: Ints, others: Ints, *, known: bool = False) -> bool:
        """Are some rows written at least ten times as fine as others? ``known``: what is said if nobody can tell."""
        told = rounded_to(self.written[others]) if others.size else 0.0
        if told == 0.0:
            return not known
        return rounded_to(self.written[rows]) <= _FINER * told

    def cost(self, state: int) -> Floats:
        """(g,) how ill each group fits a unit; a group of noughts fits each."""
        energy, over = self.read(state)
        outliers = (over <= _OUTLIERS_SHARE * self.lit_count) | ((over == 1) & (self.lit_count >= _SINGLE_AMONG))
        with np.errstate(divide="ignore"):
            above = np.log10(energy / (OVER_CLEAR * (self.can_be if state == AS_SAID else self.clear)))
            below = _DULL_DECADES - np.log10(energy / self.usual)
        cost = np.where(outliers, 0.0, _CANNOT_BE) + np.where(above > 0.0, _TOO_MUCH + _BY_DECADE_MORE * above, 0.0)
        cost += np.where(energy > 0.0, np.clip(_BY_DECADE_LESS * below, 0.0, _MOST_FOR_LESS), 0.0)
        return np.where(self.lit_count > 0, cost, 0.0)

    def level(self, state: int) -> Floats:
        """(g,) energy over the season's in this unit."""
        return self.read(state)[0] / self.usual


def _likeliest(costs: Floats, joints: Joints) -> Ints:
    """(g,) the states whose costs and changes add up to the least, for costs (g, 3); ``joints`` after which groups."""
    best = [0.0, _BEGIN, _BEGIN]
    came: list[list[int]] = []
    for at, here in enumerate(costs.tolist()):
        pairs = joints.get(at - 1)
        if pairs is None:
            least = min(best)
            jump = best.index(least)
            came.append([k if best[k] <= least + _CHANGE else jump for k in range(3)])
            best = [min(best[k], least + _CHANGE) + here[k] for k in range(3)]
        else:
            ways = [[best[a] + (_JOINT if (a, b) in pairs else _CHANGE * (a != b)) for a in range(3)] for b in range(3)]
            came.append([way.index(min(way)) for way in ways])
            best = [min(way) + here[k] for k, way in enumerate(ways)]
    state = best.index(min(best))
    path = np.zeros(len(came), dtype=np.int64)
    for at in range(len(came) - 1, -1, -1):
        path[at] = state
        state = came[at][state]
    return path


def _runs(path: Ints) -> list[tuple[int, int]]:
    edges = np.flatnonzero(np.diff(path)) + 1
    return list(zip([0, *edges.tolist()], [*(edges - 1).tolist(), path.size - 1], strict=True))


def _close_short(groups: _Groups, path: Ints) -> None:
    """A day or two between two stretches of one unit are in it too, if written no finer: all but nothing came then."""
    for first, last in _runs(path)[1:-1]:
        around = path[first - 1]
        if path[first] != AS_SAID or last - first + 2 > _FEW_GROUPS or path[last + 1] != around:
            continue
        if around == A_THOUSANDTH and not groups.finer(groups.lit(first, last), groups.lit(first - 1, first - 1)):
            path[first : last + 1] = around


def _verdict(groups: _Groups, path: Ints, first: int, last: int) -> str:
    """Is a stretch in another unit, is it not, or is that open?"""
    if any(groups.joined(path, edge) for edge in (first, last + 1)):
        return _TAKEN
    state = int(path[first])
    energy, days = groups.read(state)[0][first : last + 1], groups.lit_count[first : last + 1] > 0
    count = int(np.count_nonzero(energy > 0.0))
    if not count:
        return _NOT_SO
    level = float(energy[days].sum() / groups.usual[first : last + 1][days].sum())
    lit = groups.lit(first, last)
    others = groups.lit_as_said(path)
    several = state == A_THOUSANDTH and count >= _FEW_GROUPS  # of days that cannot be as they stand
    plain = several or (state == TIMES_THOUSAND and groups.finer(lit, others, known=True))
    fits = level >= _LEAST_LEVEL and (plain or _fits(groups, path, first, last, level, few=count < _FEW_GROUPS))
    if state == A_THOUSANDTH:
        return _TAKEN if fits else _OPEN if count >= _FEW_GROUPS else _NOT_SO
    if not fits or _may_be_black(groups, path, (first, last), level, count):
        return _NOT_SO
    whole = not (path == AS_SAID).any()
    if lit.size >= _LEAST_LIT and float(np.median(groups.seconds[lit])) <= _FINE_S:
        return _by_shape(groups, path, lit, count, whole=whole)
    return _by_digits(groups, path, lit, count, whole=whole)


def _fits(groups: _Groups, path: Ints, first: int, last: int, level: float, *, few: bool) -> bool:
    """Is a stretch, read in its unit, such as its season and the days around it?"""
    least, most = _BESIDE_FEW if few else _BESIDE
    beside = _beside_the_others(groups, path, first, last, level)
    return beside is None or least <= beside <= most


def _may_be_black(groups: _Groups, path: Ints, run: tuple[int, int], level: float, count: int) -> bool:
    """May days at about a thousandth be what they say, black ones or days under snow?

    Days that are written finer than the others are in the other unit. Of those that are not: so many days of a bright
    season that lie just where a thousandth leaves them are in it, too; where days may be black it takes more of them.
    """
    first, last = run
    others, dark = groups.lit_as_said(path), bool(groups.dark[first : last + 1].any())
    if not others.size or groups.finer(groups.lit(first, last), others, known=dark):
        return False
    beside = _beside_the_others(groups, path, first, last, level)
    near = beside is None or _AS_OTHERS[0] <= beside <= _AS_OTHERS[1]
    return not near or (dark and count < _MANY_DARK_GROUPS)


def _beside_the_others(groups: _Groups, path: Ints, first: int, last: int, level: float) -> float | None:
    """The level of a stretch over the usual one of the days around it; None: none of these gave anything."""
    others = np.concatenate([np.arange(max(first - _NEAR_GROUPS, 0), first),
                             np.arange(last + 1, min(last + 1 + _NEAR_GROUPS, path.size))])  # fmt: skip
    near = np.choose(path, [groups.level(state) for state in range(3)])[others]
    near = near[near > _ALIVE_SHARE]
    return level / float(np.median(near)) if near.size else None


def _by_shape(groups: _Groups, path: Ints, lit: Ints, count: int, *, whole: bool) -> str:
    """Does the energy lie as the sun's does, at the hours at which it does on other days?"""
    if not whole and np.unique(groups.energy[lit]).size < _LEAST_DISTINCT:
        return _NOT_SO
    share, hour = best_half_day(groups.middle[lit], groups.energy[lit])
    if share < _SUN_SHARE:
        return _OPEN if share >= _OPEN_SHARE else _NOT_SO
    others = groups.lit_as_said(path)
    if others.size < _LEAST_LIT:
        return _TAKEN
    of_others = best_half_day(groups.middle[others], groups.energy[others])
    apart = abs((hour - of_others[1] + 12) % 24 - 12)
    if of_others[0] >= _SUN_SHARE and apart > _MOST_APART_H:
        return _NOT_SO
    # A day or two under snow may give a thousandth; written in another unit they would be written finer.
    return _TAKEN if count >= _FEW_GROUPS or groups.finer(lit, others) else _NOT_SO


def _by_digits(groups: _Groups, path: Ints, lit: Ints, count: int, *, whole: bool) -> str:
    """Of coarse rows, which show no sun: are they written finer than the others, or do several agree?"""
    here, others = groups.written[lit], groups.lit_as_said(path)
    if whole or groups.finer(lit, others, known=True):
        return _TAKEN
    least = _FEW_GROUPS - 1 if groups.finer(lit, others) else _FEW_GROUPS
    several = count >= least and np.unique(here).size >= least
    return _TAKEN if several and rounded_to(here) <= _FINER * float(np.median(here)) else _OPEN


def _within_days(groups: _Groups, settled: Ints, state: Ints) -> None:
    """Change ``state`` where the unit changes within a day: at the row that leaves its course smoothest."""
    for at in (np.flatnonzero(np.diff(settled)) + 1).tolist():
        before, after = int(settled[at - 1]), int(settled[at])
        if groups.joined(settled, at):
            continue
        # A day of both units is told by its larger values, which are those of the smaller factor; where these are few,
        # they are what cannot be in the larger one.
        if FACTORS[before] < FACTORS[after]:
            rows, beside = groups.rows(at - 1, at - 1), groups.rows(at, at)
            state[rows.start + _smoothest(groups, rows, before, after) : rows.stop] = after
            over = np.flatnonzero(groups.energy[beside] * FACTORS[after] > groups.most[beside])
            if over.size and over[-1] < _FEW_OVER * (beside.stop - beside.start):
                state[beside.start : beside.start + over[-1] + 1] = before
        else:
            rows, beside = groups.rows(at, at), groups.rows(at - 1, at - 1)
            state[rows.start : rows.start + _smoothest(groups, rows, before, after)] = before
            over = np.flatnonzero(groups.energy[beside] * FACTORS[before] > groups.most[beside])
            if over.size and over[0] > (1.0 - _FEW_OVER) * (beside.stop - beside.start):
                state[beside.start + over[0] : beside.stop] = after


def _smoothest(groups: _Groups, rows: slice, before: int, after: int) -> int:
    """How many of the rows of a day are in the unit ``before``, the others in ``after``."""
    own_first = FACTORS[before] < FACTORS[after]  # is the whole day's unit the earlier one?
    energy, floor = groups.energy[rows], _FLOOR_SHARE * groups.most[rows] + 1e-9
    none = energy.size if own_first else 0
    if energy.size < _LEAST_LIT:
        return none
    early, late = (np.log10(energy * FACTORS[one] + floor) for one in (before, after))
    rough_early = np.concatenate([[0.0, 0.0], np.cumsum(np.abs(np.diff(early)))])
    rough_late = np.concatenate([np.cumsum(np.abs(np.diff(late))[::-1])[::-1], [0.0, 0.0]])
    joint = np.concatenate([[0.0], np.abs(late[1:] - early[:-1]), [0.0]])
    rough = rough_early + joint + rough_late
    best = int(np.argmin(rough))
    return best if rough[none] - rough[best] > _SMOOTHER_DECADES else none
