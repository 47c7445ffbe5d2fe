"""How is one question asked of strings beside many inputs, with what hangs on the strings alone at hand?"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

from service.core.compatibility.reach import SETTLED, Outcome, Reach, rating
from service.core.model.assumption import Assumptions
from service.core.model.facts import Input
from service.core.model.finding import Finding

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class InputLimits:
    """The limits of one input: as completed, and as read. ``index`` counts from 0.

    ``connector_make``: of the inverter's d.c. leads, None where nobody said.
    """

    index: int
    completed: Input
    assumptions: Assumptions
    connector_make: str | None = None
    _read: dict[str, Reach] = field(default_factory=dict)

    @property
    def pointer(self) -> str:
        """Pointer to the input."""
        return f"/inverter/inputs/{self.index}"

    def of(self, name: str) -> Reach:
        """A limit, known or assumed; read once."""
        found = self._read.get(name)
        if found is None:
            value = getattr(self.completed, name)
            found = self._read[name] = rating(self.assumptions, f"{self.pointer}/{name}", value)
        return found


@dataclass(frozen=True, slots=True)
class Question:
    """One question about certain strings, to be asked of any input.

    ``outcome`` is the rule: None where there is nothing to ask of such an input. ``told`` says that outcome with its
    figures and facts. So a pair costs its comparisons, and only what is told costs words.
    """

    outcome: Callable[[InputLimits], Outcome | None]
    told: Callable[[InputLimits, Outcome], Finding]

    def finding(self, limits: InputLimits) -> Finding | None:
        """The question asked and told."""
        outcome = self.outcome(limits)
        return None if outcome is None else self.told(limits, outcome)


def settled(finding: Finding) -> Question:
    """A question that no input's limits bear on, answered already."""
    same = finding.verdict == finding.likely
    outcome = SETTLED[finding.verdict] if same else Outcome(finding.verdict, finding.likely)
    return Question(lambda _: outcome, lambda _limits, _outcome: finding)


def when_needed(figure: Callable[[], T]) -> Callable[[], T]:
    """A figure that is computed when it is first asked for, and kept."""
    kept: list[T] = []

    def needed() -> T:
        if not kept:
            kept.append(figure())
        return kept[0]

    return needed


def printed(limit: Reach) -> float | None:
    """A limit to print: an assumed one is none."""
    return None if limit.missing else limit.value
