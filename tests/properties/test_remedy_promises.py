"""Every refusal and every open question says what would change it, and what it promises comes true when sent again."""

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.http.client import SMALLEST, changed, operated, post

UNSETTLED = {"does_not_fit", "not_known"}
WHO = {"you", "electrician", "seller", "operator"}
AREAS = ("DE", "AT", "CH", "IT", "GB", "FR", "NL", "BE-BRU", "US-UT", "US-ME", "US-TX", "UY")


@st.composite
def requests(draw: st.DrawFn) -> dict[str, Any]:
    """Sparse requests: each fact may be left out; too many panels, weak inputs, crowded circuits, old meters."""

    def some(**choices: list[Any]) -> dict[str, Any]:
        drawn = {name: draw(st.sampled_from([None, *values])) for name, values in choices.items()}
        return {name: value for name, value in drawn.items() if value is not None}

    area = draw(st.sampled_from(AREAS))
    limits = some(max_input_voltage_v=[50, 60, 100], max_short_circuit_current_a=[15, 20, 40], max_panel_power_w=[300])
    inverter: dict[str, Any] = {"ac_power_w": draw(st.sampled_from([300, 600, 800, 1200, 2000])), "input_count": 2}
    entries = draw(st.integers(0, 2))
    if entries:
        inverter["inputs"] = [limits] * entries
    inverter |= some(connector_make=["Kranich K4"], certificates=[["VDE-AR-N 4105"], ["CE marking"]])
    arrays = [
        {"input": n, "count": draw(st.integers(1, 4)), "joined": draw(st.sampled_from(["series", "parallel"])),
         "panel": {"rated_power_w": 440} | some(open_circuit_voltage_v=[39.4], short_circuit_current_a=[14.1],
                                                max_series_fuse_a=[15, 25],
                                                connector=["locking_4mm", "older_locking", "bare"],
                                                connector_make=["Kranich K4", "Moinho M2"])}
        for n in (1, 2)
    ]  # fmt: skip
    other = st.fixed_dictionaries(
        {"ac_power_w": st.sampled_from([300, 900]), "panel_power_w": st.just(400), "same_circuit": st.booleans()}
    )
    circuit = some(
        plug=["household", "special_connector", "fixed"], breaker_a=[10, 13, 16, 20], cable_mm2=[1.5, 2.08, 2.5, 4],
        laying=["in_insulated_wall", "in_conduit", "in_air"], ambient_c=[20, 30, 58], dedicated=[True, False],
        lead_length_m=[2, 70], lead_mm2=[0.75, 1.5], feeder_length_m=[15],
        residual_current_device=["type_a", "type_ac", "one_way", "none"], shared_neutral=[True, False],
    )  # fmt: skip
    circuit["other_sets"] = draw(st.lists(other, max_size=3))
    request = SMALLEST | {
        "site": SMALLEST["site"] | {"rule_area": area}, "arrays": arrays, "inverter": inverter,
        "meter": some(counts=["two_way", "reversing", "one_way"]),
    }  # fmt: skip
    return request | ({"socket_circuit": circuit} if draw(st.integers(0, 4)) else {})


def findings(request: dict[str, Any]) -> list[dict[str, Any]]:
    answer = post("/v1/compatibility", request)
    assert answer.status_code == 200, answer.text
    found: list[dict[str, Any]] = answer.json()["compatibility"]["findings"]
    return found


def mended(request: dict[str, Any], remedy: dict[str, Any]) -> dict[str, Any] | None:
    """The request with the remedy in place, by nothing but what the answer says; None where it asks somebody."""
    if remedy["patch"]:
        return operated(request, remedy["patch"])
    return changed(remedy["pointer"], remedy["new_value"], request) if remedy["pointer"] else None


@settings(max_examples=15, deadline=None)
@given(requests())
def test_every_unsettled_finding_has_a_remedy_that_does_what_it_says(request: dict[str, Any]) -> None:
    before = findings(request)
    known = {(one["code"], one["about"]) for one in before}
    for finding in before:
        if finding["verdict"] not in UNSETTLED:
            continue
        assert finding["remedies"], finding
        for remedy in finding["remedies"]:
            assert remedy["who"] in WHO
            assert remedy["text"].endswith(".")
            again = mended(request, remedy)
            if again is None:
                continue
            same = [one for one in findings(again) if one["code"] == finding["code"]]  # the worst first
            here = [one for one in same if one["about"] == finding["about"] or (one["code"], one["about"]) not in known]
            verdict_then = here[0]["verdict"] if here else "fits"
            assert verdict_then == remedy["verdict_then"], (finding, remedy)
