"""An in-process client of one service for all tests of this folder, and the requests that they vary."""

import asyncio
import json
from copy import deepcopy
from functools import cache
from typing import Any

import httpx
from fastapi import FastAPI

from service.app import create_app
from service.settings import Settings

HOST = "http://localhost"
SMALLEST: dict[str, Any] = {
    "site": {"latitude_deg": 54.2, "longitude_deg": 12.3},
    "arrays": [{"panel": {"rated_power_w": 410}}],
    "inverter": {"ac_power_w": 600},
    "as_of": "2026-11-25",
}
PLAIN: dict[str, Any] = {
    "energy": {"year_kwh": 640},
    "use": {"self_used_share": 0.55},
    "tariff": {
        "currency": "EUR",
        "periods": [{"valid_from": "2026-01-01", "import_price_per_kwh": 0.34, "export": "unpaid"}],
    },
    "outlay": {"items": [{"what": "panels", "amount": 96}, {"what": "inverter", "amount": 149}]},
    "as_of": "2026-11-25",
}
COMPUTING = ("/v1/appraisal", "/v1/energy", "/v1/compatibility", "/v1/payback")


@cache
def service() -> FastAPI:
    """The service with one origin allowed, made once; it answers each question anew."""
    return create_app(Settings(cors_origins=("https://portal.example",), answer_cache_bytes=0))


def ask(
    method: str, path: str, *, app: FastAPI | None = None, headers: dict[str, str] | None = None, content: Any = None
) -> httpx.Response:
    """One request, one answer."""

    async def asked() -> httpx.Response:
        transport = httpx.ASGITransport(app or service())
        async with httpx.AsyncClient(transport=transport, base_url=HOST) as client:
            return await client.request(method, path, headers=headers or {}, content=content)

    return asyncio.run(asked())


def post(path: str, body: Any, accept: str = "application/json", **headers: str) -> httpx.Response:
    """Post a JSON value, or bytes as they are."""
    content = body if isinstance(body, bytes) else json.dumps(body).encode()
    return ask("POST", path, headers={"content-type": "application/json", "accept": accept, **headers}, content=content)


def changed(pointer: str, value: Any, base: dict[str, Any] = SMALLEST) -> dict[str, Any]:
    """A copy of a request with the value at ``pointer`` set; objects on the way are made."""
    request = deepcopy(base)
    *way, last = pointer.split("/")[1:]
    node: Any = request
    for part in way:
        node = node[int(part)] if isinstance(node, list) else node.setdefault(part, {})
    node[last] = value
    return request


def mistakes(answer: httpx.Response) -> dict[str, str]:
    """The mistakes of a problem: pointer -> code."""
    return {one["pointer"]: one["code"] for one in answer.json()["errors"]}


def operated(request: dict[str, Any], operations: list[dict[str, Any]]) -> dict[str, Any]:
    """A copy of a request with the operations ``add``, ``copy`` and ``remove`` of RFC 6902 made on it."""
    request = deepcopy(request)
    for one in operations:
        parts = [int(part) if part.isdigit() else part for part in one["path"].split("/")[1:]]
        node: Any = request
        for part in parts[:-1]:
            node = node[part]
        if one["op"] == "remove":
            del node[parts[-1]]
            continue
        value = request if one["op"] == "copy" else one["value"]
        if one["op"] == "copy":
            for token in one["from"].split("/")[1:]:
                value = value[int(token) if token.isdigit() else token]
            value = deepcopy(value)
        if isinstance(node, list):
            node.insert(len(node) if parts[-1] == "-" else parts[-1], value)
        else:
            node[parts[-1]] = value
    return request
