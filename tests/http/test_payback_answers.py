"""What the payback answers beside its figures: sentences, bids, the greenhouse gas, and what it refuses."""

import json
from typing import Any

import pytest

from tests.http.client import PLAIN, SMALLEST, changed, post

ITEMS = [{"what": "panels", "amount": 130}, {"what": "inverter", "amount": 95}]


def payback(**parts: Any) -> dict[str, Any]:
    answer = post("/v1/payback", {**PLAIN, **parts})
    assert answer.status_code == 200, answer.text
    told: dict[str, Any] = answer.json()["payback"]
    return told


def test_an_outlay_is_told_by_kind() -> None:
    told = payback(
        outlay={
            "items": ITEMS, "freight": 12, "registration": 8, "faulty_share": 0.1,
            "fetching": {"km": 42, "per_km": 0.3, "trips": 1, "hours": 1.5, "per_hour": 10},
        }
    )  # fmt: skip
    assert told["outlay_parts"] == {
        "things": 225, "freight": 12, "fetching": 40.2, "registration": 8, "second_hand_risk": 13, "rebates": 0,
    }  # fmt: skip
    assert told["outlay"] == pytest.approx(298.2)
    assert told["expected_year_kwh"] == pytest.approx(640 * 0.99)


def test_a_share_of_faulty_panels_without_panels_is_refused_with_what_to_write() -> None:
    answer = post("/v1/payback", {**PLAIN, "outlay": {"items": ITEMS[1:], "faulty_share": 0.1}})
    assert answer.status_code == 422
    (mistake,) = answer.json()["errors"]
    assert mistake["pointer"] == "/outlay/faulty_share"
    assert "second_hand" in mistake["accepted"]


def test_a_bid_is_a_sentence_that_holds() -> None:
    """The sentence is rounded down: who pays what it says is paid back in time."""
    for bid in payback()["break_even"]:
        words = bid["text"].split()
        said = float(words[2])
        assert words[:2] == ["Up", "to"]
        assert words[3] == "EUR"
        assert 0.9 * bid["outlay"] <= said <= bid["outlay"] == bid["worth_up_to"]["middle"]
        again = payback(outlay={"items": [{"what": "set", "amount": said}]})
        assert again["discounted_payback_years"]["middle"] <= bid["years"]


def test_no_one_or_several_rates_of_return_are_said_in_words() -> None:
    assert payback()["rates_of_return"]["code"] == "one"
    none = payback(outlay={"items": [{"what": "rebate", "amount": -40}]})
    assert none["rates_of_return"]["code"] == "none"
    assert none["internal_rate_of_return_share"] is None
    swap = {"years": 15, "inverter_swap": {"year": 15, "amount": 6000}}
    several = payback(money=swap)
    assert several["rates_of_return"]["code"] == "several"
    assert several["internal_rate_of_return_share"] is None
    assert len(several["internal_rates_of_return"]) == 2
    loss = payback(outlay={"items": [{"what": "set", "amount": 5000}]})
    assert loss["internal_rate_of_return_share"] < 0
    assert "loses" in loss["rates_of_return"]["text"]


@pytest.mark.parametrize(
    ("swap", "code"),
    [(None, "paid_back"), ({"year": 4, "amount": 400}, "paid_back_twice"), ({"year": 15, "amount": 6000}, "undone")],
)
def test_a_later_cost_that_undoes_the_payback_is_said(swap: dict[str, Any] | None, code: str) -> None:
    told = payback(money={"inverter_swap": swap} if swap else {})
    crossings = told["crossings"]
    assert crossings["code"] == code
    assert crossings["first_years"] == told["discounted_payback_years"]["middle"]
    assert crossings["lasting_years"] == told["lasting_payback_years"]["middle"]


def test_never_within_the_years_kept_is_said() -> None:
    told = payback(money={"years": 1})
    assert told["crossings"]["code"] == "not_paid_back"
    assert {one["payback_years"] for one in told["sensitivity"]} == {None}
    assert all("still not" in one["text"] for one in told["sensitivity"])


def test_the_greenhouse_gas_is_an_average_with_its_year_and_source() -> None:
    told = payback(site={"latitude_deg": 54.2, "longitude_deg": 12.3, "rule_area": "DE"})
    assert told["co2"]["code"] == "average"
    assert told["co2"]["area"] == "DE"
    assert "average" in told["co2"]["text"]
    assert "Ember" in told["co2"]["source"]
    assert told["co2_avoided_kg_per_year"] == pytest.approx(
        told["expected_year_kwh"] * told["co2"]["g_co2e_per_kwh"] / 1000, abs=0.01
    )


