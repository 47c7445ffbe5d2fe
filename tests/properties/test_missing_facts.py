"""Whatever a finding reads: not saying it never makes a thing fit, for every fact of panel, inverter, input, circuit.

The list of facts is read off the model, so that a new one is asked about without anybody thinking of it. Each set is
complete and drawn near its limits; then one fact is left out and the request is completed as the service does it.
"""

from copy import deepcopy
from dataclasses import fields
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from service.core.compatibility.conductors import carrying_capacity
from service.core.completion.fill_arrays import arrays_of
from service.core.completion.fill_home import circuit_of
from service.core.completion.fill_inverter import inverter_of
from service.core.completion.node import Node
from service.core.errors import ContradictionError
from service.core.model import facts
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Verdict
from service.data.panel_list import load_panel_list
from tests import builders
from tests.properties.compatibility_strategies import AS_OF, asked

LISTED = load_panel_list()
Given = dict[str, Any]
Verdicts = dict[tuple[str, str], Verdict]

WHERE = {
    facts.Panel: ("arrays", 0, "panel"), facts.Inverter: ("inverter",), facts.Input: ("inverter", "inputs", 0),
    facts.SocketCircuit: ("socket_circuit",), facts.OtherSet: ("socket_circuit", "other_sets", 0),
}  # fmt: skip
EVERY_FACT = [(*where, field.name) for kind, where in WHERE.items() for field in fields(kind)]

# What a closed list or a yes or no may be where nobody said.
CHOICES: dict[str, tuple[Any, ...]] = {
    "cell_kind": ("mono", "poly", "topcon", "hjt", "back_contact", "cdte", "cigs", "amorphous"),
    "glass": ("glass_foil", "glass_glass"), "max_panel_power_kind": ("maximum", "recommended"),
    "plug": ("household", "special_connector", "fixed"), "dedicated": (True, False), "same_circuit": (True, False),
    "half_cells": (True, False),
    "shared_neutral": (True, False),
    "laying": ("in_insulated_wall", "in_conduit", "under_plaster", "on_wall", "in_air",
               "in_conduit_in_insulated_wall"),
    "residual_current_device": ("type_a", "type_f", "type_b", "type_ac", "one_way", "none"),
}  # fmt: skip

# Facts that speak of one thing more, beside what is described, a demand of the maker's among them: where nobody names
# it, it is not there, and the answer says that it was taken so. And the one figure of the datasheet that only adds: the
# surplus of a rear side that the input does not draw takes nothing from what was promised.
NOT_THERE_UNLESS_NAMED = {"other_sets", "feeder_length_m", "shared_neutral", "asks_residual_current_device"}
ONLY_ADDS = {("bifaciality_share", "operating_current")}


def near(value: float, spread: float = 0.04) -> st.SearchStrategy[float]:
    """A limit a little below or above."""
    return st.floats(1 - spread, 1 + spread).map(lambda share: round(share * value, 3))


@st.composite
def requests(draw: st.DrawFn) -> tuple[Given, str]:
    """A request with everything said, near its limits, and its area."""
    panel, count = draw(panels()), draw(st.sampled_from([1, 2, 3]))
    joined = draw(st.sampled_from(["series", "parallel"]))
    series, parallel = (count, 1) if joined == "series" else (1, count)
    cold = series * panel["open_circuit_voltage_v"] * (1 - panel["voc_coefficient_pct_per_k"] * 0.39)
    current = "max_short_circuit_current_a" if draw(st.booleans()) else "max_panel_short_circuit_current_a"
    factor = 1.25 if current == "max_short_circuit_current_a" else 1.0
    one_input = {
        "max_input_voltage_v": draw(near(cold)),
        "tracking_min_v": draw(near(0.88 * series * panel["max_power_voltage_v"])),
        "tracking_max_v": 0.97 * cold,
        "start_voltage_v": draw(near(0.93 * series * panel["open_circuit_voltage_v"])),
        "max_current_a": draw(near(parallel * panel["max_power_current_a"])),
        current: draw(near(factor * parallel * panel["short_circuit_current_a"])),
        "max_panel_power_w": draw(near(count * panel["rated_power_w"])),
        "max_panel_power_kind": draw(st.sampled_from(["maximum", "recommended"])),
        "connector_pairs": 1,
        "max_input_power_w": 500.0,
    }
    area = draw(st.sampled_from(["DE", "AT", "CH", "PT", "GB", "US-UT", "US-ME"]))
    circuit = draw(circuits(area))
    by_cable = near(0.95 * spare_w(circuit, area), 0.1)
    watts = draw(st.one_of(by_cable, by_cable, st.sampled_from([300.0, 600.0, 800.0])))
    inverter = {
        "ac_power_w": watts, "set_limit_w": draw(st.sampled_from([1.0, 1.0, 0.5])) * watts, "input_count": 1,
        "inputs": [one_input], "weighted_efficiency_share": 0.955, "efficiency_weighting": "european",
        "night_draw_w": 0.1, "seat": "indoors", "connector_make": "Kranich K4",
        "asks_residual_current_device": draw(st.sampled_from(["type_a", "type_b"])),
        "grid_voltage_v": draw(st.sampled_from([120.0, 230.0, 240.0])),
        "export_limit_w": draw(st.sampled_from([0.0, watts])),
        "certificates": draw(st.sampled_from([["VDE-AR-N 4105"], ["EN 50549-1"]])),
    }  # fmt: skip
    array = {"name": "a", "input": 1, "count": count, "joined": joined, "panel": panel, "mount": draw(st.sampled_from(
        ["hung_on_rail", "ground_frame"])), "plane": {"tilt_deg": 90, "azimuth_deg": 180}}  # fmt: skip
    return {"arrays": [array], "inverter": inverter, "socket_circuit": circuit}, area


