"""What the year loses to an input's window is never called a plain fit."""

from dataclasses import replace

import numpy as np
from hypothesis import given

from service.core.compatibility import check
from service.core.energy import array_conditions, direct_current
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Verdict
from service.core.rules import card_for
from service.data.local_rules import cards_of
from tests.properties.compatibility_strategies import AS_OF
from tests.properties.strategies import sets
from tests.skies import mixed_year

_MIXED = mixed_year(54.2, 12.3)
_SEASON = np.cos(2 * np.pi * (_MIXED.calendar.day_of_year - 200) / 365)
_DAY = np.cos(2 * np.pi * (np.arange(_MIXED.air_c.size) % 24 - 15) / 24)
SKY = replace(_MIXED, air_c=9.0 + 11.0 * _SEASON + 5.0 * _DAY)  # frosty mornings in winter, warm summer afternoons
TOLD_SHARE = 0.005
ABOUT_WINDOW = ("hot_voltage", "start_voltage", "operating_current", "unlike_panels")


@given(sets())
def test_what_a_window_costs_in_the_year_is_told_by_a_finding(setup: Setup) -> None:
    hours = direct_current(setup, SKY)
    cells = array_conditions(setup, SKY)
    found = check(
        setup, Assumptions.of([]), tuple(one.hottest_cell_c for one in cells), card_for(cards_of("DE"), AS_OF), AS_OF,
        cool_cell_c=tuple(one.cool_cell_c for one in cells),
    )  # fmt: skip
    for array, own in zip(setup.arrays, hours, strict=True):
        drawn, lost = float(own.dc_w.sum()) / 1000, own.lost_kwh["voltage_window"]
        if lost <= TOLD_SHARE * (drawn + lost):
            continue
        # arrays on one input share its voltage, so the finding may be about the other one
        about = {f"/arrays/{k}" for k, other in enumerate(setup.arrays) if other.input == array.input}
        about.add(f"/inverter/inputs/{array.input - 1}")
        verdicts = {f.verdict for f in found.findings if f.code in ABOUT_WINDOW and f.about in about}
        assert verdicts != {Verdict.FITS}, lost
