"""What do adverts claim, asked over HTTP: shapes, several mistakes at once, bounds, hostile text."""

import json
from pathlib import Path

import pytest

from service.api.words.english.adverts import TEXTS
from tests.http.client import ask, post
from tests.http.test_document import checker

PATH = "/v1/adverts/reading"
BOARD = Path(__file__).parents[2] / "examples" / "adverts" / "kranichwerft_board.json"


def test_the_example_and_its_answer_keep_to_the_document() -> None:
    document = ask("GET", "/openapi.json").json()
    request = json.loads(BOARD.read_text(encoding="utf-8"))
    checker(document, "AdvertsIn").validate(request)
    answer = post(PATH, request).json()
    checker(document, "ReadingsOut").validate(answer)
    panels, inverter, wanted = answer["readings"]
    assert (panels["kind"], panels["quantity_available"], panels["price"]["each"]) == ("panel", 4, 45)
    assert (inverter["kind"], inverter["inverter"]["ac_power_w"]) == ("inverter", 800)
    assert not wanted["is_offer"]
    assert wanted["price"]["value"] is None


def test_every_doubt_has_a_sentence_of_its_own() -> None:
    readings = post(PATH, json.loads(BOARD.read_text(encoding="utf-8"))).json()["readings"]
    for doubt in (doubt for one in readings for doubt in one["doubts"]):
        assert doubt["text"] == TEXTS[f"doubt.{doubt['code']}"]


def test_several_mistakes_are_told_at_once() -> None:
    answer = post(PATH, {"adverts": [{"id": 3, "titel": "x"}, {"body": "y" * 25_001, "language": "xx"}]})
    assert answer.status_code == 422
    told = {(one["pointer"], one["code"]) for one in answer.json()["errors"]}
    assert {("/adverts/0/id", "not_text"), ("/adverts/0/titel", "unknown_field"), ("/adverts/1/id", "missing"),
            ("/adverts/1/body", "wrong_length"), ("/adverts/1/language", "not_one_of")} <= told  # fmt: skip


def test_more_than_two_hundred_adverts_are_refused() -> None:
    many = [{"id": str(at), "body": "x"} for at in range(201)]
    assert post(PATH, {"adverts": many[:200]}).status_code == 200
    assert [one["code"] for one in post(PATH, {"adverts": many}).json()["errors"]] == ["wrong_count"]


@pytest.mark.parametrize("path", [PATH, "/v1/adverts/shortlist"])
def test_two_adverts_of_one_name_are_refused_with_a_name_that_would_do(path: str) -> None:
    home = {"site": {"latitude_deg": 54.2, "longitude_deg": 12.3}} if path != PATH else {}
    adverts = [{"id": name, "body": "Solarmodul 410 W, 60 EUR"} for name in ("a", "b", "a", "b")]
    answer = post(path, {**home, "adverts": adverts})
    assert answer.status_code == 422
    told = answer.json()["errors"]
    assert [(one["pointer"], one["code"], one["given"]) for one in told] == [
        ("/adverts/2/id", "contradiction", "a"), ("/adverts/3/id", "contradiction", "b"),
    ]  # fmt: skip
    for one in told:
        assert one["accepted"]
        adverts[int(one["pointer"].split("/")[2])]["id"] = one["example"]
    assert post(path, {**home, "adverts": adverts}).status_code == 200


def test_hostile_text_comes_back_as_mere_text() -> None:
    text = "<script>alert(1)</script> 4 used panels \u202e395 W\u0000 £35 each <!-- 999 W £1 -->"
    reading = post(PATH, {"adverts": [{"id": "h", "body": text}]}).json()["readings"][0]
    assert reading["panel"] == {"rated_power_w": 395.0}
    assert reading["price"]["each"] == 35
    assert "hostile_content" in [doubt["code"] for doubt in reading["doubts"]]


def test_an_advert_sent_twice_is_told() -> None:
    body = "Six used solar panels, 380 W, £40 each, collection from Ely only, bring a van."
    readings = post(PATH, {"adverts": [{"id": "a", "body": body}, {"id": "b", "body": body}]}).json()["readings"]
    codes = [[doubt["code"] for doubt in one["doubts"]] for one in readings]
    assert codes == [[], ["same_advert_again"]]


def test_a_set_answers_a_shortlist_by_its_reading_as_by_its_text() -> None:
    advert = {
        "id": "set",
        "title": "Balkonset",
        "body": "Zwei Module 430 Wp, Uoc 38,7 V, Isc 14,0 A und Wechselrichter 800 W, max. 60 V. 400 €",
    }
    reading = post(PATH, {"adverts": [advert]}).json()["readings"][0]
    assert reading["panel_count"] == 2
    home = {"site": {"latitude_deg": 54.2, "longitude_deg": 12.3}, "as_of": "2026-11-25"}
    sent = ({**advert, "distance_km": 3}, {"id": "set", "reading": reading, "language": "de", "distance_km": 3})
    by_text, by_reading = (post("/v1/adverts/shortlist", {**home, "adverts": [one]}).json() for one in sent)
    assert [panels["count"] for one in by_text["shortlist"] for panels in one["panels"]] == [1, 1]
    assert by_text["shortlist"] == by_reading["shortlist"]


def test_a_least_number_and_what_is_sold_are_told() -> None:
    adverts = [
        {"id": "least", "body": "40 Module 430 Wp, neu. 40 € pro Stück, Mindestabnahme 10 Stück."},
        {"id": "sold", "body": "2 Module 430 Wp, gebraucht, 40 € pro Stück. VERKAUFT!"},
    ]
    least, sold = post(PATH, {"adverts": adverts}).json()["readings"]
    assert (least["least_quantity"], least["quantity_available"]) == (10, 40)
    assert "sold" in [doubt["code"] for doubt in sold["doubts"]]
    assert {claim["what"] for claim in least["claims"]} >= {"quantity_available", "least_quantity", "condition"}


def test_two_hundred_adverts_of_the_longest_texts_are_read_together() -> None:
    long = "Solarmodul 410 W, 60 EUR.".ljust(25_000)
    answer = post(PATH, {"adverts": [{"id": str(at), "body": long} for at in range(200)]})
    assert answer.status_code == 200
    assert len(answer.json()["readings"]) == 200


def test_inches_and_pounds_are_told_with_the_digits_that_they_are_good_for() -> None:
    """65 in x 25.4 = 1651 mm, 39 in = 990.6 mm, 40 lb x 0.45359237 = 18.1437 kg."""
    body = "22 modules 265W, 65 inch x 39 inch, 40 lb each. £440 the lot"
    reading = post(PATH, {"adverts": [{"id": "inches", "body": body}]}).json()["readings"][0]
    told = {"length_mm": 1651.0, "width_mm": 990.6, "weight_kg": 18.14}
    assert {name: reading["panel"][name] for name in told} == told
    assert {one["what"]: one["value"] for one in reading["claims"] if one["what"] in told} == told
