"""Unlike panels in one string, as a request says it: judged, and its energy counted."""

from typing import Any

import pytest

from tests.http.client import changed, post

STRONG = {"rated_power_w": 440, "open_circuit_voltage_v": 39.4, "short_circuit_current_a": 14.1,
          "max_power_voltage_v": 32.9, "max_power_current_a": 13.38}  # fmt: skip
NEAR = {"rated_power_w": 410, "open_circuit_voltage_v": 37.6, "short_circuit_current_a": 13.8,
        "max_power_voltage_v": 31.4, "max_power_current_a": 13.06}  # fmt: skip
WIDE = {"max_input_voltage_v": 120, "tracking_min_v": 20, "tracking_max_v": 100, "start_voltage_v": 22,
        "max_current_a": 16, "max_short_circuit_current_a": 20, "connector_pairs": 1}  # fmt: skip


def asked(path: str, joined: str, weaker: dict[str, Any] = NEAR, second: int = 1) -> dict[str, Any]:
    place = {"mount": "wall", "plane": {"tilt_deg": 90, "azimuth_deg": 180}}
    request = changed("/arrays", [
        {"name": "a", "input": 1, "joined": joined, "count": 1, "panel": STRONG, **place},
        {"name": "b", "input": second, "joined": joined, "count": 1, "panel": weaker, **place},
    ])  # fmt: skip
    answer = post(path, request | {"inverter": {"ac_power_w": 800, "input_count": 2, "inputs": [WIDE, WIDE]}})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


@pytest.mark.parametrize("joined", ["one_string", "series"])
def test_two_single_panels_in_series_are_judged_as_one_string(joined: str) -> None:
    findings = asked("/v1/compatibility", joined)["compatibility"]["findings"]
    cold = [f for f in findings if f["code"] == "cold_voltage"]
    assert all(f["measured"] > 77 for f in cold)
    [unlike] = [f for f in findings if f["code"] == "unlike_panels"]
    assert unlike["unit"] == "%"
    assert "one string" in unlike["text"]


def test_a_string_of_unlike_panels_yields_less_than_an_input_for_each() -> None:
    together, apart = asked("/v1/energy", "one_string"), asked("/v1/energy", "one_string", second=2)
    year = [one["energy"]["year_kwh"]["middle"] for one in (together, apart)]
    assert 0.9 * year[1] < year[0] < year[1]
    assert together["energy"]["lost_kwh"]["mismatch"] > apart["energy"]["lost_kwh"]["mismatch"]


def test_equal_panels_in_one_string_yield_what_one_array_of_two_yields() -> None:
    pair = asked("/v1/energy", "one_string", weaker=STRONG)["energy"]
    place = {"mount": "wall", "plane": {"tilt_deg": 90, "azimuth_deg": 180}}
    request = changed("/arrays", [{"input": 1, "joined": "series", "count": 2, "panel": STRONG, **place}])
    array = post("/v1/energy", request | {"inverter": {"ac_power_w": 800, "input_count": 2, "inputs": [WIDE, WIDE]}})
    assert pair["year_kwh"]["middle"] == pytest.approx(array.json()["energy"]["year_kwh"]["middle"], rel=3e-3)


def test_a_set_with_a_string_of_unlike_panels_is_appraised() -> None:
    assert asked("/v1/appraisal", "one_string")["decision"]["verdict"] in ("worth_it", "worth_it_if", "not_worth_it",
                                                                          "cannot_tell")  # fmt: skip


def test_a_word_for_every_finding_of_a_string() -> None:
    weak = NEAR | {"rated_power_w": 300, "short_circuit_current_a": 9.7, "max_power_current_a": 9.2,
                   "max_power_voltage_v": 32.6, "open_circuit_voltage_v": 39.8}  # fmt: skip
    findings = asked("/v1/compatibility", "one_string", weaker=weak)["compatibility"]["findings"]
    [unlike] = [f for f in findings if f["code"] == "unlike_panels"]
    assert (unlike["verdict"], unlike["likely"]) == ("not_known", "does_not_fit")
    assert "bypass diodes" in unlike["text"]
    assert any("bypass diodes" in remedy["text"] for remedy in unlike["remedies"])
