"""A rating at other than standard test conditions, sent as a field that there is not: where does it belong?"""

from typing import Any

import pytest

from tests.http.client import changed, post

PANEL = "/arrays/0/panel"


def mistake(pointer: str) -> dict[str, Any]:
    answer = post("/v1/compatibility", changed(pointer, 34.9))
    assert answer.status_code == 422
    [one] = answer.json()["errors"]
    return one


@pytest.mark.parametrize(
    ("name", "field"),
    [("open_circuit_voltage_noct_v", "open_circuit_voltage_v"),
     ("open_circuit_voltage_v_nmot", "open_circuit_voltage_v"),
     ("voc_at_nmot_v", "open_circuit_voltage_v"), ("voc_minus_10c_v", "open_circuit_voltage_v"),
     ("isc_noct_a", "short_circuit_current_a"), ("max_power_voltage_noct_v", "max_power_voltage_v"),
     ("rated_power_noct_w", "rated_power_w")],
)  # fmt: skip
def test_a_rating_at_another_condition_is_refused_with_the_field_and_figure_that_is_wanted(
    name: str, field: str
) -> None:
    told = mistake(f"{PANEL}/{name}")
    assert (told["code"], told["pointer"], told["given"]) == ("unknown_field", f"{PANEL}/{name}", "34.9")
    assert "standard test conditions" in told["problem"]
    assert field in told["problem"]
    assert told["accepted"].startswith("a number from")
    assert post("/v1/compatibility", changed(f"{PANEL}/{field}", float(told["example"]))).status_code == 200


@pytest.mark.parametrize("pointer", [f"{PANEL}/voc_v", f"{PANEL}/open_circuit_voltage_25c_v", "/inverter/voc_noct_v"])
def test_other_unknown_fields_are_told_as_before(pointer: str) -> None:
    assert "standard test conditions" not in mistake(pointer)["problem"]
