"""Which cautions belong to this request? Those whose facts hold, or were left open where that is dangerous."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum
from functools import lru_cache
from itertools import groupby
from typing import Any, Protocol

from service.core.model.caution import CAUTION_STEPS, Caution, Need

AT_MOST = 5  # a step; more is not read


class Checked(Protocol):
    """Anything with a code and a verdict: a finding, or a suspect of a log review with verdict ``suspected``."""

    @property
    def code(self) -> str:
        """What was checked."""

    @property
    def verdict(self) -> str:
        """How it turned out."""


class State(IntEnum):
    """Of a condition: it fails, a fact is open, it holds. Ordered, so that all together are the least of them."""

    FAILS = 0
    OPEN = 1
    HOLDS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenCautions:
    """The cautions to be said, in the order of steps and of urgency, and by step how many were kept back."""

    shown: tuple[Caution, ...]
    kept_back: Mapping[str, int]


def chosen_cautions(
    cautions: Iterable[Caution],
    given: Mapping[str, Any],
    findings: Iterable[Checked],
    steps: Sequence[str] = CAUTION_STEPS,
) -> ChosenCautions:
    """Choose the cautions for a request.

    Args:
        cautions: the table.
        given: the request as the caller sent it, before anything was filled in. A pick-up check's ``panel`` is read
            as the first array's, and as used where no age is given.
        findings: what was checked, and how it turned out.
        steps: the steps that are wanted.

    Returns:
        Those that are said always, whose conditions hold, or that are open and to be shown then; at most five a step,
        the worst first, what is always said among them in any case. A request without arrays gets the latter only.
    """
    given = _as_appraisal(given)
    verdicts: dict[str, set[str]] = {}
    for finding in findings:
        verdicts.setdefault(finding.code, set()).add(str(finding.verdict))
    asked = bool(given.get("arrays"))
    fitting = [c for c in cautions if c.step in steps and (c.always or (asked and _belongs(c, given, verdicts)))]
    shown: list[Caution] = []
    kept_back: dict[str, int] = {}
    for step in steps:
        ranked = sorted((c for c in fitting if c.step == step), key=lambda c: (not c.always, c.rank))
        shown += sorted(ranked[:AT_MOST], key=lambda c: c.rank)
        if len(ranked) > AT_MOST:
            kept_back[step] = len(ranked) - AT_MOST
    return ChosenCautions(shown=tuple(shown), kept_back=kept_back)


def state_of(needs: Sequence[Need], given: Mapping[str, Any], verdicts: Mapping[str, Iterable[str]]) -> State:
    """Do the conditions hold together? One that fails decides, else one that is open does.

    Conditions on the entries of one list must meet in one entry of it; of several entries the best counts. An empty
    list has no entries, so that they fail; an absent one leaves them open.
    """
    least = min((_finding_state(need, verdicts) for need in needs if need.test == "finding"), default=State.HOLDS)
    for place, ways in _by_place(tuple(None if need.test == "finding" else need.pointer or "" for need in needs)):
        if least is State.FAILS:
            break
        tests = [(way, needs[at]) for way, at in ways]
        least = min(least, _best_entry_state(_entries(given, place), tests))
    return least


_Tests = Sequence[tuple[tuple[str, ...], Need]]
_Ways = tuple[tuple[tuple[str, ...], int], ...]


@lru_cache(maxsize=1024)  # the table's conditions, sorted once; by their pointers, as needs of 1 and true are equal
def _by_place(pointers: tuple[str | None, ...]) -> tuple[tuple[str, _Ways], ...]:
    """The lists that conditions reach into, and of each the ways from an entry on with the number of the condition."""
    placed = sorted(
        ((*_split(pointer), at) for at, pointer in enumerate(pointers) if pointer is not None),
        key=lambda entry: entry[0],
    )
    groups = groupby(placed, key=lambda entry: entry[0])
    return tuple((place, tuple((way, at) for _, way, at in group)) for place, group in groups)


def _best_entry_state(entries: Sequence[Any], tests: _Tests) -> State:
    best = State.FAILS
    for entry in entries:
        best = max(best, _entry_state(entry, tests))
        if best is State.HOLDS:
            break
    return best


def _belongs(caution: Caution, given: Mapping[str, Any], verdicts: Mapping[str, Iterable[str]]) -> bool:
    state = state_of(caution.needs, given, verdicts)
    return state is State.HOLDS or (state is State.OPEN and caution.shown_if_open)


def _as_appraisal(given: Mapping[str, Any]) -> Mapping[str, Any]:
    panel = given.get("panel")
    if not isinstance(panel, Mapping) or given.get("arrays"):
        return given
    aged = panel if panel.get("age_years") is not None else {**panel, "age_years": 1}
    return {**given, "arrays": [{"panel": aged}]}


def _split(pointer: str) -> tuple[str, tuple[str, ...]]:
    """The list that a pointer goes through ("" for none), and the way from its entry on."""
    place, star, within = pointer.partition("/*/")
    return (place, tuple(within.split("/"))) if star else ("", tuple(pointer.split("/")[1:]))


def _entries(given: Mapping[str, Any], place: str) -> Sequence[Any]:
    """The entries of the list at ``place``; one empty entry where nobody gave the list, so that all in it is open."""
    if not place:
        return (given,)
    [found] = _reached(given, tuple(place.split("/")[1:]))
    return found if isinstance(found, list | tuple) else ({},)


def _reached(node: Any, way: tuple[str, ...]) -> list[Any]:
    """All values at the end of a way, None where it breaks off; none at all within an empty list."""
    if not way:
        return [node]
    if way[0] == "*":
        if not isinstance(node, list | tuple):
            return [None]
        return [value for entry in node for value in _reached(entry, way[1:])]
    return _reached(node.get(way[0]), way[1:]) if isinstance(node, Mapping) else [None]


def _entry_state(entry: Any, tests: _Tests) -> State:
    least = State.HOLDS
    for way, need in tests:
        here = State.FAILS
        for value in _reached(entry, way):
            here = max(here, _value_state(need, value))
        least = min(least, here)
        if least is State.FAILS:
            break
    return least


def _value_state(need: Need, value: Any) -> State:
    open_ = value is None or value == "not_known"
    if need.test in {"known", "not_known"}:
        given = not open_ and value not in ([], ())
        return State.HOLDS if given == (need.test == "known") else State.FAILS
    if open_:
        return State.OPEN
    return State.HOLDS if _PASSES[need.test](value, need.value) else State.FAILS


def _finding_state(need: Need, verdicts: Mapping[str, Iterable[str]]) -> State:
    seen = set(verdicts.get(need.finding or "", ()))
    if seen & set(need.value):
        return State.HOLDS
    return State.OPEN if not seen or "not_known" in seen else State.FAILS


def _same(value: Any, wanted: Any) -> bool:
    """Equal; true is not 1."""
    return bool(value == wanted) and isinstance(value, bool) == isinstance(wanted, bool)


def _number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


_PASSES: Mapping[str, Callable[[Any, Any], bool]] = {
    "is": _same,
    "is_not": lambda value, wanted: not _same(value, wanted),
    "above": lambda value, wanted: _number(value) and value > wanted,
    "below": lambda value, wanted: _number(value) and value < wanted,
    "one_of": lambda value, wanted: any(_same(value, one) for one in wanted),
}
