"""Planes left open follow the mount, and what the caller gave of a plane stays."""

import pytest

from service.core.completion import as_request
from service.core.errors import ContradictionError
from service.core.model.place import Plane
from service.core.tilt import Facing
from tests.requests import asked, with_array
from tests.skies import mixed_year


@pytest.mark.parametrize("mount", ["hung_on_rail", "behind_rail", "wall", "fence"])
def test_a_panel_on_a_railing_or_wall_stays_upright_and_its_face_is_a_question(mount):
    completed = asked(with_array(mount=mount))
    assert completed.setup.arrays[0].plane.tilt_deg == 90
    azimuth = completed.assumptions.by_pointer["/arrays/0/plane/azimuth_deg"]
    assert (azimuth.code, azimuth.low, azimuth.high) == ("middle_of_faces", 90, 270)
    assert azimuth.value not in {90, 180, 270}


@pytest.mark.parametrize("mount", ["balcony_floor", "ground_frame", "flat_roof"])
def test_a_panel_that_can_be_set_up_freely_gets_the_best_within_its_mount(mount):
    completed = asked(with_array(mount=mount))
    plane = completed.setup.arrays[0].plane
    assert 15 <= plane.tilt_deg <= 40
    assert 150 <= plane.azimuth_deg <= 210
    assert completed.assumptions.by_pointer["/arrays/0/plane/tilt_deg"].code == "best_within_mount"


def test_a_roof_has_a_middling_pitch():
    completed = asked(with_array(mount="sloped_roof"))
    assert completed.setup.arrays[0].plane.tilt_deg == 35
    assert completed.assumptions.by_pointer["/arrays/0/plane/tilt_deg"].code == "pitch_by_mount"


def test_a_panel_of_which_nothing_was_said_stands_free_and_may_be_upright():
    completed = asked(with_array())
    assert completed.setup.arrays[0].mount == "free_standing"
    tilt = completed.assumptions.by_pointer["/arrays/0/plane/tilt_deg"]
    assert (tilt.code, tilt.high) == ("best_if_free", 90)


@pytest.mark.parametrize("given", [{"tilt_deg": 70}, {"azimuth_deg": 95}, {"tilt_deg": 5, "azimuth_deg": 359}])
def test_what_was_given_of_a_plane_stays(given):
    completed = asked(with_array(mount="hung_on_rail", plane=given))
    plane = completed.setup.arrays[0].plane
    for name, value in given.items():
        assert getattr(plane, name) == value
    assumed = {p.rsplit("/", 1)[1] for p in completed.assumptions.by_pointer if "/plane/" in p}
    assert assumed == {"tilt_deg", "azimuth_deg"} - set(given)


def test_south_of_the_equator_the_free_panel_looks_north():
    request = with_array(mount="ground_frame")
    request["site"] = {"latitude_deg": -34.0, "longitude_deg": 18.5, "rule_area": "DE"}
    sky = mixed_year(-34.0, 18.5, "Africa/Johannesburg", 2)
    azimuth = asked(request, sky=sky).setup.arrays[0].plane.azimuth_deg
    assert min(azimuth, 360 - azimuth) <= 30


SOUTHERN = {"latitude_deg": -34.0, "longitude_deg": 18.5, "rule_area": "DE"}


@pytest.mark.parametrize("array", [
    {},
    {"mount": "hung_on_rail"},
    {"mount": "balcony_floor", "side_walls": [{"side": "left", "distance_m": 0.2, "reaches_out_m": 2}]},
])  # fmt: skip
def test_south_of_the_equator_the_faces_that_it_may_have_run_from_west_over_north_to_east(array):
    sky = mixed_year(-34.0, 18.5, "Africa/Johannesburg", 2)
    completed = asked(with_array(**array) | {"site": SOUTHERN}, sky=sky)
    azimuth = facade(completed) or assumed(completed, "azimuth_deg")
    assert (azimuth.low, azimuth.high) == (270, 90)
    assert azimuth.value <= 90 or azimuth.value >= 270


def test_south_of_the_equator_a_facade_that_nobody_told_lies_within_its_range():
    sky = mixed_year(-34.0, 18.5, "Africa/Johannesburg", 2)
    walled = with_array(mount="hung_on_rail", **LEFT_WALL) | {"site": SOUTHERN, "tilt": {"bounds": ALL_AROUND}}
    taken = facade(asked(walled, sky=sky))
    assert (taken.low, taken.high) == (270, 90)
    assert taken.value <= 90 or taken.value >= 270


def test_each_array_is_settled_past_its_own_skyline():
    request = with_array(mount="ground_frame")
    wall_in_the_south = [{"azimuth_deg": a, "height_deg": h} for a, h in ((100, 0), (110, 60), (220, 60), (230, 0))]
    request["arrays"] = [request["arrays"][0], {**request["arrays"][0], "skyline": wall_in_the_south}]
    free, hidden = (array.plane for array in asked(request).setup.arrays)
    assert free != hidden
    assert isinstance(hidden, Plane)


