"""What a row and an advert tell, in fields and on paper: what is left over, what is open, why it stands there."""

import html
import re
from typing import Any

import pytest

from service.api.words import template_of
from service.data.seller_questions import load_seller_questions
from tests.http.client import post
from tests.http.shortlist_asked import EXAMPLE, PATH, SMALL, answered
from tests.shortlist_kinds import INVERTER, SHEET, inverter_advert, panel_advert

TWO_INPUTS: dict[str, Any] = {name: value for name, value in INVERTER.items() if name != "input_count"}


def pages(request: dict[str, Any]) -> list[str]:
    """The answer as text and as a page, on one line each."""
    text = post(PATH, request, "text/plain").text
    page = html.unescape(re.sub(r"<[^>]+>", " ", post(PATH, request, "text/html").text))
    return [" ".join(one.split()).replace(" : ", ": ") for one in (text, page)]


@pytest.mark.parametrize(
    ("advert", "must_take", "left", "words"),
    [
        (panel_advert("p", 300, quantity_available=10, price={"value": 300, "currency": "EUR", "basis": "lot"}), 10, 8,
         "8 of the 10 that have to be taken are left over"),
        (panel_advert("p", 45, quantity_available=9, least_quantity=3), 3, 1,
         "1 of the 3 that have to be taken is left over"),
        (panel_advert("p", 45, quantity_available=9), 2, 0, None),
    ],
)  # fmt: skip
def test_what_is_paid_for_and_not_used_is_told(
    advert: dict[str, Any], must_take: int, left: int, words: str | None
) -> None:
    request = {**SMALL, "adverts": [advert], "at_hand": {"inverter": INVERTER}, "wish": "most_value"}
    [one] = answered(request)["shortlist"]
    [bid] = one["bids"]
    assert (bid["pieces"], bid["must_take"], bid["left_over"]) == (2, must_take, left)
    assert bid["asked"] == one["request"]["outlay"]["items"][0]["amount"]
    if words is None:
        assert bid["left_over_text"] is None
    else:
        assert words in bid["left_over_text"]
    for page in pages(request):
        assert f"for {must_take}, up to" in page
        assert ("left over" in page) == (words is not None)
        assert words is None or words in page


def test_of_two_sets_sold_together_one_is_left_over() -> None:
    reading = {"kind": "set", "panel_count": 2, "quantity_available": 2, "panel": SHEET, "inverter": INVERTER,
               "price": {"value": 420, "currency": "EUR", "basis": "lot"}}  # fmt: skip
    [one] = answered({**SMALL, "adverts": [{"id": "s", "reading": reading, "distance_km": 9}]})["shortlist"]
    assert [(bid["pieces"], bid["must_take"], bid["left_over"]) for bid in one["bids"]] == [(1, 2, 1)]


def unit(inverter: dict[str, Any], **more: Any) -> dict[str, Any]:
    reading = {"kind": "inverter", "price": {"value": 50, "currency": "EUR", "basis": "each"}, "inverter": inverter}
    return {"id": "i", "reading": {**reading, **more}, "delivery_cost": 8}


@pytest.mark.parametrize("language", ["en", "de", "nl", "fr", "es", "it", "pl", "pt", "cs", "da"])
def test_how_many_inputs_nobody_told_is_asked_of_the_seller_and_listed_as_assumed(language: str) -> None:
    request = {**SMALL, "adverts": [panel_advert("p", 45), unit(TWO_INPUTS, language=language)]}
    one = answered(request)["shortlist"][0]
    assert {panels["input"] for panels in one["panels"]} == {1, 2}
    [asked] = [ask for ask in one["ask"] if ask["code"] == "input_count"]
    assert (asked["advert"], asked["seller_language"]) == ("i", language)
    assert asked["seller_text"] == load_seller_questions()["input_count"][language]
    [taken] = [taken for taken in one["assumptions"] if taken["code"] == "inputs_not_told"]
    assert (taken["pointer"], taken["value"]) == ("/adverts/1/reading/inverter/input_count", 2)
    [finding] = [finding for finding in one["findings"] if finding["code"] == "input_count"]
    assert "2 inputs are used here" in finding["text"]
    assert "how many inputs the inverter has" in finding["text"]


@pytest.mark.parametrize("inverter", [INVERTER, {**TWO_INPUTS, "inputs": TWO_INPUTS["inputs"] * 2}])
def test_how_many_inputs_is_not_asked_where_it_was_told(inverter: dict[str, Any]) -> None:
    one = answered({**SMALL, "adverts": [panel_advert("p", 45), unit(inverter)]})["shortlist"][0]
    assert "input_count" not in {ask["code"] for ask in one["ask"]}
    assert "inputs_not_told" not in {taken["code"] for taken in one["assumptions"]}


