"""Where in the request as it was sent lies what a remedy changes in the completed one?"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from service.core.model.finding import Remedy

_INPUTS = "/inverter/inputs"
_OF_AN_INPUT = re.compile(rf"{_INPUTS}/(\d+)/(\w+)")


@dataclass(frozen=True, slots=True)
class Change:
    """A pointer into the request as sent, or the operations where it has no such place yet."""

    pointer: str | None
    patch: tuple[Mapping[str, Any], ...]


def described_inputs(given: Mapping[str, Any]) -> int:
    """How many of the inverter's inputs the request as it was sent describes."""
    return len((given.get("inverter") or {}).get("inputs") or ())


def change_of(remedy: Remedy, inputs: int) -> Change | None:
    """The change as a request that describes so many inputs can hold it; None where that is the remedy's own.

    One entry of inputs stands for all of them: what it says is changed for all. Where no input was described, an
    entry is added that says nothing but the new value.
    """
    if remedy.patch:
        return _patch_of(remedy, inputs)
    found = _OF_AN_INPUT.fullmatch(remedy.pointer or "")
    if found is None:
        return None
    number, name = int(found[1]), found[2]
    if number < inputs:
        return None
    if inputs:
        return Change(f"{_INPUTS}/0/{name}", ())
    return Change(None, (_added(_INPUTS, [{name: remedy.new_value}]),))


def _patch_of(remedy: Remedy, inputs: int) -> Change | None:
    kept: list[Mapping[str, Any]] = []
    fresh: dict[str, Any] = {}
    for one in remedy.patch:
        found = _OF_AN_INPUT.fullmatch(one.path)
        if found is None or int(found[1]) < inputs:
            kept.append({"op": one.op, "path": one.path, "value": one.value, "source": one.source})
        elif inputs:
            kept.append(_added(f"{_INPUTS}/0/{found[2]}", one.value))
        else:
            fresh[found[2]] = one.value
    return Change(None, (*kept, *((_added(_INPUTS, [fresh]),) if fresh else ())))


def _added(path: str, value: Any) -> Mapping[str, Any]:
    return {"op": "add", "path": path, "value": value, "source": None}
