"""Home, tariff and account are filled from dated figures, or left open where there is none."""

import pytest

from service.core.completion.defaults import row_for
from service.core.errors import ContradictionError
from tests.requests import AS_OF, SMALLEST, asked, with_panel


def test_two_persons_in_a_flat_use_what_the_published_mean_says():
    household = asked(with_panel()).setup.household
    assert (household.persons, household.demand_kwh_per_year) == (2, 1900)  # Stromspiegel 2025 as quoted


@pytest.mark.parametrize(("values", "kwh"), [([100.0] * 24, 876), ([50.0] * 168, 438), ([200.0] * 8760, 1752)])
def test_the_homes_own_hours_make_its_demand(values, kwh):
    request = {**with_panel(), "household": {"demand": {"values_w": values}}}
    household = asked(request).setup.household
    assert household.demand_kwh_per_year == pytest.approx(kwh)
    assert household.always_on_w == 0.15 * values[0]  # an even list tells a mean, not what is always on
    assert household.values_w == tuple(values)


def test_a_list_of_hours_of_no_usual_length_is_refused():
    with pytest.raises(ContradictionError) as error:
        asked({**with_panel(), "household": {"demand": {"values_w": [1.0] * 23}}})
    assert error.value.pointer == "/household/demand/values_w"


def test_a_price_from_the_table_is_reported_with_its_period_and_source():
    completed = asked(with_panel())
    price = completed.assumptions.by_pointer["/tariff/periods/0/import_price_per_kwh"]
    assert (price.value, price.code) == (0.3325, "price_of_area")  # 0.38 less an eighth: fixed charges inside
    assert "2025-S2" in price.source
    assert (price.low, price.high) == (0.285, 0.38)  # a kWh saved is worth less than the average, never more
    assert completed.setup.tariff.periods[0].valid_from == f"{AS_OF.year}-01-01"


def test_where_no_price_is_known_none_is_borrowed():
    completed = asked(with_panel(), country="UY")
    assert completed.setup.tariff is None
    assert not completed.assumptions.assumed("/tariff")


def test_a_price_in_another_currency_is_no_figure_for_the_caller():
    assert asked({**with_panel(), "tariff": {"currency": "CHF"}}).setup.tariff is None


def test_a_given_price_without_a_currency_takes_the_areas():
    request = {**with_panel(), "tariff": {"periods": [{"import_price_per_kwh": 0.3}]}}
    tariff = asked(request).setup.tariff
    assert (tariff.currency, tariff.periods[0].import_price_per_kwh, tariff.periods[0].export) == ("EUR", 0.3, "unpaid")
    with pytest.raises(ContradictionError) as error:
        asked(request, country="UY")
    assert error.value.pointer == "/tariff/currency"


def test_periods_out_of_order_are_refused():
    periods = [{"valid_from": day, "import_price_per_kwh": 0.3} for day in ("2027-01-01", "2026-01-01")]
    with pytest.raises(ContradictionError) as error:
        asked({**with_panel(), "tariff": {"currency": "EUR", "periods": periods}})
    assert error.value.pointer == "/tariff/periods/1/valid_from"


def test_an_empty_outlay_is_no_outlay():
    assert asked({**with_panel(), "outlay": {"items": []}}).setup.outlay is None


def test_no_inverter_swap_is_counted_unless_said_and_that_is_written_down():
    completed = asked(with_panel())
    assert completed.setup.money.inverter_swap is None
    assert completed.assumptions.by_pointer["/money/inverter_swap"].code == "no_swap_counted"


@pytest.mark.parametrize(("area", "volts"), [("DE", 230), ("US-UT", 120), ("JP", 100)])
def test_the_sockets_voltage_follows_the_country(area, volts):
    request = {**with_panel(), "socket_circuit": {}}
    request["site"] = {**request["site"], "rule_area": area}
    assert asked(request).setup.socket_circuit.voltage_v == volts


def test_the_coldest_air_is_an_estimate_with_a_range_and_a_given_one_is_kept():
    estimate = asked(with_panel()).assumptions.by_pointer["/site/coldest_air_c"]
    assert (estimate.value, estimate.low, estimate.high) == (-15, -20, -10)
    assert "estimate" in estimate.source
    request = with_panel()
    request["site"] = {**request["site"], "coldest_air_c": -9}
    assert asked(request).setup.site.coldest_air_c == -9


def test_a_place_without_a_country_is_said_to_have_none():
    assert asked(with_panel(), country=None).setup.site.rule_area == "ZZ"


@pytest.mark.parametrize(("persons", "kwh"), [(1, 1300), (2, 1900), (4, 2900), (6, 3900)])
def test_the_demand_of_a_flat_and_its_range_are_those_that_the_table_of_defaults_states(persons, kwh):
    assumed = asked({**SMALLEST, "household": {"persons": persons}}).assumptions.by_pointer
    demand = assumed["/household/demand_kwh_per_year"]
    assert "1300, 1900, 2500, 2900, then 500 a head; low and high 0.6 and 1.6" in row_for(demand.pointer).rule
    assert (demand.value, demand.low, demand.high) == pytest.approx((kwh, 0.6 * kwh, 1.6 * kwh))


def test_the_share_that_runs_day_and_night_is_the_one_measured():
    assumed = asked({**SMALLEST, "household": {"demand_kwh_per_year": 4380}}).assumptions.by_pointer
    always_on = assumed["/household/always_on_w"]
    # 500 W in the mean; 0.147 of it measured (5th percentile of a year of minutes, UCI household record, CC BY 4.0)
    assert "0.147 measured in one home" in row_for(always_on.pointer, "share_of_demand").source
    assert always_on.value / 500 == pytest.approx(0.147, abs=0.005)
    assert (always_on.low, always_on.high) == pytest.approx((0.08 * 500, 0.3 * 500))
