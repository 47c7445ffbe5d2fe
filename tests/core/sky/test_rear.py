"""Light on the rear of two-sided panels: what it is made of, and that nothing counts unasked."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.model.place import Overhang, Plane, RowInFront, Shade, SideWall, SkylinePoint
from service.core.sky import plane_light, rear_light
from service.core.sky.incidence import sky_modifier
from service.core.sky.rear import BEFORE_FACADE, EVENNESS_SHARE, SUNLIT_GROUND_SHARE
from tests.builders import array, panel, setup
from tests.climates import climate
from tests.skies import clear_year, mixed_year, overcast

SKY = mixed_year(54.2, 12.3)
WORKS = 0.8 * EVENNESS_SHARE * float(sky_modifier(90.0))
FLAT, UPRIGHT = Plane(tilt_deg=0, azimuth_deg=180), Plane(tilt_deg=90, azimuth_deg=90)


def two_sided(**changes):
    return array(panel=panel(bifaciality_share=0.8), count_rear_light=True, **changes)


def rear(one, sky=SKY, reflectance=0.2):
    return rear_light(sky, one, reflectance, plane_light(sky, one, reflectance).effective_w_per_m2)


def year(one):
    return energy_year(setup(arrays=(one,)), SKY, climate(), Assumptions.of(()))


def test_a_rear_that_looks_at_the_ground_gets_what_the_sunlit_ground_throws_back():
    got = rear(two_sided(mount="ground_frame", plane=FLAT))
    wanted = 0.8 * EVENNESS_SHARE * SUNLIT_GROUND_SHARE * 0.2 * SKY.ghi_w_per_m2 * float(sky_modifier(90.0))
    assert got == pytest.approx(wanted, abs=1e-9)


def test_under_an_even_sky_an_upright_rear_gets_half_of_it_and_half_of_the_ground():
    sky = overcast(SKY)
    got = rear(two_sided(mount="fence", plane=UPRIGHT), sky)
    half = 0.5 * (1 + 0.2 * SUNLIT_GROUND_SHARE) * sky.ghi_w_per_m2
    assert got == pytest.approx(0.8 * EVENNESS_SHARE * float(sky_modifier(90.0)) * half, abs=1e-9)


def test_an_upright_fence_to_the_east_gains_its_afternoon():
    """Its rear is a west plane: over black ground it gets what a west plane's front gets."""
    sky = clear_year(54.2, 12.3)
    got = rear(two_sided(mount="fence", plane=UPRIGHT), sky, 0.0)
    west = plane_light(sky, array(mount="fence", plane=Plane(tilt_deg=90, azimuth_deg=270)), 0.0)
    assert got == pytest.approx(0.8 * EVENNESS_SHARE * west.effective_w_per_m2, abs=1e-6)


def test_before_a_facade_little_is_left_and_no_beam():
    fence, rail = (rear(two_sided(mount=mount, plane=UPRIGHT)) for mount in ("fence", "hung_on_rail"))
    assert rail.sum() < fence.sum() / 3
    assert np.all(rail <= fence + 1e-9)


def test_a_share_of_the_front_s_light_that_was_told_is_taken():
    one = two_sided(mount="hung_on_rail", rear_light_share=0.1)
    assert rear(one) == pytest.approx(0.1 * 0.8 * EVENNESS_SHARE * plane_light(SKY, one, 0.2).effective_w_per_m2)


@pytest.mark.parametrize("changes", [{"count_rear_light": False}, {"panel": panel(bifaciality_share=0)}])
def test_unasked_or_of_a_closed_rear_nothing_counts(changes):
    one = replace(two_sided(mount="ground_frame"), **changes)
    plain = array(mount="ground_frame", panel=one.panel)
    assert year(one).year_kwh == year(plain).year_kwh
    assert year(one).lost_kwh["rear_light"] == 0.0


