"""What the set is worth to the home."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from service.core.model.band import Z_90, Band, SpreadPart
from service.core.model.facts import InverterSwap, Meter, Rate, TariffPeriod
from service.core.payback import net_present_value
from service.core.worth import use_at_home, worth, worth_of_energy
from service.data.households import load_demand_shape
from tests.builders import household, money, setup, tariff
from tests.builders import outlay as outlay_of
from tests.energy_years import CALENDAR, energy_year

AS_OF = date(2026, 11, 25)
SHAPE = load_demand_shape()
LONG_STAY = household(stay_years=None)


def value(energy=None, **changes):
    setting = setup(**{"household": LONG_STAY, **changes})
    energy = energy or energy_year()
    return worth(energy, use_at_home(energy, setting, CALENDAR, SHAPE), setting, AS_OF)


def plain(year_kwh=640.0, share=0.55, outlay=344.0, **changes):
    band = year_kwh if isinstance(year_kwh, Band) else Band(year_kwh, year_kwh, year_kwh)
    paid = None if outlay is None else outlay_of(set=outlay)
    parts = {"tariff": tariff(), "money": money(inverter_swap=None), **changes}
    return worth_of_energy(band, share, parts.pop("tariff"), paid, parts.pop("money"), AS_OF, **parts)


def ordered(band):
    return band.cautious < band.middle < band.hopeful


def test_the_outlay_is_the_sum_of_its_items():
    assert value().outlay == 344


def test_the_first_saving_is_what_is_used_at_home_times_the_price():
    energy, setting = energy_year(), setup()
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    assert worth(energy, use, setting, AS_OF).saving_first_year.middle == pytest.approx(use.self_used_kwh.middle * 0.34)


def test_cautious_is_the_smaller_saving_and_the_longer_payback():
    got = value()
    assert ordered(got.saving_first_year)
    assert ordered(got.net_present_value)
    assert ordered(got.worth_up_to)
    for band in (got.simple_payback_years, got.undiscounted_payback_years, got.discounted_payback_years):
        assert band.cautious > band.middle > band.hopeful


def test_the_account_ends_with_the_stay():
    got = value(household=household(stay_years=6))
    assert got.years_kept == 6
    assert [flow.year for flow in got.yearly_flows] == list(range(7))
    assert got.if_moving_after_years.years == 6
    assert got.if_moving_after_years.gain.middle == pytest.approx(
        sum(flow.saving + flow.resale - flow.cost for flow in got.yearly_flows)
    )


def test_an_open_stay_answers_nothing_about_moving():
    got = value()
    assert got.years_kept == 15
    assert got.if_moving_after_years is None


def test_a_stay_of_no_time_never_pays_back_and_the_simple_payback_is_still_told():
    got = value(household=household(stay_years=0.0))
    assert got.years_kept == 0
    assert got.discounted_payback_years == Band(None, None, None)
    assert got.net_present_value.middle == -344
    assert got.simple_payback_years.middle > 0
    assert got.worth_up_to.hopeful == 0


def test_a_stay_of_half_a_year_saves_half_of_a_year():
    year, half = (value(household=household(stay_years=stay)) for stay in (1.0, 0.5))
    assert half.years_kept == half.if_moving_after_years.years == 0.5
    assert half.discounted_payback_years == Band(None, None, None)
    assert half.net_present_value.middle + 344 == pytest.approx(0.5 * (year.net_present_value.middle + 344))
    assert half.if_moving_after_years.gain.middle == pytest.approx(0.5 * year.saving_first_year.middle - 344)
    assert 0 < half.worth_up_to.middle == pytest.approx(0.5 * year.worth_up_to.middle)
    assert half.yearly_flows[1].saving == pytest.approx(0.5 * year.yearly_flows[1].saving)


def test_a_year_that_is_left_early_pays_costs_in_part_and_gives_its_energy_in_part():
    terms = {"money": money(inverter_swap=None, running_cost_per_year=12.0)}
    two, most, three = (value(household=household(stay_years=stay), **terms) for stay in (2, 2.75, 3))
    last = [got.yearly_flows[-1] for got in (most, three)]
    assert last[0].saving == pytest.approx(0.75 * last[1].saving)
    assert [one.cost for one in last] == [pytest.approx(9), 12]
    assert [one.years for one in most.break_even] == [2.75]
    assert two.worth_up_to.middle < most.worth_up_to.middle < three.worth_up_to.middle
    assert two.levelised_cost_per_kwh > most.levelised_cost_per_kwh > three.levelised_cost_per_kwh


def test_what_is_paid_back_within_a_begun_year_is_paid_back_before_it_ends():
    free = money(inverter_swap=None, discount_rate_share=0.0, ageing_share_per_year=0.0)
    whole, begun = (plain(outlay=400.0, money=free, stay_years=stay) for stay in (None, 3.6))
    for of in ("discounted_payback_years", "undiscounted_payback_years", "lasting_payback_years"):
        assert getattr(begun, of).hopeful == pytest.approx(getattr(whole, of).hopeful)
        assert 3 < getattr(begun, of).middle < 3.6
        assert getattr(begun, of).middle == pytest.approx(getattr(whole, of).middle)


def test_what_moves_the_payback_in_a_begun_year_is_told_as_in_a_whole_one():
    free = money(inverter_swap=None, discount_rate_share=0.0, ageing_share_per_year=0.0)
    whole, begun = (
        {(one.of, one.change_share): one.payback_years for one in got.sensitivity}
        for got in (plain(outlay=480.0, money=free, stay_years=stay) for stay in (None, 3.6))
    )
    late = {step: years for step, years in whole.items() if years is not None and 3 < years < 3.6}
    assert late
    assert {step: begun[step] for step in late} == pytest.approx(late)


def test_without_an_outlay_what_may_be_paid_is_the_answer():
    got = value(outlay=None)
    assert got.outlay is None
    assert got.simple_payback_years is None
    assert got.worth_up_to == value().worth_up_to


def test_without_a_tariff_there_is_no_answer_about_money():
    assert value(tariff=None) is None


def test_paying_just_what_it_is_worth_is_paid_back_at_the_end():
    most = plain(money=money(inverter_swap=None)).worth_up_to.middle
    got = plain(outlay=most, money=money(inverter_swap=None))
    assert got.discounted_payback_years.middle == pytest.approx(15)
    assert got.net_present_value.middle == pytest.approx(0, abs=1e-9)
    assert plain(outlay=most + 1).discounted_payback_years.middle is None


def test_no_saving_has_no_payback_time():
    got = plain(share=0.0)
    assert got.simple_payback_years == Band(None, None, None)
    assert got.internal_rate_of_return_share is None
    assert got.worth_up_to.middle == 0


def test_a_rebate_above_the_price_is_paid_back_at_once_and_has_no_return():
    got = plain(outlay=-40.0)
    assert got.simple_payback_years.middle == 0
    assert got.discounted_payback_years.middle == 0
    assert got.internal_rates_of_return == ()


def test_a_swap_that_is_never_earned_undoes_the_payback_for_good():
    late = money(inverter_swap=InverterSwap(year=15, amount=5000))
    got = plain(money=late)
    assert got.discounted_payback_years.middle < 15
    assert got.lasting_payback_years.middle is None
    assert got.worth_up_to.middle == 0


def test_a_sale_moves_no_payback_that_the_savings_reach_alone_and_adds_to_the_bid():
    """Half of the 344 paid comes back after 15 years, whatever else is bid: its savings and 172, at interest."""
    without, with_resale = plain(), plain(money=money(inverter_swap=None, resale_share=0.5))
    assert with_resale.net_present_value.middle > without.net_present_value.middle
    assert with_resale.levelised_cost_per_kwh < without.levelised_cost_per_kwh
    assert with_resale.discounted_payback_years == without.discounted_payback_years
    assert not with_resale.paid_by_selling
    assert with_resale.yearly_flows[-1].resale == 172
    sold = 172 / (1 + money().discount_rate_share) ** 15
    assert with_resale.worth_up_to.middle == pytest.approx(
        plain(money=money(inverter_swap=None)).worth_up_to.middle + sold
    )


def of_a_short_stay(paid=400.0, **terms):
    """Three years of 109 kWh saved at 1 a kWh; half of what is paid comes back when moving out."""
    band = Band(100.0, 109.0, 118.0)
    account = money(inverter_swap=None, years=15, price_growth_share=0.0, ageing_share_per_year=0.0,
                    **{"resale_share": 0.5, "discount_rate_share": 0.03, **terms})  # fmt: skip
    price = tariff(periods=(replace(tariff().periods[0], import_price_per_kwh=1.0),))
    return worth_of_energy(band, 1.0, price, outlay_of(set=paid), account, AS_OF, stay_years=3.0)


def test_what_only_the_sale_pays_back_is_paid_back_when_it_is_sold_and_says_so():
    """327 saved of 400 paid, and 200 for the set: 308.3 + 183.0 in today's money."""
    got = of_a_short_stay()
    assert got.net_present_value.middle == pytest.approx(109 * 2.82861 + 200 / 1.03**3 - 400, abs=0.01)
    assert got.discounted_payback_years.middle == got.lasting_payback_years.middle == 3
    assert got.undiscounted_payback_years.middle == 3
    assert got.paid_by_selling
    assert of_a_short_stay(resale_share=0.0).discounted_payback_years.middle is None
    assert not of_a_short_stay(resale_share=0.0).paid_by_selling


