"""What the energy loses to an input's voltage window, the findings do not call a fit."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from service.core.compatibility import check
from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.rules import card_for
from service.data.local_rules import load_rule_cards
from tests.builders import array, inverter, one_input, setup
from tests.climates import climate
from tests.properties.strategies import planes
from tests.skies import mixed_year

AS_OF = date(2026, 11, 25)
SKY = mixed_year(54.2, 12.3)
CARDS = load_rule_cards()
NOTHING_ASSUMED = Assumptions.of(())
# The start is asked at 100 W/m2: a plane turned away from the sun may lose some per cent below that.
TOLD_FROM_SHARE = 0.03


@given(planes, st.integers(1, 3), st.floats(5, 60), st.floats(1, 80), st.floats(0, 20))
def test_a_year_that_loses_to_the_window_has_a_finding_that_says_so(plane, count, low_v, span_v, above_low_v):
    limits = one_input(
        tracking_min_v=low_v, tracking_max_v=low_v + span_v, start_voltage_v=low_v + min(above_low_v, span_v),
        max_input_voltage_v=200, max_current_a=30, max_short_circuit_current_a=40,
    )  # fmt: skip
    asked = setup(arrays=(array(plane=plane, count=count),), inverter=inverter(inputs=(limits,) * 2))
    year = energy_year(asked, SKY, climate(), NOTHING_ASSUMED)
    hottest = tuple(one.hottest_cell_c for one in year.arrays)
    answer = check(asked, NOTHING_ASSUMED, hottest, card_for(CARDS[asked.site.rule_area], AS_OF), AS_OF)
    told = {f.code: f.verdict for f in answer.findings if f.code in {"hot_voltage", "start_voltage"}}
    if year.lost_kwh["voltage_window"] > TOLD_FROM_SHARE * (year.year_kwh.middle + year.lost_kwh["voltage_window"]):
        assert set(told.values()) != {"fits"}
