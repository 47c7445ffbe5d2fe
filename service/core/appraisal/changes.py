"""With which changes is a set worth asking about again? One panel more, the tree gone, another limit: as operations."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from types import MappingProxyType

from service.core.completion import with_mismatch_again
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Array, Setup
from service.core.model.finding import Fact
from service.core.model.patch import Operation, patched

MOST_ARRAYS = 8
# What small inverters are usually set to (our choice of what is worth asking; the plate is the third).
_USUAL_LIMITS_W = (600.0, 800.0)
# How far a panel before a railing is leaned out: 20 degrees from upright (our choice).
_LEANED_TILT_DEG = 70.0
_UPRIGHT_DEG = 90.0
_NO_CHOICE = frozenset({"sloped_roof"})
_ONE_PANEL = "parallel"
_OF_AN_ARRAY = re.compile(r"/arrays/(\d+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change by its code, the facts that its sentence needs, and the operations on the completed request.

    ``adds_load``: panels come on an input that did not hold them, which the panel side may refuse.
    """

    code: str
    facts: Mapping[str, Fact]
    patch: tuple[Operation, ...]
    adds_load: bool = False


def changes_of(setup: Setup, assumptions: Assumptions) -> Iterator[tuple[Change, ...]]:
    """The changes that the set admits; of each tuple the first one that fits is meant.

    Arrays that differ in name and input alone are asked about once. Shadows, of which there may be many, come last.
    """
    matched = partial(_with_mismatch, setup, assumptions)
    kinds = [replace(array, name="", input=1) for array in setup.arrays]
    apart = [at for at, kind in enumerate(kinds) if kinds.index(kind) == at]
    for at in apart:
        array = setup.arrays[at]
        yield tuple(map(matched, _one_more(setup, at)))
        if sum(one.count for one in setup.arrays) > 1:
            yield (matched(_one_fewer(setup, at)),)
        yield from _other_stand(at, array)
    yield from _other_limits(setup)
    for change in _own_inputs(setup):
        yield (matched(change),)
    for at in apart:
        yield from _trees_gone(at, setup.arrays[at])


def assumed_after(assumptions: Assumptions, patch: tuple[Operation, ...], arrays: int) -> Assumptions:
    """What is still assumed with the operations made: a copy's figures are as uncertain as those that it copies."""
    known = dict(assumptions.by_pointer)
    for one in patch:
        if one.op == "add":
            known = {p: a for p, a in known.items() if p != one.path and not p.startswith(f"{one.path}/")}
        elif one.op == "copy":
            before, after = f"{one.source}/", f"/arrays/{arrays}/"
            copied = [(after + p.removeprefix(before), a) for p, a in known.items() if p.startswith(before)]
            known.update({p: replace(a, pointer=p) for p, a in copied})
            arrays += 1
        elif _OF_AN_ARRAY.fullmatch(one.path):
            known = dict(_without_array(known, int(one.path.rpartition("/")[2])))
            arrays -= 1
        else:  # of a list: what is left has other places
            rows = one.path.rpartition("/")[0]
            known = {p: a for p, a in known.items() if not p.startswith(f"{rows}/")}
    return Assumptions(known)


def _without_array(known: Mapping[str, Assumption], gone: int) -> Iterator[tuple[str, Assumption]]:
    """Those of an array are left out, and those behind it move up."""
    for pointer, one in known.items():
        place = _OF_AN_ARRAY.match(pointer)
        if place is None or int(place[1]) < gone:
            yield pointer, one
        elif int(place[1]) > gone:
            moved = f"/arrays/{int(place[1]) - 1}{pointer[place.end() :]}"
            yield moved, replace(one, pointer=moved)


def _free_inputs(setup: Setup) -> list[int]:
    used = {array.input for array in setup.arrays}
    return [number for number in range(1, len(setup.inverter.inputs) + 1) if number not in used]


def _one_more(setup: Setup, at: int) -> tuple[Change, ...]:
    """On an input of its own; else as the array is wired; a single panel may also get its second one in series."""
    array, free = setup.arrays[at], _free_inputs(setup)
    facts: dict[str, Fact] = {"array": array.name, "panels": array.count + 1}
    found = []
    if free and len(setup.arrays) < MOST_ARRAYS:
        new = f"/arrays/{len(setup.arrays)}"
        patch = [Operation(op="copy", path="/arrays/-", source=f"/arrays/{at}"), _put(f"{new}/input", free[0])]
        if array.count > 1:
            patch.append(_put(f"{new}/count", 1))
        if array.joined != _ONE_PANEL:
            patch.append(_put(f"{new}/joined", _ONE_PANEL))
        found.append(_change("one_panel_more.own_input", {**facts, "input": free[0]}, patch, adds_load=True))
    ways = [array.joined] if array.count > 1 or array.joined == "one_string" else ["parallel", "series"]
    for way in ways:
        patch = [_put(f"/arrays/{at}/count", array.count + 1)]
        if way != array.joined:
            patch.append(_put(f"/arrays/{at}/joined", way))
        wired = "parallel" if way == "parallel" else "series"
        more = {**facts, "input": array.input, "joined": wired}
        found.append(_change(f"one_panel_more.{wired}", more, patch, adds_load=True))
    return tuple(found)


