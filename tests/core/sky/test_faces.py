"""How bright what makes the skyline is: against closed forms of streets and courts, and traced light."""

import numpy as np
import pytest

from service.core.model.place import Plane, SkylinePoint
from service.core.sky import daylight_of, plane_light
from service.core.sky.faces import BANDS, borders, faces_lit, plan_of, views_of
from service.core.sky.faces_seen import faces_seen
from service.core.sky.sunny_faces import sun_on_faces
from tests.builders import array
from tests.skies import mixed_year, overcast

SKY = mixed_year(54.2, 12.3)
DULL = overcast(SKY)
HALF = np.array([90.0])
SOUTH, NORTH = 18, 0  # the sectors, of ten degrees, that begin there


def walls(height_deg, *towards_deg):
    """Straight walls without end, each square to a direction, of that height there."""
    compass = np.arange(0.0, 360.0)
    rise = np.tan(np.radians(height_deg))
    tangents = [rise * np.cos(np.radians(compass - towards)) for towards in towards_deg]
    heights = np.degrees(np.arctan(np.maximum(np.max(tangents, axis=0), 0.0)))
    return tuple(SkylinePoint(azimuth_deg=float(a), height_deg=float(h)) for a, h in zip(compass, heights, strict=True))


def ring(height_deg):
    return tuple(SkylinePoint(azimuth_deg=azimuth, height_deg=height_deg) for azimuth in (0, 180))


def places_up(height_deg):
    """Heights of the middles of bands over the panel, the face 1 ahead of it."""
    return borders(np.tan(np.radians(np.array([height_deg]))), middles=True)[:, 0]


@pytest.mark.parametrize("height_deg", [20.0, 40.0, 60.0, 75.0])
def test_a_face_of_a_street_sees_of_the_sky_what_crossed_strings_tell(height_deg):
    """(1 - sin) / 2 of the height at which the houses opposite end, two widths away: a strip without end to an element.

    The limit of Hottel's crossed strings (Hottel and Sarofim, Radiative Transfer, 1967, ch. 2; from memory). The ground
    likewise, by the depth at which the foot opposite lies.
    """
    up = places_up(height_deg)
    over, under = (np.arctan(rise / 2.0) for rise in (np.tan(np.radians(height_deg)) - up, up))
    faint = 1e-6  # of which nothing comes back
    by_sky, by_ground = faces_lit(walls(height_deg, 180, 0), faint)[:2, SOUTH] / faint
    assert by_sky == pytest.approx((1.0 - np.sin(over)) / 2.0, abs=0.005, rel=0.04)
    assert by_ground == pytest.approx((1.0 - np.sin(under)) / 2.0, abs=0.006)


@pytest.mark.parametrize("height_deg", [20.0, 45.0, 70.0, 85.0])
def test_a_face_of_a_round_court_sees_of_the_sky_what_an_element_of_a_cylinder_does(height_deg):
    """Half of (z^2 + 2) / sqrt(z^2 + 4) - z, z radii below the end (Siegel and Howell, configuration factors)."""
    below = np.tan(np.radians(height_deg)) - places_up(height_deg)
    expected = 0.5 * ((below**2 + 2.0) / np.sqrt(below**2 + 4.0) - below)
    by_sky = faces_lit(ring(height_deg), 1e-6)[0] / 1e-6
    assert by_sky == pytest.approx(np.tile(expected, (36, 1)), rel=0.01)


@pytest.mark.parametrize("height_deg", [10.0, 45.0, 80.0])
def test_a_face_with_nothing_opposite_sees_half_sky_and_half_ground(height_deg):
    by_sky, by_ground = faces_lit(walls(height_deg, 180), 0.3)[:2, SOUTH]
    assert by_sky == pytest.approx(np.full(BANDS, 0.15), rel=0.02)
    assert by_ground == pytest.approx(np.full(BANDS, 0.15), rel=0.02)
    assert (faces_lit(walls(height_deg, 180), 0.3)[:2, NORTH] == 0.0).all()


@pytest.mark.parametrize("around", [ring(70.0), walls(70.0, 180, 0), walls(60.0, 180, 270), walls(30.0, 90)])
def test_what_a_face_sees_of_all_adds_up_to_one(around):
    sky, ground, others = views_of(plan_of(around))
    assert sky + ground + others.sum(axis=1) == pytest.approx(1.0, abs=1e-9)
    assert min(sky.min(), ground.min(), others.min()) >= -1e-12


