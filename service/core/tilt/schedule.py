"""Which planes through the year, and on which days is it worth to change from one to the next?

What a plane brings is known day by day, so that a schedule is a cut of the year's circle into pieces, each with the
plane that brings most in it. The cut is exact over change days every fifth day and the planes at hand: the best of two
pieces in a row, then of two such pairs, and so on. Afterwards each change moves to its best single day.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from service.core.model.hours import Floats, Ints

_STEP_DAYS = 5
DAYS = 365
_PLACES = DAYS // _STEP_DAYS


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """From this day of the year, counted from 0, the plane of that number."""

    from_day: int
    plane: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Cut:
    """The best value of so many pieces by start (places,) and length (places + 1,), and what it is joined of."""

    value: Floats
    left: "_Cut | None"
    right: "_Cut | None"

    def ends(self, start: int, length: int) -> list[tuple[int, int]]:
        """The pieces as start and length, empty ones left out."""
        if self.left is None or self.right is None:
            return [(start, length)] if length else []
        first = np.arange(length + 1)
        both = self.left.value[start, first] + self.right.value[(start + first) % _PLACES, length - first]
        join = int(np.argmax(both))
        return [*self.left.ends(start, join), *self.right.ends((start + join) % _PLACES, length - join)]


def best_schedules(daily: Floats, changes: Sequence[int]) -> Mapping[int, tuple[Piece, ...]]:
    """The best schedule for each number of planes a year.

    Args:
        daily: (m, 365) what each of m planes brings on each day.
        changes: how many planes a year, each 1, 2, 4 or 12.

    Returns:
        The pieces in the order of the year, neighbours of one plane joined: fewer than asked for where more bring
        nothing. Of 2 pieces never less than of 1, of 4 never less than of 2, of 12 never less than of 4.
    """
    summed = np.zeros((len(daily), 2 * DAYS + 1))
    np.cumsum(np.hstack((daily, daily)), axis=1, out=summed[:, 1:])
    one = _pieces(np.ascontiguousarray(summed[:, ::_STEP_DAYS]))
    two = _joined(one, one) if any(count > 2 for count in changes) else _joined_all_around(one, one)
    cuts = {1: one, 2: two}
    if any(count > 2 for count in changes):
        cuts[4] = _joined(two, two) if 12 in changes else _joined_all_around(two, two)
    if 12 in changes:
        cuts[12] = _joined_all_around(_joined(cuts[4], cuts[4]), cuts[4])
    return MappingProxyType({count: _read(cuts[count], summed) for count in changes})


def plane_by_day(pieces: Sequence[Piece]) -> Ints:
    """(365,) the number of the plane on each day."""
    planes = np.full(DAYS, pieces[-1].plane)
    for piece, following in zip(pieces, [*pieces[1:], None], strict=True):
        planes[piece.from_day : DAYS if following is None else following.from_day] = piece.plane
    return planes


def _pieces(summed: Floats) -> _Cut:
    """One piece from each start over each length, with its best plane."""
    value = np.zeros((_PLACES, _PLACES + 1))
    begin, brought = summed[:, :_PLACES], np.empty((len(summed), _PLACES))
    for length in range(1, _PLACES + 1):
        np.subtract(summed[:, length : length + _PLACES], begin, out=brought)
        np.max(brought, axis=0, out=value[:, length])
    return _Cut(value=value, left=None, right=None)


def _joined(left: _Cut, right: _Cut) -> _Cut:
    """Pieces of one after pieces of the other; either may be empty."""
    value = np.full((_PLACES, _PLACES + 1), -np.inf)
    around = np.vstack((right.value, right.value))
    for first in range(_PLACES + 1):
        both = around[first : first + _PLACES, : _PLACES + 1 - first] + left.value[:, first, None]
        np.maximum(value[:, first:], both, out=value[:, first:])
    return _Cut(value=value, left=left, right=right)


def _joined_all_around(left: _Cut, right: _Cut) -> _Cut:
    """The same over the whole circle alone, where nothing else is joined of it."""
    value = np.full((_PLACES, _PLACES + 1), -np.inf)
    first = np.arange(_PLACES + 1)
    meets = (np.arange(_PLACES)[:, None] + first) % _PLACES
    value[:, _PLACES] = (left.value + right.value[meets, _PLACES - first]).max(axis=1)
    return _Cut(value=value, left=left, right=right)


def _read(cut: _Cut, summed: Floats) -> tuple[Piece, ...]:
    start = int(np.argmax(cut.value[:, _PLACES]))
    pieces = []
    for begin, length in cut.ends(start, _PLACES):
        first = begin * _STEP_DAYS
        plane = int(np.argmax(summed[:, first + length * _STEP_DAYS] - summed[:, first]))
        pieces.append(Piece(from_day=first, plane=plane))
    return _to_the_day(_merged(pieces), summed)


def _merged(pieces: Sequence[Piece]) -> list[Piece]:
    """In the order of the year, a piece with the plane of the one before it left out."""
    ordered = sorted(pieces, key=lambda piece: piece.from_day)
    kept = [piece for at, piece in enumerate(ordered) if piece.plane != ordered[at - 1].plane]
    return kept or [Piece(from_day=0, plane=ordered[0].plane)]


def _to_the_day(pieces: list[Piece], summed: Floats) -> tuple[Piece, ...]:
    """Each change on its best day, at most one step off; so it never passes its neighbour."""
    if len(pieces) == 1:
        return tuple(pieces)
    moved = []
    for at, piece in enumerate(pieces):
        before = pieces[at - 1].plane
        days = np.arange(piece.from_day - _STEP_DAYS // 2, piece.from_day + _STEP_DAYS // 2 + 1) % DAYS
        gained = summed[before, days] - summed[piece.plane, days]  # up to that day the old plane, then the new one
        wrapped = days < piece.from_day - _STEP_DAYS
        gained = gained + wrapped * (summed[before, DAYS] - summed[piece.plane, DAYS])
        wrapped = days > piece.from_day + _STEP_DAYS
        gained = gained - wrapped * (summed[before, DAYS] - summed[piece.plane, DAYS])
        moved.append(Piece(from_day=int(days[int(np.argmax(gained))]), plane=piece.plane))
    return tuple(sorted(moved, key=lambda piece: piece.from_day))
