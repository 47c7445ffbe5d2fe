"""A change gives what the changed set gives; more panels never give less, a lower limit never gives more."""

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.http.client import SMALLEST, operated, post

ROUNDING_KWH = 0.02
AROUND = st.sampled_from(
    [
        {},
        {"shade": [{"months": [5, 6], "from_clock": "09:00", "to_clock": "14:00", "blocked_share": 0.8}]},
        {
            "shade": [
                {"months": [3, 4], "from_clock": "06:00", "to_clock": "10:00", "blocked_share": 0.4, "edge": "soft"},
                {"months": list(range(1, 13)), "from_clock": "15:00", "to_clock": "20:00", "blocked_share": 1.0},
            ]
        },
        {"skyline": [{"azimuth_deg": 90, "height_deg": 20}, {"azimuth_deg": 270, "height_deg": 5}]},
    ]
)


@st.composite
def requests(draw: st.DrawFn) -> dict[str, Any]:
    """One or two arrays, each on an input of its own; strong and weak limits, homes of little and of much demand."""
    arrays = [
        {
            "input": number,
            "mount": draw(st.sampled_from(["hung_on_rail", "behind_rail", "ground_frame", "wall"])),
            "plane": {"tilt_deg": draw(st.integers(0, 90)), "azimuth_deg": draw(st.integers(60, 300))},
            "count": draw(st.integers(1, 2)),
            "joined": "parallel",
            "panel": {"rated_power_w": draw(st.integers(200, 600))},
            **draw(AROUND),
        }
        for number in range(1, draw(st.integers(1, 2)) + 1)
    ]
    inverter: dict[str, Any] = {"ac_power_w": draw(st.sampled_from([350, 600, 800, 1500])), "input_count": 3}
    if draw(st.booleans()):
        inverter["export_limit_w"] = draw(st.sampled_from([0, 200]))
    home = {"demand_kwh_per_year": draw(st.integers(300, 9000))}
    return SMALLEST | {"arrays": arrays, "inverter": inverter, "household": home}


@settings(max_examples=8)
@given(requests())
def test_more_panels_and_less_shade_never_give_less_and_a_lower_limit_never_more(request: dict[str, Any]) -> None:
    answer = post("/v1/appraisal", {**request, "include": ["what_if"]})
    assert answer.status_code == 200, answer.text
    body = answer.json()
    year, used = body["energy"]["year_kwh"]["middle"], body["use"]["self_used_kwh"]["middle"]
    for one in body["energy"]["what_if"]:
        assert 0 <= one["self_used_kwh"] <= one["year_kwh"] + ROUNDING_KWH
        facts = one["facts"]
        more = one["code"] == "tree_gone" or (one["code"] == "one_panel_more" and facts["variant"] != "series")
        if more or (one["code"] == "other_limit" and facts["new_limit_w"] > facts["limit_w"]):
            assert one["year_kwh"] >= year - ROUNDING_KWH, one
            assert one["self_used_kwh"] >= used - ROUNDING_KWH, one
        elif one["code"] in {"one_panel_fewer", "other_limit"}:
            assert one["year_kwh"] <= year + ROUNDING_KWH, one
            assert one["self_used_kwh"] <= used + ROUNDING_KWH, one


@st.composite
def wirings(draw: st.DrawFn) -> dict[str, Any]:
    """The same, or all panels on the first input: side by side, as one string, or as strings of two beside others."""
    request = draw(requests())
    joined = draw(st.sampled_from([None, "parallel", "one_string", "series"]))
    if joined is not None:
        for array in request["arrays"]:
            array |= {"input": 1, "joined": joined, "count": 2 if joined == "series" else 1}
        if joined == "series" and len(request["arrays"]) > 1 and draw(st.booleans()):
            request["arrays"][1] |= {"joined": "parallel", "count": draw(st.integers(1, 2))}
    return request


@settings(max_examples=8)
@given(wirings())
def test_each_change_gives_what_a_question_about_the_changed_set_gives(request: dict[str, Any]) -> None:
    answer = post("/v1/energy", {**request, "include": ["what_if", "used"]})
    assert answer.status_code == 200, answer.text
    body = answer.json()
    for one in body["energy"]["what_if"]:
        then = post("/v1/appraisal", operated(body["used"], one["patch"]))
        assert then.status_code == 200, then.text
        told = then.json()
        assert abs(one["year_kwh"] - told["energy"]["year_kwh"]["middle"]) <= ROUNDING_KWH, one
        assert abs(one["self_used_kwh"] - told["use"]["self_used_kwh"]["middle"]) <= ROUNDING_KWH, one
