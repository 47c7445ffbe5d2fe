"""A code is found however it is spelled, and leads to no name: the table of the tests holds invented codes."""

import numpy as np
import pytest

from service.core.identity.codes import is_code, number_of, plain_code, rows_of_code
from tests.panel_lists import invented_list


@pytest.mark.parametrize("spelled", ["HL-330-60", "hl 330 60", "Heliora HL-330-60", "HL_330/60", "ＨＬ-330-60"])
def test_a_code_is_found_however_it_is_spelled(spelled):
    table = invented_list()
    assert [float(table.rated_power_w[row]) for row in rows_of_code(spelled, table)] == [330.0]


@pytest.mark.parametrize("spelled", ["HL-331-60", "330", "Heliora", "\0\u202e", "x" * 200, "HL-330"])
def test_what_is_not_listed_leads_nowhere(spelled):
    assert len(rows_of_code(spelled, invented_list())) == 0


def test_a_bare_number_or_word_is_no_code():
    assert not is_code(plain_code("330 W"))
    assert not is_code(plain_code("Heliora"))
    assert is_code(plain_code("HL-330"))


def test_a_code_is_kept_as_thirty_two_bits():
    assert 0 <= number_of("HL33060") < 2**32
    assert invented_list().code_number.dtype == np.uint32
