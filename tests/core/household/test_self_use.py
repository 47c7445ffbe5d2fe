"""How much of the production is used at home within an hour."""

import numpy as np
import pytest
from scipy import integrate, stats

from service.core.household import k_of, k_of_quarters, on_one_phase_w, self_use_sd_share, self_used_w, with_allowance_w
from tests.builders import household


def one(production, demand, always_on, k):
    return float(self_used_w(np.array([float(production)]), np.array([float(demand)]), always_on, k)[0])


def test_it_is_the_expectation_that_drawing_lots_gives():
    """Agreement with 4 million lots (fixed seed): within 0.1 %, three standard errors."""
    lots = np.random.default_rng(20261125).gamma(0.65, 170 / 0.65, 4_000_000)
    drawn = np.minimum(520.0, 70.0 + lots).mean()
    assert one(520, 240, 70, 0.65) == pytest.approx(drawn, rel=1e-3)


@pytest.mark.parametrize("k", [0.65, 0.85, 2.0, 3.5, 50.0])
@pytest.mark.parametrize(
    ("production", "demand", "always_on"), [(90, 240, 70), (520, 240, 70), (800, 90, 0), (5, 900, 3)]
)
def test_it_is_the_integral_of_the_definition(k, production, demand, always_on):
    """E[min(P, b + X)] = min(P, b) + integral of P(X > x) from 0 to P - b; agreement 1e-7 (quadrature)."""
    rest = stats.gamma(k, scale=(demand - always_on) / k)
    over, _ = integrate.quad(rest.sf, 0, production - always_on, epsabs=1e-9, epsrel=1e-9, limit=200)
    assert one(production, demand, always_on, k) == pytest.approx(always_on + over, rel=1e-7)


def test_no_more_is_used_than_the_always_on_power_where_demand_lies_below_it():
    assert one(520, 40, 70, 0.65) == 40
    assert one(30, 240, 70, 0.65) == 30


def test_the_hourly_minimum_flatters():
    assert one(300, 300, 60, 0.65) < 0.75 * 300


def test_a_flat_rest_gives_the_hourly_minimum():
    assert one(520, 240, 70, np.inf) == 240
    assert one(520, 240, 70, 1e7) == pytest.approx(240, rel=1e-6)


def test_more_even_demand_is_met_better():
    used = [one(400, 240, 70, k) for k in (0.3, 0.65, 2.0, 5.0)]
    assert used == sorted(used)


def test_huge_and_tiny_figures_stay_finite_and_within_the_bound():
    production, demand = np.array([1e-12, 1e5, 800.0, 0.0]), np.array([1e5, 1e-12, 60.0 + 1e-13, 500.0])
    used = self_used_w(production, demand, 60.0, 0.65)
    assert np.isfinite(used).all()
    assert (used <= np.minimum(production, demand)).all()


@pytest.mark.parametrize("k", [0.65, 0.86, 2.0, 3.5, 90.0])
def test_a_whole_year_agrees_with_its_single_hours(k):
    """Long series go through a table of the closed form, short ones do not: within 1e-6 of the demand."""
    lots = np.random.default_rng(3)
    production, demand = lots.uniform(0, 900, 8760), lots.gamma(2.0, 120.0, 8760)
    year = self_used_w(production, demand, 60.0, k)
    hours = [self_used_w(production[i : i + 100], demand[i : i + 100], 60.0, k) for i in range(0, 8760, 100)]
    np.testing.assert_allclose(year, np.concatenate(hours), atol=2e-4, rtol=1e-6)


SEASONS = (120.0,) * 4380 + (80.0,) * 4380  # an averaged year in which the seasons differ


def test_averaged_profiles_are_taken_wider_than_own_hours():
    assert k_of(household()) == pytest.approx(0.5)
    assert k_of(household(values_w=(100.0,) * 168)) == pytest.approx(0.5)
    assert k_of(household(values_w=SEASONS, values_kind="averaged")) == pytest.approx(0.65)
    assert k_of(household(values_w=(100.0,) * 8784)) == pytest.approx(2.0)


