"""Power, kind, number, connectors and the sheet itself."""

import pytest

from service.core.errors import ContradictionError
from service.core.model.place import Plane
from tests import builders
from tests.core.compatibility.ask import alone, answer, assumed, inputs, one


@pytest.mark.parametrize(
    ("kind", "figure", "verdict"),
    [
        ("maximum", 440, "fits"), ("maximum", 430, "does_not_fit"), ("recommended", 430, "fits"),
        ("not_known", 430, "not_known"), ("not_known", 450, "fits"),
    ],
)  # fmt: skip
def test_a_maximum_is_a_limit_and_a_recommendation_advice(kind: str, figure: float, verdict: str) -> None:
    finding = one("panel_power", answer(**alone(), **inputs(max_panel_power_w=figure, max_panel_power_kind=kind)))
    assert finding.verdict == verdict
    assert finding.facts["above"] == (figure < 440)


def test_panels_stronger_than_the_inverter_are_no_question() -> None:
    strong = answer(inverter=builders.inverter(ac_power_w=300, set_limit_w=300))
    assert strong.by_part["panel_side"] == "fits"


def test_where_no_panel_power_is_printed_nothing_is_said_of_it() -> None:
    compatibility = answer(**inputs(max_panel_power_w=None))
    assert not [f for f in compatibility.findings if f.code == "panel_power"]


def test_panels_of_unlike_voltage_lose_together_and_alike_ones_do_not() -> None:
    small = builders.panel(rated_power_w=102, open_circuit_voltage_v=22.3, short_circuit_current_a=6.05,
                           max_power_voltage_v=18.2, max_power_current_a=5.6, cells_in_series=36)  # fmt: skip
    limits = inputs(max_short_circuit_current_a=99, max_current_a=30)
    unlike = answer(arrays=(builders.array(), builders.array(name="small", panel=small)), **limits)
    assert one("unlike_panels", unlike).verdict == "does_not_fit"  # 22.3 V beside 39.4 V
    worn = builders.panel(open_circuit_voltage_v=38.0, max_power_voltage_v=28.0)  # near enough, and 15 % below
    beside = answer(arrays=(builders.array(), builders.array(name="worn", panel=worn)), **limits)
    assert one("unlike_panels", beside).verdict == "fits_with_loss"
    west = builders.array(name="west", plane=Plane(tilt_deg=90, azimuth_deg=270))
    finding = one("unlike_panels", answer(arrays=(builders.array(), west), **limits))
    assert (finding.verdict, finding.measured, finding.facts["planes_differ"]) == ("fits", 0.0, True)


def test_unlike_panels_of_assumed_ratings_are_not_known() -> None:
    other = builders.array(name="other", panel=builders.panel(max_power_voltage_v=31.0))
    compatibility = answer(assumed("/arrays/1/panel/max_power_voltage_v", 31.0, 30.0, 33.0),
                           arrays=(builders.array(), other))  # fmt: skip
    assert one("unlike_panels", compatibility).verdict == "not_known"


def test_more_strings_than_connector_pairs_need_branch_leads() -> None:
    three = (builders.array(count=3, joined="parallel"),)
    finding = one("input_count", answer(arrays=three, **inputs(connector_pairs=2)))
    assert (finding.verdict, finding.facts["branch_leads"], finding.facts["free_inputs"]) == ("fits", 1, 1)


def test_an_input_that_the_inverter_lacks_is_a_meaningless_question() -> None:
    with pytest.raises(ContradictionError) as caught:
        answer(arrays=(builders.array(), builders.array(name="right", input=3)))
    assert caught.value.pointer == "/arrays/1/input"


@pytest.mark.parametrize(
    ("changes", "doubt"),
    [
        ({"max_power_voltage_v": 40.0}, "voltages_swapped"), ({"max_power_current_a": 14.2}, "currents_swapped"),
        ({"cells_in_series": 108}, "half_cells_counted"), ({"rated_power_w": 500}, "power_product"),
    ],
)  # fmt: skip
def test_values_that_contradict_each_other_are_not_known(changes: dict[str, float], doubt: str) -> None:
    finding = one("datasheet_sanity", answer(**alone(**changes)))
    assert finding.verdict == "not_known"
    assert doubt in str(finding.facts["doubts"])
    assert [r.code for r in finding.remedies] == ["ask_seller"]


def test_assumed_values_are_not_held_against_the_sheet() -> None:
    guess = assumed("/arrays/0/panel/cells_in_series", 108)
    assert one("datasheet_sanity", answer(guess, **alone(cells_in_series=108))).verdict == "fits"
    compatibility = answer(assumed("/arrays/0/panel", None), **alone(rated_power_w=500))
    assert not [f for f in compatibility.findings if f.code == "datasheet_sanity"]


@pytest.mark.parametrize(
    ("kind", "verdict"), [("older_unlocked", "does_not_fit"), ("bare", "does_not_fit"), ("older_locking", "not_known")]
)
def test_connectors_that_come_apart_are_refused(kind: str, verdict: str) -> None:
    compatibility = answer(**alone(connector=kind))
    assert one("connectors", compatibility).verdict == verdict
    assert "/arrays/0/panel/connector" not in compatibility.not_looked_at


@pytest.mark.parametrize("kind", ["locking_4mm", "not_known"])
def test_connectors_of_unknown_make_were_not_looked_at(kind: str) -> None:
    compatibility = answer(**alone(connector=kind))
    assert "/arrays/0/panel/connector" in compatibility.not_looked_at
    assert not [f for f in compatibility.findings if f.code == "connectors"]
