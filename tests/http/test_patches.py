"""What a remedy says to change can be changed by a program, sent again, and has the verdict that was promised."""

from copy import deepcopy
from typing import Any

import pytest

from tests.http.client import changed, operated, post
from tests.http.test_decision_answers import example, juniper_with_1600_w

KRANICHWERFT = example("kranichwerft")


def strong_panels(plug: str) -> dict[str, Any]:
    """Twice 490 W, where 960 W of panels were published for a household plug."""
    request = changed("/socket_circuit/plug", plug, KRANICHWERFT)
    for at in (0, 1):
        for name, value in (("rated_power_w", 490), ("max_power_voltage_v", 36.6), ("open_circuit_voltage_v", 43.8)):
            request = changed(f"/arrays/{at}/panel/{name}", value, request)
    return request


def two_in_series() -> dict[str, Any]:
    request = deepcopy(KRANICHWERFT)
    panel = request["arrays"][0]["panel"] | {"half_cells": False}  # what was taken and is then told narrows the band
    request["arrays"] = [request["arrays"][0] | {"count": 2, "joined": "series", "panel": panel}]
    return request


def a_string_beside_another() -> dict[str, Any]:
    """Two in series and one more on the same input."""
    request = deepcopy(KRANICHWERFT)
    request["inverter"]["inputs"][0]["max_input_voltage_v"] = 60
    request["arrays"] = [request["arrays"][0] | {"count": 2, "joined": "series"}, request["arrays"][1] | {"input": 1}]
    return request


ASKED = {
    "two fields": (changed("/site/rule_area", "US", juniper_with_1600_w()), {"own_circuit_and_lower_limit"}),
    "fewer panels": (strong_panels("household"), {"fewer_panels"}),
    "a string beside another": (a_string_beside_another(), {"one_panel_per_input"}),
    "a panel an input": (two_in_series(), {"one_panel_per_input"}),
}


@pytest.mark.parametrize("case", sorted(ASKED))
def test_the_patch_of_a_remedy_gives_a_request_with_the_promised_verdict(case: str) -> None:
    request, codes = ASKED[case]
    asked = post("/v1/compatibility", request | {"include": ["used"]}).json()
    seen = set()
    for finding in asked["compatibility"]["findings"]:
        for remedy in finding["remedies"]:
            if not remedy["patch"]:
                continue
            seen.add(remedy["code"])
            again = post("/v1/compatibility", operated(asked["used"], remedy["patch"]))
            assert again.status_code == 200, again.text
            then = [one for one in again.json()["compatibility"]["findings"] if one["code"] == finding["code"]]
            about = [one for one in then if one["about"] == finding["about"]] or then
            verdict = about[0]["verdict"] if about else "fits"  # the question is gone with what it was about
            assert verdict == remedy["verdict_then"], remedy
    assert codes <= seen


def test_the_changes_of_a_decision_can_be_made_by_a_program_and_the_decision_then_hangs_on_none_of_them() -> None:
    asked = post("/v1/appraisal", two_in_series() | {"include": ["used"]}).json()
    request = asked["used"]
    changes = asked["decision"]["once_met"]["changes"]
    assert "one_panel_per_input" in {one["code"] for one in changes}
    for change in changes:
        alone = {"op": "add", "path": change["pointer"], "value": change["new_value"]}
        request = operated(request, change["patch"] or [alone])
    again = post("/v1/appraisal", request).json()
    assert again["compatibility"]["verdict"] != "does_not_fit"
    assert again["energy"]["year_kwh"] == asked["decision"]["once_met"]["year_kwh"]


def test_a_remedy_for_which_a_request_has_no_place_has_no_operations() -> None:
    request = deepcopy(KRANICHWERFT)
    del request["inverter"]["inputs"][0]["max_input_voltage_v"]
    found = post("/v1/compatibility", request).json()["compatibility"]["findings"]
    asking = [r for one in found for r in one["remedies"] if r["code"].startswith("ask_")]
    assert asking
    assert all(remedy["patch"] == [] for remedy in asking)