def test_a_grid_that_is_not_known_gets_no_figure() -> None:
    told = payback()
    assert told["co2_avoided_kg_per_year"] is None
    assert told["co2"]["code"] == "not_known"


def test_a_set_is_asked_with_the_grid_of_its_country() -> None:
    told = post("/v1/appraisal", SMALLEST).json()["payback"]
    assert told["co2"]["area"] == "DE"


def test_the_currency_is_the_tariffs_and_no_price_of_another_is_borrowed() -> None:
    kroner = changed("/tariff", {"currency": "NOK", "periods": [{"import_price_per_kwh": 1.3}]})
    assert post("/v1/payback", kroner).json()["payback"]["currency"] == "NOK"
    no_price = changed("/tariff", {"currency": "NOK", "periods": [{"export": "unpaid"}]})
    assert post("/v1/payback", no_price).status_code == 422


def test_a_use_that_is_pasted_brings_its_width() -> None:
    price = {"currency": "EUR", "periods": [{"import_price_per_kwh": 0.3869}]}
    appraisal = post("/v1/appraisal", {**SMALLEST, "outlay": PLAIN["outlay"], "tariff": price}).json()
    told = payback(energy=appraisal["energy"], use=appraisal["use"], tariff=price)
    assert told["saving_first_year"]["cautious"] == pytest.approx(
        appraisal["payback"]["saving_first_year"]["cautious"], rel=1e-3
    )


def test_where_nothing_brings_the_payback_within_the_years_the_money_left_over_tells_the_steps_apart() -> None:
    dear = {**PLAIN, "outlay": {"items": [{"what": "set", "amount": 2500}]}, "money": {"years": 5}}
    told = post("/v1/payback", dear).json()["payback"]["sensitivity"]
    assert all(one["payback_years"] is None for one in told)
    assert len({one["text"] for one in told}) == len(told)
    for one in told:
        change = one["net_present_value_change"]
        assert ("more left over" if change > 0 else "less left over") in one["text"]
        assert "EUR" in one["text"]


def test_the_report_says_where_a_payback_lies_beyond_the_years_counted() -> None:
    body = {**SMALLEST, "outlay": {"items": [{"what": "set", "amount": 600}]}, "household": {"stay_years": 2}}
    text = " ".join(post("/v1/appraisal", body, accept="text/plain").text.split())
    assert "longer than the 2 years counted" in text


def test_beside_a_plant_on_the_roof_the_report_says_whose_power_a_machine_uses() -> None:
    home = {"other_generation": {"panel_power_w": 3000}, "machines": [
        {"name": "washing", "kwh_a_run": 0.9, "runs_per_week": 4, "usual_hour": 19}]}  # fmt: skip
    text = " ".join(post("/v1/appraisal", {**SMALLEST, "household": home}, accept="text/plain").text.split())
    assert "of your own power, from roof and set together" in text
    assert "plant on the roof, tilt" in text


def test_bare_numbers_are_not_taken_as_certain_and_that_is_said() -> None:
    told = post("/v1/payback", PLAIN).json()
    saving = told["payback"]["saving_first_year"]
    assert saving["middle"] == pytest.approx(640 * 0.55 * 0.34, abs=0.01)  # the middle is what was asked
    # Yield 8 % and use 14 %, apart from one another; nine in ten lie above the one end, one in ten above the other.
    step = 1.2816 * (0.08**2 + 0.14**2) ** 0.5
    assert saving["cautious"] == pytest.approx(saving["middle"] * (1 - step), rel=0.001)
    assert saving["hopeful"] == pytest.approx(saving["middle"] * (1 + step), rel=0.001)
    said = {one["pointer"]: one for one in told["assumptions"] if one["code"] == "bare_number"}
    assert set(said) == {"/energy/year_kwh", "/use/self_used_share"}
    assert said["/energy/year_kwh"]["value"] == 640
    assert said["/use/self_used_share"]["low"] < 0.55 < said["/use/self_used_share"]["high"] <= 1


