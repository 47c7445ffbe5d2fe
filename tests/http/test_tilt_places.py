"""Where may a panel stand? Bounds, lists, fixings, facades and notes of the sun, on every path."""

from typing import Any

import pytest

from tests.http.client import SMALLEST, mistakes, post
from tests.http.test_tilt import EXAMPLE, tilt


def assumed(answer: dict[str, Any], name: str) -> dict[str, Any]:
    pointer = f"/arrays/0/plane/{name}"
    [found] = [one for one in answer["assumptions"] if one["pointer"] == pointer]
    return found  # type: ignore[no-any-return]


@pytest.mark.parametrize("path", ["/v1/energy", "/v1/appraisal", "/v1/tilt"])
def test_notes_that_are_not_sure_still_give_the_plane_and_say_their_range(path: str) -> None:
    note = {"month": 5, "day": 10, "from_clock": "07:40", "to_clock": "16:02"}
    site = SMALLEST["site"] | {"sun_seen": [note]}
    request = SMALLEST | {"site": site, "arrays": [{"mount": "hung_on_rail", "panel": {"rated_power_w": 410}}]}
    answer = post(path, request).json()
    azimuth = assumed(answer, "azimuth_deg")
    assert azimuth["code"] == "sun_seen"
    assert 145 <= azimuth["low"] <= azimuth["value"] <= azimuth["high"] <= 182
    assert azimuth["low"] < 155
    assert azimuth["high"] > 174
    facing = answer["tilt"]["facing"] if path == "/v1/tilt" else answer["facing"]
    assert not facing["sure"]
    assert facing["azimuth_deg"] == azimuth["value"]
    assert "edge of a building" in facing["text"]
    plain = post(path, request | {"site": SMALLEST["site"]}).json()
    assert "facing" not in (plain["tilt"] if path == "/v1/tilt" else plain)
    if path == "/v1/energy":
        [array] = answer["energy"]["arrays"]
        assert array["plane"]["azimuth_deg"] == azimuth["value"]


def test_a_narrow_range_of_directions_makes_a_narrower_year_than_an_unknown_one() -> None:
    array = {"mount": "hung_on_rail", "panel": {"rated_power_w": 410}}
    notes = [{"month": 5, "day": 10, "from_clock": "06:11", "to_clock": "16:02"},
             {"month": 9, "day": 20, "from_clock": "06:55", "to_clock": "16:41"}]  # fmt: skip
    widths = []
    for more in ({"sun_seen": notes}, {}):
        request = SMALLEST | {"site": SMALLEST["site"] | more, "arrays": [array]}
        year = post("/v1/energy", request).json()["energy"]["year_kwh"]
        widths.append((year["hopeful"] - year["cautious"]) / year["middle"])
    assert widths[0] < 0.9 * widths[1]


@pytest.mark.parametrize("path", ["/v1/energy", "/v1/appraisal"])
@pytest.mark.parametrize(("wish", "plane", "code"), [
    ({"planes": [{"tilt_deg": 70, "azimuth_deg": 90}]}, (70, 90), "best_of_planes"),
    ({"hinge_tilts_deg": [55, 80]}, (55, None), "best_of_hinge"),
    ({"bounds": {"low_tilt_deg": 60, "high_tilt_deg": 75}}, (60, None), "best_within_bounds"),
])  # fmt: skip
def test_every_path_settles_an_open_plane_where_it_may_stand_and_says_by_what(
    path: str, wish: dict[str, Any], plane: tuple[int, int | None], code: str
) -> None:
    request = SMALLEST | {"arrays": [{"mount": "balcony_floor", "panel": {"rated_power_w": 410}}], "tilt": wish}
    answer = post(path, request).json()
    [array] = answer["energy"]["arrays"]
    assert array["plane"]["tilt_deg"] == plane[0]
    if plane[1] is not None:
        assert array["plane"]["azimuth_deg"] == plane[1]
    tilted = assumed(answer, "tilt_deg")
    assert tilted["code"] == code
    assert "most light of the year" in tilted["text"]
    assert "/v1/tilt chooses under its limits, and may spread several panels" in tilted["text"]


