"""Published examples of rates of return and present values.

Sources: documentation of numpy.irr (numpy 1.13, citing Gitman, Principles of Managerial Finance, 2003, p. 348) and of
numpy-financial (development version). True agreement: to the digits printed there.
"""

import numpy as np
import pytest

from service.core.payback import internal_rates_of_return, net_present_value


@pytest.mark.parametrize(
    ("flows", "rate", "digits"),
    [
        ([-100, 39, 59, 55, 20], 0.28095, 5e-6),
        ([-250000, 100000, 150000, 200000, 250000, 300000], 0.5672303344358536, 1e-9),
        ([-100, 0, 0, 74], -0.0955, 5e-5),
        ([-5, 10.5, 1, -8, 1], 0.0886, 5e-5),
        ([-100, 100, 0, -7], -0.0833, 5e-5),
    ],
)
def test_the_printed_rate_is_among_the_rates_found(flows, rate, digits):
    """Where there are several, the documentation prints one of them."""
    found = internal_rates_of_return(np.array(flows, dtype=float))
    assert min(abs(value - rate) for value in found) < digits


def test_flows_that_change_sign_more_than_once_have_more_than_one_rate():
    assert len(internal_rates_of_return(np.array([-100.0, 100, 0, -7]))) == 2


def test_the_printed_present_value():
    """From memory, recomputed."""
    assert net_present_value(0.08, np.array([-40000.0, 5000, 8000, 12000, 30000])) == pytest.approx(
        3065.22267, abs=5e-6
    )
