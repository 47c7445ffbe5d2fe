"""Which conditions of cautions hold for a request, and which are open? Every place of it is looked at once.

Many cautions share a condition, and many conditions a place. Each condition has a bit of its own; what a value comes to
under all the conditions on its place is worked out beforehand, from the conditions themselves.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum
from functools import reduce
from itertools import pairwise
from operator import or_
from typing import Any

from service.core.model.caution import Need


class State(IntEnum):
    """Of a condition: it fails, a fact is open, it holds. Ordered, so that all together are the least of them."""

    FAILS = 0
    OPEN = 1
    HOLDS = 2


Bits = tuple[int, int]  # of the conditions that hold, and of those that don't fail: they hold, or a fact is open
Verdicts = Mapping[str, Iterable[str]]
_Way = tuple[str, ...]
_Numbered = tuple[int, Need]
_Test = Callable[[Any], State]
_FAILS, _OPEN, _HOLDS = State
_NEITHER: Bits = (0, 0)
_OBJECT, _LIST = (dict, Mapping), (list, tuple)  # made once: a request is asked a hundred times
_NOT_KNOWN, _EACH = "not_known", "*"


@dataclass(frozen=True, slots=True)
class Conditions:
    """The conditions of many cautions taken apart, to be asked of one request after the other.

    Conditions of one caution on entries of one list must meet in one of them: that they do has a bit of its own.
    """

    _request: "_Place | _Outcomes"
    _of_findings: tuple[_Numbered, ...]
    _open_findings: int
    _bit: Mapping[str, int]
    _meeting: Mapping[tuple[str, ...], int]

    @classmethod
    def of(cls, all_needs: Iterable[Sequence[Need]]) -> "Conditions":
        """Take the conditions of some cautions apart: one sequence a caution."""
        all_needs = tuple(all_needs)
        by_name = {repr(need): need for needs in all_needs for need in needs}
        meetings = {_names(these): way for needs in all_needs for way, these in _meetings(needs)}
        bits = iter([1 << at for at in range(len(by_name) + len(meetings))])
        bit = {name: next(bits) for name in by_name}
        meeting = {names: next(bits) for names in meetings}
        met: dict[_Way, list[Bits]] = {}
        for names, way in meetings.items():
            met.setdefault(way, []).append((reduce(or_, (bit[name] for name in names)), meeting[names]))
        numbered = [(bit[name], need) for name, need in by_name.items()]
        ways = [(_way_of(need), (number, need)) for number, need in numbered if need.test != "finding"]
        findings = tuple((number, need) for number, need in numbered if need.test == "finding")
        open_findings = reduce(or_, (number for number, _ in findings), 0)
        return cls(_place_of((), ways, met), findings, open_findings, bit, meeting)

    def wanted(self, needs: Sequence[Need]) -> int:
        """The bits that must all be set for the conditions of a caution to hold together."""
        met = [_names(these) for _, these in _meetings(needs)]
        alone = {repr(need) for need in needs}.difference(*met)
        return reduce(or_, [*(self._meeting[names] for names in met), *(self._bit[name] for name in alone)], 0)

    def bits(self, given: Mapping[str, Any], verdicts: Verdicts) -> Bits:
        """Those of a request, whose findings had these verdicts.

        Of several entries of a list the best counts. An empty list has no entries, so that they fail; an absent one
        leaves them open.
        """
        holds, passes = self._request.bits(given)
        if not verdicts:
            return holds, passes | self._open_findings
        for bit, need in self._of_findings:
            state = _finding_state(need, verdicts)
            if state is not _FAILS:
                passes |= bit
            if state is _HOLDS:
                holds |= bit
        return holds, passes


@dataclass(frozen=True, slots=True)
class _Place:
    """The conditions on an object and on all within it; on a list, on all within its entries.

    ``meetings``: bits of conditions that must meet in one entry, and the bit which says that they do. ``absent``: what
    all come to where there is no such thing.
    """

    own: "_Outcomes"
    members: tuple[tuple[str, "_Place | _Outcomes"], ...]
    entry: "_Place | _Outcomes | None"
    meetings: tuple[Bits, ...]
    absent: Bits

    def bits(self, value: Any) -> Bits:
        """Those of a value at this place."""
        if value is None:
            return self.absent
        holds, passes = self.own.bits(value) if self.own.tests else _NEITHER
        within = value if isinstance(value, _OBJECT) else {}
        for name, member in self.members:
            inner = within.get(name)
            held, passed = member.absent if inner is None else member.bits(inner)
            holds |= held
            passes |= passed
        if self.entry is not None:
            for inner in value if isinstance(value, _LIST) else (None,):
                held, passed = _met(self.entry.bits(inner), self.meetings)
                holds |= held
                passes |= passed
        return holds, passes


@dataclass(frozen=True, slots=True)
class _Outcomes:
    """What a value comes to under all conditions on its very place: tried beforehand on each kind of value there is.

    Words that no condition names are all alike, and so are numbers between two limits. ``numbers``: below the least
    limit, at it, between it and the next, and so on.
    """

    tests: tuple[tuple[int, _Test], ...]
    absent: Bits
    truth: tuple[Bits, Bits]
    words: Mapping[str, Bits]
    other_word: Bits
    limits: tuple[float, ...]
    numbers: tuple[Bits, ...]

    @classmethod
    def by(cls, needs: Sequence[_Numbered]) -> "_Outcomes":
        """Try them: conditions on one place, each with its bit."""
        tests = tuple((bit, _test_of(need)) for bit, need in needs)
        named = [one for _, need in needs for one in (need.value if need.test == "one_of" else (need.value,))]
        words = {_NOT_KNOWN, *(one for one in named if isinstance(one, str))}
        limits = sorted({one for one in named if _number(one)})
        between = [(low + high) / 2 for low, high in pairwise(limits)]
        ends = (limits[0] - 1, limits[-1] + 1) if limits else (0,)
        return cls(
            tests,
            absent=_tried(tests, None),
            truth=(_tried(tests, False), _tried(tests, True)),
            words={word: _tried(tests, word) for word in words},
            other_word=_tried(tests, "".join(words) + "?"),
            limits=tuple(limits),
            numbers=tuple(_tried(tests, number) for number in sorted([*limits, *between, *ends])),
        )

    def bits(self, value: Any) -> Bits:
        """Those of a value: finite, where it is a number."""
        kind = value.__class__
        if kind is str:
            return self.words.get(value, self.other_word)
        if kind is float or kind is int:
            return self.numbers[bisect_left(self.limits, value) + bisect_right(self.limits, value)]
        if kind is bool:
            return self.truth[value]
        return self.absent if value is None else _tried(self.tests, value)


def _place_of(
    at: _Way, needs: Sequence[tuple[_Way, _Numbered]], meetings: Mapping[_Way, Sequence[Bits]]
) -> _Place | _Outcomes:
    """By the ways on from here; ``meetings`` by the whole way to a list."""
    own = _Outcomes.by([numbered for way, numbered in needs if not way])
    within: dict[str, list[tuple[_Way, _Numbered]]] = {}
    for way, numbered in needs:
        if way:
            within.setdefault(way[0], []).append((way[1:], numbered))
    if not within:
        return own
    parts = {name: _place_of((*at, name), these, meetings) for name, these in within.items()}
    entry, met = parts.pop(_EACH, None), tuple(meetings.get(at, ()))
    absent = [own.absent, *(part.absent for part in parts.values())]
    absent += [] if entry is None else [_met(entry.absent, met)]
    return _Place(own, tuple(parts.items()), entry, met, _together(absent))


def _tried(tests: Sequence[tuple[int, _Test]], value: Any) -> Bits:
    states = [(bit, test(value)) for bit, test in tests]
    holds = reduce(or_, (bit for bit, state in states if state is _HOLDS), 0)
    return holds, reduce(or_, (bit for bit, state in states if state is _OPEN), holds)


def _together(bits: Iterable[Bits]) -> Bits:
    return reduce(lambda one, other: (one[0] | other[0], one[1] | other[1]), bits, _NEITHER)


def _met(bits: Bits, meetings: Sequence[Bits]) -> Bits:
    """The bits of one entry, with those of conditions that meet in it."""
    holds, passes = bits
    for wanted, bit in meetings:
        if passes & wanted == wanted:
            passes |= bit
            if holds & wanted == wanted:
                holds |= bit
    return holds, passes


def _names(needs: Iterable[Need]) -> tuple[str, ...]:
    return tuple(map(repr, needs))


def _way_of(need: Need) -> _Way:
    return tuple((need.pointer or "").split("/")[1:])


def _meetings(needs: Iterable[Need]) -> list[tuple[_Way, list[Need]]]:
    """The conditions of one caution that are on entries of the same list, by the way to it."""
    by_list: dict[_Way, list[Need]] = {}
    for need in needs:
        way = _way_of(need)
        if need.test != "finding" and _EACH in way[:-1]:
            by_list.setdefault(way[: way.index(_EACH)], []).append(need)
    return [(way, these) for way, these in by_list.items() if len(these) > 1]


def _test_of(need: Need) -> _Test:
    """The condition as a test of one value."""
    if need.test in {"known", "not_known"}:
        wanted = need.test == "known"
        return lambda value: _HOLDS if (value not in (None, _NOT_KNOWN, [], ())) == wanted else _FAILS
    passes, limit = _PASSES[need.test], need.value

    def state(value: Any) -> State:
        if value is None or value == _NOT_KNOWN:
            return _OPEN
        return _HOLDS if passes(value, limit) else _FAILS

    return state


def _finding_state(need: Need, verdicts: Verdicts) -> State:
    seen = verdicts.get(need.finding or "")
    if not seen:
        return _OPEN
    if any(verdict in need.value for verdict in seen):
        return _HOLDS
    return _OPEN if _NOT_KNOWN in seen else _FAILS


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
