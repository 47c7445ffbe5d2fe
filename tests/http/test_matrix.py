"""Many panels against many inverters: each pair as the single question judges its panel side."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.http.client import mistakes, post

EXAMPLE = json.loads(
    (Path(__file__).parents[2] / "examples" / "matrix" / "panels_and_inverters.json").read_text(encoding="utf-8")
)
PLACE = EXAMPLE["site"]
WORST_FIRST = ("does_not_fit", "not_known", "fits_with_loss", "fits")


def matrix(**changes: Any) -> dict[str, Any]:
    answer = post("/v1/compatibility/matrix", {**EXAMPLE, **changes})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def test_the_example_has_a_row_for_each_panel_and_a_column_for_each_inverter() -> None:
    rows = matrix()["matrix"]
    assert [len(row) for row in rows] == [2, 2, 2]
    assert rows[0][0] == {"verdict": "fits", "likely": "fits", "worst_finding": None}
    cold = rows[1][1]["worst_finding"]  # 48.7 V, -0.29 %/K, in a coast's frost: above 50 V
    assert (rows[1][1]["verdict"], cold["code"], cold["limit"]) == ("does_not_fit", "cold_voltage", 50)
    assert cold["measured"] == pytest.approx(48.7 * (1 + 0.0029 * (25 - coldest())), abs=0.01)
    assert {cell["verdict"] for cell in rows[2]} <= {"not_known", "does_not_fit"}  # a bare panel never fits


def coldest() -> float:
    return next(float(a["value"]) for a in matrix()["assumptions"] if a["pointer"] == "/site/coldest_air_c")


def maybe(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.one_of(st.none(), values)


@st.composite
def panels(draw: st.DrawFn) -> dict[str, Any]:
    cells = draw(st.sampled_from([36, 54, 60, 72]))
    volts, amps = cells * draw(st.floats(0.62, 0.74)), draw(st.floats(6, 15))
    sheet = {
        "rated_power_w": round(0.77 * volts * amps, 1), "open_circuit_voltage_v": round(volts, 2),
        "short_circuit_current_a": round(amps, 2), "max_power_voltage_v": round(0.82 * volts, 2),
        "max_power_current_a": round(0.77 / 0.82 * amps, 2), "cells_in_series": cells,
        "voc_coefficient_pct_per_k": draw(st.floats(-0.4, -0.2)),
        "bifaciality_share": draw(st.sampled_from([0, 0.7])),
        "glass": draw(st.sampled_from(["glass_foil", "glass_glass"])),
        "connector": draw(st.sampled_from(["locking_4mm", "older_unlocked", "not_known"])),
        "max_system_voltage_v": 1000, "age_years": draw(st.sampled_from([0, 12])),
    }  # fmt: skip
    gone = draw(st.sets(st.sampled_from(sorted(sheet)[1:]), max_size=4)) - {"rated_power_w"}
    return {name: value for name, value in sheet.items() if name not in gone}


@st.composite
def inverters(draw: st.DrawFn) -> dict[str, Any]:
    low = draw(st.sampled_from([12, 16, 28]))
    limits = {
        "max_input_voltage_v": draw(st.sampled_from([45, 55, 60, 65])), "tracking_min_v": low,
        "tracking_max_v": draw(st.sampled_from([30, 40, 44])), "start_voltage_v": low + 4,
        "max_current_a": draw(st.sampled_from([8, 11, 14])),
        "max_short_circuit_current_a": draw(maybe(st.sampled_from([12, 15, 20]))),
        "max_panel_short_circuit_current_a": draw(maybe(st.sampled_from([12, 15, 20]))),
        "max_panel_power_w": draw(maybe(st.sampled_from([350, 600]))),
        "max_panel_power_kind": draw(maybe(st.sampled_from(["maximum", "recommended"]))),
    }  # fmt: skip
    gone = draw(st.sets(st.sampled_from(sorted(limits)), max_size=3))
    kept = {name: value for name, value in limits.items() if value is not None and name not in gone}
    return {"ac_power_w": draw(st.sampled_from([350, 800])), "inputs": [kept]}


@given(st.lists(panels(), min_size=1, max_size=3), st.lists(inverters(), min_size=1, max_size=3))
def test_each_pair_is_judged_as_the_single_question_judges_its_panel_side(
    rows: list[dict[str, Any]], columns: list[dict[str, Any]]
) -> None:
    cells = matrix(panels=rows, inverters=columns)["matrix"]
    for panel, row in zip(rows, cells, strict=True):
        for inverter, cell in zip(columns, row, strict=True):
            one = {"site": PLACE, "arrays": [{"panel": panel}], "inverter": inverter, "as_of": EXAMPLE["as_of"]}
            found = post("/v1/compatibility", one).json()["compatibility"]
            side = [f for f in found["findings"] if f["part"] == "panel_side"]
            assert cell["verdict"] == found["by_part"]["panel_side"]
            assert cell["likely"] == min((f["likely"] for f in side), key=WORST_FIRST.index)
            if cell["worst_finding"] is not None:
                [same] = [f for f in side if f["code"] == cell["worst_finding"]["code"]]
                told = {name: same[name] for name in cell["worst_finding"]}
                assert cell["worst_finding"] == told


@given(st.lists(panels(), min_size=2, max_size=4), st.lists(inverters(), min_size=2, max_size=3), st.randoms())
def test_the_order_of_candidates_moves_cells_and_changes_none(
    rows: list[dict[str, Any]], columns: list[dict[str, Any]], random: Any
) -> None:
    cells = matrix(panels=rows, inverters=columns)["matrix"]
    order = random.sample(range(len(rows)), len(rows))
    moved = matrix(panels=[rows[at] for at in order], inverters=columns[::-1])["matrix"]
    assert moved == [cells[at][::-1] for at in order]


def test_what_was_assumed_stands_at_each_candidate() -> None:
    answer = matrix()
    pointers = {one["pointer"] for one in answer["assumptions"]}
    assert {"/panels/2/open_circuit_voltage_v", "/site/coldest_air_c", "/arrays/0/mount"} <= pointers
    assert not any(pointer.startswith("/panels/0/open") for pointer in pointers)


@pytest.mark.parametrize(
    ("changes", "pointer", "code"),
    [({"panels": []}, "/panels", "wrong_count"),
     ({"panels": [{"rated_power_w": 400}] * 51}, "/panels", "wrong_count"),
     ({"inverters": [{"ac_power_w": 0}]}, "/inverters/0/ac_power_w", "out_of_range"),
     ({"panels": [{"rated_power_w": "400"}]}, "/panels/0/rated_power_w", "not_a_number"),
     ({"panels": [{"rated_power_w": 400, "voc": 40}]}, "/panels/0/voc", "unknown_field"),
     ({"panels": [EXAMPLE["panels"][0], {"rated_power_w": 440, "open_circuit_voltage_v": 20.0,
                                         "short_circuit_current_a": 10}]}, "/panels/1/rated_power_w", "contradiction"),
     ({"inverters": [{"ac_power_w": 800, "set_limit_w": 900}]}, "/inverters/0/set_limit_w", "contradiction"),
     ({"inverters": [{"ac_power_w": 800, "inputs": [{"tracking_min_v": 50, "max_input_voltage_v": 40}]}]},
      "/inverters/0/inputs/0/tracking_min_v", "contradiction")],
)  # fmt: skip
def test_a_mistake_is_told_at_the_candidate(changes: dict[str, Any], pointer: str, code: str) -> None:
    answer = post("/v1/compatibility/matrix", {**EXAMPLE, **changes})
    assert answer.status_code == 422, answer.text
    assert mistakes(answer)[pointer] == code