def test_what_stands_in_the_only_plane_allowed_reaches_all_of_the_best() -> None:
    request = SMALLEST | {"arrays": [{"mount": "balcony_floor", "panel": {"rated_power_w": 410}}]}
    found = tilt(request, planes=[{"tilt_deg": 70, "azimuth_deg": 90}])
    assert found["given_reaches_share"] == 1
    energy = post("/v1/energy", request | {"tilt": {"planes": [{"tilt_deg": 70, "azimuth_deg": 90}]}}).json()["energy"]
    assert energy["year_kwh"]["middle"] == pytest.approx(found["best_year_kwh"], abs=0.05)


def test_a_given_azimuth_counts_more_than_the_sun() -> None:
    request = EXAMPLE | {"arrays": [one | {"plane": {"azimuth_deg": 200}} for one in EXAMPLE["arrays"]]}
    assert {one["plane"]["azimuth_deg"] for one in tilt(request)["stands"]["planes"]} == {200}


BETWEEN_WALLS = {
    "mount": "balcony_floor",
    "panel": {"rated_power_w": 440},
    "side_walls": [{"side": "left", "distance_m": 0.2, "reaches_out_m": 2}],
}


def codes(found: dict[str, Any]) -> set[str]:
    return {one["code"] for one in found["notes"]}


@pytest.mark.parametrize(("azimuth", "told"), [(270, True), (160, False)])
def test_a_railing_told_to_face_where_the_notes_admit_no_railing_is_said(azimuth: int, told: bool) -> None:
    note = {"month": 5, "day": 10, "from_clock": "07:40", "to_clock": "16:02"}
    array = {"mount": "hung_on_rail", "plane": {"azimuth_deg": azimuth}, "panel": {"rated_power_w": 410}}
    found = tilt(SMALLEST | {"site": SMALLEST["site"] | {"sun_seen": [note]}, "arrays": [array]})
    assert found["best"]["azimuth_deg"] == azimuth
    assert ("told_against_sun" in codes(found)) is told


def test_what_spreading_the_arrays_brings_is_said_where_it_is_worth_it() -> None:
    panel = {"mount": "ground_frame", "panel": {"rated_power_w": 440}}
    two = SMALLEST | {"arrays": [panel | {"input": 1}, panel | {"input": 2}]}
    tight, wide = (
        tilt(two | {"inverter": {"ac_power_w": limit, "inputs": [{}, {}]}}, changes_per_year=[]) for limit in (300, 900)
    )
    [said] = [one["text"] for one in tight["notes"] if one["code"] == "spread_brings_more"]
    apart, together = (tight[name]["brings"]["year_kwh"] for name in ("best_per_array", "best_planes"))
    assert f"{100 * (apart / together - 1):.1f} % more" in said
    assert "spread_brings_more" not in codes(wide)


def test_walls_stay_where_they_stand_when_the_panel_is_turned() -> None:
    """What /v1/tilt tells of a plane, /v1/energy tells of it too, with the facade where it was."""
    site = {"latitude_deg": 52, "longitude_deg": 13}
    array = BETWEEN_WALLS | {"plane": {"tilt_deg": 30, "azimuth_deg": 180}}
    found = tilt({"site": site, "arrays": [array], "inverter": {"ac_power_w": 600}}, map={"tilt_step_deg": 15,
                 "azimuth_step_deg": 15})  # fmt: skip
    assert codes(found) == {"walls_stay"}
    flat = found["map"]["year_kwh"][0]
    assert flat[18] > flat[12] > flat[6]  # its lower end away from the wall on the left, along it, and towards it
    for tilt_deg, azimuth_deg in ((0, 60), (15, 345), (found["best"]["tilt_deg"], found["best"]["azimuth_deg"])):
        turned = array | {"plane": {"tilt_deg": tilt_deg, "azimuth_deg": azimuth_deg}, "facade_azimuth_deg": 180}
        request = {"site": site, "arrays": [turned], "inverter": {"ac_power_w": 600}}
        year = post("/v1/energy", request).json()["energy"]["year_kwh"]["middle"]
        if tilt_deg == found["best"]["tilt_deg"]:
            assert year == pytest.approx(found["best_year_kwh"], abs=0.05)
        else:
            at_map = found["map"]["year_kwh"][int(tilt_deg / 15)][int(azimuth_deg / 15)]
            assert year == pytest.approx(at_map, rel=3e-3)


