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


def change_of(remedy: Remedy, given: Mapping[str, Any]) -> Change | None:
    """The change as the request can hold it; None where that is the remedy's own.

    One entry of inputs stands for all of them: what it says is changed for all. Where no input was described, an
    entry is added that says nothing but the new value.
    """
    found = _OF_AN_INPUT.fullmatch(remedy.pointer or "")
    if found is None:
        return None
    number, name = int(found[1]), found[2]
    entries = (given.get("inverter") or {}).get("inputs") or ()
    if number < len(entries):
        return None
    if entries:
        return Change(f"{_INPUTS}/0/{name}", ())
    return Change(None, ({"op": "add", "path": _INPUTS, "value": [{name: remedy.new_value}], "source": None},))
