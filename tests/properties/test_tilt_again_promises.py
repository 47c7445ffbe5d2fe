"""A plane that an answer promises a year for gives that year when the completed request is asked with it."""

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.http.client import SMALLEST, post

PLACES = ((54.2, 12.3), (39.3, -8.5), (-33.9, 18.9), (1.3, 103.8))
SLABS = st.fixed_dictionaries({"above_top_edge_m": st.sampled_from([0.1, 0.8, 1.6]),
                               "reaches_out_m": st.sampled_from([0.3, 1.2, 1.9])})  # fmt: skip
WALLS = st.sampled_from([["left"], ["right"], ["left", "right"]]).map(
    lambda sides: [{"side": side, "distance_m": 0.3, "reaches_out_m": 1.2} for side in sides]
)
ALL_ROUND = {"low_tilt_deg": 0, "high_tilt_deg": 90, "low_azimuth_deg": 90, "high_azimuth_deg": 270}


@st.composite
def stands(draw: st.DrawFn) -> dict[str, Any]:
    """One or two panels between slab and walls; the facade told or not, the plane told, told in part or open."""
    latitude, longitude = draw(st.sampled_from(PLACES))
    arrays = []
    for _ in range(draw(st.integers(1, 2))):
        array: dict[str, Any] = {"panel": {"rated_power_w": 430}}
        array["mount"] = draw(st.sampled_from(["balcony_floor", "wall", "ground_frame", "hung_on_rail"]))
        full = {"tilt_deg": draw(st.sampled_from([20, 70])), "azimuth_deg": draw(st.sampled_from([120, 180, 230]))}
        array["plane"] = {name: full[name] for name in draw(st.sampled_from([(), ("azimuth_deg",), tuple(full)]))}
        around = {"overhang": SLABS, "side_walls": WALLS, "hand_rail": st.just({"distance_m": 0.1}),
                  "facade_azimuth_deg": st.sampled_from([150, 180])}  # fmt: skip
        array |= {name: draw(one) for name, one in around.items() if draw(st.integers(0, 2))}
        arrays.append(array)
    return SMALLEST | {
        "site": {"latitude_deg": latitude, "longitude_deg": longitude},
        "arrays": arrays,
        "inverter": {"ac_power_w": draw(st.sampled_from([300, 800])), "input_count": 2},
        "tilt": draw(st.sampled_from([{}, {"bounds": ALL_ROUND}])) | {"changes_per_year": []},
        "include": ["used"],
    }


def year_in(used: dict[str, Any], planes: list[dict[str, Any]]) -> float:
    request = deepcopy(used)
    for array, told in zip(request["arrays"], planes, strict=True):
        array["plane"] = told["plane"]
    answer = post("/v1/energy", request)
    assert answer.status_code == 200, answer.text
    return float(answer.json()["energy"]["year_kwh"]["middle"])


@settings(max_examples=12)
@given(stands())
def test_the_planes_told_give_what_was_promised_of_them(request: dict[str, Any]) -> None:
    answer = post("/v1/tilt", request)
    assert answer.status_code == 200, answer.text
    found, used = answer.json()["tilt"], answer.json()["used"]
    for name in ("best_planes", "best_per_array", "stands"):
        planes = found[name]
        assert year_in(used, planes["planes"]) == pytest.approx(planes["brings"]["year_kwh"], abs=0.05), name


@settings(max_examples=4)
@given(stands())
def test_a_cell_of_the_map_is_what_its_plane_gives(request: dict[str, Any]) -> None:
    request = request | {"arrays": request["arrays"][:1]}
    request["tilt"] = request["tilt"] | {"map": {"tilt_step_deg": 15, "azimuth_step_deg": 30}}
    answer = post("/v1/tilt", request).json()
    cells, used = answer["tilt"]["map"], answer["used"]
    most = max(max(row) for row in cells["year_kwh"])
    for tilt_at, azimuth_at in ((2, 3), (4, 8), (6, 4)):
        plane = {"tilt_deg": cells["tilt_deg"][tilt_at], "azimuth_deg": cells["azimuth_deg"][azimuth_at]}
        year = year_in(used, [{"plane": plane}])
        assert cells["year_kwh"][tilt_at][azimuth_at] == pytest.approx(year, abs=0.003 * most)
