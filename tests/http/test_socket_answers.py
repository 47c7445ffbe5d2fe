"""What is asked of socket, circuit, neutral and card, over HTTP."""

from typing import Any

import pytest

from tests.http.client import ask, changed, operated, post

CIRCUIT: dict[str, Any] = {
    "plug": "household", "breaker_a": 13, "voltage_v": 230, "cable_mm2": 2.5, "laying": "in_conduit", "ambient_c": 30,
    "dedicated": True, "residual_current_device": "type_a", "lead_length_m": 5, "lead_mm2": 1.5, "other_sets": [],
}  # fmt: skip
ASKED = changed("/socket_circuit", CIRCUIT) | {"inverter": {"ac_power_w": 800, "grid_voltage_v": 230}}


def found(request: dict[str, Any]) -> dict[str, dict[str, Any]]:
    answer = post("/v1/compatibility", request)
    assert answer.status_code == 200, answer.text
    return {one["code"]: one for one in answer.json()["compatibility"]["findings"]}


def test_an_inverter_for_another_grid_is_refused_over_http_and_mended_by_the_answers_own_remedy() -> None:
    assert found(ASKED)["grid_voltage"]["verdict"] == "fits"
    foreign = changed("/inverter/grid_voltage_v", 120, ASKED)
    refused = found(foreign)["grid_voltage"]
    assert (refused["verdict"], refused["measured"], refused["limit"]) == ("does_not_fit", 120, 230)
    [remedy] = refused["remedies"]
    assert remedy["text"] == "Choose an inverter that is made for 230 V."
    again = found(changed(remedy["pointer"], remedy["new_value"], foreign))["grid_voltage"]
    assert again["verdict"] == remedy["verdict_then"] == "fits"


def test_a_shared_neutral_is_refused_on_a_circuit_of_its_own_and_mended_as_promised() -> None:
    request = changed("/socket_circuit/shared_neutral", True, changed("/socket_circuit/breaker_a", 20, ASKED))
    answer = post("/v1/compatibility", request).json()["compatibility"]
    assert answer["by_part"]["socket_side"] == "does_not_fit"
    refused = next(one for one in answer["findings"] if one["verdict"] == "does_not_fit" and "neutral" in one["text"])
    assert refused["measured"] == pytest.approx(20 + 800 / 230, abs=0.01)
    assert refused["remedies"]
    for remedy in refused["remedies"]:
        assert remedy["who"] in {"you", "electrician"}
        patched = operated(request, remedy["patch"])
        again = found(changed(remedy["pointer"], remedy["new_value"], request) if remedy["pointer"] else patched)
        assert again[refused["code"]]["verdict"] == remedy["verdict_then"]
    apart = found(changed("/socket_circuit/shared_neutral", False, request))
    assert all(one["verdict"] != "does_not_fit" for one in apart.values() if one["part"] == "socket_side")


@pytest.mark.parametrize(
    ("pointer", "value"), [("/inverter/grid_voltage_v", 12), ("/socket_circuit/shared_neutral", 1)]
)
def test_a_nonsense_voltage_or_answer_is_refused(pointer: str, value: object) -> None:
    answer = post("/v1/compatibility", changed(pointer, value, ASKED))
    assert answer.status_code == 422
    assert answer.json()["errors"][0]["pointer"] == pointer


def test_what_was_not_said_of_neutral_and_grid_stands_beside_the_verdict() -> None:
    sparse = changed("/socket_circuit", CIRCUIT)
    answer = post("/v1/compatibility", sparse).json()["compatibility"]
    assert {"/socket_circuit/shared_neutral", "/inverter/grid_voltage_v"} <= set(answer["not_looked_at"])


def test_the_caution_of_a_shared_neutral_goes_where_the_neutral_is_known_to_be_the_circuits_own() -> None:
    shared = ASKED | {"socket_circuit": CIRCUIT | {"voltage_v": 120, "dedicated": False}}

    def codes(request: dict[str, Any]) -> set[str]:
        return {one["code"] for one in post("/v1/compatibility", request).json()["cautions"]}

    assert "shared_neutral" in codes(shared)
    assert "shared_neutral" not in codes(changed("/socket_circuit/shared_neutral", False, shared))


def test_the_vocabulary_says_which_method_stands_behind_each_word_of_laying() -> None:
    described = ask("GET", "/openapi.json").json()["components"]["schemas"]["SocketCircuitIn"]["properties"]["laying"]
    for pair in ("in_insulated_wall A1", "in_conduit B2", "under_plaster C", "on_wall C", "in_air E"):
        assert pair in described["description"]