def test_how_many_inputs_does_not_matter_to_one_panel() -> None:
    single = panel_advert("p", 45, quantity_available=1)
    one = answered({**SMALL, "adverts": [single, unit(TWO_INPUTS)]})["shortlist"][0]
    assert "input_count" not in {ask["code"] for ask in one["ask"]}
    assert one["assumptions"] == []


@pytest.mark.parametrize(
    ("changes", "code", "value"),
    [
        ({"price": {"value": 45, "currency": "EUR", "basis": "unknown"}}, "price_of_one", "each"),
        ({"quantity_available": None}, "as_many_as_wanted", 4),
        ({"quantity_available": None, "price": {"value": 45, "currency": "EUR", "basis": "lot"}}, "one_in_lot", 1),
        ({"doubts": [{"code": "minimum_order"}]}, "two_at_least", 2),
        ({"kind": "set", "inverter": INVERTER, "quantity_available": 1}, "one_panel_in_set", 1),
    ],
)
def test_what_is_taken_of_number_and_price_is_listed_and_asked(changes: dict[str, Any], code: str, value: Any) -> None:
    request = {**SMALL, "adverts": [panel_advert("p", 45, **changes)], "at_hand": {"inverter": INVERTER}}
    one = answered(request)["shortlist"][0]
    [taken] = [taken for taken in one["assumptions"] if taken["code"] == code]
    assert taken["value"] == value
    assert taken["pointer"].startswith("/adverts/0/")
    assert template_of("assumptions", code) == taken["text"]
    assert one["ask"]


WIDE = {**SHEET, "short_circuit_current_a": 11.5, "max_power_current_a": 10.9, "rated_power_w": 340}


def test_the_pages_say_why_a_row_that_pays_sooner_stands_behind() -> None:
    limits = {**TWO_INPUTS["inputs"][0], "max_current_a": 10.5}
    del limits["max_short_circuit_current_a"]
    cheap = {**unit({**INVERTER, "inputs": [limits]}), "id": "cheap"}
    request = {**SMALL, "adverts": [panel_advert("p", 45, panel=WIDE), inverter_advert("dear", 150), cheap]}
    first, second = answered(request)["shortlist"]
    assert first["simple_payback_years"]["cautious"] > second["simple_payback_years"]["cautious"]
    assert (first["fit_group"], second["fit_group"]) == ("likely_fits", "likely_does_not_fit")
    assert first["fit_text"] != second["fit_text"]
    for page in pages(request):
        ahead, behind = page.index("p + dear"), page.index("p + cheap")
        assert "LIKELY DOES NOT FIT" not in page[ahead:behind]
        assert "FIT NOT KNOWN, LIKELY DOES NOT FIT." in page[behind:]
        assert second["fit_text"] in page[behind:]
        assert second["fit_text"] not in page[ahead:behind]


def open_limits(name: str, each: float) -> dict[str, Any]:
    """An inverter of which nobody tells the greatest short-circuit current."""
    limits = {**TWO_INPUTS["inputs"][0], "max_current_a": 10.5}
    del limits["max_short_circuit_current_a"]
    price = {"value": each, "currency": "EUR", "basis": "each"}
    return {**unit({**INVERTER, "inputs": [limits]}, price=price), "id": name}


def test_where_no_set_is_free_of_it_none_is_said_to_stand_behind_others() -> None:
    adverts = [panel_advert("p", 45, panel=WIDE), open_limits("cheap", 50), open_limits("dear", 90)]
    answer = answered({**SMALL, "adverts": adverts})
    rows = answer["shortlist"]
    assert len(rows) == 2
    assert {one["fit_group"] for one in rows} == {"likely_does_not_fit"}
    for one in rows:
        assert "behind" not in one["fit_text"]
        assert "No set listed here is free of that" in one["fit_text"]
        assert one["fit_text"].endswith("hangs on this: the inverter's greatest short-circuit current an input.")
    [of_all] = [note for note in answer["notes"] if note["code"] == "none_likely_fits"]
    for page in pages({**SMALL, "adverts": adverts}):
        assert page.count(of_all["text"]) == 1
        assert page.index(of_all["text"]) < page.index("p + cheap")


def test_where_a_set_is_free_of_it_the_others_stand_behind_and_tell_what_they_hang_on() -> None:
    adverts = [panel_advert("p", 45, panel=WIDE), inverter_advert("sure", 150), open_limits("cheap", 50)]
    answer = answered({**SMALL, "adverts": adverts})
    first, second = answer["shortlist"]
    assert first["adverts"] == ["p", "sure"]
    assert "stands behind sets" in second["fit_text"]
    assert second["fit_text"].endswith("hangs on this: the inverter's greatest short-circuit current an input.")
    assert {note["code"] for note in answer["notes"]}.isdisjoint({"none_likely_fits", "all_refused"})


