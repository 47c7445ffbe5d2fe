"""Which branches of an input work as one?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.panel.branch import Branch, one_after_the_other, side_by_side
from tests.core.panel.test_in_string import STRONG

ONE = Branch(
    diode=STRONG, irradiance_w_per_m2=np.array([200.0, 900.0]), cell_c=np.array([20.0, 45.0]), in_series=2, strings=1.0
)
WORN, SHORTER = replace(ONE, strings=0.9), replace(ONE, in_series=1)
DIMMER = replace(ONE, irradiance_w_per_m2=np.array([200.0, 600.0]))


def test_strings_of_as_many_panels_add_up_side_by_side_and_others_stay_apart() -> None:
    whole, shares = side_by_side([ONE, WORN, SHORTER, DIMMER])
    assert [(one.in_series, one.strings) for one in whole] == [(2, 1.9), (1, 1.0), (2, 1.0)]
    assert [at for at, _ in shares] == [0, 0, 1, 2]
    assert [share for _, share in shares] == pytest.approx([1 / 1.9, 0.9 / 1.9, 1.0, 1.0])


def test_panels_of_one_current_add_up_in_a_string_and_worn_ones_stay_apart() -> None:
    whole, shares = one_after_the_other([ONE, SHORTER, WORN, DIMMER])
    assert [(one.in_series, one.strings) for one in whole] == [(3, 1.0), (2, 0.9), (2, 1.0)]
    assert [at for at, _ in shares] == [0, 0, 1, 2]
    assert [share for _, share in shares] == pytest.approx([2 / 3, 1 / 3, 1.0, 1.0])
