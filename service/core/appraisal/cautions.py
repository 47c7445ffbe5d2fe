"""Which cautions belong to this request? Those whose facts hold, or were left open where that is dangerous."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
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
_Values = tuple[Sequence[Any], ...]
_Test = Callable[[Any], State]


@dataclass(slots=True)
class _Sent:
    """The request as it was sent; what its pointers reach is looked up once, as many conditions share a few of them."""

    given: Mapping[str, Any]
    _known: dict[str, _Values] = field(default_factory=dict)

    def reached(self, pointer: str) -> _Values:
        """By entry of the list that the pointer goes through, all values at its end; one entry where there is none."""
        found = self._known.get(pointer)
        if found is None:
            place, way = _split(pointer)
            found = self._known[pointer] = tuple(_reached(entry, way) for entry in _entries(self.given, place))
        return found


@dataclass(frozen=True, slots=True)
class _Conditions:
    """The conditions of one caution taken apart: those on findings, and the others by the list that they reach into."""

    of_findings: tuple[Need, ...]
    of_entries: tuple[tuple[tuple[str, _Test], ...], ...]

    @classmethod
    def of(cls, needs: Sequence[Need]) -> "_Conditions":
        by_place: dict[str, list[tuple[str, _Test]]] = {}
        for need in needs:
            if need.test != "finding":
                pointer = need.pointer or ""
                by_place.setdefault(_split(pointer)[0], []).append((pointer, _test_of(need)))
        return cls(
            tuple(need for need in needs if need.test == "finding"), tuple(tuple(tests) for tests in by_place.values())
        )

    def state(self, sent: _Sent, verdicts: Mapping[str, Iterable[str]]) -> State:
        least = _HOLDS
        for need in self.of_findings:
            least = min(least, _finding_state(need, verdicts))
        for tests in self.of_entries:
            if least is _FAILS:
                break
            best = _best_value_state(*tests[0], sent) if len(tests) == 1 else _best_entry_state(tests, sent)
            if best is not _HOLDS:
                least = min(least, best)
        return least


@dataclass(frozen=True, slots=True)
class CautionTable:
    """Cautions with their conditions taken apart, to be chosen from again and again."""

    rows: tuple[tuple[Caution, _Conditions], ...]

    @classmethod
    def of(cls, cautions: Iterable[Caution]) -> "CautionTable":
        """Take them apart."""
        return cls(tuple((caution, _Conditions.of(caution.needs)) for caution in cautions))


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
    sent = _Sent(_as_appraisal(given))
    verdicts: dict[str, set[str]] = {}
    for finding in findings:
        verdicts.setdefault(finding.code, set()).add(str(finding.verdict))
    asked = bool(sent.given.get("arrays"))
    fitting: dict[str, list[Caution]] = {step: [] for step in steps}
    for caution, conditions in table.rows:
        if caution.step in fitting and (caution.always or (asked and _belongs(caution, conditions, sent, verdicts))):
            fitting[caution.step].append(caution)
    shown: list[Caution] = []
    kept_back: dict[str, int] = {}
    for step, found in fitting.items():
        ranked = sorted(found, key=lambda c: (not c.always, c.rank))
        shown += sorted(ranked[:AT_MOST], key=lambda c: c.rank)
        if len(ranked) > AT_MOST:
            kept_back[step] = len(ranked) - AT_MOST
    return ChosenCautions(shown=tuple(shown), kept_back=kept_back)


def state_of(needs: Sequence[Need], given: Mapping[str, Any], verdicts: Mapping[str, Iterable[str]]) -> State:
    """Do the conditions hold together? One that fails decides, else one that is open does.

    Conditions on the entries of one list must meet in one entry of it; of several entries the best counts. An empty
    list has no entries, so that they fail; an absent one leaves them open.
    """
    return _Conditions.of(needs).state(_Sent(given), verdicts)


def _best_value_state(pointer: str, test: _Test, sent: _Sent) -> State:
    """Of one condition alone, over all values of all entries."""
    best = _FAILS
    for values in sent.reached(pointer):
        for value in values:
            state = test(value)
            if state is _HOLDS:
                return state
            if state is _OPEN:
                best = state
    return best


def _best_entry_state(tests: Sequence[tuple[str, _Test]], sent: _Sent) -> State:
    """Of several that must meet in one entry."""
    found = [(test, sent.reached(pointer)) for pointer, test in tests]
    best = _FAILS
    for entry in range(len(found[0][1])):
        least = _HOLDS
        for test, values in found:
            least = min(least, max(map(test, values[entry]), default=_FAILS))
            if least is _FAILS:
                break
        best = max(best, least)
        if best is _HOLDS:
            break
    return best


def _belongs(caution: Caution, conditions: _Conditions, sent: _Sent, verdicts: Mapping[str, Iterable[str]]) -> bool:
    state = conditions.state(sent, verdicts)
    return state is _HOLDS or (state is _OPEN and caution.shown_if_open)


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
    if not way:
        return [node]
    if way[0] == "*":
        if not isinstance(node, list | tuple):
            return [None]
        return [value for entry in node for value in _reached(entry, way[1:])]
    return _reached(node.get(way[0]), way[1:]) if isinstance(node, dict | Mapping) else [None]


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