def test_the_facade_that_a_panel_was_held_square_to_is_told_and_kept() -> None:
    array = BETWEEN_WALLS | {"plane": {"tilt_deg": 30, "azimuth_deg": 160}}
    request = SMALLEST | {"arrays": [array], "include": ["used", "moves"]}
    answer = post("/v1/tilt", request).json()
    [taken] = facades_assumed(answer)
    assert (taken["value"], taken["code"]) == (160, "square_to_panel")
    assert (taken["low"], taken["high"]) == (115, 205)
    assert taken["moves"]["share"] > 0.02
    assert "160 degrees" in taken["text"]
    assert answer["used"]["arrays"][0]["facade_azimuth_deg"] == 160
    told = request | {"arrays": [array | {"facade_azimuth_deg": 160}]}
    again = post("/v1/tilt", told).json()
    assert not facades_assumed(again)
    assert again["tilt"] == answer["tilt"]
    nothing_there = {"mount": "ground_frame", "panel": {"rated_power_w": 410}}
    assert not facades_assumed(post("/v1/tilt", SMALLEST | {"arrays": [nothing_there]}).json())


def test_a_facade_that_nobody_told_may_look_anywhere_from_east_to_west() -> None:
    request = SMALLEST | {"arrays": [BETWEEN_WALLS], "include": ["moves"]}
    answer = post("/v1/tilt", request).json()
    [taken] = facades_assumed(answer)
    assert (taken["code"], taken["low"], taken["high"]) == ("middle_of_faces", 90, 270)
    assert taken["low"] < taken["value"] < taken["high"]
    assert taken["moves"]["share"] > 0.02


def test_what_was_asked_about_planes_stays_in_the_completed_request() -> None:
    wish = {"objective": "self_used", "bounds": {"low_tilt_deg": 20, "high_tilt_deg": 80}}
    request = SMALLEST | {"tilt": wish, "include": ["used"]}
    answer = post("/v1/tilt", request).json()
    assert answer["used"]["tilt"] == wish
    assert "tilt" not in post("/v1/tilt", SMALLEST | {"include": ["used"]}).json()["used"]
    assert post("/v1/tilt", answer["used"]).json()["tilt"]["best"] == answer["tilt"]["best"]


def test_a_panel_before_a_facade_that_nobody_described_is_turned_as_before_one_told() -> None:
    answer = post("/v1/tilt", SMALLEST | {"arrays": [BETWEEN_WALLS]}).json()
    [taken] = facades_assumed(answer)
    assert codes(answer["tilt"]) == {"facade_assumed"}
    told = tilt(SMALLEST | {"arrays": [BETWEEN_WALLS | {"facade_azimuth_deg": taken["value"]}]})
    assert told["best"] == answer["tilt"]["best"]
    assert told["best_year_kwh"] == answer["tilt"]["best_year_kwh"]


@pytest.mark.parametrize("facade_deg", [0, 90, 200])
def test_no_path_turns_a_panel_on_a_balcony_floor_into_the_house(facade_deg: int) -> None:
    """Before a north facade it was turned to 180 degrees and given 424 kWh; a slab of a centimetre left 122."""
    array = {"mount": "balcony_floor", "panel": {"rated_power_w": 410}, "facade_azimuth_deg": facade_deg}
    best = tilt(SMALLEST | {"arrays": [array]})
    energy = post("/v1/energy", SMALLEST | {"arrays": [array]}).json()["energy"]
    assert energy["year_kwh"]["middle"] == best["stands"]["brings"]["year_kwh"]
    high = post("/v1/energy", SMALLEST | {"arrays": [array | {"fixing": {"building_height_m": 300}}]}).json()["energy"]
    thread = array | {"overhang": {"above_top_edge_m": 10, "reaches_out_m": 0.001}, "orientation": "upright"}
    stands = high["arrays"][0]
    slab = post("/v1/energy", SMALLEST | {"arrays": [thread | {"plane": stands["plane"]}]}).json()["energy"]
    assert high["year_kwh"]["middle"] == pytest.approx(slab["year_kwh"]["middle"], rel=0.07)  # its corner is further in
    assert high["year_kwh"]["middle"] < energy["year_kwh"]["middle"] < 1.2 * high["year_kwh"]["middle"]
    for plane in (stands["plane"], energy["arrays"][0]["plane"], best["best"]):
        assert abs((plane["azimuth_deg"] - facade_deg + 180) % 360 - 180) < 90


