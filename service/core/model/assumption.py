"""What did the caller not say, what was taken instead, why, and how far could the truth lie from it?"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

Json = str | float | int | bool | None | list["Json"] | dict[str, "Json"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """A value that the caller did not give, with its reason (``code``), source and plausible range.

    ``pointer`` (RFC 6901) resolves in the completed request. ``low`` and ``high`` bound a number where a class
    is known to spread (about 95 % of cases), else None. ``less_share``, ``more_share``: how much less and how much
    more of the year's light the least and the most happy of its common values bring, where the place's own was asked.
    """

    pointer: str
    value: Json
    code: str
    source: str
    low: float | None = None
    high: float | None = None
    less_share: float | None = None
    more_share: float | None = None


@dataclass(frozen=True, slots=True)
class Assumptions:
    """All assumptions of a completed request, findable by pointer."""

    by_pointer: Mapping[str, Assumption]

    @classmethod
    def of(cls, assumptions: Iterable[Assumption]) -> "Assumptions":
        """Collect them; a later one of the same pointer wins."""
        return cls({a.pointer: a for a in assumptions})

    def assumed(self, pointer: str) -> bool:
        """Was the value at this pointer, or the object around it, assumed?"""
        while pointer:
            if pointer in self.by_pointer:
                return True
            pointer = pointer.rpartition("/")[0]
        return False

    def within(self, *parts: str) -> tuple[tuple[str, float | None, float | None], ...]:
        """What was assumed in these parts of the request ("/arrays", "/site"), and how far: pointer, low, high."""
        by_pointer = self.by_pointer.items()
        return tuple((pointer, one.low, one.high) for pointer, one in by_pointer if pointer.startswith(parts))

    def low(self, pointer: str, value: float) -> float:
        """The least that the value could plausibly be; ``value`` itself where it was given."""
        found = self.by_pointer.get(pointer)
        return value if found is None or found.low is None else found.low

    def high(self, pointer: str, value: float) -> float:
        """The most that the value could plausibly be; ``value`` itself where it was given."""
        found = self.by_pointer.get(pointer)
        return value if found is None or found.high is None else found.high
