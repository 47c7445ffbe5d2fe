"""The share of a gamma distribution that lies below, against the library's and two closed forms."""

import numpy as np
import pytest
from scipy.special import gammainc

from service.core.household.gamma import MOST_K, gamma_share_below

X = np.concatenate((np.logspace(-300, 2, 200), np.linspace(0.001, 300, 4001), [1e5, 1e300]))


@pytest.mark.parametrize("k", [0.05, 0.5, 0.65, 1.0, 2.0, 3.5, 5.0, 17.3, 60.0, MOST_K])
def test_it_is_the_librarys(k):
    assert gamma_share_below(k, X) == pytest.approx(gammainc(k, X), abs=2e-13)


def test_of_shape_one_and_two_it_has_closed_forms():
    x = np.linspace(0.01, 30, 100)
    assert gamma_share_below(1.0, x) == pytest.approx(1 - np.exp(-x), abs=1e-13)
    assert gamma_share_below(2.0, x) == pytest.approx(1 - np.exp(-x) * (1 + x), abs=1e-13)