def test_a_band_that_was_given_is_read_as_given_and_only_the_bare_number_beside_it_is_said() -> None:
    band = {"cautious": 560, "middle": 640, "hopeful": 700}
    told = post("/v1/payback", {**PLAIN, "energy": {"year_kwh": band}}).json()
    assert [one["pointer"] for one in told["assumptions"] if one["code"] == "bare_number"] == ["/use/self_used_share"]
    used = {"cautious": 300, "middle": 352, "hopeful": 400}
    use = {"self_used_share": 0.55, "self_used_kwh": used}
    told = post("/v1/payback", {**PLAIN, "energy": {"year_kwh": band}, "use": use}).json()
    assert not [one for one in told["assumptions"] if one["code"] == "bare_number"]
    assert told["payback"]["saving_first_year"]["cautious"] > 0.34 * 290


def test_all_used_at_home_stays_all_at_the_most() -> None:
    told = post("/v1/payback", {**PLAIN, "use": {"self_used_share": 1}}).json()
    saving = told["payback"]["saving_first_year"]
    assert saving["cautious"] < saving["middle"] == pytest.approx(640 * 0.34, abs=0.01)
    assert saving["hopeful"] < 1.15 * saving["middle"]


def test_energy_that_is_all_counted_is_as_sure_as_its_own_band() -> None:
    """610 kWh, 537.7 to 682.3, at 0.22 a kWh for 540: 4.565, 4.024 and 3.597 years; a share of one is no estimate."""
    band = {"cautious": 537.666, "middle": 610, "hopeful": 682.334}
    body = {
        "energy": {"year_kwh": band},
        "use": {"self_used_share": 1},
        "tariff": {"currency": "EUR", "periods": [{"import_price_per_kwh": 0.22}]},
        "outlay": {"items": [{"what": "set", "amount": 540}]},
    }
    answer = post("/v1/payback", body).json()
    years = answer["payback"]["simple_payback_years"]
    assert [years[end] for end in ("cautious", "middle", "hopeful")] == pytest.approx([4.565, 4.024, 3.597], abs=2e-3)
    assert "/use/self_used_share" not in {one["pointer"] for one in answer["assumptions"]}


def test_a_rebate_is_taken_off_and_said() -> None:
    set_and_rebate = [{"what": "set", "amount": 500}, {"what": "city", "amount": -200}]
    told = payback(outlay={"items": set_and_rebate})
    assert (told["outlay"], told["outlay_parts"]["things"], told["outlay_parts"]["rebates"]) == (300, 300, 200)
    assert payback()["outlay_parts"]["rebates"] == 0
    report = post("/v1/appraisal", SMALLEST | {"outlay": {"items": set_and_rebate}}, accept="text/plain").text
    assert "rebates of 200 taken off" in " ".join(report.split())


def test_a_tariff_that_pays_more_for_a_kwh_than_it_asks_is_said_to_turn_things_round() -> None:
    def noted(paid: float, export: str = "paid") -> list[str]:
        period = {
            "valid_from": "2026-01-01",
            "import_price_per_kwh": 0.2,
            "export": export,
            "export_price_per_kwh": paid,
        }
        if export == "unpaid":
            del period["export_price_per_kwh"]
        tariff = {"currency": "EUR", "periods": [period]}
        plain = {"energy": {"year_kwh": 600}, "use": {"self_used_share": 0.5}, "tariff": tariff}
        answer = post("/v1/payback", plain)
        assert answer.status_code == 200, answer.text
        return [one["code"] for one in answer.json()["payback"]["notes"]]

    assert noted(0.3) == ["export_above_import"]
    assert noted(0.2) == noted(0.08) == noted(0.0, "unpaid") == []


KNOWN = {name: PLAIN[name] for name in ("energy", "use", "outlay", "as_of")}
ROSTOCK = {"latitude_deg": 54.2, "longitude_deg": 12.3}


@pytest.mark.parametrize("area", [None, "FR"])
@pytest.mark.parametrize("tariff", [{}, {"tariff": {"periods": [{"export": "unpaid"}]}}])
def test_a_plain_energy_takes_the_price_of_its_area_as_an_appraisal_does(
    area: str | None, tariff: dict[str, Any]
) -> None:
    site = {**ROSTOCK, "rule_area": area} if area else ROSTOCK
    answer = post("/v1/payback", {**KNOWN, "site": site, **tariff})
    assert answer.status_code == 200, answer.text
    told = {one["pointer"]: one for one in answer.json()["assumptions"]}
    appraisal = post("/v1/appraisal", {**SMALLEST, "site": site, **tariff}).json()
    price = told["/tariff/periods/0/import_price_per_kwh"]
    assert price["code"] == "price_of_area"
    assert price["source"]
    assert price in appraisal["assumptions"]
    assert answer.json()["payback"]["currency"] == appraisal["payback"]["currency"]
    saving = answer.json()["payback"]["saving_first_year"]["middle"]
    assert saving == pytest.approx(640 * 0.55 * price["value"], abs=0.01)


