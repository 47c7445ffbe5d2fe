import gzip
import json
from collections.abc import AsyncIterator
from typing import Any

import pytest

from tests.http.client import COMPUTING, SMALLEST, ask, changed, mistakes, post, service

SMALL = json.dumps(SMALLEST).encode()


def with_raw(pointer: str, raw: str) -> bytes:
    """The smallest request with raw JSON text put at a pointer."""
    return json.dumps(changed(pointer, "RAW")).replace('"RAW"', raw).encode()


MALFORMED: dict[str, bytes] = {
    "empty": b"",
    "spaces": b"   ",
    "cut off": SMALL[:-1],
    "two documents": SMALL + SMALL,
    "comma at the end": b'{"a": 1,}',
    "single quotes": b"{'a': 1}",
    "comment": b'{"a": 1} // one',
    "not a number": with_raw("/site/latitude_deg", "NaN"),
    "infinity": with_raw("/site/latitude_deg", "-Infinity"),
    "leading nought": with_raw("/site/latitude_deg", "054.2"),
    "the same key twice": b'{"site": {"latitude_deg": 1, "latitude_deg": 2}}',
    "half of a pair": with_raw("/arrays/0/name", r'"\ud83d"'),
    "half of a pair in a key": b'{"\\udc00": 1}',
    "latin-1": '{"arrays": "é"}'.encode("latin-1"),
    "utf-16": json.dumps(SMALLEST).encode("utf-16"),
    "control character": b'{"a": "\x01"}',
    "deep list": b"[" * 100_000,
    "deep object": b'{"a":' * 50_000 + b"1" + b"}" * 50_000,
    "deep within a text's shadow": b'{"a": "\\"[", "b": ' + b"[" * 40 + b"]" * 40 + b"}",
}


@pytest.mark.parametrize("name", MALFORMED)
def test_what_is_no_json_document_is_refused_as_malformed(name: str) -> None:
    answer = post("/v1/appraisal", MALFORMED[name])
    assert answer.status_code == 400, answer.text
    assert answer.json()["code"] == "malformed_json"


def test_texts_cut_within_a_character_are_all_told_at_their_places() -> None:
    body = rb"""{"adverts": [{"id": "a", "title": "whole \ud83d\udd06"}, {"id": "b", "title": "cut \ud83d"},
             {"id": "c", "body": "\udd06 and on"}, {"id": "d", "t\ud83d": "x"}]}"""
    answer = post("/v1/adverts/reading", body)
    assert answer.status_code == 400, answer.text
    first, second, key = answer.json()["errors"]
    assert [one["pointer"] for one in (first, second)] == ["/adverts/1/title", "/adverts/2/body"]
    assert key["pointer"].startswith("/adverts/3/t")
    assert first["given"] == "cut \N{REPLACEMENT CHARACTER}"
    assert first["accepted"] == "text of 0 to 1000 characters"
    assert all(one["example"] and "character" in one["problem"] for one in (first, second, key))


def test_a_byte_order_mark_is_overlooked() -> None:
    assert post("/v1/energy", b"\xef\xbb\xbf" + SMALL).status_code == 200


def test_brackets_inside_a_text_are_not_nesting() -> None:
    answer = post("/v1/energy", changed("/arrays/0/name", "[{" * 25))
    assert answer.status_code == 200


LOG = {"first": "2025-01-01T00:00", "step_minutes": 60, "values_w": [1] * 24}

