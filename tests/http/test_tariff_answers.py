"""Meters and tariffs over HTTP: what is answered, what is assumed aloud, what is refused and how."""

import json
from typing import Any

import pytest

from tests.http.client import PLAIN, SMALLEST, changed, post

PERIOD = {"valid_from": "2026-01-01", "import_price_per_kwh": 0.34}
NIGHT = {"name": "night", "from_clock": "22:00", "to_clock": "06:00", "import_price_per_kwh": 0.22}
SET = {**SMALLEST, "outlay": PLAIN["outlay"]}


def tariff(*periods: dict[str, Any]) -> dict[str, Any]:
    return {"currency": "EUR", "periods": list(periods)}


def answered(body: dict[str, Any]) -> dict[str, Any]:
    answer = post("/v1/payback", body)
    assert answer.status_code == 200, answer.text
    told: dict[str, Any] = answer.json()
    return told


def first_saving(*periods: dict[str, Any], **parts: Any) -> float:
    saving: float = answered({**SET, "tariff": tariff(*periods), **parts})["payback"]["saving_first_year"]["middle"]
    return saving


def refused(body: dict[str, Any]) -> list[dict[str, Any]]:
    answer = post("/v1/payback", body)
    assert answer.status_code == 422, answer.text
    errors: list[dict[str, Any]] = answer.json()["errors"]
    return errors


def test_a_cheaper_night_takes_a_little_off_and_hours_that_cost_the_same_nothing() -> None:
    flat = first_saving(PERIOD)
    awake = {"inverter": {**SET["inverter"], "night_draw_w": 0}}  # what it draws by night gets cheaper as well
    without = first_saving(PERIOD, **awake)
    assert 0.9 * without < first_saving({**PERIOD, "rates": [NIGHT]}, **awake) < without
    same = {**NIGHT, "import_price_per_kwh": 0.34}
    assert first_saving({**PERIOD, "rates": [same]}) == flat
    assert first_saving({"valid_from": "2026-01-01", "hourly": {"import_prices_per_kwh": [0.34] * 8760}}) == flat


def test_cheap_sunny_hours_lengthen_the_payback() -> None:
    noon = {"from_clock": "10:00", "to_clock": "16:00", "import_price_per_kwh": 0.12}
    flat, cheap = (
        answered({**SET, "tariff": tariff(p)})["payback"]["discounted_payback_years"]["middle"]
        for p in (PERIOD, {**PERIOD, "rates": [noon]})
    )
    assert cheap > 1.3 * flat


def test_a_negative_export_price_costs() -> None:
    assert first_saving({**PERIOD, "export_price_per_kwh": -0.05}) < first_saving(PERIOD)


def test_fees_are_costs_of_each_year() -> None:
    period = {**PERIOD, "fee_per_year": 10, "fee_per_kva_year": 50}
    flows = answered({**SET, "tariff": tariff(period)})["payback"]["yearly_flows"]
    assert flows[1]["cost"] == pytest.approx(10 + 0.6 * 50)


def test_netting_in_the_netherlands_ends_with_the_year_and_that_is_said() -> None:
    body = {**SET, "tariff": tariff({**PERIOD, "export": "netted"}), "include": ["used"]}
    body["site"] = {"latitude_deg": 52.4, "longitude_deg": 5.2}
    told = answered(body)
    said = {one["pointer"]: one for one in told["assumptions"]}
    assert said["/tariff/periods/1/valid_from"]["value"] == "2027-01-01"
    assert said["/tariff/periods/1/export"]["code"] == "netting_ends"
    assert "2026-12-31" in said["/tariff/periods/1/export"]["source"]
    assert said["/meter/netting"]["value"] == "year"
    assert told["used"]["tariff"]["periods"][1]["export"] == "unpaid"
    flows = told["payback"]["yearly_flows"]
    assert flows[1]["saving"] > flows[2]["saving"]
    again = answered({**told["used"], "include": []})
    assert again["payback"]["yearly_flows"] == flows


def savings(body: dict[str, Any]) -> list[float]:
    return [flow["saving"] for flow in answered(body)["payback"]["yearly_flows"][1:]]


DUTCH = {**SET, "site": {"latitude_deg": 52.1, "longitude_deg": 5.1}, "as_of": "2026-11-25"}
NETS = {**PERIOD, "export": "netted", "export_price_per_kwh": 0.05}


