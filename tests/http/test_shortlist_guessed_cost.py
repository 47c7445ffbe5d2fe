"""Where nobody tells what sending costs, do the bands of a set say so?"""

from copy import deepcopy
from typing import Any

import pytest

from tests.http.client import post
from tests.http.shortlist_asked import SMALL, answered, same_as_an_appraisal
from tests.shortlist_kinds import INVERTER, SHEET, panel_advert

SENT = panel_advert("p", 45, language="de", delivery={"kind": "shipping"})
BANDS = ("simple_payback_years", "net_present_value")


def listed(**changes: Any) -> dict[str, Any]:
    request = {**SMALL, "adverts": [{**SENT, "delivery_cost": None, **changes}], "at_hand": {"inverter": INVERTER}}
    return dict(answered(request)["shortlist"][0])


@pytest.mark.parametrize("figure", BANDS)
def test_the_bands_of_a_guessed_cost_hold_those_of_the_same_cost_told(figure: str) -> None:
    guessed = listed()
    told = listed(delivery_cost=guessed["assumptions"][0]["value"])
    assert guessed["outlay"] == told["outlay"]
    wide, narrow = (sorted(one[figure][end] for end in ("cautious", "hopeful")) for one in (guessed, told))
    assert wide[0] < narrow[0] < narrow[1] < wide[1]
    assert guessed[figure]["middle"] == told[figure]["middle"]
    assert guessed["bid_up_to"] == told["bid_up_to"]


def test_the_range_stands_in_the_request_and_an_appraisal_gives_the_same_figures() -> None:
    one = listed()
    [taken] = one["assumptions"]
    outlay = one["request"]["outlay"]
    assert outlay["freight_less"] == pytest.approx(taken["value"] - taken["low"])
    assert outlay["freight_more"] == pytest.approx(taken["high"] - taken["value"])
    same_as_an_appraisal(one)


def test_of_a_told_cost_no_range_is_made() -> None:
    assert {"freight_less", "freight_more"}.isdisjoint(listed(delivery_cost=80)["request"]["outlay"])


def test_more_less_than_the_freight_is_told_at_its_place() -> None:
    request = listed()["request"]
    request["outlay"]["freight_less"] = request["outlay"]["freight"] + 1
    answer = post("/v1/appraisal", request)
    assert answer.status_code == 422
    [error] = answer.json()["errors"]
    assert (error["pointer"], error["code"]) == ("/outlay/freight_less", "contradiction")
    assert float(error["example"]) == request["outlay"]["freight"]


def test_at_the_price_that_makes_it_as_good_as_new_the_cautious_payback_is_that_of_the_new_set() -> None:
    """The cautious case pays more than the outlay, by what sending may cost more."""
    new = {"outlay": 420, "panel": SHEET, "inverter": INVERTER, "panel_count": 2}
    adverts = [{**SENT, "delivery_cost": None}]
    request = {**SMALL, "adverts": adverts, "at_hand": {"inverter": INVERTER}, "wish": "quick_payback"}
    answer = answered({**request, "new_from_shop": new})
    one = next(one for one in answer["shortlist"] if one["against_new"]["paid_at_most"])
    then = deepcopy(one["request"])
    [item] = [item for item in then["outlay"]["items"] if item["what"] == "panels"]
    item["amount"] += one["against_new"]["paid_at_most"] - one["outlay"]
    payback = post("/v1/appraisal", then).json()["payback"]["simple_payback_years"]
    assert payback["cautious"] == pytest.approx(answer["new_from_shop"]["simple_payback_years"]["cautious"], rel=0.003)
