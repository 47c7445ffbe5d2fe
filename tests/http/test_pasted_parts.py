"""Energy and use of an appraisal, pasted into a payback: the same account, or asked back."""

import json
from typing import Any

import pytest

from tests.http.client import PLAIN, SMALLEST, post

DAY = "2026-01-01"
NETTED = {"currency": "EUR", "periods": [{"valid_from": DAY, "import_price_per_kwh": 0.3, "export": "netted",
                                          "export_price_per_kwh": 0.06}]}  # fmt: skip
UNPAID = {"currency": "EUR", "periods": [{"valid_from": DAY, "import_price_per_kwh": 0.3, "export": "unpaid"}]}
BASE = {"as_of": DAY, "outlay": PLAIN["outlay"], "meter": {"netting": "year", "counts": "two_way"}}


def appraised(**parts: Any) -> dict[str, Any]:
    answer = post("/v1/appraisal", {**SMALLEST, **BASE, **parts})
    assert answer.status_code == 200, answer.text
    told: dict[str, Any] = answer.json()
    return told


@pytest.mark.parametrize("roof_w", [800, 3000])
def test_beside_a_plant_on_the_roof_appraisal_payback_and_pasted_parts_agree(roof_w: int) -> None:
    home = {"demand_kwh_per_year": 1200, "other_generation": {"panel_power_w": roof_w}}
    told = appraised(tariff=NETTED, household=home)
    saving = told["payback"]["saving_first_year"]["middle"]
    alone = told["use"]["other_generation"]["year_kwh"]
    year = told["energy"]["year_kwh"]["middle"]
    need = 1200 - alone
    # by hand: what the year still needs is bought, what it has over is sold
    bill = [one * (0.3 if one > 0 else 0.06) for one in (need, need - year)]
    night = 0.3 * told["energy"]["night_draw_kwh"]
    assert saving == pytest.approx(bill[0] - bill[1] - night, abs=0.02)
    direct = post("/v1/payback", {**SMALLEST, **BASE, "tariff": NETTED, "household": home}).json()
    assert direct["payback"] == told["payback"]
    pasted = post("/v1/payback", {**BASE, "tariff": NETTED, "energy": told["energy"], "use": told["use"]}).json()
    assert pasted["payback"]["saving_first_year"]["middle"] == pytest.approx(saving, abs=0.02)


def test_a_plant_of_which_nothing_is_pasted_is_asked_back_where_surplus_is_netted() -> None:
    body = {**PLAIN, "tariff": NETTED, "household": {"other_generation": {"panel_power_w": 3000}}}
    (mistake,) = post("/v1/payback", body).json()["errors"]
    assert mistake["pointer"] == "/use/other_generation"
    use = {**PLAIN["use"], "other_generation": json.loads(mistake["example"])}
    (mistake,) = post("/v1/payback", {**body, "use": use}).json()["errors"]
    assert mistake["pointer"] == "/household/demand_kwh_per_year"
    home = {**body["household"], "demand_kwh_per_year": json.loads(mistake["example"])}
    assert post("/v1/payback", {**body, "use": use, "household": home}).status_code == 200
    assert post("/v1/payback", {**body, "tariff": UNPAID}).status_code == 200  # all in the share
    strict = {"inverter": {"ac_power_w": 800, "export_limit_w": 0}, "meter": {"netting": "month"}}
    assert post("/v1/payback", {**PLAIN, "tariff": NETTED, **strict}).status_code == 200  # nothing to be netted


def test_what_may_not_be_sent_out_is_no_energy_of_a_plain_account() -> None:
    """Of 720 kWh 430 are used and may leave the set: 430 are given, avoid their carbon and bear the cost."""
    parts = {**BASE, "tariff": UNPAID, "site": {"latitude_deg": 48.1, "longitude_deg": 11.6}}
    share = 430 / 720
    body = {**parts, "energy": {"year_kwh": 720}, "use": {"self_used_share": share}}
    strict = post("/v1/payback", {**body, "inverter": {"ac_power_w": 800, "export_limit_w": 0}}).json()["payback"]
    free = post("/v1/payback", body).json()["payback"]
    assert strict["expected_year_kwh"] == pytest.approx(430, abs=0.05)
    assert strict["co2_avoided_kg_per_year"] == pytest.approx(free["co2_avoided_kg_per_year"] * share, rel=1e-3)
    assert strict["levelised_cost_per_kwh"] == pytest.approx(free["levelised_cost_per_kwh"] / share, rel=1e-3)
    assert strict["saving_first_year"]["middle"] == free["saving_first_year"]["middle"]


