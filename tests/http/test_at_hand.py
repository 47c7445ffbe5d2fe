"""An answer of which all is kept is put together in the loop: the same answer, and others in between."""

import asyncio
import json
import threading
from typing import Any

import httpx
import pytest

from service.api.answers.energy import energy, energy_at_hand
from service.api.render.json import as_json
from service.api.routes.workshop import Workshop
from service.api.schemas.mistakes import RefusedRequest
from service.app import create_app, deps_of
from service.core.completion import fill_set
from service.core.errors import SunsillError
from service.core.model.memo import NotKeptError
from service.settings import Settings
from tests.http.client import HOST, SMALLEST, changed

DEPS = deps_of(Settings())
KEPT = DEPS.only_kept()
_PERIOD = {"valid_from": "2026-01-01", "import_price_per_kwh": 0.34, "export": "paid", "export_price_per_kwh": 0.08}
SHORT: tuple[dict[str, Any], ...] = (
    SMALLEST,
    changed("/household", {"demand_kwh_per_year": 2100, "machines": [], "other_generation": {"panel_power_w": 3000}}),
    changed("/site", {"latitude_deg": 54.2, "longitude_deg": 12.3, "people_below": True, "children": None}),
    changed("/tariff", {"currency": "EUR", "periods": [_PERIOD]}),
    changed("/socket_circuit", {"plug": "household", "other_sets": [{"ac_power_w": 300}]}),
    changed("/outlay", {"items": [{"what": "panels", "amount": 100}]}),
    changed("/meter", {"counts": "reversing"}),
    changed("/arrays", [{"panel": {"rated_power_w": 410, "age_years": 6}, "mount": "wall", "count": 2}]),
)
LONG: tuple[dict[str, Any], ...] = (
    changed("/include", ["hours"]),
    changed("/include", ["what_if"]),
    changed("/include", ["moves"]),
    changed("/inverter/export_limit_w", 200),
    changed("/household", {"demand": {"values_w": [100] * 24}}),
    changed("/tariff", {"currency": "EUR", "periods": [{**_PERIOD, "rates": [{"import_price_per_kwh": 0.2}]}]}),
    changed("/storage", {"usable_kwh": 1.6}),
    changed("/site/sun_seen", [{"month": 6, "day": 21, "from_clock": "12:10", "to_clock": "19:00"}]),
)


def text(request: dict[str, Any]) -> bytes:
    return json.dumps(request).encode()


@pytest.mark.parametrize("request_", SHORT)
def test_what_is_kept_is_told_as_it_was_computed(request_: dict[str, Any]) -> None:
    computed = as_json(energy(text(request_), DEPS))
    assert as_json(energy_at_hand(text(request_), KEPT)) == computed


@pytest.mark.parametrize("pointer", ["/site/latitude_deg", "/inverter/ac_power_w", "/downtime_days_per_year"])
def test_a_place_a_set_and_a_year_that_are_not_kept_are_not_made(pointer: str) -> None:
    energy(text(SMALLEST), DEPS)
    kept = [len(memo) for memo in (DEPS.places, DEPS.sets, DEPS.years, DEPS.told_years)]
    with pytest.raises(NotKeptError):
        energy_at_hand(text(changed(pointer, 51.234)), KEPT)
    assert [len(memo) for memo in (DEPS.places, DEPS.sets, DEPS.years, DEPS.told_years)] == kept


@pytest.mark.parametrize("request_", LONG)
def test_what_takes_longer_is_left_to_the_pool_though_it_was_computed_before(request_: dict[str, Any]) -> None:
    energy(text(request_), DEPS)
    with pytest.raises(NotKeptError):
        energy_at_hand(text(request_), KEPT)


@pytest.mark.parametrize(
    "body",
    [b"", b"{", b"null", text(changed("/wrong", 1)), text(SMALLEST)[:-1] + b', "as_of": "2026-11-25"}',
     text(changed("/site/time_zone", "Nowhere/At_all")), text(SMALLEST) + b" " * 20_000],
)  # fmt: skip
def test_what_is_wrong_is_worded_in_the_pool(body: bytes) -> None:
    energy(text(SMALLEST), DEPS)
    with pytest.raises(NotKeptError):
        energy_at_hand(body, KEPT)


