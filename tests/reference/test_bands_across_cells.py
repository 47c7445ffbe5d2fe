"""What a level band of shadow costs, against a panel reckoned cell by cell (``tests/cell_strings.py``).

True agreement: bands at the edge of a row, half cells within 0.035 of the whole power, whole cells 0.10 too dear at
most (a string at a low current has a higher voltage, which the rule leaves out). Never cheaper than cell by cell by
more than two bypass diodes take, a volt of thirty.
"""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from service.core.model.place import HandRail
from service.core.sky import after_shading
from service.core.sky.daylight import open_surroundings
from service.core.sky.edge_shadow import ways_past_edges
from service.core.sky.incidence import direction
from tests.builders import array, panel
from tests.cell_strings import lengthwise_w, upright_w

MARGIN, CELL = 0.02, 0.17
ROWS = {"upright": 9, "lengthwise": 6}
TWO_DIODES = 0.035
WIDTHS = [0.01, 0.03, 0.05, 0.07, 0.085, 0.12, 0.17, 0.25, 0.34, 0.5]
KINDS = [("upright", False), ("upright", True), ("lengthwise", False), ("lengthwise", True)]


def by_rule(orientation, half_cells, from_top, width, beam):
    """The share lost; a sun 45 degrees high shifts a rail's shadow down by as much as the rail stands out."""
    across = ROWS[orientation] * CELL + 2 * MARGIN
    size = {"length_mm": 2000, "width_mm": across * 1000} if orientation == "lengthwise" else {
        "length_mm": across * 1000, "width_mm": 1000
    }  # fmt: skip
    rail = HandRail(above_top_edge_m=0.0, distance_m=MARGIN + from_top + width, thickness_m=width)
    one = array(orientation=orientation, hand_rail=rail, panel=panel(half_cells=half_cells, **size))
    sun = direction(np.array([45.0]), np.array([150.0]))
    ways = ways_past_edges(one, np.array([90.0]), np.array([150.0]), sun)
    shading = replace(open_surroundings(1).shading, ways_past_bands=ways)
    return 1.0 - float(after_shading(np.ones((1, 1)), np.full((1, 1), beam), shading)[0, 0])


def covered(rows, high, from_top, width):
    top = np.arange(rows) * high
    return np.clip(np.minimum(from_top + width, top + high) - np.maximum(from_top, top), 0.0, None) / high


@cache
def cell_by_cell(orientation, half_cells, from_top, width, beam, sections=3):
    halves, rows = (2 if half_cells else 1), ROWS[orientation]
    if orientation == "upright":
        light = 1.0 - beam * covered(rows * halves, CELL / halves, from_top, width)
        return 1.0 - upright_w(light, halves, sections) / upright_w(np.ones(light.size), halves, sections)
    light = 1.0 - beam * covered(rows, CELL, from_top, width)
    return 1.0 - lengthwise_w(light, halves, sections) / lengthwise_w(np.ones(rows), halves, sections)


@pytest.mark.parametrize("beam", [1.0, 0.75, 0.3])
@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize(("orientation", "half_cells"), KINDS)
def test_a_band_from_the_top_row_down_costs_what_the_cells_say(orientation, half_cells, width, beam):
    rule = by_rule(orientation, half_cells, 0.0, width, beam)
    cells = cell_by_cell(orientation, half_cells, 0.0, width, beam)
    too_dear = 0.035 if half_cells and orientation == "upright" else 0.10
    assert cells - TWO_DIODES <= rule <= cells + too_dear


@pytest.mark.parametrize("from_top", [0.0, 0.04, 0.2, 0.3, 0.6, 0.7, 0.74])
@pytest.mark.parametrize("width", [0.03, 0.06, 0.1, 0.2])
@pytest.mark.parametrize(("orientation", "half_cells"), KINDS)
def test_a_band_anywhere_never_costs_less_than_the_cells_say(orientation, half_cells, width, from_top):
    """Where the band's edge lies among the rows is not known to the rule, which takes the dearest."""
    rule = by_rule(orientation, half_cells, from_top, width, 0.8)
    assert rule >= cell_by_cell(orientation, half_cells, from_top, width, 0.8) - TWO_DIODES


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("half_cells", [False, True])
def test_whole_cells_taken_where_nobody_tells_cost_no_less_than_either(half_cells, width):
    """Upright, where no bypass diode opens: also of half cells under a thin band, which lose more than whole ones."""
    not_told = by_rule("upright", None, 0.0, width, 0.8)
    assert not_told >= cell_by_cell("upright", half_cells, 0.0, width, 0.8) - 0.005


@pytest.mark.parametrize("width", [0.05, 0.085, 0.17, 0.5])
@pytest.mark.parametrize("half_cells", [False, True])
def test_how_many_bypass_sections_stand_side_by_side_makes_no_difference(half_cells, width):
    two, three = (cell_by_cell("upright", half_cells, 0.0, width, 0.8, sections) for sections in (2, 3))
    assert two == pytest.approx(three, abs=0.002)
    assert by_rule("upright", half_cells, 0.0, width, 0.8) >= two - 0.005


def test_one_half_in_the_dark_leaves_the_other_at_work_and_whole_cells_nothing():
    assert cell_by_cell("upright", True, 0.0, 0.2, 1.0) == pytest.approx(0.5, abs=0.01)
    assert cell_by_cell("upright", False, 0.0, 0.2, 1.0) > 0.98
    assert cell_by_cell("lengthwise", False, 0.0, 0.2, 1.0) == pytest.approx(1 / 3, abs=0.02)
