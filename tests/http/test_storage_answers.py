"""A small battery over HTTP: both sides, in words, in the report, in the completed request, and what is refused."""

from typing import Any

import pytest

from service.api.schemas.requests import PLAIN, SMALLEST
from service.api.schemas.storage import _result
from service.core.model.band import Band
from service.core.worth import StoragePays
from tests.http.client import post

ROOF = {**SMALLEST, "household": {"demand_kwh_per_year": 3000}, "as_of": "2026-11-25"}
TARIFF = {"currency": "EUR", "periods": [{"valid_from": "2026-01-01", "import_price_per_kwh": 0.34}]}


def asked(storage: dict[str, Any] | None, **parts: Any) -> dict[str, Any]:
    answer = post("/v1/appraisal", {**ROOF, "tariff": TARIFF, "storage": storage, **parts})
    assert answer.status_code == 200, answer.text
    return answer.json()


def codes(answer: dict[str, Any]) -> list[str]:
    return [one["code"] for one in answer["storage"]["told"]]


def test_without_a_battery_nothing_is_said_of_one() -> None:
    assert asked(None)["storage"] is None


def test_both_sides_stand_beside_each_other_and_the_set_keeps_its_own_account() -> None:
    alone, got = asked(None), asked({"usable_kwh": 1, "meter_reader": True, "amount": 250})
    storage = got["storage"]
    assert got["use"] == alone["use"]
    assert got["payback"] == alone["payback"]
    assert storage["without"]["self_used_kwh"] == got["use"]["self_used_kwh"]
    assert storage["without"]["saving_first_year"] == got["payback"]["saving_first_year"]
    assert storage["with"]["self_used_kwh"]["middle"] > storage["without"]["self_used_kwh"]["middle"]
    assert storage["pays"] in {True, False}
    assert storage["outlay_to_pay"] == storage["money"]["outlay_to_pay"]["middle"]
    assert not {"", None} & {one["text"] for one in storage["told"]}


@pytest.mark.parametrize(
    ("amount", "code", "pays"), [(1, "pays", True), (4000, "does_not_pay", False), (None, "pays_up_to", None)]
)
def test_whether_it_pays_is_said_first(amount: float | None, code: str, pays: bool | None) -> None:
    got = asked({"usable_kwh": 1, "meter_reader": True, "amount": amount})
    assert codes(got)[0] == code
    assert got["storage"]["pays"] is pays


def test_a_box_that_takes_more_than_it_brings_pays_at_no_price_and_that_is_said() -> None:
    hungry = {"usable_kwh": 0.2, "standby_w": 60, "amount": 100}
    got = asked(hungry)
    assert codes(got)[0] == "pays_at_no_price"
    assert got["storage"]["outlay_to_pay"] == 0


def test_how_it_works_and_what_was_not_looked_at_is_said() -> None:
    assert {"follows_the_meter", "coupling_dc", "not_modelled"} <= set(
        codes(asked({"usable_kwh": 1, "meter_reader": True}))
    )
    assert {"feeds_all_night", "coupling_ac"} <= set(codes(asked({"usable_kwh": 1, "coupling": "ac"})))


def test_narrow_inputs_of_the_box_cost_yield_and_that_is_said() -> None:
    got = asked({"usable_kwh": 1, "meter_reader": True, "max_input_current_a": 8})
    assert "narrow_inputs" in codes(got)
    assert got["storage"]["inputs_lost_kwh"] > 20
    wide = asked({"usable_kwh": 1, "meter_reader": True, "max_input_current_a": 30})["storage"]
    assert wide["inputs_lost_kwh"] < 1


def test_panels_that_the_box_does_not_bear_come_before_the_money() -> None:
    got = asked({"usable_kwh": 1, "meter_reader": True, "amount": 1, "max_input_voltage_v": 30})
    assert got["storage"]["inputs"] == "does_not_fit"
    assert codes(got)[0] == "inputs_do_not_fit"
    assert "30.0 V" in got["storage"]["told"][0]["text"]
    assert got["compatibility"] == asked(None)["compatibility"]  # of the set alone