def test_what_the_rear_gives_is_a_gain_in_the_account_and_a_reason_of_the_band():
    got = year(two_sided(mount="ground_frame", plane=Plane(tilt_deg=30, azimuth_deg=180)))
    plain = year(array(mount="ground_frame", plane=Plane(tilt_deg=30, azimuth_deg=180)))
    assert got.lost_kwh["rear_light"] < 0.0
    assert got.year_kwh.middle > plain.year_kwh.middle
    assert got.light_kwh - sum(got.lost_kwh.values()) == pytest.approx(got.year_kwh.middle, abs=1e-6)
    assert "rear_light" in {part.code for part in got.spread}
    assert "rear_light" not in {part.code for part in plain.spread}


def ring(height_deg):
    return tuple(SkylinePoint(azimuth_deg=azimuth, height_deg=height_deg) for azimuth in (0, 180))


@pytest.mark.parametrize("height_deg", [10.0, 45.0, 80.0])
def test_in_a_round_court_under_an_even_sky_rear_and_ground_get_their_closed_forms(height_deg):
    """Past a ring of the height h an upright plane sees 1/2 - (h + sin h cos h) / pi of the sky, the ground cos^2 h."""
    sky, h = overcast(SKY), np.radians(height_deg)
    got = rear(two_sided(mount="fence", plane=UPRIGHT, skyline=ring(height_deg)), sky)
    seen = 0.5 - (h + np.sin(h) * np.cos(h)) / np.pi + 0.5 * 0.2 * SUNLIT_GROUND_SHARE * np.cos(h) ** 2
    assert got == pytest.approx(WORKS * seen * sky.ghi_w_per_m2, abs=0.02)


def test_a_court_without_an_opening_leaves_the_rear_nothing_and_a_deep_one_next_to_it():
    bare, deep, closed = (rear(two_sided(mount="ground_frame", **court)).sum()
                          for court in ({}, {"skyline": ring(85)}, {"skyline": ring(90)}))  # fmt: skip
    assert deep < 0.01 * bare
    assert closed == pytest.approx(0.0, abs=1e-6)


def test_behind_a_fence_the_skyline_hides_what_it_hides_from_a_fence_that_looks_there():
    """Over black ground the rear of an east fence is the front of a west one, under the same skyline."""
    sky = clear_year(54.2, 12.3)
    around = tuple(SkylinePoint(azimuth_deg=azimuth, height_deg=h) for azimuth, h in ((30, 5), (200, 10), (280, 35)))
    got = rear(two_sided(mount="fence", plane=UPRIGHT, skyline=around), sky, 0.0)
    west = plane_light(sky, array(mount="fence", plane=Plane(tilt_deg=90, azimuth_deg=270), skyline=around), 0.0)
    assert got == pytest.approx(0.8 * EVENNESS_SHARE * west.effective_w_per_m2, abs=1e-3)


def test_houses_in_front_take_from_a_rear_before_a_facade_and_not_from_a_free_one():
    edges = ((0, 0), (0, 40), (180, 40), (180, 0))  # all of the east
    houses = tuple(SkylinePoint(azimuth_deg=azimuth, height_deg=height) for azimuth, height in edges)
    for mount, share in (("fence", 1.0), ("hung_on_rail", 0.6)):
        bare, behind = (
            rear(two_sided(mount=mount, plane=UPRIGHT, skyline=told), overcast(SKY), 0.0).sum() for told in ((), houses)
        )
        assert behind <= share * bare + 1e-6
        assert behind == pytest.approx(bare, abs=0.1) or mount == "hung_on_rail"


