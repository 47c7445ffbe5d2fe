"""The wind on the panels over HTTP: beside the findings, never among them."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from tests.http.client import SMALLEST, ask, changed, post

KRANICHWERFT = json.loads((Path(__file__).parents[2] / "examples" / "kranichwerft.json").read_text(encoding="utf-8"))
WEAK = {"building_height_m": 18, "capacity_per_panel_n": 500, "railing_height_m": 1.1, "railing_length_m": 1.0}


def fixing(request: dict[str, Any], path: str = "/v1/compatibility") -> dict[str, Any]:
    answer = post(path, request)
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()["fixing"]
    return found


def test_appraisal_and_compatibility_say_the_same_of_the_fixing() -> None:
    assert fixing(KRANICHWERFT) == fixing(KRANICHWERFT, "/v1/appraisal")


def test_a_weak_fixing_is_told_in_words_and_changes_no_verdict() -> None:
    weak = changed("/arrays/0/fixing", WEAK, KRANICHWERFT)
    before, after = (post("/v1/appraisal", request).json() for request in (KRANICHWERFT, weak))
    assert before["compatibility"] == after["compatibility"]
    assert before["decision"] == after["decision"]
    one = after["fixing"]["arrays"][0]
    assert one["capacity_used_share"]["middle"] > 1
    assert {note["code"] for note in one["notes"]} == {
        "capacity_under_load", "glass_over_people", "reaches_past_railing", "wider_than_railing", "carrying",
    }  # fmt: skip
    step = next(step for step in after["steps"] if step["code"] == "fixing_force")
    assert (step["when"], step["facts"]["capacity_n"]) == ("before_fitting", 500)


def test_no_verdict_stands_in_the_answer_on_fixing_and_no_word_of_certainty() -> None:
    for array in (WEAK, {"capacity_per_panel_n": 100_000}):
        text = json.dumps(fixing(changed("/arrays/0/fixing", array, KRANICHWERFT))).lower()
        assert not re.search(r'"verdict"|\bfits\b|does_not_fit|\bsafe\b|\blegal|permitted|\bholds\b(?! it\.)', text)
        assert "en 1991-1-4" in text


def test_what_is_not_described_is_said_to_be_open_and_resolves_in_the_completed_request() -> None:
    silent = {
        **KRANICHWERFT,
        "arrays": [{**one, "fixing": None} for one in KRANICHWERFT["arrays"]],
        "include": ["used"],
    }
    answer = post("/v1/compatibility", silent).json()
    pointers = answer["fixing"]["not_looked_at"]
    assert "/arrays/0/fixing/capacity_per_panel_n" in pointers
    for pointer in pointers:
        node = answer["used"]
        for part in pointer.split("/")[1:]:
            node = node[int(part)] if isinstance(node, list) else node[part]
        assert node is None
    again = post("/v1/compatibility", answer["used"])
    assert again.status_code == 200
    assert again.json()["fixing"]["not_looked_at"] == pointers


def test_the_smallest_request_says_that_the_mount_is_open_and_that_the_wind_was_assumed() -> None:
    found = fixing(SMALLEST)
    assert (found["arrays"], found["not_looked_at"]) == ([], ["/arrays/0/mount"])
    assumptions = {one["pointer"]: one for one in post("/v1/compatibility", SMALLEST).json()["assumptions"]}
    wind = assumptions["/site/basic_wind_velocity_m_per_s"]
    assert wind["low"] < wind["value"] < wind["high"]
    assert "map" in wind["text"]


@pytest.mark.parametrize("field", ["capacity_per_panel_n", "ballast_per_panel_kg", "railing_height_m", "height_m"])
def test_a_value_out_of_bounds_or_an_unknown_name_is_refused_with_its_pointer(field: str) -> None:
    answer = post("/v1/compatibility", changed("/arrays/0/fixing", {field: -5}))
    assert answer.status_code == 422
    assert answer.json()["errors"][0]["pointer"] == f"/arrays/0/fixing/{field}"


def test_the_report_tells_the_forces_in_a_few_lines_with_the_caution() -> None:
    text = post("/v1/appraisal", KRANICHWERFT, accept="text/plain").text
    section = text[text.index("What a storm does") : text.index("\nEnergy\n")]
    assert "left, right:" in section
    assert "EN 1991-1-4" in section
    assert "prove" in section
    assert len(section.splitlines()) <= 18


def test_the_vocabulary_lists_the_notes_and_the_assumption_of_wind() -> None:
    words = ask("GET", "/v1/vocabulary").json()
    assert "glass_over_people" in {one["code"] for one in words["fixing"]}
    assert "wind_without_map" in {one["code"] for one in words["assumptions"]}
    assert {"fixing_force", "many_panels", "many_panels_heat"} <= {one["code"] for one in words["steps"]}
    assert "stale" not in {one["code"] for one in words["findings"]}
