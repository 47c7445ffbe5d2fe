"""The decision with conditions is the decision of the set with the conditions met, asked again over the interface."""

from copy import deepcopy
from typing import Any

from hypothesis import assume, event, given
from hypothesis import strategies as st

from tests.http.client import operated, post

PANEL = {
    "rated_power_w": 440, "open_circuit_voltage_v": 39.4, "short_circuit_current_a": 14.1,
    "max_power_voltage_v": 32.9, "max_power_current_a": 13.38, "cells_in_series": 54,
    "voc_coefficient_pct_per_k": -0.26, "isc_coefficient_pct_per_k": 0.045, "power_coefficient_pct_per_k": -0.31,
    "max_system_voltage_v": 1000, "max_series_fuse_a": 25, "cell_kind": "mono", "glass": "glass_foil",
    "bifaciality_share": 0, "history": "unused", "age_years": 0,
}  # fmt: skip
INPUT = {
    "max_input_voltage_v": 60, "tracking_min_v": 16, "tracking_max_v": 55, "start_voltage_v": 22, "max_current_a": 14,
    "max_short_circuit_current_a": 18, "connector_pairs": 1,
}  # fmt: skip
PLACES = {"IT": (41.9, 12.5), "DE": (54.2, 12.3), "CH": (47.0, 8.0)}


@st.composite
def requests(draw: st.DrawFn) -> dict[str, Any]:
    """A set that often refuses: too strong for the place, for its input or for its cable; cheap, dear or unpriced."""
    area = draw(st.sampled_from(sorted(PLACES)))
    latitude, longitude = PLACES[area]
    count = draw(st.sampled_from([1, 1, 2, 2]))
    panel = {**PANEL, "max_series_fuse_a": draw(st.sampled_from([25, 20]))}
    arrays = [{
        "name": "first", "input": 1, "count": count, "joined": draw(st.sampled_from(["series", "parallel"])),
        "mount": draw(st.sampled_from(["ground_frame", "hung_on_rail"])),
        "plane": {"tilt_deg": draw(st.sampled_from([35, 90])), "azimuth_deg": 180}, "panel": panel,
    }]  # fmt: skip
    given: dict[str, Any] = {
        "site": {"latitude_deg": latitude, "longitude_deg": longitude, "rule_area": area, "coldest_air_c": -12},
        "arrays": arrays,
        "inverter": {"ac_power_w": draw(st.sampled_from([350, 800, 1200])), "input_count": 2, "inputs": [INPUT]},
        "household": {"demand_kwh_per_year": 3000, "always_on_w": 100},
        "tariff": {"currency": "EUR", "periods": [
            {"valid_from": "2026-01-01", "import_price_per_kwh": 0.3, "export": "paid",
             "export_price_per_kwh": draw(st.sampled_from([0.0, 0.08]))}]},
        "as_of": "2026-11-25",
    }  # fmt: skip
    amount = draw(st.one_of(st.none(), st.sampled_from([250, 900, 1100, 1300, 1900, 2300, 2500, 2700, 2900, 3300])))
    if amount is not None:
        given["outlay"] = {"items": [{"what": "all", "amount": amount}]}
    if draw(st.booleans()):
        given["socket_circuit"] = {
            "plug": "household", "breaker_a": 16, "voltage_v": 230, "cable_mm2": 1.5, "laying": "in_conduit",
            "ambient_c": 30, "dedicated": False, "residual_current_device": "type_a", "lead_length_m": 10,
            "lead_mm2": draw(st.sampled_from([0.75, 1.5])), "feeder_length_m": 0, "indoors": True,
        }  # fmt: skip
    return given


def met(request: dict[str, Any], decision: dict[str, Any]) -> dict[str, Any]:
    """The request with what the decision's changes set in it, as a caller would write it."""
    mended = deepcopy(request)
    for change in decision["once_met"]["changes"]:
        if change["patch"]:
            mended = operated(mended, change["patch"])
            continue
        *way, last = change["pointer"].split("/")[1:]
        node: Any = mended
        for part in way:
            node = node[int(part)] if isinstance(node, list) else node[part]
        node[last] = change["new_value"]
    return mended


@given(requests())
def test_the_decision_with_conditions_is_that_of_the_set_with_the_conditions_met(request: dict[str, Any]) -> None:
    asked = post("/v1/appraisal", request).json()
    decision = asked["decision"]
    event(f"{decision['verdict']}, {'changed' if decision['once_met'] else 'as asked'}")
    assume(decision["once_met"] is not None)
    again = post("/v1/appraisal", met(request, decision)).json()
    then = again["decision"]
    assert then["once_met"] is None
    softened = {"worth_it": "worth_it_if"}
    assert decision["verdict"] == softened.get(then["verdict"], then["verdict"])
    assert decision["worth_up_to"] == then["worth_up_to"]
    figures = decision["once_met"]
    assert figures["year_kwh"] == again["energy"]["year_kwh"]
    for name in ("saving_first_year", "discounted_payback_years", "net_present_value", "worth_up_to"):
        assert figures[name] == again["payback"][name], name
    demanded = {(one["code"], one["pointer"]) for one in figures["changes"]}
    left = {(one["code"], one["pointer"]) for one in then["conditions"]}
    if decision["verdict"] == "worth_it_if" == then["verdict"]:
        told = {(one["code"], one["pointer"]) for one in decision["conditions"]}
        assert told - demanded == left
    of_demands = {"mend_first", "ask_for_price", "set_the_limit"}
    steps = [[one["code"] for one in answer["steps"] if one["code"] not in of_demands] for answer in (asked, again)]
    assert steps[0] == steps[1]
