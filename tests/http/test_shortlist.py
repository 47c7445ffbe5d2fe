"""A shortlist over HTTP: the sets that are shown are those of an appraisal, and every advert's fate is told."""

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from service.data.seller_questions import load_seller_questions
from tests.http.client import ask, changed, mistakes, post
from tests.http.shortlist_asked import EXAMPLE, PATH, SMALL, answered, reason, same_as_an_appraisal
from tests.shortlist_kinds import HOME, INVERTER, SHEET, inverter_advert, panel_advert

CIRCUIT = json.loads((Path(__file__).parents[2] / "examples/kranichwerft.json").read_text("utf-8"))["socket_circuit"]


@pytest.mark.parametrize("wish", ["quick_payback", "most_value", "least_outlay_per_kwh"])
def test_the_sets_shown_carry_exactly_the_figures_of_an_appraisal_in_the_order_that_was_wished(wish: str) -> None:
    answer = answered({**EXAMPLE, "wish": wish, "limit": 4})
    listed = answer["shortlist"]
    assert len(listed) == 4
    for one in (*listed, answer["new_from_shop"]):
        same_as_an_appraisal(one)
    groups = ["likely_fits", "likely_does_not_fit", "does_not_fit"]
    places = [
        (
            groups.index(one["fit_group"]),
            "advance_payment" in {doubt["code"] for doubt in one["doubts"]},
            {
                "quick_payback": one["simple_payback_years"]["cautious"],
                "most_value": -one["net_present_value"]["middle"],
                "least_outlay_per_kwh": one["outlay"] / one["year_kwh"]["middle"],
            }[wish],
        )
        for one in listed
    ]
    assert places == sorted(places)
    assert {place[:2] for place in places} >= {(0, False), (0, True)}
    assert [one["rank"] for one in listed] == [1, 2, 3, 4]


def test_open_planes_two_places_and_a_described_circuit_keep_to_the_appraisal_too() -> None:
    places = [{"name": "yard", "mount": "ground_frame", "count": 1}, {"mount": "hung_on_rail", "count": 2}]
    answer = answered({**SMALL, "places": places, "socket_circuit": CIRCUIT, "limit": 3})
    assert answer["shortlist"]
    for one in answer["shortlist"]:
        same_as_an_appraisal(one)
        assert one["by_part"]["socket_side"] == "does_not_fit"  # the thin shared circuit of that home


def test_the_example_lists_sets_and_tells_why_the_others_fell_out() -> None:
    answer = answered(EXAMPLE)
    assert reason(answer, "a12") == "not_an_offer"
    assert reason(answer, "a10") == "does_not_fit"  # ninety-six cells on an input of 60 V
    assert "60 V" in next(one for one in answer["adverts"] if one["advert"] == "a10")["because"]["text"]
    assert {"a7", "a8", "a9"} <= {name for one in answer["shortlist"] for name in one["adverts"]}
    set_alone = next(one for one in answer["shortlist"] if one["adverts"] == ["a13"])
    assert sum(one["count"] for one in set_alone["panels"]) == 2  # "2 Module 400 Wp"


def test_an_advert_that_lacks_ratings_is_not_known_to_fit_has_a_wider_band_and_a_question_in_its_language() -> None:
    bare = {"rated_power_w": 400}
    whole = panel_advert("a7", 45, panel={**SHEET, "history": "unused"}, language="pl")
    asked = panel_advert("a7", 45, panel={**bare, "history": "unused"}, language="pl")
    [told], [open_] = (
        answered({**HOME, "at_hand": {"inverter": INVERTER}, "adverts": [one]})["shortlist"] for one in (whole, asked)
    )
    assert told["by_part"]["panel_side"] != "not_known" or told["likely"] != open_["likely"]
    assert open_["by_part"]["panel_side"] == "not_known"
    width = [(one["year_kwh"]["hopeful"] - one["year_kwh"]["cautious"]) / one["year_kwh"]["middle"]
             for one in (told, open_)]  # fmt: skip
    assert width[0] < width[1]
    asks = {one["code"]: one for one in open_["ask"]}
    assert "napięcie" in asks["open_circuit_voltage_v"]["seller_text"]
    assert asks["open_circuit_voltage_v"]["seller_language"] == "pl"
    assert "open_circuit_voltage_v" not in {one["code"] for one in told["ask"]}


