"""Is what the service keeps in memory ever told about another question than its own?"""

import json
from typing import Any

import pytest

from service.app import create_app
from service.settings import Settings
from tests.http.client import SMALLEST, ask, changed

_TWO: dict[str, Any] = {
    **SMALLEST,
    "arrays": [
        {"input": 1, "plane": {"tilt_deg": 70, "azimuth_deg": 160}, "panel": {"rated_power_w": 410}},
        {"input": 2, "plane": {"tilt_deg": 70, "azimuth_deg": 250}, "panel": {"rated_power_w": 410}},
    ],
}
# Each moves the year of hours, or the d.c. side, or only what comes after it.
_CHANGES: tuple[tuple[str, Any], ...] = (
    ("/site/latitude_deg", 48.1),
    ("/site/elevation_m", 700),
    ("/site/ground_reflectance_share", 0.5),
    ("/arrays/0/panel/age_years", 12),
    ("/arrays/1/plane/azimuth_deg", 90),
    ("/arrays/1/dirt_share", 0.1),
    ("/arrays/0/skyline", [{"azimuth_deg": 0, "height_deg": 30}, {"azimuth_deg": 359, "height_deg": 30}]),
    ("/inverter/inputs", [{"max_current_a": 8}]),
    ("/inverter/set_limit_w", 300),
    ("/money", {"ageing_share_per_year": 0.02}),
    ("/inverter/ac_power_w", 800),
    ("/inverter/weighted_efficiency_share", 0.9),
    ("/inverter/efficiency_weighting", "californian"),
    ("/inverter/night_draw_w", 5),
    ("/downtime_days_per_year", 30),
    ("/arrays/0/mount", "wall"),
    ("/arrays/0/plane", {"tilt_deg": 70}),
    ("/household", {"demand_kwh_per_year": 1200}),
    # Each moves what fits, what a storm does, or only how it is told.
    ("/as_of", "2029-11-25"),
    ("/site/rule_area", "AT"),
    ("/site/terrain", "open_sea"),
    ("/site/basic_wind_velocity_m_per_s", 35),
    ("/site/people_below", True),
    ("/arrays/1/mount", "hung_on_rail"),
    ("/arrays/0/panel/open_circuit_voltage_v", 52),
    ("/inverter/certificates", ["EN 50549-1"]),
    ("/inverter/inputs", [{"max_current_a": 9}]),
    ("/inverter/inputs", [{"max_current_a": 9}, {"max_current_a": 9}]),
    ("/inverter/export_limit_w", 100),
    ("/meter", {"counts": "one_way"}),
    ("/socket_circuit", {"plug": "household"}),
    ("/socket_circuit", {"plug": "household", "breaker_a": 16, "cable_mm2": 1.5, "laying": "in_conduit"}),
    (
        "/tariff",
        {"currency": "EUR", "periods": [{"valid_from": "2026-01-01", "import_price_per_kwh": 0.5, "export": "unpaid"}]},
    ),
)


def _answers(questions: list[dict[str, Any]], **kept: int) -> list[bytes]:
    app = create_app(Settings(**kept, answer_cache_bytes=0))
    sent = {"content-type": "application/json"}
    return [ask("POST", "/v1/appraisal", app=app, headers=sent, content=json.dumps(q)).content for q in questions]


_QUESTIONS = [_TWO, *(changed(pointer, value, _TWO) for pointer, value in _CHANGES)]


@pytest.fixture(scope="module")
def alone() -> list[bytes]:
    """Each question answered by a service that was asked nothing else."""
    kept = {"set_cache_size": 1, "place_cache_size": 1, "panel_cache_size": 1}
    return [answer for question in _QUESTIONS for answer in _answers([question], **kept)]


@pytest.mark.parametrize("size", [1, 3, 100])
def test_what_was_asked_before_changes_no_answer(size: int, alone: list[bytes]) -> None:
    assert len(set(alone)) == len(_QUESTIONS), "each change is one that the answer shows"
    in_one_service = _answers(
        [*_QUESTIONS, *_QUESTIONS[::-1]], set_cache_size=size, place_cache_size=size, panel_cache_size=size
    )
    assert in_one_service == [*alone, *alone[::-1]]


def test_what_a_limit_on_sending_out_costs_is_told_of_each_home_its_own() -> None:
    used_kwh = (600, 6000, 600)
    homes = [{**_TWO, "meter": {"counts": "one_way"}, "household": {"demand_kwh_per_year": kwh}} for kwh in used_kwh]
    small, large, again = (
        [
            remedy["year_kwh_change"]
            for finding in json.loads(answer)["compatibility"]["findings"]
            for remedy in finding["remedies"]
            if remedy["code"] == "export_limiter"
        ]
        for answer in _answers(homes)
    )
    assert small
    assert small == again
    assert all(less < more < 0.0 for less, more in zip(small, large, strict=True))


def test_remedies_are_told_by_the_year_and_by_the_inputs_that_each_request_describes() -> None:
    """Two strings on too low a voltage: what is found of them is the same, what would mend it is put otherwise."""
    string = {"count": 2, "joined": "series", "panel": {"rated_power_w": 440, "open_circuit_voltage_v": 39.4}}
    limits = {"max_input_voltage_v": 60, "tracking_min_v": 16, "max_current_a": 14, "max_short_circuit_current_a": 18}
    two = {"ac_power_w": 1600, "input_count": 2, "inputs": [limits]}
    one_described = {**_TWO, "arrays": [{**array, **string} for array in _TWO["arrays"]], "inverter": two}
    both_described = {**one_described, "inverter": {**two, "inputs": [limits, limits]}}
    often_down = {**one_described, "downtime_days_per_year": 60}
    questions = [one_described, both_described, often_down]
    alone = [answer for question in questions for answer in _answers([question])]
    assert _answers([*questions, *questions[::-1]]) == [*alone, *alone[::-1]]
    one, both, down = [json.loads(answer)["compatibility"]["findings"] for answer in alone]
    assert {found["text"] for found in one} == {found["text"] for found in both} == {found["text"] for found in down}
    assert one != both
    assert one != down
