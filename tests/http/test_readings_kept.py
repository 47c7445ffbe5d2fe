"""A reading told from memory is the same as made anew, whoever stands beside it, and of that very advert."""

import json
from typing import Any

import pytest

from service.api.answers import readings
from service.app import create_app
from service.settings import Settings
from tests.http.client import ask
from tests.http.shortlist_asked import SMALL

PANELS = {"id": "p", "title": "4 panels", "body": "Four used solar panels, 400 W, £45 each, collection from Wick only."}
OTHERS = [
    {"id": f"o{at}", "body": f"Four used solar panels, 400 W, £{price} each, collection from {place} only."}
    for at, (price, place) in enumerate(
        ((95, "Ely"), (98, "Diss"), (92, "Hythe"), (97, "Settle"), (99, "Bude"), (20, "Alston"))
    )
]
# Each is another advert, though most of it is the same.
LIKE_IT: tuple[dict[str, Any], ...] = (
    {"title": "2 panels"},
    {"body": PANELS["body"].replace("45", "46")},
    {"price_text": "£40 each"},
    {"language": "de"},
    {"title": None},
)


def told(app: Any, *adverts: dict[str, Any]) -> list[dict[str, Any]]:
    sent = {"adverts": [{name: value for name, value in one.items() if value is not None} for one in adverts]}
    answer = ask("POST", "/v1/adverts/reading", app=app, content=json.dumps(sent).encode(),
                 headers={"content-type": "application/json"})  # fmt: skip
    assert answer.status_code == 200, answer.text
    found: list[dict[str, Any]] = answer.json()["readings"]
    return found


def anew() -> Any:
    return create_app(Settings(answer_cache_bytes=0))


@pytest.fixture
def app() -> Any:
    return anew()


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The bodies that were really read."""
    bodies: list[str] = []
    reads = readings.read_with_text

    def counted(advert: Any, words: Any) -> Any:
        bodies.append(advert.body)
        return reads(advert, words)

    monkeypatch.setattr(readings, "read_with_text", counted)
    return bodies


def test_what_the_others_raise_is_asked_anew_each_time(app: Any) -> None:
    alone, among = told(app, PANELS), told(app, *OTHERS, PANELS)
    assert among == told(anew(), *OTHERS, PANELS)
    doubts = [{doubt["code"] for doubt in one["doubts"]} for one in among]
    assert ["far_under_others" in one for one in doubts] == [False] * 5 + [True, False]
    twice = told(app, PANELS, {**PANELS, "id": "again"})
    assert "same_advert_again" in {doubt["code"] for doubt in twice[1]["doubts"]}
    assert told(app, PANELS) == alone  # nobody else's doubt sticks to what is kept


@pytest.mark.parametrize("change", LIKE_IT)
def test_another_advert_is_read_by_itself(change: dict[str, Any], app: Any) -> None:
    told(app, PANELS)
    other = {**PANELS, **change}
    assert told(app, other) == told(anew(), other)


def test_a_shortlist_reads_nothing_that_was_just_read(app: Any, read: list[str]) -> None:
    told(app, PANELS, *OTHERS)
    assert len(read) == 1 + len(OTHERS)
    sent = json.dumps({**SMALL, "adverts": [PANELS, *OTHERS]}).encode()
    headers = {"content-type": "application/json"}
    answer = ask("POST", "/v1/adverts/shortlist", app=app, headers=headers, content=sent)
    assert answer.status_code == 200, answer.text
    assert len(read) == 1 + len(OTHERS)
    del read[:]
    fresh = ask("POST", "/v1/adverts/shortlist", app=anew(), headers=headers, content=sent)
    assert len(read) == 1 + len(OTHERS)
    assert answer.json() == fresh.json()


def test_long_texts_are_not_kept(app: Any, read: list[str]) -> None:
    long = {"id": "l", "body": PANELS["body"] + " nice" * 1000}
    told(app, long)
    told(app, long)
    assert len(read) == 2
