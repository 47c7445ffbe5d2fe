"""Is an answer told again only to the same question, to the byte what a service that keeps none would say?"""

import json
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from itertools import chain, repeat
from typing import Any

import httpx
import pytest
from fastapi import FastAPI
from hypothesis import example, given, settings
from hypothesis import strategies as st

from service.api.routes.told_again import Key, ToldAgain, Written
from service.api.routes.workshop import Workshop
from service.app import create_app
from service.settings import Settings
from tests.http.client import PLAIN, SMALLEST, ask, changed

DAY = date(2026, 11, 25)
_PAGE = "https://portal.example"
_SET: dict[str, Any] = {name: value for name, value in SMALLEST.items() if name != "as_of"}
_MONTHS = [f"2026-0{month}-01T00:00:00+02:00" for month in (6, 7, 8)]
_LOG = {"readings": {"kind": "counter", "unit": "kwh", "rows": [[month, 50 * at] for at, month in enumerate(_MONTHS)]}}
_BODIES: tuple[bytes, ...] = (
    # A log's set alone and its table, each sound in one type alone.
    b"# %b\ntime,counter_kwh\n" % json.dumps(SMALLEST).encode()
    + b"".join(b"%b,%d\n" % (month.encode(), 50 * at) for at, month in enumerate(_MONTHS)),
    json.dumps({**SMALLEST, **_LOG}).encode(),
    *(
        json.dumps(one).encode()
        for one in (
            SMALLEST,
            _SET,
            changed("/inverter/ac_power_w", 800),
            changed("/inverter/ac_power_w", "800"),
            {**SMALLEST, **PLAIN},
            PLAIN,
        )
    ),
    json.dumps(SMALLEST, indent=1).encode(),
    json.dumps(SMALLEST).encode()[:-1],
    b"",
    b" " * 5000,
)
_OF_THE_REQUEST = {"request-id", "server-timing"}
_HEADERS = {
    "content-type": ("application/json", "application/json; charset=utf-8", "application/json; charset=latin-1",
                     "text/csv", "text/plain", None),
    "accept": ("application/json", "text/plain", "text/plain;q=0.5, */*", "image/svg+xml", "text/html", None),
    "accept-language": ("de", "en", None),
    "accept-encoding": ("gzip", "identity", None),
    "content-encoding": ("gzip", None),
    "origin": (_PAGE, "https://elsewhere.example", None),
    "host": ("localhost", "evil.example"),
    "request-id": ("abcdefgh-1", None),
}  # fmt: skip
_usual = st.fixed_dictionaries({name: st.just(values[0]) for name, values in _HEADERS.items()})
_any = st.fixed_dictionaries({name: st.sampled_from(values) for name, values in _HEADERS.items()})
_one_other = st.builds(
    lambda usual, one: {**usual, **one},
    _usual,
    st.one_of(*(st.fixed_dictionaries({name: st.sampled_from(values)}) for name, values in _HEADERS.items())),
)
_question = st.tuples(
    st.sampled_from(("/v1/energy", "/v1/compatibility", "/v1/payback", "/v1/appraisal", "/v1/logbook/review")),
    st.sampled_from(("", "", "?a=1", "?a=2")),
    st.one_of(_one_other, _any),
    st.sampled_from(_BODIES),
)
_ADVERT = json.dumps({"adverts": [{"id": "a1", "body": "Two panels 410 W, 60 EUR each"}]}).encode()
Question = tuple[str, str, dict[str, str | None], bytes]


def _service(answer_cache_bytes: int) -> FastAPI:
    return create_app(
        Settings(cors_origins=(_PAGE,), body_limit_bytes=4096, log_limit_bytes=4096,
                 answer_cache_bytes=answer_cache_bytes)
    )  # fmt: skip


@pytest.fixture(scope="module")
def services() -> dict[str, FastAPI]:
    """One that keeps no answers, one that keeps many, and one that has room for a few."""
    return {"none": _service(0), "many": _service(2**26), "few": _service(400_000)}