UNUSABLE: dict[str, tuple[str, Any, str]] = {
    "number as text": ("/site/latitude_deg", "54.2", "not_a_number"),
    "number as truth": ("/arrays/0/panel/rated_power_w", True, "not_a_number"),
    "truth as number": ("/site/children", 1, "not_true_or_false"),
    "pole": ("/site/latitude_deg", 90.5, "out_of_range"),
    "no power": ("/inverter/ac_power_w", 0, "out_of_range"),
    "negative power": ("/arrays/0/panel/rated_power_w", -410, "out_of_range"),
    "no arrays": ("/arrays", [], "wrong_count"),
    "nine arrays": ("/arrays", [SMALLEST["arrays"][0]] * 9, "wrong_count"),
    "arrays as object": ("/arrays", {}, "not_a_list"),
    "array as list": ("/arrays", [[]], "not_an_object"),
    "site as text": ("/site", "here", "not_an_object"),
    "part of an input": ("/arrays/0/input", 1.5, "not_whole"),
    "input nought": ("/arrays/0/input", 0, "out_of_range"),
    "unknown word": ("/arrays/0/mount", "hung_on_rial", "not_one_of"),
    "word as number": ("/arrays/0/mount", 3, "not_one_of"),
    "30 February": ("/as_of", "2026-02-30", "wrong_form"),
    "no day": ("/as_of", "tomorrow", "wrong_form"),
    "time of a day": ("/as_of", "2026-11-25T10:00:00Z", "wrong_form"),
    "25 o'clock": ("/arrays/0/shade", [
        {"months": [5], "from_clock": "25:00", "to_clock": "18:00", "blocked_share": 0.5}], "wrong_form"),
    "unknown zone": ("/site/time_zone", "Europe/Nordmole", "not_one_of"),
    "path as zone": ("/site/time_zone", "../../etc/passwd", "wrong_form"),
    "lower-case area": ("/site/rule_area", "de", "wrong_form"),
    "long name": ("/arrays/0/name", "n" * 61, "wrong_length"),
    "empty name": ("/arrays/0/name", "", "wrong_length"),
    "two lines": ("/arrays/0/name", "a\nb", "wrong_form"),
    "turned writing": ("/arrays/0/name", "a\u202eb", "wrong_form"),
    "storage that holds nothing": ("/storage", {"usable_kwh": 0}, "out_of_range"),
    "tilt in other words": ("/tilt", {"objective": "pounds"}, "not_one_of"),
    "other generation in other words": ("/household", {"other_generation": {"kw": 3}}, "unknown_field"),
    "other generation without a size": ("/household", {"other_generation": {"plane": {}}}, "contradiction"),
    "other generation twice": (
        "/household",
        {"other_generation": {"values_w": [1] * 8760, "year_kwh": 3000}},
        "contradiction",
    ),
    "hours and a log": ("/household", {"demand": {"values_w": [1] * 24, "log": LOG}}, "contradiction"),
    "a filled share beside a log": ("/household", {"demand": {"log": LOG, "filled_share": 0.1}}, "contradiction"),
    "neither hours nor a log": ("/household", {"demand": {}}, "contradiction"),
    "own hours of a day": ("/household", {"demand": {"values_w": [1] * 24, "kind": "own_hours"}}, "contradiction"),
    "uneven steps": (
        "/household",
        {"demand": {"log": {"first": "2025-01-01T00:00", "step_minutes": 7, "values_w": [1] * 24}}},
        "contradiction",
    ),
    "a log from 30 February": (
        "/household",
        {"demand": {"log": {"first": "2025-02-30T00:00", "step_minutes": 60, "values_w": [1] * 24}}},
        "wrong_form",
    ),
    "a log that knows nothing": (
        "/household",
        {"demand": {"log": {"first": "2025-02-28T00:00", "step_minutes": 15, "values_w": [None] * 96}}},
        "contradiction",
    ),
    "given weather": ("/weather", {"source": "elsewhere"}, "not_one_of"),
    "given weather without hours": ("/weather", {"source": "given"}, "missing"),
    "unknown include": ("/include", ["everything"], "not_one_of"),
    "25 hours": ("/household", {"demand": {"values_w": [100] * 25}}, "wrong_count"),
    "too many hours": ("/household", {"demand": {"values_w": [100] * 8785}}, "wrong_count"),
    "negative price": ("/tariff", {"currency": "EUR", "periods": [
        {"valid_from": "2026-01-01", "import_price_per_kwh": -0.3, "export": "unpaid"}]}, "out_of_range"),
    "currency of four letters": ("/tariff", {"currency": "EURO", "periods": [{"import_price_per_kwh": 0.3}]},
                                 "wrong_length"),
}  # fmt: skip


