"""Worked cases of panels on inputs, caps and circuits, from electrical_cases.json beside this file.

Each case was worked by hand and by a second route before it was compared; the sources say what was read and what was
remembered. What a case does not mention has a harmless value here. Voltages of the single-diode model carry the case's
own tolerance, so that another sound fit passes.
"""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from service.core.compatibility import Compatibility, check
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import OtherSet
from service.core.model.place import Plane
from service.core.rules import card_for
from service.data.local_rules import cards_of
from tests import builders

CASES = json.loads((Path(__file__).parent / "electrical_cases.json").read_text(encoding="utf-8"))
AS_OF = date(2026, 11, 25)
HARMLESS_INPUT = {
    "max_input_voltage_v": 100, "tracking_min_v": 16, "tracking_max_v": 90, "start_voltage_v": 20, "max_current_a": 20,
    "max_short_circuit_current_a": 40, "max_panel_power_w": None,
}  # fmt: skip


def _panel(given: dict[str, Any]) -> Any:
    facts = dict(given)
    per_kelvin = facts.pop("voc_coefficient_v_per_k", None)
    if per_kelvin is not None:
        facts["voc_coefficient_pct_per_k"] = 100 * per_kelvin / facts["open_circuit_voltage_v"]
    return builders.panel(**facts)


def _array(at: int, given: dict[str, Any]) -> Any:
    changes = {key: value for key, value in given.items() if key not in ("panel", "azimuth_deg")}
    plane = Plane(tilt_deg=90, azimuth_deg=given.get("azimuth_deg", 150))
    return builders.array(name=f"array {at + 1}", plane=plane, panel=_panel(given["panel"]), **changes)


def _answer(case: dict[str, Any]) -> Compatibility:
    arrays = tuple(_array(at, given) for at, given in enumerate(case["arrays"]))
    one_input = builders.one_input(**{**HARMLESS_INPUT, **case.get("each_input", {})})
    power = case.get("ac_power_w", 800)
    circuit = case.get("circuit")
    if circuit is not None:
        others = tuple(OtherSet(**other) for other in circuit.get("other_sets", ()))
        circuit = builders.socket_circuit(**{**circuit, "other_sets": others})
    setup = builders.setup(
        arrays=arrays,
        inverter=builders.inverter(inputs=(one_input, one_input), ac_power_w=power, set_limit_w=power),
        site=replace(
            builders.site(), coldest_air_c=case.get("coldest_air_c", 0), rule_area=case.get("rule_area", "DE")
        ),
        socket_circuit=circuit,
    )
    # No case states a power coefficient: a class's value stands in, and is not held against the sheet.
    coefficients = [f"/arrays/{at}/panel/power_coefficient_pct_per_k" for at in range(len(arrays))]
    assumed = Assumptions.of(Assumption(pointer=p, value=-0.35, code="panel_class", source="") for p in coefficients)
    hottest = (case.get("hottest_cell_c", 50),) * len(arrays)
    return check(setup, assumed, hottest, card_for(cards_of(setup.site.rule_area), AS_OF), AS_OF)


@pytest.mark.parametrize("case", CASES, ids=[case["case"] for case in CASES])
def test_a_worked_case_gets_its_verdict_and_its_numbers(case: dict[str, Any]) -> None:
    answer = _answer(case)
    assert answer.by_part[case["part"]] == case["verdict"]
    for expected in case["findings"]:
        found = next(f for f in answer.findings if f.code == expected["code"])
        assert found.verdict == expected["verdict"], expected
        if "measured" in expected:
            assert found.measured == pytest.approx(expected["measured"], abs=expected["tolerance"] + 1e-9)
            assert found.unit == expected["unit"]
    if "lost_in_full_sun_pct" in case:
        value, tolerance = case["lost_in_full_sun_pct"]
        lost = next(f for f in answer.findings if f.code == "operating_current").facts["lost_in_full_sun_pct"]
        assert lost == pytest.approx(value, abs=tolerance)


@pytest.mark.parametrize("case", [c for c in CASES if "says_missing" in c], ids=lambda case: case["case"])
def test_a_missing_rating_is_named_and_the_seller_is_asked_for_it(case: dict[str, Any]) -> None:
    code, rating = case["says_missing"]
    found = next(f for f in _answer(case).findings if f.code == code)
    assert rating in str(found.facts["missing"])
    assert any(r.code == "ask_seller" and r.facts["rating"] == rating for r in found.remedies)


@pytest.mark.parametrize("case", [c for c in CASES if "remedies" in c], ids=lambda case: case["case"])
def test_a_refusal_names_what_mends_it(case: dict[str, Any]) -> None:
    for code, remedy, value in case["remedies"]:
        found = next(f for f in _answer(case).findings if f.code == code)
        kept = {r.code: r for r in found.remedies}
        assert kept[remedy].new_value == value
        assert kept[remedy].verdict_then == "fits"


@pytest.mark.parametrize("case", [c for c in CASES if "not_looked_at" in c], ids=lambda case: case["case"])
def test_what_was_not_described_stands_beside_the_verdict(case: dict[str, Any]) -> None:
    assert set(case["not_looked_at"]) <= set(_answer(case).not_looked_at)
