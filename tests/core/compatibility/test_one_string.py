"""Unlike panels in one string: voltages add, one current flows, the weaker panel's diodes carry the stronger's."""

import pytest

from service.core.compatibility.cold import voltage_at_cell
from tests import builders
from tests.core.compatibility.ask import answer, assumed, inputs, one

# Fennwerk FW-410 and FW-300 (invented): near the HL-440 in current, and far from it
NEAR = builders.panel(rated_power_w=410, short_circuit_current_a=13.8, max_power_current_a=13.06,
                      max_power_voltage_v=31.4, open_circuit_voltage_v=37.6)  # fmt: skip
FAR = builders.panel(rated_power_w=300, open_circuit_voltage_v=39.8, short_circuit_current_a=9.7,
                     max_power_voltage_v=32.6, max_power_current_a=9.2, cells_in_series=60)  # fmt: skip


def string(other, *assumptions, **limits):
    limits = {"max_input_voltage_v": 100, "tracking_max_v": 90, "max_short_circuit_current_a": 20, **limits}
    pair = tuple(
        builders.array(name=name, joined="one_string", panel=panel)
        for name, panel in (("left", builders.panel()), ("right", other))
    )
    return answer(*assumptions, arrays=pair, **inputs(**limits))


def test_cold_voltages_of_one_string_add():
    # IEC 62548: the string's open-circuit voltage is that of its panels in series, each by its own coefficient
    cold = one("cold_voltage", string(FAR))
    sum_v = voltage_at_cell(39.4, -0.26, -14) + voltage_at_cell(39.8, -0.26, -14)
    assert cold.measured == pytest.approx(sum_v)
    assert one("cold_voltage", string(FAR, max_input_voltage_v=60)).verdict == "does_not_fit"
    assert one("system_voltage", string(builders.panel(max_system_voltage_v=50))).verdict == "does_not_fit"


def test_the_current_of_one_string_is_the_strongest_panels_and_not_the_sum():
    asked = string(FAR)
    assert one("short_circuit_current", asked).measured == pytest.approx(1.25 * 14.1)
    assert one("operating_current", asked).measured == pytest.approx(13.38)
    assert not [f for f in asked.findings if f.code == "reverse_current"]
    assert one("input_count", asked).facts["branch_leads"] == 0


def test_start_and_hot_voltages_of_one_string_add():
    alone = answer(arrays=(builders.array(),), **inputs())
    for code in ("hot_voltage", "start_voltage"):
        assert one(code, string(builders.panel())).measured == pytest.approx(2 * one(code, alone).measured)


def test_panels_of_near_currents_lose_what_the_weaker_current_binds():
    finding = one("unlike_panels", string(NEAR))
    # 440 W at 13.38 A bound to about 13.06 A: at most 2.4 % of it, shared by 850 W
    assert finding.verdict == "fits_with_loss" or finding.measured <= 1
    assert 0 < finding.measured < 100 * 440 * (1 - 13.06 / 13.38) / 850


def test_equal_panels_in_one_string_lose_nothing_unless_they_look_different_ways():
    finding = one("unlike_panels", string(builders.panel()))
    assert (finding.verdict, finding.measured) == ("fits", 0)
    turned = builders.Plane(tilt_deg=90, azimuth_deg=240)
    pair = (builders.array(joined="one_string"), builders.array(name="west", joined="one_string", plane=turned))
    assert one("unlike_panels", answer(arrays=pair, **inputs())).verdict == "fits_with_loss"


def test_diodes_that_would_carry_more_than_they_are_tested_for_are_asked_about():
    # IEC 61215-2 MQT 18.1 (from memory): 1.25 x Isc of the panel itself
    finding = one("unlike_panels", string(FAR))
    assert (finding.verdict, finding.likely) == ("not_known", "does_not_fit")
    assert (finding.measured, finding.limit) == pytest.approx((14.1, 1.25 * 9.7))
    assert any(remedy.code == "ask_seller" for remedy in finding.remedies)


def test_an_unknown_current_leaves_the_string_open():
    pointer = "/arrays/1/panel/short_circuit_current_a"
    finding = one("unlike_panels", string(NEAR, assumed(pointer, 13.8, 13.0, 14.0)))
    assert finding.verdict == "not_known"
    assert pointer in finding.facts["missing_pointers"]


def test_an_input_for_each_ends_the_question():
    remedies = one("unlike_panels", string(FAR)).remedies
    assert {r.verdict_then for r in remedies if r.code == "one_panel_per_input"} == {"fits"}


def test_lone_or_side_by_side_arrays_are_judged_as_before():
    series = answer(arrays=(builders.array(count=2),), **inputs(max_input_voltage_v=100))
    lone = answer(arrays=(builders.array(count=2, joined="one_string"),), **inputs(max_input_voltage_v=100))
    assert series.findings == lone.findings