@pytest.mark.parametrize("name", UNUSABLE)
@pytest.mark.parametrize("path", COMPUTING)
def test_what_cannot_be_used_is_refused_where_it_stands(name: str, path: str) -> None:
    pointer, value, code = UNUSABLE[name]
    answer = post(path, changed(pointer, value))
    assert answer.status_code == 422, answer.text
    found = mistakes(answer)
    assert [one for at, one in found.items() if at.startswith(pointer)] == [code], found


@pytest.mark.parametrize("raw", ["1e999", "9" * 5000, "-" + "9" * 400, "1" + "0" * 30])
def test_a_number_beyond_all_bounds_is_out_of_range(raw: str) -> None:
    for pointer in ("/site/latitude_deg", "/arrays/0/count"):
        answer = post("/v1/appraisal", with_raw(pointer, raw))
        assert answer.status_code == 422
        assert mistakes(answer)[pointer] in {"out_of_range", "not_whole"}
        assert all(len(one["given"]) <= 200 for one in answer.json()["errors"])


CONTRADICTIONS: dict[str, tuple[str, Any, str]] = {
    "an input that is not there": ("/inverter", {"ac_power_w": 600, "input_count": 1}, "/arrays/0/input"),
    "three limits for two inputs": ("/inverter", {"ac_power_w": 600, "input_count": 2, "inputs": [{}, {}, {}]},
                                    "/inverter/inputs"),
    "a limit above the rating": ("/inverter", {"ac_power_w": 600, "set_limit_w": 800}, "/inverter/set_limit_w"),
    "a window upside down": ("/inverter", {"ac_power_w": 600, "inputs": [{"tracking_min_v": 50, "tracking_max_v": 20}]},
                             "/inverter/inputs/0/tracking_min_v"),
    "evening before morning": ("/household", {"at_home": {"weekday": [[23, 6]]}}, "/household/at_home/weekday/0"),
}  # fmt: skip


@pytest.mark.parametrize("name", CONTRADICTIONS)
def test_parts_that_cannot_both_hold_are_a_contradiction_with_its_place(name: str) -> None:
    pointer, value, where = CONTRADICTIONS[name]
    base = changed("/arrays/0/input", 2) if where == "/arrays/0/input" else SMALLEST
    answer = post("/v1/appraisal", changed(pointer, value, base))
    assert answer.status_code == 422, answer.text
    assert answer.json()["code"] == "contradiction"
    assert where in mistakes(answer)


def test_several_contradictions_are_all_told_at_once() -> None:
    request = changed(
        "/arrays/0/input", 3, changed("/inverter", {"ac_power_w": 600, "set_limit_w": 800, "input_count": 2})
    )
    assert set(mistakes(post("/v1/energy", request))) == {"/arrays/0/input", "/inverter/set_limit_w"}


def test_one_coefficient_in_two_units_is_a_contradiction() -> None:
    panel = {"rated_power_w": 410, "voc_coefficient_pct_per_k": -0.26, "voc_coefficient_v_per_k": -0.1}
    answer = post("/v1/energy", changed("/arrays", [{"panel": panel}]))
    assert mistakes(answer) == {"/arrays/0/panel/voc_coefficient_v_per_k": "contradiction"}


@pytest.mark.parametrize(("latitude", "longitude"), [(0, -30), (85, 0), (-75, 120), (54.5, -20)])
def test_at_sea_and_near_the_poles_nothing_is_invented(latitude: float, longitude: float) -> None:
    site = {"latitude_deg": latitude, "longitude_deg": longitude}
    for path in COMPUTING:
        answer = post(path, changed("/site", site))
        assert answer.status_code == 422
        assert answer.json()["code"] == "no_climate"
    assert ask("GET", f"/v1/climate?latitude_deg={latitude}&longitude_deg={longitude}").json()["code"] == "no_climate"


def test_a_place_without_weather_is_named_by_its_compass_directions_and_told_what_to_try() -> None:
    detail = post("/v1/energy", changed("/site", {"latitude_deg": -45.5, "longitude_deg": -120})).json()["detail"]
    assert "45.5 S, 120 W" in detail
    assert "inland" in detail