@pytest.mark.parametrize("site", [None, {"latitude_deg": 54.2, "longitude_deg": 12.3, "rule_area": "ZZ"}])
def test_a_plain_energy_without_any_price_is_refused_with_what_to_send(site: dict[str, Any] | None) -> None:
    answer = post("/v1/payback", {**KNOWN, **({"site": site} if site else {})})
    assert answer.status_code == 422
    (mistake,) = answer.json()["errors"]
    assert (mistake["code"], mistake["pointer"]) == ("missing", "/tariff")


@pytest.mark.parametrize("export", ["paid", "netted"])
@pytest.mark.parametrize("counts", ["two_way", "reversing", "one_way"])
def test_what_may_not_be_sent_out_earns_nothing_of_a_plain_energy(export: str, counts: str) -> None:
    prices = {"currency": "EUR", "periods": [{"import_price_per_kwh": 0.34, "export": export,
                                              "export_price_per_kwh": 0.1}]}  # fmt: skip
    parts = {"tariff": prices, "meter": {"counts": counts}}
    bound = post("/v1/payback", {**KNOWN, **parts, "inverter": {"ac_power_w": 800, "export_limit_w": 0}}).json()
    assert bound["payback"]["saving_first_year"]["middle"] == pytest.approx(640 * 0.55 * 0.34, abs=0.01)
    noted = {one["pointer"]: one["code"] for one in bound["assumptions"]}
    assert noted["/inverter/export_limit_w"] == "nothing_sent_out"
    less = [one for one in bound["payback"]["sensitivity"] if (one["of"], one["change_share"]) == ("self_use", -0.2)]
    free = post("/v1/payback", {**KNOWN, **parts, "inverter": {"ac_power_w": 800}}).json()
    assert free["payback"]["saving_first_year"] != bound["payback"]["saving_first_year"]
    assert less[0]["net_present_value_change"] < 0
    some = post("/v1/payback", {**KNOWN, **parts, "inverter": {"ac_power_w": 800, "export_limit_w": 400}}).json()
    assert some["payback"]["saving_first_year"] == free["payback"]["saving_first_year"]


def test_where_a_dearer_kwh_costs_more_than_it_saves_that_is_said_with_its_figure() -> None:
    """64 kWh used at home, 100 drawn by night: a tenth on 0.34 takes 1.22 a year, and 1.33 when the set has aged."""
    pays = {"currency": "EUR", "periods": [{"import_price_per_kwh": 0.34, "export": "paid",
                                            "export_price_per_kwh": 0.2}]}  # fmt: skip
    hungry = {**PLAIN["energy"], "night_draw_kwh": 100}
    told = payback(energy=hungry, use={"self_used_share": 0.1}, tariff=pays)
    (note,) = told["notes"]
    assert note["code"] == "dearer_costs"
    aged = (100 - 64 * 0.995**14) * 0.034
    assert f"{aged:.2f} EUR" in note["text"]
    steps = {one["change_share"]: one for one in told["sensitivity"] if one["of"] == "price"}
    assert steps[0.2]["payback_years"] > told["discounted_payback_years"]["middle"] > steps[-0.2]["payback_years"]
    assert payback(use={"self_used_share": 0.1}, tariff=pays)["notes"] == []
    billed = payback(use={"self_used_share": 0.4}, tariff=pays, meter={"counts": "one_way"})
    assert [one["code"] for one in billed["notes"]] == ["dearer_costs"]


GERMAN = {"site": {"latitude_deg": 48.1, "longitude_deg": 11.6}}


