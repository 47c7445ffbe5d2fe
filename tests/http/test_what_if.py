"""What the set would give with one thing changed is what a question about the changed set says."""

from copy import deepcopy
from typing import Any

import pytest

from tests.http.client import SMALLEST, changed, mistakes, operated, post
from tests.http.test_decision_answers import example
from tests.http.test_given_weather import given, june, year_ghi

KRANICHWERFT, JUNIPER = example("kranichwerft"), example("juniper_bench")
INPUT = {
    "max_input_voltage_v": 120, "tracking_min_v": 16, "tracking_max_v": 100, "start_voltage_v": 22,
    "max_current_a": 30, "max_short_circuit_current_a": 60,
}  # fmt: skip
PANEL = {
    "rated_power_w": 410, "open_circuit_voltage_v": 37.2, "short_circuit_current_a": 13.9, "max_power_voltage_v": 31.2,
    "max_power_current_a": 13.14, "age_years": 0,
}  # fmt: skip


def wide(*arrays: dict[str, Any], inputs: int = 2, **inverter: Any) -> dict[str, Any]:
    """Arrays on an inverter that bears two in series or in parallel."""
    return {
        **SMALLEST,
        "arrays": [
            {"mount": "ground_frame", "plane": {"tilt_deg": 30, "azimuth_deg": 180}, "panel": PANEL} | one
            for one in arrays
        ],
        "inverter": {"ac_power_w": 800, "input_count": inputs, "inputs": [INPUT] * inputs, **inverter},
    }


SHADED = {"shade": [
    {"months": [4, 5, 6, 7, 8, 9], "from_clock": "10:00", "to_clock": "13:00", "blocked_share": 0.7},
    {"months": [1, 2, 3], "from_clock": "08:00", "to_clock": "12:00", "blocked_share": 0.5},
]}  # fmt: skip
BEHIND = {"mount": "behind_rail", "plane": {"tilt_deg": 90, "azimuth_deg": 150}, "cover": {"light_through_share": 0.8}}
CASES: dict[str, tuple[dict[str, Any], set[str]]] = {
    "two on a railing": (KRANICHWERFT, {"one_panel_fewer", "leaned_out", "tree_gone", "other_limit"}),
    "a wall and a roof": (JUNIPER, {"one_panel_more", "one_panel_fewer", "upright", "other_limit"}),
    "the smallest": (SMALLEST, {"one_panel_more", "upright"}),
    "two in series": (wide({"count": 2, "joined": "series"}), {"one_panel_more", "one_panel_fewer", "own_inputs"}),
    "two in parallel": (wide({"count": 2, "joined": "parallel"}, inputs=1), {"one_panel_fewer", "upright"}),
    "one input": (wide({}, inputs=1), {"one_panel_more"}),
    "two arrays on one input": (
        wide({"input": 1}, {"input": 1, "plane": {"tilt_deg": 60, "azimuth_deg": 240}}, inputs=3),
        {"one_panel_more", "one_panel_fewer", "own_inputs"},
    ),
    "one string of two arrays": (
        wide(*({"input": 1, "joined": "one_string", "plane": {"tilt_deg": 30, "azimuth_deg": a}} for a in (170, 190))),
        {"one_panel_fewer", "own_inputs"},
    ),
    "two strings on one input": (
        wide(*({"input": 1, "count": 2, "joined": "series"},) * 2, inputs=1), {"one_panel_fewer"}
    ),
    "a string beside a panel": (
        wide({"input": 1, "count": 2, "joined": "series"}, {"input": 1}), {"one_panel_fewer"}
    ),
    "two unlike panels of which little was told": (
        {**SMALLEST, "arrays": [
            {"panel": {"rated_power_w": 410}, "mount": "hung_on_rail", "plane": {"tilt_deg": 70, "azimuth_deg": 0}},
            {"panel": {"rated_power_w": 330}, "mount": "sloped_roof"},
        ], "inverter": {"ac_power_w": 300}},
        {"one_panel_more"},
    ),
    "own mismatch": (wide({"count": 2, "joined": "series", "mismatch_share": 0.02}), {"own_inputs"}),
    "two trees": (wide(SHADED), {"tree_gone"}),
    "behind a railing": (wide(BEHIND), {"outside_rail"}),
    "an export limit": (wide({}, {}, export_limit_w=100), {"one_panel_fewer", "other_limit"}),
    "own weather": (
        {**wide({}), "weather": given(ghi_w_per_m2=year_ghi())["weather"]}, {"one_panel_more", "other_limit"}
    ),
    "another plant on the roof": (
        {**KRANICHWERFT, "household": {"demand_kwh_per_year": 2500, "other_generation": {"panel_power_w": 2000}}},
        {"one_panel_fewer"},
    ),
}  # fmt: skip