def test_a_year_that_repeats_one_week_tells_no_more_than_that_week():
    week = tuple(100.0 + hour % 24 for hour in range(168))
    year = (week * 53)[:8760]
    for one in (k_of, self_use_sd_share):
        assert one(household(values_w=year, values_kind="averaged")) == one(household(values_w=week))
    assert k_of(household(values_w=year, values_kind="own_hours")) == k_of(household(values_w=SEASONS))


def test_hours_filled_into_a_log_are_taken_wider_by_their_share():
    ks = [k_of(household(values_w=(100.0,) * 8760, filled_share=share)) for share in (1.0, 0.5, 0.1, 0.0)]
    assert ks == sorted(ks)
    assert ks[0] == pytest.approx(0.65)
    assert ks[-1] == pytest.approx(2.0)


@pytest.mark.parametrize("kind", ["own_hours", "averaged"])
def test_the_less_a_log_knows_the_nearer_its_spread_comes_to_that_of_a_yearly_figure(kind):
    shares = (0.0, 0.04, 0.3, 0.6, 1.0)
    sds = [self_use_sd_share(household(values_w=SEASONS, values_kind=kind, filled_share=share)) for share in shares]
    assert sds == sorted(set(sds))
    assert sds[-1] == pytest.approx(self_use_sd_share(household(values_w=None)))


@pytest.mark.parametrize("values", [None, (100.0,) * 8760])
def test_a_longer_netting_period_evens_demand_out(values):
    home = household(values_w=values)
    ks = [k_of(home, netting) for netting in ("instant", "quarter_hour", "hour")]
    assert ks == sorted(ks)
    assert k_of(home, "month") == k_of(home, "year") == k_of(home)


def test_own_hours_netted_by_the_hour_are_met_up_to_the_hourly_minimum():
    assert k_of(household(values_w=(100.0,) * 8760), "hour") == np.inf


def test_a_profile_of_another_home_is_less_sure_than_own_hours():
    shares = [self_use_sd_share(household(values_w=v)) for v in (None, (1.0,) * 24, (1.0,) * 8760)]
    assert shares == sorted(shares, reverse=True)


def test_an_even_day_is_no_surer_than_a_yearly_figure():
    even, shaped = (household(values_w=day) for day in ((300.0,) * 24, (100.0, 500.0) * 12))
    assert self_use_sd_share(even) == self_use_sd_share(household(values_w=None))
    assert self_use_sd_share(shaped) < self_use_sd_share(even)


def test_a_meter_that_does_not_sum_phases_sees_a_third_of_the_home():
    demand, always_on = on_one_phase_w(np.array([300.0, 90.0]), 60.0)
    np.testing.assert_allclose(demand, [100, 30])
    assert always_on == 20


def test_with_an_allowance_the_set_gives_what_is_used_and_what_may_be_sent_out():
    """E[min(P, D + L)] by drawing lots (fixed seed), within 0.1 %."""
    lots = 70.0 + np.random.default_rng(7).gamma(0.65, 170 / 0.65, 4_000_000)
    given = with_allowance_w(np.array([700.0]), np.array([240.0]), 70.0, 0.65, 200.0)
    assert given[0] == pytest.approx(np.minimum(700.0, lots + 200.0).mean(), rel=1e-3)


def test_without_allowance_only_self_use_is_left_and_with_a_large_one_nothing_is_lost():
    production, demand = np.array([100.0, 500.0, 800.0]), np.array([240.0, 240.0, 900.0])
    np.testing.assert_array_equal(
        with_allowance_w(production, demand, 70.0, 0.65, 0.0), self_used_w(production, demand, 70.0, 0.65)
    )
    np.testing.assert_allclose(with_allowance_w(production, demand, 70.0, 0.65, 800.0), production)


def test_quarter_hours_leave_less_unknown_than_hours_and_filled_ones_as_much_as_a_profile():
    def k(filled_share, netting="instant"):
        return k_of_quarters(household(values_w=(100.0,) * 35040, filled_share=filled_share), netting)

    assert k(0.0) > k_of(household(values_w=SEASONS))
    assert k(1.0) == pytest.approx(k_of(household(values_w=SEASONS, values_kind="averaged")))
    assert k(0.0) > k(0.3) > k(0.6) > k(1.0)
    assert k(0.0, "quarter_hour") == np.inf > k(0.3, "quarter_hour") > k(0.3)