def _one_fewer(setup: Setup, at: int) -> Change:
    array = setup.arrays[at]
    facts: dict[str, Fact] = {"array": array.name, "panels": array.count - 1}
    if array.count == 1:
        return _change("one_panel_fewer.none_left", facts, [Operation(op="remove", path=f"/arrays/{at}")])
    fewer = array.count - 1
    patch = [_put(f"/arrays/{at}/count", fewer)]
    if fewer == 1 and array.joined == "series":  # of one panel that would mean: in series with others of its input
        patch.append(_put(f"/arrays/{at}/joined", _ONE_PANEL))
    return _change("one_panel_fewer", facts, patch)


def _other_stand(at: int, array: Array) -> Iterator[tuple[Change, ...]]:
    """Upright, leaned out from the railing, outside of it: what the way of mounting admits."""
    tilt = f"/arrays/{at}/plane/tilt_deg"
    stands: dict[str, Fact] = {"array": array.name, "tilt_deg": array.plane.tilt_deg}
    if array.plane.tilt_deg < _UPRIGHT_DEG and array.mount not in _NO_CHOICE:
        yield (_change("upright", {**stands, "new_tilt_deg": _UPRIGHT_DEG}, [_put(tilt, _UPRIGHT_DEG)]),)
    if array.mount == "hung_on_rail" and array.plane.tilt_deg > _LEANED_TILT_DEG:
        yield (_change("leaned_out", {**stands, "new_tilt_deg": _LEANED_TILT_DEG}, [_put(tilt, _LEANED_TILT_DEG)]),)
    if array.mount == "behind_rail":
        patch = [_put(f"/arrays/{at}/mount", "hung_on_rail")]
        if array.cover is not None:
            patch.append(_put(f"/arrays/{at}/cover", None))
        yield (_change("outside_rail", {"array": array.name}, patch),)


def _trees_gone(at: int, array: Array) -> Iterator[tuple[Change, ...]]:
    for number in range(len(array.shade)):
        facts: dict[str, Fact] = {"array": array.name, "shade": number + 1, "of": len(array.shade)}
        yield (_change("tree_gone", facts, [Operation(op="remove", path=f"/arrays/{at}/shade/{number}")]),)


def _other_limits(setup: Setup) -> Iterator[tuple[Change, ...]]:
    plate = setup.inverter.ac_power_w
    now = min(setup.inverter.set_limit_w, plate)
    for limit in sorted({*(one for one in _USUAL_LIMITS_W if one < plate), plate} - {now}):
        facts: dict[str, Fact] = {"limit_w": now, "new_limit_w": limit}
        yield (_change("other_limit", facts, [_put("/inverter/set_limit_w", limit)]),)


def _own_inputs(setup: Setup) -> Iterator[Change]:
    """Every panel on an input of its own, where panels share one and there are enough."""
    panels, free = sum(array.count for array in setup.arrays), _free_inputs(setup)
    if panels <= len({array.input for array in setup.arrays}) or panels > min(len(setup.inverter.inputs), MOST_ARRAYS):
        return
    patch: list[Operation] = []
    taken: set[int] = set()
    arrays = len(setup.arrays)
    for at, array in enumerate(setup.arrays):
        here = f"/arrays/{at}"
        if array.input in taken:
            patch.append(_put(f"{here}/input", free.pop(0)))
        taken.add(array.input)
        if array.joined != _ONE_PANEL:
            patch.append(_put(f"{here}/joined", _ONE_PANEL))
        if array.count > 1:
            patch.append(_put(f"{here}/count", 1))
        for _ in range(array.count - 1):
            patch.append(Operation(op="copy", path="/arrays/-", source=here))
            patch.append(_put(f"/arrays/{arrays}/input", free.pop(0)))
            arrays += 1
    yield _change("own_inputs", {"panels": panels, "inputs": len(setup.inverter.inputs)}, patch, adds_load=True)


def _with_mismatch(setup: Setup, assumptions: Assumptions, change: Change) -> Change:
    """With what panels lose by differing put right where nobody told it: it goes by the panels that share an input."""
    changed = patched(setup, change.patch)
    again, _ = with_mismatch_again(changed, assumed_after(assumptions, change.patch, len(setup.arrays)))
    put = [
        _put(f"/arrays/{at}/mismatch_share", now.mismatch_share)
        for at, (before, now) in enumerate(zip(changed.arrays, again.arrays, strict=True))
        if now.mismatch_share != before.mismatch_share
    ]
    return replace(change, patch=(*change.patch, *put)) if put else change


def _put(path: str, value: str | float | int | None) -> Operation:
    return Operation(op="add", path=path, value=value)


def _change(code: str, facts: Mapping[str, Fact], patch: list[Operation], *, adds_load: bool = False) -> Change:
    code, _, variant = code.partition(".")
    said: dict[str, Fact] = {**facts, "variant": variant} if variant else dict(facts)
    return Change(code=code, facts=MappingProxyType(said), patch=tuple(patch), adds_load=adds_load)
