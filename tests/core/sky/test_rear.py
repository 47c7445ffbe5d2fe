"""Light on the rear of two-sided panels: what it is made of, and that nothing counts unasked."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.model.place import Plane
from service.core.sky import plane_light, rear_light
from service.core.sky.incidence import sky_modifier
from service.core.sky.rear import EVENNESS_SHARE, SUNLIT_GROUND_SHARE
from tests.builders import array, panel, setup
from tests.climates import climate
from tests.skies import clear_year, mixed_year, overcast

SKY = mixed_year(54.2, 12.3)
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
