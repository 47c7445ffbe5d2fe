"""What is a caution, and when does it belong to a request? A code with its conditions; the sentence stands in words."""

from dataclasses import dataclass
from typing import Any

SEVERITIES = ("danger", "warning", "note")
CAUTION_STEPS = (
    "before_buying", "at_the_door", "before_fitting", "fitting", "before_plugging_in", "living", "after_storm",
    "moving_out",
)  # fmt: skip
TESTS = ("is", "is_not", "above", "below", "one_of", "known", "not_known", "finding")


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """One condition of a caution.

    ``pointer`` reaches into the request as sent (RFC 6901, ``*`` for each entry of a list), or None for the test
    ``finding``, where ``finding`` is a code and ``value`` the verdicts wanted. ``value``: what ``is``, ``is_not``,
    ``above`` and ``below`` compare with, or the values of ``one_of``; None for ``known`` and ``not_known``.
    """

    test: str
    pointer: str | None = None
    finding: str | None = None
    value: Any = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A sentence or two for a person, under its code, with what it takes to choose it.

    ``rank`` is its place within its step, dangers first. ``always``: said to everybody. ``needs`` must all hold.
    ``shown_if_open``: said too while a fact is open, only where the danger is both severe and common. ``status``:
    verified (the source was read), memory, or common practice.
    """

    code: str
    severity: str
    step: str
    rank: int
    always: bool
    shown_if_open: bool
    needs: tuple[Need, ...]
    topic: str
    source: str
    status: str
