"""Listed panels that agree, and the ends of their ratings."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.identity import ISC, VOC, PanelFacts, by_code, listed
from service.core.identity.listed import FEWEST_AGREEING, MARGIN_SHARE
from tests.panel_lists import invented_list

P330 = PanelFacts(rated_power_w=330.0)


def test_each_count_of_cells_is_a_candidate_with_the_ends_of_its_rows_and_a_margin():
    sixty, seventy_two = listed(P330, invented_list())
    assert (sixty.cells_in_series, seventy_two.cells_in_series) == (60, 72)
    assert sixty.ranges[VOC].low == pytest.approx(40.5 * (1 - MARGIN_SHARE))
    assert sixty.ranges[VOC].high == pytest.approx((40.5 + 0.58) * (1 + MARGIN_SHARE))
    assert (sixty.entries, sixty.makers) == (30, 30)


@pytest.mark.parametrize(
    ("facts", "cells"),
    [({"cells_visible": 60}, [60]), ({"cells_visible": 144}, [72]), ({"cells_visible": 120}, [60]),
     ({"cells_in_series": 72}, [72]), ({"cells_in_series": 144}, []),
     ({"length_mm": 1684, "width_mm": 1002}, [60]), ({"length_mm": 1160, "width_mm": 1005}, []),
     ({VOC: 46.4}, [72]), ({ISC: 10.2}, [60]), ({VOC: 52.0}, []), ({"built": 2010}, [60, 72]), ({"built": 2024}, [])],
)  # fmt: skip
def test_facts_leave_the_builds_that_agree(facts, cells):
    assert [one.cells_in_series for one in listed(replace(P330, **facts), invented_list())] == cells


def test_without_a_power_the_list_says_nothing():
    assert listed(PanelFacts(cells_visible=60), invented_list()) == ()


def test_a_row_far_from_all_like_it_widens_no_range():
    table = invented_list()
    voltages, typical = table.open_circuit_voltage_v.copy(), table.typical.copy()
    voltages[3], typical[3] = 55.0, False
    changed = replace(table, open_circuit_voltage_v=voltages, typical=typical)
    [sixty] = listed(replace(P330, cells_in_series=60), changed)
    assert sixty.ranges[VOC].high < 42


def test_few_agreeing_rows_do_not_narrow():
    """Ten rows are poly, too few to tell a range by themselves; the part's own ends stand."""
    assert FEWEST_AGREEING > 10
    [plain] = listed(replace(P330, cells_in_series=72), invented_list())
    [poly] = listed(replace(P330, cells_in_series=72, cell_kind="poly"), invented_list())
    assert poly.ranges == plain.ranges


def test_a_neighbouring_power_is_used_where_the_own_has_too_few_and_is_moved_to_it():
    [sixty, _] = listed(PanelFacts(rated_power_w=345.0), invented_list())
    product = sixty.ranges["max_power_voltage_v"].likely * sixty.ranges["max_power_current_a"].likely
    assert product == pytest.approx(345, rel=0.001)
    assert sixty.ranges[ISC].likely > 10.25


def test_a_code_leads_to_its_row_alone():
    found = by_code(PanelFacts(model_code="HL-330-60"), invented_list())
    assert found.by_code
    assert (found.entries, found.rated_power_w) == (1, 330.0)
    assert found.ranges[VOC].likely == pytest.approx(40.5 + 0.24)


@pytest.mark.parametrize(
    "against", [{"rated_power_w": 300.0}, {"cells_in_series": 72}, {VOC: 46.0}, {"length_mm": 1956.0}]
)
def test_a_code_that_the_facts_speak_against_is_not_believed(against):
    assert by_code(replace(PanelFacts(model_code="HL-330-60"), **against), invented_list()) is None


def test_numbers_of_makers_are_not_names():
    assert invented_list().maker.dtype == np.int64
