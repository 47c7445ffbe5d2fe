"""What comes in and goes out in each year."""

import numpy as np
import pytest

from service.core.model.facts import InverterSwap
from service.core.payback import (
    HomeYear,
    PricedPeriod,
    cash_flows,
    savings,
    unpaid_after_each_year,
    yearly_costs,
    years_kept,
)

SUMMER_SURPLUS = HomeYear(
    self_used_kwh=np.array([30.0, 40.0]), exported_kwh=np.array([5.0, 60.0]), demand_kwh=np.array([150.0, 60.0])
)


def priced(export="unpaid", pay=0.0, price=0.30, years=3):
    return (
        PricedPeriod(
            share_of_year=np.ones(years),
            import_price_per_kwh=np.full(years, price),
            export=export,
            export_price_per_kwh=pay,
        ),
    )


def first_year(export="unpaid", pay=0.0, counts="two_way", netting="instant", home=SUMMER_SURPLUS):
    return savings(home, priced(export, pay), 0.0, counts, netting)[0]


def test_netting_over_the_month_credits_no_more_than_that_month_draws():
    assert first_year("netted", netting="month") == pytest.approx((70 + 5 + 20) * 0.30)


def test_netting_over_the_year_carries_summer_into_winter():
    assert first_year("netted", netting="year") == pytest.approx((70 + 65) * 0.30)


@pytest.mark.parametrize("netting", ["quarter_hour", "hour"])
def test_netting_within_the_hour_is_no_netting_over_the_year(netting):
    assert first_year("netted", netting=netting) == pytest.approx(70 * 0.30)
    assert first_year("netted", pay=0.05, netting=netting) == first_year("paid", pay=0.05)


def test_netting_beyond_what_is_drawn_earns_the_export_price():
    assert first_year("netted", pay=0.05, netting="month") == pytest.approx(95 * 0.30 + 40 * 0.05)


def test_netting_stops_at_the_years_import():
    glut = HomeYear(self_used_kwh=np.array([100.0]), exported_kwh=np.array([900.0]), demand_kwh=np.array([300.0]))
    assert first_year("netted", home=glut) == pytest.approx(300 * 0.30)
    assert first_year(counts="reversing", home=glut) == pytest.approx(300 * 0.30)


def test_a_reversing_meter_nets_whatever_the_tariff_says():
    assert first_year("unpaid", counts="reversing") == first_year("netted", netting="year")


def test_a_register_that_only_goes_up_bills_what_is_sent_out():
    assert first_year("paid", 0.08, counts="one_way") == pytest.approx((70 - 65) * 0.30)


def test_an_unknown_meter_is_read_as_two_way():
    assert first_year("paid", 0.08, counts="not_known") == first_year("paid", 0.08, counts="two_way")


def test_a_negative_export_price_costs():
    assert first_year("paid", -0.02) < first_year("unpaid")


def test_ageing_begins_in_the_second_year():
    saved = savings(SUMMER_SURPLUS, priced(), 0.01, "two_way", "instant")
    np.testing.assert_allclose(saved, 21 * 0.99 ** np.arange(3))


def test_a_rule_that_ends_within_a_year_counts_by_its_share():
    netted, unpaid = priced("netted")[0], priced("unpaid")[0]
    mixed = tuple(
        PricedPeriod(
            share_of_year=np.array(share),
            import_price_per_kwh=p.import_price_per_kwh,
            export=p.export,
            export_price_per_kwh=0.0,
        )
        for p, share in ((netted, [1, 0.25, 0.0]), (unpaid, [0, 0.75, 1.0]))
    )
    saved = savings(SUMMER_SURPLUS, mixed, 0.0, "two_way", "year")
    np.testing.assert_allclose(saved, [40.5, 0.25 * 40.5 + 0.75 * 21, 21])


def test_the_swap_is_paid_in_its_year_and_never_after_the_set_is_gone():
    np.testing.assert_array_equal(yearly_costs(3, 5.0, InverterSwap(year=2, amount=130)), [5, 135, 5])
    np.testing.assert_array_equal(yearly_costs(3, 5.0, InverterSwap(year=4, amount=130)), [5, 5, 5])
    np.testing.assert_array_equal(yearly_costs(2, 0.0, None), [0, 0])


def test_the_account_ends_when_the_home_is_left():
    assert years_kept(15, 6) == 6
    assert years_kept(15, 30) == 15
    assert years_kept(15, 0.5) == 0


def test_flows_begin_with_the_outlay_and_end_with_the_resale():
    flows = cash_flows(300.0, np.array([90.0, 90.0]), np.array([0.0, 10.0]), 45.0)
    np.testing.assert_array_equal(flows, [-300, 90, 125])
    np.testing.assert_array_equal(unpaid_after_each_year(flows), [300, 210, 85])