def test_buying_at_the_bid_leaves_nothing_over_and_nothing_is_lost() -> None:
    one = answered({**SMALL, "limit": 1})["shortlist"][0]
    request = deepcopy(one["request"])
    bid = next(bid for bid in one["bids"] if bid["advert"] == one["adverts"][0])
    item = next(item for item in request["outlay"]["items"] if item["what"] == "panels")
    assert item["amount"] == bid["asked"]
    item["amount"] = bid["bid_up_to"]
    then = post("/v1/appraisal", request).json()
    assert then["payback"]["outlay"] == pytest.approx(then["decision"]["worth_up_to"], abs=0.02)


def test_what_is_at_hand_is_not_paid_for() -> None:
    at_hand = {"inverter": INVERTER, "panels": [SHEET], "items": ["Brackets"]}
    answer = answered({**SMALL, "at_hand": at_hand, "limit": 20})
    assert all("brackets" not in json.dumps(one["request"]["outlay"]) for one in answer["shortlist"])
    own = next(one for one in answer["shortlist"] if one["inverter"] is None and one["adverts"] == ["a7"])
    assert {item["what"] for item in own["request"]["outlay"]["items"]} == {"panels"}
    joined = [one for one in answer["shortlist"] if None in {panel["advert"] for panel in one["panels"]}]
    assert joined
    assert all(one["adverts"] for one in answer["shortlist"])


def test_one_trip_for_two_adverts_costs_one_drive_and_only_where_the_caller_says_so() -> None:
    def best(**where: Any) -> float:
        adverts = [panel_advert("p", 45, distance_km=50, **where)]
        adverts.append({**inverter_advert("i", 95), "delivery_cost": None, "distance_km": 50, **where})
        return float(answered({**SMALL, "adverts": adverts})["shortlist"][0]["outlay"])

    assert best() - best(fetched_at="port") == pytest.approx(2 * 50 * 0.3)


def test_what_sending_costs_is_assumed_with_its_range_in_the_outlay_and_asked_of_the_seller() -> None:
    def listed(**changes: Any) -> dict[str, Any]:
        sent = panel_advert("p", 45, language="de", delivery={"kind": "shipping"})
        answer = answered({**SMALL, "adverts": [{**sent, **changes}], "at_hand": {"inverter": INVERTER}})
        return dict(answer["shortlist"][0])

    open_, told = listed(distance_km=5), listed(distance_km=5, delivery_cost=33)
    [taken_] = open_["assumptions"]
    assert taken_["pointer"] == "/adverts/0/delivery_cost"
    assert taken_["low"] < taken_["value"] < taken_["high"]
    assert taken_["text"]
    assert taken_["source"]
    assert open_["outlay"] - told["outlay"] == pytest.approx(taken_["value"] - 33)
    assert "fetching" not in open_["request"]["outlay"]
    assert open_["outlay"] == listed()["outlay"]
    same_as_an_appraisal(open_)
    [asked] = [one for one in open_["ask"] if one["code"] == "sending_cost"]
    assert "Versand" in asked["seller_text"]
    assert told["assumptions"] == []
    assert "sending_cost" not in {one["code"] for one in told["ask"]}


def test_a_text_that_offers_only_sending_is_no_drive() -> None:
    body = "2 Module 395 Wp, Voc 36,9 V, Isc 13,7 A, gebraucht. Je 45 €. Nur Versand, keine Abholung."
    text = {"id": "sent", "title": "Solarmodule 395 W", "body": body, "distance_km": 4}
    one = answered({**SMALL, "adverts": [text], "at_hand": {"inverter": INVERTER}})["shortlist"][0]
    assert [taken_["code"] for taken_ in one["assumptions"]] == ["sending_pallet"]
    assert one["request"]["outlay"]["freight"] == one["assumptions"][0]["value"]
    assert "fetching" not in one["request"]["outlay"]


def test_a_lot_is_bought_whole() -> None:
    lot = panel_advert("lot", 150, price={"value": 150, "currency": "EUR", "basis": "lot"}, quantity_available=6)
    one = answered({**SMALL, "adverts": [lot, inverter_advert("i", 95)]})["shortlist"][0]
    assert one["request"]["outlay"]["items"][0]["amount"] == 150
    assert "split_lot" in {ask["code"] for ask in one["ask"]}


