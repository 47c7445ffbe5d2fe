"""Which energy fell into which stretch of time, as far as the rows tell?"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

import numpy as np

from service.core.model.finding import Fact
from service.core.model.hours import Bools, Floats, Ints

_WHOLE_SHARE = 0.99


@dataclass(frozen=True, slots=True, kw_only=True)
class LogNote:
    """Something about the rows that a reader should know: a code of the vocabulary, how many rows, the figures."""

    code: str
    count: int
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """Stretches of time with their energy, one after the other; arrays (n,), Unix seconds and Wh.

    Attributes:
        begin_s, end_s: a piece ends no later than the next one begins; what lies between was not logged.
        energy_wh: >= 0.
        at_least: is it a lower bound only, as the first reading after a counter was set back?
        resolution_wh: what readings are rounded to, as far as they tell; 0 where they do not.
        step_s: how far readings usually lie apart.
        running_sum: do the pieces come from a counter, so that one that spans a gap holds the gap's energy?
        share: (n,) what part of the set's expected energy stems from the inputs that a piece knows; None: all of it.
    """

    begin_s: Ints
    end_s: Ints
    energy_wh: Floats
    at_least: Bools
    resolution_wh: float
    step_s: int
    running_sum: bool
    share: Floats | None = None

    def part(self, keep: Bools) -> "Pieces":
        """Some of the pieces."""
        return Pieces(
            begin_s=self.begin_s[keep],
            end_s=self.end_s[keep],
            energy_wh=self.energy_wh[keep],
            at_least=self.at_least[keep],
            resolution_wh=self.resolution_wh,
            step_s=self.step_s,
            running_sum=self.running_sum,
            share=None if self.share is None else self.share[keep],
        )

    def expected_wh(self, course: "Course") -> Floats:
        """(n,) what the inputs that a piece knows were to give in it, by the course of the whole set."""
        whole = course.between(self.begin_s, self.end_s)
        return whole if self.share is None else whole * self.share

    @property
    def whole(self) -> Bools:
        """(n,) which pieces know all inputs that give anything."""
        if self.share is None:
            return np.ones(self.begin_s.size, dtype=np.bool_)
        return np.asarray(self.share >= _WHOLE_SHARE)

    @property
    def seconds(self) -> Ints:
        """How long each piece is."""
        return self.end_s - self.begin_s


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """A sum that grows over time: ``total`` at ``at_s``, straight in between, flat before and after. Arrays (m,).

    ``step_s``: where the moments are evenly apart, else 0.
    """

    at_s: Ints
    total: Floats
    step_s: int = 0

    def at(self, moments_s: Ints) -> Floats:
        """The sum up to each moment, (n,)."""
        if not self.step_s:
            return np.asarray(np.interp(moments_s, self.at_s, self.total))
        last = self.total.size - 1
        place = np.clip((moments_s - self.at_s[0]) / self.step_s, 0.0, last)
        before = np.minimum(place.astype(np.int64), max(last - 1, 0))
        low = self.total[before]
        return np.asarray(low + (place - before) * (self.total[np.minimum(before + 1, last)] - low))

    def between(self, begin_s: Ints, end_s: Ints) -> Floats:
        """What is added from ``begin_s`` to ``end_s``, (n,)."""
        if end_s.size > 1 and np.array_equal(begin_s[1:], end_s[:-1]):  # one after the other: half the work
            return np.diff(self.at(np.concatenate([begin_s[:1], end_s])))
        return self.at(end_s) - self.at(begin_s)

    @classmethod
    def of_pieces(cls, pieces: Pieces, amounts: Floats) -> "Course":
        """Of amounts that fall evenly within their pieces."""
        at = np.empty(2 * amounts.size, dtype=np.int64)
        at[0::2], at[1::2] = pieces.begin_s, pieces.end_s
        total = np.empty(2 * amounts.size)
        total[1::2] = np.cumsum(amounts)
        total[0::2] = total[1::2] - amounts
        return cls(at, total)

    @classmethod
    def of_steps(cls, first_s: int, step_s: int, amounts: Floats) -> "Course":
        """Of even steps from ``first_s`` on."""
        sums = np.concatenate([[0.0], np.cumsum(amounts)])
        return cls(first_s + step_s * np.arange(sums.size), sums, step_s)