def test_a_price_in_hundredths_is_noted_beside_the_price_of_the_area() -> None:
    def told(price: float, path: str = "/v1/payback", **parts: Any) -> list[str]:
        tariff = {"currency": "EUR", "periods": [{"import_price_per_kwh": price}]}
        answer = post(path, {**(parts or {**KNOWN, **GERMAN}), "tariff": tariff}).json()
        return [one["code"] for one in answer["payback"]["notes"]]

    area = post("/v1/payback", {**KNOWN, **GERMAN, "tariff": {"periods": [{"import_price_per_kwh": 30}]}}).json()
    (note,) = area["payback"]["notes"]
    assert "30 EUR" in note["text"]
    assert "DE" in note["text"]
    assert told(30) == told(0.05) == told(30, "/v1/appraisal", **SMALLEST) == ["price_far_from_area"]
    assert told(0.34) == told(0.9) == told(0.15) == told(0.34, "/v1/appraisal", **SMALLEST) == []
    assert told(30, **KNOWN) == []  # no place, no price to be far from


def test_a_bare_share_says_where_its_range_is_to_be_given() -> None:
    told = post("/v1/payback", PLAIN).json()
    text = next(one["text"] for one in told["assumptions"] if one["pointer"] == "/use/self_used_share")
    assert "/use/self_used_kwh" in text
    used = {"cautious": 300, "middle": 352, "hopeful": 400}
    assert post("/v1/payback", {**PLAIN, "use": {"self_used_share": 0.55, "self_used_kwh": used}}).status_code == 200


@pytest.mark.parametrize("parts", [{**KNOWN, **GERMAN}, SMALLEST])
def test_a_price_known_in_another_currency_is_said_where_the_price_is_missing(parts: dict[str, Any]) -> None:
    tariff = {"currency": "USD", "periods": [{"export": "unpaid"}]}
    (mistake,) = post("/v1/payback", {**parts, "tariff": tariff}).json()["errors"]
    assert mistake["pointer"] == "/tariff/periods/0/import_price_per_kwh"
    assert "EUR" in mistake["problem"]
    assert "USD" in mistake["problem"]
    filled = {**tariff, "periods": [{"export": "unpaid", "import_price_per_kwh": json.loads(mistake["example"])}]}
    assert post("/v1/payback", {**parts, "tariff": filled}).status_code == 200


def test_a_tariff_that_pays_for_drawing_is_named_where_a_dearer_kwh_costs() -> None:
    prices = [-0.2 if 8 <= hour < 18 else 0.3 for hour in range(24)]
    tariff = {"currency": "EUR", "periods": [{"hourly": {"import_prices_per_kwh": prices}, "export": "unpaid"}]}
    notes = {
        one["code"]: one["text"]
        for one in post("/v1/appraisal", {**SMALLEST, "tariff": tariff}).json()["payback"]["notes"]
    }
    assert "pays for drawing" in notes["dearer_costs"]


def test_a_set_that_only_its_sale_pays_back_says_so_in_payback_bid_and_decision() -> None:
    terms = {"household": {"stay_years": 3}, "money": {"resale_share": 0.7}}
    told = payback(outlay={"items": [{"what": "set", "amount": 500}]}, **terms)
    assert told["net_present_value"]["middle"] > 0
    assert told["paid_by_selling"]
    assert told["crossings"]["code"] == "by_selling"
    assert told["crossings"]["lasting_years"] == told["discounted_payback_years"]["middle"] == 3
    assert told["worth_up_to"]["middle"] > 500
    assert "selling" in told["break_even"][-1]["text"]
    assert told["simple_payback_years"]["middle"] > 3
    assert "counts no sale" in told["crossings"]["text"]
    moved = [one for one in told["sensitivity"] if one["payback_years"] == 3.0]
    assert moved
    for one in moved:  # the sale stays where it is, and what is left over moves
        more = "more" if one["net_present_value_change"] > 0 else "less"
        assert f"as before, {abs(one['net_present_value_change']):.0f}" in one["text"]
        assert f"{more} left over" in one["text"]
    without = payback(outlay={"items": [{"what": "set", "amount": 500}]}, household={"stay_years": 3})
    assert not without["paid_by_selling"]
    assert without["crossings"]["code"] == "not_paid_back"


def test_money_that_comes_in_at_first_is_not_said_to_bring_its_rate() -> None:
    rebate = {"items": [{"what": "set", "amount": 339}, {"what": "rebate", "amount": -407}]}
    costs = {"years": 10, "running_cost_per_year": 80, "inverter_swap": None}
    told = payback(outlay=rebate, money=costs, use={"self_used_share": 0.3})
    assert told["outlay"] == -68
    assert told["net_present_value"]["middle"] < 0 < told["internal_rate_of_return_share"]
    assert "costs, not what it brings" in told["rates_of_return"]["text"]
