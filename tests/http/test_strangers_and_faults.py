"""A strange host, a fault of ours, a log, a crowd and a body that never comes."""

import asyncio
import json
import time
from collections.abc import AsyncIterator
from typing import Any

import httpx
import pytest
from fastapi import Request

from service.app import create_app
from service.settings import Settings
from tests.http.client import SMALLEST, ask, changed, post

SMALL = json.dumps(SMALLEST).encode()


def test_a_strange_host_is_refused_but_not_for_health() -> None:
    refused = ask("GET", "/version", headers={"host": "evil.example"})
    assert refused.status_code == 421
    [told] = refused.json()["errors"]
    assert (told["in"], told["pointer"], told["given"]) == ("header", "host", "evil.example")
    assert told["accepted"]
    assert ask("GET", "/version", headers={"host": "localhost:8080"}).status_code == 200
    assert ask("GET", "/version", headers={"host": "[::1]:8080"}).status_code == 200
    assert ask("GET", "/health/live", headers={"host": "10.0.0.7"}).status_code == 200


def test_a_fault_of_ours_tells_nothing_of_the_inside_or_of_the_request(caplog: pytest.LogCaptureFixture) -> None:
    app = create_app(Settings())

    async def broken(_: Request) -> None:
        message = "secret 54.2"
        raise ZeroDivisionError(message)

    app.add_api_route("/broken", broken)
    answer = ask("GET", "/broken", app=app)
    assert answer.status_code == 500
    assert answer.json()["code"] == "internal"
    assert "ZeroDivision" not in answer.text
    assert "secret" not in answer.text
    assert "ZeroDivisionError" in caplog.text
    assert "secret" not in caplog.text


def test_nothing_of_a_request_is_logged(caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level("DEBUG")
    post("/v1/energy", changed("/arrays/0/name", "telltale"))
    ask("GET", "/v1/climate?latitude_deg=54.231&longitude_deg=12.345")
    ask("GET", "/telltale")
    post("/v1/energy", changed("/telltale", 1))
    ours = [record.getMessage() for record in caplog.records if record.name.startswith("sunsill")]
    assert len(ours) == 4
    assert not any("telltale" in line or "54.231" in line for line in ours)


def test_the_log_names_the_route_by_its_pattern_whatever_the_method(caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level("INFO")
    for method in ("GET", "HEAD", "PUT"):
        ask(method, "/v1/local-rules/DE")
    ask("GET", "/telltale")
    ours = [record.getMessage().split()[:3] for record in caplog.records if record.name == "sunsill.access"]
    pattern = "/v1/local-rules/{area}"
    assert ours == [["GET", pattern, "200"], ["HEAD", pattern, "200"], ["PUT", pattern, "405"], ["GET", "-", "404"]]


def test_too_many_at_once_are_asked_to_come_back() -> None:
    app = create_app(Settings(computing_threads=1, waiting_computations=0))

    async def both() -> list[Any]:
        async with httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url="http://localhost") as client:
            headers = {"content-type": "application/json"}
            asked = [client.post("/v1/appraisal", content=SMALL, headers=headers) for _ in range(3)]
            health = client.get("/health/ready")
            return list(await asyncio.gather(*asked, health))

    *answers, health = asyncio.run(both())
    assert health.status_code == 200
    assert sorted(answer.status_code for answer in answers) == [200, 503, 503]
    refused = next(answer for answer in answers if answer.status_code == 503)
    assert int(refused.headers["retry-after"]) > 0
    assert refused.json()["code"] == "overloaded"


def test_a_body_that_does_not_arrive_is_given_up() -> None:
    app = create_app(Settings(body_seconds=0.1))

    async def slow() -> AsyncIterator[bytes]:
        yield b"{"
        await asyncio.sleep(5)

    began = time.monotonic()
    answer = ask("POST", "/v1/energy", app=app, headers={"content-type": "application/json"}, content=slow())
    assert answer.status_code == 408
    assert time.monotonic() - began < 3
