"""Panels of one request whose front nobody told stand before one and the same: a house has not as many as panels."""

from typing import Any

import pytest

from tests.http.client import SMALLEST, post

SLAB: dict[str, Any] = {"overhang": {"above_top_edge_m": 0.3, "reaches_out_m": 1.2}}
WALL: dict[str, Any] = {"side_walls": [{"side": "left", "distance_m": 0.2, "reaches_out_m": 1}]}
WHOLE, SMALL, HALVED = {"rated_power_w": 410}, {"rated_power_w": 300}, {"rated_power_w": 410, "half_cells": True}


def two(latitude_deg: float, mount: str, around: dict[str, Any], *panels: dict[str, Any]) -> dict[str, Any]:
    arrays = [{"panel": panel, "mount": mount} | around for panel in panels]
    site = {"latitude_deg": latitude_deg, "longitude_deg": 12.3 if latitude_deg > 0 else -77}
    return SMALLEST | {"site": site, "arrays": arrays, "inverter": {"ac_power_w": 800}, "include": ["used"]}


def fronts(answer: dict[str, Any]) -> list[float]:
    planes = (one.get("facade_azimuth_deg") or one["plane"]["azimuth_deg"] for one in answer["used"]["arrays"])
    return list(planes)


@pytest.mark.parametrize(("latitude_deg", "mount", "around", "panels"), [
    (54.2, "balcony_floor", SLAB, (SMALL, WHOLE)),
    (-12, "balcony_floor", WALL, (WHOLE, HALVED)),
    (-12, "free_standing", SLAB, (WHOLE, SMALL)),
])  # fmt: skip
def test_unlike_panels_before_one_house_have_one_front_and_spreading_them_brings_nothing(
    latitude_deg: float, mount: str, around: dict[str, Any], panels: tuple[dict[str, Any], ...]
) -> None:
    request = two(latitude_deg, mount, around, *panels)
    answer = post("/v1/tilt", request).json()
    tilt, front = answer["tilt"], fronts(answer)
    assert front[0] == front[1]
    assert "spread_brings_more" not in {note["code"] for note in tilt["notes"]}
    told = [one | {"facade_azimuth_deg": front[0]} for one in request["arrays"]]
    again = post("/v1/tilt", request | {"arrays": told}).json()["tilt"]
    assert (tilt["best"], tilt["best_year_kwh"]) == (again["best"], again["best_year_kwh"])


def test_a_railing_and_the_floor_behind_it_share_the_front_of_the_array_of_most_power_and_each_says_so() -> None:
    request = two(54.2, "hung_on_rail", SLAB, SMALL, WHOLE)
    request["arrays"][1]["mount"] = "balcony_floor"
    answer = post("/v1/energy", request).json()
    alone = post("/v1/energy", request | {"arrays": request["arrays"][1:]}).json()
    assert fronts(answer) == fronts(alone) * 2
    found = {one["pointer"]: one for one in answer["assumptions"] if one["code"] == "one_front"}
    assert list(found) == ["/arrays/0/plane/azimuth_deg", "/arrays/1/facade_azimuth_deg"]
    assert [(one["low"], one["high"]) for one in found.values()] == [(90, 270)] * 2
    assert all(f"{fronts(answer)[0]:.0f} degrees" in one["text"] for one in found.values())


def test_what_was_told_of_one_array_stays_its_own() -> None:
    request = two(54.2, "hung_on_rail", {}, SMALL, WHOLE)
    request["arrays"][0]["plane"] = {"azimuth_deg": 97}
    answer = post("/v1/energy", request).json()
    assert answer["used"]["arrays"][0]["plane"]["azimuth_deg"] == 97
    codes = {one["code"] for one in answer["assumptions"]}
    assert "middle_of_faces" in codes
    assert "one_front" not in codes
