"""Values within the bounds of the document that no set has: each gets an answer or a clear problem."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.http.client import post

EXAMPLE = Path(__file__).parents[2] / "examples" / "kranichwerft.json"
PATHS = ("/v1/appraisal", "/v1/energy", "/v1/compatibility", "/v1/payback")


def kranichwerft() -> dict[str, Any]:
    request: dict[str, Any] = json.loads(EXAMPLE.read_text())
    return request


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("cells", [1, 2, 3, 4, 7])
def test_fewer_cells_than_the_voltage_needs_are_asked_back(path: str, cells: int) -> None:
    request = kranichwerft()
    request["arrays"][0]["panel"]["cells_in_series"] = cells
    answer = post(path, request)
    if path == "/v1/compatibility":
        assert answer.status_code == 200
        assert answer.json()["compatibility"]["by_part"]["panel_side"] == "not_known"
        return
    assert answer.status_code == 422
    [error] = answer.json()["errors"]
    assert error["pointer"] == "/arrays/0/panel/cells_in_series"
    request["arrays"][0]["panel"]["cells_in_series"] = json.loads(error["example"])
    assert post(path, request).status_code == 200


def own_circuit() -> dict[str, Any]:
    request = kranichwerft()
    request["socket_circuit"]["dedicated"] = True
    return request


def test_inputs_that_nobody_counted_do_not_fit_until_they_are() -> None:
    counted = post("/v1/compatibility", own_circuit()).json()["compatibility"]
    assert counted["by_part"]["panel_side"] == "fits"
    request = own_circuit()
    request["inverter"].pop("input_count")
    for array in request["arrays"]:
        array.pop("input", None)
    found = post("/v1/compatibility", request).json()["compatibility"]
    [inputs] = [one for one in found["findings"] if one["code"] == "input_count"]
    assert (inputs["verdict"], inputs["likely"]) == ("not_known", "fits")


def test_a_maker_s_limit_on_the_panels_that_nobody_named_is_not_looked_at() -> None:
    request = own_circuit()
    for one in request["inverter"]["inputs"]:
        one.pop("max_panel_power_w", None)
    found = post("/v1/compatibility", request).json()["compatibility"]
    assert "/inverter/inputs/0/max_panel_power_w" in found["not_looked_at"]


@pytest.mark.parametrize("demand_kwh", [2400, 8000, 20000])
@pytest.mark.parametrize("limit_w", [0, 100])
def test_under_an_export_limit_no_end_uses_more_than_the_set_gives(demand_kwh: float, limit_w: float) -> None:
    request = own_circuit()
    request["inverter"]["export_limit_w"] = limit_w
    request["household"] = {"demand_kwh_per_year": demand_kwh}
    answer = post("/v1/appraisal", request).json()
    year, used = answer["energy"]["year_kwh"], answer["use"]["self_used_kwh"]
    for end in ("cautious", "middle", "hopeful"):
        assert used[end] <= year[end] + 0.01


@pytest.mark.parametrize("ac_power_w", [300, 800, 1600])
@pytest.mark.parametrize("box", [{}, {"storage": {"usable_kwh": 1, "coupling": "ac"}}])
def test_no_end_lies_below_nought_where_a_small_panel_may_never_start_and_little_may_leave(
    ac_power_w: float, box: dict[str, Any]
) -> None:
    asked = {
        "site": {"latitude_deg": 48, "longitude_deg": 11},
        "arrays": [
            {"panel": {"rated_power_w": 100}, "mount": "hung_on_rail", "plane": {"tilt_deg": 90, "azimuth_deg": 180}}
        ],
        "inverter": {"ac_power_w": ac_power_w, "export_limit_w": 0},
    }
    answer = post("/v1/appraisal", {**asked, **box}).json()
    bands = [answer["energy"]["year_kwh"], answer["use"]["self_used_kwh"]]
    bands += [answer["storage"][side]["self_used_kwh"] for side in ("with", "without") if box]
    for band in bands:
        assert 0.0 <= band["cautious"] <= band["middle"] <= band["hopeful"]
