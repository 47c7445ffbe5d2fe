"""Many panels against many inverters, of every kind: judged as each pair alone, and refused as each candidate alone."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.http.client import mistakes, post

EXAMPLE = json.loads(
    (Path(__file__).parents[2] / "examples" / "matrix" / "panels_and_inverters.json").read_text(encoding="utf-8")
)
PATH = "/v1/compatibility/matrix"
PLAIN_PANEL, PLAIN_INVERTER = {"rated_power_w": 400}, {"ac_power_w": 800}
WORST_FIRST = ("does_not_fit", "not_known", "fits_with_loss", "fits")
PLACES = (
    EXAMPLE["site"],
    {"latitude_deg": 40.6, "longitude_deg": -111.9, "elevation_m": 1300},  # where a code's table stands in for a slope
    {"latitude_deg": 38.7, "longitude_deg": -9.2, "ground_reflectance_share": 0.5},
)


def some(values: dict[str, Any], gone: set[str]) -> dict[str, Any]:
    return {name: value for name, value in values.items() if value is not None and name not in gone}


@st.composite
def panels(draw: st.DrawFn) -> dict[str, Any]:
    cells = draw(st.sampled_from([36, 54, 60, 72]))
    volts, amps = cells * draw(st.floats(0.62, 0.74)), draw(st.floats(6, 15))
    sheet = {
        "open_circuit_voltage_v": round(volts, 2), "max_power_voltage_v": round(0.82 * volts, 2),
        "short_circuit_current_a": round(amps, 2), "max_power_current_a": round(0.77 / 0.82 * amps, 2),
        "cells_in_series": cells, "cell_kind": draw(st.sampled_from([None, "mono", "topcon", "hjt"])),
        "voc_coefficient_pct_per_k": draw(st.one_of(st.none(), st.floats(-0.4, -0.2))),
        "power_coefficient_pct_per_k": draw(st.one_of(st.none(), st.floats(-0.4, -0.3))),
        "voc_coefficient_v_per_k": draw(st.sampled_from([None, None, round(-0.0027 * volts, 4)])),
        "isc_coefficient_pct_per_k": draw(st.sampled_from([None, 0.04, 0.06])),
        "bifaciality_share": draw(st.sampled_from([None, 0, 0.7, 0.9])),
        "glass": draw(st.sampled_from([None, "glass_foil", "glass_glass"])),
        "connector": draw(st.sampled_from([None, "locking_4mm", "older_unlocked", "older_locking", "bare"])),
        "max_system_voltage_v": draw(st.sampled_from([None, 50, 1000])),
        "age_years": draw(st.sampled_from([None, 0, 12])),
    }  # fmt: skip
    whole = draw(st.booleans())
    gone = set() if whole else draw(st.sets(st.sampled_from(sorted(sheet)), max_size=len(sheet)))
    if whole and draw(st.booleans()):  # a whole label with its two voltages swapped
        names = ("open_circuit_voltage_v", "max_power_voltage_v")
        sheet[names[0]], sheet[names[1]] = sheet[names[1]], sheet[names[0]]
    return {"rated_power_w": round(0.77 * volts * amps, 1)} | some(sheet, gone)


@st.composite
def inverters(draw: st.DrawFn) -> dict[str, Any]:
    low, amps = draw(st.sampled_from([12, 16, 28])), st.sampled_from([None, 11, 13, 15, 17, 20])
    limits = {
        "max_input_voltage_v": draw(st.sampled_from([None, 45, 50, 55, 60, 65])), "tracking_min_v": low,
        "tracking_max_v": draw(st.sampled_from([None, 30, 36, 40, 44])),
        "start_voltage_v": low + draw(st.sampled_from([0, 4, 8, 14])),
        "max_current_a": draw(st.sampled_from([None, 8, 11, 14])), "max_short_circuit_current_a": draw(amps),
        "max_panel_short_circuit_current_a": draw(amps), "max_panel_power_w": draw(st.sampled_from([None, 350, 600])),
        "max_panel_power_kind": draw(st.sampled_from([None, "maximum", "recommended", "not_known"])),
        "max_input_power_w": draw(st.sampled_from([None, 300])), "connector_pairs": draw(st.sampled_from([None, 2])),
    }  # fmt: skip
    gone = draw(st.sets(st.sampled_from(sorted(limits)), max_size=draw(st.sampled_from([0, 3, len(limits)]))))
    if draw(st.booleans()) and limits["max_short_circuit_current_a"]:  # one figure, and nobody knows which
        limits["max_panel_short_circuit_current_a"] = limits["max_short_circuit_current_a"]
    count = draw(st.sampled_from([{}, {"input_count": 1}, {"input_count": 2}]))
    return {"ac_power_w": draw(st.sampled_from([350, 800, 1600])), **count, "inputs": [some(limits, gone)]}


def single(site: dict[str, Any], panel: dict[str, Any], inverter: dict[str, Any]) -> Any:
    one = {"site": site, "arrays": [{"panel": panel}], "inverter": inverter, "as_of": EXAMPLE["as_of"]}
    return post("/v1/compatibility", one)


def pointers(answer: Any) -> set[str]:
    return set() if answer.status_code == 200 else set(mistakes(answer))


@settings(max_examples=40)
@given(
    st.sampled_from(PLACES), st.lists(panels(), min_size=1, max_size=3), st.lists(inverters(), min_size=1, max_size=2)
)
def test_pairs_of_any_kind_are_judged_as_the_single_question_judges_their_panel_side(
    site: dict[str, Any], rows: list[dict[str, Any]], columns: list[dict[str, Any]]
) -> None:
    rows = [panel for panel in rows if not pointers(single(site, panel, PLAIN_INVERTER))]
    columns = [inverter for inverter in columns if not pointers(single(site, PLAIN_PANEL, inverter))]
    if not rows or not columns:
        return
    asked = {"site": site, "panels": rows, "inverters": columns, "as_of": EXAMPLE["as_of"]}
    cells = post(PATH, asked).json()["matrix"]
    for panel, row in zip(rows, cells, strict=True):
        for inverter, cell in zip(columns, row, strict=True):
            found = single(site, panel, inverter).json()["compatibility"]
            side = [f for f in found["findings"] if f["part"] == "panel_side"]
            assert cell["verdict"] == found["by_part"]["panel_side"]
            assert cell["likely"] == min((f["likely"] for f in side), key=WORST_FIRST.index)
            if cell["worst_finding"] is None:
                assert cell["verdict"] == "fits"
                continue
            [same] = [f for f in side if f["code"] == cell["worst_finding"]["code"]]
            assert cell["worst_finding"] == {name: same[name] for name in cell["worst_finding"]}
            assert same["verdict"] == cell["verdict"]


AMISS_PANELS: tuple[dict[str, Any], ...] = (
    {}, {}, {"open_circuit_voltage_v": 12.0, "short_circuit_current_a": 5.0},
    {"voc_coefficient_pct_per_k": -0.3, "voc_coefficient_v_per_k": -0.1}, {"power_tolerance_pct": [3, 0]},
    {"max_power_current_a": "13"},
    # a whole label would stand as it is, and without its fourth figure it would not
    {"open_circuit_voltage_v": 30, "max_power_voltage_v": 32, "max_power_current_a": 12.5,
     "short_circuit_current_a": "14"},
    {"connector": "loose"}, {"bifaciality_share": 7},
)  # fmt: skip
AMISS_INVERTERS: tuple[dict[str, Any], ...] = (
    {}, {}, {"set_limit_w": 5000}, {"inputs": [{"tracking_min_v": 50, "max_input_voltage_v": 40}]},
    {"inputs": [{"tracking_min_v": 50, "tracking_max_v": 40}]}, {"input_count": 2, "inputs": [{}, {}, {}]},
    {"seat": "upstairs"}, {"ac_power_w": None},
)  # fmt: skip
UNKNOWN = st.sampled_from([{}, {}, {"colour": "black"}])


@st.composite
def amiss(draw: st.DrawFn, plain: dict[str, Any], changes: tuple[dict[str, Any], ...]) -> dict[str, Any]:
    return {**plain, **draw(st.sampled_from(changes)), **draw(UNKNOWN)}


@settings(max_examples=40)
@given(
    st.lists(amiss(PLAIN_PANEL, AMISS_PANELS), min_size=1, max_size=3),
    st.lists(amiss(PLAIN_INVERTER, AMISS_INVERTERS), min_size=1, max_size=3),
)
def test_one_refusal_tells_of_every_candidate_what_is_told_of_it_alone(
    rows: list[dict[str, Any]], columns: list[dict[str, Any]]
) -> None:
    wanted = set()
    for before, now, candidates in (("/arrays/0/panel", "/panels", rows), ("/inverter", "/inverters", columns)):
        for at, one in enumerate(candidates):
            known = {name: value for name, value in one.items() if name != "colour"}
            for candidate in (one, known):  # with an unknown field, and with what else is wrong beside it
                pair = (candidate, PLAIN_INVERTER) if now == "/panels" else (PLAIN_PANEL, candidate)
                told = pointers(single(EXAMPLE["site"], *pair))
                wanted |= {f"{now}/{at}{pointer.removeprefix(before)}" for pointer in told}
    answer = post(PATH, {**EXAMPLE, "panels": rows, "inverters": columns})
    assert pointers(answer) == wanted
    if wanted:
        codes = set(mistakes(answer).values())
        assert answer.json()["code"] == ("contradiction" if codes == {"contradiction"} else "invalid_request")


def test_a_contradiction_and_an_unknown_field_are_told_together_wherever_they_stand() -> None:
    body = {
        **EXAMPLE,
        "panels": [{"rated_power_w": 440, "open_circuit_voltage_v": 20.0, "short_circuit_current_a": 10, "colour": 1},
                   {"rated_power_w": 440, "power_tolerance_pct": [3, 0]}],
        "inverters": [{"ac_power_w": 800, "set_limit_w": 900},
                      {"ac_power_w": 800, "inputs": [{"tracking_min_v": 50, "max_input_voltage_v": 40, "colour": 1}]}],
    }  # fmt: skip
    assert mistakes(post(PATH, body)) == {
        "/panels/0/colour": "unknown_field", "/panels/0/rated_power_w": "contradiction",
        "/panels/1/power_tolerance_pct/0": "contradiction", "/inverters/0/set_limit_w": "contradiction",
        "/inverters/1/inputs/0/colour": "unknown_field", "/inverters/1/inputs/0/tracking_min_v": "contradiction",
    }  # fmt: skip


@pytest.mark.parametrize("value", [[], "panels", None, {"panels": 3}, {"panels": [3, None], "inverters": [[]]},
                                   {"panels": [{"colour": 1}], "inverters": {}, "as_of": 5}])  # fmt: skip
def test_what_cannot_be_read_at_all_is_refused_and_no_more(value: Any) -> None:
    answer = post(PATH, value)
    assert (answer.status_code, answer.json()["code"]) == (422, "invalid_request")


def test_a_candidate_keeps_its_answer_beside_others_and_at_another_place() -> None:
    """What is kept of a panel or an inverter belongs to its place, and its pointers to the request."""
    first = post(PATH, EXAMPLE).json()
    turned = post(PATH, {**EXAMPLE, "panels": EXAMPLE["panels"][::-1], "inverters": EXAMPLE["inverters"][::-1]}).json()
    cold = post(PATH, {**EXAMPLE, "site": {**EXAMPLE["site"], "coldest_air_c": -40}}).json()
    again = post(PATH, EXAMPLE).json()
    assert turned["matrix"] == [row[::-1] for row in first["matrix"][::-1]]
    assert first == again
    assert cold["matrix"] != first["matrix"]
    last = len(EXAMPLE["panels"]) - 1
    moved = {one["pointer"].replace(f"/panels/{last}/", "/panels/0/") for one in first["assumptions"]
             if one["pointer"].startswith(f"/panels/{last}/")}  # fmt: skip
    assert moved
    assert moved == {one["pointer"] for one in turned["assumptions"] if one["pointer"].startswith("/panels/0/")}