def test_a_meter_that_runs_backwards_stops_netting_with_the_rule_or_as_the_caller_says() -> None:
    turns = {**DUTCH, "tariff": tariff(NETS), "meter": {"counts": "reversing"}}
    two_way = savings({**turns, "meter": {"counts": "two_way", "netting": "year"}})
    assert savings(turns) == pytest.approx(two_way, abs=0.011)
    assert two_way[1] < 0.99 * two_way[0]  # 37 days in winter, when little is sent out
    own = {**PERIOD, "valid_from": "2027-01-01", "export": "unpaid"}
    assert savings({**turns, "tariff": tariff(NETS, own)})[1] < two_way[1]


def test_netting_has_ended_for_whoever_asks_after_the_end() -> None:
    undated = {key: value for key, value in NETS.items() if key != "valid_from"}
    body = {**DUTCH, "as_of": "2027-02-01", "tariff": tariff(undated)}
    told = answered(body)
    said = {one["pointer"]: one for one in told["assumptions"]}["/tariff/periods/0/export"]
    assert (said["code"], said["value"]) == ("netting_ends", "paid")
    assert "2026-12-31" in said["source"]
    assert savings(body) == savings({**body, "tariff": tariff({**NETS, "export": "paid"})})


def test_another_price_does_not_bring_netting_back() -> None:
    dearer = {**NETS, "valid_from": "2027-01-01", "import_price_per_kwh": 0.36}
    body = {**DUTCH, "tariff": tariff(NETS, dearer)}
    said = {one["pointer"]: one["code"] for one in answered(body)["assumptions"]}
    assert said["/tariff/periods/1/export"] == "netting_ends"
    assert savings(body) == savings({**body, "tariff": tariff(NETS, {**dearer, "export": "paid"})})


def habit(**parts: Any) -> dict[str, Any]:
    machine = {"name": "washing", "kwh_a_run": 0.9, "runs_per_week": 4, "usual_hour": 19}
    answer = post("/v1/appraisal", {**DUTCH, "household": {"machines": [machine]}, **parts})
    assert answer.status_code == 200, answer.text
    told: dict[str, Any] = answer.json()["use"]["habits"][0]
    return told


def test_netting_that_ends_soon_or_within_the_hour_leaves_a_reason_to_wash_by_day() -> None:
    paid = tariff({**NETS, "export": "paid"})
    yearly, hourly = ({"counts": "two_way", "netting": netting} for netting in ("year", "hour"))
    ends, sold = habit(tariff=tariff(NETS), meter=yearly), habit(tariff=paid, meter=yearly)
    assert ends["best_start"] == sold["best_start"] != "19:00"
    assert 0.9 * sold["gain_per_year"] < ends["gain_per_year"] <= sold["gain_per_year"]
    assert habit(tariff=tariff(NETS), meter=hourly) == habit(tariff=paid, meter=hourly)


def test_the_same_rule_ends_for_a_plain_energy_too() -> None:
    body = changed("/tariff/periods/0/export", "netted", PLAIN)
    body["site"] = {"latitude_deg": 52.4, "longitude_deg": 5.2, "rule_area": "NL"}
    told = answered(body)
    assert {one["pointer"]: one["code"] for one in told["assumptions"]}["/tariff/periods/1/export"] == "netting_ends"
    assert told["payback"]["yearly_flows"][2]["saving"] == pytest.approx(640 * 0.55 * 0.34 * 0.995, abs=0.01)


def test_the_rules_of_a_plain_energy_follow_from_its_place() -> None:
    body = changed("/tariff/periods/0/export", "netted", PLAIN)
    placed = {**body, "site": {"latitude_deg": 52.1, "longitude_deg": 5.1}}
    said = {one["pointer"]: one for one in answered(placed)["assumptions"]}
    assert (said["/site/rule_area"]["value"], said["/site/rule_area"]["code"]) == ("NL", "country_of_zone")
    assert said["/tariff/periods/1/export"]["code"] == "netting_ends"
    named = {**placed, "site": {**placed["site"], "rule_area": "NL"}}
    assert savings(placed) == savings(named) != savings(body)
    without = {one["pointer"]: one for one in answered(body)["assumptions"]}
    assert without["/tariff/periods/0/export"]["code"] == "no_rule_known"
    assert without["/tariff/periods/0/export"]["value"] == "netted"
    assert "/tariff/periods/0/export" not in {one["pointer"] for one in answered(PLAIN)["assumptions"]}


