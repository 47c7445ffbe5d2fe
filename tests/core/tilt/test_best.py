from dataclasses import replace

import numpy as np
import pytest

from service.core.model.place import Overhang, Plane, Shade, SkylinePoint
from service.core.tilt import (
    PlaneBounds,
    best_plane,
    bounds_by_mount,
    light_by_face,
    middle_face,
    narrowed,
    year_light_kwh_per_m2,
)
from tests.builders import array
from tests.skies import clear_year, mixed_year, north_for_south

FREE = PlaneBounds(low_tilt_deg=0, high_tilt_deg=90)
SKY = mixed_year(54.2, 12.3)
TOWER = tuple(SkylinePoint(azimuth_deg=a, height_deg=h) for a, h in ((0, 0), (120, 0), (130, 35), (220, 35), (230, 0)))
MAST = Shade(
    cause="mast", edge="hard", months=tuple(range(1, 13)), from_clock="10:20", to_clock="13:00", blocked_share=0.5
)
PLACES = [(54.2, 12.3, "Europe/Berlin", 1), (-34.0, 20.0, "Africa/Johannesburg", 2), (69.0, 18.0, "Europe/Oslo", 1)]


def light(case, sky, tilt_deg, azimuth_deg):
    return year_light_kwh_per_m2(case, sky, Plane(tilt_deg=tilt_deg, azimuth_deg=azimuth_deg), 0.2)


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("case", [array(), array(skyline=TOWER), array(shade=(MAST,))], ids=["open", "tower", "mast"])
def test_no_plane_of_a_whole_map_beats_the_best_by_a_two_thousandth(case, place):
    sky = mixed_year(*place)
    best = best_plane(case, sky, 0.2, FREE)
    found = year_light_kwh_per_m2(case, sky, best, 0.2)
    rest = max(light(case, sky, t, a) for t in range(0, 91, 10) for a in range(0, 360, 20))
    near = max(
        light(case, sky, min(max(best.tilt_deg + dt, 0), 90), (best.azimuth_deg + da) % 360)
        for dt in (-6, -3, 0, 3, 6)
        for da in (-9, 0, 9)
    )
    assert max(rest, near) <= found * 1.0005


def test_an_obstacle_in_the_south_moves_the_best_plane():
    free = best_plane(array(), SKY, 0.2, FREE)
    behind_tower = best_plane(array(skyline=TOWER), SKY, 0.2, FREE)
    assert behind_tower.tilt_deg < free.tilt_deg - 10
    assert abs(behind_tower.azimuth_deg - free.azimuth_deg) > 5
    assert year_light_kwh_per_m2(array(skyline=TOWER), SKY, behind_tower, 0.2) > year_light_kwh_per_m2(
        array(skyline=TOWER), SKY, free, 0.2
    )


def test_shade_in_the_afternoon_turns_the_panel_to_the_morning():
    tree = replace(MAST, edge="soft", from_clock="13:00", to_clock="21:00", blocked_share=0.9)
    assert best_plane(array(shade=(tree,)), SKY, 0.2, FREE).azimuth_deg < 165


def test_the_best_plane_stays_within_its_bounds():
    flat = replace(FREE, high_tilt_deg=12.5)
    assert best_plane(array(), SKY, 0.2, flat).tilt_deg == 12.5
    west = PlaneBounds(low_tilt_deg=20, high_tilt_deg=50, low_azimuth_deg=250.5, high_azimuth_deg=300)
    assert best_plane(array(), SKY, 0.2, west).azimuth_deg == 250.5
    north = PlaneBounds(low_tilt_deg=30, high_tilt_deg=30, low_azimuth_deg=300, high_azimuth_deg=45)
    assert best_plane(array(), SKY, 0.2, north) == Plane(tilt_deg=30, azimuth_deg=300)


def test_a_plane_that_is_given_whole_comes_back_as_it_was():
    nailed = narrowed(bounds_by_mount("wall"), tilt_deg=71.25, azimuth_deg=143.5)
    assert best_plane(array(), SKY, 0.2, nailed) == Plane(tilt_deg=71.25, azimuth_deg=143.5)


def test_a_railing_that_nobody_described_stays_upright_and_half_of_its_faces_do_better():
    bounds = bounds_by_mount("hung_on_rail")
    plane = best_plane(array(), SKY, 0.2, bounds)
    assert plane.tilt_deg == 90.0
    assert plane.azimuth_deg in {135.0, 225.0}
    faces, by_face = light_by_face(array(), SKY, 0.2, bounds)
    here = by_face[int(np.argmin(np.abs(faces - plane.azimuth_deg)))]
    assert (by_face > here).sum() == (by_face < here).sum()


def test_in_the_southern_hemisphere_the_faces_run_through_north():
    sky = mixed_year(-45.0, 170.0, "Pacific/Auckland", 12)
    bounds = bounds_by_mount("wall")
    faces, by_face = light_by_face(array(), sky, 0.2, bounds)
    assert 0.0 in faces
    assert 180.0 not in faces
    assert faces[int(np.argmax(by_face))] in {350.0, 355.0, 0.0, 5.0, 10.0}
    assert middle_face(array(), sky, 0.2, bounds) in {40.0, 45.0, 50.0, 310.0, 315.0, 320.0}


def test_mirrored_hemispheres_mirror_the_best_plane():
    for case in (array(), array(overhang=Overhang(above_top_edge_m=1.6, reaches_out_m=0.3))):
        here = best_plane(case, SKY, 0.2, FREE)
        there = best_plane(case, north_for_south(SKY), 0.2, FREE)
        assert there.tilt_deg == pytest.approx(here.tilt_deg, abs=1.0)
        assert abs((180.0 - there.azimuth_deg - here.azimuth_deg + 180.0) % 360.0 - 180.0) <= 2.0


def test_more_freedom_never_gives_less_light():
    nailed = PlaneBounds(low_tilt_deg=60, high_tilt_deg=60, low_azimuth_deg=120, high_azimuth_deg=120)
    hinged = replace(nailed, low_tilt_deg=40, high_tilt_deg=80)
    turned = replace(hinged, low_azimuth_deg=90, high_azimuth_deg=200)
    got = [
        year_light_kwh_per_m2(array(), SKY, best_plane(array(), SKY, 0.2, bounds), 0.2)
        for bounds in (nailed, hinged, turned, FREE)
    ]
    assert got == sorted(got)
    assert got[0] < got[-1]


def test_the_same_question_gives_the_same_plane():
    assert best_plane(array(), SKY, 0.2, FREE) == best_plane(array(), SKY, 0.2, FREE)


def test_a_year_without_light_still_has_an_answer():
    dark = replace(
        clear_year(54.2, 12.3),
        ghi_w_per_m2=np.zeros(8760),
        dni_w_per_m2=np.zeros(8760),
        dhi_w_per_m2=np.zeros(8760),
    )
    plane = best_plane(array(), dark, 0.2, bounds_by_mount("ground_frame"))
    assert 15.0 <= plane.tilt_deg <= 40.0
    assert best_plane(array(), dark, 0.2, bounds_by_mount("wall")).tilt_deg == 90.0
