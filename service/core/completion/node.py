"""How is a sparse request read, so that whatever is filled in is also written down?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar, cast

from service.core.completion.defaults import row_for
from service.core.model.assumption import Assumption, Json

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """A value found by a rule: the reason code of its row, and its range where that differs from the row's."""

    value: Any
    code: str | None = None
    low: float | None = None
    high: float | None = None
    source: str | None = None


class Node:
    """One object of a sparse request: hands out what was given, and logs what is taken instead.

    ``null`` counts as not given. Nothing is changed in the request itself; ``log`` is shared by all its parts.
    """

    __slots__ = ("given", "log", "pointer")

    def __init__(self, given: Mapping[str, Any] | None, pointer: str, log: list[Assumption]) -> None:
        """Look at ``given`` as the object at ``pointer``; assumptions go to ``log``."""
        self.given: Mapping[str, Any] = given or {}
        self.pointer = pointer
        self.log = log

    def get(self, name: str) -> Any:
        """What was given under this name, or None."""
        return self.given.get(name)

    def at(self, name: str) -> str:
        """The pointer of a member."""
        return f"{self.pointer}/{name}"

    def child(self, name: str) -> "Node":
        """The object under this name; an empty one where none was given."""
        return Node(self.get(name), self.at(name), self.log)

    def child_if_given(self, name: str) -> "Node | None":
        """The object under this name, or None where none was given."""
        return None if self.get(name) is None else self.child(name)

    def children(self, name: str) -> "list[Node]":
        """The objects of the list under this name; none where the list is empty or absent."""
        return [Node(entry, f"{self.at(name)}/{i}", self.log) for i, entry in enumerate(self.get(name) or ())]

    def take(self, name: str, guess: Guess | None = None) -> Any:
        """What was given; else the guess, or the constant of the table's row, written down with its reason."""
        given = self.given.get(name)
        return given if given is not None else self.assume(name, guess)

    def assume(self, name: str, guess: Guess | None = None) -> Any:
        """Write down an assumption for this member, whatever was given; returns its value."""
        row = row_for(self.at(name), guess.code if guess else None)
        value = guess.value if guess else row.value
        low = row.low if guess is None or guess.low is None else guess.low
        high = row.high if guess is None or guess.high is None else guess.high
        if isinstance(value, int | float) and not isinstance(value, bool):  # a range holds its own value
            low, high = (None if low is None else min(low, value)), (None if high is None else max(high, value))
        self.log.append(
            Assumption(
                pointer=self.at(name),
                value=_json(value),
                code=row.code,
                source=(guess.source if guess else None) or row.source,
                low=low,
                high=high,
            )
        )
        return value


def listed(node: Node, name: str, entries: Sequence[T]) -> tuple[T, ...]:
    """The entries as a tuple; an absent list is written down as an assumption of the empty one."""
    if node.get(name) is None:
        node.assume(name)
    return tuple(entries)


def _json(value: Any) -> Json:
    return list(value) if isinstance(value, tuple) else cast("Json", value)
