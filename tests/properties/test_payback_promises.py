"""Promises about what to bid, what moves the payback, moving out and faulty panels."""

from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from service.core.model.band import Band
from service.core.model.facts import Fetching, InverterSwap, OutlayItem, Tariff, TariffPeriod
from service.core.worth import worth_of_energy
from tests.builders import money
from tests.builders import outlay as outlay_of

AS_OF = date(2026, 11, 25)

PRICES = st.floats(0.01, 1.0)
SHARES = st.floats(0, 1)
OUTLAYS = st.floats(1, 3000)
BANDS = st.builds(
    lambda kwh, reach: Band(kwh * (1 - reach), kwh, kwh * (1 + reach)), st.floats(1, 2000), st.floats(0, 0.4)
)
SWAPS = st.one_of(
    st.none(), st.builds(lambda y, a: InverterSwap(year=y, amount=a), st.integers(1, 20), st.floats(0, 400))
)
ACCOUNTS = st.builds(
    lambda years, rate, growth, ageing, swap, resale: money(
        years=years, discount_rate_share=rate, price_growth_share=growth, ageing_share_per_year=ageing,
        inverter_swap=swap, resale_share=resale,
    ),
    st.integers(1, 40), st.floats(0, 0.15), st.floats(-0.05, 0.08), st.floats(0, 0.03), SWAPS, st.floats(0, 0.6),
)  # fmt: skip
FETCHINGS = st.builds(
    lambda km, per_km, trips: Fetching(km=km, per_km=per_km, trips=trips, hours=0, per_hour=0),
    st.floats(0, 200),
    st.floats(0, 1),
    st.integers(1, 4),
)


def tariff(price, export="unpaid", pay=0.0, currency="EUR"):
    period = TariffPeriod(valid_from="2026-01-01", import_price_per_kwh=price, export=export, export_price_per_kwh=pay)
    return Tariff(currency=currency, periods=(period,))


def asked(band, share, price, paid, account, stay=None):
    paid = paid if paid is None or not isinstance(paid, float) else outlay_of(set=paid)
    return worth_of_energy(band, share, tariff(price), paid, account, AS_OF, stay_years=stay)


@given(BANDS, st.floats(0.05, 1), PRICES, ACCOUNTS)
def test_asking_again_with_a_bid_is_paid_back_in_just_those_years(band, share, price, account):
    """The account ended there, with a sale where the bid counts one; if its end earns nothing, never later."""
    for bid in asked(band, share, price, None, account).break_even:
        most = bid.worth_up_to.middle
        assume(most > 1e-6)
        ended = replace(account, years=bid.years, resale_share=account.resale_share if bid.by_selling else 0.0)
        again = asked(band, share, price, most, ended)
        lasting = again.lasting_payback_years.middle
        earns = again.yearly_flows[-1].saving > again.yearly_flows[-1].cost
        assert lasting == pytest.approx(bid.years, abs=1e-6) if earns else lasting <= bid.years
        dearer = asked(band, share, price, most * 1.001 + 0.01, ended)
        assert dearer.lasting_payback_years.middle is None


@given(BANDS, st.floats(0.05, 1), PRICES, ACCOUNTS)
def test_without_a_swap_a_bid_is_paid_back_in_those_years_of_the_whole_account_too(band, share, price, account):
    account = replace(account, inverter_swap=None)
    for bid in asked(band, share, price, None, account).break_even:
        again = asked(band, share, price, bid.worth_up_to.middle, account)
        assert again.discounted_payback_years.middle == pytest.approx(bid.years, abs=1e-6)


@given(BANDS, SHARES, PRICES, ACCOUNTS, st.integers(0, 40))
def test_bids_are_ordered_and_a_shorter_stay_only_cuts_the_list(band, share, price, account, stay):
    whole = {one.years: one.worth_up_to for one in asked(band, share, price, None, account).break_even}
    short = asked(band, share, price, None, account, stay)
    assert [one.years for one in short.break_even] == sorted({one.years for one in short.break_even})
    for one in short.break_even:
        assert one.years <= short.years_kept
        assert 0 <= one.worth_up_to.cautious <= one.worth_up_to.middle <= one.worth_up_to.hopeful
        if not one.by_selling:  # a stay that ends with a sale counts what that brings
            assert one.worth_up_to == whole.get(one.years, one.worth_up_to)
    if short.years_kept:
        last = short.break_even[-1].worth_up_to
        assert (last.cautious, last.middle, last.hopeful) == pytest.approx(
            (short.worth_up_to.cautious, short.worth_up_to.middle, short.worth_up_to.hopeful), abs=1e-9
        )


@given(BANDS, SHARES, PRICES, OUTLAYS, ACCOUNTS)
def test_the_table_of_what_moves_the_payback_is_sorted(band, share, price, paid, account):
    got = asked(band, share, price, paid, account)
    now = got.discounted_payback_years.middle
    effects = []
    for one in got.sensitivity:
        assert (one.payback_years_change is None) == (now is None or one.payback_years is None)
        turned = (now is None) != (one.payback_years is None)
        moved = float("inf") if turned else -1.0 if now is None else abs(one.payback_years - now)
        effects.append((moved, abs(one.net_present_value_change)))
    for larger, smaller in pairwise(effects):
        assert larger[0] >= smaller[0] - 1e-9