def traced(houses, tilt_deg, face_share, ground_share, *, rays=60_000, seed=2):
    """Of an even sky of 1 on level ground, what a panel that looks to -y gets before walls square to y; traced."""
    rng, tilt = np.random.default_rng(seed), np.radians(tilt_deg)
    place = np.tile([0.0, 0.0, 1e-6], (rays, 1))
    square = np.tile([0.0, -np.sin(tilt), np.cos(tilt)], (rays, 1))
    worth, total = np.ones(rays), 0.0
    for _ in range(12):
        radius, turn = np.sqrt(rng.random(len(worth))), 2 * np.pi * rng.random(len(worth))
        first = np.cross(square, [[1.0, 0.0, 0.0]])  # no surface is square to x
        first /= np.linalg.norm(first, axis=1)[:, None]
        second = np.cross(square, first)
        ray = (radius * np.cos(turn))[:, None] * first + (radius * np.sin(turn))[:, None] * second
        ray += np.sqrt(1 - radius**2)[:, None] * square
        down = np.where(ray[:, 2] < 0.0, -place[:, 2] / np.minimum(ray[:, 2], -1e-15), np.inf)
        hits = [down]
        for at, high in houses:
            away = (at - place[:, 1]) / np.where(np.abs(ray[:, 1]) < 1e-15, 1e-15, ray[:, 1])
            up = place[:, 2] + away * ray[:, 2]
            hits.append(np.where((away > 1e-6) & (up >= 0.0) & (up <= high), away, np.inf))
        which, near = np.argmin(hits, axis=0), np.min(hits, axis=0)
        out = ~np.isfinite(near)
        total += worth[out & (ray[:, 2] > 0.0)].sum()
        place, ray, which, worth = (
            (place + np.where(out, 0, near)[:, None] * ray)[~out],
            ray[~out],
            which[~out],
            worth[~out],
        )
        worth = worth * np.where(which == 0, ground_share, face_share)
        towards = -np.sign(ray[:, 1])[:, None] * [[0.0, 1.0, 0.0]]
        square = np.where((which == 0)[:, None], [[0.0, 0.0, 1.0]], towards)
        place = place + 1e-6 * square
    return total / rays


@pytest.mark.parametrize("height_deg", [30.0, 50.0, 70.0])
@pytest.mark.parametrize("tilt_deg", [30.0, 90.0])
@pytest.mark.parametrize("face_share", [0.25, 0.6])
@pytest.mark.parametrize("opposite", [(), (0,)], ids=["one house", "street"])
def test_before_a_house_and_in_a_street_as_much_light_comes_as_is_traced(opposite, face_share, tilt_deg, height_deg):
    """Within 0.006 of an even sky on level ground; by round courts a street of 70 degrees would be 0.03 darker."""
    around = array(
        plane=Plane(tilt_deg=tilt_deg, azimuth_deg=180),
        skyline=walls(height_deg, 180, *opposite),
        facing_reflectance_share=face_share,
    )
    noon = int(np.argmax(DULL.ghi_w_per_m2))
    got = float(plane_light(DULL, around, 0.2).after_skyline_w_per_m2[noon] / DULL.ghi_w_per_m2[noon])
    rise = float(np.tan(np.radians(height_deg)))
    houses = [(-1.0, rise), *((1.0, rise) for _ in opposite)]
    assert got == pytest.approx(traced(houses, tilt_deg, face_share, 0.2), abs=0.006)


def sun_on_panel(around, azimuth_deg):
    """What sunlit white faces throw onto an upright panel over the year, once, kWh/m2."""
    daylight = daylight_of(SKY)
    one = array(plane=Plane(tilt_deg=90, azimuth_deg=azimuth_deg), skyline=around)
    ways = sun_on_faces(around, daylight)[None]
    return float(faces_seen(one, ways, HALF, np.array([float(azimuth_deg)])).on_planes_share[0, 2, 0]) / 1000


@pytest.mark.parametrize("azimuth_deg", [0, 45, 90, 270])
@pytest.mark.parametrize("height_deg", [20.0, 50.0, 70.0])
@pytest.mark.parametrize("street", [False, True])
def test_of_the_sun_on_a_straight_facade_an_upright_panel_gets_the_part_that_it_sees(street, height_deg, azimuth_deg):
    """Half the difference of the sines between shadow and roof (crossed strings).

    The shadow of a street's other side, behind the panel, ends two widths away by the sun's profile angle. Within 1 %
    before one house, 9 % in streets.
    """
    daylight = daylight_of(SKY)
    ahead = np.radians(azimuth_deg)
    head_on = np.maximum(-(daylight.sun[0] * np.sin(ahead) + daylight.sun[1] * np.cos(ahead)), 0.0)
    rise = np.tan(np.radians(height_deg))
    shadow = np.zeros_like(head_on)
    if street:
        shadow = np.clip(rise - 2.0 * daylight.sun[2] / np.maximum(head_on, 1e-9), 0.0, rise)
    part = (np.sin(np.radians(height_deg)) - np.sin(np.arctan(shadow))) / 2.0
    expected = float((daylight.from_sun_w_per_m2 * head_on * part).sum()) / 1000
    around = walls(height_deg, azimuth_deg, *([azimuth_deg + 180] if street else []))
    assert sun_on_panel(around, azimuth_deg) == pytest.approx(expected, rel=0.09 if street else 0.01)


def test_no_sun_is_on_faces_of_a_closed_court():
    assert sun_on_panel(ring(89.0), 0) == pytest.approx(0.0, abs=0.5)