def assumed(completed, name):
    return completed.assumptions.by_pointer[f"/arrays/0/plane/{name}"]


def wishing(request, **wish):
    return asked(request | {"tilt": wish})


def test_the_only_plane_allowed_is_taken():
    completed = wishing(with_array(mount="balcony_floor"), planes=[{"tilt_deg": 70, "azimuth_deg": 90}])
    assert completed.setup.arrays[0].plane == Plane(tilt_deg=70, azimuth_deg=90)
    assert (assumed(completed, "tilt_deg").code, assumed(completed, "azimuth_deg").code) == ("best_of_planes",) * 2


def test_of_listed_planes_the_one_with_most_light_is_taken():
    planes = [
        {"tilt_deg": 80, "azimuth_deg": 10},
        {"tilt_deg": 35, "azimuth_deg": 190},
        {"tilt_deg": 90, "azimuth_deg": 90},
    ]
    completed = wishing(with_array(mount="balcony_floor"), planes=planes)
    assert completed.setup.arrays[0].plane == Plane(tilt_deg=35, azimuth_deg=190)


def test_a_listed_plane_agrees_with_what_was_given():
    planes = [{"tilt_deg": 35, "azimuth_deg": 190}, {"tilt_deg": 80, "azimuth_deg": 90}]
    completed = wishing(with_array(mount="balcony_floor", plane={"azimuth_deg": 90}), planes=planes)
    assert completed.setup.arrays[0].plane == Plane(tilt_deg=80, azimuth_deg=90)
    with pytest.raises(ContradictionError) as refused:
        wishing(with_array(mount="balcony_floor", plane={"azimuth_deg": 120}), planes=planes)
    assert refused.value.pointer == "/tilt/planes"


def test_a_hinge_is_set_to_its_place_with_most_light():
    completed = wishing(with_array(mount="balcony_floor"), hinge_tilts_deg=[0, 30, 85])
    assert completed.setup.arrays[0].plane.tilt_deg == 30
    assert assumed(completed, "tilt_deg").code == "best_of_hinge"


def test_bounds_that_were_asked_hold_where_a_plane_is_open():
    bounds = {"low_tilt_deg": 60, "high_tilt_deg": 90, "low_azimuth_deg": 80, "high_azimuth_deg": 100}
    completed = wishing(with_array(mount="hung_on_rail"), bounds=bounds)
    plane = completed.setup.arrays[0].plane
    assert plane == Plane(tilt_deg=60, azimuth_deg=100)
    assert (assumed(completed, "tilt_deg").code, assumed(completed, "azimuth_deg").code) == ("best_within_bounds",) * 2


@pytest.mark.parametrize(("lean", "tilt"), [
    ({"high_lean_out_deg": 25}, 65),
    ({"low_lean_out_deg": 10}, 80),
    ({"low_lean_out_deg": 5, "high_lean_out_deg": 12}, 78),
])  # fmt: skip
def test_a_panel_on_a_rail_leans_out_as_far_as_its_fixing_lets_it(lean, tilt):
    completed = asked(with_array(mount="hung_on_rail", plane={"azimuth_deg": 180}, fixing=lean))
    assert completed.setup.arrays[0].plane.tilt_deg == tilt
    assert assumed(completed, "tilt_deg").code == "best_within_fixing"


def seen(azimuth, low, high):
    return Facing(
        azimuth_deg=azimuth, low_azimuth_deg=low, high_azimuth_deg=high, obstacles=(), sure=False, basis="middle"
    )


def test_notes_of_the_sun_give_a_railing_its_azimuth_with_their_range():
    completed = asked(with_array(mount="hung_on_rail"), facing=seen(164, 150, 178))
    assert completed.setup.arrays[0].plane.azimuth_deg == 164
    azimuth = assumed(completed, "azimuth_deg")
    assert (azimuth.code, azimuth.low, azimuth.high) == ("sun_seen", 150, 178)


def test_notes_of_the_sun_turn_nothing_that_stands_free_or_has_its_own_azimuth():
    for array in ({"mount": "ground_frame"}, {"mount": "hung_on_rail", "plane": {"azimuth_deg": 200}}):
        completed = asked(with_array(**array), facing=seen(95, 90, 100))
        assert completed.setup.arrays[0].plane.azimuth_deg > 120


