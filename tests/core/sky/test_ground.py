"""What the ground before a panel, and the faces around it, get and send it: against closed forms and traced light."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.model.place import Plane, RowInFront, SideWall, SkylinePoint
from service.core.sky import daylight_of, effective_light, plane_light, surroundings_of
from service.core.sky.ground import sky_over_ground
from service.core.sky.in_front import in_front_of
from tests.builders import array, panel
from tests.skies import clear_year, mixed_year, overcast

SKY = mixed_year(54.2, 12.3)
DULL = overcast(SKY)
UPRIGHT = Plane(tilt_deg=90, azimuth_deg=180)
LONG = {"length_mm": 1722, "width_mm": 1134}


ENDS_AHEAD = tuple(SkylinePoint(azimuth_deg=a, height_deg=h) for a, h in ((150, 0), (150, 40), (269, 40), (269, 0)))
ENDS_LEFT = tuple(SkylinePoint(azimuth_deg=a, height_deg=h) for a, h in ((91, 0), (91, 60), (150, 60)))


def ring(height_deg):
    return tuple(SkylinePoint(azimuth_deg=azimuth, height_deg=height_deg) for azimuth in (0, 180))


def light(one, sky=DULL, reflectance=0.2):
    return plane_light(sky, one, reflectance).after_skyline_w_per_m2


def from_ground(one, sky, reflectance=0.2):
    """What comes on top where the ground is not black."""
    return light(one, sky, reflectance) - light(one, sky, 0.0)


@pytest.mark.parametrize("height_deg", [0.0, 15.0, 45.0, 60.0, 89.0, 90.0])
def test_in_a_round_court_the_ground_keeps_the_square_of_the_cosine_of_an_even_sky(height_deg):
    """Configuration factor from an element to a coaxial disk; half of the sphere before an upright panel is ground."""
    court = array(plane=UPRIGHT, skyline=ring(height_deg))
    share = np.cos(np.radians(height_deg)) ** 2
    assert sky_over_ground(court.skyline) == pytest.approx(share, abs=2e-4)
    assert from_ground(court, DULL) == pytest.approx(0.5 * 0.2 * share * DULL.ghi_w_per_m2, abs=0.02)


def test_while_the_sun_is_behind_the_skyline_its_light_is_gone_from_the_ground():
    """Under a clear sky; of the sky's even part the ground keeps three quarters, of the sun's all or nothing."""
    sky = clear_year(54.2, 12.3)
    court = array(plane=UPRIGHT, skyline=ring(30))
    sent, bare = from_ground(court, sky), from_ground(replace(court, skyline=()), sky)
    high = sky.sun_zenith_deg < 59.9
    low = (sky.sun_zenith_deg > 60.1) & (sky.ghi_w_per_m2 > 0.0)
    dull_share = np.minimum(sky.dhi_w_per_m2 / np.maximum(sky.ghi_w_per_m2, 1e-9), 1.0)
    assert (sent[high] >= (1.0 - 0.25 * dull_share[high]) * bare[high] - 1e-9).all()
    assert (sent[high] < bare[high]).all()
    assert (sent[low] <= 0.75 * dull_share[low] * bare[low] + 1e-9).all()


def test_a_house_behind_takes_its_part_of_the_ground_s_light_and_nothing_else_from_an_upright_panel():
    house = tuple(SkylinePoint(azimuth_deg=a, height_deg=h) for a, h in ((270, 0), (270, 90), (90, 90), (90, 0)))
    alone, before = array(plane=UPRIGHT), array(plane=UPRIGHT, skyline=house)
    assert light(before, DULL, 0.0) == pytest.approx(light(alone, DULL, 0.0), abs=1e-6)
    assert from_ground(before, DULL) == pytest.approx(0.5 * from_ground(alone, DULL), rel=0.01)


def traced(height_deg, face_share, ground_share, *, rays=60_000, seed=1):
    """Of an even sky of 1 on level ground, what an upright panel on the floor of a round court gets; rays, traced back.

    The court has the radius 1; each ray is followed from surface to surface until it leaves or is worth nothing.
    """
    rng, high = np.random.default_rng(seed), np.tan(np.radians(height_deg))
    place, square = np.tile([0.0, 0.0, 1e-6], (rays, 1)), np.tile([0.0, -1.0, 0.0], (rays, 1))
    worth, total = np.ones(rays), 0.0
    for _ in range(12):
        radius, turn = np.sqrt(rng.random(len(worth))), 2 * np.pi * rng.random(len(worth))
        some = np.where(np.abs(square[:, 2:]) < 0.9, [[0.0, 0.0, 1.0]], [[1.0, 0.0, 0.0]])
        first = np.cross(square, some)
        first /= np.linalg.norm(first, axis=1)[:, None]
        second = np.cross(square, first)
        ray = (radius * np.cos(turn))[:, None] * first + (radius * np.sin(turn))[:, None] * second
        ray += np.sqrt(1 - radius**2)[:, None] * square
        across = (ray[:, :2] ** 2).sum(axis=1) + 1e-15
        along, short = (place[:, :2] * ray[:, :2]).sum(axis=1), 1.0 - (place[:, :2] ** 2).sum(axis=1)
        to_wall = (-along + np.sqrt(np.maximum(along**2 + across * short, 0.0))) / across
        to_floor = np.where(ray[:, 2] < 0.0, -place[:, 2] / np.minimum(ray[:, 2], -1e-15), np.inf)
        on_floor = to_floor < to_wall
        out = ~on_floor & (place[:, 2] + to_wall * ray[:, 2] > high)
        total += worth[out].sum()
        place = (place + np.where(on_floor, to_floor, to_wall)[:, None] * ray)[~out]
        on_floor, worth = on_floor[~out], worth[~out]
        worth = worth * np.where(on_floor, ground_share, face_share)
        square = np.where(on_floor[:, None], [[0.0, 0.0, 1.0]], -place * [1.0, 1.0, 0.0])
        square /= np.linalg.norm(square, axis=1)[:, None]
        place = place + 1e-7 * square
    return total / rays


@pytest.mark.parametrize("height_deg", [15.0, 30.0, 45.0, 60.0, 75.0, 85.0])
@pytest.mark.parametrize("face_share", [0.0, 0.25, 0.6])
def test_a_court_of_grey_faces_lets_through_what_traced_light_does(height_deg, face_share):
    """Within 0.013 of an even sky on level ground, of which a bare panel has 0.6: by mean walls it would be 0.08."""
    court = array(plane=UPRIGHT, skyline=ring(height_deg), facing_reflectance_share=face_share)
    noon = int(np.argmax(DULL.ghi_w_per_m2))
    got = float(light(court)[noon] / DULL.ghi_w_per_m2[noon])
    by_ray = traced(height_deg, face_share, 0.2)
    assert got == pytest.approx(by_ray, abs=0.004 if face_share == 0.0 else 0.006 if face_share < 0.5 else 0.013)


@pytest.mark.parametrize("facing_share", [None, 0.25, 1.0])
def test_a_court_without_an_opening_is_dark(facing_share):
    closed = array(plane=UPRIGHT, skyline=ring(90), facing_reflectance_share=facing_share)
    assert light(closed, SKY, 0.9) == pytest.approx(0.0, abs=1e-3)


def test_in_a_deep_court_a_flat_panel_gets_more_than_an_upright_one():
    court = array(skyline=ring(60))
    daylight = daylight_of(SKY)
    planes = [Plane(tilt_deg=tilt, azimuth_deg=180) for tilt in (0, 90)]
    flat, upright = effective_light(court, planes, daylight, surroundings_of(court, SKY, daylight), 0.2).sum(axis=1)
    assert flat > 2.0 * upright


def test_what_stands_behind_a_side_wall_brings_no_light_from_its_faces():
    """A house behind the wall, which hides it: once it brightened the panel."""
    wall = SideWall(side="left", distance_m=0.1, reaches_out_m=20.0)
    before = array(plane=UPRIGHT, side_walls=(wall,), skyline=ENDS_AHEAD, facing_reflectance_share=0.5)
    beside = replace(before, skyline=(*ENDS_LEFT, *ENDS_AHEAD[1:]))
    more, less = (plane_light(DULL, one, 0.0).after_overhang_w_per_m2.sum() for one in (before, beside))
    assert less == pytest.approx(more, rel=0.15)
    assert less <= more


def sky_over_trench(row, slope_m, tilt_deg):
    """Of an even sky what the floor between row and panel sees between their upper edges, place by place."""
    places = 20_000
    from_panel = (np.arange(places) + 0.5) / places * row.distance_m
    to_row = row.distance_m - from_panel
    back, up = from_panel + slope_m * np.cos(np.radians(tilt_deg)), slope_m * np.sin(np.radians(tilt_deg))
    past_row, past_panel = to_row / np.hypot(to_row, row.above_bottom_edge_m), back / np.hypot(back, up)
    return float(((past_row + past_panel) / 2.0).mean())


def seen_of_ground(up_m, row, tilt_deg, floor_share):
    """Of an even ground what a cell sees past a row, angle by angle: the row is black, the floor before it dim."""
    tilt = np.radians(tilt_deg)
    steps = 20_000
    down = (np.arange(steps) + 0.5) / steps * tilt
    weight = np.sin(tilt - down)
    ahead, up = row.distance_m + up_m * np.cos(tilt), up_m * np.sin(tilt)
    at_row = up - ahead * np.tan(np.minimum(down, np.pi / 2 - 1e-9))  # how high a look passes the row's place
    worth = np.where(at_row > row.above_bottom_edge_m, 1.0, np.where(at_row > 0.0, 0.0, floor_share))
    return float((weight * worth).sum() / weight.sum())


@pytest.mark.parametrize("tilt_deg", [20.0, 70.0, 90.0])
@pytest.mark.parametrize("row", [(1.0, 0.3), (1.0, 0.6), (1.0, 1.0), (0.3, 2.0), (0.02, 1.0)])
@pytest.mark.parametrize("half_cells", [True, False])
def test_past_a_row_the_ground_is_what_the_lowest_cells_of_each_string_see(tilt_deg, row, half_cells):
    row = RowInFront(above_bottom_edge_m=row[0], distance_m=row[1])
    one = array(orientation="upright", panel=panel(half_cells=half_cells, **LONG), row_in_front=row)
    in_front = in_front_of(one)
    floor_share = sky_over_trench(row, in_front.slope_m, tilt_deg)
    seen = np.array(
        [seen_of_ground(in_front.slope_m - down, row, tilt_deg, floor_share) for down in in_front.rows.down_m]
    )
    expected = in_front.rows.by_section(seen)
    assert in_front.ground_left_share(np.array([tilt_deg]))[0] == pytest.approx(expected, abs=2e-3)
    assert (expected < 1.0).all()


def test_low_parapets_leave_whole_cells_no_more_than_an_account_of_their_lowest_row():
    """Of an even sky over ground of 0.2: the lowest row of whole cells, each of its two halves looked at by itself."""
    for high, wide in ((0.3, 1.5), (0.6, 1.5), (0.3, 0.6), (0.5, 0.6)):
        row = RowInFront(above_bottom_edge_m=high, distance_m=wide)
        whole = array(orientation="upright", panel=panel(half_cells=False, **LONG), row_in_front=row)
        in_front = in_front_of(whole)
        upright = np.array([90.0])
        rule = 0.5 - in_front.hidden_share(upright) + 0.1 * in_front.ground_left_share(upright)
        floor = sky_over_trench(row, in_front.slope_m, 90.0)
        by_row = []
        for down in np.array(in_front.rows.down_m).reshape(-1, 2):
            heights = in_front.slope_m - down
            sky = [0.5 * (1.0 - max(high - up, 0.0) / np.hypot(wide, max(high - up, 0.0))) for up in heights]
            by_row.append(np.mean(sky) + 0.1 * np.mean([seen_of_ground(up, row, 90.0, floor) for up in heights]))
        assert 0.94 * min(by_row) < float(rule.max()) <= 1.002 * min(by_row)


@pytest.mark.parametrize(
    ("height_m", "ahead_m", "seen"), [(1.0, 0.6, 21), (1.0, 0.3, 30), (1.0, 1.0, 15), (0.6, 0.3, 54)]
)
def test_over_a_parapet_the_middle_of_all_cells_sees_of_the_lit_ground_what_traced_light_finds(height_m, ahead_m, seen):
    """Of 107 kWh/m2 that the bare panel has from the ground; traced light before a black parapet, on a black floor."""
    up_m = (np.arange(2000) + 0.5) / 2000 * 1.722
    row = RowInFront(above_bottom_edge_m=height_m, distance_m=ahead_m)
    mean = np.mean([seen_of_ground(up, row, 90.0, 0.0) for up in up_m[::20]])
    assert 107 * mean == pytest.approx(seen, abs=1.5)


def test_under_an_overcast_sky_a_parapet_takes_the_ground_that_the_lowest_cells_do_not_see():
    """By the light itself: what the ground sends falls by the same part, in every hour."""
    row = RowInFront(above_bottom_edge_m=1.0, distance_m=0.3)
    bare = array(plane=UPRIGHT, orientation="upright", panel=panel(half_cells=False, **LONG))
    behind = replace(bare, row_in_front=row)
    sent = [plane_light(DULL, one, 0.2).after_shade_w_per_m2 - plane_light(DULL, one, 0.0).after_shade_w_per_m2
            for one in (bare, behind)]  # fmt: skip
    lit = sent[0] > 0.0
    assert sent[1][lit] / sent[0][lit] == pytest.approx(in_front_of(behind).ground_left_share(np.array([90.0]))[0, 0])
    assert sent[1].sum() < 0.2 * sent[0].sum()
