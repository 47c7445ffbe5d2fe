"""Promises about a small battery that hold for every set, home and box."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from service.core.household import Beside, carried_out, feeding, following, in_spells, self_used_w, stored_year

HOURS = st.sampled_from([24, 48, 71])
SHARES = st.floats(0.3, 1.0)
USABLE = st.floats(0.0, 20.0)
STANDBY = st.floats(0.0, 60.0)
LIMIT = st.floats(0.0, 3000.0)


@st.composite
def flows(draw):
    """What is offered to a store and what is wanted of it."""
    count = draw(HOURS)
    power = arrays(np.float64, count, elements=st.floats(0, 3000))
    return draw(power), draw(power)


@st.composite
def homes(draw):
    """A set beside a home, with power beyond the inverter's limit and limits of the box."""
    count = draw(HOURS)
    power = arrays(np.float64, count, elements=st.floats(0, 3000))
    produced, demand, beyond = draw(power), draw(power), draw(power)
    always_on, k = draw(st.floats(0, 500)), draw(st.floats(0.3, 20))
    whole = np.ones(count)
    return demand, Beside(
        produced_w=produced,
        beyond_w=beyond * draw(st.sampled_from([0.0, 1.0])),
        charge_limit_w=whole * draw(LIMIT),
        discharge_limit_w=whole * draw(LIMIT),
        used=lambda power_w: self_used_w(power_w, demand, always_on, k),
        left=lambda power_w: power_w,
    )


@st.composite
def plans(draw):
    """The plan of a box of either kind."""
    demand, beside = draw(homes())
    if draw(st.booleans()):
        return demand, beside, following(beside)
    return demand, beside, feeding(beside, feed_w=draw(LIMIT), charge_above_w=draw(LIMIT))


def shares(part, whole):
    return np.divide(part, whole, out=np.zeros_like(part), where=whole > 0).clip(0, 1)


def with_box(plan, usable, round_trip=0.85, standby=5.0):
    got = stored_year(plan.chargeable_w[None], plan.wanted_w[None], np.array([usable]), round_trip, standby)
    charging, giving = shares(got.charged_w[0], plan.chargeable_w), shares(got.given_w[0], plan.wanted_w)
    return got, carried_out(plan, charging, giving)


@given(flows(), USABLE, SHARES, STANDBY)
def test_every_hour_closes_and_the_year_ends_as_it_began(pair, usable, round_trip, standby):
    charge, wanted = pair
    got = stored_year(charge[None], wanted[None], np.array([usable]), round_trip, standby)
    way = round_trip**0.5
    rise = got.charged_w[0] * way - got.given_w[0] / way - got.standby_w[0]
    assert np.diff(got.level_kwh[0]) == pytest.approx(rise / 1000, abs=1e-9)
    assert got.level_kwh[0, 0] == pytest.approx(got.level_kwh[0, -1], abs=1e-9)
    assert (got.level_kwh >= -1e-12).all()
    assert (got.level_kwh <= usable + 1e-12).all()


@given(flows(), USABLE, SHARES, STANDBY)
def test_a_store_creates_no_energy_and_keeps_to_what_is_offered_and_wanted(pair, usable, round_trip, standby):
    charge, wanted = pair
    got = stored_year(charge[None], wanted[None], np.array([usable]), round_trip, standby)
    assert got.given_w.sum() <= got.charged_w.sum() * round_trip + 1e-6
    assert (got.charged_w[0] <= charge + 1e-9).all()
    assert (got.given_w[0] <= wanted + 1e-9).all()
    for flow in (got.charged_w, got.given_w, got.standby_w, got.standby_mains_w):
        assert (flow >= -1e-9).all()
    drawn = got.standby_w + got.standby_mains_w
    assert drawn == pytest.approx(np.full_like(drawn, standby if usable > 0 else 0.0), abs=1e-6)


@given(flows(), USABLE, SHARES, STANDBY)
def test_step_by_step_in_a_plain_loop_gives_the_same(pair, usable, round_trip, standby):
    charge, wanted = pair
    got = stored_year(charge[None], wanted[None], np.array([usable]), round_trip, standby)
    level, way = got.level_kwh[0, 0], round_trip**0.5
    for hour in range(charge.size):
        given, charged = 0.0, 0.0
        for _ in range(4):
            level = max(level - (standby / 4000 if usable > 0 else 0.0), 0.0)
            out = min(wanted[hour] / 4000 / way, level)
            into = min(charge[hour] / 4000 * way, usable - level + out)
            level, given, charged = level - out + into, given + out * way, charged + into / way
        assert level == pytest.approx(got.level_kwh[0, hour + 1], abs=1e-9)
        assert given * 1000 == pytest.approx(got.given_w[0, hour], abs=1e-6)
        assert charged * 1000 == pytest.approx(got.charged_w[0, hour], abs=1e-6)