@pytest.mark.parametrize("paid", [300.0, 400.0, 560.0, 562.0, 900.0])
def test_bid_payback_and_value_never_contradict_each_other_where_it_is_sold(paid):
    got = of_a_short_stay(paid)
    for end in ("cautious", "middle", "hopeful"):
        value = getattr(got.net_present_value, end)
        assert (value >= 0) == (getattr(got.worth_up_to, end) >= paid)
        assert (value >= 0) == (getattr(got.lasting_payback_years, end) is not None)
        # what it brings back is what was paid and what is left over
        assert getattr(got.worth_up_to, end) == pytest.approx(paid + value)
    assert got.break_even[-1].by_selling


def test_a_bid_raises_no_sale():
    """327 saved, and all of the 400 paid comes back: whoever pays more gets no more for it."""
    assert of_a_short_stay(resale_share=1.0, discount_rate_share=0.0).worth_up_to.middle == pytest.approx(727)


def test_savings_that_are_less_than_the_costs_take_from_the_sale_what_they_lack():
    """327 saved and 450 spent; 200 come back: 77 may be paid."""
    lacking = of_a_short_stay(running_cost_per_year=150.0, discount_rate_share=0.0).worth_up_to
    assert lacking.middle == pytest.approx(77)


def test_flows_tell_what_is_still_unpaid():
    flows = plain(money=money(inverter_swap=InverterSwap(year=11, amount=130))).yearly_flows
    assert flows[0].cost == flows[0].unpaid == 344
    assert flows[1].unpaid == pytest.approx(344 - flows[1].saving)
    assert flows[11].cost == 130
    assert flows[-1].unpaid == 0