def test_a_railing_looks_as_its_facade_does() -> None:
    array = {"mount": "hung_on_rail", "panel": {"rated_power_w": 410}, "facade_azimuth_deg": 205}
    answer = post("/v1/energy", SMALLEST | {"arrays": [array]}).json()
    assert answer["energy"]["arrays"][0]["plane"]["azimuth_deg"] == 205
    assert assumed(answer, "azimuth_deg")["code"] == "as_the_facade"


def test_a_panel_on_a_rail_leans_out_as_far_as_its_fixing_says_on_every_path() -> None:
    array = {"mount": "hung_on_rail", "plane": {"azimuth_deg": 180}, "panel": {"rated_power_w": 410}}
    upright = tilt(SMALLEST | {"arrays": [array]})
    assert codes(upright) == {"upright_unless_told"}
    assert upright["near_best"] == []
    request = SMALLEST | {"arrays": [array | {"fixing": {"high_lean_out_deg": 25}}]}
    leaning = tilt(request)
    assert codes(leaning) == set()
    assert leaning["best"] == {"tilt_deg": 65, "azimuth_deg": 180}
    assert leaning["best_year_kwh"] > upright["best_year_kwh"]
    answer = post("/v1/energy", request).json()
    assert answer["energy"]["arrays"][0]["plane"]["tilt_deg"] == 65
    assert assumed(answer, "tilt_deg")["code"] == "best_within_fixing"


def test_a_whole_plane_on_a_rail_is_how_it_stands_now() -> None:
    array = {"mount": "hung_on_rail", "plane": {"tilt_deg": 70, "azimuth_deg": 180}, "panel": {"rated_power_w": 410}}
    [one, *_] = tilt(SMALLEST | {"arrays": [array]})["near_best"]
    assert one["low_tilt_deg"] == 70
    wider = tilt(SMALLEST | {"arrays": [array | {"fixing": {"high_lean_out_deg": 40}}]})
    assert wider["best"]["tilt_deg"] < 70


def test_a_lean_out_of_order_is_refused() -> None:
    array = {"panel": {"rated_power_w": 410}, "fixing": {"low_lean_out_deg": 30, "high_lean_out_deg": 20}}
    answer = post("/v1/energy", SMALLEST | {"arrays": [array]})
    assert mistakes(answer) == {"/arrays/0/fixing/low_lean_out_deg": "contradiction"}
    [told] = answer.json()["errors"]
    assert told["accepted"] == "a number from 0 to 20; 20 is the furthest lean given beside it"


ALL_AROUND = {"low_tilt_deg": 0, "high_tilt_deg": 90, "low_azimuth_deg": 0, "high_azimuth_deg": 360}
SITE = {"latitude_deg": 52, "longitude_deg": 13}


def facades_assumed(answer: dict[str, Any]) -> list[dict[str, Any]]:
    return [one for one in answer["assumptions"] if one["pointer"].endswith("/facade_azimuth_deg")]


@pytest.mark.parametrize(("array", "wish"), [
    (BETWEEN_WALLS, {"bounds": ALL_AROUND}),
    (BETWEEN_WALLS | {"mount": "hung_on_rail", "overhang": {"above_top_edge_m": 0.8, "reaches_out_m": 1.5}},
     {"bounds": {"low_azimuth_deg": 90, "high_azimuth_deg": 270}}),
    (BETWEEN_WALLS, {"planes": [{"tilt_deg": 40, "azimuth_deg": azimuth} for azimuth in (95, 180, 245)]}),
    (BETWEEN_WALLS, {"hinge_tilts_deg": [20, 50, 80]}),
    (BETWEEN_WALLS, {}),
])  # fmt: skip
def test_every_path_turns_the_panel_before_the_same_facade(array: dict[str, Any], wish: dict[str, Any]) -> None:
    """No path turns the building: /v1/energy took one with its wall in the north, 324 kWh where /v1/tilt told 469."""
    request = {"site": SITE, "arrays": [array], "inverter": {"ac_power_w": 600}, "tilt": wish, "as_of": "2026-11-25"}
    answers = {path: post(path, request).json() for path in ("/v1/tilt", "/v1/energy", "/v1/appraisal")}
    found = answers["/v1/tilt"]["tilt"]
    facades = []
    for path, answer in answers.items():
        facades.append([one for one in facades_assumed(answer) if one["code"] != "square_to_panel"])
        if path != "/v1/tilt":
            [stands] = found["stands"]["planes"]
            assert answer["energy"]["arrays"][0]["plane"] == stands["plane"]
            assert answer["energy"]["year_kwh"]["middle"] == found["stands"]["brings"]["year_kwh"]
    assert facades[0] == facades[1] == facades[2]
    assert len(facades[0]) == 1
    # By light here, by energy there, and both on a flat top.
    assert found["given_reaches_share"] > 0.999
    assert codes(found) >= {"facade_assumed"}
    [taken] = facades[0]
    told = request | {"arrays": [array | {"facade_azimuth_deg": taken["value"]}]}
    assert tilt(told)["best"] == found["best"]