def test_nothing_is_called_a_bargain_without_the_price_of_a_new_set() -> None:
    answer = answered(SMALL)
    assert answer["new_from_shop"] is None
    assert all(one["against_new"] is None for one in answer["shortlist"])
    assert "no_new_set" in {note["code"] for note in answer["notes"]}
    beside = answered({**SMALL, "new_from_shop": EXAMPLE["new_from_shop"]})
    assert {one["against_new"]["code"] for one in beside["shortlist"]} <= {
        "bargain", "better_than_new", "no_better_than_new"
    }  # fmt: skip


@pytest.mark.parametrize(
    ("panel", "inverter"),
    [
        ({"rated_power_w": 440}, {"ac_power_w": 800}),
        ({"rated_power_w": 440, "open_circuit_voltage_v": 39, "short_circuit_current_a": 14}, {"ac_power_w": 800}),
        (SHEET, {"ac_power_w": 800, "input_count": 2, "inputs": [{"max_input_voltage_v": 60}]}),
    ],
)
def test_a_new_set_as_shops_tell_it_is_a_measure_and_what_its_fit_hangs_on_is_asked_for(
    panel: dict[str, Any], inverter: dict[str, Any]
) -> None:
    new = {"outlay": 420, "panel_count": 2, "panel": panel, "inverter": inverter}
    adverts = [panel_advert("p", 25, condition="used"), inverter_advert("i", 40)]
    answer = answered({**SMALL, "new_from_shop": new, "adverts": adverts})
    assert answer["new_from_shop"]["likely"] == "does_not_fit"
    assert answer["shortlist"][0]["against_new"]["code"] == "bargain"
    [note] = [note for note in answer["notes"] if note["code"] == "new_hangs_on"]
    [question] = [one for one in answer["questions"] if one["code"] == "new_ratings"]
    assert "short-circuit current" in note["text"]
    assert "short-circuit current" in question["text"]
    assert question["pointer"] == "/new_from_shop"


def test_adverts_that_can_never_be_bought_do_not_empty_the_page() -> None:
    at_sea = {"latitude_deg": -1.29, "longitude_deg": 36.8}
    request = {name: part for name, part in SMALL.items() if name not in {"tariff", "site"}} | {"site": at_sea}
    dollars = {"value": 40, "currency": "USD", "basis": "each"}
    sold = [panel_advert(f"u{at}", 40 + at, price=dollars, doubts=[{"code": "sold"}]) for at in range(3)]
    gift = panel_advert("g", 0, price={**dollars, "value": 0})
    for extra in (sold, [gift]):
        answer = answered({**request, "adverts": [*extra, panel_advert("p", 45), inverter_advert("i", 80)]})
        assert answer["currency"] == "EUR"
        assert reason(answer, "p") is None
        assert "currency_unlike_most" not in {reason(answer, one["id"]) for one in extra}


def test_without_a_price_per_kwh_the_least_outlay_ranks_and_the_answer_says_so() -> None:
    at_sea = {"latitude_deg": -1.29, "longitude_deg": 36.8}  # no price is known there
    request = {name: part for name, part in SMALL.items() if name not in {"tariff", "site"}} | {"site": at_sea}
    answer = answered({**request, "wish": "most_value"})
    assert answer["ranked_by"] == "least_outlay_per_kwh"
    assert "no_price_known" in {note["code"] for note in answer["notes"]}
    for one in answer["shortlist"]:
        assert one["bid_up_to"] is None
        assert one["net_present_value"] is None


def test_a_new_set_that_does_not_fit_makes_no_bargain_and_holds_no_bid() -> None:
    new = deepcopy(EXAMPLE["new_from_shop"])
    new["inverter"] = {**INVERTER, "inputs": [{**INVERTER["inputs"][0], "max_input_voltage_v": 30}]}
    answer = answered({**SMALL, "new_from_shop": new})
    assert answer["new_from_shop"]["verdict"] == "does_not_fit"
    assert "new_does_not_fit" in {note["code"] for note in answer["notes"]}
    alone = answered(SMALL)
    for one, other in zip(answer["shortlist"], alone["shortlist"], strict=True):
        assert one["against_new"]["code"] == one["bid_because"]["code"] == "new_does_not_fit"
        assert one["bid_up_to"] == other["bid_up_to"]