def test_a_netting_rule_that_ends_next_year_ends_next_year():
    def periods(*rows):
        return tariff(
            periods=tuple(
                TariffPeriod(valid_from=day, import_price_per_kwh=0.34, export=export, export_price_per_kwh=0.0)
                for day, export in rows
            )
        )

    for_ever = plain(tariff=periods(("2026-01-01", "netted")))
    ends = plain(tariff=periods(("2026-01-01", "netted"), ("2027-11-25", "unpaid")))
    never = plain(tariff=periods(("2026-01-01", "unpaid")))
    assert ends.saving_first_year == for_ever.saving_first_year
    assert ends.yearly_flows[2].saving == never.yearly_flows[2].saving < for_ever.yearly_flows[2].saving


def test_a_known_demand_limits_what_netting_is_worth():
    netted = tariff(periods=(replace(tariff().periods[0], export="netted"),))
    free = plain(tariff=netted)
    small = plain(tariff=netted, demand_kwh_per_year=500.0)
    assert free.saving_first_year.middle == pytest.approx(640 * 0.34)
    assert small.saving_first_year.middle == pytest.approx(500 * 0.34)


def test_a_meter_that_bills_both_directions_can_turn_a_saving_into_a_loss():
    """One home's figures: 630 kWh with 56 % used leave some 80 kWh of saving; a larger yield of the same use a loss."""
    bills_both = Meter(counts="one_way", sums_phases=True, netting="instant")
    small = plain(630.0, 0.56, meter=bills_both)
    large = plain(891.0, 0.44, meter=bills_both)
    assert small.saving_first_year.middle / 0.34 == pytest.approx(76, abs=5)
    assert large.saving_first_year.middle < 0
    assert large.simple_payback_years.middle is None


