"""What a small battery puts aside and gives back: worked by hand, and stepped by the minute as a second route."""

import numpy as np
import pytest

from service.core.household import (
    Beside,
    carried_out,
    feeding,
    following,
    in_spells,
    self_used_w,
    spell_swing,
    stored_year,
)
from tests.builders import household


def hours(count=24, **powers):
    """Hourly powers by "h12=800"; nought elsewhere."""
    row = np.zeros(count)
    for hour, power in powers.items():
        row[int(hour[1:])] = power
    return row


def beside(produced, demand, *, beyond=0.0, charge=1e6, discharge=1e6, limit=np.inf):
    """A home of even demand: what is used is the minimum."""
    produced = np.atleast_1d(np.asarray(produced, dtype=np.float64))
    whole = np.ones_like(produced)
    return Beside(
        produced_w=produced,
        beyond_w=beyond * whole,
        charge_limit_w=charge * whole,
        discharge_limit_w=discharge * whole,
        used=lambda power: np.minimum(power, demand),
        left=lambda power: np.minimum(power, demand + limit),
    )


def run(charge, wanted, usable=1.0, round_trip=0.81, standby=0.0):
    return stored_year(charge[np.newaxis], wanted[np.newaxis], np.array([usable]), round_trip, standby)


def test_a_day_worked_by_hand():
    # 0.81 there and back is 0.9 each way. Hours 12 and 13 offer 800 W: 0.2 kWh a step, of which 0.18 arrive. After five
    # steps 0.90 kWh are in, the sixth brings the last 0.10. From hour 20 on 450 W are wanted: 0.125 kWh a step leave.
    # So eight steps empty it: 450 W through hours 20 and 21, nothing in hour 22.
    got = run(hours(h12=800, h13=800), hours(h20=450, h21=450, h22=450))
    level = got.level_kwh[0]
    assert level[[0, 12, 13, 14, 20, 21, 22, 24]] == pytest.approx([0, 0, 0.72, 1.0, 1.0, 0.5, 0, 0])
    assert got.charged_w[0, [12, 13]] == pytest.approx([800, 1000 * 0.28 / 0.9])
    assert got.given_w[0, [20, 21, 22]] == pytest.approx([450, 450, 0])
    assert got.given_w.sum() / got.charged_w.sum() == pytest.approx(0.81)


def test_standby_comes_out_of_the_store_first_and_then_from_the_mains():
    # 40 W are 0.01 kWh a step. One hour at 0.1 kWh a step, no loss: 0.1, 0.19, 0.28, 0.37 kWh; it lasts 37 steps.
    got = run(hours(h0=400), hours(), round_trip=1.0, standby=40.0)
    assert got.level_kwh[0, 1] == pytest.approx(0.37)
    assert got.level_kwh[0, [9, 10, 11]] == pytest.approx([0.05, 0.01, 0.0])
    assert got.standby_w[0].sum() == pytest.approx(400)
    assert (got.standby_w + got.standby_mains_w)[0] == pytest.approx(np.full(24, 40.0))


def test_what_is_charged_can_be_given_in_the_next_step_only():
    got = run(hours(h12=400), hours(h12=400), round_trip=1.0)
    # steps: nothing to give, then 0.1 kWh each; the last 0.1 stays for the evening, of which nobody wants any.
    assert got.given_w[0, 12] == pytest.approx(400)  # the year begins as it ends: with those 0.1 kWh
    assert got.level_kwh[0, 0] == pytest.approx(got.level_kwh[0, -1])


def test_a_year_that_offers_more_than_is_wanted_is_full_each_noon_and_ends_as_it_began():
    got = run(hours(h12=900), hours(h20=100), round_trip=1.0, usable=0.5)
    assert got.level_kwh[0, [0, 12, 13, 20, 21, 24]] == pytest.approx([0.4, 0.4, 0.5, 0.5, 0.4, 0.4])
    assert got.charged_w[0, 12] == pytest.approx(100)


def by_the_minute(produced_w, demand_w, usable, round_trip, limit_w, standby_w):
    """Energy given in kWh, minute by minute, in a plain loop; the second of two years in a row."""
    way, level = round_trip**0.5, 0.0
    for _ in range(2):
        given = 0.0
        for produced, demand in zip(produced_w.tolist(), demand_w.tolist(), strict=True):
            level = max(level - standby_w / 60e3, 0.0)
            if demand > produced:
                out = min(min(demand - produced, limit_w) / 60e3 / way, level)
                level -= out
                given += out * way
            else:
                level = min(level + min(produced - demand, limit_w) / 60e3 * way, usable)
    return given


@pytest.mark.parametrize("usable", [0.3, 1.0, 3.0])
@pytest.mark.parametrize("round_trip", [0.8, 1.0])
def test_quarter_hours_and_minutes_of_an_even_demand_agree(usable, round_trip):
    lots = np.random.default_rng(5)
    produced = np.maximum(np.sin((np.arange(24 * 60) % 24 - 6) / 12 * np.pi), 0) * lots.uniform(100, 900, 24 * 60)
    demand = lots.gamma(2.0, 130.0, produced.size)
    plan = following(beside(produced, demand, charge=400.0, discharge=400.0))
    got = run(plan.chargeable_w, plan.wanted_w, usable, round_trip, 5.0).given_w.sum() / 1000
    minutes = by_the_minute(np.repeat(produced, 60), np.repeat(demand, 60), usable, round_trip, 400.0, 5.0)
    assert got == pytest.approx(minutes, rel=2e-3)