def test_without_a_tariff_prices_of_two_currencies_are_neither_summed_nor_compared() -> None:
    at_sea = {"latitude_deg": -1.29, "longitude_deg": 36.8}
    request = {name: part for name, part in SMALL.items() if name not in {"tariff", "site"}} | {"site": at_sea}
    dear = {"value": 1, "currency": "USD", "basis": "each"}
    adverts = [panel_advert("p", 45), panel_advert("d", 40, price=dear), panel_advert("n", 60, price={"value": 60}),
               inverter_advert("i", 80)]  # fmt: skip
    for order in (adverts, adverts[::-1]):
        answer = answered({**request, "adverts": order, "new_from_shop": EXAMPLE["new_from_shop"]})
        assert answer["currency"] == "EUR"
        assert (reason(answer, "d"), reason(answer, "p"), reason(answer, "n")) == ("currency_unlike_most", None, None)
        assert all("d" not in one["adverts"] for one in answer["shortlist"])
        assert answer["shortlist"][0]["against_new"]["code"] == "new_currency_not_known"  # 420 of what?
        [note] = [note for note in answer["notes"] if note["code"] == "currency_of_most"]
        assert "EUR" in note["text"]
        assert {"tariff"} <= {one["code"] for one in answer["questions"]}
        assert " EUR" in post(PATH, {**request, "adverts": order}, "text/plain").text
    alike = answered({**request, "adverts": [adverts[0], adverts[3]], "new_from_shop": EXAMPLE["new_from_shop"]})
    assert alike["shortlist"][0]["against_new"]["code"] == "bargain"
    nobody = [{**one, "reading": {**one["reading"], "price": {"value": 50}}} for one in adverts]
    unnamed = answered({**request, "adverts": nobody})
    assert (unnamed["currency"], len(unnamed["shortlist"]) > 0) == (None, True)
    assert "currency_of_most" not in {note["code"] for note in unnamed["notes"]}


def test_panels_without_any_inverter_and_an_inverter_without_panels_are_told_so() -> None:
    panels = answered({**HOME, "adverts": [panel_advert("p", 45)]})
    assert (panels["shortlist"], reason(panels, "p")) == ([], "no_inverter")
    inverters = answered({**HOME, "adverts": [inverter_advert("i", 95)]})
    assert (inverters["shortlist"], reason(inverters, "i")) == ([], "no_panels")


def test_a_panel_whose_figures_make_no_curve_leaves_the_others_listed() -> None:
    odd = panel_advert("odd", 5, panel={"rated_power_w": 400, "max_power_voltage_v": 31, "open_circuit_voltage_v": 31.2,
                                        "max_power_current_a": 12.9, "short_circuit_current_a": 12.95})  # fmt: skip
    answer = answered({**SMALL, "adverts": [*SMALL["adverts"], odd]})
    assert answer["shortlist"]
    assert reason(answer, "a7") is None


def test_a_rule_that_admits_only_less_puts_the_larger_inverter_behind() -> None:
    large = inverter_advert("large", 20, ac_power_w=2000)
    answer = answered({**SMALL, "adverts": [*SMALL["adverts"], large], "limit": 20})
    verdicts = [one["verdict"] == "does_not_fit" for one in answer["shortlist"]]
    assert verdicts == sorted(verdicts)
    assert [one["inverter"] == "large" for one in answer["shortlist"]] == verdicts


def test_a_reading_of_our_own_can_be_pasted_and_gives_the_same_list() -> None:
    texts = {name: EXAMPLE[name] for name in EXAMPLE}
    readings = post("/v1/adverts/reading", {"adverts": [
        {name: one[name] for name in ("id", "title", "body", "price_text") if name in one} for one in texts["adverts"]
    ]}).json()["readings"]  # fmt: skip
    pasted = [
        {**{name: value for name, value in one.items() if name in {"id", "distance_km", "fetched_at"}}, "reading": read}
        | ({"panel_count": 2} if one["id"] == "a13" else {})
        for one, read in zip(texts["adverts"], readings, strict=True)
    ]
    first, second = answered(texts), answered({**texts, "adverts": pasted})
    for one, other in zip(first["shortlist"], second["shortlist"], strict=True):
        assert one == other
    assert all(one["reading"] is None for one in second["adverts"])


