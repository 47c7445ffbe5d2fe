"""What does a request accept at a given place? Read from the schema of its class, for messages to the caller."""

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from functools import cache
from typing import Any

from pydantic import BaseModel

from service.api.fields import PRINTABLE
from service.api.schemas.mistakes import shown
from service.api.words import say

Schema = Mapping[str, Any]
Place = tuple[str | int, ...]


class Guide:
    """The schema of one request class, to be asked by place."""

    def __init__(self, model: type[BaseModel]) -> None:
        """Read the schema once."""
        self.root: Schema = model.model_json_schema()
        self.definitions: Mapping[str, Schema] = self.root.get("$defs", {})

    def at(self, place: Place) -> Schema:
        """The schema at ``place``; empty where nothing is known of it."""
        node = self.root
        for part in place:
            node = self._plain(node)
            node = self._plain(node["oneOf"][-1]) if "oneOf" in node else node
            inner = node.get("items", {}) if isinstance(part, int) else node.get("properties", {}).get(part, {})
            node = inner if isinstance(inner, Mapping) else {}
        return self._plain(node)

    def accepted(self, place: Place) -> str:
        """What is accepted at ``place``, as a phrase."""
        schema = self.at(place)
        return " or ".join(_accepted(self._plain(one)) for one in schema.get("oneOf", (schema,)))

    def example(self, place: Place) -> str | None:
        """An example of what is accepted at ``place``."""
        schema = self.at(place)
        if schema.get("examples"):
            return shown(schema["examples"][0])
        words = _words(schema)
        return words[0] if words else None

    def near(self, place: Place) -> tuple[str, str] | None:
        """For an unknown last part: the nearest known name, and whether it is ``near`` or stands ``elsewhere``."""
        name = str(place[-1])[:80]
        here = list(self.at(place[:-1]).get("properties", {}))
        homes = self._homes()
        if name in homes:
            return homes[name], "elsewhere"
        close = get_close_matches(name, here, 1, 0.6)
        if close:
            return close[0], "near"
        close = get_close_matches(name, homes, 1, 0.75)
        return (homes[close[0]], "near") if close else None

    def near_word(self, place: Place, given: Any) -> str | None:
        """The accepted word that is nearest to what was given."""
        close = get_close_matches(given[:80], _words(self.at(place)), 1, 0.6) if isinstance(given, str) else []
        return close[0] if close else None

    def _plain(self, schema: Schema) -> Schema:
        """Through references, and past the null of an optional field."""
        while True:
            if "$ref" in schema:
                schema = self.definitions[schema["$ref"].rpartition("/")[2]]
                continue
            choices = [one for one in schema.get("anyOf", ()) if one.get("type") != "null"]
            if "type" in schema or not choices:
                return schema
            schema = {**choices[0], **({"examples": schema["examples"]} if "examples" in schema else {})}

    @cache  # noqa: B019 - guides live as long as the process, one for each request class
    def _homes(self) -> Mapping[str, str]:
        """Where each field of the request stands: name -> pointer with 0 for each list."""
        homes: dict[str, str] = {}
        for name, pointer in self._walk(self.root, ""):
            homes.setdefault(name, pointer)
        return homes

    def _walk(self, schema: Schema, pointer: str) -> Iterator[tuple[str, str]]:
        schema = self._plain(schema)
        for name, inner in schema.get("properties", {}).items():
            yield name, f"{pointer}/{name}"
            yield from self._walk(inner, f"{pointer}/{name}")
        if isinstance(schema.get("items"), Mapping):
            yield from self._walk(schema["items"], f"{pointer}/0")


@cache
def guide_of(model: type[BaseModel]) -> Guide:
    """The guide of a request class, built once."""
    return Guide(model)


def _words(schema: Schema) -> list[str]:
    if "const" in schema:
        return [str(schema["const"])]
    return [str(word) for word in schema.get("enum", ())]


def _accepted(schema: Schema) -> str:  # noqa: PLR0911 - one line for each kind of value
    kind = schema.get("type")
    if words := _words(schema):
        return say("problems", "accepted.one_of", {"words": words})
    if kind in {"number", "integer"}:
        facts = {"low": schema.get("minimum"), "high": schema.get("maximum")}
        return say("problems", "accepted.number" if kind == "number" else "accepted.whole", facts)
    if kind == "string" and schema.get("format") == "date":
        return say("problems", "accepted.day")
    if kind == "string" and schema.get("pattern", PRINTABLE) != PRINTABLE:
        return say("problems", "accepted.text.form")
    if kind == "string" and "pattern" not in schema:
        return say(
            "problems", "accepted.text.lines", {"least": schema.get("minLength"), "most": schema.get("maxLength")}
        )
    if kind == "string":
        return say("problems", "accepted.text", {"least": schema.get("minLength"), "most": schema.get("maxLength")})
    if kind == "array" and "anyOf" in schema:
        return say("problems", "accepted.lengths", {"lengths": [one["minItems"] for one in schema["anyOf"]]})
    if kind == "array":
        least, most = schema.get("minItems", 0), schema.get("maxItems")
        return say("problems", "accepted.list.of" if least == most else "accepted.list", {"least": least, "most": most})
    if kind == "object":
        return say("problems", "accepted.object", {"names": list(schema.get("properties", {}))[:12]})
    return say("problems", {"boolean": "accepted.truth", "null": "accepted.nothing"}.get(str(kind), "accepted.json"))
