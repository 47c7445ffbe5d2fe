"""What the house behind a panel hides, against rays cast by chance and against a slab far above."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.model.fixing import Fixing
from service.core.model.place import Overhang, Plane, SideWall, SkylinePoint
from service.core.sky import (
    daylight_of,
    effective_light,
    house_hiding,
    house_steepness,
    past_house_share,
    plane_light,
    sky_seen,
    surroundings_of,
)
from service.core.sky.cell_layout import AT_THE_EDGE
from service.core.sky.house import sky_past_house_share
from service.core.sky.transposition import sky_share
from tests.builders import array
from tests.kernel_cases import typical

RAYS = 400_000
BLACK_GROUND = 0.0  # what the house leaves of the ground's light is ``test_before_house``'s
POTSDAM = (52.4, 13.1)


def at_house(above_m=3.0, **changes):
    return array(
        **{"mount": "hung_on_rail", "height_above_ground_m": 6.0, "fixing": Fixing(building_height_m=6.0 + above_m)}
        | changes
    )


def seen_by_rays(plane, facade_deg, above_m, behind_m, skyline_deg=0.0):
    """Of an even sky's light on level ground what a plane gets beside a long facade: rays even over the half sphere."""
    rng = np.random.default_rng(7)
    up, turn = rng.random(RAYS), rng.random(RAYS) * 2.0 * np.pi
    level = np.sqrt(1.0 - up * up)
    ray = np.stack([level * np.sin(turn), level * np.cos(turn), up])
    tilt, azimuth, facade = np.radians([plane.tilt_deg, plane.azimuth_deg, facade_deg])
    normal = [np.sin(tilt) * np.sin(azimuth), np.sin(tilt) * np.cos(azimuth), np.cos(tilt)]
    back = -(np.sin(facade) * ray[0] + np.cos(facade) * ray[1])
    meets_m = np.where(back > 1e-9, behind_m / np.maximum(back, 1e-9) * up, np.inf)  # how high a ray meets the facade
    free = (meets_m >= above_m) & (up > np.sin(np.radians(skyline_deg)))
    return 2.0 * float((np.maximum(normal @ ray, 0.0) * free).mean())


@pytest.mark.parametrize(
    ("tilt_deg", "azimuth_deg", "above_m", "skyline_deg"),
    [(0, 180, 3, 0), (30, 180, 3, 0), (30, 180, 15, 0), (35, 235, 3, 0), (90, 270, 3, 0), (40, 60, 1.5, 20)],
)
def test_of_an_even_sky_a_plane_keeps_what_rays_past_the_facade_bring(tilt_deg, azimuth_deg, above_m, skyline_deg):
    plane = Plane(tilt_deg=tilt_deg, azimuth_deg=azimuth_deg)
    steepness = house_steepness(at_house(above_m))
    skyline = (SkylinePoint(azimuth_deg=0, height_deg=skyline_deg),)
    seen = sky_seen(tilt_deg, azimuth_deg, skyline, None, (), 180.0, replace(AT_THE_EDGE, house_steepness=steepness))
    by_rays = seen_by_rays(plane, 180.0, above_m, 1.2, skyline_deg)
    assert seen.past_all_share[0, 0] == pytest.approx(by_rays, abs=0.004)
    assert seen.past_all_share[0, 0] < seen.bare_share[0] - 0.05


@pytest.mark.parametrize("steepness", [0.0, 0.4, 2.5, 30.0, 1e12])
@pytest.mark.parametrize("tilt_deg", [0.0, 3.0, 40.0, 68.2, 88.0, 90.0])
def test_past_a_house_alone_the_sky_is_what_small_pieces_of_the_dome_bring(steepness, tilt_deg):
    """Pieces of half a degree by a quarter, each as bright and hidden as its middle."""
    h, a = np.meshgrid((np.arange(360) + 0.5) / 4.0, (np.arange(720) + 0.5) / 2.0, indexing="ij")
    h, a, tilt = np.radians(h), np.radians(a), np.radians(tilt_deg)
    cosine = np.maximum(np.sin(h) * np.cos(tilt) + np.cos(h) * np.sin(tilt) * np.cos(a), 0.0)
    piece = cosine * np.cos(h) * np.radians(0.25) * np.radians(0.5) / np.pi
    for turned_deg in (0.0, 1.0, -35.0, 90.0, 140.0, 180.0, -270.0):
        free = np.sin(h) >= -steepness * np.cos(h) * np.cos(a + np.radians(turned_deg))
        share = sky_past_house_share(steepness, np.array([tilt_deg]), np.array([turned_deg]))
        assert share[0] == pytest.approx(piece[free].sum(), abs=1.5e-3)


@given(st.floats(0, 90), st.floats(-360, 360), st.floats(0, 1e6), st.floats(0, 1e6))
def test_the_sky_past_a_house_falls_with_its_height_and_knows_no_left_and_right(tilt, turned, one, other):
    tilts, low, high = np.array([tilt]), min(one, other), max(one, other)
    left, right = (sky_past_house_share(high, tilts, np.array([turn])) for turn in (turned, -turned))
    lower = sky_past_house_share(low, tilts, np.array([turned]))
    assert left == pytest.approx(right, abs=1e-12)
    assert left <= lower + 1e-9
    assert lower <= sky_share(tilts)
    if low == 0.0:
        assert lower == pytest.approx(sky_share(tilts), abs=1e-9)


