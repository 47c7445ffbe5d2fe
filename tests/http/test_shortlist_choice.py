"""What of many sets is listed over HTTP: what fits before what likely does not, no advert everywhere, doubles once."""

import json
from copy import deepcopy
from typing import Any

import pytest

from tests.http.client import ask, post
from tests.http.shortlist_asked import EXAMPLE, PATH, SMALL, answered, reason, same_as_an_appraisal
from tests.shortlist_kinds import INVERTER, SHEET, inverter_advert, panel_advert

GROUPS = ["likely_fits", "likely_does_not_fit", "does_not_fit"]
UNDOCUMENTED = {"ac_power_w": 800, "input_count": 2, "inputs": None}
TEXTS = [
    {"id": "first", "title": "4 Solarmodule 400 W", "distance_km": 12, "body":
        "Verkaufe 4 Module je 400 Wp, Voc 37,1 V, Isc 13,9 A, gebraucht. 45 € pro Stück, nur Abholung."},
    {"id": "again", "title": "Photovoltaik Module 400 Wp", "distance_km": 13, "body":
        "Abzugeben: 4 gebrauchte Solarmodule mit 400 Wp (Isc 13,9 A, Voc 37,1 V), nur Abholung, 45 € pro Stück."},
]  # fmt: skip


def rows_with(answer: dict[str, Any], name: str) -> int:
    return sum(name in one["adverts"] for one in answer["shortlist"])


def a_cheap_one_without_ratings(name: str = "bare", price: float = 5) -> dict[str, Any]:
    advert = inverter_advert(name, price)
    advert["reading"]["inverter"] = {key: value for key, value in UNDOCUMENTED.items() if value is not None}
    return advert


@pytest.mark.parametrize("wish", ["quick_payback", "most_value", "least_outlay_per_kwh"])
def test_a_set_that_likely_does_not_fit_never_stands_before_one_that_fits_however_cheap(wish: str) -> None:
    adverts = [a_cheap_one_without_ratings(), *SMALL["adverts"]]
    answer = answered({**SMALL, "adverts": adverts, "wish": wish, "limit": 20})
    groups = [GROUPS.index(one["fit_group"]) for one in answer["shortlist"]]
    assert groups == sorted(groups)
    assert {0, 1} <= set(groups)
    for one in answer["shortlist"]:
        refused = "does_not_fit" in {one["verdict"], one["likely"]}
        assert refused == (one["fit_group"] != "likely_fits")
        assert ("bare" in one["adverts"]) == (one["fit_group"] == "likely_does_not_fit")
    assert "order" in {note["code"] for note in answer["notes"]}


def test_fewer_panels_that_a_published_cap_admits_come_before_more_that_it_likely_does_not() -> None:
    """Two of 520 W are beyond what is published there for a household plug, one is not."""
    adverts = [panel_advert("large", 30, power_w=520), inverter_advert("i", 95, inputs=[
        {**INVERTER["inputs"][0], "max_current_a": 20, "max_short_circuit_current_a": 30}])]  # fmt: skip
    one = answered({**SMALL, "adverts": adverts, "limit": 1})["shortlist"][0]
    assert (one["fit_group"], sum(part["count"] for part in one["panels"])) == ("likely_fits", 1)
    same_as_an_appraisal(one)


def test_where_the_first_panels_at_a_glance_likely_do_not_fit_others_are_looked_at() -> None:
    amperes = {**SHEET, "rated_power_w": 420, "short_circuit_current_a": 18.5, "max_power_current_a": 13.4}
    tight = [panel_advert(f"t{at}", 10 + at / 10, panel=amperes) for at in range(60)]
    fits = [panel_advert(f"f{at}", 120 + at, power_w=390) for at in range(3)]
    limits = {name: value for name, value in INVERTER["inputs"][0].items() if "short" not in name}
    inverter = inverter_advert("i", 95, inputs=[limits])
    answer = answered({**SMALL, "adverts": [*tight, *fits, inverter, inverter_advert("j", 99)], "limit": 3})
    groups = [one["fit_group"] for one in answer["shortlist"]]
    assert groups == sorted(groups, key=GROUPS.index)
    assert groups[0] == "likely_fits"


def test_no_inverter_and_no_panel_fills_the_list_where_others_do_nearly_as_well() -> None:
    panels = [panel_advert(f"p{at}", 40 + at, power_w=400 + at) for at in range(9)]
    inverters = [inverter_advert(name, price) for name, price in (("i", 90), ("j", 95), ("k", 97))]
    answer = answered({**SMALL, "adverts": [*panels, *inverters], "limit": 9})
    assert len(answer["shortlist"]) == 9
    assert [rows_with(answer, name) for name in "ijk"] == [3, 3, 3]
    assert all(rows_with(answer, one["id"]) <= 3 for one in panels)
    assert sum(rows_with(answer, one["id"]) > 0 for one in panels) >= 6
    order = [one["simple_payback_years"]["cautious"] for one in answer["shortlist"]]
    assert order == sorted(order)
    first = answer["shortlist"][0]
    assert first["alternative_count"] >= len(first["alternatives"]) > 0
    assert all(set(other) & set(first["adverts"]) for other in first["alternatives"])
    listed = [sorted(one["adverts"]) for one in answer["shortlist"]]
    assert all(sorted(other) not in listed for one in answer["shortlist"] for other in one["alternatives"])
    [note] = [note for note in answer["notes"] if note["code"] == "order"]
    assert note["facts"] == {"rows": 3, "most": 6, "nearly_pct": 25}


