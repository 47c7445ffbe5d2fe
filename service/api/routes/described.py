"""How is an operation described in the interface document? Every operation the same way, from a few words."""

from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel
from starlette.requests import Request
from starlette.responses import Response

from service.api.problems import STATUS
from service.api.render.accept import CSV, HTML, JSON, SVG, TEXT

Parameter = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Operation:
    """The operation object of the document, and the classes of its body and its answer."""

    spec: dict[str, Any]
    body: type[BaseModel] | None
    answer: type[BaseModel] | None


@dataclass(frozen=True, slots=True)
class Served:
    """A path, what answers there, and how it is described."""

    path: str
    handle: Callable[[Request], Awaitable[Response]]
    operation: Operation
    method: str = "GET"


# What may go wrong wherever there is a body, and everywhere.
WITH_BODY = ("malformed_json", "body_timeout", "body_too_large", "unsupported_media_type", "invalid_request")
NO_ANSWER = ("no_climate", "contradiction")  # of a set at a place
ANYWHERE = ("unknown_host", "internal", "overloaded")
# Two hundred adverts with all their claims, each sign of them escaped, and more than any other answer.
_LONGEST_ON_PAPER = 16_000_000
HEADERS = ("Request-Id", "Server-Timing", "Content-Language", "Vary", "Cache-Control")


def described(  # noqa: PLR0913 - an operation has these parts
    name: str,
    summary: str,
    text: str,
    *,
    tag: str,
    answer: type[BaseModel] | None,
    body: type[BaseModel] | None = None,
    formats: Sequence[str] = (JSON,),
    parameters: Sequence[Parameter] = (),
    problems: Sequence[str] = (),
    fresh: bool = False,
    as_table: str = "",
) -> Operation:
    """The operation. ``problems`` are codes beside those of every operation; ``fresh`` answers carry no ETag.

    ``as_table``: how a body of text/csv is written, where the path takes one.
    """
    codes = {*ANYWHERE, *problems, *(WITH_BODY if body else ())}
    if not fresh or len(formats) > 1:
        codes.add("not_acceptable")
    own = ("Repr-Digest",) if body else () if fresh else ("ETag",)
    spec: dict[str, Any] = {
        "operationId": name,
        "tags": [tag],
        "summary": summary,
        "description": text,
        "parameters": list(parameters),
        "responses": {
            "200": {
                "description": "The answer.",
                "headers": {header: {"$ref": f"#/components/headers/{header}"} for header in (*HEADERS, *own)},
                "content": {media: {"schema": _schema(media, answer)} for media in formats},
            },
            **({} if body or fresh else {"304": {"$ref": "#/components/responses/NotModified"}}),
            **{str(status): {"$ref": f"#/components/responses/Problem{status}"} for status in _statuses(codes)},
        },
    }
    if body:
        spec["requestBody"] = {"required": True, "content": {JSON: {"schema": reference(body)}}}
    if as_table:
        table = {"type": "string", "maxLength": 8 * 1024 * 1024, "description": as_table}
        spec["requestBody"]["content"][CSV] = {"schema": table}
    return Operation(spec, body, answer)


def reference(model: type[BaseModel]) -> dict[str, str]:
    """A reference to the component of a class."""
    return {"$ref": f"#/components/schemas/{model.__name__}"}


def parameter(name: str, place: str, description: str, schema: dict[str, Any], *, required: bool) -> Parameter:
    """A parameter in the query or the path."""
    return {"name": name, "in": place, "required": required, "description": description, "schema": schema}


def _statuses(codes: set[str]) -> list[int]:
    return sorted({STATUS[code] for code in codes})


def _schema(media: str, answer: type[BaseModel] | None) -> dict[str, Any]:
    if media in {TEXT, HTML, SVG}:
        return {"type": "string", "maxLength": _LONGEST_ON_PAPER}
    return reference(answer) if answer else {"type": "object"}
