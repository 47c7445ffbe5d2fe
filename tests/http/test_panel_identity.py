"""Which panel is it, asked over HTTP: by hand, by a program, by a page that embeds it."""

import json
from pathlib import Path
from typing import Any

import pytest

from service.api.words.english.identity import TEXTS
from tests.http.client import SMALLEST, ask, changed, mistakes, post
from tests.http.test_document import checker

PATH = "/v1/panel-identity"
SIXTY: dict[str, Any] = {"rated_power_w": 275, "length_mm": 1640, "width_mm": 992, "cells_visible": 60}
LABEL = "Pmax 330 W\nUoc 40,9 V\nIsc 10,25 A\nUmpp 34,1 V Impp 9,68 A\n60 cells\nMax. Systemspannung 1000 V"
EXAMPLES = sorted((Path(__file__).parents[2] / "examples" / "panels").glob("*.json"))


def identity(**request: Any) -> dict[str, Any]:
    answer = post(PATH, {"as_of": "2026-11-25", **request})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()["identity"]
    return found


def codes(found: dict[str, Any]) -> list[str]:
    return [doubt["code"] for doubt in found["doubts"]]


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_examples_and_their_answers_keep_to_the_document(file: Path) -> None:
    document = ask("GET", "/openapi.json").json()
    request = json.loads(file.read_text(encoding="utf-8"))
    checker(document, "PanelIdentityIn").validate(request)
    answer = post(PATH, request)
    checker(document, "PanelIdentityOut").validate(answer.json())
    assert answer.json()["identity"]["candidates"]


def test_an_old_panel_without_papers_is_told_by_power_size_and_cells() -> None:
    found = identity(**SIXTY)
    first = found["candidates"][0]
    assert (first["found_in"], first["panel"]["cells_in_series"]) == ("public_list", 60)
    assert set(first["ranges"]) >= {"open_circuit_voltage_v", "short_circuit_current_a"}
    assert found["ranges"]["open_circuit_voltage_v"]["low"] > 36
    assert found["read_next"][0]["code"] in {"open_circuit_voltage_v", "short_circuit_current_a"}


def test_a_candidate_can_be_pasted_into_another_request_and_holds_nothing_that_was_only_guessed() -> None:
    for request in (SIXTY, {"label_text": LABEL}, {"rated_power_w": 410}, {"rated_power_w": 80, "cell_kind": "cdte"}):
        for one in identity(**request)["candidates"]:
            panel = one["panel"]
            if "label_text" not in request:
                assert "open_circuit_voltage_v" not in panel
            answer = post("/v1/compatibility", changed("/arrays/0/panel", panel))
            assert answer.status_code == 200, answer.text


def test_a_candidate_without_read_ratings_stays_not_known_to_the_checks() -> None:
    panel = identity(**SIXTY)["candidates"][0]["panel"]
    findings = post("/v1/compatibility", changed("/arrays/0/panel", panel)).json()["compatibility"]["findings"]
    cold = next(one for one in findings if one["code"] == "cold_voltage")
    assert cold["verdict"] == "not_known"


def test_a_label_is_read_with_the_place_of_every_claim() -> None:
    found = identity(label_text=LABEL)
    for claim in found["claims"]:
        assert " ".join(LABEL[claim["start"] : claim["end"]].split()) == claim["words"]
    first = found["candidates"][0]
    assert first["found_in"] == "label"
    assert first["panel"]["open_circuit_voltage_v"] == 40.9
    assert first["panel"]["max_system_voltage_v"] == 1000
    assert "max_system_voltage_v" not in [one["code"] for one in found["read_next"]]


def test_a_label_that_contradicts_itself_is_told_and_its_ratings_are_not_handed_on() -> None:
    found = identity(label_text="Pmax 330 W Voc 20.9 V Isc 10.25 A")
    assert {"fill_factor", "nothing_agrees"} <= set(codes(found))
    assert found["candidates"]  # by its power alone
    for one in found["candidates"]:
        assert "open_circuit_voltage_v" not in one["panel"]


def test_a_voltage_at_another_temperature_is_not_taken() -> None:
    found = identity(label_text="Pmax 330 W\nVoc at -10 °C: 44.9 V")
    assert codes(found) == ["not_at_stc"]
    assert all("open_circuit_voltage_v" not in one["panel"] for one in found["candidates"])