def what_if(request: dict[str, Any], path: str = "/v1/energy") -> tuple[dict[str, Any], dict[str, Any]]:
    answer = post(path, {**request, "include": ["what_if", "used"]})
    assert answer.status_code == 200, answer.text
    return answer.json()["energy"], answer.json()["used"]


@pytest.mark.parametrize("case", sorted(CASES))
def test_the_changed_request_asked_says_the_same(case: str) -> None:
    request, codes = CASES[case]
    energy, used = what_if(request)
    assert codes <= {one["code"] for one in energy["what_if"]}
    for one in energy["what_if"]:
        then = post("/v1/appraisal", operated(used, one["patch"]))
        assert then.status_code == 200, then.text
        answer = then.json()
        assert one["year_kwh"] == pytest.approx(answer["energy"]["year_kwh"]["middle"], abs=0.02), one
        assert one["self_used_kwh"] == pytest.approx(answer["use"]["self_used_kwh"]["middle"], abs=0.02), one
        # What was assumed counts as given once it is sent back, so it may be known to fit there, and never not to fit.
        asked = answer["compatibility"]["verdict"]
        assert one["verdict_then"] == asked or (one["verdict_then"] == "not_known" and asked != "does_not_fit"), one


def test_an_appraisal_says_the_same_as_an_energy_answer() -> None:
    assert what_if(KRANICHWERFT)[0]["what_if"] == what_if(KRANICHWERFT, "/v1/appraisal")[0]["what_if"]


def test_it_is_absent_unless_asked_for() -> None:
    for path in ("/v1/energy", "/v1/appraisal"):
        assert "what_if" not in post(path, SMALLEST).json()["energy"]
    plain, asked = (post("/v1/energy", SMALLEST | more).json() for more in ({}, {"include": ["what_if"]}))
    asked["energy"].pop("what_if")
    assert asked == plain


def test_a_panel_is_added_only_where_the_panel_side_bears_it() -> None:
    def ways(request: dict[str, Any]) -> list[str]:
        return [one["facts"]["variant"] for one in what_if(request)[0]["what_if"] if one["code"] == "one_panel_more"]

    assert ways(wide({})) == ["own_input"]
    assert ways(wide({}, inputs=1)) == ["parallel"]
    no_current = wide({}, inputs=1)
    no_current["inverter"]["inputs"] = [INPUT | {"max_short_circuit_current_a": 18}]
    assert ways(no_current) == ["series"]
    no_volts = deepcopy(no_current)
    no_volts["inverter"]["inputs"][0]["max_input_voltage_v"] = 60
    assert ways(no_volts) == []


def test_what_is_not_known_of_an_added_panel_is_said() -> None:
    (more,) = (one for one in what_if(SMALLEST)[0]["what_if"] if one["code"] == "one_panel_more")
    assert more["verdict_then"] == "not_known"
    assert "not known" in more["text"]


def test_panels_that_stand_alike_are_asked_about_once() -> None:
    fewer = [one for one in what_if(wide({}, {}))[0]["what_if"] if one["code"] == "one_panel_fewer"]
    assert len(fewer) == 1


def test_limits_asked_about_never_pass_the_plate() -> None:
    for plate, codes in ((600, set()), (800, {600}), (1500, {600, 800})):
        request = wide({}, {}, ac_power_w=plate)
        limits = {one["facts"]["new_limit_w"] for one in what_if(request)[0]["what_if"] if one["code"] == "other_limit"}
        assert limits == codes
    turned_down = wide({}, {}, ac_power_w=1500, set_limit_w=800)
    found = [one for one in what_if(turned_down)[0]["what_if"] if one["code"] == "other_limit"]
    assert [one["facts"]["new_limit_w"] for one in found] == [600, 1500]