def test_a_figure_without_a_band_gets_only_the_prices_doubt():
    got = plain()
    assert got.saving_first_year.cautious == got.saving_first_year.middle
    assert ordered(got.net_present_value)


def test_the_same_question_gets_the_same_answer():
    assert value() == value()


def only_weather(setting, yearly_sd=0.1):
    """A year whose band is weather alone, habits without a doubt."""
    energy = energy_year(640.0, ())
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    middle = use.cases.middle
    less, more = (
        replace(middle, self_used_kwh=middle.self_used_kwh * share, exported_kwh=middle.exported_kwh * share)
        for share in (1 - Z_90 * yearly_sd, 1 + Z_90 * yearly_sd)
    )
    cases = replace(
        use.cases, less_energy=less, more_energy=more, less_used=middle, more_used=middle,
        steady_sd_share=(0.0, 0.0), yearly_sd_share=(yearly_sd, yearly_sd), every=None,
    )  # fmt: skip
    return worth(energy, replace(use, cases=cases), setting, AS_OF)


def test_the_first_years_saving_has_the_whole_spread_of_one_year():
    """One year does not even out: a poor year saves what the poor year gives, no less and no more."""
    got = only_weather(setup(household=LONG_STAY)).saving_first_year
    assert got.cautious / got.middle == pytest.approx(1 - Z_90 * 0.1)
    assert got.hopeful / got.middle == pytest.approx(1 + Z_90 * 0.1)


def test_over_the_years_weather_evens_out_and_the_price_to_come_does_not():
    """Of n equal years the weather's spread of the mean is a root of n smaller; the price's is 5 % of the level."""
    level = money(inverter_swap=None, discount_rate_share=0.0, price_growth_share=0.0, ageing_share_per_year=0.0)
    got = only_weather(setup(household=LONG_STAY, money=level))
    saved = got.net_present_value.middle + got.outlay
    width = (got.net_present_value.hopeful - got.net_present_value.middle) / saved
    assert width == pytest.approx(Z_90 * np.hypot(0.1 / np.sqrt(15), 0.05))


def test_a_figure_without_a_band_is_as_sure_as_the_price_to_come():
    got = plain()
    flows = np.array([0.0, *(flow.saving for flow in got.yearly_flows[1:])])
    step = got.net_present_value.hopeful - got.net_present_value.middle
    assert step == pytest.approx(Z_90 * 0.05 * net_present_value(0.03, flows))


