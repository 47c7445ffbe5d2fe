"""At which rates the flows come to nought."""

import numpy as np
import pytest

from service.core.payback import internal_rates_of_return, net_present_value


def test_flows_of_one_sign_have_no_rate():
    assert internal_rates_of_return(np.array([-300.0, -1.5, -1.5])) == ()
    assert internal_rates_of_return(np.array([40.0, 70.0])) == ()
    assert internal_rates_of_return(np.zeros(4)) == ()


def test_two_changes_of_sign_can_have_two_rates():
    """-1000, +2300, -1320 is -1000 (1 - 1.1 x)(1 - 1.2 x): rates 10 % and 20 %, by construction."""
    assert internal_rates_of_return(np.array([-1000.0, 2300.0, -1320.0])) == pytest.approx((0.10, 0.20), abs=1e-9)


def test_three_rates_are_all_found():
    """-(1 - 1.05 x)(1 - 1.2 x)(1 - 1.5 x), multiplied out."""
    coefficients = -np.polynomial.polynomial.polyfromroots([1 / 1.05, 1 / 1.2, 1 / 1.5]) * -1.05 * 1.2 * 1.5
    assert internal_rates_of_return(coefficients) == pytest.approx((0.05, 0.20, 0.50), abs=1e-9)


def test_two_changes_of_sign_can_have_none():
    assert internal_rates_of_return(np.array([-100.0, 150.0, -100.0])) == ()


def test_a_double_rate_is_found_once():
    """-(1 - 1.1 x)^2."""
    assert internal_rates_of_return(np.array([-1.0, 2.2, -1.21])) == pytest.approx((0.10,), abs=1e-6)


def test_a_nearly_total_loss_and_a_windfall_have_their_rates():
    assert internal_rates_of_return(np.array([-1000.0, 1.0])) == pytest.approx((-0.999,), abs=1e-12)
    assert internal_rates_of_return(np.array([-1.0, 1000.0])) == pytest.approx((999.0,), rel=1e-12)


def test_years_without_flows_before_and_after_change_nothing():
    plain = internal_rates_of_return(np.array([-100.0, 60.0, 60.0]))
    assert internal_rates_of_return(np.array([0.0, -100.0, 60.0, 60.0, 0.0])) == pytest.approx(plain)


def test_at_each_rate_the_value_is_nought():
    flows = np.array([-344.0] + [95.0] * 10 + [-3000.0] + [95.0] * 4 + [40.0])
    rates = internal_rates_of_return(flows)
    assert rates
    for rate in rates:
        scale = float(np.abs(flows / (1 + rate) ** np.arange(flows.size)).sum())
        assert net_present_value(rate, flows) == pytest.approx(0.0, abs=1e-9 * scale)
