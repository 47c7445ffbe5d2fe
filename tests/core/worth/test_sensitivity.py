"""Which cause moves the payback most."""

from datetime import date

import numpy as np
import pytest

from service.core.model.band import Band
from service.core.worth import use_at_home, worth, worth_of_energy
from service.core.worth.sensitivity import STEP_SHARE, Stepped, sensitivities
from service.data.households import load_demand_shape
from tests.builders import household, money, outlay, setup, tariff
from tests.energy_years import CALENDAR, energy_year

AS_OF = date(2026, 1, 1)
LEVEL = money(years=10, discount_rate_share=0.0, price_growth_share=0.0, ageing_share_per_year=0.0, inverter_swap=None)


def account(saving, paid=400.0, resale=0.0):
    return Stepped(saving=np.full(10, saving), cost=np.zeros(10), outlay=paid, resale=resale)


def by_cause(found):
    return {(one.of, one.change_share): one for one in found}


def plain(share=0.5, paid=400.0, account_terms=LEVEL, **changes):
    band = Band(640.0, 640.0, 640.0)
    return worth_of_energy(band, share, tariff(), outlay(set=paid), account_terms, AS_OF, **changes)


def test_each_step_is_the_account_kept_again():
    """100 a year for 400: 4 years; 80 a year 5; 120 a year 3.333; 480 and 320 to pay 4.8 and 3.2."""
    steps = [("price", -0.2, account(80.0)), ("price", 0.2, account(120.0)), ("outlay", 0.2, account(100.0, 480.0))]
    found = sensitivities(account(100.0), steps, 0.0)
    assert [(one.of, one.change_share) for one in found] == [("price", -0.2), ("outlay", 0.2), ("price", 0.2)]
    assert [one.payback_years for one in found] == pytest.approx([5.0, 4.8, 10 / 3])
    assert [one.payback_years_change for one in found] == pytest.approx([1.0, 0.8, -2 / 3])
    assert [one.net_present_value_change for one in found] == pytest.approx([-200.0, -80.0, 200.0])


def test_never_is_the_largest_effect_and_still_never_the_least():
    found = sensitivities(account(50.0), [("a", 0.2, account(60.0)), ("b", -0.2, account(30.0))], 0.0)
    assert [(one.of, one.payback_years) for one in found] == [("b", None), ("a", pytest.approx(400 / 60))]
    unpaid = sensitivities(account(30.0), [("a", -0.2, account(20.0)), ("b", 0.2, account(50.0))], 0.0)
    assert [one.of for one in unpaid] == ["b", "a"]
    assert all(one.payback_years_change is None for one in unpaid)


def test_resale_is_part_of_the_value_but_not_of_the_payback():
    (one,) = sensitivities(account(100.0), [("outlay", -0.2, account(100.0, 400.0, resale=50.0))], 0.0)
    assert one.payback_years_change == 0
    assert one.net_present_value_change == pytest.approx(50)


def test_every_cause_is_stepped_down_and_up():
    assert set(by_cause(plain().sensitivity)) == {
        (of, share) for of in ("price", "yield", "self_use", "outlay") for share in (-STEP_SHARE, STEP_SHARE)
    }


def test_a_step_of_the_price_is_the_payback_at_that_price():
    dearer = tariff(periods=tuple(_priced(period, 1.2) for period in tariff().periods))
    band = Band(640.0, 640.0, 640.0)
    asked = worth_of_energy(band, 0.5, dearer, outlay(set=400.0), LEVEL, AS_OF)
    stepped = by_cause(plain().sensitivity)["price", STEP_SHARE]
    assert stepped.payback_years == pytest.approx(asked.discounted_payback_years.middle, rel=1e-12)


def _priced(period, factor):
    return type(period)(
        valid_from=period.valid_from,
        import_price_per_kwh=period.import_price_per_kwh * factor,
        export=period.export,
        export_price_per_kwh=period.export_price_per_kwh,
    )


def test_a_step_of_the_outlay_is_the_payback_of_that_outlay():
    stepped = by_cause(plain().sensitivity)["outlay", -STEP_SHARE]
    assert stepped.payback_years == pytest.approx(plain(paid=320.0).discounted_payback_years.middle)


def test_more_yield_is_used_at_home_to_a_smaller_share_where_the_hours_are_known():
    home = setup(household=household(stay_years=None), money=LEVEL)
    energy = energy_year()
    shape = load_demand_shape()
    use = use_at_home(energy, home, CALENDAR, shape)
    more = energy_year(1.2 * energy.year_kwh.middle)
    again = worth(more, use_at_home(more, home, CALENDAR, shape), home, AS_OF)
    stepped = by_cause(worth(energy, use, home, AS_OF).sensitivity)
    assert stepped["yield", STEP_SHARE].payback_years == pytest.approx(again.discounted_payback_years.middle)
    assert stepped["yield", STEP_SHARE].payback_years > stepped["self_use", STEP_SHARE].payback_years


def test_all_of_the_yield_cannot_be_used_more_than_once():
    stepped = by_cause(plain(share=1.0).sensitivity)
    assert stepped["self_use", STEP_SHARE].payback_years_change == pytest.approx(0)
    assert stepped["self_use", -STEP_SHARE].payback_years_change > 0


def test_without_an_outlay_there_is_nothing_to_compare():
    band = Band(640.0, 640.0, 640.0)
    assert worth_of_energy(band, 0.5, tariff(), None, LEVEL, AS_OF).sensitivity == ()