def test_a_contradiction_is_the_same_from_both() -> None:
    american = {**SMALLEST, "site": {**SMALLEST["site"], "rule_area": "US"}}
    body = text(changed("/socket_circuit", {"cable_mm2": 14}, american))
    energy(text(SMALLEST), DEPS)
    told = []
    for answer, deps in ((energy, DEPS), (energy_at_hand, KEPT)):
        with pytest.raises(SunsillError) as error:
            answer(body, deps)
        told.append((type(error.value), str(error.value)))
    assert told[0] == told[1]


def test_the_loop_tells_what_is_kept_and_the_pool_computes_the_rest() -> None:
    workshop = Workshop(1, 0)
    here = threading.get_ident()

    def not_kept() -> int:
        raise NotKeptError

    async def asked() -> tuple[int, int, int]:
        return (
            await workshop.run(threading.get_ident, threading.get_ident),
            await workshop.run(threading.get_ident, not_kept),
            await workshop.run(threading.get_ident),
        )

    at_hand, tried, computed = asyncio.run(asked())
    assert at_hand == here
    assert here not in {tried, computed}
    assert workshop.in_hand == 0
    workshop.close()


def test_one_answer_a_turn_is_put_together_so_that_others_come_between() -> None:
    workshop = Workshop(1, 9)
    seen: list[str] = []

    async def other() -> None:
        for _ in range(5):
            seen.append("other")
            await asyncio.sleep(0)

    async def asked() -> None:
        answers = [workshop.run(lambda: seen.append("pool"), lambda: seen.append("answer")) for _ in range(4)]
        await asyncio.gather(*answers, other())

    asyncio.run(asked())
    assert seen.count("answer") == 4
    assert "answer,answer" not in ",".join(seen)
    workshop.close()


def test_who_waits_for_a_turn_counts_as_waiting() -> None:
    workshop = Workshop(1, 1)

    async def asked() -> list[Any]:
        answers = [workshop.run(lambda: "pool", lambda: "at hand") for _ in range(5)]
        return await asyncio.gather(*answers, return_exceptions=True)

    told = asyncio.run(asked())
    refused = [one for one in told if isinstance(one, RefusedRequest)]
    assert told.count("at hand") == 1 + 2
    assert len(refused) == 2
    assert all(one.code == "overloaded" for one in refused)
    workshop.close()


def test_health_and_known_sets_are_answered_while_a_long_one_computes(monkeypatch: pytest.MonkeyPatch) -> None:
    app = create_app(Settings(computing_threads=1, waiting_computations=5, answer_cache_bytes=0))
    begun, go_on, made = threading.Event(), threading.Event(), fill_set.arrays_of

    def waits(*args: Any, **named: Any) -> Any:
        begun.set()
        assert go_on.wait(30)
        return made(*args, **named)

    async def asked() -> tuple[Any, ...]:
        async with httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url=HOST) as client:

            async def post(request: dict[str, Any]) -> httpx.Response:
                sent = {"content-type": "application/json"}
                return await client.post("/v1/energy", content=text(request), headers=sent)

            first = await post(SMALLEST)
            monkeypatch.setattr(fill_set, "arrays_of", waits)
            long = asyncio.create_task(post(changed("/inverter/ac_power_w", 555)))
            while not begun.is_set() and not long.done():
                await asyncio.sleep(0)
            again, health = await post(SMALLEST), await client.get("/health/ready")
            computing = not long.done()
            go_on.set()
            return first, again, health, await long, computing

    first, again, health, long, computing = asyncio.run(asked())
    assert computing, "the long one went on meanwhile"
    assert {answer.status_code for answer in (first, again, health, long)} == {200}
    assert again.content == first.content
