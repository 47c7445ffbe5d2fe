"""Are panels of makers that were left out held by the ranges? The list of the California Energy Commission, 2019.

Cross-validation in ten parts by maker (first word of the name), what is typical found anew in each; misprints
included.
True agreement of the full run (`python -m service bench identity`, 3000 panels): Voc 96.0 to 97.8 %, Isc 95.7 to 97.7 %
by question; with rebadged copies left out too 95.5 to 97.4 and 95.2 to 97.3 %. The sample here is a tenth of that, with
a binomial deviation of some 1.2 points, so it asks for 93 %.
"""

from functools import cache

import numpy as np
import pytest

from service.bench.identity import QUESTIONS, drawn, held_of_left_out, left_out
from service.data.panel_list import load_panel_list

TABLE = load_panel_list()
PANELS = 300


@cache
def scores():
    return {one.known: one for one in held_of_left_out(TABLE, PANELS, QUESTIONS)}


@pytest.mark.parametrize("known", QUESTIONS)
def test_left_out_panels_lie_within_the_ranges(known):
    assert scores()[known].panels == PANELS
    assert scores()[known].voc_share >= 0.93
    assert scores()[known].isc_share >= 0.93


def test_ranges_are_narrow_enough_to_be_of_use():
    """From power and size alone 60-cell panels lie within 0.9 V and 0.32 A in sample; out of it some more."""
    assert scores()["power, size, cells"].voc_half_width_v < 2.0
    assert scores()["power, size, cells"].isc_half_width_a < 0.6


def test_no_maker_stands_on_both_sides():
    for row, rest in list(left_out(TABLE, 40)):
        assert TABLE.maker[row] not in rest.maker


def test_the_drawn_panels_spread_over_the_whole_list():
    rows = drawn(TABLE, PANELS)
    assert len(np.unique(rows)) > 0.9 * PANELS
    assert TABLE.rated_power_w[rows].min() < 150
    assert TABLE.rated_power_w[rows].max() > 380


def test_left_out_panels_are_held_from_power_and_size_with_rebadged_copies_out_too():
    """The hardest question; measured 95.7 % of Voc and 95.2 % of Isc with these settings, 95.1 and 94.7 % before."""
    [held] = held_of_left_out(TABLE, 2000, {"power, size": QUESTIONS["power, size"]}, rebadged_out=True)
    assert held.voc_share >= 0.95
    assert held.isc_share >= 0.95
