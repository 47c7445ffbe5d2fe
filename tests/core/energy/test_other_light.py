"""Other light than the typical year's, against the whole chain with so much dirt or cloud that that light is left."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.model.place import Plane
from service.core.sky import typical_year
from service.data.climate import load_climate
from tests.builders import array, inverter, one_input, setup
from tests.climates import climate
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
SUNNY = Plane(tilt_deg=35, azimuth_deg=180)
WIDE = one_input(tracking_min_v=5, tracking_max_v=200, start_voltage_v=5, max_current_a=60)
CLEAN = array(count=2, joined="parallel", plane=SUNNY, dirt_share=0.2, lead_length_m=0)


def year(one_input=WIDE, dirt_share=0.2, **changes):
    arrays = (replace(CLEAN, dirt_share=dirt_share),)
    box = inverter(inputs=(one_input,) * 2, **changes)
    return energy_year(setup(arrays=arrays, inverter=box), SKY, climate(), Assumptions.of(()))


@pytest.mark.parametrize("scale", [0.8, 0.9, 1.1, 1.2])
@pytest.mark.parametrize(
    ("one_input", "changes", "tolerance"),
    [
        (WIDE, {"ac_power_w": 2000, "set_limit_w": 2000}, 0.012),
        (WIDE, {"set_limit_w": 300}, 0.012),
        (replace(WIDE, max_current_a=14), {}, 0.02),
        (replace(WIDE, max_input_power_w=350), {}, 0.012),
    ],
    ids=["nothing cuts", "a.c. limit", "current limit", "power limit"],
)
def test_scaled_light_is_what_a_cleaner_or_dirtier_panel_gets(one_input, changes, tolerance, scale):
    """Cells warm by the light before the dirt, so that both have them equally warm.

    True agreement: 1 % at worst; 1.6 % low under a current limit, whose voltage rises a little where it begins to cut.
    """
    middle, dirtier = year(one_input, **changes), year(one_input, 1 - 0.8 * scale, **changes)
    assert middle.other_light is not None
    evenly = replace(middle, other_light=middle.other_light.evenly())
    assert evenly.kwh_at(scale) == pytest.approx(dirtier.year_kwh.middle, rel=tolerance)


@pytest.mark.parametrize("place", [(65.0, 25.5), (54.2, 12.3), (39.3, -8.5), (40.6, -111.9), (14.6, -90.5)])
def test_a_cloudier_climate_under_a_limit_is_what_the_whole_chain_gives_for_it(place):
    """Of two panels cut at 600 W: what 1 % less light costs, by fewer clear hours and not by dimmer ones.

    Relative to level ground's light; true agreement: 0.05 at worst of 0.9 to 1.2; were all hours dimmer alike it would
    be 0.2 to 0.3 less.
    """
    found = load_climate().at(*place)
    set_ = setup(arrays=(replace(CLEAN, dirt_share=0.0),), inverter=inverter(set_limit_w=600, inputs=(WIDE,) * 2))
    years = [
        typical_year(replace(found, clear_sky_index=found.clear_sky_index * share), "UTC") for share in (0.98, 1, 1.02)
    ]
    less, middle, more = (energy_year(set_, sky, found, Assumptions.of(())) for sky in years)
    wanted = np.log(more.year_kwh.middle / less.year_kwh.middle)
    ends = [one.light_kwh / middle.light_kwh for one in (less, more)]
    assert middle.other_light is not None
    clouds = replace(middle, other_light=replace(middle.other_light, by_clouds_share=(1.0, 1.0)))
    got, even = (
        np.log(one.kwh_at(ends[1]) / one.kwh_at(ends[0]))
        for one in (clouds, replace(middle, other_light=middle.other_light.evenly()))
    )
    light = np.log(years[2].ghi_w_per_m2.sum() / years[0].ghi_w_per_m2.sum())
    assert got / light == pytest.approx(wanted / light, abs=0.06)
    assert even < got - 0.15 * light


def test_a_dimmer_year_is_as_far_by_clouds_as_its_own_side_of_the_doubt_says():
    middle = year(set_limit_w=300)
    one_sided, clouds = (replace(middle.other_light, by_clouds_share=part) for part in ((1.0, 0.0), (1.0, 1.0)))
    for scale, wanted in ((0.8, clouds), (1.2, middle.other_light.evenly())):
        got, expected = (light.ac_and_clipped_w(scale)[0] for light in (one_sided, wanted))
        np.testing.assert_allclose(got, expected, atol=1e-9)
    assert clouds.ac_and_clipped_w(1.2)[0].sum() > 1.005 * middle.other_light.evenly().ac_and_clipped_w(1.2)[0].sum()


def test_a_hard_limit_narrows_the_band_and_a_soft_one_leaves_it():
    """880 Wp on 50 W run at the limit in every bright hour: more light adds an hour at dawn and nothing at noon."""
    hard, soft = year(set_limit_w=50), year(ac_power_w=2000, set_limit_w=2000)
    low, high = soft.light_ends()
    assert soft.year_kwh.hopeful / soft.year_kwh.middle == pytest.approx(high, abs=0.01)
    assert soft.year_kwh.cautious / soft.year_kwh.middle == pytest.approx(low, abs=0.01)
    for end, light in ((hard.year_kwh.hopeful, high), (hard.year_kwh.cautious, low)):
        assert 0 < abs(end / hard.year_kwh.middle - 1) < 0.3 * abs(light - 1)


def test_hours_at_the_limit_stay_there_and_what_more_light_adds_is_cut():
    one = year(set_limit_w=300)
    ac_w, clipped_w = one.ac_and_clipped_at(1.2)
    at_limit = one.ac_w == one.ac_w.max()
    assert np.all(ac_w[at_limit] == one.ac_w.max())
    assert clipped_w.sum() / 1000 > one.lost_kwh["clipped"]


def test_downtime_takes_its_part_of_the_ends_too():
    setting = setup(downtime_days_per_year=36.5)
    on = energy_year(replace(setting, downtime_days_per_year=0), SKY, climate(), Assumptions.of(()))
    off = energy_year(setting, SKY, climate(), Assumptions.of(()))
    assert off.year_kwh.hopeful == pytest.approx(0.9 * on.year_kwh.hopeful)
    assert off.year_kwh.cautious == pytest.approx(0.9 * on.year_kwh.cautious)


@pytest.mark.parametrize("part", [0.0, 0.3, 0.6])
@pytest.mark.parametrize("clouds", [0.0, 0.3])
def test_no_end_of_a_band_is_lower_under_a_higher_limit(part, clouds):
    limits = (60, 100, 150, 200, 250, 300, 400, 600)
    others = [
        replace(year(set_limit_w=limit).other_light, by_clouds_share=(clouds, clouds), by_uncut_share=(part, part))
        for limit in limits
    ]
    for scale in (0.3, 0.5, 0.8, 0.95, 1.0):
        hours = [one.ac_and_clipped_w(scale)[0] for one in others]
        assert all(np.all(lower <= higher + 1e-9) for lower, higher in pairwise(hours))
        assert np.all(hours[0] <= others[0].ac_and_clipped_w(1.0)[0] + 1e-9)


def test_what_was_asked_before_is_kept_and_never_of_another_set():
    other = year(set_limit_w=300).other_light
    assert other is not None
    bright = other.ac_and_clipped_w(1.2)[0]
    assert other.ac_and_clipped_w(1.2)[0] is bright
    free = replace(other, limit_w=2000.0, ac_power_w=2000.0)
    assert free.ac_and_clipped_w(1.2)[0].max() > bright.max()
    for scale in (0.7, 0.8, 0.9, 1.0):
        other.ac_and_clipped_w(scale)
    np.testing.assert_array_equal(other.ac_and_clipped_w(1.2)[0], bright)


def test_what_moves_uncut_hours_alone_leaves_cut_ones_and_keeps_its_sum_where_nothing_cuts():
    free, cut = (year(ac_power_w=2000, set_limit_w=limit).other_light for limit in (2000, 200))
    evenly, uncut = (
        [replace(one, by_clouds_share=(0.0, 0.0), by_uncut_share=share) for one in (free, cut)]
        for share in ((0.0, 0.0), (1.0, 1.0))
    )
    for scale in (0.9, 1.1):
        assert uncut[0].ac_and_clipped_w(scale)[0] == pytest.approx(evenly[0].ac_and_clipped_w(scale)[0])
    more, less = (uncut[1].ac_and_clipped_w(scale)[0].sum() for scale in (1.1, 0.9))
    assert more > evenly[1].ac_and_clipped_w(1.1)[0].sum()
    assert less < evenly[1].ac_and_clipped_w(0.9)[0].sum()