def test_under_a_slab_the_rear_is_before_its_facade_and_keeps_of_the_sky_what_the_front_keeps():
    """Seen at p an edge leaves an upright plane sin(p) of the even sky it had; so it does behind and on the ground.

    p is 30 degrees at the panel's upper edge and 32.4 at its lower one, 10 cm further down.
    """
    sky, slab = overcast(SKY), Overhang(above_top_edge_m=1.0, reaches_out_m=3.0**0.5)
    small = panel(bifaciality_share=0.8, length_mm=100, width_mm=100)
    got = rear(replace(two_sided(mount="ground_frame", plane=UPRIGHT, overhang=slab), panel=small), sky).sum()
    bare = WORKS * BEFORE_FACADE * (0.5 + 0.5 * 0.2 * SUNLIT_GROUND_SHARE) * sky.ghi_w_per_m2.sum()
    assert 0.5 * bare < got < np.sin(np.arctan(1.1 / 3.0**0.5)) * bare


def test_while_the_sun_is_behind_the_facade_of_slab_or_wall_the_ground_before_it_has_none():
    sky = clear_year(54.2, 12.3)
    wall = SideWall(side="left", distance_m=1.0, reaches_out_m=1.0)
    got = rear(two_sided(mount="ground_frame", plane=UPRIGHT, side_walls=(wall,)), sky, 0.5)
    afternoon = (sky.sun_azimuth_deg > 180.0) & (sky.ghi_w_per_m2 > 0.0)
    even_at_most = WORKS * BEFORE_FACADE * (0.5 + 0.5 * 0.5 * SUNLIT_GROUND_SHARE) * sky.dhi_w_per_m2
    assert np.all(got[afternoon] <= even_at_most[afternoon] + 1e-9)
    assert np.any(got[~afternoon] > even_at_most[~afternoon])


@pytest.mark.parametrize(("edge", "left"), [("soft", 0.7), ("hard", 2 / 3)])
def test_a_shadow_by_the_clock_takes_its_share_of_the_rear_or_the_sections_that_it_reaches(edge, left):
    day = {"months": tuple(range(1, 13)), "from_clock": "00:00", "to_clock": "24:00", "blocked_share": 0.3}
    shade = Shade(cause="tree", edge=edge, **day)
    bare, shaded = (rear(two_sided(mount="fence", plane=UPRIGHT, shade=told)) for told in ((), (shade,)))
    assert shaded == pytest.approx(left * bare, abs=1e-9)


def test_a_row_in_front_dims_the_ground_behind_it_and_hides_no_sun_from_the_rear():
    row = RowInFront(above_bottom_edge_m=1.0, distance_m=0.5)
    bare, behind = (rear(two_sided(mount="ground_frame", plane=UPRIGHT, row_in_front=told)) for told in (None, row))
    assert np.all(behind <= bare + 1e-9)
    assert 0.4 * bare.sum() < behind.sum() < 0.95 * bare.sum()


LOGGIA = {
    "overhang": Overhang(above_top_edge_m=0.3, reaches_out_m=1.5),
    "side_walls": tuple(SideWall(side=side, distance_m=0.2, reaches_out_m=1.5) for side in ("left", "right")),
}
ALL_YEAR = Shade(
    cause="tree", edge="soft", months=tuple(range(1, 13)), from_clock="00:00", to_clock="24:00", blocked_share=1.0
)


@pytest.mark.parametrize("mount", ["ground_frame", "balcony_floor"])
@pytest.mark.parametrize("tilt_deg", [30, 90])
@pytest.mark.parametrize(
    "around", [LOGGIA, {"overhang": LOGGIA["overhang"]}, {"skyline": ring(60)}, {"shade": (ALL_YEAR,)}]
)
def test_what_stands_on_all_sides_takes_from_the_rear_at_least_the_part_that_it_takes_from_the_front(
    mount, tilt_deg, around
):
    bare = two_sided(mount=mount, plane=Plane(tilt_deg=tilt_deg, azimuth_deg=180))
    shut = replace(bare, **around)
    # A ring of 60 degrees hides the sun all year, from which a front has more of its light: there under an even sky.
    sky = overcast(SKY) if "skyline" in around else SKY
    front = [plane_light(sky, one, 0.2).effective_w_per_m2.sum() for one in (bare, shut)]
    assert rear(shut, sky).sum() / rear(bare, sky).sum() <= front[1] / front[0]