def test_a_box_that_reads_the_meter_takes_the_surplus_and_gives_the_shortfall_within_its_limits():
    plan = following(beside([500.0, 100.0], np.array([200.0, 400.0]), charge=250, discharge=200))
    assert plan.chargeable_w.tolist() == [250, 0]
    assert plan.sent_charging_w.tolist() == [50, 0]
    assert plan.wanted_w.tolist() == [0, 200]
    assert plan.used_given_w.tolist() == [0, 200]
    assert plan.used_charging_w.tolist() == plan.used_w.tolist() == [200, 100]


def test_power_above_the_limit_of_the_inverter_is_taken_first():
    plan = following(beside([600.0], 200.0, beyond=150.0, charge=250))
    assert plan.chargeable_w.tolist() == [250]
    assert plan.beyond_w.tolist() == [150]
    assert plan.sent_charging_w.tolist() == [300]


def test_what_may_not_be_sent_out_is_put_aside():
    plan = following(beside([600.0], 200.0, charge=250, limit=100.0))
    assert plan.sent_w.tolist() == [100]
    assert plan.sent_charging_w.tolist() == [100]  # 150 are left of the surplus


def test_a_box_that_reads_nothing_charges_from_what_is_above_and_feeds_by_night():
    plan = feeding(beside([500.0, 60.0, 0.0], 300.0), feed_w=100.0, charge_above_w=100.0)
    assert plan.chargeable_w.tolist() == [400, 0, 0]
    assert plan.used_w.tolist() == [300, 60, 0]
    assert plan.used_charging_w.tolist() == [100, 60, 0]
    assert plan.wanted_w.tolist() == [0, 40, 100]
    assert plan.used_given_w.tolist() == [0, 40, 100]


def test_it_feeds_also_when_nobody_wants_it():
    plan = feeding(beside([0.0], 70.0), feed_w=100.0, charge_above_w=100.0)
    assert plan.used_given_w.tolist() == [70]
    assert plan.sent_given_w.tolist() == [30]


def test_from_all_production_is_from_the_first_watt_and_nothing_is_fed_by_day():
    plan = feeding(beside([80.0, 0.0], 300.0), feed_w=100.0, charge_above_w=0.0)
    assert plan.chargeable_w.tolist() == [80, 0]
    assert plan.used_charging_w.tolist() == [0, 0]
    assert plan.wanted_w.tolist() == [0, 100]


def test_half_an_hour_of_charging_is_half_of_both():
    plan = feeding(beside([500.0], 300.0), feed_w=100.0, charge_above_w=100.0)
    got = carried_out(plan, np.array([0.5]), np.array([0.0]))
    assert got.used_w == pytest.approx([200.0])  # 300 while it is full, 100 while it charges
    assert got.sent_w == pytest.approx([100.0])  # 200 and nought


def test_uneven_demand_leaves_a_surplus_and_a_shortfall_in_the_same_hour():
    one = Beside(
        produced_w=np.array([300.0]), beyond_w=np.zeros(1), charge_limit_w=np.array([1e5]),
        discharge_limit_w=np.array([1e5]), left=lambda power: power,
        used=lambda power: self_used_w(power, np.array([300.0]), 50.0, 2.0),
    )  # fmt: skip
    plan = following(one)
    # against lots drawn from the same gamma
    drawn = 50.0 + np.random.default_rng(1).gamma(2.0, 125.0, 400_000)
    assert plan.chargeable_w[0] == pytest.approx(np.maximum(300 - drawn, 0).mean(), rel=0.01)
    assert plan.wanted_w[0] == pytest.approx(np.maximum(drawn - 300, 0).mean(), rel=0.01)


def test_limits_hold_at_every_instant_and_not_for_the_mean():
    demand, k = np.array([300.0]), 2.0
    one = Beside(
        produced_w=np.array([300.0]), beyond_w=np.zeros(1), charge_limit_w=np.array([80.0]),
        discharge_limit_w=np.array([120.0]), left=lambda power: power,
        used=lambda power: self_used_w(power, demand, 50.0, k),
    )  # fmt: skip
    plan = following(one)
    drawn = 50.0 + np.random.default_rng(2).gamma(2.0, 125.0, 400_000)
    assert plan.chargeable_w[0] == pytest.approx(np.clip(300 - drawn, 0, 80).mean(), rel=0.01)
    assert plan.wanted_w[0] == pytest.approx(np.clip(drawn - 300, 0, 120).mean(), rel=0.01)


def test_spells_keep_the_mean_of_every_hour():
    charge, wanted = np.random.default_rng(3).uniform(0, 900, (2, 240))
    charges, wishes = in_spells(charge, wanted, 0.9)
    assert charges.mean(axis=0) == pytest.approx(charge)
    assert wishes.mean(axis=0) == pytest.approx(wanted)
    assert len({tuple(row) for row in (wishes / wanted).round(6)}) == 3
    assert (wishes / wanted + charges / charge) == pytest.approx(np.full((3, 240), 2.0))  # who wants more leaves less


@pytest.mark.parametrize(
    ("values", "kind", "least", "most"),
    [(None, None, 1, 1), ((100.0,) * 24, None, 1, 1), ((120.0,) * 4380 + (60.0,) * 4380, "averaged", 0.85, 0.95),
     ((100.0,) * 8760, "own_hours", 0, 0)],
)  # fmt: skip
def test_a_profile_hides_spells_and_own_hours_do_not(values, kind, least, most):
    assert least <= spell_swing(household(values_w=values, values_kind=kind)) <= most
