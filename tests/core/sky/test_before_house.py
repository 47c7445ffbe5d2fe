"""Light on the ground before the house that panels hang on, against rays."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from service.core.model.fixing import Fixing
from service.core.model.place import Plane
from service.core.sky import daylight_of, ground_before_house_share, plane_light
from tests.builders import array
from tests.kernel_cases import typical

AT = (52.4, 13.1)
RAYS = 4000


def hung(azimuth_deg, tilt_deg=90.0, panel_m=6.0, house_m=9.0, mount="wall"):
    plane = Plane(tilt_deg=tilt_deg, azimuth_deg=azimuth_deg)
    fixing = Fixing(building_height_m=house_m)
    return array(mount=mount, plane=plane, height_above_ground_m=panel_m, fixing=fixing)


def by_rule(one, daylight):
    tilt, azimuth = np.array([one.plane.tilt_deg]), np.array([one.plane.azimuth_deg])
    return float(ground_before_house_share(one, tilt, azimuth, daylight)[0])


@cache
def rays_down(tilt_deg, panel_m):
    """Where rays of a panel that looks along +y meet the ground: how far out, each of equal weight."""
    draw = np.random.default_rng(7)
    radius, turn = np.sqrt(draw.random(RAYS)), draw.random(RAYS) * 2 * np.pi
    up_face, out = radius * np.sin(turn), np.sqrt(1 - radius**2)
    tilt = np.radians(tilt_deg)
    level, up = out * np.sin(tilt) - up_face * np.cos(tilt), out * np.cos(tilt) + up_face * np.sin(tilt)
    down = (up < -1e-9) & (level > 0)
    return level[down] / -up[down] * panel_m


def traced(one, daylight):
    """The same by rays from the panel to the ground and from there to the sun, and to an even sky past the facade."""
    panel_m, house_m = one.height_above_ground_m, one.fixing.building_height_m
    at_m = rays_down(one.plane.tilt_deg, panel_m)
    even = np.minimum(daylight.even_sky_w_per_m2, daylight.ghi_w_per_m2)
    beam = daylight.ghi_w_per_m2 - even
    look = np.radians(one.plane.azimuth_deg)
    east, north, up = daylight.sun
    to_house = -(east * np.sin(look) + north * np.cos(look))
    lit = np.array([
        1.0 if to <= 0 else np.mean(at_m / to * high > house_m) for to, high in zip(to_house, up, strict=True)
    ])  # fmt: skip
    rows = (np.arange(200) + 0.5) / 200 * np.pi  # profile angles over the ground, from away from the house to it
    weight = np.abs(np.sin(rows))
    free = (rows < np.pi / 2) | (np.tan(np.pi - rows)[None, :] > (house_m / at_m)[:, None])
    sky = (free * weight).sum(axis=1).mean() / weight.sum()
    return float((beam @ lit + even.sum() * sky) / daylight.ghi_w_per_m2.sum())


@pytest.mark.parametrize("azimuth_deg", [0.0, 90.0, 135.0, 180.0, 250.0])
@pytest.mark.parametrize(("panel_m", "house_m"), [(6.0, 9.0), (2.0, 9.0), (15.0, 18.0)])
def test_an_upright_panel_sees_the_ground_as_rays_do(azimuth_deg, panel_m, house_m):
    one, daylight = hung(azimuth_deg, 90.0, panel_m, house_m), daylight_of(typical(*AT))
    assert by_rule(one, daylight) == pytest.approx(traced(one, daylight), abs=0.015)


@pytest.mark.parametrize("tilt_deg", [20.0, 30.0, 45.0, 60.0, 70.0, 80.0])
@pytest.mark.parametrize("azimuth_deg", [0.0, 90.0, 180.0])
@pytest.mark.parametrize(("panel_m", "house_m"), [(6.0, 9.0), (2.0, 9.0), (15.0, 18.0)])
def test_a_panel_that_leans_sees_it_as_rays_do(tilt_deg, azimuth_deg, panel_m, house_m):
    """Lost in proportion to 1 - cos(tilt) it was up to 0.16 too bright, two metres up."""
    one, daylight = hung(azimuth_deg, tilt_deg, panel_m, house_m), daylight_of(typical(*AT))
    assert by_rule(one, daylight) == pytest.approx(traced(one, daylight), abs=0.02)


def test_the_more_a_panel_leans_the_less_its_ground_loses():
    daylight = daylight_of(typical(*AT))
    for panel_m in (0.0, 1.0, 6.0, 100.0):
        left = [by_rule(hung(40.0, tilt, panel_m), daylight) for tilt in np.arange(0.0, 91.0, 1.5)]
        assert left == sorted(left, reverse=True)
        assert left[0] == 1.0


def test_a_higher_house_leaves_less_and_none_or_a_free_stand_leaves_all():
    daylight = daylight_of(typical(*AT))
    left = [by_rule(hung(90.0, house_m=high), daylight) for high in (0.0, 6.0, 9.0, 30.0, 300.0)]
    assert left == sorted(left, reverse=True)
    assert left[0] == pytest.approx(1.0)
    assert by_rule(hung(90.0, mount="ground_frame"), daylight) == 1.0
    assert by_rule(replace(hung(90.0), fixing=None), daylight) == 1.0


def test_hours_picked_out_of_a_year_have_the_ground_of_the_year():
    daylight = daylight_of(typical(*AT))
    assert by_rule(hung(90.0), daylight.at(np.arange(10))) == by_rule(hung(90.0), daylight)


def test_many_azimuths_at_once_get_what_each_gets_alone():
    daylight = daylight_of(typical(*AT))
    azimuth = np.arange(0.0, 360.0, 7.3)
    together = ground_before_house_share(hung(180.0), np.full(azimuth.shape, 90.0), azimuth, daylight)
    alone = [by_rule(hung(float(one)), daylight) for one in azimuth]
    assert together == pytest.approx(np.array(alone), abs=2e-4)


def test_a_facade_told_holds_for_a_panel_that_is_turned_before_it():
    daylight = daylight_of(typical(*AT))
    turned = replace(hung(180.0), facade_azimuth_deg=90.0)
    assert by_rule(turned, daylight) == pytest.approx(by_rule(hung(90.0), daylight))


def test_the_year_of_a_plane_gets_its_ground_as_dim_at_every_stage():
    sky = typical(*AT)
    before, free = (plane_light(sky, one, 0.2) for one in (hung(0.0), replace(hung(0.0), fixing=None)))
    dark = plane_light(sky, hung(0.0), 0.0)
    left = by_rule(hung(0.0), daylight_of(sky))
    for stage in ("open_w_per_m2", "after_skyline_w_per_m2", "effective_w_per_m2"):
        ground = [getattr(one, stage).sum() - getattr(dark, stage).sum() for one in (before, free)]
        assert ground[0] == pytest.approx(left * ground[1], rel=1e-9)


def test_what_is_kept_of_facades_asked_about_is_that_of_each():
    """More of them than are kept, of two heights, asked about twice and out of order."""
    daylight = daylight_of(typical(*AT))
    stands = [hung(azimuth, house_m=house_m) for azimuth in range(0, 360, 17) for house_m in (9.0, 18.0)]
    first = [by_rule(one, daylight) for one in stands]
    assert first == [by_rule(one, daylight_of(typical(*AT))) for one in stands]
    assert first[::-1] == [by_rule(one, daylight) for one in stands[::-1]]
    assert len(set(first)) == len(stands)


def test_what_another_thread_throws_away_meanwhile_is_not_missed():
    """A row that keeps nothing: as where others begin it anew between keeping and looking up."""

    class Empty(dict):
        def __setitem__(self, key, value):
            pass

    daylight = daylight_of(typical(*AT))
    stand = hung(180, house_m=9.0)
    assert by_rule(stand, replace(daylight, before=Empty())) == by_rule(stand, daylight)
