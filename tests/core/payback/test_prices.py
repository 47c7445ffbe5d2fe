"""Which price holds in which year of the account."""

from datetime import date

import numpy as np
import pytest

from service.core.errors import ContradictionError
from service.core.model.facts import Tariff, TariffPeriod
from service.core.payback import priced_periods


def period(valid_from, price=0.30, export="unpaid", pay=0.0):
    return TariffPeriod(valid_from=valid_from, import_price_per_kwh=price, export=export, export_price_per_kwh=pay)


def priced(*periods, as_of=date(2026, 7, 1), years=4, growth=0.0):
    return priced_periods(Tariff(currency="EUR", periods=periods), as_of, years, growth)


def test_one_period_fills_every_year():
    (only,) = priced(period("2026-01-01"))
    np.testing.assert_allclose(only.share_of_year, 1)
    np.testing.assert_allclose(only.import_price_per_kwh, 0.30)


def test_price_growth_begins_in_the_second_year():
    (only,) = priced(period("2020-01-01"), growth=0.1)
    np.testing.assert_allclose(only.import_price_per_kwh, 0.30 * 1.1 ** np.arange(4))


def test_a_later_period_replaces_the_earlier_by_its_days():
    first, second = priced(period("2026-01-01", 0.30), period("2028-01-01", 0.40))
    np.testing.assert_allclose(first.share_of_year, [1, 184 / 366, 0, 0])
    np.testing.assert_allclose(second.share_of_year, [0, 182 / 366, 1, 1])


def test_a_stated_price_grows_only_after_the_year_in_which_it_begins():
    _, second = priced(period("2026-01-01"), period("2028-01-01", 0.40), growth=0.1)
    np.testing.assert_allclose(second.import_price_per_kwh[1:], [0.40, 0.44, 0.484])


def test_a_period_that_changes_the_rule_but_not_the_price_does_not_turn_growth_back():
    first, second = priced(period("2026-01-01", export="netted"), period("2028-07-01"), growth=0.1)
    np.testing.assert_allclose(second.import_price_per_kwh, first.import_price_per_kwh)


def test_a_rule_that_ended_before_the_question_counts_no_more():
    (only,) = priced(period("2020-01-01", export="netted"), period("2026-01-01", export="unpaid"))
    assert only.export == "unpaid"


def test_the_order_in_which_periods_are_given_does_not_matter():
    one, other = (
        priced(*order)
        for order in [
            (period("2026-01-01"), period("2028-01-01", 0.4)),
            (period("2028-01-01", 0.4), period("2026-01-01")),
        ]
    )
    assert [p.import_price_per_kwh[0] for p in one] == [p.import_price_per_kwh[0] for p in other]


def test_before_the_first_period_its_prices_are_used():
    (only,) = priced(period("2027-03-01", 0.33), growth=0.1)
    np.testing.assert_allclose(only.share_of_year, 1)
    assert only.import_price_per_kwh[0] == 0.33


def test_shares_of_every_year_add_up_even_from_a_leap_day():
    parts = priced(
        period("2020-01-01"),
        period("2028-05-01"),
        period("2028-09-10"),
        period("2031-01-01"),
        as_of=date(2028, 2, 29),
        years=10,
    )
    np.testing.assert_allclose(sum(p.share_of_year for p in parts), 1)


def test_a_tariff_without_periods_is_refused():
    with pytest.raises(ContradictionError):
        priced()