@given(st.floats(0, 90), st.floats(0, 360), st.floats(0, 100))
def test_what_stands_beside_a_house_never_adds_to_the_sky_past_it(tilt, azimuth, steepness):
    """Slices of the sky and the closed form differ a little; a level skyline lets them be compared."""
    places = replace(AT_THE_EDGE, house_steepness=steepness)
    level = (SkylinePoint(azimuth_deg=0, height_deg=0),)
    alone, beside = (sky_seen(tilt, azimuth, around, None, (), 130.0, places).past_all_share for around in ((), level))
    assert beside <= alone
    assert beside == pytest.approx(alone, abs=1e-3)


def test_the_sun_is_hidden_behind_the_facade_until_it_stands_over_its_roof_edge():
    """3 m over the panel's edge and 1.2 m behind it: 68.2 degrees straight behind, by the tangent."""
    heights = np.radians([67.0, 69.0, 5.0])
    sun = np.stack([np.zeros(3), np.array([1.0, 1.0, -1.0]) * np.cos(heights), np.sin(heights)])
    assert past_house_share(house_steepness(at_house()), np.array([180.0]), sun).tolist() == [[0.0, 1.0, 1.0]]


@pytest.mark.parametrize("azimuth_deg", [180.0, 120.0, 20.0])
@pytest.mark.parametrize("tilt_deg", [0.0, 30.0, 70.0, 90.0])
def test_a_high_house_hides_what_a_thread_of_a_slab_does_far_above_whose_facade_has_no_end(tilt_deg, azimuth_deg):
    sky = typical(*POTSDAM)
    high = at_house(100_000.0, plane=Plane(tilt_deg=tilt_deg, azimuth_deg=azimuth_deg), facade_azimuth_deg=180.0)
    slab = replace(high, fixing=None, overhang=Overhang(above_top_edge_m=1000.0, reaches_out_m=1e-6))
    house, facade = (plane_light(sky, one, BLACK_GROUND).effective_w_per_m2.sum() for one in (high, slab))
    assert house == pytest.approx(facade, rel=2e-3)


def test_an_upright_panel_that_looks_straight_out_loses_nothing_and_a_leaning_one_does():
    sky = typical(*POTSDAM)
    daylight = daylight_of(sky)

    def light(one, *planes):
        around = surroundings_of(one, sky, daylight)
        return effective_light(one, planes, daylight, around, BLACK_GROUND).sum(axis=1)

    straight, leaning = Plane(tilt_deg=90, azimuth_deg=200), Plane(tilt_deg=30, azimuth_deg=200)
    bare = light(at_house(fixing=None), straight, leaning)
    house = light(at_house(), straight, leaning)
    assert house[0] == pytest.approx(bare[0], rel=1e-9)
    assert house[1] < 0.97 * bare[1]


def test_the_higher_the_house_the_less_light():
    sky = typical(*POTSDAM)
    plane = Plane(tilt_deg=20, azimuth_deg=150)
    light = [
        plane_light(
            sky, at_house(above_m, plane=plane, facade_azimuth_deg=180.0), BLACK_GROUND
        ).effective_w_per_m2.sum()
        for above_m in (-1.0, 0.0, 0.5, 1.5, 3.0, 18.0)
    ]
    assert light[0] == light[1]
    assert all(more > less for more, less in pairwise(light[1:]))


def test_only_panels_at_a_house_have_one_behind_them_and_a_slab_brings_its_own():
    wall = SideWall(side="left", distance_m=0.5, reaches_out_m=1.0)
    assert house_steepness(at_house()) == pytest.approx(2.5)
    for none in (
        at_house(mount="free_standing"), at_house(mount="fence"), at_house(mount="sloped_roof"), at_house(fixing=None),
        at_house(overhang=Overhang(above_top_edge_m=1.0, reaches_out_m=0.5)),
    ):  # fmt: skip
        assert house_steepness(none) is None
    assert house_steepness(at_house(overhang=Overhang(above_top_edge_m=1.0, reaches_out_m=0.0))) is not None
    assert house_steepness(at_house(side_walls=(wall,))) == house_steepness(at_house())


@pytest.mark.parametrize("sides", [("left",), ("right",), ("left", "right")])
@pytest.mark.parametrize("azimuth_deg", [0.0, 120.0, 180.0])
@pytest.mark.parametrize("tilt_deg", [0.0, 40.0, 90.0])
def test_a_wall_beside_a_panel_at_a_house_never_adds_and_a_thread_of_one_leaves_the_house(tilt_deg, azimuth_deg, sides):
    """A wall of a millimetre 30 m aside hides what lies behind the facade's line on its side, as the house does."""
    sky = typical(*POTSDAM)
    daylight = daylight_of(sky)
    house = at_house(100_000.0, plane=Plane(tilt_deg=tilt_deg, azimuth_deg=azimuth_deg), facade_azimuth_deg=0.0)

    def light(one):
        around = surroundings_of(one, sky, daylight)
        return effective_light(one, (one.plane,), daylight, around, 0.2)[0]

    walls = tuple(SideWall(side=side, distance_m=0.5, reaches_out_m=1.0) for side in sides)
    threads = tuple(SideWall(side=side, distance_m=30.0, reaches_out_m=0.001) for side in sides)
    alone, beside, thread = (light(replace(house, side_walls=these)) for these in ((), walls, threads))
    assert np.all(beside <= alone + 1e-9)
    assert thread.sum() <= alone.sum()
    if azimuth_deg == 0.0:  # turned, a corner of the panel lies out before so short a wall
        assert thread.sum() == pytest.approx(alone.sum(), rel=5e-3)


def test_a_facade_of_360_degrees_is_one_of_nought():
    north = at_house(plane=Plane(tilt_deg=90, azimuth_deg=0), facade_azimuth_deg=360.0)
    assert house_hiding(north, np.array([90.0]), np.array([0.0])) is None
    assert house_hiding(north, np.array([90.0]), np.array([1.0])) is not None
