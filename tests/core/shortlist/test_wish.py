"""By what are sets put in an order?"""

import numpy as np
import pytest

from service.core.model.band import Band
from service.core.shortlist import NEVER, Terms, wanted
from tests.builders import household, money

YEAR = Band(500, 600, 700)


def test_what_never_pays_back_comes_last() -> None:
    assert wanted("quick_payback", 300, YEAR, Band(None, 9.0, 7.0), None) == NEVER
    assert wanted("quick_payback", 300, YEAR, Band(5.0, 4.0, 3.0), None) == 5.0
    assert wanted("most_value", 300, YEAR, None, Band(-5, 40, 90)) == -40
    assert wanted("least_outlay_per_kwh", 300, YEAR, None, None) == 0.5


def test_rough_figures_fall_with_the_price_whatever_is_wanted() -> None:
    outlay, year, saving = np.array([100.0, 150.0, 400.0]), np.full(3, 500.0), np.full(3, 90.0)
    for wish in ("quick_payback", "most_value", "least_outlay_per_kwh"):
        terms = Terms.of(wish, Band(80, 90, 100), money(), household())
        rough = terms.rough(outlay, year, saving, second_hand=True)
        assert rough.tolist() == sorted(rough.tolist())
        assert rough[0] < rough[2]


def test_a_set_that_saves_nothing_is_never_paid_back_and_used_panels_are_less_sure() -> None:
    terms = Terms.of("quick_payback", Band(80, 90, 100), money(), household())
    outlay, year = np.array([100.0, 100.0]), np.array([500.0, 500.0])
    saving = np.array([90.0, -1.0])
    unused, used = (terms.rough(outlay, year, saving, second_hand=flag) for flag in (False, True))
    assert unused[1] == NEVER
    assert used[0] > unused[0]


def test_the_value_of_all_years_is_the_annuity_of_the_account() -> None:
    """Ten years at 3 %, nothing growing or ageing: 8.530 (tables of annuities)."""
    terms = Terms.of(
        "most_value", Band(1, 1, 1), money(years=10, discount_rate_share=0.03, price_growth_share=0.0,
                                           ageing_share_per_year=0.0), household(stay_years=None),
    )  # fmt: skip
    assert terms.years_worth == pytest.approx(8.530, abs=0.001)


def test_without_a_saving_only_the_outlay_can_rank() -> None:
    assert Terms.of("most_value", None, money(), household()).wish == "least_outlay_per_kwh"
