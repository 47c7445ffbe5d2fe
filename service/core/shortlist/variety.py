"""Which of many sets are told of, so that no advert fills the list while others do nearly as well?

Who rings up and hears "sold" should have another row to go on with. So among sets that do nearly as well as the best
each advert of panels gets one row and each of an inverter up to a third of them; then panels up to a third, then both
up to two thirds, at last of any set that pays; what is left over is filled by order alone. In a turn the best come
first: a set gives way only to better ones that have the row of its panels, or all rows of its inverter. A cheaper copy
of an advert never ranks lower: each set with the copy stands before the same set with the other, and what keeps the
former out in a turn keeps the latter out too.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from service.core.shortlist.candidate import Candidate
from service.core.shortlist.order import LIKELY_DOES_NOT_FIT
from service.core.shortlist.wish import NEVER

# So many times as long or as dear, or the value shared by it. Judgement.
NEARLY = 1.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The sets that were taken, in no order, and those that stand before the last of them and gave way to others."""

    sets: tuple[Candidate, ...]
    gave_way: tuple[Candidate, ...]


@dataclass(frozen=True, slots=True)
class _Turn:
    """How many rows an advert of panels, and one of an inverter alone, may have, and among which sets, by number."""

    panels: int
    inverter: int
    able: Sequence[int]

    def admits(self, one: Candidate, rows: Counter[str]) -> bool:
        """May this set have a row beside those that its adverts have?"""
        alone = one.inverter.advert if one.inverter.panel is None else None
        return all(rows[name] < (self.inverter if name == alone else self.panels) for name in one.adverts)


def most_rows(limit: int) -> int:
    """How many rows an advert gets where others do nearly as well.

    >>> most_rows(10), most_rows(2)
    (3, 1)
    """
    return max(limit // 3, 1)


def rows_at_most(limit: int) -> int:
    """How many rows an advert gets while any other set pays.

    >>> rows_at_most(10), rows_at_most(1)
    (6, 1)
    """
    return min(2 * most_rows(limit), limit)


def chosen(candidates: Sequence[Candidate], limit: int, looks: int, counts: Callable[[Candidate], bool]) -> Chosen:
    """Choose among candidates.

    Args:
        candidates: in their order.
        limit: so many are wanted.
        looks: at so many at most ``counts`` looks.
        counts: looks closer; does the set count, or was it refused or told of apart?
    """
    taken: list[int] = []
    looked: set[int] = set()
    rows: Counter[str] = Counter()
    for turn in _turns(candidates, limit):
        for at in turn.able:
            one = candidates[at]
            if len(taken) >= limit or len(looked) >= looks:
                break
            if at not in looked and turn.admits(one, rows):
                looked.add(at)
                if counts(one):
                    taken.append(at)
                    rows.update(one.adverts)
    before = range(max(taken, default=0))
    return Chosen(
        sets=tuple(candidates[at] for at in taken),
        gave_way=tuple(candidates[at] for at in before if at not in looked),
    )


def _turns(candidates: Sequence[Candidate], limit: int) -> Iterator[_Turn]:
    if not candidates:
        return
    best, few = candidates[0], most_rows(limit)
    far = best.rough * NEARLY if best.rough >= 0.0 else best.rough / NEARLY
    row, fit = best.behind, max(best.fit, LIKELY_DOES_NOT_FIT)
    nearly = [at for at, one in enumerate(candidates) if one.rough <= far and one.behind == row]
    pays = [at for at, one in enumerate(candidates) if one.rough < NEVER and one.fit <= fit]
    for panels in (*range(1, few + 1), 2 * few):
        yield _Turn(panels, max(panels, few), nearly)
    yield _Turn(2 * few, 2 * few, pays)
    yield _Turn(limit, limit, range(len(candidates)))