@pytest.mark.parametrize("beside", [{}, {"inverter": {"ac_power_w": 800, "export_limit_w": 0}}])
def test_pasted_parts_keep_their_width_where_nothing_may_be_sent_out(beside: dict[str, Any]) -> None:
    inverter = {**SMALLEST["inverter"], "export_limit_w": 0}
    told = appraised(tariff=UNPAID, inverter=inverter, household={"demand_kwh_per_year": 1200})
    pasted = post("/v1/payback", {**BASE, "tariff": UNPAID, "energy": told["energy"], "use": told["use"], **beside})
    saving, direct = pasted.json()["payback"]["saving_first_year"], told["payback"]["saving_first_year"]
    for end in ("cautious", "middle", "hopeful"):
        assert saving[end] == pytest.approx(direct[end], rel=0.005)


WIDE = {
    "max_input_voltage_v": 200, "tracking_min_v": 5, "tracking_max_v": 180, "start_voltage_v": 5, "max_current_a": 60,
    "max_short_circuit_current_a": 99,
}  # fmt: skip


@pytest.mark.parametrize(("rated_w", "demand"), [(150, 6000), (300, 6000), (880, 2500)])
@pytest.mark.parametrize("pay", [0.0, 0.08])
def test_pasted_parts_keep_their_width_whatever_is_sent_out(rated_w: int, demand: int, pay: float) -> None:
    """A use near all of the yield is not cut at the middle yield, and what the yield moves is sent out or used."""
    period = {**UNPAID["periods"][0], "export": "paid", "export_price_per_kwh": pay}  # type: ignore[index]
    arrays = [{"mount": "ground_frame", "panel": {"rated_power_w": rated_w}}]
    paid = {"currency": "EUR", "periods": [period]}
    inverter = {**SMALLEST["inverter"], "inputs": [WIDE]}  # an input that starts or not moves hours, which parts lack
    told = appraised(tariff=paid, arrays=arrays, inverter=inverter, household={"demand_kwh_per_year": demand})
    pasted = post("/v1/payback", {**BASE, "tariff": paid, "energy": told["energy"], "use": told["use"]})
    saving, direct = pasted.json()["payback"]["saving_first_year"], told["payback"]["saving_first_year"]
    for end in ("cautious", "middle", "hopeful"):
        assert saving[end] == pytest.approx(direct[end], rel=0.01)


def test_a_use_of_next_to_nothing_at_the_cautious_end_is_not_below_nought_and_can_be_pasted() -> None:
    """A panel of 150 W on an input that nobody told may never start."""
    arrays = [{"mount": "ground_frame", "panel": {"rated_power_w": 150}}]
    told = appraised(tariff=UNPAID, arrays=arrays, household={"demand_kwh_per_year": 6000})
    assert told["energy"]["year_kwh"]["cautious"] < 1.0
    assert told["use"]["self_used_kwh"]["cautious"] == 0.0
    pasted = post("/v1/payback", {**BASE, "tariff": UNPAID, "energy": told["energy"], "use": told["use"]})
    assert pasted.status_code == 200, pasted.text


def test_pasted_parts_of_a_meter_that_counts_each_phase_alone_agree_where_nothing_may_leave_the_home() -> None:
    """What the set gives beyond its own phase the other ones draw: that meter counts it as sent out and paid."""
    paid = {"currency": "EUR", "periods": [{"valid_from": DAY, "import_price_per_kwh": 0.3, "export": "paid",
                                            "export_price_per_kwh": 0.08}]}  # fmt: skip
    inverter = {**SMALLEST["inverter"], "export_limit_w": 0}
    parts = {"tariff": paid, "inverter": inverter, "meter": {"counts": "two_way", "sums_phases": False}}
    told = appraised(**parts, household={"demand_kwh_per_year": 2500})
    assert told["use"]["exported_kwh"] > 50
    pasted = post("/v1/payback", {**BASE, **parts, "energy": told["energy"], "use": told["use"]}).json()
    saving, direct = pasted["payback"]["saving_first_year"], told["payback"]["saving_first_year"]
    assert saving["middle"] == pytest.approx(direct["middle"], abs=0.02)


def test_pasted_use_beyond_the_demand_or_the_plant_that_it_names_is_refused() -> None:
    use = {"self_used_share": 0.9, "demand_kwh": 500}
    (mistake,) = post("/v1/payback", {**PLAIN, "energy": {"year_kwh": 1000}, "use": use}).json()["errors"]
    assert mistake["pointer"] == "/use/self_used_share"
    use = {"self_used_share": 0.4, "other_generation": {"year_kwh": 800, "self_used_kwh": 900}}
    (mistake,) = post("/v1/payback", {**PLAIN, "use": use}).json()["errors"]
    assert mistake["pointer"] == "/use/other_generation/self_used_kwh"
    use["other_generation"]["self_used_kwh"] = json.loads(mistake["example"])
    assert post("/v1/payback", {**PLAIN, "use": use}).status_code == 200
