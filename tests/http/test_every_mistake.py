"""Whatever is wrong at whatever place: is it told where, what is accepted, and with an example that is?"""

import html
import json
from collections.abc import Iterator
from copy import deepcopy
from typing import Any

import pytest

from service.api.schemas.logbook import LogbookIn
from service.api.schemas.mistakes import RefusedRequest
from service.api.schemas.reading import read_value
from service.api.schemas.requests import AppraisalIn, ClimateIn, PaybackIn
from service.api.schemas.shortlist import ShortlistIn
from tests.http.client import PLAIN, SMALLEST, ask, post
from tests.http.walk import WRONG, answers, broken, put_at, told_amiss
from tests.requests import FULL

WHOLE: dict[str, Any] = deepcopy(FULL) | {"as_of": "2026-11-25", "include": ["used"], "weather": {"source": "climate"}}
WHOLE["household"]["demand"] = {"values_w": [210] * 24}
WHOLE["tariff"]["periods"][0] |= {"export": "paid", "export_price_per_kwh": 0.08}
WHOLE["storage"] = {"usable_kwh": 1.6, "coupling": "ac", "amount": 300}
CLIMATE: dict[str, Any] = {"site": {"latitude_deg": 54.2, "longitude_deg": 12.3}}
SERIES: dict[str, Any] = {
    "first": "2025-06-01T10:00:00Z", "step_minutes": 60, "stamp": "end", "ghi_w_per_m2": [400, 410, None, 380],
    "air_c": [17, 18, 19, 20], "wind_m_per_s": [1, 2, 3, 2],
}  # fmt: skip
WEATHER: dict[str, Any] = {**SMALLEST, "weather": {"source": "given", "series": SERIES}}
SHORTLIST: dict[str, Any] = {
    "site": CLIMATE["site"], "wish": "most_value", "limit": 3, "places": [{"mount": "wall", "count": 2}],
    "at_hand": {"inverter": {"ac_power_w": 600}, "panels": [{"rated_power_w": 400}], "items": ["leads"]},
    "new_from_shop": {"outlay": 420, "panel": {"rated_power_w": 440}, "inverter": {"ac_power_w": 800}},
    "outlay": {"items": [{"what": "leads", "amount": 24}], "fetching_per_km": 0.3, "faulty_share": 0.1},
    "adverts": [{
        "id": "a7", "title": "Modul", "body": "400 W, 40 €", "distance_km": 3, "delivery_cost": 4, "fetched_at": "port",
        "panel_count": 2, "posted_on": "2026-11-01", "reading": {
            "kind": "set", "is_offer": True, "quantity_available": 2, "price": {"value": 200, "currency": "EUR",
            "basis": "set"}, "condition": "used", "delivery": {"kind": "either", "cost": 9},
            "doubts": [{"code": "untested"}], "panel": {"rated_power_w": 400}, "inverter": {"ac_power_w": 600},
        },
    }],
}  # fmt: skip
ROWS = [["2025-06-01T10:00:00Z", 210], ["2025-06-01T11:00:00Z", 230], ["2025-06-01T12:00:00Z", None]]
READINGS = {"kind": "interval", "unit": "wh", "stamp": "start", "rows": ROWS}
LOG = {**SMALLEST, "readings": READINGS, "peers": [{"name": "a", "readings": READINGS}]}
EVEN = {"input": 1, "first": "2025-06-01T10:00:00Z", "step_minutes": 60, "values": [210, None, 240]}
LOG_BY_INPUT = {**SMALLEST, "readings": {"kind": "interval", "unit": "kwh", "by_input": [EVEN]}}
SO_FAR = {"logbook": {"logged_kwh": 210, "from_time": "2026-01-01T00:00:00Z", "to_time": "2026-06-01T00:00:00Z"}}
PARTS = {"energy": {"year_kwh": {"cautious": 560, "middle": 640, "hopeful": 700}}}
FEW = ("null", '"text"', "NaN", "-1e9", "[]", '{"a": {"b": [null]}}')


def refusals(path: str, request: dict[str, Any], wrong: tuple[str, ...]) -> Iterator[tuple[str, dict[str, Any], Any]]:
    """The name, the request (where it is one) and the refusal of each broken body; none is amiss."""
    named = list(broken(request, wrong))
    for (name, body), answer in zip(named, answers(path, [body for _, body in named]), strict=True):
        assert told_amiss(answer) == "", (path, name, answer.text)
        if answer.status_code == 422:
            yield name, json.loads(body), answer.json()


