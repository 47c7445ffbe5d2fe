"""What does a request accept at a given place? Read from the schema of its class, for messages to the caller."""

from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches
from functools import cache
from typing import Any

from pydantic import BaseModel

from service.api.fields import PRINTABLE
from service.api.long_lists import long_lists
from service.api.schemas.mistakes import NOTHING, as_example
from service.api.words import say

Schema = Mapping[str, Any]
Place = tuple[str | int, ...]
MOST_SHOWN = 200  # entries of an example
MOST_NAMES = 12  # of an object, in a message; the vocabulary lists all


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
            node = self._plain(_choices(node)[-1])
            inner = node.get("items", {}) if isinstance(part, int) else node.get("properties", {}).get(part, {})
            node = inner if isinstance(inner, Mapping) else {}
        return self._plain(node)

    def accepted(self, place: Place) -> str:
        """What is accepted at ``place``, as a phrase."""
        schema, name = self.at(place), _name(place)
        return " or ".join(self._accepted(self._plain(one), name) for one in _choices(schema))

    def example(self, place: Place) -> str:
        """An example of what is accepted at ``place``: text as it is, all else as JSON."""
        return as_example(self._example(self.at(place)))

    def near(self, place: Place) -> tuple[str, str] | None:
        """For an unknown last part: the nearest known name, and whether it is ``near`` or stands ``elsewhere``."""
        name = str(place[-1])[:80]
        homes = self._homes()
        if name in homes:
            return homes[name], "elsewhere"
        here = self._served(self.at(place[:-1]))
        begun = [known for known in here if len(name) > 1 and known.startswith(name.casefold())]  # lon, lat
        close = begun or get_close_matches(name, here, 1, 0.6)
        if close:
            return close[0], "near"
        close = get_close_matches(name, homes, 1, 0.75)
        return (homes[close[0]], "near") if close else None

    def nearest(self, place: Place) -> str:
        """For an unknown last part that resembles nothing: still the name that is accepted there and least unlike."""
        here = self._served(self.at(place[:-1]))
        return get_close_matches(str(place[-1])[:80], here, 1, 0.0)[0] if here else NOTHING

    def near_word(self, place: Place, given: Any) -> str | None:
        """The accepted word that is nearest to what was given, in whatever case that was written."""
        words = _words(self.at(place)) or long_lists().get(_name(place), ())
        folded = {word.casefold(): word for word in words}
        typed = given[:80].casefold() if isinstance(given, str) else ""
        close = get_close_matches(typed, folded, 5, 0.6)
        begun = [word for word in close if word[:2] == typed[:2]]  # EUX is rather EUR than UGX
        return folded[(begun or close)[0]] if close else None

    def fields(self) -> Iterator[tuple[str, str, str]]:
        """Every field that is served, with 0 for each list: pointer, what is accepted, an example."""
        for place in self._places(self.root, ()):
            yield "".join(f"/{part}" for part in place), self.accepted(place), self.example(place)

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
        for place in self._places(self.root, ()):
            homes.setdefault(_name(place), "".join(f"/{part}" for part in place))
        return homes

    def _places(self, schema: Schema, place: Place) -> Iterator[Place]:
        schema = self._plain(schema)
        for name in self._served(schema):
            yield (*place, name)
            yield from self._places(schema["properties"][name], (*place, name))
        if isinstance(schema.get("items"), Mapping):
            yield from self._places(schema["items"], (*place, 0))

    def _served(self, schema: Schema) -> list[str]:
        """The names of an object's fields, without those that are not served yet: they take null alone."""
        found = schema.get("properties", {})
        return [name for name, inner in found.items() if self._plain(inner).get("type") != "null"]

    def _example(self, schema: Schema) -> Any:
        """A small valid value: what must be there, or the first thing that may be."""
        schema = self._plain(schema)
        if "examples" in schema:
            return schema["examples"][0]
        if (first := _choices(schema)[0]) is not schema:
            return self._example(first)
        if words := _words(schema):
            return words[0]
        kind = schema.get("type")
        if kind == "object":
            names = schema.get("required") or self._served(schema)[:1]
            return {name: self._example(schema["properties"][name]) for name in names}
        if kind == "array":
            one, least = self._example(schema["items"]), max(1, schema.get("minItems", 1))
            # a year of hours is not written out: its beginning, as text
            return [one] * least if least <= MOST_SHOWN else f"[{', '.join([as_example(one)] * 3)}, …]"
        return True if kind == "boolean" else None

    def _accepted(self, schema: Schema, name: str) -> str:
        if schema.get("type") != "object":
            return _accepted(schema, name)
        names = self._served(schema)
        more = len(names) - MOST_NAMES
        facts = {"names": names[:MOST_NAMES], "more": more}
        return say("problems", "accepted.object.more" if more > 0 else "accepted.object", facts)


@cache
def guide_of(model: type[BaseModel]) -> Guide:
    """The guide of a request class, built once."""
    return Guide(model)


def _name(place: Place) -> str:
    """The field's name: the last part that is no place in a list."""
    return next((part for part in reversed(place) if isinstance(part, str)), "")


def _choices(schema: Schema) -> Sequence[Schema]:
    """The alternatives of a value; an object's ``oneOf`` tells which of its fields go together and is none."""
    return (schema,) if "type" in schema else schema.get("oneOf", (schema,))


def _words(schema: Schema) -> list[str]:
    if "const" in schema:
        return [str(schema["const"])]
    return [str(word) for word in schema.get("enum", ())]


def _accepted(schema: Schema, name: str) -> str:  # noqa: PLR0911 - one line for each kind of value
    kind = schema.get("type")
    if words := _words(schema):
        return say("problems", "accepted.one_of", {"words": words})
    if kind in {"number", "integer"}:
        facts = {"low": schema.get("minimum"), "high": schema.get("maximum")}
        return say("problems", "accepted.number" if kind == "number" else "accepted.whole", facts)
    if kind == "string" and schema.get("format") == "date":
        return say("problems", "accepted.day")
    if kind == "string" and schema.get("pattern", PRINTABLE) != PRINTABLE:
        return say("problems", f"accepted.form.{name}")
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
    return say(
        "problems", {"boolean": "accepted.truth", "null": "accepted.not_served_yet"}.get(str(kind), "accepted.json")
    )
