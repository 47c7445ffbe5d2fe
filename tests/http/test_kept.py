"""Is what the service keeps in memory ever told about another question than its own?"""

import json
from datetime import date
from typing import Any

import httpx
import pytest
from fastapi import FastAPI

from service import app as app_module
from service.api.answers.energy import energy
from service.api.deps import Deps
from service.api.routes import questions
from service.api.routes.desk import KEPT_UP_TO_BYTES
from service.app import create_app
from service.settings import Settings
from tests.http.client import SMALLEST, ask, changed

_TWO: dict[str, Any] = {
    **SMALLEST,
    "arrays": [
        {"input": 1, "plane": {"tilt_deg": 70, "azimuth_deg": 160}, "panel": {"rated_power_w": 410}},
        {"input": 2, "plane": {"tilt_deg": 70, "azimuth_deg": 250}, "panel": {"rated_power_w": 410}},
    ],
}
# Each moves the year of hours, or the d.c. side, or only what comes after it.
_CHANGES: tuple[tuple[str, Any], ...] = (
    ("/site/latitude_deg", 48.1),
    ("/site/elevation_m", 700),
    ("/site/ground_reflectance_share", 0.5),
    ("/arrays/0/panel/age_years", 12),
    ("/arrays/1/plane/azimuth_deg", 90),
    ("/arrays/1/dirt_share", 0.1),
    ("/arrays/0/skyline", [{"azimuth_deg": 0, "height_deg": 30}, {"azimuth_deg": 359, "height_deg": 30}]),
    ("/inverter/inputs", [{"max_current_a": 8}]),
    ("/inverter/set_limit_w", 300),
    ("/money", {"ageing_share_per_year": 0.02}),
)


def _answers(questions: list[dict[str, Any]], **kept: int) -> list[bytes]:
    app = create_app(Settings(answer_cache_size=0, **kept))
    sent = {"content-type": "application/json"}
    return [ask("POST", "/v1/appraisal", app=app, headers=sent, content=json.dumps(q)).content for q in questions]


@pytest.mark.parametrize("size", [1, 3, 100])
def test_what_was_asked_before_changes_no_answer(size: int) -> None:
    asked = [_TWO, *(changed(pointer, value, _TWO) for pointer, value in _CHANGES)]
    first = [
        answer
        for question in asked
        for answer in _answers([question], set_cache_size=1, place_cache_size=1, panel_cache_size=1)
    ]
    assert len(set(first)) == len(asked), "each change is one that the answer shows"
    in_one_service = _answers([*asked, *asked[::-1]], set_cache_size=size, place_cache_size=size, panel_cache_size=size)
    assert in_one_service == [*first, *first[::-1]]


def _counting(monkeypatch: pytest.MonkeyPatch, size: int) -> tuple[FastAPI, list[bytes], list[date]]:
    """A service whose computed bodies are counted, and whose day can be changed."""
    computed: list[bytes] = []
    day = [date(2026, 11, 25)]

    def counted(body: bytes, deps: Deps) -> Any:
        computed.append(body)
        return energy(body, deps)

    monkeypatch.setattr(questions, "energy", counted)
    monkeypatch.setattr(app_module, "today", lambda: day[0])
    return create_app(Settings(answer_cache_size=size)), computed, day


def _energy(app: FastAPI, body: bytes) -> httpx.Response:
    return ask("POST", "/v1/energy", app=app, headers={"content-type": "application/json"}, content=body)


def test_the_same_question_on_the_same_day_is_computed_once_and_answered_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    app, computed, day = _counting(monkeypatch, 2)
    body = json.dumps({name: part for name, part in _TWO.items() if name != "as_of"}).encode()
    first, again = _energy(app, body), _energy(app, body)
    assert first.content == again.content
    assert first.headers["repr-digest"] == again.headers["repr-digest"]
    assert len(computed) == 1
    day[0] = date(2026, 11, 26)
    assert _energy(app, body).json()["as_of"] == "2026-11-26"
    assert len(computed) == 2


def test_no_more_answers_are_kept_than_wanted_none_at_nought_and_none_of_long_questions(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    app, computed, _ = _counting(monkeypatch, 1)
    body = json.dumps(_TWO).encode()
    for one in (body, json.dumps(SMALLEST).encode(), body):
        assert _energy(app, one).status_code == 200
    assert len(computed) == 3
    long = body + b" " * KEPT_UP_TO_BYTES
    for _ in range(2):
        assert _energy(app, long).status_code == 200
    assert len(computed) == 5
    app, computed, _ = _counting(monkeypatch, 0)
    for _ in range(2):
        assert _energy(app, body).status_code == 200
    assert len(computed) == 2


def test_a_refused_question_is_refused_each_time(monkeypatch: pytest.MonkeyPatch) -> None:
    app, _, _ = _counting(monkeypatch, 2)
    assert [_energy(app, b"{}").status_code for _ in range(2)] == [422, 422]
