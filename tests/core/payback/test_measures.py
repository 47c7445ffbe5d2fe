"""When it is paid back, and what it is worth today."""

import numpy as np
import pytest

from service.core.payback import (
    Crossing,
    crossing_years,
    discounted_payback_years,
    levelised_cost_per_kwh,
    simple_payback_years,
    worth_up_to,
)


def test_nothing_to_pay_is_paid_back_at_once():
    assert simple_payback_years(0.0, -5.0) == 0.0
    assert crossing_years(np.array([40.0, 70.0])) == Crossing(0.0, 0.0)


def test_without_a_saving_it_never_pays_back_and_no_time_is_negative():
    assert simple_payback_years(300.0, -1.5) is None
    assert crossing_years(np.array([-300.0, -1.5, -1.5])) == Crossing(None, None)


def test_a_later_cost_that_is_not_earned_again_undoes_the_payback():
    assert crossing_years(np.array([-100.0, 100.0, -50.0, 20.0])) == Crossing(1.0, None)


def test_paid_back_on_the_last_day_counts_in_spite_of_rounding():
    assert crossing_years(np.array([-0.3, 0.1, 0.1, 0.1])).first == pytest.approx(3.0)


def test_a_year_without_flow_before_the_crossing_does_no_harm():
    assert crossing_years(np.array([-100.0, 0.0, 50.0, 0.0, 100.0])) == Crossing(3.5, 3.5)


def test_a_rebate_with_dear_upkeep_is_paid_back_at_once_but_not_for_good():
    assert crossing_years(np.array([40.0, -30.0, -30.0])) == Crossing(0.0, None)


def test_discounting_never_shortens_the_time():
    flows = np.array([-520.0] + [121.6] * 20)
    assert discounted_payback_years(flows, 0.05).first > discounted_payback_years(flows, 0.0).first


def test_no_energy_has_no_levelised_cost():
    assert levelised_cost_per_kwh(np.array([450.0, 0.0]), np.array([0.0]), 0.03) is None


def test_what_it_is_worth_is_paid_back_to_the_day_and_a_cent_more_is_not():
    saving, cost = np.full(10, 80.0), np.array([0.0] * 6 + [120.0] + [0.0] * 3)
    most = worth_up_to(saving, cost, 0.03)
    paid = np.concatenate(([-most], saving - cost))
    dearer = paid - np.concatenate(([0.01], np.zeros(10)))
    assert discounted_payback_years(paid, 0.03).lasting == pytest.approx(10)
    assert discounted_payback_years(dearer, 0.03).lasting is None


def test_a_set_that_loses_every_year_is_worth_nothing():
    assert worth_up_to(np.full(5, 10.0), np.full(5, 20.0), 0.03) == 0.0
