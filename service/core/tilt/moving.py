"""Is it worth the trouble to move the set through the year: which planes, from which days, for what gain?

The cut of the year (``schedule``) chooses among planes at hand, which lie some degrees apart. So the plane of each of
its pieces is looked for once more over the days of that piece: in the splines through the survey, then by a parabola
through the planes around. Then the year is cut anew over the planes found.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import radians, sin

import numpy as np

from service.core.model.hours import Floats
from service.core.model.place import Plane
from service.core.tilt.lattice import compass, steps_within
from service.core.tilt.schedule import DAYS, Piece, best_schedules, plane_by_day
from service.core.tilt.search import Surveyed
from service.core.tilt.sums import Sums, Together

# Below this a change of the plane is hardly worth the trouble: judgement, a few cents to two euros for each.
LEAST_KWH_A_CHANGE = 5.0
# A change that brings less than this share of the year is left out, as long as all that is left out stays below the
# second: nobody moves a panel for a tenth of a kWh.
_TRIFLE_SHARE, _TRIFLES_SHARE = 1e-4, 2e-4
_FINE_TILT_DEG, _FINE_AZIMUTH_DEG = 2.0, 4.0
# The planes beside one, as an angle between their normals; in azimuth at most so many times as far.
_CROSS_DEG, _LEAST_SINE = 4.0, 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """From this day of the year, counted from 0, the plane of the first moving array."""

    from_day: int
    plane: Plane


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """The best so many planes a year against the best single one.

    ``gain_share`` is that of the objective. ``gain_money`` is None where no price is known. ``verdict`` is
    nothing_gained, hardly_worth_moving or worth_moving: each change brings at least ``LEAST_KWH_A_CHANGE`` of what is
    wanted, and money worth as many kWh at the price of the hours; of money alone where money is wanted.
    """

    changes_per_year: int
    steps: tuple[Step, ...]
    gain_share: float
    gain_kwh: float
    gain_self_used_kwh: float
    gain_money: float | None
    verdict: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Moves:
    """Planes, what each brings by day, and of them the best schedule of each number; plane 0 is the best single one."""

    planes: tuple[Plane, ...]
    sums: Sums
    pieces: Mapping[int, tuple[Piece, ...]]

    def told(self, together: Together) -> "Moves":
        """The planes of the schedules alone, and all sums of these."""
        used = sorted({0, *(piece.plane for pieces in self.pieces.values() for piece in pieces)})
        planes = tuple(self.planes[at] for at in used)
        number = {at: new for new, at in enumerate(used)}
        pieces = {
            count: tuple(replace(one, plane=number[one.plane]) for one in ones) for count, ones in self.pieces.items()
        }
        return Moves(planes=planes, sums=together.sums(planes), pieces=pieces)

    def gain(self, count: int, daily: Floats | None) -> float:
        """What a schedule brings more than the best single plane, of (m, 365) by day; nought of None."""
        return 0.0 if daily is None else along(self.pieces[count], daily) - float(daily[0].sum())


def along(pieces: Sequence[Piece], daily: Floats) -> float:
    """What the pieces bring, of (m, 365) by day."""
    return float(daily[plane_by_day(pieces), np.arange(daily.shape[1])].sum())


def best_moves(
    together: Together,
    objective: str,
    at_hand: tuple[Sequence[Plane], Sums],
    changes: Sequence[int],
    survey: Surveyed | None,
    known: Sequence[tuple[Piece, ...]] = (),
) -> Moves:
    """The best schedules of so many planes a year.

    Args:
        together: what is moved.
        objective: what is wanted.
        at_hand: planes and their sums, the best single one first.
        changes: how many planes a year, each 2, 4 or 12.
        survey: what was computed within the bounds, where other planes than those at hand may be taken.
        known: schedules that the best of as many planes must not fall behind, of planes at hand.

    Returns:
        Of more planes never less than of fewer, of none less than the best single plane.
    """
    hand = _Hand(list(at_hand[0]), at_hand[1], objective)
    counts = sorted(set(changes))
    found = dict(best_schedules(hand.wanted, counts)) if counts else {}
    for pieces in known:
        count = len(pieces)
        if count in found and along(pieces, hand.wanted) > along(found[count], hand.wanted):
            found[count] = pieces
    if survey is not None and found and hand.wanted[0].sum() > 0:
        _sharpen(together, survey, hand, found)
    return Moves(planes=tuple(hand.planes), sums=hand.sums, pieces=_never_less(found, hand.wanted))


@dataclass(slots=True, eq=False)
class _Hand:
    """The planes at hand and their sums; more may join."""

    planes: list[Plane]
    sums: Sums
    objective: str

    @property
    def wanted(self) -> Floats:
        """(m, 365) of what is wanted."""
        return self.sums.of(self.objective)

    def take(self, together: Together, planes: Sequence[Plane]) -> None:
        """Compute those that are not at hand yet."""
        known = set(self.planes)
        new = [one for one in dict.fromkeys(planes) if one not in known]
        if new:
            self.planes += new
            self.sums = self.sums.with_more(together.sums(new, self.objective))


def _sharpen(together: Together, survey: Surveyed, hand: _Hand, found: dict[int, tuple[Piece, ...]]) -> None:
    """Better planes for the pieces of each schedule, and the year cut anew over these."""
    sharper = _Sharper.of(together, hand.objective, survey)
    hand.take(together, sharper.tops(_days_of_all(found)))
    _cut_again(hand, found)
    days = _days_of_all(found)
    tops = np.argmax(hand.wanted @ days, axis=0).tolist()
    crosses = [sharper.cross(hand.planes[top]) for top in tops]
    hand.take(together, [plane for cross in crosses for plane in cross])
    by_days = hand.wanted @ days
    number = {plane: at for at, plane in enumerate(hand.planes)}
    vertices = []
    for at, (top, cross) in enumerate(zip(tops, crosses, strict=True)):
        values = by_days[[top, *(number[plane] for plane in cross)], at]
        vertices.append(sharper.vertex(hand.planes[top], cross, values))
    hand.take(together, vertices)
    _cut_again(hand, found)


def _cut_again(hand: _Hand, found: dict[int, tuple[Piece, ...]]) -> None:
    """The year cut anew over the best planes of each piece; a schedule stays where that brings no more."""
    wanted = hand.wanted
    best = np.argmax(wanted @ _days_of_all(found), axis=0).tolist()
    used = [piece.plane for pieces in found.values() for piece in pieces]
    kept = sorted({0, *best, *used})
    for count, pieces in best_schedules(wanted[kept], list(found)).items():
        again = tuple(Piece(from_day=piece.from_day, plane=kept[piece.plane]) for piece in pieces)
        if along(again, wanted) > along(found[count], wanted):
            found[count] = again


def _days_of_all(found: Mapping[int, Sequence[Piece]]) -> Floats:
    """(365, p): 1 on the days of each piece of each schedule, every one once."""
    columns = {days.tobytes(): days for pieces in found.values() for days in _days_of(pieces)}
    return np.stack(list(columns.values()), axis=1)


def schedules_of(moves: Moves, objective: str, kwh_price: float | None) -> tuple[Schedule, ...]:
    """Each schedule with its gain and whether that is worth the trouble.

    Args:
        moves: the best schedules.
        objective: what was wanted.
        kwh_price: what a kWh that is used at home is worth on average; None where no price is known.
    """
    return tuple(_schedule(moves, count, objective, kwh_price) for count in sorted(moves.pieces))


def _schedule(moves: Moves, count: int, objective: str, kwh_price: float | None) -> Schedule:
    pieces, sums = moves.pieces[count], moves.sums
    base = float(sums.of(objective)[0].sum())
    gains = {
        "energy": moves.gain(count, sums.energy),
        "self_used": moves.gain(count, sums.self_used),
        "money": None if sums.money is None else moves.gain(count, sums.money),
    }
    wanted = gains[objective] or 0.0
    return Schedule(
        changes_per_year=count,
        steps=tuple(Step(from_day=piece.from_day, plane=moves.planes[piece.plane]) for piece in pieces),
        gain_share=max(wanted, 0.0) / base if base > 0 else 0.0,
        gain_kwh=gains["energy"] or 0.0,
        gain_self_used_kwh=gains["self_used"] or 0.0,
        gain_money=gains["money"],
        verdict="nothing_gained" if len(pieces) == 1 else _verdict(gains, objective, len(pieces), kwh_price),
    )


def _verdict(gains: Mapping[str, float | None], objective: str, changes: int, kwh_price: float | None) -> str:
    enough = objective == "money" or (gains[objective] or 0.0) >= LEAST_KWH_A_CHANGE * changes
    money = gains["money"]
    if money is not None and kwh_price is not None:
        enough = enough and money > 0.0 and money >= LEAST_KWH_A_CHANGE * kwh_price * changes
    return "worth_moving" if enough else "hardly_worth_moving"


def _never_less(found: Mapping[int, tuple[Piece, ...]], wanted: Floats) -> dict[int, tuple[Piece, ...]]:
    """Trifles left out; a schedule that then brings no more than that of fewer planes gives way to it."""
    reached = float(wanted[0].sum())
    pieces: tuple[Piece, ...] = (Piece(from_day=0, plane=0),)
    kept = {}
    for count in sorted(found):
        tidy = _without_trifles(found[count], wanted)
        value = along(tidy, wanted)
        if value > reached:
            reached, pieces = value, tidy
        kept[count] = pieces
    return kept


def _without_trifles(pieces: tuple[Piece, ...], wanted: Floats) -> tuple[Piece, ...]:
    """The schedule without the changes that bring next to nothing, the least first."""
    full = along(pieces, wanted)
    value = full
    while len(pieces) > 1:
        fewer = [_joined(pieces, at) for at in range(len(pieces))]
        values = [along(one, wanted) for one in fewer]
        top = int(np.argmax(values))
        if value - values[top] > _TRIFLE_SHARE * abs(full) or full - values[top] > _TRIFLES_SHARE * abs(full):
            break
        pieces, value = fewer[top], values[top]
    return pieces


def _joined(pieces: tuple[Piece, ...], at: int) -> tuple[Piece, ...]:
    """Without one piece: the one before it goes on, and neighbours of one plane are one."""
    left = [*pieces[:at], *pieces[at + 1 :]]
    kept = [one for number, one in enumerate(left) if one.plane != left[number - 1].plane]
    return tuple(kept) or (replace(left[0], from_day=0),)


@dataclass(frozen=True, slots=True, eq=False)
class _Sharper:
    """Looks for the plane of each piece beyond the planes at hand.

    Attributes:
        together, objective, survey: what is moved, what is wanted, what was computed within the bounds.
        tilts, turns: the degrees at which the survey's splines are read.
    """

    together: Together
    objective: str
    survey: Surveyed
    tilts: Floats
    turns: Floats

    @classmethod
    def of(cls, together: Together, objective: str, survey: Surveyed) -> "_Sharper":
        bounds = survey.bounds
        return cls(
            together,
            objective,
            survey,
            steps_within(bounds.low_tilt_deg, bounds.high_tilt_deg, _FINE_TILT_DEG),
            steps_within(0.0, bounds.azimuth_span_deg(), _FINE_AZIMUTH_DEG),
        )

    def tops(self, days: Floats) -> list[Plane]:
        """Where the survey's splines have the most over each piece's days, (365, p)."""
        read = self.survey.lattice.read(self.survey.sums.of(self.objective) @ days, self.tilts, self.turns)
        at = np.argmax(read.reshape(-1, days.shape[1]), axis=0)
        tilt, turn = np.divmod(at, self.turns.size)
        return [
            self._plane(float(self.tilts[i]), float(self.turns[j]))
            for i, j in zip(tilt.tolist(), turn.tolist(), strict=True)
        ]

    def cross(self, plane: Plane) -> list[Plane]:
        """The planes beside one: flatter, steeper, to the left, to the right, within bounds."""
        turned, aside = self._turned(plane), _CROSS_DEG / max(sin(radians(plane.tilt_deg)), _LEAST_SINE)
        return [
            self._plane(plane.tilt_deg - _CROSS_DEG, turned),
            self._plane(plane.tilt_deg + _CROSS_DEG, turned),
            self._plane(plane.tilt_deg, turned - aside),
            self._plane(plane.tilt_deg, turned + aside),
        ]

    def vertex(self, plane: Plane, cross: Sequence[Plane], values: Floats) -> Plane:
        """The top of the parabolas through a plane and its cross; ``values`` of the plane, then of the cross."""
        here = self._turned(plane)
        tilts = [one.tilt_deg - plane.tilt_deg for one in cross[:2]]
        turns = [(self._turned(one) - here + 180.0) % 360.0 - 180.0 for one in cross[2:]]
        up = _parabola_top(tilts[0], tilts[1], values[1] - values[0], values[2] - values[0])
        right = _parabola_top(turns[0], turns[1], values[3] - values[0], values[4] - values[0])
        return self._plane(plane.tilt_deg + up, here + right)

    def _turned(self, plane: Plane) -> float:
        return (plane.azimuth_deg - self.survey.bounds.low_azimuth_deg) % 360.0

    def _plane(self, tilt_deg: float, turned_deg: float) -> Plane:
        """The nearest plane within bounds, in whole degrees where they leave it."""
        bounds = self.survey.bounds
        span = bounds.azimuth_span_deg()
        turned = float(round(turned_deg)) if span == 360.0 else min(max(round(turned_deg), 0.0), span)
        return Plane(
            tilt_deg=min(max(float(round(tilt_deg)), bounds.low_tilt_deg), bounds.high_tilt_deg),
            azimuth_deg=compass((bounds.low_azimuth_deg + turned) % 360.0),
        )


def _parabola_top(left: float, right: float, at_left: float, at_right: float) -> float:
    """Where a parabola through (left, at_left), (0, 0) and (right, at_right) is highest between left and right."""
    if not left < 0.0 < right:  # at a bound there is one side only
        end, at_end = (right, at_right) if left >= 0.0 else (left, at_left)
        return end if at_end > 0.0 else 0.0
    bend = (at_right / right - at_left / left) / (right - left)
    slope = at_right / right - bend * right
    if bend >= 0.0:
        return left if at_left > max(at_right, 0.0) else right if at_right > 0.0 else 0.0
    return min(max(-slope / (2.0 * bend), left), right)


def _days_of(pieces: Sequence[Piece]) -> Iterator[Floats]:
    """(365,) for each piece: 1 on its days."""
    if len(pieces) == 1:
        yield np.ones(DAYS)
        return
    for at, piece in enumerate(pieces):
        days = np.arange(DAYS)
        end = pieces[(at + 1) % len(pieces)].from_day
        yield ((days - piece.from_day) % DAYS < (end - piece.from_day) % DAYS).astype(np.float64)