@pytest.fixture
def computed(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """One entry for each question that was not told again."""
    found: list[int] = []
    run = Workshop.run

    async def counted(self: Workshop, *work: Callable[[], bytes]) -> bytes:
        found.append(1)
        return await run(self, *work)

    monkeypatch.setattr(Workshop, "run", counted)
    return found


def _asked(app: FastAPI, question: Question) -> httpx.Response:
    path, query, headers, body = question
    sent = {name: value for name, value in headers.items() if value is not None}
    return ask("POST", path + query, app=app, headers=sent, content=body)


def _energy(app: FastAPI, body: Any = _SET) -> httpx.Response:
    sent = {"content-type": "application/json"}
    return ask("POST", "/v1/energy", app=app, headers=sent, content=json.dumps(body).encode())


def _as_told(answer: httpx.Response) -> tuple[int, list[tuple[str, str]], bytes]:
    headers = [(name, value) for name, value in answer.headers.multi_items() if name not in _OF_THE_REQUEST]
    # A problem repeats the id of its request.
    content = answer.content.replace(answer.headers["request-id"].encode(), b"ID")
    return answer.status_code, headers, content


def _plain(path: str, body: bytes, **headers: str) -> Question:
    usual: dict[str, str | None] = dict.fromkeys(_HEADERS)
    sent = {name.replace("_", "-"): value for name, value in headers.items()}
    return path, "", {**usual, "host": "localhost", "content-type": "application/json", **sent}, body


@example(questions=[_plain("/v1/logbook/review", body, content_type=media)
                    for body in _BODIES[:2] for media in ("application/json", "text/csv")])  # fmt: skip
@example(questions=[_plain(path, _BODIES[2], accept=media)
                    for path in ("/v1/appraisal", "/v1/energy")
                    for media in ("application/json", "text/plain")])  # fmt: skip
@example(questions=[("/v1/adverts/reading", query, {**_plain("", b"")[2], "accept": "text/html"}, _ADVERT)
                    for query in ("", "?part=fragment", "?part=none")])  # fmt: skip
@settings(max_examples=40, deadline=None)
@given(questions=st.lists(_question, min_size=2, max_size=8))
def test_what_is_kept_changes_no_answer(questions: list[Question], services: dict[str, FastAPI]) -> None:
    for question in (*questions, *questions, *questions):
        told = {name: _asked(app, question) for name, app in services.items()}
        alone = _as_told(told.pop("none"))
        for answer in told.values():
            assert _as_told(answer) == alone
            wanted = question[2]["request-id"]
            assert wanted is None or answer.headers["request-id"] == wanted


def test_a_question_that_came_again_is_told_and_has_headers_of_its_own(computed: list[int]) -> None:
    app = _service(2**20)
    first, _, again = _energy(app), _energy(app), _energy(app)
    assert len(computed) == 2, "once, and once more as it may be worth keeping"
    assert _as_told(first) == _as_told(again)
    assert first.headers["request-id"] != again.headers["request-id"]
    assert len(again.headers.get_list("request-id")) == 1


@pytest.mark.parametrize("room", [0, 1000])
def test_without_room_every_question_is_computed(room: int, computed: list[int]) -> None:
    app = _service(room)
    assert len({_energy(app).content for _ in range(3)}) == 1
    assert len(computed) == 3


@pytest.mark.parametrize("body", [{**_SET, "wrong": 1}, {**_SET, "site": {"latitude_deg": 0, "longitude_deg": -30}}])
def test_a_refusal_is_not_kept(body: dict[str, Any], computed: list[int]) -> None:
    app = _service(2**20)
    assert {_energy(app, body).status_code for _ in range(3)} == {422}
    assert len(computed) == 3


def test_a_new_day_is_a_new_question(monkeypatch: pytest.MonkeyPatch) -> None:
    now = [DAY]
    monkeypatch.setattr("service.app.today", lambda: now[0])
    app = _service(2**20)
    assert {_energy(app).json()["as_of"] for _ in range(3)} == {"2026-11-25"}
    now[0] += timedelta(days=1)
    assert _energy(app).json()["as_of"] == "2026-11-26"


def test_what_was_computed_over_midnight_is_not_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    days: list[Iterator[date]] = []
    monkeypatch.setattr("service.app.today", lambda: next(days[0]))
    app = _service(2**20)
    for _ in range(2):
        days[:] = [chain([DAY], repeat(DAY + timedelta(days=1)))]
        assert _energy(app).json()["as_of"] == "2026-11-26"
    days[0] = repeat(DAY)
    assert _energy(app).json()["as_of"] == "2026-11-25"


def test_of_a_question_only_a_digest_of_this_process_is_kept() -> None:
    body = b"a body, a body"
    keys = [_key(ToldAgain(1), body) for _ in range(2)]
    assert keys[0].body_digest != keys[1].body_digest
    assert not any(body in repr(key).encode() for key in keys)


def _key(kept: ToldAgain, body: bytes) -> Key:
    key = kept.key("/v1/energy", "application/json", "application/json", DAY, body)
    assert key is not None
    return key


def test_a_very_long_question_is_not_kept() -> None:
    assert ToldAgain(2**20).key("/v1/energy", "", "", DAY, b" " * (2**18 + 1)) is None


def test_of_questions_that_came_once_so_many_are_known() -> None:
    kept, answer = ToldAgain(2**20), Written(b"", "")
    keys = [_key(kept, str(number).encode()) for number in range(1025)]
    for key in (*keys, keys[0], keys[-1]):
        kept.keep(key, answer)
    assert kept.found(keys[0]) is None, "too long ago"
    assert kept.found(keys[-1]) is answer


@given(
    room=st.integers(10_000, 40_000),
    steps=st.lists(
        st.tuples(st.sampled_from("abcdefghijkl"), st.integers(60, 103), st.sampled_from([True, False, False])),
        min_size=30,
        max_size=80,
    ),
)
def test_what_is_kept_has_room_and_the_least_lately_used_goes(room: int, steps: list[tuple[str, int, bool]]) -> None:
    kept = ToldAgain(room)
    bodies: dict[str, bytes] = {}  # what has to be there, the least lately used first
    asked = set("abcdefghijk")  # once
    for name in asked:
        kept.keep(_key(kept, name.encode()), Written(b"", ""))
    for name, percent, looks in steps:
        key = _key(kept, name.encode())
        if looks:
            answer = kept.found(key)
            assert (None if answer is None else answer.content) == bodies.get(name)
            if name in bodies:
                bodies[name] = bodies.pop(name)
            continue
        body = name.encode() * ((room // 8 - 1024) * percent // 100)
        kept.keep(key, Written(body, ""))
        if 8 * (len(body) + 1024) <= room:
            if name in asked | set(bodies):
                bodies.pop(name, None)
                bodies[name] = body
                asked.discard(name)
            else:
                asked.add(name)
        while sum(len(one) + 1024 for one in bodies.values()) > room:
            del bodies[next(iter(bodies))]
        assert len(kept) == len(bodies)
        assert kept.held_bytes == sum(len(one) + 1024 for one in bodies.values())
    for name, body in bodies.items():
        answer = kept.found(_key(kept, name.encode()))
        assert answer is not None
        assert answer.content == body