@given(flows(), USABLE, st.floats(0.0, 5.0), SHARES, STANDBY)
def test_more_capacity_never_gives_less(pair, usable, more, round_trip, standby):
    charge, wanted = (np.stack([one, one]) for one in pair)
    got = stored_year(charge, wanted, np.array([usable, usable + more]), round_trip, standby)
    if usable > 0.0:  # a box that is there draws standby, none draws none
        assert (got.given_w[1] >= got.given_w[0] - 1e-6).all()
    assert got.given_w[1].sum() >= got.given_w[0].sum() - 1e-6


@given(flows())
def test_a_boundless_store_without_loss_gives_all_that_is_wanted_or_all_that_is_offered(pair):
    charge, wanted = pair
    got = stored_year(charge[None], wanted[None], np.array([1e6]), 1.0, 0.0)
    assert got.given_w.sum() == pytest.approx(min(charge.sum(), wanted.sum()), abs=1e-3)


@given(homes())
def test_with_a_boundless_store_self_use_is_the_lesser_of_the_sums(home):
    demand, beside = home
    free = np.full_like(demand, 1e9)
    ideal = Beside(
        produced_w=beside.produced_w, beyond_w=np.zeros_like(demand), charge_limit_w=free, discharge_limit_w=free,
        used=beside.used, left=beside.left,
    )  # fmt: skip
    _, done = with_box(following(ideal), 1e6, round_trip=1.0, standby=0.0)
    least = min(beside.produced_w.sum(), demand.sum())
    assert done.used_w.sum() == pytest.approx(least, rel=1e-4, abs=1e-2 + 1e-5 * demand.sum())


@given(plans(), st.floats(0.05, 20.0))
def test_all_power_is_accounted_for(planned, usable):
    _, beside, plan = planned
    got, done = with_box(plan, usable)
    came = beside.produced_w + done.unclipped_w + got.given_w[0]
    went = done.used_w + done.sent_w + got.charged_w[0]
    assert went == pytest.approx(came, rel=1e-6, abs=1e-3)


@given(plans(), st.floats(0.05, 20.0))
def test_no_more_is_used_than_needed_and_nothing_is_negative(planned, usable):
    demand, _, plan = planned
    _, done = with_box(plan, usable)
    assert (done.used_w <= demand * (1 + 1e-5) + 1e-6).all()
    assert (done.used_w >= -1e-6).all()
    assert (done.sent_w >= -1e-3).all()


@given(plans())
def test_a_box_that_holds_nothing_changes_nothing(planned):
    _, _, plan = planned
    got, done = with_box(plan, 0.0)
    assert (done.used_w == plan.used_w).all()
    assert (done.sent_w == plan.sent_w).all()
    assert not got.standby_mains_w.any()


@given(homes(), USABLE)
def test_a_box_that_reads_the_meter_never_lowers_self_use_in_any_hour(home, usable):
    _, beside = home
    plan = following(beside)
    _, done = with_box(plan, usable)
    assert (done.used_w >= plan.used_w).all()


@given(homes(), st.floats(0.1, 5.0), st.floats(0.0, 5.0))
def test_a_larger_one_that_reads_the_meter_never_lowers_it_either(home, usable, more):
    plan = following(home[1])
    small, large = (with_box(plan, size)[1].used_w for size in (usable, usable + more))
    assert (large >= small - 1e-6).all()


@given(homes(), LIMIT)
def test_a_box_that_reads_nothing_and_takes_nothing_lowers_nothing(home, feed):
    _, beside = home
    above = float((beside.produced_w + beside.beyond_w).max())
    plan = feeding(beside, feed_w=feed, charge_above_w=above)
    _, done = with_box(plan, 1.0)
    assert (done.used_w >= plan.used_w - 1e-6).all()


@given(flows(), st.floats(0.1, 5.0), st.floats(0.0, 1.0))
def test_spells_offer_and_want_the_same_in_the_mean_and_never_make_a_store_give_more_than_wanted(pair, usable, swing):
    charge, wanted = in_spells(*pair, swing)
    assert charge.mean(axis=0) == pytest.approx(pair[0])
    assert wanted.mean(axis=0) == pytest.approx(pair[1])
    got = stored_year(charge, wanted, np.full(charge.shape[0], usable), 0.85, 5.0)
    assert (got.given_w.mean(axis=0) <= pair[1] + 1e-6).all()
