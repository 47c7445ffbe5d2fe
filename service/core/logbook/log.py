"""How do the rows of a log become one log: of each input or of the set, in order, with what was odd about them?"""

from collections.abc import Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from service.core.logbook.counter import counter_pieces, in_order
from service.core.logbook.inputs import InputShares, courses_of, summed_inputs
from service.core.logbook.limits import Ceiling
from service.core.logbook.pieces import LogNote, Pieces
from service.core.logbook.rows import Rows, interval_pieces, ordered
from service.core.logbook.zones import Zone

# A log whose energy lies by more than this in hours without sun has a wrong clock.
_MOST_BY_NIGHT = 0.02


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Log:
    """A log in order: of the set, and of each of its inputs where those were logged apart.

    ``shares``: what the inputs were to give; None: not known, or all were logged as one.
    """

    total: Pieces
    inputs: tuple[tuple[int, Pieces], ...]
    notes: tuple[LogNote, ...]
    shares: InputShares | None = None


def log_of(
    parts: Sequence[tuple[int | None, Rows]], ceilings: Sequence[Ceiling], zone: Zone,
    shares: InputShares | None = None,
) -> Log:  # fmt: skip
    """Put rows in order and make pieces of them.

    Args:
        parts: rows of the set (input None, alone), or of each input with its number.
        ceilings: of each part, what it can give.
        zone: of the site.
        shares: what each input was to give, where they were logged apart.
    """
    made, notes = [], []
    for (_, rows), ceiling in zip(parts, ceilings, strict=True):
        kept, said = ordered(rows)
        read = counter_pieces if kept.kind == "counter" else interval_pieces
        pieces, more = read(kept, ceiling, zone) if kept.at_s.size else (_nothing(kept.kind), ())
        made.append(in_order(pieces))
        notes += [*said, *more]
    numbers = [number for number, _ in parts]
    if numbers == [None]:
        return Log(total=made[0], inputs=(), notes=tuple(notes))
    by_input = tuple((number or 0, pieces) for number, pieces in zip(numbers, made, strict=True))
    total = summed_inputs(by_input, courses_of(by_input, shares))
    return Log(total=total, inputs=by_input, notes=_joined(notes), shares=shares)


def _nothing(kind: str) -> Pieces:
    none = np.empty(0, dtype=np.int64)
    return Pieces(
        begin_s=none, end_s=none, energy_wh=np.empty(0), at_least=np.empty(0, dtype=np.bool_), resolution_wh=0.0,
        step_s=3600, running_sum=kind == "counter",
    )  # fmt: skip


def _joined(notes: Sequence[LogNote]) -> tuple[LogNote, ...]:
    """Notes of several inputs: those of one code together."""
    found: dict[str, LogNote] = {}
    for note in notes:
        before = found.get(note.code)
        count = note.count + (before.count if before else 0)
        facts = before.facts if before else note.facts
        found[note.code] = LogNote(code=note.code, count=count, facts=MappingProxyType(dict(facts)))
    return tuple(found.values())