def dark_year(night_draw_w):
    """No light from 20 to 5 o'clock of standard time, and what the inverter draws then."""
    hour = np.arange(8760) % 24
    lit = (hour >= 5) & (hour < 20)
    energy = energy_year()
    return replace(
        energy, ac_w=energy.ac_w * lit, dc_w=(energy.dc_w[0] * lit,),
        night_draw_kwh=night_draw_w * np.count_nonzero(energy.dc_w[0] * lit <= 0) / 1000,
    )  # fmt: skip


def test_what_the_inverter_draws_by_night_is_bought_every_year():
    level = money(inverter_swap=None, price_growth_share=0.0, ageing_share_per_year=0.02)
    quiet, hungry = (value(dark_year(watts), money=level) for watts in (0.0, 5.0))
    kwh = dark_year(5.0).night_draw_kwh
    assert kwh > 15
    for free, paid in zip(quiet.yearly_flows[1:], hungry.yearly_flows[1:], strict=True):
        assert free.saving - paid.saving == pytest.approx(kwh * 0.34)
    for end in ("cautious", "middle", "hopeful"):
        lost = getattr(quiet.saving_first_year, end) - getattr(hungry.saving_first_year, end)
        assert lost == pytest.approx(kwh * 0.34)


def test_by_night_it_is_bought_at_the_price_of_the_night():
    """In the dark hours, 20 to 5 o'clock of standard time, an hour later in summer: all within the cheap rate."""
    night = Rate(name=None, months=None, days=None, from_clock="20:00", to_clock="06:00", import_price_per_kwh=0.1,
                 export_price_per_kwh=None)  # fmt: skip
    two_rates = tariff(periods=(replace(tariff().periods[0], rates=(night,)),))
    quiet, hungry = (value(dark_year(watts), tariff=two_rates) for watts in (0.0, 5.0))
    lost = quiet.saving_first_year.middle - hungry.saving_first_year.middle
    assert lost == pytest.approx(dark_year(5.0).night_draw_kwh * 0.1, rel=1e-9)


def test_the_first_year_has_the_whole_spread_of_one_year_whether_weather_or_not():
    steady, weather = (energy_year(spread=(SpreadPart(code, 0.06),)) for code in ("model", "year_to_year"))
    one, other = value(steady), value(weather)
    for end in ("cautious", "middle", "hopeful"):
        assert getattr(one.saving_first_year, end) == pytest.approx(getattr(other.saving_first_year, end))
    assert one.worth_up_to.cautious < other.worth_up_to.cautious  # over the years weather evens out


def two_periods(second_from, first="netted", second="unpaid"):
    return tariff(
        periods=tuple(
            TariffPeriod(valid_from=day, import_price_per_kwh=0.30, export=export, export_price_per_kwh=0.0)
            for day, export in (("2026-01-01", first), (second_from, second))
        )
    )


def test_the_simple_payback_goes_through_the_periods_of_the_tariff():
    """640 kWh, 55 % used, at 0.30, netted for 36 days: 344 over the first year, and over the years after it."""
    level = money(inverter_swap=None, ageing_share_per_year=0.0, price_growth_share=0.0)
    got = plain(tariff=two_periods("2026-12-31"), money=level)
    later = 0.30 * 640 * 0.55
    first = later + 0.30 * 640 * 0.45 * 36 / 365
    assert got.saving_first_year.middle == pytest.approx(first)
    assert got.simple_payback_years.middle == pytest.approx(1 + (344 - first) / later)
    whole_year = plain(tariff=two_periods("2026-11-25"), money=level)  # netting ends as the question is asked
    assert whole_year.simple_payback_years.middle == pytest.approx(344 / later)


@pytest.mark.parametrize("years", [3, 8, 20, 40])
def test_a_period_that_changes_nothing_moves_no_simple_payback_and_nor_does_the_horizon(years):
    growing = money(inverter_swap=None, ageing_share_per_year=0.005, price_growth_share=0.03, years=years)
    one = plain(tariff=tariff(periods=two_periods("2026-06-01").periods[:1]), money=growing)
    split = plain(tariff=two_periods("2026-12-31", second="netted"), money=growing)
    for end in ("cautious", "middle", "hopeful"):
        assert getattr(split.simple_payback_years, end) == pytest.approx(getattr(one.simple_payback_years, end))
    assert one.simple_payback_years.middle == pytest.approx(344 / (0.30 * 640))