def spare_w(circuit: Given, area: str) -> float:
    """About what the circuit's cable bears beside its breaker, of what an inverter may have."""
    carrying = carrying_capacity(circuit["cable_mm2"], circuit["laying"], 30, area, circuit["voltage_v"])
    spare_a = (carrying.current_a if carrying else 0.0) - circuit["breaker_a"]
    others_w = sum(other["ac_power_w"] for other in circuit["other_sets"] if other["same_circuit"])
    factor = 1.25 if area.startswith("US") else 1.0
    return min(max(spare_a * circuit["voltage_v"] / factor - others_w, 300.0), 4000.0)


@st.composite
def panels(draw: st.DrawFn) -> Given:
    """A whole datasheet that agrees with itself."""
    cells = draw(st.sampled_from([36, 54, 60, 72]))
    voc = round(cells * draw(st.floats(0.62, 0.72)), 2)
    isc = round(draw(st.floats(6, 15)), 2)
    vmp, imp = round(0.83 * voc, 2), round(0.95 * isc, 2)
    bifacial = draw(st.sampled_from([0.0, 0.7]))
    return {
        "rated_power_w": round(vmp * imp, 1), "open_circuit_voltage_v": voc, "short_circuit_current_a": isc,
        "max_power_voltage_v": vmp, "max_power_current_a": imp, "cells_in_series": cells,
        "voc_coefficient_pct_per_k": draw(st.floats(-0.34, -0.24)),
        "isc_coefficient_pct_per_k": draw(st.floats(0.03, 0.07)), "power_coefficient_pct_per_k": -0.35,
        "max_system_voltage_v": draw(near(3 * voc, 0.3)), "max_series_fuse_a": draw(near(2 * isc, 0.3)),
        "cell_kind": draw(st.sampled_from(["mono", "poly", "topcon", "cdte"])), "bifaciality_share": bifacial,
        "length_mm": 1722.0, "width_mm": 1134.0, "weight_kg": 21.0, "age_years": 2.0, "power_tolerance_pct": [0.0, 3.0],
        "connector": draw(st.sampled_from(["locking_4mm", "older_unlocked", "bare"])),
        "connector_make": draw(st.sampled_from(["Kranich K4", "Moinho M2"])),
        "glass": "glass_glass" if bifacial else "glass_foil", "history": "unused", "model_code": "X",
        "half_cells": draw(st.booleans()),
    }  # fmt: skip


@st.composite
def circuits(draw: st.DrawFn, area: str) -> Given:
    """A whole circuit, now and then with another set."""
    us = area.startswith("US")
    other = {"ac_power_w": draw(st.sampled_from([300.0, 600.0, 1500.0])), "panel_power_w": draw(st.sampled_from(
        [300.0, 900.0, 2500.0])), "same_circuit": draw(st.booleans())}  # fmt: skip
    return {
        "plug": draw(st.sampled_from(["household", "special_connector", "fixed"])),
        "breaker_a": draw(st.sampled_from([6.0, 10.0, 13.0])), "voltage_v": 120.0 if us else 230.0,
        "cable_mm2": draw(st.sampled_from([2.08, 3.31, 5.26] if us else [1.5, 2.5, 4.0])),
        "laying": draw(st.sampled_from(CHOICES["laying"])), "ambient_c": draw(st.floats(20, 40)),
        "dedicated": draw(st.sampled_from([False, False, True])),
        "shared_neutral": draw(st.booleans()),
        "residual_current_device": draw(st.sampled_from(["type_a", "type_ac", "none"])),
        "lead_length_m": draw(st.floats(0, 40)), "lead_mm2": draw(st.sampled_from([1.0, 1.5, 2.5])),
        "feeder_length_m": draw(st.sampled_from([0.0, 20.0])), "indoors": True, "lead_route": "window",
        "other_sets": [other] if draw(st.booleans()) else [],
    }  # fmt: skip