def test_several_mistakes_are_told_at_once_each_at_its_place() -> None:
    request = changed("/wish", "cheap", SMALL)
    request["limit"] = 61
    request["adverts"][0]["distance_km"] = -1
    answer = post(PATH, request)
    assert answer.status_code == 422
    assert mistakes(answer) == {
        "/wish": "not_one_of", "/limit": "out_of_range", "/adverts/0/distance_km": "out_of_range"
    }  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "pointer"),
    [
        ({"adverts": [panel_advert("a", 1), panel_advert("a", 2)]}, "/adverts/1/id"),
        ({"at_hand": {"inverter": {"ac_power_w": 600, "set_limit_w": 800}}}, "/at_hand/inverter/set_limit_w"),
        ({"at_hand": {"panels": [SHEET, {"rated_power_w": 400, "open_circuit_voltage_v": 4}]}}, "/at_hand/panels/1/"),
        ({"new_from_shop": {"outlay": 1, "panel": SHEET, "inverter": INVERTER, "panel_count": 4}},
         "/new_from_shop/panel_count"),
        ({"tariff": {"currency": "EUR", "periods": [{"import_price_per_kwh": 0.3, "hourly": {
            "import_prices_per_kwh": [0.3] * 30}}]}}, "/tariff/periods/0/hourly/import_prices_per_kwh"),
    ],
)  # fmt: skip
def test_what_cannot_both_hold_is_refused_at_its_place(changes: dict[str, Any], pointer: str) -> None:
    answer = post(PATH, {**SMALL, **changes})
    assert answer.status_code == 422, answer.text
    assert any(one["pointer"].startswith(pointer) for one in answer.json()["errors"]), answer.json()["errors"]
    assert all(one["accepted"] and one["example"] for one in answer.json()["errors"])


def test_sums_that_no_request_takes_leave_the_set_out_and_break_nothing() -> None:
    dear = answered({**SMALL, "adverts": [panel_advert("p", 1_000_000), inverter_advert("i", 95)]})
    assert reason(dear, "p") == "too_dear"
    outlay = {"freight": 1_000_000}
    freight = answered({**SMALL, "outlay": outlay, "adverts": [panel_advert("p", 45), inverter_advert("i", 95)]})
    assert (freight["shortlist"], reason(freight, "p")) == ([], "no_curve")
    odd = {"id": "t", "title": "Solarmodul 400 W", "body": "400 W, 99999999999 €, Versand 88888888 €"}
    assert answered({**SMALL, "adverts": [*SMALL["adverts"], odd]})["shortlist"]


def test_hostile_texts_come_back_harmless() -> None:
    bodies = ["<script>alert(1)</script> 2 Module 400 W 40 €", "\u202e400 W\u0000 panel 40 €", "400 W 40 € " * 1500]
    adverts = [{"id": f"h{at}", "title": "Solarmodul 400 W", "body": body} for at, body in enumerate(bodies)]
    answer = answered({**SMALL, "adverts": [*SMALL["adverts"], *adverts]})
    assert len(answer["adverts"]) == len(SMALL["adverts"]) + 3
    assert answer["shortlist"]


def test_the_same_question_has_the_same_bytes() -> None:
    assert post(PATH, SMALL).content == post(PATH, SMALL).content


def test_every_code_of_a_list_stands_in_the_vocabulary_and_every_question_in_ten_languages() -> None:
    vocabulary = ask("GET", "/v1/vocabulary").json()
    codes = {
        one["code"] for name in ("shortlist_reasons", "shortlist_questions", "shortlist") for one in vocabulary[name]
    }
    answer = answered(EXAMPLE)
    told = {one["because"]["code"] for one in answer["adverts"] if one["because"]}
    told |= {ask_["code"] for one in answer["shortlist"] for ask_ in one["ask"]} | {n["code"] for n in answer["notes"]}
    assert told <= codes
    questions = load_seller_questions()
    assert set(questions) == {one["code"] for one in vocabulary["shortlist_questions"]}
    assert all(len(texts) == 10 and all(texts.values()) for texts in questions.values())


def test_no_bid_passes_what_the_new_set_lets_a_set_cost() -> None:
    dear = {**EXAMPLE["new_from_shop"], "outlay": 60}
    answer = answered({**EXAMPLE, "new_from_shop": dear, "limit": 4})
    for one in answer["shortlist"]:
        most = one["against_new"]["paid_at_most"]
        assert one["bid_up_to"] <= max(most, 0.0) + 0.01
        assert all(bid["bid_up_to"] <= most + 0.01 for bid in one["bids"])


