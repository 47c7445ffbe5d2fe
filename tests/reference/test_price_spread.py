"""The spread of prices to come, against its source: household prices of the two halves of 2025 in the price table.

Eurostat's half-yearly household prices, as the table of prices carries them: 2025-S2 beside 2025-S1.
"""

from datetime import date

import numpy as np
import pytest

from service.core.model.band import Z_90, Band
from service.core.worth import worth_of_energy
from service.data.prices import load_prices
from tests.builders import money, tariff


def relative_sd_of_half_a_year() -> float:
    """Robust: 1.4826 times the median of the relative changes, as for a normal distribution about nought."""
    changes = [
        one.price_per_kwh / one.previous_price_per_kwh - 1.0
        for one in load_prices().household
        if one.period == "2025-S2" and one.previous_period == "2025-S1" and one.previous_price_per_kwh
    ]
    assert len(changes) == 27
    return 1.4826 * float(np.median(np.abs(changes)))


@pytest.mark.parametrize("kwh", [300.0, 640.0])
def test_a_yield_without_spread_is_worth_as_much_more_or_less_as_prices_move(kwh: float) -> None:
    sure = Band(kwh, kwh, kwh)
    got = worth_of_energy(sure, 0.55, tariff(), None, money(inverter_swap=None), date(2026, 11, 25)).worth_up_to
    for end in (got.middle - got.cautious, got.hopeful - got.middle):
        assert end / got.middle / Z_90 == pytest.approx(relative_sd_of_half_a_year(), abs=0.0025)


def test_the_first_year_is_at_todays_price_and_does_not_move_with_prices_to_come() -> None:
    got = worth_of_energy(Band(640.0, 640.0, 640.0), 0.55, tariff(), None, money(), date(2026, 11, 25))
    first = got.saving_first_year
    assert first.cautious == pytest.approx(first.middle)
    assert first.hopeful == pytest.approx(first.middle)
