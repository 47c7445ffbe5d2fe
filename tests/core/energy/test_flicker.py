"""What comes and goes within an hour, at the inverter's limit."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.sky import flicker_share
from tests.builders import array, inverter, setup
from tests.climates import climate
from tests.skies import mixed_year

STEADY = mixed_year(54.2, 12.3)
FLICKERING = replace(STEADY, flicker_share=flicker_share(STEADY.ghi_w_per_m2, STEADY.clear_ghi_w_per_m2))


def year(sky, limit_w):
    asked = setup(arrays=(array(), array(name="right", input=2)), inverter=inverter(set_limit_w=limit_w))
    return energy_year(asked, sky, climate(), Assumptions.of(()))


def test_a_limit_cuts_more_of_light_that_comes_and_goes():
    steady, flickering = (year(sky, 300.0) for sky in (STEADY, FLICKERING))
    lost = steady.year_kwh.middle - flickering.year_kwh.middle
    assert 0.002 < lost / steady.year_kwh.middle < 0.05
    up = flickering.other_light.up_share
    assert (flickering.lost_kwh["clipped"] - steady.lost_kwh["clipped"]) * up == pytest.approx(lost, rel=1e-9)
    assert flickering.lost_kwh["conversion"] == steady.lost_kwh["conversion"]
    assert flickering.hours_at_limit > steady.hours_at_limit
    assert np.all(flickering.ac_w <= steady.ac_w + 1e-9)


def test_a_limit_out_of_reach_leaves_every_figure_as_it_was():
    wide = inverter(ac_power_w=5000, set_limit_w=5000)
    steady, flickering = (
        energy_year(setup(inverter=wide), sky, climate(), Assumptions.of(())) for sky in (STEADY, FLICKERING)
    )
    assert flickering.year_kwh == steady.year_kwh
    assert dict(flickering.lost_kwh) == dict(steady.lost_kwh)
    assert flickering.hours_at_limit == 0


def test_the_band_s_ends_flicker_as_its_middle_does():
    flickering = year(FLICKERING, 300.0)
    assert flickering.ac_at(1.0) == pytest.approx(flickering.ac_and_clipped_at(1.0)[0], abs=1e-9)
    assert np.all(flickering.ac_at(1.3) <= 300.0)