def test_limits_of_the_box_that_nobody_gave_are_not_known_whatever_the_inverter_bears() -> None:
    got = asked({"usable_kwh": 1, "meter_reader": True})
    assert got["storage"]["inputs"] == "not_known"
    texts = " ".join(one["text"] for one in got["storage"]["told"] if one["code"] == "inputs_not_known")
    assert "voltage" in texts
    assert "short-circuit" in texts
    beside = asked({"usable_kwh": 1, "coupling": "ac"})
    assert beside["storage"]["inputs"] is None
    assert not {"inputs_not_known", "inputs_fit"} & set(codes(beside))


def test_limits_that_hold_by_the_figures_given_are_told_with_both_figures() -> None:
    limits = {"max_input_voltage_v": 150, "max_short_circuit_current_a": 40}
    panel = {**SMALLEST["arrays"][0]["panel"], "open_circuit_voltage_v": 37.5, "short_circuit_current_a": 13.9,
             "max_power_voltage_v": 31.0, "max_power_current_a": 13.23, "voc_coefficient_pct_per_k": -0.27}  # fmt: skip
    arrays = [{**SMALLEST["arrays"][0], "panel": panel}]
    got = asked({"usable_kwh": 1, "meter_reader": True, **limits}, arrays=arrays)
    assert got["storage"]["inputs"] == "fits"
    assert codes(got).count("inputs_fit") == 2


def test_a_low_charge_limit_keeps_surplus_out_and_that_is_told() -> None:
    low, high = (asked({"usable_kwh": 2, "meter_reader": True, "charge_limit_w": watts}) for watts in (50, 2000))
    assert low["storage"]["year"]["over_charge_limit_kwh"] > 20
    assert high["storage"]["year"]["over_charge_limit_kwh"] == 0
    assert "over_charge_limit" in codes(low)
    assert "over_charge_limit" not in codes(high)
    assert low["storage"]["year"]["charged_kwh"] < high["storage"]["year"]["charged_kwh"]


def test_the_cautions_of_a_battery_come_with_it() -> None:
    assert "storage" in {one["code"] for one in asked({"usable_kwh": 1})["cautions"]}
    assert "storage" not in {one["code"] for one in asked(None)["cautions"]}


def test_the_completed_request_can_be_sent_again_and_answers_the_same() -> None:
    first = asked({"usable_kwh": 1.5, "amount": 300}, include=["used"])
    used = first["used"]
    again = post("/v1/appraisal", used).json()
    assert again["storage"]["year"] == first["storage"]["year"]  # bands narrow where nothing is assumed any more
    gains = [one["storage"]["more_self_used_kwh"]["middle"] for one in (first, again)]
    assert gains[0] == gains[1]
    left = {one["pointer"] for one in again["assumptions"] if one["pointer"].startswith("/storage")}
    assert left == {"/storage/max_input_current_a"}  # no request can state that there is no such limit


def test_the_report_has_both_sides() -> None:
    body = {**ROOF, "tariff": TARIFF, "storage": {"usable_kwh": 1, "amount": 200}}
    text = post("/v1/appraisal", body, accept="text/plain").text
    assert "A battery beside it" in text
    assert "Without the battery" in text
    assert max(len(line) for line in text.splitlines()) <= 72
    plain = post("/v1/appraisal", {**ROOF, "tariff": TARIFF}, accept="text/plain").text
    assert "battery beside" not in plain


def test_the_payback_of_a_set_has_it_too() -> None:
    answer = post("/v1/payback", {**ROOF, "tariff": TARIFF, "storage": {"usable_kwh": 1}})
    assert answer.status_code == 200
    assert answer.json()["storage"]["with"]["self_used_kwh"]["middle"] > 0


@pytest.mark.parametrize(
    ("storage", "where"),
    [
        ({"usable_kwh": 1, "meter_reader": True, "night_feed_w": 100}, "/storage/night_feed_w"),
        ({"usable_kwh": 1, "meter_reader": True, "charge_above_w": 0}, "/storage/charge_above_w"),
        ({"usable_kwh": 1, "coupling": "ac", "max_input_current_a": 12}, "/storage/max_input_current_a"),
        ({"usable_kwh": 1, "night_feed_w": 500, "discharge_limit_w": 300}, "/storage/night_feed_w"),
        ({"usable_kwh": 0.4, "night_feed_w": 500}, "/storage/night_feed_w"),
    ],
)
def test_parts_of_a_battery_that_cannot_both_hold_are_refused(storage: dict[str, Any], where: str) -> None:
    answer = post("/v1/appraisal", {**ROOF, "storage": storage})
    assert answer.status_code == 422, answer.text
    (mistake,) = answer.json()["errors"]
    assert mistake["pointer"] == where
    assert mistake["code"] == "contradiction"
    assert mistake["accepted"]