def mended(model: type[Any], request: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """The pointers that are still refused with the example of each mistake put in its place."""
    for one in problem["errors"]:
        if one["code"] != "unknown_field":
            request = put_at(request, one["pointer"], one["example"])
        else:  # the example is another name
            node, *way = request, *one["pointer"].split("/")[1:]
            for part in way[:-1]:
                node = node[int(part)] if isinstance(node, list) else node[part]
            node.pop(way[-1])
    try:
        read_value(model, request)
    except RefusedRequest as refused:
        return [mistake.pointer for mistake in refused.mistakes]
    return []


def test_every_place_of_a_whole_request_refuses_what_is_wrong_there_and_tells_what_is_right() -> None:
    count = 0
    for name, request, problem in refusals("/v1/compatibility", WHOLE, WRONG):
        count += 1
        if problem["code"] == "invalid_request":
            left = mended(AppraisalIn, request, problem)
            assert not set(left) & {one["pointer"] for one in problem["errors"]}, (name, problem["errors"], left)
    assert count > 1000


@pytest.mark.parametrize(
    ("path", "model", "request_"),
    [
        ("/v1/appraisal", AppraisalIn, SMALLEST),
        ("/v1/energy", AppraisalIn, SMALLEST),
        ("/v1/energy", AppraisalIn, WEATHER),
        ("/v1/payback", PaybackIn, PLAIN),
        ("/v1/payback", PaybackIn, PLAIN | PARTS),
        ("/v1/payback", PaybackIn, SMALLEST),
        ("/v1/climate", ClimateIn, CLIMATE),
        ("/v1/adverts/shortlist", ShortlistIn, SHORTLIST),
        ("/v1/logbook/review", LogbookIn, LOG),
        ("/v1/logbook/review", LogbookIn, LOG_BY_INPUT),
        ("/v1/payback", PaybackIn, PLAIN | SO_FAR),
    ],
)
def test_so_does_every_other_path(path: str, model: type[Any], request_: dict[str, Any]) -> None:
    for name, request, problem in refusals(path, request_, FEW):
        if problem["code"] == "invalid_request":
            left = mended(model, request, problem)
            assert not set(left) & {one["pointer"] for one in problem["errors"]}, (name, problem["errors"], left)


@pytest.mark.parametrize("body", [b"", b"null", b"[]", b"7", b'"a"', b"{}", b'{"site": 1, "site": 2}', b"[" * 50])
@pytest.mark.parametrize("path", ["/v1/appraisal", "/v1/energy", "/v1/compatibility", "/v1/payback", "/v1/climate"])
def test_a_body_that_is_no_request_is_shown_one_that_is(path: str, body: bytes) -> None:
    answer = post(path, body)
    assert told_amiss(answer) == ""
    whole = [one["example"] for one in answer.json()["errors"] if one["pointer"] == ""]
    for example in whole:
        assert post(path, example.encode()).status_code == 200
    assert whole or body == b"{}"


@pytest.mark.parametrize(
    "path",
    [
        "/v1/climate", "/v1/climate?latitude_deg=54.2", "/v1/climate?latitude_deg=x&longitude_deg=12.3",
        "/v1/climate?latitude_deg=54.2&longitude_deg=12.3&latitude_deg=3", "/v1/climate?latitude_deg=NaN",
        "/v1/climate?latitud=54.2&longitude_deg=12.3", "/v1/climate?latitude_deg=0&longitude_deg=-30",
        "/v1/climate?latitude_deg=1e999&longitude_deg=12.3", "/v1/local-rules/XX", "/v1/local-rules/de",
        "/v1/local-rules/" + "A" * 300, "/v1/local-rules/DE?as_of=tomorrow", "/v1/local-rules/DE?as_of=2026-02-30",
        "/v1/local-rules/DE?on=2026-02-01", "/v1/local-rules/DE?as_of=2026-02-01&as_of=2026-02-02",
    ],
)  # fmt: skip
def test_what_is_wrong_in_an_address_is_told_by_the_name_of_its_part(path: str) -> None:
    answer = ask("GET", path)
    assert 400 <= answer.status_code < 500
    assert told_amiss(answer) == ""
    assert {one["in"] for one in answer.json()["errors"]} <= {"query", "path"}


@pytest.mark.parametrize("path", ["/v1/vocabulary", "/v1/local-rules", "/v1/local-rules/DE"])
def test_a_format_that_is_not_there_is_told_by_its_header(path: str) -> None:
    answer = ask("GET", path, headers={"accept": "image/png"})
    assert answer.status_code == 406
    told = answer.json()["errors"]
    assert [(one["in"], one["pointer"], one["example"]) for one in told] == [("header", "Accept", "application/json")]


@pytest.mark.parametrize(
    ("headers", "pointer"),
    [
        ({}, "Content-Type"),
        ({"content-type": "text/csv"}, "Content-Type"),
        ({"content-type": "application/x-www-form-urlencoded"}, "Content-Type"),
        ({"content-type": "application/json; charset=latin-1"}, "Content-Type"),
        ({"content-type": "application/json", "content-encoding": "gzip"}, "Content-Encoding"),
    ],
)
def test_a_body_of_another_type_is_told_by_its_header(headers: dict[str, str], pointer: str) -> None:
    body = json.dumps(SMALLEST).encode()
    answer = ask("POST", "/v1/energy", headers=headers, content=body)
    assert answer.status_code == 415
    [told] = answer.json()["errors"]
    assert (told["in"], told["pointer"]) == ("header", pointer)
    right = {"content-type": "application/json", **headers, pointer.lower(): told["example"]}
    assert ask("POST", "/v1/energy", headers=right, content=body).status_code == 200


def test_a_body_that_is_too_large_is_told_by_its_length() -> None:
    answer = post("/v1/energy", b" " * 3_000_000)
    assert answer.status_code == 413
    assert told_amiss(answer) == ""
    [told] = answer.json()["errors"]
    assert (told["pointer"], told["given"]) == ("Content-Length", "3000000")
    assert post("/v1/energy", json.dumps(SMALLEST).encode().ljust(int(told["example"]))).status_code == 200


@pytest.mark.parametrize(
    ("short", "known"), [("lon", "longitude_deg"), ("lat", "latitude_deg"), ("Elev", "elevation_m")]
)
def test_the_beginning_of_a_name_is_near_to_it(short: str, known: str) -> None:
    request = put_at(SMALLEST, f"/site/{short}", "3")
    assert [one["example"] for one in post("/v1/energy", request).json()["errors"]] == [known]


@pytest.mark.parametrize("accept", ["text/plain", "text/html"])
def test_text_and_page_tell_the_examples_too(accept: str) -> None:
    request = {"site": {"latitude_deg": "x", "longitude_deg": 12.3}, "inverter": {"ac_power_w": 600}}
    answer = post("/v1/appraisal", request, accept=f"{accept}, application/json;q=0.1")
    told = [one["example"] for one in post("/v1/appraisal", request).json()["errors"]]
    shown = " ".join(html.unescape(answer.text).split())
    assert answer.headers["content-type"].startswith(accept)
    assert all(one in shown for one in told)


@pytest.mark.parametrize(("latitude", "longitude"), [(0, -30), (85, 0), (-75, 120), (-45.5, -120)])
def test_a_place_without_weather_is_told_at_both_coordinates(latitude: float, longitude: float) -> None:
    site = {"latitude_deg": latitude, "longitude_deg": longitude}
    request = SMALLEST | {"site": site}
    answer = post("/v1/compatibility", request)
    told = {one["pointer"]: one for one in answer.json()["errors"]}
    assert set(told) == {"/site/latitude_deg", "/site/longitude_deg"}
    assert told["/site/latitude_deg"]["given"] == str(latitude)
    assert "-57 to 72" in told["/site/latitude_deg"]["accepted"]
    for one in told.values():
        request = put_at(request, one["pointer"], one["example"])
    assert post("/v1/compatibility", request).status_code == 200


@pytest.mark.parametrize(
    ("code", "near"), [("EUX", "EUR"), ("eur", "EUR"), ("ABC", None), ("DEM", None), ("XXX", None), ("XAU", None)]
)
def test_a_currency_that_is_none_is_refused_with_the_nearest(code: str, near: str | None) -> None:
    tariff = {"currency": code, "periods": [{"import_price_per_kwh": 0.3}]}
    answer = post("/v1/payback", PLAIN | {"tariff": tariff})
    [told] = answer.json()["errors"]
    assert (told["pointer"], told["given"]) == ("/tariff/currency", code)
    assert "ISO 4217" in told["accepted"]
    assert near is None or told["example"] == near
    tariff["currency"] = told["example"]
    assert post("/v1/payback", PLAIN | {"tariff": tariff}).status_code == 200


def test_the_vocabulary_lists_every_field_that_is_served_and_none_that_is_not() -> None:
    vocabulary = ask("GET", "/v1/vocabulary").json()
    fields = {one["pointer"]: one for one in vocabulary["fields"]}
    assert {"/site/latitude_deg", "/arrays/0/panel/rated_power_w", "/energy/year_kwh", "/tariff/currency"} <= set(
        fields
    )
    assert {"/tilt/objective", "/tilt/map/tilt_step_deg", "/site/sun_seen/0/month"} <= set(fields)
    assert all(one["accepted"] and one["example"] for one in fields.values())
    assert "EUR" in next(one["words"] for one in vocabulary["words"] if one["name"] == "currency")


def test_a_long_list_of_names_says_that_it_goes_on_and_where_and_names_none_that_is_refused() -> None:
    request = SMALLEST | {"battery_kwh": 2, "household": "two people"}
    told = {one["pointer"]: one for one in post("/v1/appraisal", request).json()["errors"]}
    assert "GET /v1/vocabulary" in told["/battery_kwh"]["accepted"]
    assert "more" in told["/battery_kwh"]["accepted"]
    for one in told.values():
        assert one["accepted"]
        assert one["example"] != "battery_kwh"
