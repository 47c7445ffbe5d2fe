"""What is not known of the energy may lie towards less, towards more, or both: so do saving, value and payback."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.model.band import Z_90, SpreadPart
from service.core.worth import use_at_home, worth
from service.core.worth.bands import PRICE_SD_SHARE
from service.data.households import load_demand_shape
from tests.builders import household, money, outlay, setup
from tests.energy_years import CALENDAR, energy_year
from tests.properties.test_money import flat_tariff, times

AS_OF = date(2026, 11, 25)
SHAPE = load_demand_shape()
HAIR = 1e-6
PAYBACKS = ("simple_payback_years", "undiscounted_payback_years", "discounted_payback_years", "lasting_payback_years")

SDS = st.floats(0, 0.15)  # of four parts, so that no lower end is cut off at nought
SYMMETRIC = st.builds(SpreadPart, st.sampled_from(["climate_data", "year_to_year", "model"]), SDS)
TO_LESS = st.builds(lambda code, sds: SpreadPart(code, max(sds), min(sds)), st.sampled_from(["plane", "shade"]),
                    st.tuples(SDS, SDS))  # fmt: skip
ANY = st.builds(SpreadPart, st.sampled_from(["plane", "shade", "rating"]), SDS, SDS)


def spreads(one):
    return st.lists(one, max_size=4).map(tuple)


PAID = st.sampled_from(["unpaid", "paid"])
HOMES = st.builds(
    lambda demand, stay: household(demand_kwh_per_year=demand, stay_years=stay),
    st.floats(100, 6000),
    st.integers(1, 20),
)


def account(kwh, spread, home, tariff, **terms):
    setting = setup(household=home, tariff=tariff, outlay=outlay(set=300.0), money=money(**terms))
    energy = energy_year(kwh, spread)
    found = worth(energy, use_at_home(energy, setting, CALENDAR, SHAPE), setting, AS_OF)
    assert found is not None
    return energy, found


@given(st.floats(50, 2000), spreads(st.one_of(SYMMETRIC, ANY)), HOMES, PAID, st.floats(0, 0.34))
def test_bands_of_money_are_ordered_whichever_side_of_the_energy_is_longer(kwh, spread, home, export, pay):
    _, found = account(kwh, spread, home, flat_tariff(0.34, export, pay))
    for rising in (
        found.saving_first_year,
        found.net_present_value,
        found.worth_up_to,
        found.if_moving_after_years.gain,
    ):
        assert rising.cautious <= rising.middle <= rising.hopeful
    for name in PAYBACKS:
        cautious, middle, hopeful = times(getattr(found, name))
        assert cautious >= middle >= hopeful


@given(st.floats(50, 2000), spreads(st.one_of(SYMMETRIC, ANY)), st.integers(1, 20))
def test_where_each_kwh_saves_alike_the_bands_of_money_are_those_of_the_energy(kwh, spread, years):
    """Surplus earns what is saved at home. Of n years' sum the weather's doubt is a root of n less, on each side."""
    energy, found = account(
        kwh, spread, household(stay_years=years), flat_tariff(0.34, "paid", 0.34), years=20, discount_rate_share=0.0,
        price_growth_share=0.0, ageing_share_per_year=0.0, inverter_swap=None,
    )  # fmt: skip
    saving, year = found.saving_first_year, energy.year_kwh
    assert [saving.cautious, saving.hopeful] == pytest.approx([0.34 * year.cautious, 0.34 * year.hopeful], abs=HAIR)
    less, more = (
        np.sqrt(sum((sd / years**0.5 if weather else sd) ** 2 for weather, sd in side)) for side in _sides(spread)
    )
    whole, gain = years * saving.middle, found.if_moving_after_years.gain
    assert gain.middle - gain.cautious == pytest.approx(whole * Z_90 * np.hypot(less, PRICE_SD_SHARE))
    assert gain.hopeful - gain.middle == pytest.approx(whole * Z_90 * np.hypot(more, PRICE_SD_SHARE))


def _sides(spread):
    """To less and to more, of each part whether it is weather and its standard deviation."""
    pairs = [(part.code == "year_to_year", part) for part in spread]
    yield [(weather, part.relative_sd_share) for weather, part in pairs]
    yield [(weather, part.relative_sd_share if part.upward_sd_share is None else part.upward_sd_share)
           for weather, part in pairs]  # fmt: skip


@given(st.floats(50, 2000), spreads(st.one_of(SYMMETRIC, TO_LESS)), HOMES, PAID, st.floats(0, 0.34))
def test_a_longer_way_to_less_energy_is_a_longer_way_to_less_money(kwh, spread, home, export, pay):
    _, found = account(kwh, spread, home, flat_tariff(0.34, export, pay))
    for band in (found.saving_first_year, found.net_present_value):
        assert band.middle - band.cautious >= (band.hopeful - band.middle) * (1 - HAIR)


@given(st.floats(50, 2000), spreads(SYMMETRIC), ANY, st.booleans(), HOMES, PAID, st.floats(0, 0.34))
def test_a_doubt_less_widens_no_band_of_money_and_one_towards_less_alone_leaves_the_hopeful_end(
    kwh, spread, doubt, one_sided, home, export, pay
):
    tariff = flat_tariff(0.34, export, pay)
    if one_sided:
        doubt = replace(doubt, upward_sd_share=0.0)
    (_, silent), (_, told) = (account(kwh, one, home, tariff) for one in ((*spread, doubt), spread))
    for name in ("saving_first_year", "net_present_value", "worth_up_to"):
        wide, narrow = getattr(silent, name), getattr(told, name)
        slack = HAIR * max(abs(narrow.hopeful), 1.0)
        assert narrow.cautious >= wide.cautious - slack
        assert narrow.hopeful <= wide.hopeful + slack
        if one_sided:
            assert narrow.hopeful == pytest.approx(wide.hopeful, rel=1e-9, abs=1e-9)
    for name in PAYBACKS:
        sooner, later = (times(getattr(one, name))[0] for one in (told, silent))
        assert sooner <= later * (1 + HAIR)