def test_no_bid_is_above_the_price_of_the_new_set_though_a_set_of_four_be_worth_more() -> None:
    four = {**INVERTER, "input_count": 4}
    adverts = [panel_advert("lot", 130, price={"value": 130, "currency": "EUR", "basis": "lot"})]
    places = [{**HOME["places"][0], "count": 4}]
    new = {**EXAMPLE["new_from_shop"], "outlay": 300}
    request = {**SMALL, "adverts": adverts, "places": places, "at_hand": {"inverter": four}}
    free = max(one["bid_up_to"] for one in answered(request)["shortlist"])
    assert free > 300
    for one in answered({**request, "new_from_shop": new})["shortlist"]:
        assert 0 <= one["bid_up_to"] <= 300
        assert all(0 <= bid["bid_up_to"] <= 300 for bid in one["bids"])


def test_a_price_of_one_is_no_bargain_and_is_asked_about_in_the_language_of_the_advert() -> None:
    body = "2 Module 395 Wp, Voc 36,9 V, Isc 13,7 A, gebraucht, Abholung."
    text = {"id": "one", "title": "Solarmodule 395 W", "body": body, "price_text": "1 €", "distance_km": 3}
    answer = answered({**SMALL, "adverts": [text, *SMALL["adverts"]], "new_from_shop": EXAMPLE["new_from_shop"]})
    first = answer["shortlist"][0]
    assert "one" in first["adverts"]
    assert first["against_new"]["code"] != "bargain"
    assert "too_cheap" in {doubt["code"] for doubt in first["doubts"]}
    [asked] = [one for one in first["ask"] if one["code"] == "price_meant"]
    assert asked["seller_text"] == load_seller_questions()["price_meant"]["de"]


@pytest.mark.parametrize("code", ["advance_payment", "no_viewing", "contact_off_site", "label_removed"])
def test_an_advert_that_smells_of_a_trick_stands_behind_sound_ones_however_cheap(code: str) -> None:
    trick = panel_advert("trick", 5, power_w=420, doubts=[{"code": code}])
    answer = answered({**SMALL, "adverts": [trick, *SMALL["adverts"]], "limit": 20})
    smells = ["trick" in one["adverts"] for one in answer["shortlist"]]
    assert any(smells)
    assert not all(smells)
    assert smells == sorted(smells)
    assert "tricks_behind" in {note["code"] for note in answer["notes"]}


def test_a_price_far_under_the_others_moves_no_rank() -> None:
    cheap = panel_advert("cheap", 5, power_w=420, doubts=[{"code": "far_under_others"}])
    assert answered({**SMALL, "adverts": [cheap, *SMALL["adverts"]]})["shortlist"][0]["adverts"][0] == "cheap"