def test_where_each_set_is_refused_none_is_said_to_stand_behind_others() -> None:
    thin = {"plug": "household", "breaker_a": 16, "voltage_v": 230, "cable_mm2": 1.5, "laying": "in_insulated_wall",
            "dedicated": False}  # fmt: skip
    answer = answered({**SMALL, "socket_circuit": thin})
    assert {one["fit_group"] for one in answer["shortlist"]} == {"does_not_fit"}
    assert {one["fit_text"] for one in answer["shortlist"]} == {
        "It is refused, which can be mended. So is every set listed here."
    }
    assert "all_refused" in {note["code"] for note in answer["notes"]}


def test_what_decides_is_asked_of_the_seller_before_the_rest() -> None:
    told = {"rated_power_w": 440, "open_circuit_voltage_v": 39.4, "short_circuit_current_a": 14.1, "history": "unused"}
    narrow = [{**INVERTER["inputs"][0], "max_short_circuit_current_a": 18}]
    request = {**SMALL, "adverts": [panel_advert("p", 45, panel=told), inverter_advert("i", 95, inputs=narrow)]}
    one = answered(request)["shortlist"][0]
    assert one["likely"] == "does_not_fit"
    codes = [ask["code"] for ask in one["ask"] if ask["advert"] == "p"]
    assert codes[:2] == ["label_photo", "bifaciality_share"]
    assert len(codes) > 3


def test_the_example_shows_a_set_that_fits_one_not_known_one_likely_refused_and_one_with_doubts() -> None:
    rows = answered(EXAMPLE)["shortlist"]
    assert {(one["verdict"], one["likely"]) for one in rows} >= {
        ("fits", "fits"), ("not_known", "fits"), ("not_known", "does_not_fit"),
    }  # fmt: skip
    assert any(one["doubts"] for one in rows)
    assert not all(one["doubts"] for one in rows)


def test_the_doubts_of_an_advert_that_is_not_listed_stand_beside_the_reason() -> None:
    body = "2 neue Module 395 Wp, 15 € pro Stück. Nur Vorkasse, keine Besichtigung möglich."
    trick = {"id": "trick", "title": "Neue Module 395 W", "body": body, "distance_km": 5}
    wanted = {"id": "wanted", "title": "Suche Module", "body": "Suche Module 395 W, zahle per Vorkasse 50 € pro Stück."}
    request = {**EXAMPLE, "adverts": [*EXAMPLE["adverts"], trick, wanted], "limit": 2}
    answer = answered(request)
    told = {one["advert"]: one for one in answer["adverts"]}
    assert told["trick"]["best_set"] is None
    assert "advance_payment" in {doubt["code"] for doubt in told["trick"]["doubts"]}
    assert told["trick"]["because"]["code"] == "behind_for_doubts"
    for page in pages(request):
        others = page[page.index("The other adverts") :]
        for advert in answer["adverts"]:
            if advert["because"] is not None:
                behind = others[others.index(f" {advert['advert']}: ") :]
                for doubt in advert["doubts"]:
                    assert doubt["text"] in behind


def test_doubts_about_an_advert_are_the_same_whether_it_came_as_text_or_read() -> None:
    for advert in answered(EXAMPLE)["adverts"]:
        assert {doubt["code"] for doubt in advert["reading"]["doubts"]} <= {doubt["code"] for doubt in advert["doubts"]}


def because(advert: str, answer: dict[str, Any]) -> dict[str, Any]:
    [one] = [one for one in answer["adverts"] if one["advert"] == advert]
    return dict(one["because"])


def test_an_inverter_beside_panels_that_make_no_curve_is_not_said_to_be_one_of_too_many() -> None:
    odd = {"rated_power_w": 400, "max_power_voltage_v": 31, "open_circuit_voltage_v": 31.2, "max_power_current_a": 12.9,
           "short_circuit_current_a": 12.95}  # fmt: skip
    answer = answered({**SMALL, "adverts": [panel_advert("p", 45, panel=odd), inverter_advert("i", 95)]})
    assert answer["shortlist"] == []
    assert because("p", answer)["code"] == "no_curve"
    assert because("i", answer)["code"] == "others_without_curve"


@pytest.mark.parametrize("title", ["2 Module 4000 Wp", "2 Module", "Wechselrichter 9000 W", "Wechselrichter"])
def test_a_rating_that_no_such_thing_has_is_not_said_to_be_missing(title: str) -> None:
    advert = {"id": "odd", "title": title, "body": f"{title}, gebraucht. 30 € pro Stück. Abholung.", "distance_km": 3}
    found = because("odd", answered({**SMALL, "adverts": [*SMALL["adverts"], advert]}))
    assert found["code"] == ("no_rated_power" if "Module" in title else "no_ac_power")
    assert "is told that" in found["text"]  # none, or none that can be
