"""Slab and walls belong to a facade: where nobody told which way it looks, every answer says what was taken."""

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.http.client import SMALLEST, post

_PATHS = ("/v1/energy", "/v1/appraisal", "/v1/compatibility", "/v1/payback", "/v1/tilt")
_OUTLAY = {"items": [{"what": "set", "amount": 300}]}
_DEGREES = st.integers(0, 359)
slabs = st.fixed_dictionaries(
    {"above_top_edge_m": st.sampled_from([0.2, 1, 2]), "reaches_out_m": st.sampled_from([0.3, 1, 2])}
)
walls = st.lists(
    st.fixed_dictionaries(
        {
            "side": st.sampled_from(["left", "right"]),
            "distance_m": st.sampled_from([0, 0.3, 1.2]),
            "reaches_out_m": st.sampled_from([0.4, 1.5]),
        }
    ),
    min_size=1,
    max_size=2,
    unique_by=lambda wall: wall["side"],
)
around = st.one_of(
    st.fixed_dictionaries({"overhang": slabs}),
    st.fixed_dictionaries({"side_walls": walls}),
    st.fixed_dictionaries({"overhang": slabs, "side_walls": walls}),
)
planes = st.fixed_dictionaries({}, optional={"tilt_deg": st.sampled_from([0, 25, 70, 90]), "azimuth_deg": _DEGREES})
panels = st.fixed_dictionaries({"rated_power_w": st.just(410), "half_cells": st.booleans()})
_STANDS = ("balcony_floor", "ground_frame", "flat_roof")
leaning = st.fixed_dictionaries(
    {
        "mount": st.sampled_from(["hung_on_rail", "behind_rail", "balcony_floor", "ground_frame", "wall", "flat_roof"]),
        "orientation": st.sampled_from(["upright", "lengthwise"]),
        "panel": panels,
        "plane": planes,
    }
)
arrays = st.builds(lambda array, beside: array | beside, leaning, around)


def answer(path: str, array: dict[str, Any]) -> dict[str, Any]:
    asked = SMALLEST | {"arrays": [array], "include": ["used"]}
    found = post(path, asked | {"outlay": _OUTLAY} if path == "/v1/payback" else asked)
    assert found.status_code == 200, found.text
    return found.json()  # type: ignore[no-any-return]


def told(found: dict[str, Any], name: str) -> list[dict[str, Any]]:
    return [one for one in found["assumptions"] if one["pointer"] == f"/arrays/0/{name}"]


@given(arrays, st.sampled_from(_PATHS))
@settings(max_examples=40)
def test_an_untold_facade_is_told_once_as_it_was_taken_and_stands_in_what_was_used(
    array: dict[str, Any], path: str
) -> None:
    found = answer(path, array)
    used = found["used"]["arrays"][0]
    [facade] = told(found, "facade_azimuth_deg")
    assert facade["value"] == used["facade_azimuth_deg"]
    turned = array["mount"] in _STANDS and "azimuth_deg" not in array["plane"]
    assert facade["code"] == ("middle_of_faces" if turned else "square_to_panel")
    assert turned or facade["value"] == used["plane"]["azimuth_deg"]
    assert facade["source"]
    assert f"{facade['value']:.0f} degrees" in facade["text"]
    for azimuth in () if turned else told(found, "plane/azimuth_deg"):  # where that is open, the facade is as open
        assert [facade[name] for name in ("low", "high")] == [azimuth[name] for name in ("low", "high")]
    assert not told(answer(path, used), "facade_azimuth_deg")


@given(arrays)
@settings(max_examples=40)
def test_the_year_is_the_same_with_that_facade_told(array: dict[str, Any]) -> None:
    silent = answer("/v1/energy", array)
    taken = silent["used"]["arrays"][0]["facade_azimuth_deg"]
    year, again = silent["energy"], answer("/v1/energy", silent["used"]["arrays"][0])["energy"]
    assert again["year_kwh"]["middle"] == year["year_kwh"]["middle"]
    assert (again["months_kwh"], again["lost_kwh"]) == (year["months_kwh"], year["lost_kwh"])
    if {"tilt_deg", "azimuth_deg"} <= set(array["plane"]):  # nothing else of the planes was open
        told_as_taken = answer("/v1/energy", array | {"facade_azimuth_deg": taken})["energy"]
        known = {one["code"]: one for one in told_as_taken["spread"]}
        if array["mount"] not in _STANDS:
            assert told_as_taken == year
        else:  # less doubt is left about what is hidden
            assert told_as_taken["year_kwh"]["middle"] == year["year_kwh"]["middle"]
            for one in year["spread"]:
                assert one["relative_sd_share"] >= known[one["code"]]["relative_sd_share"]


@given(leaning, st.sampled_from(_PATHS))
@settings(max_examples=15)
def test_where_nothing_stands_above_beside_or_behind_a_panel_no_facade_is_told(
    array: dict[str, Any], path: str
) -> None:
    found = answer(path, array | {"fixing": {"building_height_m": 0}})
    assert not told(found, "facade_azimuth_deg")
    assert "facade_azimuth_deg" not in found["used"]["arrays"][0]