def test_of_very_many_adverts_the_first_at_a_glance_are_judged_and_the_best_sets_are_the_same(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    adverts = [panel_advert(f"p{at}", 30 + 37 * at % 61, power_w=300 + 53 * at % 151) for at in range(70)]
    inverters = [inverter_advert(f"i{at}", 70 + 7 * at, ac_power_w=500 + 30 * at) for at in range(10)]
    request = {**SMALL, "adverts": [*adverts, *inverters], "limit": 10}
    bounded = answered(request)
    monkeypatch.setattr("service.core.shortlist.screen.LOOKED_PANELS", 200)
    monkeypatch.setattr("service.core.shortlist.screen.LOOKED_INVERTERS", 200)
    whole = answered(request)
    assert bounded["sets_looked_at"] < 0.7 * whole["sets_looked_at"]
    assert [one["adverts"] for one in bounded["shortlist"]] == [one["adverts"] for one in whole["shortlist"]]
    assert "not_looked_at" in {reason(bounded, one["id"]) for one in adverts}
    assert "looked_at" in {note["code"] for note in bounded["notes"]}
    assert "looked_at" not in {note["code"] for note in whole["notes"]}


def test_an_advert_that_tells_nothing_is_not_listed_and_sinks_no_board() -> None:
    empty = [{"id": "e1", "title": "", "body": ""}, {"id": "e2"}, {"id": "e3", "title": " ", "price_text": "40 EUR"}]
    answer = answered({**SMALL, "adverts": [*empty, *SMALL["adverts"]]})
    assert [reason(answer, one["id"]) for one in empty] == ["nothing_told"] * 3
    assert answer["shortlist"] == answered(SMALL)["shortlist"]


def test_figures_of_a_pasted_reading_that_are_out_of_bounds_count_as_not_told() -> None:
    odd = panel_advert("odd", 45, panel={**SHEET, "open_circuit_voltage_v": 3700})
    bare = panel_advert("odd", 45, panel={name: value for name, value in SHEET.items() if "open_circuit" not in name})
    one, other = (answered({**SMALL, "adverts": [advert, *SMALL["adverts"]]}) for advert in (odd, bare))
    assert one["shortlist"] == other["shortlist"]
    dear = panel_advert("dear", 45, price={"value": 9_999_999, "currency": "EUR", "basis": "each"})
    many = panel_advert("many", 45, quantity_available=99_999, delivery={"kind": "shipping", "cost": 999_999})
    strange = inverter_advert("strange", 60, ac_power_w=90_000, inputs=[{"max_current_a": 999}])
    answer = answered({**SMALL, "adverts": [dear, many, strange, *SMALL["adverts"]]})
    assert reason(answer, "dear") == "no_price"
    assert reason(answer, "strange") == "no_ac_power"
    assert reason(answer, "many") in {None, "ranks_below"}


@pytest.mark.parametrize(
    ("part", "pointer", "given"),
    [
        ({"quantity_available": -3}, "quantity_available", "-3"),
        ({"quantity_available": 0}, "quantity_available", "0"),
        ({"delivery": {"kind": "shipping", "cost": -100}}, "delivery/cost", "-100"),
        ({"price": {"value": -5, "currency": "EUR"}}, "price/value", "-5"),
        ({"price": {"value": 5, "currency": "XQZ"}}, "price/currency", "XQZ"),
        ({"panel": {"rated_power_w": -400}}, "panel/rated_power_w", "-400"),
        ({"panel": {"rated_power_w": 1e9}}, "panel/rated_power_w", "1000000000"),
        ({"panel": {"rated_power_kw": 0.4}}, "panel/rated_power_kw", "0.4"),
    ],
)
def test_what_no_advert_can_mean_is_refused_at_its_place(part: dict[str, Any], pointer: str, given: str) -> None:
    answer = post(PATH, {**SMALL, "adverts": [*SMALL["adverts"], panel_advert("odd", 45, **part)]})
    assert answer.status_code == 422, answer.text
    [error] = answer.json()["errors"]
    assert (error["pointer"], error["given"]) == (f"/adverts/3/reading/{pointer}", given)
    assert error["problem"]
    assert error["accepted"]
    assert error["example"]


TWO_PRICES = {
    "currency": "EUR",
    "periods": [
        {"valid_from": "2026-01-01", "import_price_per_kwh": 0.34, "export": "unpaid"},
        {"valid_from": "2028-01-01", "import_price_per_kwh": 0.25, "export": "unpaid"},
    ],
}


@pytest.mark.parametrize("tariff", [HOME["tariff"], TWO_PRICES])
@pytest.mark.parametrize("wish", ["quick_payback", "most_value", "least_outlay_per_kwh"])
def test_at_what_may_be_paid_at_most_a_set_does_as_well_as_the_new_one(wish: str, tariff: dict[str, Any]) -> None:
    new = {**EXAMPLE["new_from_shop"], "outlay": 300}
    answer = answered({**SMALL, "tariff": tariff, "wish": wish, "new_from_shop": new, "limit": 2})
    for one in answer["shortlist"]:
        most, request = one["against_new"]["paid_at_most"], deepcopy(one["request"])
        request["outlay"] = {"items": [{"what": "all of it", "amount": most}]}
        then, its = post("/v1/appraisal", request).json()["payback"], answer["new_from_shop"]
        figures = {
            "quick_payback": [found["simple_payback_years"]["cautious"] for found in (then, its)],
            "most_value": [found["net_present_value"]["middle"] for found in (then, its)],
            "least_outlay_per_kwh": [most / one["year_kwh"]["middle"], its["outlay"] / its["year_kwh"]["middle"]],
        }[wish]
        assert figures[0] == pytest.approx(figures[1], abs=0.02)
        assert one["bid_up_to"] <= most + 0.01


def test_who_sells_is_asked_for_every_rating_that_the_set_hangs_on() -> None:
    panel = panel_advert("p", 45, panel={"rated_power_w": 300, "open_circuit_voltage_v": 39.8,
                                         "short_circuit_current_a": 9.8}, language="fr")  # fmt: skip
    plate = {"max_input_voltage_v": 60, "max_current_a": 14, "max_short_circuit_current_a": 18}
    inverter = inverter_advert("i", 95, inputs=[plate, plate])
    one = answered({**SMALL, "adverts": [panel, inverter]})["shortlist"][0]
    asks = {(ask_["advert"], ask_["code"]) for ask_ in one["ask"]}
    assert one["verdict"] == "not_known"
    needed = {"max_power_voltage_v", "max_power_current_a", "voc_coefficient_pct_per_k", "label_photo"}
    assert {("p", code) for code in needed} <= asks
    assert {("i", "tracking_min_v"), ("i", "start_voltage_v")} <= asks
    assert len(asks) == len(one["ask"])
    [vmp] = [ask_["seller_text"] for ask_ in one["ask"] if ask_["code"] == "max_power_voltage_v"]
    assert "puissance maximale" in vmp


def test_what_is_at_hand_is_no_question_to_a_seller() -> None:
    at_hand = {"inverter": {"ac_power_w": 800, "input_count": 2}}
    one = answered({**SMALL, "adverts": SMALL["adverts"][:2], "at_hand": at_hand})["shortlist"][0]
    assert one["verdict"] == "not_known"
    assert not {"max_input_voltage_v", "tracking_min_v"} & {ask_["code"] for ask_ in one["ask"]}


def test_who_sells_ten_at_least_is_paid_for_ten() -> None:
    ten = panel_advert("ten", 40, quantity_available=20, least_quantity=10)
    one = answered({**SMALL, "adverts": [ten, inverter_advert("i", 95)]})["shortlist"][0]
    assert sum(on["count"] for on in one["panels"]) == 2
    assert next(bid for bid in one["bids"] if bid["advert"] == "ten")["asked"] == 400.0
    assert {"what": "panels", "amount": 400.0} in one["request"]["outlay"]["items"]
    same_as_an_appraisal(one)


def test_who_sells_five_inverters_at_least_is_paid_for_five() -> None:
    five = inverter_advert("five", 80)
    five["reading"] |= {"quantity_available": 5, "least_quantity": 5}
    one, single = (
        answered({**SMALL, "adverts": [panel_advert("p", 45), inverter]})["shortlist"][0]
        for inverter in (five, inverter_advert("five", 80))
    )
    bid = next(bid for bid in one["bids"] if bid["advert"] == "five")
    assert (bid["asked"], bid["must_take"], bid["left_over"]) == (400.0, 5, 4)
    assert one["outlay"] == single["outlay"] + 320.0
    assert one["simple_payback_years"]["middle"] > 1.5 * single["simple_payback_years"]["middle"]
    same_as_an_appraisal(one)


def test_the_new_set_hangs_where_the_sun_is_whatever_the_order_of_places() -> None:
    rail = {"name": "rail", "mount": "hung_on_rail", "count": 2, "plane": {"tilt_deg": 90, "azimuth_deg": 60}}
    yard = {"name": "yard", "mount": "ground_frame", "count": 2, "plane": {"tilt_deg": 35, "azimuth_deg": 180}}
    new = [
        answered({**SMALL, "new_from_shop": EXAMPLE["new_from_shop"], "places": places})["new_from_shop"]
        for places in ([rail, yard], [yard, rail], [yard])
    ]
    assert new[0]["year_kwh"] == new[1]["year_kwh"] == new[2]["year_kwh"]


def test_of_copies_that_cost_the_same_in_a_set_the_one_that_asks_less_for_sending_comes_first() -> None:
    dear = panel_advert("a", 45, delivery_cost=40)
    less = panel_advert("b", 45, delivery_cost=30)  # both are fetched for 6
    first = answered({**SMALL, "adverts": [dear, less, inverter_advert("i", 95)]})["shortlist"][0]
    assert "b" in first["adverts"]
