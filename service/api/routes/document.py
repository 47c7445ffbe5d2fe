"""Which document describes the interface? OpenAPI 3.1, made from the routes and the classes of requests and answers."""

from collections.abc import Mapping, Sequence
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import models_json_schema

from service.api.problems import STATUS
from service.api.render.accept import HTML, PROBLEM, TEXT
from service.api.routes.described import Served, reference
from service.api.schemas.problem import ProblemOut
from service.api.words import say

Schema = dict[str, Any]
LONGEST_TEXT, LONGEST_LIST, LARGEST_INTEGER = 4000, 10_000, 2_147_483_647

_HEADERS: Mapping[str, tuple[str, int]] = {
    "Request-Id": ("Name of this request in the log; your own where you sent one.", 64),
    "Server-Timing": ("Time that the answer took, in milliseconds.", 100),
    "Content-Language": ("Language of the texts.", 20),
    "Vary": ("Request headers that the answer depends on.", 200),
    "Cache-Control": ("Whether and how the answer may be kept.", 100),
    "ETag": ("Strong validator of the answer's bytes.", 70),
    "Repr-Digest": ("SHA-256 of the answer's bytes (RFC 9530).", 100),
    "Retry-After": ("Seconds after which to try again.", 10),
    "Allow": ("Methods that the path takes.", 60),
}
_TAGS = (
    ("questions", "Questions about a set, a place and a home."),
    ("tables", "What the answers rest on."),
    ("operation", "Health, version, this document."),
)


def document(served: Sequence[Served], version: str) -> Schema:
    """The whole document, in a fixed order: the same paths give the same document."""
    paths: dict[str, dict[str, Any]] = {}
    for one in served:
        paths.setdefault(one.path, {})[one.method.lower()] = one.operation.spec
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "Sunsill",
            "version": version,
            "summary": "Is this plug-in solar set worth buying for this home?",
            "description": (
                "One question a path, one vocabulary for all of them. Requests refuse what they do not know and name "
                "the nearest known field; null means absent. Answers may grow: ignore what you do not know. Errors "
                "are problem details (RFC 9457). Texts are in English for now, whatever Accept-Language asks. Nothing "
                "of a request is kept or logged."
            ),
        },
        "servers": [{"url": "/", "description": "The service that serves this document."}],
        "tags": [{"name": name, "description": text} for name, text in _TAGS],
        "security": [{}],
        "paths": paths,
        "components": {
            "schemas": _schemas(served),
            "responses": _responses(),
            "headers": {
                name: {"description": text, "schema": {"type": "string", "maxLength": longest}}
                for name, (text, longest) in _HEADERS.items()
            },
        },
    }


def _responses() -> Schema:
    codes: dict[int, list[str]] = {}
    for code, status in STATUS.items():
        codes.setdefault(status, []).append(code)
    found: Schema = {"NotModified": {"description": "What you have is still the answer."}}
    for status, names in sorted(codes.items()):
        own = {503: ("Retry-After",), 405: ("Allow",)}.get(status, ())
        found[f"Problem{status}"] = {
            "description": " / ".join(f"{say('problems', f'title.{name}')} (`{name}`)" for name in names),
            "headers": {
                name: {"$ref": f"#/components/headers/{name}"}
                for name in ("Request-Id", "Content-Language", "Vary", "Cache-Control", *own)
            },
            "content": {
                PROBLEM: {"schema": reference(ProblemOut)},
                TEXT: {"schema": {"type": "string", "maxLength": 65536}},
                HTML: {"schema": {"type": "string", "maxLength": 65536}},
            },
        }
    return found


def _schemas(served: Sequence[Served]) -> Schema:
    """Every class of requests and answers, nulls written short, every answer's text and list bounded."""
    bodies = {one.operation.body for one in served} - {None}
    answers = {one.operation.answer for one in served} - {None} | {ProblemOut}
    models: list[tuple[type[BaseModel], Any]] = [
        *((model, "validation") for model in bodies if model),
        *((model, "serialization") for model in answers if model),
    ]
    models.sort(key=lambda pair: pair[0].__name__)
    _, made = models_json_schema(models, ref_template="#/components/schemas/{model}")
    found = {}
    for name, schema in sorted(made["$defs"].items()):
        tidy = _tidied(schema)
        tidy["title"] = name
        found[name] = tidy if name.endswith("In") else _bounded(tidy)
    return found


def _tidied(node: Any) -> Any:
    """Without made-up titles and null defaults; ``anyOf`` with null becomes a list of types where that is possible."""
    if isinstance(node, list):
        return [_tidied(item) for item in node]
    if not isinstance(node, dict):
        return node
    if "$component" in node:
        said = {"description": node["description"]} if "description" in node else {}
        return {"$ref": f"#/components/schemas/{node['$component']}", **said}
    tidy: Schema = {
        key: _tidied_names(value) if key == "properties" else value if key == "examples" else _tidied(value)
        for key, value in node.items()
        if key != "title" and not (key == "default" and value is None)
    }
    choices = tidy.get("anyOf", [])
    if {"type": "null"} in choices and len(choices) == 2:
        one = next(choice for choice in choices if choice != {"type": "null"})
        if isinstance(one.get("type"), str):
            rest = {key: value for key, value in tidy.items() if key != "anyOf"}
            tidy = {**one, **rest, "type": [one["type"], "null"]}
            if "enum" in one:
                tidy["enum"] = [*one["enum"], None]
            if "const" in one:
                tidy["enum"] = [tidy.pop("const"), None]
    return tidy


def _tidied_names(properties: Mapping[str, Any]) -> Schema:
    return {name: _tidied(schema) for name, schema in properties.items()}


def _bounded(node: Any) -> Any:
    """An answer's schema with an upper end for each text, list and integer that has none."""
    if isinstance(node, list):
        return [_bounded(item) for item in node]
    if not isinstance(node, dict):
        return node
    found = {key: value if key == "examples" else _bounded(value) for key, value in node.items()}
    kinds = found.get("type", [])
    kinds = [kinds] if isinstance(kinds, str) else kinds
    if "string" in kinds and "enum" not in found and "const" not in found:
        found.setdefault("maxLength", LONGEST_TEXT)
    if "array" in kinds:
        found.setdefault("maxItems", LONGEST_LIST)
    if "integer" in kinds:
        found.setdefault("minimum", -LARGEST_INTEGER)
        found.setdefault("maximum", LARGEST_INTEGER)
        found.setdefault("format", "int32")
    return found
