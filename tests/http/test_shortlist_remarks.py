"""What of a shortlist's request was passed over, or cannot be as it was told, is said; no rank hangs on it."""

from typing import Any

import pytest

from tests.http.client import post
from tests.http.shortlist_asked import PATH, SMALL, answered
from tests.shortlist_kinds import INVERTER, SHEET, inverter_advert, panel_advert

REST = SMALL["adverts"][1:]
FIRST = SMALL["adverts"][0]


def remarks(advert: dict[str, Any]) -> dict[str, dict[str, Any]]:
    """By code, of the first advert; each has a sentence, which stands on the pages too."""
    request = {**SMALL, "adverts": [advert, *REST]}
    found = {one["code"]: one for one in answered(request)["adverts"][0]["remarks"]}
    text = " ".join(post(PATH, request, "text/plain").text.split())
    for one in found.values():
        assert " " in one["text"]
        assert "{" not in one["text"]
        assert one["text"] in text
    return found


def notes(**changes: Any) -> dict[str, dict[str, Any]]:
    return {one["code"]: one for one in answered({**SMALL, **changes})["notes"]}


def ranks(request: dict[str, Any]) -> list[Any]:
    return [(one["adverts"], one["outlay"], one["bid_up_to"]) for one in answered(request)["shortlist"]]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ({"title": "4 Module 395 Wp", "body": "Je 20 € das Stück."}, "price 20 (the reading: 45)"),
        ({"title": "4 Module 395 Wp", "price_text": "20 €"}, "price 20 (the reading: 45)"),
        ({"price_text": "20 €"}, "price 20 (the reading: 45)"),
        ({"title": "4 Module 360 Wp", "body": "Je 45 €."}, "rated_power_w 360 (the reading: 395)"),
        ({"body": "7 Module, je 395 Wp, 45 € pro Stück"}, "quantity_available 7 (the reading: 4)"),
        ({"body": "4 Module, je 395 Wp, Voc 49,8 V, je 45 €"}, "open_circuit_voltage_v 49.8 (the reading: 37.1)"),
        ({"body": "Suche 4 Module 395 Wp, zahle 45 €."}, "is_offer false (the reading: true)"),
        ({"body": "Mikrowechselrichter 600 W, neu, 45 €"}, "kind inverter (the reading: panel)"),
        ({"body": "4 solar panels 395 W, used, £45 each"}, "currency GBP (the reading: EUR)"),
    ],
)  # fmt: skip
def test_a_text_that_tells_otherwise_than_the_reading_beside_it_is_told(text: dict[str, Any], told: str) -> None:
    found = remarks({**FIRST, **text})
    assert set(found) == {"text_not_read", "text_differs"}
    assert told in found["text_differs"]["facts"]["differs"]
    assert told in found["text_differs"]["text"]
    assert ranks({**SMALL, "adverts": [{**FIRST, **text}, *REST]}) == ranks(SMALL)


@pytest.mark.parametrize(
    "text",
    [
        {"title": "4 Module 395 Wp", "body": "Je 45 € das Stück, Abholung."},
        {"title": "4 Module", "body": "Von der Garage, gut erhalten."},
        {"title": "4 Module 395 Wp", "body": "Alle zusammen 180 €."},
        {"body": "."},
    ],
)
def test_a_text_that_tells_the_same_or_less_is_only_passed_over(text: dict[str, str]) -> None:
    assert set(remarks({**FIRST, **text})) == {"text_not_read"}


def test_an_inverter_of_which_text_and_reading_tell_other_limits() -> None:
    unit = {**inverter_advert("a7", 95), "body": "Mikrowechselrichter 800 W, max. Eingangsspannung 50 V, 95 €"}
    request = {**SMALL, "adverts": [panel_advert("p", 45), unit]}
    [_, one] = answered(request)["adverts"]
    differs = {remark["code"]: remark["facts"].get("differs") for remark in one["remarks"]}["text_differs"]
    assert differs == "max_input_voltage_v 50 (the reading: 60)"


