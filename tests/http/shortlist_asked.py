"""Shortlists asked over HTTP, for tests."""

import json
from pathlib import Path
from typing import Any

from tests.http.client import post
from tests.shortlist_kinds import HOME, inverter_advert, panel_advert

PATH = "/v1/adverts/shortlist"
EXAMPLE = json.loads((Path(__file__).parents[2] / "examples/adverts/kranichwerft_shortlist.json").read_text("utf-8"))
SMALL: dict[str, Any] = {
    **HOME, "outlay": {"items": [{"what": "brackets", "amount": 58}], "fetching_per_km": 0.3},
    "adverts": [panel_advert("a7", 45, power_w=395), panel_advert("a8", 60, power_w=420), inverter_advert("a9", 95)],
}  # fmt: skip


def answered(request: dict[str, Any]) -> dict[str, Any]:
    answer = post(PATH, request)
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def reason(answer: dict[str, Any], advert: str) -> str | None:
    [one] = [one for one in answer["adverts"] if one["advert"] == advert]
    assert (one["best_set"] is None) == (one["because"] is not None)
    return None if one["because"] is None else str(one["because"]["code"])


def same_as_an_appraisal(listed: dict[str, Any]) -> None:
    appraisal = post("/v1/appraisal", listed["request"]).json()
    assert listed["year_kwh"] == appraisal["energy"]["year_kwh"]
    assert listed["verdict"] == appraisal["compatibility"]["verdict"]
    payback = appraisal["payback"]
    for name in ("outlay", "simple_payback_years", "net_present_value"):
        assert listed[name] == (None if payback is None else payback[name]), name