def test_a_battery_beside_a_plain_energy_is_refused_as_it_goes_by_the_hour() -> None:
    answer = post("/v1/payback", {**PLAIN, "storage": {"usable_kwh": 1}})
    assert answer.status_code == 422
    (mistake,) = answer.json()["errors"]
    assert mistake["pointer"] == "/storage"
    assert "site" in mistake["problem"]


def test_powers_left_open_are_chosen_among_settings_that_are_shown() -> None:
    got = asked({"usable_kwh": 1}, include=["used"])
    storage, tried = got["storage"], got["storage"]["settings_tried"]
    gains = [one["more_self_used_kwh"] for one in tried]
    assert gains == sorted(gains, reverse=True)
    assert {"night_feed_w": 0, "charge_above_w": 0, "more_self_used_kwh": 0} in tried
    assert storage["more_self_used_kwh"]["middle"] == gains[0] > 0
    assert "setting_chosen" in codes(got)
    assumed = {one["pointer"]: one["value"] for one in got["assumptions"]}
    for name in ("night_feed_w", "charge_above_w"):
        assert assumed[f"/storage/{name}"] == got["used"]["storage"][name] == tried[0][name]


def test_powers_of_your_own_that_lower_the_use_at_home_come_with_what_to_set_instead() -> None:
    got = asked({"usable_kwh": 2, "night_feed_w": 400, "charge_above_w": 0})
    assert got["storage"]["more_self_used_kwh"]["middle"] < 0
    best = got["storage"]["settings_tried"][0]
    (text,) = (one["text"] for one in got["storage"]["told"] if one["code"] == "lowers_self_use")
    assert f"{best['night_feed_w']:.0f} W by night" in text
    mended = asked({"usable_kwh": 2, **{name: best[name] for name in ("night_feed_w", "charge_above_w")}})
    assert mended["storage"]["more_self_used_kwh"]["middle"] == best["more_self_used_kwh"] > 0


def test_a_box_that_nothing_helps_is_left_off_and_the_answer_says_so() -> None:
    small = {"household": {"demand_kwh_per_year": 9000}, "arrays": [{"panel": {"rated_power_w": 100}}]}
    got = asked({"usable_kwh": 1, "coupling": "ac"}, **small)
    assert "left_off" in codes(got)
    assert got["storage"]["with"] == got["storage"]["without"]
    assert {one["value"] for one in got["assumptions"] if one["pointer"] == "/storage/night_feed_w"} == {0}
    said = asked({"usable_kwh": 1, "coupling": "ac", "night_feed_w": 0}, **small)
    assert "left_off" in codes(said)
    assert said["storage"]["settings_tried"] == []


@pytest.mark.parametrize("amount", [0, -50])
def test_a_box_that_is_left_off_does_not_pay_even_as_a_gift(amount: float) -> None:
    storage = asked({"usable_kwh": 1, "night_feed_w": 0, "amount": amount})["storage"]
    assert storage["pays"] is storage["money"]["pays"] is False
    assert storage["told"][0]["code"] == "pays_at_no_price"


def test_a_battery_kept_no_time_is_not_said_to_bring_less_than_it_takes() -> None:
    box = {"usable_kwh": 1.0, "meter_reader": True}
    told = asked(box, household={"demand_kwh_per_year": 2500, "stay_years": 0})["storage"]
    text = next(one["text"] for one in told["told"] if one["code"] == "pays_at_no_price")
    assert told["money"]["gain_first_year"]["middle"] > 0
    assert "no time" in text
    assert "less than it takes" not in text


def test_what_pays_with_luck_alone_is_not_said_to_pay_up_to_nought() -> None:
    band = Band(-9.0, -2.67, 3.0)
    lucky = StoragePays(
        years_kept=10, gain_first_year=band, outlay_to_pay=Band(0.0, 0.0, 12.0), amount=None, payback_years=None,
        net_present_value=None, pays=None,
    )  # fmt: skip
    text = _result(lucky, "EUR", off=False).text
    assert "at no price" in text
    assert "12 EUR" in text
    assert "Up to 0" not in text
