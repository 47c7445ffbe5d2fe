"""Which price holds in which year of the account."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from service.core.errors import ContradictionError
from service.core.model.facts import Rate, Tariff, TariffPeriod
from service.core.payback import priced_periods, yearly_fees


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


@pytest.mark.parametrize("price", [0.299, 0.30, 0.301, 0.40])
def test_every_stated_price_grows_from_the_second_year_of_the_account(price):
    _, second = priced(period("2026-01-01"), period("2028-01-01", price), growth=0.1)
    np.testing.assert_allclose(second.import_price_per_kwh[1:], price * 1.1 ** np.arange(1, 4))


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


NIGHT = Rate(name=None, months=None, days=None, from_clock="22:00", to_clock="06:00", import_price_per_kwh=0.2,
             export_price_per_kwh=None)  # fmt: skip


def test_rates_grow_with_the_price():
    (only,) = priced(replace(period("2020-01-01"), rates=(NIGHT,)), growth=0.1)
    np.testing.assert_allclose(only.import_factor, 1.1 ** np.arange(4))
    assert priced(period("2020-01-01"))[0].import_factor is None


def test_a_new_rate_grows_like_the_one_before():
    day_and_night = replace(period("2026-01-01"), rates=(NIGHT,))
    dearer_night = replace(day_and_night, valid_from="2028-07-01", rates=(replace(NIGHT, import_price_per_kwh=0.25),))
    same = replace(day_and_night, valid_from="2028-07-01", export="netted")
    np.testing.assert_allclose(priced(day_and_night, dearer_night, growth=0.1)[1].import_factor[2:], [1.21, 1.331])
    np.testing.assert_allclose(priced(day_and_night, same, growth=0.1)[1].import_factor[2:], [1.21, 1.331])


def test_fees_are_paid_while_their_period_lasts_and_do_not_grow():
    first = replace(period("2026-01-01"), fee_per_year=20.0, fee_per_kva_year=50.0)
    fees = yearly_fees(priced(first, period("2028-07-01"), growth=0.1), 800.0)
    np.testing.assert_allclose(fees, [60, 60, 0, 0])


def test_a_fee_by_the_kva_needs_the_inverter():
    by_kva = priced(replace(period("2026-01-01"), fee_per_kva_year=50.0))
    with pytest.raises(ContradictionError) as error:
        yearly_fees(by_kva, None)
    assert error.value.pointer == "/tariff/periods/0/fee_per_kva_year"
