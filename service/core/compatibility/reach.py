"""Between which values can a rating lie, and what can be proven about it?

A value that was given lies where it is. A value that was assumed lies anywhere in its class's range, or nowhere known.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

from service.core.model.assumption import Assumptions
from service.core.model.finding import WORST_FIRST, Verdict


@dataclass(frozen=True, slots=True)
class Reach:
    """A figure with the range in which it may lie, and the pointers of the ratings that nobody gave.

    ``low`` and ``high`` are None where no range is known; ``value`` is None where not even a guess is.
    """

    low: float | None
    value: float | None
    high: float | None
    missing: tuple[str, ...] = ()

    @property
    def highest(self) -> float | None:
        """The most it may plausibly be; the guess itself where no range is known."""
        return self.value if self.high is None else self.high

    @property
    def lowest(self) -> float | None:
        """The least it may plausibly be; the guess itself where no range is known."""
        return self.value if self.low is None else self.low


@dataclass(frozen=True, slots=True)
class Outcome:
    """A verdict, the verdict with the class's worst value, and the ratings that are missing for more."""

    verdict: Verdict
    likely: Verdict
    missing: tuple[str, ...] = ()


# Of known figures: each verdict is its own worst case.
SETTLED = {verdict: Outcome(verdict, verdict) for verdict in Verdict}


def exactly(value: float) -> Reach:
    """A figure that is known."""
    return Reach(value, value, value)


def rating(assumptions: Assumptions, pointer: str, value: float | None) -> Reach:
    """A rating of the completed request: known, or assumed with its class's range, or missing altogether."""
    if value is not None and not assumptions.assumed(pointer):
        return exactly(value)
    found = assumptions.by_pointer.get(pointer)
    if found is None:
        return Reach(None, value, None, (pointer,))
    return Reach(found.low, value, found.high, (pointer,))


def combined(formula: Callable[..., float], *parts: Reach) -> Reach:
    """A figure computed from others by a formula that is monotonic in each: its range is at the corners."""
    middles = [part.value for part in parts]
    value = None if None in middles else formula(*middles)
    missing: tuple[str, ...] = ()
    for part in parts:
        if part.missing:
            missing += part.missing
    if not missing:
        return Reach(value, value, value)
    missing = tuple(dict.fromkeys(missing))
    if any(part.low is None or part.high is None for part in parts):
        return Reach(None, value, None, missing)
    corners = [formula(*corner) for corner in product(*({part.low, part.high} for part in parts))]
    return Reach(min(corners), value, max(corners), missing)


def at_most(measured: Reach, limit: Reach, bad: Verdict = Verdict.DOES_NOT_FIT) -> Outcome:
    """Is the measured figure at or under the limit? ``bad`` is the verdict where it is not.

    With a rating missing the verdict is ``not_known``, save where even the kindest values fail: that refusal is proven.
    """
    if not (measured.missing or limit.missing or measured.value is None or limit.value is None):
        return SETTLED[Verdict.FITS if measured.value <= limit.value else bad]
    missing = tuple(dict.fromkeys(measured.missing + limit.missing))
    if measured.low is not None and limit.high is not None and measured.low > limit.high:
        return Outcome(bad if bad == Verdict.DOES_NOT_FIT else Verdict.NOT_KNOWN, bad, missing)
    most, least = measured.highest, limit.lowest
    if most is None or least is None:
        return Outcome(Verdict.NOT_KNOWN, Verdict.NOT_KNOWN, missing)
    return Outcome(Verdict.NOT_KNOWN, Verdict.FITS if most <= least else bad, missing)


def at_least(measured: Reach, limit: Reach, bad: Verdict = Verdict.DOES_NOT_FIT) -> Outcome:
    """Is the measured figure at or above the limit? As ``at_most``, the other way round."""
    if not (measured.missing or limit.missing or measured.value is None or limit.value is None):
        return SETTLED[Verdict.FITS if measured.value >= limit.value else bad]
    return at_most(_turned(measured), _turned(limit), bad)


def worse(one: Outcome, other: Outcome) -> Outcome:
    """Of two outcomes the one that counts, by the precedence of verdicts; of equal ones the first.

    >>> worse(Outcome(Verdict.FITS, Verdict.FITS), Outcome(Verdict.NOT_KNOWN, Verdict.FITS)).verdict
    <Verdict.NOT_KNOWN: 'not_known'>
    """
    return min(one, other, key=lambda outcome: WORST_FIRST.index(outcome.verdict))


def _turned(reach: Reach) -> Reach:
    return Reach(_negative(reach.high), _negative(reach.value), _negative(reach.low), reach.missing)


def _negative(value: float | None) -> float | None:
    return None if value is None else -value