def test_asking_is_told_to_be_worth_it_where_only_the_worst_answer_refuses() -> None:
    request = deepcopy(KRANICHWERFT)
    del request["inverter"]["inputs"][0]["max_short_circuit_current_a"]
    found = post("/v1/compatibility", request).json()["compatibility"]["findings"]
    asking = [r for one in found for r in one["remedies"] if r["code"] in ("ask_seller", "ask_electrician")]
    refusing = [r for r in asking if r["verdict_then"] == "does_not_fit"]
    assert refusing
    for remedy in asking:
        assert remedy["text"].endswith("a better one can.") == (remedy in refusing)


def test_fewer_panels_are_priced_by_the_year_of_the_set_that_is_left() -> None:
    asked = post("/v1/appraisal", strong_panels("household") | {"include": ["used"]}).json()
    remedies = [r for one in asked["compatibility"]["findings"] for r in one["remedies"]]
    [fewer] = [one for one in remedies if one["code"] == "fewer_panels"]
    left = post("/v1/energy", operated(asked["used"], fewer["patch"])).json()["energy"]["year_kwh"]["middle"]
    whole = asked["energy"]["year_kwh"]["middle"]
    assert fewer["year_kwh_change"] == pytest.approx(left - whole, abs=0.05)
    [weaker] = [one for one in remedies if one["code"] == "weaker_panels"]
    assert weaker["year_kwh_change"] is None  # of other panels nothing but the watts is known


def test_another_inverter_is_promised_with_the_window_that_was_assumed_of_this_one() -> None:
    """Two in series on 60 V; the upper end of tracking, unsaid, would move with the greatest voltage."""
    sheet = {
        "rated_power_w": 440, "open_circuit_voltage_v": 39.4, "short_circuit_current_a": 14.1,
        "max_power_voltage_v": 32.9, "max_power_current_a": 13.38, "cells_in_series": 54,
        "voc_coefficient_pct_per_k": -0.26, "max_system_voltage_v": 1000,
    }  # fmt: skip
    limits = {"max_input_voltage_v": 60, "tracking_min_v": 16, "start_voltage_v": 22, "max_current_a": 14,
              "max_short_circuit_current_a": 18}  # fmt: skip
    request = {
        "site": {"latitude_deg": 54.2, "longitude_deg": 12.3}, "as_of": "2026-11-25",
        "arrays": [{"count": 2, "joined": "series", "panel": sheet, "plane": {"tilt_deg": 90, "azimuth_deg": 150}}],
        "inverter": {"ac_power_w": 800, "input_count": 1, "inputs": [limits]},
    }  # fmt: skip
    answer = post("/v1/appraisal", request).json()
    [cold] = [f for f in answer["compatibility"]["findings"] if f["code"] == "cold_voltage"]
    [other] = [r for r in cold["remedies"] if r["code"] == "other_inverter"]
    again = post("/v1/appraisal", operated(request, other["patch"])).json()
    assert {f["verdict"] for f in again["compatibility"]["findings"] if f["code"] == "cold_voltage"} == {"fits"}
    moved = again["energy"]["year_kwh"]["middle"] - answer["energy"]["year_kwh"]["middle"]
    assert moved == pytest.approx(other["year_kwh_change"], abs=0.1)


def test_one_of_two_strings_moved_apart_can_be_sent_again() -> None:
    """Two in series beside a third on one input: the one that stays says no word that means one string."""
    panel = {"rated_power_w": 440, "open_circuit_voltage_v": 39.4, "short_circuit_current_a": 14.1}
    plane = {"tilt_deg": 90, "azimuth_deg": 150}
    request = {
        "site": {"latitude_deg": 54.2, "longitude_deg": 12.3}, "as_of": "2026-11-25",
        "arrays": [{"input": 1, "count": 2, "joined": "series", "panel": panel, "plane": plane},
                   {"input": 1, "panel": panel, "plane": plane}],
        "inverter": {"ac_power_w": 800, "input_count": 3, "inputs": [
            {"max_input_voltage_v": 60, "tracking_min_v": 16, "max_current_a": 14, "max_short_circuit_current_a": 18}]},
    }  # fmt: skip
    findings = post("/v1/compatibility", request).json()["compatibility"]["findings"]
    patches = [r["patch"] for f in findings for r in f["remedies"] if r["code"] == "one_panel_per_input" and r["patch"]]
    assert patches
    for one in patches:
        assert post("/v1/compatibility", operated(request, one)).status_code == 200
