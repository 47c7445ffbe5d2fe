"""What is open about a plane, by mount, by what was given, by what is asked?"""

import pytest

from service.core.errors import ContradictionError
from service.core.model.fixing import Fixing
from service.core.model.place import Plane
from service.core.tilt import TiltWish
from service.core.tilt.bounds import PlaneBounds
from service.core.tilt.wish import freedom_of, inside
from tests.builders import array

SOUTH_EAST, SOUTH_WEST = Plane(tilt_deg=90, azimuth_deg=135), Plane(tilt_deg=90, azimuth_deg=225)
RAIL = array(plane=SOUTH_EAST)
FLOOR = array(mount="balcony_floor", plane=Plane(tilt_deg=30, azimuth_deg=180))


def bounds_of(one, given, **wish):
    return freedom_of([one], [given], TiltWish(**wish)).bounds[0]


def ends(bounds):
    return bounds.low_tilt_deg, bounds.high_tilt_deg, bounds.low_azimuth_deg, bounds.high_azimuth_deg


def test_a_panel_on_a_rail_stays_upright_and_where_the_rail_faces():
    assert ends(bounds_of(RAIL, {"azimuth_deg": 135})) == (90, 90, 135, 135)


def test_what_the_fixing_admits_is_asked_by_one_end():
    assert ends(bounds_of(RAIL, {"azimuth_deg": 135}, low_tilt_deg=60)) == (60, 90, 135, 135)


def test_where_a_whole_plane_is_given_it_is_how_the_set_stands_and_all_is_open():
    assert ends(bounds_of(FLOOR, {"tilt_deg": 30, "azimuth_deg": 180})) == (15, 40, 0, 360)


def test_a_whole_plane_on_a_rail_is_how_it_stands_and_upright_is_open_too():
    leaning = array(plane=Plane(tilt_deg=70, azimuth_deg=135))
    assert ends(bounds_of(leaning, {"tilt_deg": 70, "azimuth_deg": 135})) == (70, 90, 135, 135)
    assert ends(bounds_of(leaning, {"tilt_deg": 70})) == (70, 70, 135, 135)


def test_the_fixing_of_a_rail_opens_its_tilt():
    fixed = array(plane=SOUTH_EAST, fixing=Fixing(low_lean_out_deg=5, high_lean_out_deg=30))
    assert ends(bounds_of(fixed, {"azimuth_deg": 135})) == (60, 85, 135, 135)


def test_where_one_part_is_given_that_part_stays():
    assert ends(bounds_of(FLOOR, {"azimuth_deg": 150})) == (15, 40, 150, 150)
    assert ends(bounds_of(FLOOR, {"tilt_deg": 30})) == (30, 30, 0, 360)


def test_an_end_beyond_the_mounts_own_moves_the_other_along():
    assert ends(bounds_of(FLOOR, {}, low_tilt_deg=50))[:2] == (50, 50)
    assert ends(bounds_of(RAIL, {}, high_tilt_deg=80))[:2] == (80, 80)


@pytest.mark.parametrize(("wish", "pointer"), [
    ({"low_tilt_deg": 50, "high_tilt_deg": 40}, "/tilt/bounds/high_tilt_deg"),
    ({"low_azimuth_deg": 90}, "/tilt/bounds/high_azimuth_deg"),
    ({"high_azimuth_deg": 90}, "/tilt/bounds/low_azimuth_deg"),
])  # fmt: skip
def test_ends_that_exclude_each_other_are_refused(wish, pointer):
    with pytest.raises(ContradictionError) as refused:
        bounds_of(FLOOR, {}, **wish)
    assert refused.value.pointer == pointer


def test_two_railings_are_tilted_together_each_facing_its_own_way():
    freedom = freedom_of([RAIL, array(plane=SOUTH_WEST)], [{"azimuth_deg": 135}, {"azimuth_deg": 225}],
                         TiltWish(low_tilt_deg=60))  # fmt: skip
    assert freedom.moving == {0: 0, 1: 90}


def test_a_panel_on_the_floor_moves_while_the_one_on_the_rail_stays():
    freedom = freedom_of([RAIL, FLOOR], [{"azimuth_deg": 135}, {}], TiltWish())
    assert freedom.moving == {1: 0}


@pytest.mark.parametrize(("azimuth", "moved_to"), [(355, 355), (20, 10), (340, 350), (170, 10), (190, 350)])
def test_a_plane_is_moved_to_the_nearer_end_of_an_arc_through_north(azimuth, moved_to):
    bounds = PlaneBounds(low_tilt_deg=10, high_tilt_deg=20, low_azimuth_deg=350, high_azimuth_deg=10)
    found = inside(Plane(tilt_deg=30, azimuth_deg=azimuth), bounds)
    assert found.tilt_deg == 20
    assert found.azimuth_deg == moved_to
