"""What comes in and goes out in each year."""

import numpy as np
import pytest

from service.core.errors import ContradictionError
from service.core.model.facts import InverterSwap
from service.core.payback import (
    AtPrices,
    HomeYear,
    PricedPeriod,
    cash_flows,
    savings,
    savings_by_price,
    stacked,
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
    assert first_year("netted", counts="reversing", home=glut) == pytest.approx(300 * 0.30)


def test_a_reversing_meter_nets_over_the_year_only_while_the_period_nets():
    assert first_year("netted", counts="reversing", netting="hour") == first_year("netted", netting="year")
    assert first_year("unpaid", counts="reversing") == first_year("unpaid")
    assert first_year("paid", 0.08, counts="reversing") == first_year("paid", 0.08)


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


def by_hour(self_used, exported, demand, prices, registers=None, export="netted", growth=1.0, tax=0.0):
    """A home whose cells have prices of their own: ``prices`` are (import, export) by cell; one year."""
    self_used, exported = np.array(self_used, dtype=float), np.array(exported, dtype=float)
    at_prices = np.array(prices, dtype=float).T
    home = HomeYear(
        self_used_kwh=self_used,
        exported_kwh=exported,
        demand_kwh=np.array(demand, dtype=float),
        at=(AtPrices(self_used=at_prices * self_used, exported=at_prices * exported, registers=registers),),
    )
    period = PricedPeriod(
        share_of_year=np.ones(1), import_price_per_kwh=np.full(1, 9.0), export=export, export_price_per_kwh=9.0,
        import_factor=np.full(1, growth), export_tax_share=tax,
    )  # fmt: skip
    return home, (period,)


def saved(netting="year", counts="two_way", **changes):
    """Two cells: 40 kWh used and 90 sent out of 100 needed by day at 0.30, 5 and 10 of 300 by night at 0.20."""
    base = {"self_used": [40, 5], "exported": [90, 10], "demand": [100, 300], "prices": [(0.30, 0.06), (0.20, 0.02)]}
    home, periods = by_hour(**{**base, **changes})
    return savings(home, periods, 0.0, counts, netting)[0]


USED_AT_HOME = 40 * 0.30 + 5 * 0.20


def test_each_kwh_counts_at_the_price_of_its_hour():
    assert saved(export="unpaid") == pytest.approx(USED_AT_HOME)
    assert saved(export="paid") == pytest.approx(USED_AT_HOME + 90 * 0.06 + 10 * 0.02)
    assert saved(counts="one_way") == pytest.approx(USED_AT_HOME - 90 * 0.30 - 10 * 0.20)


def test_what_is_netted_is_credited_at_the_price_of_the_hour_in_which_it_was_sent_out():
    """100 kWh sent out against 60 + 295 drawn: all met."""
    assert saved() == pytest.approx(USED_AT_HOME + 90 * 0.30 + 10 * 0.20)


def test_each_register_nets_with_what_it_draws_itself():
    """By day 60 of 90 are met, the other 30 earn the export price; by night all ten."""
    apart = np.array([0, 1])
    assert saved(registers=apart) == pytest.approx(USED_AT_HOME + 60 * 0.30 + 30 * 0.06 + 10 * 0.20)
    reversing = saved(registers=apart, counts="reversing")
    assert reversing == pytest.approx(USED_AT_HOME + 60 * 0.30 + 10 * 0.20)


def test_each_register_nets_within_its_month():
    """Register 0 sends out 90 in July and draws 60 then, register 1 draws the rest; all else is nought."""
    july = np.arange(24) % 12 == 6
    apart = np.repeat([0, 1], 12)
    home, periods = by_hour(
        np.zeros(24), np.where(july & (apart == 0), 90.0, 0.0), np.where(july & (apart == 0), 60.0, 50.0),
        [(0.30, 0.06)] * 12 + [(0.20, 0.02)] * 12, registers=apart,
    )  # fmt: skip
    assert savings(home, periods, 0.0, "two_way", "month")[0] == pytest.approx(60 * 0.30 + 30 * 0.06)
    assert savings(home, periods, 0.0, "two_way", "year")[0] == pytest.approx(90 * 0.30)


def test_a_meter_that_runs_backwards_nets_over_the_year_whatever_was_said():
    july_only = HomeYear(
        self_used_kwh=np.zeros(12), exported_kwh=np.where(np.arange(12) == 6, 70.0, 0.0), demand_kwh=np.full(12, 20.0)
    )
    for netting in ("instant", "hour", "month", "year"):
        assert first_year("netted", counts="reversing", netting=netting, home=july_only) == pytest.approx(70 * 0.30)


@pytest.mark.parametrize("netting", ["quarter_hour", "hour"])
def test_what_the_hour_does_not_net_earns_its_own_price(netting):
    assert saved(netting) == pytest.approx(saved(export="paid"))
    assert first_year("netted", pay=0.05, netting=netting) == pytest.approx(first_year("paid", pay=0.05))


def test_a_meter_that_counts_apart_from_moment_to_moment_is_netted_over_the_year():
    assert saved("instant") == saved("year")


def test_growth_lifts_every_import_price_and_no_export_price():
    assert saved(export="paid", growth=1.5) == pytest.approx(1.5 * USED_AT_HOME + 90 * 0.06 + 10 * 0.02)


def test_tax_takes_its_share_of_what_is_earned_and_none_of_what_is_netted():
    assert saved(export="paid", tax=0.25) == pytest.approx(USED_AT_HOME + 0.75 * (90 * 0.06 + 10 * 0.02))
    assert saved(tax=0.25) == saved()


def test_what_has_to_be_paid_for_sending_out_is_not_taxed():
    costs = [(0.30, -0.05), (0.20, -0.01)]
    assert saved(export="paid", prices=costs, tax=0.25) == saved(export="paid", prices=costs)


def test_several_years_at_once_are_each_on_its_own():
    homes, periods = zip(*(by_hour([40, used], [90, 10], [100, 300], [(0.30, 0.06), (0.20, 0.02)]) for used in (5, 9)),
                         strict=True)  # fmt: skip
    bought, sold = savings_by_price(stacked(homes), periods[0], 0.01, "two_way", "month")
    for row, one in enumerate(homes):
        np.testing.assert_allclose(bought[row] + sold[row], savings(one, periods[0], 0.01, "two_way", "month"))


def test_prices_by_the_hour_need_the_hours_of_the_home():
    _, periods = by_hour([40], [90], [100], [(0.3, 0.06)])
    with pytest.raises(ContradictionError) as error:
        savings(SUMMER_SURPLUS, periods, 0.0, "two_way", "year")
    assert error.value.pointer == "/tariff/periods/0"
