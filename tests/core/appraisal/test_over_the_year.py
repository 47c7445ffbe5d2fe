"""What a late start and a limited current cost is told with the findings, over the year."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.http.client import post


def appraised(**limits: Any) -> tuple[dict[str, Any], list[dict[str, Any]]]:
    request = json.loads((Path(__file__).parents[3] / "examples" / "kranichwerft.json").read_text())
    for one in request["inverter"]["inputs"]:
        one.update(limits)
    answer = post("/v1/appraisal", request).json()
    return answer, answer["compatibility"]["findings"]


def test_a_late_start_tells_the_hours_of_its_array() -> None:
    answer, findings = appraised(start_voltage_v=38)
    for at, array in enumerate(answer["energy"]["arrays"]):
        [start] = [f for f in findings if f["code"] == "start_voltage" and f["about"] == f"/arrays/{at}"]
        assert start["facts"]["hours_not_started"] == array["hours_not_started"] > 0
        assert f"{array['hours_not_started']} hours" in start["text"]


def test_a_limited_current_tells_the_energy_lost_and_its_price() -> None:
    answer, findings = appraised(max_current_a=9)
    lost = answer["energy"]["lost_kwh"]["current_limit"]
    per_kwh = answer["payback"]["saving_first_year"]["middle"] / answer["energy"]["year_kwh"]["middle"]
    current = [f for f in findings if f["code"] == "operating_current"]
    assert current
    for finding in current:
        assert finding["verdict"] == "fits_with_loss"
        assert finding["facts"]["lost_kwh"] == pytest.approx(lost, abs=0.1)
        assert finding["facts"]["lost_money"] == pytest.approx(lost * per_kwh, rel=0.05)
        assert "EUR" in finding["text"]
