"""Connectors of one make or of two, a nameplate without its inner point, and the heat of a lead, over HTTP."""

from typing import Any

import pytest

from tests.http.client import changed, operated, post

PANEL = "/arrays/0/panel"


def findings(request: dict[str, Any]) -> dict[str, dict[str, Any]]:
    answer = post("/v1/compatibility", request)
    assert answer.status_code == 200, answer.text
    return {one["code"]: one for one in answer.json()["compatibility"]["findings"]}


def makes(panel: str | None, inverter: str | None, kind: str | None = None) -> dict[str, Any]:
    request = changed("/inverter", {"ac_power_w": 800, "connector_make": inverter})
    request = changed(f"{PANEL}/connector", kind, request)
    return changed(f"{PANEL}/connector_make", panel, request)


@pytest.mark.parametrize("kind", [None, "not_known"])
def test_one_make_settles_nothing_where_nobody_said_that_the_connectors_lock(kind: str | None) -> None:
    answer = post("/v1/compatibility", makes("Kranich K4", "Kranich K4", kind)).json()["compatibility"]
    assert "connectors" not in {one["code"] for one in answer["findings"]}
    assert f"{PANEL}/connector" in answer["not_looked_at"]


def test_locking_connectors_of_one_make_fit_however_it_is_written() -> None:
    found = findings(makes("Kranich K4", "kranich-K4", "locking_4mm"))["connectors"]
    assert found["verdict"] == "fits"
    assert "Kranich K4" in found["text"]


@pytest.mark.parametrize("kind", [None, "locking_4mm"])
def test_connectors_of_two_makes_are_refused_and_mended_by_one_make_as_promised(kind: str | None) -> None:
    request = makes("Kranich K4", "Moinho M2", kind)
    found = findings(request)["connectors"]
    assert found["verdict"] == "does_not_fit"
    [remedy] = found["remedies"]
    assert (remedy["code"], remedy["who"]) == ("matched_connectors", "electrician")
    mended = operated(request, remedy["patch"]) if remedy["patch"] else None
    again = findings(mended or changed(remedy["pointer"], remedy["new_value"], request))["connectors"]
    assert "Moinho M2" in again["text"]
    assert again["verdict"] == remedy["verdict_then"] == "fits"


@pytest.mark.parametrize("kind", ["bare", "older_unlocked", "older_locking"])
def test_connectors_that_do_not_stay_shut_are_judged_by_that_and_get_the_inverters_make(kind: str) -> None:
    request = makes("Kranich K4", "Moinho M2", kind)
    found = findings(request)["connectors"]
    assert found["verdict"] in {"does_not_fit", "not_known"}
    mending = [one for one in found["remedies"] if one["code"] == "matched_connectors"]
    assert mending
    for remedy in mending:
        again = findings(operated(request, remedy["patch"]))["connectors"]
        assert again["verdict"] == remedy["verdict_then"] == "fits"


@pytest.mark.parametrize(("panel", "inverter"), [("Kranich K4", None), (None, "Kranich K4"), (None, None)])
def test_one_make_alone_settles_nothing(panel: str | None, inverter: str | None) -> None:
    answer = post("/v1/compatibility", makes(panel, inverter, "locking_4mm")).json()["compatibility"]
    assert "connectors" not in {one["code"] for one in answer["findings"]}
    assert f"{PANEL}/connector" in answer["not_looked_at"]
    both = post("/v1/compatibility", makes("a", "a", "locking_4mm")).json()["compatibility"]
    assert f"{PANEL}/connector" not in both["not_looked_at"]


@pytest.mark.parametrize(("voc", "verdict"), [(49.4, "not_known"), (39.4, "fits")])
def test_power_over_voltage_and_current_counts_without_the_inner_point(voc: float, verdict: str) -> None:
    """440 W from 49.4 V and 14.1 A is a fill factor of 0.63; crystalline panels of the public list have 0.70 up."""
    sheet = {"rated_power_w": 440, "open_circuit_voltage_v": voc, "short_circuit_current_a": 14.1}
    found = findings(changed(PANEL, sheet))["datasheet_sanity"]
    assert found["verdict"] == verdict
    assert ("ask_seller" in {one["code"] for one in found["remedies"]}) == (verdict == "not_known")


def test_thin_film_may_have_the_fill_factor_that_silicon_has_not() -> None:
    sheet = {"rated_power_w": 100, "open_circuit_voltage_v": 100, "short_circuit_current_a": 1.58, "cell_kind": "cdte"}
    assert findings(changed(PANEL, sheet))["datasheet_sanity"]["verdict"] == "fits"


def test_the_heat_of_a_lead_is_told_a_metre_and_as_a_share_of_the_energy() -> None:
    """1.5 mm2 class 5 has 13.3 ohm a km (IEC 60228); 800 W at 230 V are 3.478 A through two wires."""
    circuit = {"plug": "household", "voltage_v": 230, "lead_length_m": 10, "lead_mm2": 1.5}
    request = changed("/inverter", {"ac_power_w": 800}, changed("/socket_circuit", circuit))
    found = findings(request)["lead_voltage_rise"]
    amperes = 800 / 230
    assert found["facts"]["heat_w_per_m"] == pytest.approx(amperes**2 * 2 * 0.0133, abs=0.001)
    lost = 10 * amperes**2 * 2 * 0.0133
    assert found["facts"]["most_lost_kwh_per_1000_kwh"] == pytest.approx(1000 * lost / 800, abs=0.01)
    assert "a metre of lead" in found["text"]
