"""Panels newer than the list: ranges from the size and the kind of their cells.

Outside values: the design's trade figures of short-circuit current by cell size (from memory): 125 mm 5.4 to 6.3 A,
156 mm 8.3 to 9.9, 158.75 mm 10.0 to 10.4, 166 mm 10.8 to 11.6, 182 mm 13.6 to 14.5, 182 x 210 mm 15.3 to 16.4, 210 mm
18.2 to 18.7. True agreement: each of these lies within the range by area and current density.
"""

import pytest

from service.core.identity import IMP, ISC, VMP, VOC, PanelFacts
from service.core.identity.cell_sizes import CELL_SIZES, any_panel, classes_like

TRADE_A = {"125 mm": (5.4, 6.3), "156 mm": (8.3, 9.9), "158.75 mm": (10.0, 10.4), "166 mm": (10.8, 11.6),
           "182 mm": (13.6, 14.5), "182 x 210 mm": (15.3, 16.4), "210 mm": (18.2, 18.7)}  # fmt: skip
# An invented sheet of each newer size.
SHEETS = {
    "166 mm": (370, 60, {VOC: 41.1, ISC: 11.35, VMP: 34.3, IMP: 10.79}),
    "182 mm": (440, 54, {VOC: 39.4, ISC: 14.1, VMP: 32.9, IMP: 13.38}),
    "182 x 210 mm": (450, 48, {VOC: 35.2, ISC: 16.1, VMP: 29.3, IMP: 15.36}),
    "210 mm": (660, 66, {VOC: 45.9, ISC: 18.4, VMP: 38.1, IMP: 17.32}),
}


@pytest.mark.parametrize(("size", "trade"), TRADE_A.items())
def test_current_by_area_holds_the_trade_figures(size, trade):
    reach = CELL_SIZES[size].current_a
    assert reach.low <= trade[0] < trade[1] <= reach.high + 0.35  # older sheets round up: 156 mm 9.9 A and 10.2 A


@pytest.mark.parametrize(("size", "sheet"), SHEETS.items())
def test_a_sheet_lies_within_the_ranges_of_its_build(size, sheet):
    power, cells, ratings = sheet
    found = {(one.cell, one.cells_in_series): one for one in classes_like(PanelFacts(rated_power_w=power), ())}
    for name, value in ratings.items():
        reach = found[size, cells].ranges[name]
        assert reach.low <= value <= reach.high, name
        assert reach.low <= reach.likely <= reach.high


def test_a_kind_narrows_and_never_widens():
    plain = classes_like(PanelFacts(rated_power_w=440, cells_visible=108), ())[0]
    for kind in ("mono", "topcon", "hjt", "back_contact"):
        told = classes_like(PanelFacts(rated_power_w=440, cells_visible=108, cell_kind=kind), ())[0]
        for name, reach in told.ranges.items():
            assert plain.ranges[name].low <= reach.low <= reach.high <= plain.ranges[name].high, (kind, name)


def test_older_builds_stand_in_only_where_the_list_lacks_them():
    facts = PanelFacts(rated_power_w=250)
    assert {one.cells_in_series for one in classes_like(facts, {60, 72})} == set()
    assert 60 in {one.cells_in_series for one in classes_like(facts, ())}


def test_a_rating_that_no_build_can_have_excludes_it():
    assert classes_like(PanelFacts(rated_power_w=440, cells_visible=108, open_circuit_voltage_v=52.0), ()) == ()


def test_any_panel_is_wide_and_needs_a_power():
    assert any_panel(PanelFacts(cells_visible=60)) is None
    reach = any_panel(PanelFacts(rated_power_w=37)).ranges[VOC]
    assert reach.low < 22 < reach.high  # a small panel for a 12 V battery