def test_an_advert_posted_after_the_day_of_the_answer_is_told_and_one_of_tomorrow_is_not() -> None:
    ahead = remarks({**FIRST, "posted_on": "2027-01-11"})["posted_ahead"]
    assert ahead["facts"] == {"posted_on": "2027-01-11", "as_of": "2026-11-25"}
    for day in ("2026-11-26", "2026-11-25", "2026-11-01", "2001-01-01"):
        assert remarks({**FIRST, "posted_on": day}) == {}


def test_panels_of_a_set_told_of_what_is_none_are_passed_over_aloud() -> None:
    assert set(remarks({**FIRST, "panel_count": 3})) == {"no_set"}
    reading = {"kind": "set", "panel": SHEET, "inverter": INVERTER,
               "price": {"value": 260, "currency": "EUR", "basis": "set"}}  # fmt: skip
    assert remarks({"id": "s", "panel_count": 2, "reading": reading, "distance_km": 3}) == {}


def test_doubts_that_nobody_knows_are_passed_over_aloud() -> None:
    odd = panel_advert("a7", 45, power_w=395, doubts=[{"code": "advance_paymnt"}, {"code": "untested"}])
    found = remarks(odd)
    assert found["doubts_not_known"]["facts"] == {"codes": "advance_paymnt"}
    answer = answered({**SMALL, "adverts": [odd, *REST]})
    assert [one["code"] for one in answer["adverts"][0]["doubts"]] == ["untested"]


def test_what_is_at_hand_and_in_no_entry_of_the_outlay_is_told() -> None:
    one = notes(at_hand={"items": ["bracketz", "Brackets", "ladder"]})["at_hand_not_listed"]
    assert one["facts"] == {"items": "bracketz, ladder"}
    assert "at_hand_not_listed" not in notes(at_hand={"items": ["  BRACKETS "]})
    assert "at_hand_not_listed" not in notes(at_hand={"items": []})
    without = {name: part for name, part in SMALL.items() if name != "outlay"}
    [said] = [
        note for note in answered({**without, "at_hand": {"items": ["brackets"]}})["notes"]
        if note["code"] == "at_hand_not_listed"
    ]  # fmt: skip
    assert said["facts"] == {"items": "brackets"}


def test_capitals_and_blanks_do_not_keep_a_thing_at_hand_in_the_outlay() -> None:
    def outlay(item: str) -> float:
        return float(answered({**SMALL, "at_hand": {"items": [item]}})["shortlist"][0]["outlay"])

    assert outlay("bracketz") - outlay(" Brackets  ") == pytest.approx(58)


def test_goods_in_the_outlay_that_the_adverts_cost_already_are_told() -> None:
    """As where the outlay of an appraisal is pasted."""
    items = [{"what": "Panels", "amount": 96}, {"what": "inverter", "amount": 149}, {"what": "brackets", "amount": 58}]
    assert notes(outlay={"items": items})["goods_in_outlay"]["facts"] == {"items": "Panels, inverter"}
    assert "goods_in_outlay" not in notes(outlay={"items": [{"what": "panels", "amount": 0}, items[2]]})


def test_one_place_at_two_distances_is_told() -> None:
    def at(*km: float) -> dict[str, dict[str, Any]]:
        ways = zip(km, ("Südkai", "SUEDKAI", "Nordmole"), strict=True)
        adverts = [
            panel_advert(f"p{number}", 45 + number, distance_km=one, fetched_at=name)
            for number, (one, name) in enumerate(ways)
        ]
        return notes(adverts=[*adverts, inverter_advert("i", 95)])

    assert at(2, 200, 90)["place_at_two_distances"]["facts"] == {"place": "Südkai", "least": 2, "most": 200}
    assert "place_at_two_distances" not in at(2, 6, 90)


def test_no_more_have_to_be_taken_than_there_are() -> None:
    few = panel_advert("a7", 45, quantity_available=3, least_quantity=9)
    one = answered({**SMALL, "adverts": [few, inverter_advert("i", 95)]})["shortlist"][0]
    assert [bid["must_take"] for bid in one["bids"] if bid["advert"] == "a7"] == [3]
    assert "minimum_order" in {ask["code"] for ask in one["ask"]}