@given(BANDS, SHARES, PRICES, OUTLAYS, ACCOUNTS)
def test_a_step_to_the_better_is_never_paid_back_later(band, share, price, paid, account):
    found = {(one.of, one.change_share > 0): one for one in asked(band, share, price, paid, account).sensitivity}
    for of in ("price", "yield", "self_use", "outlay"):
        worse, better = (found[of, more].payback_years for more in ((True, False) if of == "outlay" else (False, True)))
        assert worse is None or better is not None
        assert worse is None or better <= worse + 1e-9


ADDITIONS = st.fixed_dictionaries(
    {
        "fetching": FETCHINGS,
        "freight": st.floats(0, 300),
        "registration": st.floats(0, 100),
        "faulty_share": st.floats(0, 0.5),
    }
)


@given(BANDS, SHARES, PRICES, OUTLAYS, ACCOUNTS, ADDITIONS)
def test_what_comes_on_top_of_the_things_never_shortens_the_payback(band, share, price, paid, account, additions):
    panels = (OutlayItem(what="panels", amount=paid, second_hand=True),)
    bare = outlay_of({"items": panels})
    full = replace(bare, **additions)
    without, with_all = (asked(band, share, price, one, account) for one in (bare, full))
    assert with_all.outlay >= without.outlay
    assert with_all.expected_year_kwh <= without.expected_year_kwh
    for sooner, later in zip(*(_times(one.discounted_payback_years) for one in (without, with_all)), strict=True):
        assert sooner <= later + 1e-9
    assert with_all.yearly_flows[-1].resale == without.yearly_flows[-1].resale


DATED = st.lists(
    st.tuples(
        st.sampled_from(["2026-03-01", "2027-01-01", "2028-05-17", "2029-12-01", "2033-07-01"]),
        st.sampled_from([0.1, 0.299, 0.3, 0.301]),
        st.sampled_from(["unpaid", "paid", "netted"]),
    ),
    min_size=1,
    max_size=4,
    unique_by=lambda one: one[0],
)


REPEATED = [("2026-03-01", 0.3, "unpaid"), ("2029-12-01", 0.3, "unpaid")]


@given(BANDS, SHARES, OUTLAYS, ACCOUNTS, DATED, st.sampled_from([0.001, 0.05, 0.3]))
@example(Band(640.0, 640.0, 640.0), 0.55, 900.0, money(price_growth_share=0.04, inverter_swap=None), REPEATED, 0.001)
def test_a_higher_price_in_any_one_period_never_lengthens_the_payback(band, share, paid, account, dated, dearer):
    """Of a price that is stated again and one that differs by a tenth of a cent, too: equal is no special case."""

    def times(raised):
        periods = tuple(
            TariffPeriod(valid_from=day, import_price_per_kwh=price + (dearer if at == raised else 0.0), export=export,
                         export_price_per_kwh=0.05)
            for at, (day, price, export) in enumerate(dated)
        )  # fmt: skip
        got = worth_of_energy(
            band, share, Tariff(currency="EUR", periods=periods), outlay_of(set=paid), account, AS_OF,
            demand_kwh_per_year=1500.0,
        )  # fmt: skip
        bands = got.simple_payback_years, got.undiscounted_payback_years, got.discounted_payback_years
        return [_times(one)[1] for one in bands]

    before = times(None)
    for raised in range(len(dated)):
        for now, then in zip(times(raised), before, strict=True):
            assert now <= then + 1e-9


def _times(band):
    return [float("inf") if years is None else years for years in (band.cautious, band.middle, band.hopeful)]


@given(BANDS, SHARES, PRICES, OUTLAYS, ACCOUNTS, st.integers(0, 40))
def test_moving_out_leaves_what_the_flows_add_up_to(band, share, price, paid, account, stay):
    got = asked(band, share, price, paid, account, stay)
    assert got.if_moving_after_years.years == got.years_kept == min(account.years, stay)
    total = sum(flow.saving + flow.resale - flow.cost for flow in got.yearly_flows)
    assert got.if_moving_after_years.gain.middle == pytest.approx(total, abs=1e-6)


@given(BANDS, SHARES, PRICES, OUTLAYS, ACCOUNTS, st.sampled_from([0.01, 100.0]))
def test_an_account_in_a_smaller_coin_is_the_same_account(band, share, price, paid, account, rate):
    """Every amount is in the one currency: all money of the request times a rate gives all money of the answer so."""
    swap = account.inverter_swap
    swap = None if swap is None else replace(swap, amount=swap.amount * rate)
    one = asked(band, share, price, paid, account)
    other = asked(band, share, price * rate, paid * rate, replace(account, inverter_swap=swap))
    assert _times(other.discounted_payback_years) == pytest.approx(_times(one.discounted_payback_years), rel=1e-6)
    assert other.net_present_value.middle == pytest.approx(one.net_present_value.middle * rate, rel=1e-6, abs=1e-6)
    for here, there in zip(one.break_even, other.break_even, strict=True):
        assert there.worth_up_to.middle == pytest.approx(here.worth_up_to.middle * rate, rel=1e-6, abs=1e-6)
