"""A year of about 0 kWh says why, wherever a person asks."""

from typing import Any

import pytest

from tests.http.client import SMALLEST, ask, post

COURT = [{"azimuth_deg": at, "height_deg": 88} for at in (0, 90, 180, 270)]
IN_A_COURT = {**SMALLEST, "arrays": [{"panel": {"rated_power_w": 410}, "skyline": COURT}]}


def findings_of(path: str, body: dict[str, Any]) -> list[dict[str, Any]]:
    answer = post(path, body).json()
    found = answer["compatibility"]["findings"] if "compatibility" in answer else answer.get("findings", [])
    return [one for one in found if one["code"] == "next_to_nothing"]


@pytest.mark.parametrize("path", ["/v1/energy", "/v1/tilt", "/v1/compatibility", "/v1/appraisal"])
def test_a_court_that_hides_the_sky_is_told(path: str) -> None:
    assert not findings_of(path, SMALLEST)
    for _ in range(2):  # made, then of what is kept
        (found,) = findings_of(path, IN_A_COURT)
        assert found["about"] == "/arrays/0"
        assert "horizon" in found["text"]


def test_the_verdict_of_a_side_is_that_of_its_worst_finding() -> None:
    fit = post("/v1/compatibility", IN_A_COURT).json()["compatibility"]
    order = ["does_not_fit", "not_known", "fits_with_loss", "fits"]
    verdicts = [one["verdict"] for one in fit["findings"]]
    assert verdicts == sorted(verdicts, key=order.index)
    of_panels = [one["verdict"] for one in fit["findings"] if one["part"] == "panel_side"]
    assert fit["by_part"]["panel_side"] == min(of_panels, key=order.index)


def test_every_cause_can_be_said_and_stands_in_the_vocabulary() -> None:
    assert "next_to_nothing" in {word["code"] for word in ask("GET", "/v1/vocabulary").json()["findings"]}
