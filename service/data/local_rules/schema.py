"""Does a rule card keep to its schema, and what exactly is wrong where it does not?

``card.schema.json`` is JSON Schema (draft 2020-12), for editors too; here the few words of it are checked that it uses.
"""

import json
import re
from collections.abc import Iterator, Mapping
from datetime import date
from functools import cache
from importlib.resources import files
from typing import Any

SCHEMA = "card.schema.json"
_KINDS: Mapping[str, tuple[type, ...]] = {
    "object": (dict,), "array": (list,), "string": (str,), "number": (int, float), "integer": (int,),
    "boolean": (bool,), "null": (type(None),),
}  # fmt: skip
_LONGEST_SHOWN = 60
_DAYS = ("checked_on", "valid_from", "valid_to")


@cache
def card_schema() -> Mapping[str, Any]:
    """The schema of one area's file: a list of cards."""
    schema: Mapping[str, Any] = json.loads(files(__package__).joinpath(SCHEMA).read_text(encoding="utf-8"))
    return schema


def faults(value: Any, schema: Mapping[str, Any], field: str = "") -> Iterator[str]:
    """Everything that is wrong with a value: the field (RFC 6901 pointer), what is wrong, what is accepted."""
    wanted = schema.get("type", [])
    kinds = [wanted] if isinstance(wanted, str) else wanted
    if not any(_is(value, kind) for kind in kinds):
        yield f"{field or '/'} is {_shown(value)}; accepted: {_kinds(schema, kinds)}"
        return
    if "enum" in schema and value not in schema["enum"]:
        yield f"{field} is {_shown(value)}; accepted: {', '.join('null' if w is None else w for w in schema['enum'])}"
    if isinstance(value, str):
        yield from _text_faults(value, schema, field)
    elif isinstance(value, dict):
        yield from _object_faults(value, schema, field)
    elif isinstance(value, list):
        least, most = schema.get("minItems", 0), schema["maxItems"]
        if not least <= len(value) <= most:
            yield f"{field or '/'} has {len(value)} entries; accepted: {least} to {most}"
        for at, item in enumerate(value):
            yield from faults(item, schema["items"], f"{field}/{at}")
    elif isinstance(value, int | float) and not isinstance(value, bool):
        low, high = schema["minimum"], schema["maximum"]
        if not low <= value <= high:  # NaN too
            yield f"{field} is {_shown(value)}; accepted: {low:g} to {high:g}"


def contradictions(card: Mapping[str, Any], field: str) -> Iterator[str]:
    """What is wrong between the fields of a card that keeps to the schema."""
    for name in _DAYS:
        try:
            date.fromisoformat(card[name] or "2000-01-01")
        except ValueError:
            yield f"{field}/{name} is {_shown(card[name])}, which no calendar has; accepted: a day such as 2026-11-25"
    if (card["ac_cap_w"] is None) != (card["ac_cap_inclusive"] is None):
        yield f"{field}/ac_cap_inclusive must be given with ac_cap_w, and null without; accepted: true, false, null"
    if card["valid_from"] and card["valid_to"] and card["valid_from"] > card["valid_to"]:
        yield f"{field}/valid_to is {_shown(card['valid_to'])}, before valid_from; accepted: a day not before it"
    if card["published_on"] and card["published_on"] > card["checked_on"]:
        yield f"{field}/published_on is {_shown(card['published_on'])}, after checked_on; accepted: a day not after it"


def _text_faults(value: str, schema: Mapping[str, Any], field: str) -> Iterator[str]:
    low, high = schema.get("minLength", 0), schema.get("maxLength", 10_000)
    if not low <= len(value) <= high:
        yield f"{field} has {len(value)} characters; accepted: {low} to {high}"
    elif "pattern" in schema and not re.search(schema["pattern"], value):
        yield f"{field} is {_shown(value)}; accepted: text of the form {schema['pattern']}"


def _object_faults(value: Mapping[str, Any], schema: Mapping[str, Any], field: str) -> Iterator[str]:
    known = schema["properties"]
    for name in schema["required"]:
        if name not in value:
            yield f"{field}/{name} is missing; write null where nothing was found"
    for name, inner in value.items():
        if name not in known:
            yield f"{field}/{name} is not known; there are {', '.join(known)}"
        else:
            yield from faults(inner, known[name], f"{field}/{name}")


def _is(value: Any, kind: str) -> bool:
    if isinstance(value, bool) and kind != "boolean":
        return False
    return isinstance(value, _KINDS[kind])


def _kinds(schema: Mapping[str, Any], kinds: list[str]) -> str:
    if "enum" in schema:
        return ", ".join("null" if word is None else word for word in schema["enum"])
    return " or ".join(kinds)


def _shown(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= _LONGEST_SHOWN else f"{text[:_LONGEST_SHOWN]}..."