def test_a_facade_that_was_assumed_moves_the_year_and_is_asked_for() -> None:
    request = {"site": SITE, "arrays": [BETWEEN_WALLS], "inverter": {"ac_power_w": 600}, "as_of": "2026-11-25",
               "tilt": {"bounds": ALL_AROUND}, "include": ["moves", "used"],
               "outlay": {"items": [{"what": "panels", "amount": 700}]}}  # fmt: skip
    answer = post("/v1/appraisal", request).json()
    [taken] = [one for one in answer["assumptions"] if one["pointer"].endswith("/facade_azimuth_deg")]
    assert taken["moves"]["share"] > 0.1
    assert answer["used"]["arrays"][0]["facade_azimuth_deg"] == taken["value"]


def lean_assumed(answer: dict[str, Any]) -> dict[str, Any] | None:
    found = [one for one in answer["assumptions"] if one["pointer"] == "/arrays/0/fixing/high_lean_out_deg"]
    return found[0] if found else None


@pytest.mark.parametrize(("array", "lean", "code"), [
    ({"mount": "hung_on_rail", "plane": {"tilt_deg": 90, "azimuth_deg": 180}}, 0, "upright_unless_told"),
    ({"mount": "hung_on_rail"}, 0, "upright_unless_told"),
    ({"mount": "wall", "plane": {"tilt_deg": 65, "azimuth_deg": 180}}, 25, "as_it_leans"),
])  # fmt: skip
def test_the_lean_that_bounds_the_tilt_is_an_assumption_where_nobody_told_it(
    array: dict[str, Any], lean: float, code: str
) -> None:
    request = SMALLEST | {"arrays": [array | {"panel": {"rated_power_w": 410}}], "include": ["used"]}
    answer = post("/v1/tilt", request).json()
    found = lean_assumed(answer)
    assert found is not None
    assert (found["value"], found["code"], found["low"]) == (lean, code, 0)
    assert found["high"] == max(20, lean)
    assert codes(answer["tilt"]) == ({code} if lean == 0 else set())
    assert answer["used"]["arrays"][0]["fixing"]["high_lean_out_deg"] == lean
    assert 90 - answer["tilt"]["best"]["tilt_deg"] <= lean
    told = {"arrays": [array | {"panel": {"rated_power_w": 410}, "fixing": {"high_lean_out_deg": lean}}]}
    again = post("/v1/tilt", SMALLEST | told).json()
    assert lean_assumed(again) is None
    assert codes(again["tilt"]) == set()
    assert again["tilt"]["best_year_kwh"] == answer["tilt"]["best_year_kwh"]


@pytest.mark.parametrize("wish", [{"planes": [{"tilt_deg": 70, "azimuth_deg": 90}]}, {"hinge_tilts_deg": [60, 90]},
                                  {"bounds": {"low_tilt_deg": 60}}])  # fmt: skip
def test_tilts_that_are_named_take_the_place_of_a_lean(wish: dict[str, Any]) -> None:
    array = {"mount": "hung_on_rail", "panel": {"rated_power_w": 410}}
    answer = post("/v1/tilt", SMALLEST | {"arrays": [array], "tilt": wish}).json()
    assert lean_assumed(answer) is None
    assert codes(answer["tilt"]) == set()