@pytest.mark.parametrize("around", [
    {"overhang": {"above_top_edge_m": 0.5, "reaches_out_m": 1.5}},
    {"side_walls": [{"side": "left", "distance_m": 0.2, "reaches_out_m": 2}]},
])  # fmt: skip
def test_a_panel_between_walls_is_turned_before_a_middle_facade_as_it_would_be_before_one_told(around):
    """Nobody told which way the facade looks: a middle one of all, and not the best for the panel."""
    completed = asked(with_array(mount="balcony_floor", **around))
    taken = facade(completed)
    assert (taken.code, taken.low, taken.high) == ("middle_of_faces", 90, 270)
    told = asked(with_array(mount="balcony_floor", **around, facade_azimuth_deg=taken.value))
    assert told.setup == completed.setup


LEFT_WALL = {"side_walls": [{"side": "left", "distance_m": 0.2, "reaches_out_m": 2}]}
ALL_AROUND = {"low_azimuth_deg": 0, "high_azimuth_deg": 360}


def facade(completed, at=0):
    return completed.assumptions.by_pointer.get(f"/arrays/{at}/facade_azimuth_deg")


@pytest.mark.parametrize("mount", ["balcony_floor", "hung_on_rail"])
def test_a_panel_that_may_turn_is_turned_before_a_facade_that_stays(mount):
    """The walls turned along, until the left one stood in the north: the building was turned, not the panel."""
    completed = wishing(with_array(mount=mount, **LEFT_WALL), bounds=ALL_AROUND)
    array, taken = completed.setup.arrays[0], facade(completed)
    assert (taken.code, taken.low, taken.high) == ("middle_of_faces", 90, 270)
    assert taken.value == array.facade_azimuth_deg
    assert 120 <= taken.value <= 240
    assert array.plane.azimuth_deg > taken.value + 20  # away from the wall on its left, which stays
    told = with_array(mount=mount, **LEFT_WALL, facade_azimuth_deg=taken.value)
    assert wishing(told, bounds=ALL_AROUND).setup == completed.setup


def test_of_listed_planes_the_best_is_taken_before_one_and_the_same_facade():
    planes = [{"tilt_deg": 40, "azimuth_deg": azimuth} for azimuth in (90, 180, 245)]
    completed = wishing(with_array(mount="balcony_floor", **LEFT_WALL), planes=planes)
    assert facade(completed).value not in {90, 245}
    assert completed.setup.arrays[0].plane == Plane(tilt_deg=40, azimuth_deg=245)


@pytest.mark.parametrize("wish", [
    {"planes": [{"tilt_deg": tilt, "azimuth_deg": 95} for tilt in (20, 60)]},
    {"bounds": {"low_azimuth_deg": 95, "high_azimuth_deg": 95}},
])  # fmt: skip
def test_where_one_direction_is_left_the_facade_is_square_to_it(wish):
    completed = wishing(with_array(mount="balcony_floor", **LEFT_WALL), **wish)
    assert facade(completed) is None
    assert completed.setup.arrays[0].plane.azimuth_deg == 95
    assert completed.setup.arrays[0].facade_azimuth_deg is None


@pytest.mark.parametrize("arc", [(330, 30), (200, 250)])
def test_a_narrow_arc_holds_the_facade_too(arc):
    completed = wishing(
        with_array(mount="balcony_floor", **LEFT_WALL), bounds={"low_azimuth_deg": arc[0], "high_azimuth_deg": arc[1]}
    )
    taken = facade(completed)
    assert (taken.low, taken.high) == arc
    assert (taken.value - arc[0]) % 360 <= (arc[1] - arc[0]) % 360


def test_the_sun_at_the_railing_tells_the_facade_of_what_stands_behind_it():
    completed = asked(with_array(mount="balcony_floor", **LEFT_WALL), facing=seen(100, 90, 115))
    taken = facade(completed)
    assert (taken.code, taken.value, taken.low, taken.high) == ("sun_seen", 100, 90, 115)
    assert 130 < completed.setup.arrays[0].plane.azimuth_deg < 180  # away from the wall, and not into the house
    elsewhere = facade(asked(with_array(mount="ground_frame", **LEFT_WALL), facing=seen(100, 90, 115)))
    assert elsewhere.code == "middle_of_faces"


def test_a_hinge_does_not_turn_the_building():
    """One facade for all of its places, told or not; each place had a middle face of its own."""
    request = with_array(mount="balcony_floor", **LEFT_WALL)
    at_hinge = wishing(request, hinge_tilts_deg=[10, 90])
    told = with_array(mount="balcony_floor", **LEFT_WALL, facade_azimuth_deg=facade(at_hinge).value)
    assert wishing(told, hinge_tilts_deg=[10, 90]).setup == at_hinge.setup


def test_a_facade_that_was_assumed_is_written_into_the_request_that_can_be_sent_again():
    completed = wishing(with_array(mount="balcony_floor", **LEFT_WALL), bounds=ALL_AROUND)
    again = asked(as_request(completed.setup))
    assert again.setup.arrays == completed.setup.arrays
    assert facade(again) is None
