"""A request taken apart: every place in it, what may be put there by mistake, and what the refusal then has to tell."""

import asyncio
import json
from collections.abc import Iterator, Sequence
from copy import deepcopy
from typing import Any

import httpx

from tests.http.client import HOST, service

Place = tuple[str | int, ...]
PROBLEM = {"type", "code", "title", "status", "detail", "instance", "errors"}
MISTAKE = {"code", "in", "pointer", "given", "problem", "accepted", "example"}
# Raw JSON, or what some encoders write instead.
WRONG = (
    "null", '"text"', "true", "NaN", "-Infinity", "-1", "-1e9", "1e308", "[]", '[{"a": [1]}]',
    '{"a": {"b": [null]}}', json.dumps("x" * 5000),
)  # fmt: skip


def places(value: Any, here: Place = ()) -> Iterator[Place]:
    """Every place in a request, leaves and what holds them; of a list its first entry."""
    if here:
        yield here
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from places(inner, (*here, name))
    elif isinstance(value, list) and value:
        yield from places(value[0], (*here, 0))


def put(request: dict[str, Any], place: Sequence[str | int], value: Any) -> dict[str, Any]:
    """A copy with ``value`` at ``place``."""
    copy = deepcopy(request)
    node: Any = copy
    for part in place[:-1]:
        node = node[part]
    node[place[-1]] = value
    return copy


def put_at(request: dict[str, Any], pointer: str, example: str) -> dict[str, Any]:
    """A copy with the example of a mistake at its pointer: as JSON where it is some, else as text."""
    try:
        value = json.loads(example)
    except ValueError:
        value = example
    parts = [int(part) if part.isdigit() else part for part in pointer.split("/")[1:]]
    copy = deepcopy(request)
    node: Any = copy
    for part in parts[:-1]:
        node = node[part] if isinstance(node, list) else node.setdefault(part, {})
    node[parts[-1]] = value
    return copy


def broken(request: dict[str, Any], wrong: Sequence[str] = WRONG) -> Iterator[tuple[str, bytes]]:
    """Bodies with one wrong thing at one place: a name for each, and its bytes."""
    for place in places(request):
        marked = json.dumps(put(request, place, "\0here"))
        for raw in wrong:
            yield f"/{'/'.join(map(str, place))} = {raw[:30]}", marked.replace(r'"\u0000here"', raw).encode()


def answers(path: str, bodies: Sequence[bytes]) -> list[httpx.Response]:
    """One answer for each body."""

    async def asked() -> list[httpx.Response]:
        transport = httpx.ASGITransport(service())
        async with httpx.AsyncClient(transport=transport, base_url=HOST) as client:
            headers = {"content-type": "application/json"}
            return [await client.post(path, content=body, headers=headers) for body in bodies]

    return asyncio.run(asked())


def told_amiss(answer: httpx.Response) -> str:
    """What is wrong with an answer, as a whole or as a refusal; empty where nothing is."""
    if answer.status_code == 200:
        return ""
    problem = answer.json()
    if not 400 <= answer.status_code < 500 or answer.headers["content-type"] != "application/problem+json":
        return f"{answer.status_code} {answer.headers['content-type']}"
    if set(problem) != PROBLEM or not isinstance(problem["detail"], str) or not problem["errors"]:
        return f"no problem of ours: {problem}"
    for one in problem["errors"]:
        if set(one) != MISTAKE or not (one["pointer"] or one["in"] == "body") or not one["problem"]:
            return f"no mistake of ours: {one}"
        if not one["accepted"] or not one["example"] or "None" in one["accepted"] or "accepted: " in one["accepted"]:
            return f"tells not what is accepted: {one}"
    return ""