def test_an_invented_code_is_not_on_the_list_and_that_says_little() -> None:
    found = identity(model_code="HL-330")
    assert codes(found) == ["code_not_listed"]
    assert found["candidates"] == []
    assert [one["code"] for one in found["read_next"]] == ["rated_power_w"]


def test_text_without_a_figure_says_that_nothing_was_read() -> None:
    assert codes(identity(label_text="a fine panel, hardly used")) == ["nothing_read"]


@pytest.mark.parametrize(
    ("request_", "pointer", "code"),
    [({}, "/rated_power_w", "missing"), ({"length_mm": 1640}, "/rated_power_w", "missing"),
     ({"rated_power_w": 3}, "/rated_power_w", "out_of_range"),
     ({"rated_power_w": "275"}, "/rated_power_w", "not_a_number"),
     ({"label_text": ""}, "/label_text", "wrong_length"), ({"label_text": "9" * 20_001}, "/label_text", "wrong_length"),
     ({"label_text": 5}, "/label_text", "not_text"), ({"rated_power_w": 275, "cells": 60}, "/cells", "unknown_field"),
     ({"rated_power_w": 275, "cells_visible": 60.5}, "/cells_visible", "not_whole"),
     ({"rated_power_w": 275, "cell_kind": "glass"}, "/cell_kind", "not_one_of"),
     ({"model_code": "HL\n330"}, "/model_code", "wrong_form")],
)  # fmt: skip
def test_what_cannot_be_read_is_refused_with_its_place(request_: Any, pointer: str, code: str) -> None:
    answer = post(PATH, request_)
    assert answer.status_code == 422
    assert mistakes(answer) == {pointer: code}


@pytest.mark.parametrize(
    "text", ["\0" * 20_000, "\u202e38,5 V Voc" * 1500, "1 x " * 5000, "Pmax " * 4000, "é" * 20_000]
)
def test_hostile_labels_are_harmless_and_never_come_back_as_they_are(text: str) -> None:
    answer = post(PATH, {"label_text": text})
    assert answer.status_code == 200
    assert "\0" not in answer.text
    assert "\u202e" not in answer.text
    assert len(answer.content) < 200_000


@pytest.mark.parametrize("request_", [SIXTY, {"label_text": LABEL}, {"rated_power_w": 410}, {"rated_power_w": 37}])
def test_on_paper_it_stays_within_72_columns_and_rounds_its_ranges_outwards(request_: Any) -> None:
    answer = post(PATH, request_, accept="text/plain")
    assert answer.headers["content-type"] == "text/plain; charset=utf-8"
    assert max(len(line) for line in answer.text.split("\n")) <= 72
    assert answer.text.startswith("Which panel it can be")
    reach = identity(**request_)["candidates"][0]["ranges"]["short_circuit_current_a"]
    line = next(line for line in answer.text.split("\n") if "short-circuit current:" in line)
    figures = [float(word) for word in line.split() if word.replace(".", "").isdigit()]
    assert figures[0] <= reach["low"]
    assert figures[-1] >= reach["high"] - 1e-9


def test_other_formats_are_not_served() -> None:
    assert post(PATH, SIXTY, accept="text/html").status_code == 406


def test_the_order_of_fields_changes_no_byte() -> None:
    backwards = dict(reversed(SIXTY.items()))
    assert post(PATH, SIXTY).content == post(PATH, backwards).content


def test_an_old_panel_in_an_appraisal_says_that_its_ratings_come_from_the_list() -> None:
    request = changed(
        "/arrays/0/panel", {key: value for key, value in SIXTY.items() if key != "cells_visible"}, SMALLEST
    )
    told = {one["pointer"]: one for one in post("/v1/appraisal", request).json()["assumptions"]}
    voltage = told["/arrays/0/panel/open_circuit_voltage_v"]
    assert voltage["code"] == "public_list"
    assert "label" in voltage["text"]
    assert voltage["low"] < voltage["value"] < voltage["high"]


@pytest.mark.parametrize("key", sorted(TEXTS))
def test_no_sentence_says_what_nobody_can_promise(key: str) -> None:
    words = set(TEXTS[key].lower().replace(".", " ").split())
    assert not words & {"safe", "safely", "legal", "legally", "allowed"}
