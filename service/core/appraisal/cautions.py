"""Which cautions belong to this request? Those whose facts hold, or were left open where that is dangerous."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum
from functools import lru_cache
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


_FAILS, _OPEN, _HOLDS = State
_Test = Callable[[Any], State]


@dataclass(frozen=True, slots=True)
class _Group:
    """The conditions of one caution: those on findings, and the others, as places in a list, by what they go through.

    Conditions on the entries of one list must meet in one of its entries.
    """

    of_findings: tuple[Need, ...]
    of_entries: tuple[tuple[int, ...], ...]

    def state(self, states: Mapping[int, list[State]], verdicts: Mapping[str, Iterable[str]]) -> State:
        """All together, by the state of each condition in each entry."""
        least = _HOLDS
        for need in self.of_findings:
            least = min(least, _finding_state(need, verdicts))
        for places in self.of_entries:
            if len(places) == 1:
                entries = states[places[0]]
            else:
                entries = [min(in_one) for in_one in zip(*[states[at] for at in places], strict=True)]
            best = _HOLDS if _HOLDS in entries else _OPEN if _OPEN in entries else _FAILS
            if best is not _HOLDS:
                least = min(least, best)
        return least


@dataclass(frozen=True, slots=True)
class CautionTable:
    """Cautions with their conditions taken apart, to be chosen from again and again.

    Many cautions share a condition, and many conditions a place in the request: each is looked at once.
    """

    cautions: tuple[Caution, ...]
    _groups: tuple[_Group, ...]
    _tests: Mapping[str, tuple[tuple[int, _Test], ...]]

    @classmethod
    def of(cls, cautions: Iterable[Caution]) -> "CautionTable":
        """Take them apart."""
        table = tuple(cautions)
        known: dict[str, int] = {}
        tests: dict[str, list[tuple[int, _Test]]] = {}
        groups = []
        for caution in table:
            by_place: dict[str, list[int]] = {}
            for need in caution.needs:
                if need.test == "finding":
                    continue
                pointer, condition = need.pointer or "", repr(need)
                if condition not in known:
                    known[condition] = len(known)
                    tests.setdefault(pointer, []).append((known[condition], _test_of(need)))
                by_place.setdefault(_split(pointer)[0], []).append(known[condition])
            of_findings = tuple(need for need in caution.needs if need.test == "finding")
            groups.append(_Group(of_findings, tuple(tuple(places) for places in by_place.values())))
        return cls(table, tuple(groups), {pointer: tuple(found) for pointer, found in tests.items()})

    def states(self, given: Mapping[str, Any], verdicts: Mapping[str, Iterable[str]]) -> list[State]:
        """Of each caution: do its conditions hold together? One that fails decides, else one that is open does.

        Of several entries of a list the best counts. An empty list has no entries, so that they fail; an absent one
        leaves them open.
        """
        states: dict[int, list[State]] = {}
        for pointer, tests in self._tests.items():
            place, way = _split(pointer)
            reached = [_reached(entry, way) for entry in _entries(given, place)]
            for at, test in tests:
                states[at] = [test(one[0]) if len(one) == 1 else max(map(test, one), default=_FAILS) for one in reached]
        return [group.state(states, verdicts) for group in self._groups]


def chosen_cautions(
    cautions: CautionTable | Iterable[Caution],
    given: Mapping[str, Any],
    findings: Iterable[Checked],
    steps: Sequence[str] = CAUTION_STEPS,
) -> ChosenCautions:
    """Choose the cautions for a request.

    Args:
        cautions: the table; as a ``CautionTable`` where it is asked more than once.
        given: the request as the caller sent it, before anything was filled in. A pick-up check's ``panel`` is read
            as the first array's, and as used where no age is given.
        findings: what was checked, and how it turned out.
        steps: the steps that are wanted.

    Returns:
        Those that are said always, whose conditions hold, or that are open and to be shown then; at most five a step,
        the worst first, what is always said among them in any case. A request without arrays gets the latter only.
    """
    table = cautions if isinstance(cautions, CautionTable) else CautionTable.of(cautions)
    given = _as_appraisal(given)
    verdicts: dict[str, set[str]] = {}
    for finding in findings:
        verdicts.setdefault(finding.code, set()).add(str(finding.verdict))
    asked = bool(given.get("arrays"))
    fitting: dict[str, list[Caution]] = {step: [] for step in steps}
    for caution, state in zip(table.cautions, table.states(given, verdicts), strict=True):
        belongs = state is _HOLDS or (state is _OPEN and caution.shown_if_open)
        if (caution.always or (asked and belongs)) and caution.step in fitting:
            fitting[caution.step].append(caution)
    shown: list[Caution] = []
    kept_back: dict[str, int] = {}
    for step, found in fitting.items():
        ranked = sorted(found, key=lambda c: (not c.always, c.rank))
        shown += sorted(ranked[:AT_MOST], key=lambda c: c.rank)
        if len(ranked) > AT_MOST:
            kept_back[step] = len(ranked) - AT_MOST
    return ChosenCautions(shown=tuple(shown), kept_back=kept_back)


def _as_appraisal(given: Mapping[str, Any]) -> Mapping[str, Any]:
    panel = given.get("panel")
    if not isinstance(panel, Mapping) or given.get("arrays"):
        return given
    aged = panel if panel.get("age_years") is not None else {**panel, "age_years": 1}
    return {**given, "arrays": [{"panel": aged}]}


@lru_cache(maxsize=1024)  # the pointers of the table
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
    for at, name in enumerate(way):
        if name == "*":
            if not isinstance(node, list | tuple):
                return [None]
            return [value for entry in node for value in _reached(entry, way[at + 1 :])]
        if not isinstance(node, dict | Mapping):
            return [None]
        node = node.get(name)
    return [node]


def _test_of(need: Need) -> _Test:
    """The condition as a test of one value."""
    if need.test in {"known", "not_known"}:
        wanted = need.test == "known"
        return lambda value: _HOLDS if (not _open(value) and value not in ([], ())) == wanted else _FAILS
    passes, limit = _PASSES[need.test], need.value

    def state(value: Any) -> State:
        if _open(value):
            return _OPEN
        return _HOLDS if passes(value, limit) else _FAILS

    return state


def _open(value: Any) -> bool:
    return value is None or value == "not_known"


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
