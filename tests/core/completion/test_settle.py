"""Planes left open follow the mount, and what the caller gave of a plane stays."""

import pytest

from service.core.model.place import Plane
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


def test_each_array_is_settled_past_its_own_skyline():
    request = with_array(mount="ground_frame")
    wall_in_the_south = [{"azimuth_deg": a, "height_deg": h} for a, h in ((100, 0), (110, 60), (220, 60), (230, 0))]
    request["arrays"] = [request["arrays"][0], {**request["arrays"][0], "skyline": wall_in_the_south}]
    free, hidden = (array.plane for array in asked(request).setup.arrays)
    assert free != hidden
    assert isinstance(hidden, Plane)
