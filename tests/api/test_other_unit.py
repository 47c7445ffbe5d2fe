"""A number in another unit is asked back with the one that was probably meant."""

import pytest

from tests.http.client import changed, post

CASES = {
    "rated_power_w": (0.44, "440 W", "440"),
    "voc_coefficient_v_per_k": (-102, "-0.102 V/K", "-0.102"),
    "isc_coefficient_a_per_k": (6.3, "0.0063 A/K", "0.0063"),
    "length_mm": (1.722, "1722 mm", "1722"),
}


@pytest.mark.parametrize(("name", "given", "meant", "example"), [(n, *c) for n, c in CASES.items()])
def test_a_number_in_another_unit_is_asked_back(name: str, given: float, meant: str, example: str) -> None:
    panel = {"rated_power_w": 440} | {name: given}
    answer = post("/v1/compatibility", changed("/arrays", [{"panel": panel}]))
    [error] = answer.json()["errors"]
    assert (error["code"], error["example"]) == ("out_of_range", example)
    assert f"did you mean {meant}?" in error["problem"]
    mended = changed("/arrays", [{"panel": panel | {name: float(example)}}])
    assert post("/v1/compatibility", mended).status_code == 200


def test_an_inverter_in_kilowatts_is_asked_back() -> None:
    answer = post("/v1/compatibility", changed("/inverter", {"ac_power_w": 0.8}))
    assert "did you mean 800 W?" in answer.json()["errors"][0]["problem"]


def test_a_number_that_no_unit_explains_is_only_out_of_range() -> None:
    answer = post("/v1/compatibility", changed("/arrays", [{"panel": {"rated_power_w": 440000}}]))
    assert answer.json()["errors"][0]["problem"] == "is out of range"


@pytest.mark.parametrize(
    "coefficient",
    [{"voc_coefficient_pct_per_k": -0.25}, {"voc_coefficient_v_per_k": -0.1}, {"voc_coefficient_mv_per_k": -100}],
)
def test_a_coefficient_gives_the_same_cold_voltage_in_every_unit(coefficient: dict[str, float]) -> None:
    # 40 V, -0.25 %/K = -0.1 V/K = -100 mV/K; at -15 C: 40 + 40 x 0.1 = 44 V
    panel = {"rated_power_w": 430, "open_circuit_voltage_v": 40, "short_circuit_current_a": 14, **coefficient}
    request = changed("/arrays", [{"panel": panel, "count": 1}])
    request["site"] = request["site"] | {"coldest_air_c": -15}
    findings = post("/v1/compatibility", request).json()["compatibility"]["findings"]
    [cold] = [f for f in findings if f["code"] == "cold_voltage"]
    assert cold["measured"] == pytest.approx(44.0, abs=0.01)


def test_a_current_coefficient_in_two_units_is_a_contradiction() -> None:
    panel = {"rated_power_w": 440, "isc_coefficient_a_per_k": 0.006, "isc_coefficient_ma_per_k": 6}
    [error] = post("/v1/energy", changed("/arrays", [{"panel": panel}])).json()["errors"]
    assert (error["pointer"], error["code"]) == ("/arrays/0/panel/isc_coefficient_ma_per_k", "contradiction")


@pytest.mark.parametrize("given", [-0.0026, 0, -0.9])
def test_a_voltage_coefficient_that_no_panel_has_is_not_believed(given: float) -> None:
    panel = {"rated_power_w": 440, "open_circuit_voltage_v": 39.4, "short_circuit_current_a": 14.1}
    request = changed("/arrays", [{"panel": panel | {"voc_coefficient_pct_per_k": given}}])
    findings = post("/v1/compatibility", request).json()["compatibility"]["findings"]
    [sanity] = [f for f in findings if f["code"] == "datasheet_sanity"]
    assert (sanity["verdict"], sanity["facts"]["variant"]) == ("not_known", "voc_coefficient")