def test_a_period_without_a_price_takes_that_of_the_area() -> None:
    told = answered({**SET, "tariff": {"periods": [{"export": "paid", "export_price_per_kwh": 0.08}]}})
    said = {one["pointer"]: one["code"] for one in told["assumptions"]}
    assert said["/tariff/periods/0/import_price_per_kwh"] == "price_of_area"


REFUSED: dict[str, tuple[dict[str, Any], str]] = {
    "rates and hours": ({**PERIOD, "rates": [NIGHT], "hourly": {"import_prices_per_kwh": [0.3] * 24}}, "/hourly"),
    "a rate that never holds": ({**PERIOD, "rates": [NIGHT, {**NIGHT, "days": "weekend"}]}, "/rates"),
    "a rate without a price": ({**PERIOD, "rates": [{"days": "weekend"}]}, "/rates/0"),
    "a rate without an end": ({**PERIOD, "rates": [{"from_clock": "22:00", "import_price_per_kwh": 0.2}]},
                              "/rates/0/to_clock"),
    "a year of hours and one": ({"hourly": {"import_prices_per_kwh": [0.3] * 169}}, "/hourly/import_prices_per_kwh"),
    "a price for what is unpaid": ({**PERIOD, "export": "unpaid", "export_price_per_kwh": 0.08},
                                   "/export_price_per_kwh"),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_contradicting_rates_are_refused_with_what_would_do(name: str) -> None:
    period, pointer = REFUSED[name]
    found = {one["pointer"]: one for one in refused({**SET, "tariff": tariff(period)})}
    mistake = found[f"/tariff/periods/0{pointer}"]
    assert mistake["code"] == "contradiction"
    assert mistake["problem"]
    assert mistake["accepted"]


@pytest.mark.parametrize(
    "rates",
    [[NIGHT, {**NIGHT, "days": "weekend"}], [{"import_price_per_kwh": 0.3}, NIGHT], [NIGHT, NIGHT],
     [{"import_price_per_kwh": 0.3}, {"days": "sunday", "import_price_per_kwh": 0.1}, {**NIGHT, "days": "weekend"}]],
)  # fmt: skip
def test_the_example_beside_a_rate_that_never_holds_is_accepted(rates: list[dict[str, Any]]) -> None:
    (mistake,) = refused({**SET, "tariff": tariff({**PERIOD, "rates": rates})})
    assert mistake["pointer"] == "/tariff/periods/0/rates"
    answered({**SET, "tariff": tariff({**PERIOD, "rates": json.loads(mistake["example"])})})


def test_overlapping_and_unsorted_periods_are_refused_with_an_example() -> None:
    (same_day,) = refused({**SET, "tariff": tariff(PERIOD, PERIOD)})
    assert same_day["pointer"] == "/tariff/periods/1/valid_from"
    (unsorted,) = refused({**SET, "tariff": tariff({**PERIOD, "valid_from": "2028-01-01"}, PERIOD)})
    assert unsorted["pointer"] == "/tariff/periods/1/valid_from"
    assert unsorted["example"] == "2029-01-01"


def test_a_plain_energy_knows_no_hours_and_says_so() -> None:
    hours = {"valid_from": "2026-01-01", "hourly": {"import_prices_per_kwh": [0.3] * 24}}
    for period, pointer in (({**PERIOD, "rates": [NIGHT]}, "rates"), (hours, "hourly")):
        (mistake,) = refused({**PLAIN, "tariff": tariff(period)})
        assert mistake["pointer"] == f"/tariff/periods/0/{pointer}"
        assert "site" in mistake["accepted"]


def test_a_fee_by_the_kva_asks_a_plain_energy_for_its_inverter() -> None:
    body = {**PLAIN, "tariff": tariff({**PERIOD, "fee_per_kva_year": 50})}
    (mistake,) = refused(body)
    assert mistake["pointer"] == "/tariff/periods/0/fee_per_kva_year"
    flows = answered({**body, "inverter": {"ac_power_w": 800}})["payback"]["yearly_flows"]
    assert flows[1]["cost"] == pytest.approx(40)


def codes(told: dict[str, Any]) -> dict[str, str]:
    return {one["pointer"]: one["code"] for one in told["assumptions"]}


def test_what_a_plain_energy_has_in_it_already_is_said_not_dropped() -> None:
    told = answered({
        **PLAIN, "inverter": {"ac_power_w": 600, "export_limit_w": 100}, "meter": {"sums_phases": False},
        "household": {"demand": {"values_w": [100] * 24}, "other_generation": {"panel_power_w": 900}},
    })  # fmt: skip
    for pointer in (
        "/inverter/export_limit_w",
        "/meter/sums_phases",
        "/household/demand",
        "/household/other_generation",
    ):
        assert codes(told)[pointer] == "in_the_share_already"
    assert "in_the_share_already" not in codes(answered(PLAIN)).values()


def test_a_plain_band_out_of_order_is_refused() -> None:
    band = {"cautious": 700, "middle": 640, "hopeful": 600}
    (mistake,) = refused(changed("/energy/year_kwh", band, PLAIN))
    assert (mistake["code"], mistake["pointer"]) == ("contradiction", "/energy/year_kwh")
    assert mistake["accepted"]
    answered(changed("/energy/year_kwh", json.loads(mistake["example"]), PLAIN))
    use = {**PLAIN["use"], "self_used_kwh": {"cautious": 300, "middle": 352, "hopeful": 340}}
    assert [one["pointer"] for one in refused({**PLAIN, "use": use})] == ["/use/self_used_kwh"]


@pytest.mark.parametrize("base", [PLAIN, SET])
def test_a_stay_in_parts_of_a_year_is_counted_and_one_beyond_the_account_is_said(base: dict[str, Any]) -> None:
    base = {**base, "tariff": tariff(PERIOD)}
    half, long = (answered({**base, "household": {"stay_years": stay}}) for stay in (0.5, 30))
    assert half["payback"]["years_kept"] == half["payback"]["if_moving_after_years"]["years"] == 0.5
    first = half["payback"]["yearly_flows"][1]["saving"]
    assert 0 < first == pytest.approx(0.5 * half["payback"]["saving_first_year"]["middle"], rel=1e-3)
    assert codes(long)["/household/stay_years"] == "account_is_shorter"
    assert "/household/stay_years" not in codes(half)


def test_a_rate_of_one_weekday_is_taken() -> None:
    saturday = {"days": "saturday", "import_price_per_kwh": 0.1}
    assert 0.8 * first_saving(PERIOD) < first_saving({**PERIOD, "rates": [saturday]}) < first_saving(PERIOD)


def test_a_plain_energy_shared_by_two_prices_within_a_year_says_that_it_was_by_days() -> None:
    two = tariff(PERIOD, {**PERIOD, "valid_from": "2028-03-01", "import_price_per_kwh": 0.4})
    told = answered({**PLAIN, "tariff": two, "as_of": "2026-11-25"})
    assert codes(told)["/energy"] == "shared_by_days"
    for alone in (PLAIN, {**PLAIN, "tariff": two, "as_of": "2026-03-01"}):
        assert "/energy" not in codes(answered(alone))


BANDS = [0.15] * 7 + [0.25] * 2 + [0.40] * 8 + [0.30] * 5 + [0.15] * 2
UNPAID_NETTED = {"valid_from": "2026-01-01", "export": "netted"}


def by_rates(prices: list[float]) -> list[dict[str, Any]]:
    return [
        {"from_clock": f"{hour:02d}:00", "to_clock": f"{(hour + 1) % 24:02d}:00", "import_price_per_kwh": price}
        for hour, price in enumerate(prices)
    ]


@pytest.mark.parametrize("netting", ["month", "year"])
def test_the_same_prices_written_as_rates_and_by_the_hour_net_alike_and_say_how(netting: str) -> None:
    home = {"household": {"demand_kwh_per_year": 500}, "meter": {"counts": "two_way", "netting": netting}}
    rates = {**UNPAID_NETTED, "import_price_per_kwh": 0.3, "rates": by_rates(BANDS)}
    hourly = {**UNPAID_NETTED, "hourly": {"import_prices_per_kwh": BANDS}}
    one, other = (answered({**SET, **home, "tariff": tariff(period)})["payback"] for period in (rates, hourly))
    assert one["saving_first_year"] == other["saving_first_year"]
    assert [note["code"] for note in one["notes"]] == [note["code"] for note in other["notes"]]
    assert "netted_by_registers" in [note["code"] for note in one["notes"]]


def test_seasons_netted_over_the_year_save_no_more_than_the_bill_and_say_how() -> None:
    """500 kWh at 0.20 and at 0.40 in summer cost less than 150; the set sends out more than the home needs."""
    summer = {"months": [4, 5, 6, 7, 8, 9], "import_price_per_kwh": 0.4}
    period = {**UNPAID_NETTED, "import_price_per_kwh": 0.2, "rates": [summer]}
    home = {"household": {"demand_kwh_per_year": 300}, "meter": {"counts": "two_way", "netting": "year"}}
    told = answered({**SET, **home, "tariff": tariff(period)})
    year = told["payback"]
    bought = {**PERIOD, "import_price_per_kwh": 0.2}
    assert year["saving_first_year"]["hopeful"] < 300 * 0.3
    assert year["saving_first_year"]["middle"] > 300 * 0.2
    assert "netted_by_unlike_prices" in [note["code"] for note in year["notes"]]
    by_month = answered({**SET, **home, "meter": {"counts": "two_way", "netting": "month"}, "tariff": tariff(period)})
    assert "netted_by_unlike_prices" not in [note["code"] for note in by_month["payback"]["notes"]]
    assert answered({**SET, **home, "tariff": tariff(bought)})["payback"]["notes"] == []


@pytest.mark.parametrize("said", [{}, {"export": "unpaid"}, {"export": "paid", "export_price_per_kwh": 0.1}])
def test_where_no_place_is_known_a_reversing_meter_still_tells_that_it_runs_backwards(said: dict[str, Any]) -> None:
    body = {**PLAIN, "meter": {"counts": "reversing"}, "tariff": tariff({**PERIOD, **said})}
    told = {one["pointer"]: one for one in answered(body)["assumptions"]}
    text = told["/tariff/periods/0/export"]["text"]
    assert "runs backwards" in text
    assert "country is not known" in text


@pytest.mark.parametrize("export", ["paid", "netted"])
def test_a_price_that_a_reversing_meter_never_earns_is_told(export: str) -> None:
    period = {**PERIOD, "export": export, "export_price_per_kwh": 0.1}
    for body in (PLAIN, {**SET, "household": {"demand_kwh_per_year": 300}}):
        answer = answered({**body, "meter": {"counts": "reversing"}, "tariff": tariff(period)})
        told = {one["pointer"]: one for one in answer["assumptions"]}["/tariff/periods/0/export_price_per_kwh"]
        assert (told["code"], told["value"]) == ("no_register_for_it", 0.0)


def test_machines_that_need_more_than_the_home_draws_are_cut_aloud_and_asking_again_gives_the_same() -> None:
    machines = [{"name": "oven", "kwh_a_run": 2, "runs_per_week": 21, "usual_hour": 19}]
    home = {"demand_kwh_per_year": 1500, "always_on_w": 30}
    told = answered({**SET, "tariff": tariff(PERIOD), "household": {**home, "machines": machines}})
    cut = {one["pointer"]: one for one in told["assumptions"]}["/household/machines/0/kwh_a_run"]
    assert cut["code"] == "more_than_the_home_draws"
    assert cut["value"] * 21 * 365 / 7 == pytest.approx(1500 - 30 * 8.76, rel=1e-3)
    again = answered(
        {
            **SET,
            "tariff": tariff(PERIOD),
            "household": {**home, "machines": [{**machines[0], "kwh_a_run": cut["value"]}]},
        }
    )
    assert "/household/machines/0/kwh_a_run" not in {one["pointer"] for one in again["assumptions"]}
    assert again["payback"] == told["payback"]


def test_the_first_stamp_of_a_log_that_has_no_time_is_refused_with_what_is_accepted() -> None:
    log = {"first": "2026-06-01", "step_minutes": 60, "values_w": [100.0] * 800}
    (mistake,) = refused({**SET, "tariff": tariff(PERIOD), "household": {"demand": {"log": log}}})
    assert mistake["pointer"] == "/household/demand/log/first"
    assert "a date and a time" in mistake["accepted"]