def test_a_refusal_tells_what_is_accepted_and_not_only_that_it_was_refused() -> None:
    tariff = {"currency": "€", "periods": [{"import_price_per_kwh": 0.3}]}
    request = changed("/tariff", tariff, changed("/as_of", "1999-12-31", changed("/arrays/0/name", "a\nb")))
    request["household"] = {"at_home": {"weekday": [[8]]}}
    told = {one["pointer"]: one["accepted"] for one in post("/v1/appraisal", request).json()["errors"]}
    assert "2000-01-01" in told["/as_of"]
    assert "one line" in told["/arrays/0/name"]
    assert "ISO 4217" in told["/tariff/currency"]
    assert told["/household/at_home/weekday/0"] == "a list of 2 entries"


def test_null_where_a_value_must_be_is_a_missing_value() -> None:
    answer = post("/v1/energy", changed("/site/latitude_deg", None, changed("/inverter", None)))
    assert mistakes(answer) == {"/site/latitude_deg": "missing", "/inverter": "missing"}
    assert mistakes(post("/v1/energy", changed("/arrays", [None]))) == {"/arrays/0": "not_an_object"}


def test_a_contradiction_shows_what_was_given() -> None:
    answer = post("/v1/payback", {**SMALLEST, "energy": {"year_kwh": 500}})
    given = {one["pointer"]: one["given"] for one in answer.json()["errors"]}
    assert "410" in given["/arrays"]


def test_several_mistakes_are_all_told_at_once() -> None:
    request = changed("/site/latitude_deg", 91, changed("/inverter/ac_power_w", "600", changed("/as_of", "soon")))
    assert mistakes(post("/v1/appraisal", request)) == {
        "/site/latitude_deg": "out_of_range",
        "/inverter/ac_power_w": "not_a_number",
        "/as_of": "wrong_form",
    }


def test_at_most_fifty_mistakes_are_told_and_the_answer_stays_small() -> None:
    request = {**SMALLEST, **{f"unknown_{n}" * 50: "x" * 5000 for n in range(200)}}
    answer = post("/v1/appraisal", request)
    assert len(answer.json()["errors"]) == 50
    assert len(answer.content) < 65_536
    long_list = post("/v1/energy", changed("/household", {"demand": {"values_w": ["x"] * 8760}}))
    assert len(long_list.json()["errors"]) == 50


@pytest.mark.parametrize(
    ("pointer", "near"),
    [
        ("/site/latitud_deg", "latitude_deg"),
        ("/arrays/0/panel/rated_power_watt", "rated_power_w"),
        ("/arrays/0/tilt_deg", "/arrays/0/plane/tilt_deg"),
        ("/invertor", "inverter"),
    ],
)
def test_an_unknown_field_is_refused_with_the_nearest_known_one(pointer: str, near: str) -> None:
    answer = post("/v1/appraisal", changed(pointer, 3))
    entry = next(one for one in answer.json()["errors"] if one["pointer"] == pointer)
    assert entry["code"] == "unknown_field"
    assert near in entry["problem"]


def test_a_large_body_is_refused_before_it_is_read_whole() -> None:
    answer = post("/v1/appraisal", b" " * 10_000_000)
    assert answer.status_code == 413
    assert answer.headers["connection"] == "close"
    pieces = 0

    async def endless() -> AsyncIterator[bytes]:
        nonlocal pieces
        while pieces < 1000:
            pieces += 1
            yield b" " * 65_536

    chunked = ask("POST", "/v1/appraisal", headers={"content-type": "application/json"}, content=endless())
    assert chunked.status_code == 413
    assert pieces < 300


def test_a_body_of_too_many_values_is_refused() -> None:
    assert post("/v1/appraisal", b"[" + b"0," * 230_000 + b"0]").status_code == 413


def test_a_compressed_body_is_refused_unopened() -> None:
    bomb = gzip.compress(b" " * 1_000_000)
    answer = post("/v1/appraisal", bomb, **{"content-encoding": "gzip"})
    assert answer.status_code == 415


