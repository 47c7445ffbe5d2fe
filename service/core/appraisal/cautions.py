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


_FAILS, _OPEN, _HOLDS = State
_OBJECT, _LIST = (dict, Mapping), (list, tuple)  # made once: a request is asked hundreds of times
_Test = Callable[[Any], State]


@dataclass(frozen=True, slots=True)
class _Group:
    """The conditions of one caution: those on findings, and the others, by what they go through, as places in a list.

    Conditions on the entries of one list must meet in one of its entries.
    """

    of_findings: tuple[Need, ...]
    of_entries: tuple[tuple[int, ...], ...]

    def state(self, by_entry: Sequence[Sequence[State]], verdicts: Mapping[str, Iterable[str]]) -> State:
        """All together, by the state of each condition in each entry."""
        together = [_finding_state(need, verdicts) for need in self.of_findings]
        for places in self.of_entries:
            if len(places) == 1:
                together.append(_best(by_entry[places[0]]))
            else:
                entries = zip(*[by_entry[at] for at in places], strict=True)
                together.append(_best([_least(in_one) for in_one in entries]))
        return _least(together)


def _best(states: Sequence[State]) -> State:
    return _HOLDS if _HOLDS in states else _OPEN if _OPEN in states else _FAILS


def _least(states: Sequence[State]) -> State:
    return _FAILS if _FAILS in states else _OPEN if _OPEN in states else _HOLDS


@dataclass(frozen=True, slots=True)
class CautionTable:
    """Cautions with their conditions taken apart, to be chosen from again and again.

    Many cautions share a condition, and many conditions a place in the request: each is looked at once. Most cautions
    have one condition alone: its place in the list stands for them, a group for the others.
    """

    cautions: tuple[Caution, ...]
    _conditions: tuple[int | _Group, ...]
    _tests: tuple[tuple[str, tuple[_Test, ...]], ...]

    @classmethod
    def of(cls, cautions: Iterable[Caution]) -> "CautionTable":
        """Take them apart."""
        table = tuple(cautions)
        needs = {repr(need): need for caution in table for need in caution.needs if need.test != "finding"}
        in_order = sorted(needs.items(), key=lambda item: item[1].pointer or "")
        place = {condition: at for at, (condition, _) in enumerate(in_order)}
        by_pointer = groupby((need for _, need in in_order), key=lambda need: need.pointer or "")
        return cls(
            table,
            tuple(_taken_apart(caution.needs, place) for caution in table),
            tuple((pointer, tuple(_test_of(need) for need in these)) for pointer, these in by_pointer),
        )

    def states(self, given: Mapping[str, Any], verdicts: Mapping[str, Iterable[str]]) -> list[State]:
        """Of each caution: do its conditions hold together? One that fails decides, else one that is open does.

        Of several entries of a list the best counts. An empty list has no entries, so that they fail; an absent one
        leaves them open.
        """
        by_entry: list[list[State]] = []
        for pointer, tests in self._tests:
            place, way = _split(pointer)
            reached = [_reached(entry, way) for entry in _entries(given, place)]
            by_entry += [
                [test(one[0]) if len(one) == 1 else _best([*map(test, one)]) for one in reached] for test in tests
            ]
        best = [_best(states) for states in by_entry]
        return [best[one] if isinstance(one, int) else one.state(by_entry, verdicts) for one in self._conditions]


def _taken_apart(needs: Sequence[Need], place: Mapping[str, int]) -> int | _Group:
    by_list: dict[str, list[int]] = {}
    for need in needs:
        if need.test != "finding":
            by_list.setdefault(_split(need.pointer or "")[0], []).append(place[repr(need)])
    of_findings = tuple(need for need in needs if need.test == "finding")
    if len(needs) == 1 and not of_findings:
        return place[repr(needs[0])]
    return _Group(of_findings, tuple(tuple(places) for places in by_list.values()))


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
    return found if isinstance(found, _LIST) else ({},)


def _reached(node: Any, way: tuple[str, ...]) -> list[Any]:
    """All values at the end of a way, None where it breaks off; none at all within an empty list."""
    for at, name in enumerate(way):
        if name == "*":
            if not isinstance(node, _LIST):
                return [None]
            return [value for entry in node for value in _reached(entry, way[at + 1 :])]
        if not isinstance(node, _OBJECT):
            return [None]
        node = node.get(name)
    return [node]


def _test_of(need: Need) -> _Test:
    """The condition as a test of one value."""
    if need.test in {"known", "not_known"}:
        wanted = need.test == "known"
        return lambda value: _HOLDS if (value not in (None, "not_known", [], ())) == wanted else _FAILS
    passes, limit = _PASSES[need.test], need.value

    def state(value: Any) -> State:
        if value is None or value == "not_known":
            return _OPEN
        return _HOLDS if passes(value, limit) else _FAILS

    return state


def _finding_state(need: Need, verdicts: Mapping[str, Iterable[str]]) -> State:
    seen = verdicts.get(need.finding or "")
    if not seen:
        return _OPEN
    if any(verdict in need.value for verdict in seen):
        return _HOLDS
    return _OPEN if "not_known" in seen else _FAILS


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
