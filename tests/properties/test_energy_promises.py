"""The year: what holds for any set."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.energy import LOSSES, energy_year
from service.core.model.assumption import Assumptions
from tests.builders import array, inverter, one_input, setup
from tests.climates import climate
from tests.properties.strategies import ac_limits, planes, sets
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
SETS = sets()


def year(request):
    return energy_year(request, SKY, climate(), Assumptions.of(()))


@given(SETS)
def test_the_account_closes_and_the_limit_holds_in_every_hour(request):
    one = year(request)
    assert one.light_kwh - sum(one.lost_kwh.values()) == pytest.approx(one.year_kwh.middle, abs=1e-6)
    assert all(one.lost_kwh[code] >= -1e-6 for code in LOSSES if code != "heat_and_light")
    assert np.all(one.ac_w >= 0)
    assert np.all(one.ac_w <= min(request.inverter.set_limit_w, request.inverter.ac_power_w))
    assert one.year_kwh.cautious <= one.year_kwh.middle <= one.year_kwh.hopeful


@given(planes, ac_limits, st.floats(0, 1))
def test_a_lower_limit_never_gives_more(plane, limit_w, share):
    request = setup(arrays=(array(plane=plane), array(name="right", input=2, plane=plane)))
    high, low = (
        year(replace(request, inverter=replace(request.inverter, set_limit_w=w))) for w in (limit_w, limit_w * share)
    )
    assert np.all(low.ac_w <= high.ac_w)
    assert low.year_kwh.middle <= high.year_kwh.middle


@given(planes, st.integers(1, 5))
def test_one_panel_more_never_gives_less(plane, count):
    wide = inverter(inputs=(one_input(tracking_min_v=5, tracking_max_v=1500, max_current_a=60),) * 2)
    few, many = (year(setup(arrays=(array(plane=plane, count=n),), inverter=wide)).dc_w[0] for n in (count, count + 1))
    assert np.all(many >= few)
    assert many.sum() > few.sum()


@given(SETS)
def test_the_same_question_gives_the_same_bytes(request):
    first, second = year(request), year(request)
    assert first.ac_w.tobytes() == second.ac_w.tobytes()
    assert repr(
        (first.year_kwh, first.months_kwh, first.day_kinds, dict(first.lost_kwh), first.arrays, first.spread)
    ) == repr(
        (second.year_kwh, second.months_kwh, second.day_kinds, dict(second.lost_kwh), second.arrays, second.spread)
    )