def test_a_body_without_its_type_is_refused_with_a_hint() -> None:
    for kind in ({}, {"content-type": "application/x-www-form-urlencoded"}, {"content-type": "text/plain"}):
        answer = ask("POST", "/v1/energy", headers=kind, content=SMALL)
        assert answer.status_code == 415
        assert "Content-Type: application/json" in answer.json()["detail"]
    latin = ask("POST", "/v1/energy", headers={"content-type": "application/json; charset=latin-1"}, content=SMALL)
    assert latin.status_code == 415
    utf8 = ask("POST", "/v1/energy", headers={"content-type": 'Application/JSON; charset="UTF-8"'}, content=SMALL)
    assert utf8.status_code == 200


def test_a_wrong_method_is_told_the_right_ones_before_anything_about_the_body() -> None:
    for method, path, allow in (
        ("GET", "/v1/appraisal", {"POST", "OPTIONS"}),
        ("DELETE", "/v1/climate", {"GET", "HEAD", "POST", "OPTIONS"}),
        ("POST", "/version", {"GET", "HEAD", "OPTIONS"}),
        ("BREW", "/v1/vocabulary", {"GET", "HEAD", "OPTIONS"}),
    ):
        answer = ask(method, path, headers={"content-type": "text/plain"}, content=b"x")
        assert answer.status_code == 405
        assert set(answer.headers["allow"].split(", ")) == allow
        assert answer.json()["code"] == "method_not_allowed"
        [told] = answer.json()["errors"]
        assert (told["in"], told["pointer"], told["given"]) == ("header", ":method", method)
        assert told["example"] in allow
    options = ask("OPTIONS", "/v1/climate")
    assert options.status_code == 204
    assert "POST" in options.headers["allow"]


def test_an_unknown_path_is_a_problem_too() -> None:
    for path in ("/", "/v1", "/v1/appraisal/", "/v2/appraisal", "/%00", "/docs/../x", "//version", "/" + "a" * 3000):
        answer = ask("GET", path)
        assert answer.status_code == 404, path
        assert answer.json()["code"] == "not_found"
        assert len(answer.content) < 2000
        [told] = answer.json()["errors"]
        assert told["in"] == "path"
        assert ask("GET", told["example"]).status_code in {200, 405}
    assert ask("POST", "/v1/apraisal").json()["errors"][0]["example"] == "/v1/appraisal"


@pytest.mark.parametrize(
    "query",
    [
        "", "latitude_deg=54.2", "latitude_deg=54.2&longitude_deg=x", "latitude_deg=54.2&longitude_deg=12.3&zoom=3",
        "latitude_deg=54.2&latitude_deg=54.2&longitude_deg=12.3", "latitude_deg=NaN&longitude_deg=12.3",
        "latitude_deg=1e999&longitude_deg=12.3", "latitude_deg=91&longitude_deg=12.3",
        "latitude_deg=%00&longitude_deg=12.3", "latitude_deg=&longitude_deg=12.3",
    ],
)  # fmt: skip
def test_a_query_is_read_as_strictly_as_a_body(query: str) -> None:
    answer = ask("GET", f"/v1/climate?{query}")
    assert answer.status_code == 422, answer.text
    assert all(one["in"] == "query" for one in answer.json()["errors"])
    assert answer.json()["errors"]


NAUGHTY = (
    "<script>alert(1)</script>", "'; DROP TABLE panels; --", "{0.__class__}", "%s%s%n", "../../etc/passwd", "${7*7}",
    "ﷺ" * 20, "\U0001f468\u200d\U0001f469\u200d\U0001f467", "Ω≈ç√∫˜µ", "null", "undefined", "1/0", "True",
)  # fmt: skip


@pytest.mark.parametrize("text", NAUGHTY)
def test_naughty_names_are_names(text: str) -> None:
    request = changed("/arrays/0/name", text)
    answer = post("/v1/appraisal", request)
    assert answer.status_code == 200
    assert answer.json()["energy"]["arrays"][0]["name"] == text
    report = post("/v1/appraisal", request, accept="text/plain")
    assert report.status_code == 200
    assert max(len(line) for line in report.text.split("\n")) <= 72


def test_the_service_goes_on_after_all_of_this() -> None:
    for body in MALFORMED.values():
        post("/v1/appraisal", body)
    assert ask("GET", "/health/live", app=service()).json() == {"status": "alive"}
    assert post("/v1/appraisal", SMALLEST).status_code == 200
