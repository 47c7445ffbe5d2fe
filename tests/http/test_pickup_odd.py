"""Of a visit told in a way that cannot be something is said over HTTP, on paper too, and no panel is mixed up."""

from typing import Any

import pytest

from service.api.schemas.pickup import EXAMPLE
from tests.http.client import changed, post

PATH = "/v1/pickup-check"
ASKED: dict[str, Any] = {**EXAMPLE, "as_of": "2026-06-22"}
SITE = {"latitude_deg": 54.2, "longitude_deg": 12.3}
NOON = "2026-06-21T13:00:00+02:00"


def answered(request: dict[str, Any]) -> dict[str, Any]:
    answer = post(PATH, request)
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()["pickup"]
    return found


@pytest.mark.parametrize(
    ("pointer", "value", "code"),
    [
        ("/conditions/air_c", -30, "cells_unlike_air"),
        ("/conditions/time", "2026-07-21T13:00:00+02:00", "another_day"),
        ("/conditions/time", "1996-06-21T13:00:00+02:00", "another_day"),
        ("/conditions/plane", {"tilt_deg": 30, "azimuth_deg": 180}, "plane_without_place"),
        ("/panel", {"rated_power_w": 300, "open_circuit_voltage_v": 40.6, "short_circuit_current_a": 9.85,
                    "length_mm": 165, "width_mm": 100}, "size_unlike_power"),
        ("/readings", [{"panel": "a", "open_circuit_voltage_v": 38.3}, {"panel": "A", "open_circuit_voltage_v": 38.4}],
         "names_alike"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told(pointer: str, value: Any, code: str) -> None:
    request = changed(pointer, value, ASKED)
    [one] = answered(request)["remarks"]
    assert one["code"] == code
    assert "{" not in one["text"]
    assert one["text"] in " ".join(post(PATH, request, "text/plain").text.split())


def test_what_can_be_is_not_told() -> None:
    where = {"site": SITE, "time": NOON, "sky": "clear", "cell_c": 42, "air_c": 22,
             "plane": {"tilt_deg": 40, "azimuth_deg": 180}}  # fmt: skip
    panel = {**ASKED["panel"], "rated_power_w": 300, "length_mm": 1650, "width_mm": 1000}
    assert answered({**ASKED, "conditions": where, "panel": panel})["remarks"] == []
    ahead = {**where, "time": "2026-07-21T13:00:00+02:00"}
    assert answered({**ASKED, "conditions": ahead, "readings": []})["remarks"] == []  # a visit that is planned


def test_a_reading_without_a_name_is_never_joined_with_a_panel_that_is_named_like_its_place() -> None:
    readings = [{"panel": "#2", "open_circuit_voltage_v": 38.3}, {"open_circuit_voltage_v": 12}]
    first, second = answered({**ASKED, "readings": readings})["results"]
    assert first["panel"] == "#2"
    assert second["panel"] != "#2"
    assert (first["verdict"], second["verdict"]) == ("as_expected", "suspicious")