def answered(request: Given, area: str) -> tuple[Verdicts, dict[str, Assumption]]:
    """The verdicts on a request, completed as the service does it, by code and place; and what was assumed."""
    log: list[Assumption] = []
    arrays = arrays_of(
        [Node(given, f"/arrays/{i}", log) for i, given in enumerate(request["arrays"])], 1, AS_OF, LISTED
    )
    inverter = inverter_of(Node(request["inverter"], "/inverter", log), 1)
    circuit = circuit_of(Node(request["socket_circuit"], "/socket_circuit", log), area)
    setup: Setup = builders.setup(
        arrays=arrays, inverter=inverter, socket_circuit=circuit, site=builders.site(rule_area=area),
        meter=facts.Meter(counts="reversing", sums_phases=True, netting="instant"),
    )  # fmt: skip
    assumptions = Assumptions.of(log)
    verdicts: Verdicts = {}
    for finding in asked(setup, assumptions).findings:
        verdicts[finding.code, finding.about] = finding.verdict
    return verdicts, dict(assumptions.by_pointer)


def changed(request: Given, path: tuple[Any, ...], value: Any) -> Given:
    """The request with one fact said otherwise, or with None not said at all."""
    request = deepcopy(request)
    node: Any = request
    for step in path[:-1]:
        node = node[step]
    node[path[-1]] = value
    return request


def said(request: Given, path: tuple[Any, ...]) -> Any:
    """The value of a fact; None where the request has no such thing."""
    node: Any = request
    for step in path:
        if isinstance(node, list) and step >= len(node):
            return None
        node = node.get(step) if isinstance(node, dict) else node[step]
    return node


def could_be(name: str, assumption: Assumption | None) -> tuple[Any, ...]:
    """What the fact may truly be, as far as anybody says: the ends of its range, or the whole closed list."""
    if name in CHOICES:
        return CHOICES[name]
    return () if assumption is None else tuple(end for end in (assumption.low, assumption.high) if end is not None)


@pytest.mark.parametrize("path", EVERY_FACT, ids=lambda path: f"{path[0]}.{path[-1]}")
@settings(max_examples=settings.default.max_examples // 2)  # there are many facts
@given(drawn=requests())
def test_what_nobody_said_never_makes_a_thing_fit(path: tuple[Any, ...], drawn: tuple[Given, str]) -> None:
    request, area = drawn
    name, truth = path[-1], said(request, path)
    assume(truth is not None)
    try:
        before, _ = answered(request, area)
        after, assumed = answered(changed(request, path, None), area)
    except ContradictionError:
        return  # a set that is none, or a fact without which nothing is answered
    fitting = {key for key, verdict in after.items() if verdict == Verdict.FITS and key in before}
    # a sheet is held against itself by what is printed on it only, and two parts of it cannot disagree about one
    fitting -= {key for key in fitting if key[0] == "datasheet_sanity" or (name, key[0]) in ONLY_ADDS}
    if name in NOT_THERE_UNLESS_NAMED:
        return
    pointer = "/" + "/".join(map(str, path))
    found = assumed.get(pointer)
    ranged = found is not None and found.low is not None and found.high is not None and isinstance(truth, float)
    if not ranged or found.low <= truth <= found.high:  # type: ignore[union-attr, operator]
        assert {key: before[key] for key in fitting} == dict.fromkeys(fitting, Verdict.FITS)
    if name == "bifaciality_share" and request["arrays"][0]["panel"]["glass"] == "glass_foil":
        return  # foil behind the cells lets no light in: said by the glass
    for value in could_be(name, found):
        try:
            then, _ = answered(changed(request, path, value), area)
        except ContradictionError:
            continue
        assert {key: then[key] for key in fitting if key in then} == {
            key: Verdict.FITS for key in fitting if key in then
        }, value