def test_the_second_panel_earns_less_at_home_than_the_first() -> None:
    energy, _ = what_if(wide({}))
    use = post("/v1/appraisal", wide({})).json()["use"]["self_used_kwh"]["middle"]
    (more,) = (one for one in energy["what_if"] if one["code"] == "one_panel_more")
    assert more["self_used_kwh"] - use < use


def test_of_less_than_a_year_nothing_is_said() -> None:
    answer = post("/v1/energy", {**june(), "include": ["what_if"]})
    assert answer.status_code == 200, answer.text
    energy = answer.json()["energy"]
    assert "what_if" not in energy
    assert energy["what_if_because"]["code"] == "part_of_a_year"
    assert "what_if_because" not in post("/v1/energy", june()).json()["energy"]


def test_that_a_set_admits_no_change_is_told() -> None:
    bare = {"count": 1, "mount": "sloped_roof"}
    full = wide(bare, inputs=1)
    full["inverter"] |= {"ac_power_w": 600, "inputs": [INPUT | {"max_input_voltage_v": 50,
                                                                "max_short_circuit_current_a": 15}]}  # fmt: skip
    energy, _ = what_if(full)
    assert energy["what_if"] == []
    assert energy["what_if_because"]["code"] == "no_such_change"
    assert "what_if_because" not in what_if(wide({}))[0]


def test_an_operation_has_the_members_of_its_kind_and_no_other() -> None:
    members = {"add": {"op", "path", "value"}, "copy": {"op", "path", "from"}, "remove": {"op", "path"}}
    found = set()
    for case in ("two in series", "two trees", "behind a railing"):
        for one in what_if(CASES[case][0])[0]["what_if"]:
            for operation in one["patch"]:
                assert set(operation) == members[operation["op"]]
                found.add(operation["op"])
    assert found == set(members)


def test_minus_nought_is_told_as_nought() -> None:
    request = wide({"plane": {"tilt_deg": -0.0, "azimuth_deg": 180}})
    text = post("/v1/energy", {**request, "include": ["used"]}).text
    assert "-0.0," not in text
    assert text == post("/v1/energy", {**changed("/arrays/0/plane/tilt_deg", 0, request), "include": ["used"]}).text


def test_light_measured_in_the_planes_tells_nothing_of_other_planes_or_arrays() -> None:
    two = wide({"count": 2, "joined": "series"}, {"plane": {"tilt_deg": 60, "azimuth_deg": 240}}, inputs=3)
    series = {**two, "weather": given(plane_w_per_m2=[year_ghi()] * 2)["weather"]}
    energy, used = what_if(series)
    assert {one["code"] for one in energy["what_if"]} == {"one_panel_more", "one_panel_fewer", "other_limit"}
    for one in energy["what_if"]:
        then = post("/v1/energy", operated(used, one["patch"])).json()["energy"]
        assert one["year_kwh"] == pytest.approx(then["year_kwh"]["middle"], abs=0.02)


def test_many_shadows_are_told_up_to_a_bound() -> None:
    shade = [
        {"months": [month], "from_clock": f"{hour:02}:00", "to_clock": f"{hour + 1:02}:00", "blocked_share": 0.5}
        for month in (5, 6)
        for hour in range(8, 20)
    ]
    energy, _ = what_if(wide({"shade": shade}, {"shade": shade, "dirt_share": 0.05}))
    codes = [one["code"] for one in energy["what_if"]]
    assert len(codes) == 40
    assert set(codes) == {"one_panel_more", "one_panel_fewer", "upright", "other_limit", "tree_gone"}


def test_no_wish_of_that_name_is_refused_with_those_that_there_are() -> None:
    answer = post("/v1/energy", {**SMALLEST, "include": ["what_ifs"]})
    assert answer.status_code == 422
    assert list(mistakes(answer)) == ["/include/0"]
    assert "what_if" in answer.text


def test_an_input_that_is_not_there_is_refused_as_without_the_wish() -> None:
    request = changed("/arrays/0/input", 3, wide({}))
    plain, asked = (post("/v1/energy", request | more) for more in ({}, {"include": ["what_if"]}))
    assert plain.status_code == asked.status_code == 422
    assert mistakes(plain) == mistakes(asked)