def test_a_bid_rests_on_the_weather_of_its_own_years():
    """Ten years even out more than three, and each as the root of its number."""
    level = money(inverter_swap=None, discount_rate_share=0.0, price_growth_share=0.0, ageing_share_per_year=0.0)
    got = only_weather(setup(household=LONG_STAY, money=level))
    for bid in got.break_even:
        width = (bid.worth_up_to.hopeful - bid.worth_up_to.middle) / bid.worth_up_to.middle
        assert width == pytest.approx(Z_90 * np.hypot(0.1 / np.sqrt(bid.years), 0.05))


def test_a_payback_rests_on_the_weather_of_the_years_until_then():
    level = money(inverter_swap=None, discount_rate_share=0.0, price_growth_share=0.0, ageing_share_per_year=0.0)
    got = only_weather(setup(household=LONG_STAY, money=level))
    years = got.undiscounted_payback_years
    assert got.simple_payback_years.middle > 2
    width = Z_90 * np.hypot(0.1 / np.sqrt(got.simple_payback_years.middle), 0.05)
    assert years.middle / years.cautious == pytest.approx(1 - width)
    assert years.middle / years.hopeful == pytest.approx(1 + width)


def dated(*rows):
    return tariff(
        periods=tuple(
            TariffPeriod(valid_from=day, import_price_per_kwh=price, export=export, export_price_per_kwh=0.0)
            for day, price, export in rows
        )
    )


def month_sums(power_w):
    return np.bincount(CALENDAR.month - 1, weights=power_w, minlength=12) / 1000.0


def test_a_rule_of_one_month_is_worth_what_is_sent_out_in_it():
    """Netted in December alone, from a year that begins with it: the sum over December's hours, not a twelfth."""
    energy, free = energy_year(), money(price_growth_share=0.0)
    setting = setup(tariff=dated(("2026-01-01", 0.34, "netted"), ("2027-01-01", 0.34, "unpaid")), money=free)
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    got = worth(energy, use, setting, date(2026, 12, 1)).saving_first_year.middle
    sent_out = month_sums(energy.ac_w - use.self_used_w)
    assert sent_out[11] < 0.03 * sent_out.sum()
    assert got == pytest.approx(0.34 * (use.self_used_kwh.middle + sent_out[11]))


def test_a_price_of_one_month_is_paid_for_what_is_used_in_it():
    energy = energy_year()
    setting = setup(tariff=dated(("2026-01-01", 0.34, "unpaid"), ("2026-12-01", 0.90, "unpaid"),
                                 ("2027-01-01", 0.34, "unpaid")))  # fmt: skip
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    used = month_sums(use.self_used_w)
    got = worth(energy, use, setting, date(2026, 7, 1)).saving_first_year.middle
    assert got == pytest.approx(0.34 * used.sum() + 0.56 * used[11])


def test_netting_that_ends_within_the_year_is_limited_by_what_is_drawn_until_then():
    """A glut in June that the home's June cannot take is not met by the demand of the rest of the year."""
    energy = energy_year(6000.0)
    home = household(demand_kwh_per_year=1500, stay_years=None)
    setting = setup(household=home, tariff=dated(("2026-01-01", 0.34, "netted"), ("2026-07-01", 0.34, "unpaid")))
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    june, used = use.cases.middle.demand_kwh[5], month_sums(use.self_used_w)
    assert month_sums(energy.ac_w)[5] > june
    got = worth(energy, use, setting, date(2026, 6, 1)).saving_first_year.middle
    assert got == pytest.approx(0.34 * (used.sum() + june - used[5]))