def test_a_cheap_inverter_without_ratings_does_not_fill_the_list() -> None:
    panels = [panel_advert(f"p{at}", 40 + at, power_w=400 + at) for at in range(12)]
    adverts = [*panels, a_cheap_one_without_ratings("bare", 1), inverter_advert("j", 95), inverter_advert("k", 97)]
    answer = answered({**SMALL, "adverts": adverts, "limit": 10})
    assert rows_with(answer, "bare") <= 6
    assert "bare" not in answer["shortlist"][0]["adverts"]


def test_the_only_inverter_may_stand_in_every_row_and_what_comes_behind_says_why() -> None:
    panels = [panel_advert(f"p{at}", 40 + at, power_w=400 + at) for at in range(6)]
    answer = answered({**SMALL, "adverts": [*panels, inverter_advert("i", 90)], "limit": 4})
    assert rows_with(answer, "i") == 4
    told = {reason(answer, one["id"]) for one in panels}
    assert told <= {None, "ranks_below", "alternative"}


@pytest.mark.parametrize("texts", [TEXTS, TEXTS[::-1]])
def test_an_advert_told_twice_in_other_words_is_listed_once_with_its_double_named(texts: list[Any]) -> None:
    request = {**SMALL, "at_hand": {"inverter": INVERTER}, "limit": 10, "places": [{**SMALL["places"][0], "count": 4}]}
    answer = answered({**request, "adverts": texts})
    assert answer["shortlist"]
    for one in answer["shortlist"]:
        assert one["adverts"] == ["first"]
        assert one["doubles"] == [{"advert": "again", "double_of": "first"}]
    by_name = {one["advert"]: one for one in answer["adverts"]}
    assert by_name["again"]["best_set"] == by_name["first"]["best_set"] == 1
    assert (by_name["again"]["double_of"], by_name["first"]["double_of"]) == ("first", None)
    assert "doubles" in {note["code"] for note in answer["notes"]}
    alone = answered({**request, "adverts": [TEXTS[0]]})
    assert [one["request"] for one in answer["shortlist"]] == [one["request"] for one in alone["shortlist"]]


def test_a_double_of_what_is_not_listed_says_whose_double_it_is() -> None:
    dear = panel_advert("dear", 190, power_w=395)
    answer = answered(
        {**SMALL, "adverts": [*SMALL["adverts"], dear, {**deepcopy(dear), "id": "dear again"}], "limit": 1}
    )
    [double] = [one for one in answer["adverts"] if one["advert"] == "dear again"]
    assert (double["best_set"], double["because"]["code"], double["double_of"]) == (None, "double", "dear")
    assert double["because"]["facts"] == {"of": "dear"}
    assert "dear" in double["because"]["text"]


def test_the_same_goods_at_another_price_or_place_are_two_adverts() -> None:
    one = panel_advert("a7", 45, power_w=395)
    for other in (panel_advert("b7", 44, power_w=395), panel_advert("b7", 45, power_w=395, distance_km=40)):
        answer = answered({**SMALL, "adverts": [one, other, inverter_advert("a9", 95)]})
        assert all(not row["doubles"] for row in answer["shortlist"])
        assert {"a7", "b7"} <= {name for row in answer["shortlist"] for name in row["adverts"]}


def test_without_the_price_of_a_new_set_no_text_names_a_bargain_and_the_answer_asks_for_it() -> None:
    without = {name: part for name, part in EXAMPLE.items() if name != "new_from_shop"}
    cheap = panel_advert("cheap", 6, doubts=[{"code": "far_under_others"}])
    answer = answered({**without, "adverts": [*EXAMPLE["adverts"], cheap]})
    assert "bargain" not in json.dumps(answer).casefold()
    [question] = [one for one in answer["questions"] if one["code"] == "new_set"]
    assert question["pointer"] == "/new_from_shop"
    beside = answered(EXAMPLE)
    assert "new_set" not in {one["code"] for one in beside["questions"]}
    assert "against" not in json.dumps(beside["shortlist"][0]["request"])


def test_what_the_request_lacks_is_asked_for_and_found_in_the_vocabulary() -> None:
    bare = {"site": {"latitude_deg": -1.29, "longitude_deg": 36.8}, "adverts": SMALL["adverts"]}
    answer = answered(bare)
    asked = {one["code"]: one["pointer"] for one in answer["questions"]}
    assert asked == {
        "new_set": "/new_from_shop", "tariff": "/tariff", "room": "/places", "fetching": "/outlay/fetching_per_km"
    }  # fmt: skip
    known = {one["code"] for one in ask("GET", "/v1/vocabulary").json()["shortlist"]}
    assert asked.keys() <= known
    whole = answered({**SMALL, "new_from_shop": EXAMPLE["new_from_shop"]})
    assert whole["questions"] == []


def test_every_listed_set_that_was_chosen_for_variety_has_the_figures_of_an_appraisal() -> None:
    panels = [panel_advert(f"p{at}", 40 + at, power_w=400 + at) for at in range(6)]
    inverters = [inverter_advert("i", 90), inverter_advert("j", 95)]
    for one in answered({**SMALL, "adverts": [*panels, *inverters], "limit": 4})["shortlist"]:
        same_as_an_appraisal(one)
    assert post(PATH, {**SMALL, "limit": 0}).status_code == 422
