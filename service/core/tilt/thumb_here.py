"""How far off are the rules of thumb at this place? And which of them may a schedule be held to?"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from service.core.model.place import Plane
from service.core.tilt.moving import Moves, along
from service.core.tilt.schedule import Piece
from service.core.tilt.sums import Sums, Together
from service.core.tilt.thumb import RuleOfThumb


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleHere:
    """A rule of thumb at this place: its energy, and how far that is below the best with as many planes a year.

    Of a rule of one tilt that is the best single plane, of one by season the best schedule; both where nothing binds
    the set. Negative: above.
    """

    rule: RuleOfThumb
    year_kwh: float
    off_share: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Thumbs:
    """The rules of a place and what their planes bring, the set moved together.

    ``first`` is the number of each rule's first plane.
    """

    rules: tuple[RuleOfThumb, ...]
    first: tuple[int, ...]
    planes: tuple[Plane, ...]
    sums: Sums

    @classmethod
    def of(cls, rules: Sequence[RuleOfThumb], together: Together, wanted: str | None = None) -> "Thumbs":
        """Each tilt of a rule, towards the equator; summed is all, or energy and what is wanted alone."""
        planes = [Plane(tilt_deg=tilt, azimuth_deg=rule.azimuth_deg) for rule in rules for _, tilt in rule.steps]
        first = [sum(len(rule.steps) for rule in rules[:at]) for at in range(len(rules))]
        return cls(rules=tuple(rules), first=tuple(first), planes=tuple(planes), sums=together.sums(planes, wanted))

    def pieces(self, at: int, after: int = 0) -> tuple[Piece, ...]:
        """The schedule of a rule, its planes numbered as here and ``after`` others."""
        steps = self.rules[at].steps
        return tuple(Piece(from_day=day, plane=after + self.first[at] + step) for step, (day, _) in enumerate(steps))

    def of_season(self) -> list[int]:
        """Which rules have several tilts."""
        return [at for at, rule in enumerate(self.rules) if len(rule.steps) > 1]

    def allowed(self, within: Callable[[Plane], bool], after: int) -> list[tuple[Piece, ...]]:
        """The schedules of the rules of season all of whose planes may be taken."""
        schedules = [self.pieces(at, after) for at in self.of_season()]
        return [one for one in schedules if all(within(self.planes[piece.plane - after]) for piece in one)]

    def here(self, free_kwh: float, free_by_kernel_kwh: float, moves: Moves | None) -> tuple[RuleHere, ...]:
        """Each rule against the best: a single plane of ``free_kwh`` or the best schedules of energy."""
        found = []
        for at, rule in enumerate(self.rules):
            kwh = along(self.pieces(at), self.sums.energy)
            ratio = kwh / free_by_kernel_kwh if free_by_kernel_kwh > 0 else 1.0
            best = 1.0
            if moves is not None and len(rule.steps) in moves.pieces and free_by_kernel_kwh > 0:
                best = along(moves.pieces[len(rule.steps)], moves.sums.energy) / free_by_kernel_kwh
            found.append(RuleHere(rule=rule, year_kwh=ratio * free_kwh, off_share=1.0 - ratio / best))
        return tuple(found)
