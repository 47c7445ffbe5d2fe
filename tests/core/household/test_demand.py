"""The hourly demand of the home through the year."""

import numpy as np
import pytest

from service.core.errors import ContradictionError
from service.core.household import demand_w
from service.core.model.facts import AtHome, Machine
from service.core.sky import calendar_of
from service.data.households import load_demand_shape
from tests.builders import household

CALENDAR = calendar_of("Europe/Berlin", 13.4)
SHAPE = load_demand_shape()
WEEKDAY = CALENDAR.weekday < 5


def year_kwh(power_w):
    return power_w.sum() / 1000.0


def at_clock(power_w, hour, rows=None):
    picked = CALENDAR.clock_h == hour
    return power_w[picked if rows is None else picked & rows].mean()


def test_the_year_adds_up_to_the_stated_demand():
    assert year_kwh(demand_w(household(), CALENDAR, SHAPE)) == pytest.approx(1900, rel=1e-12)


def test_the_home_never_draws_less_than_its_always_on_power():
    home = household(always_on_w=150)
    demand = demand_w(home, CALENDAR, SHAPE)
    assert demand.min() == pytest.approx(150)
    assert year_kwh(demand) == pytest.approx(1900)


def test_an_always_on_power_above_the_mean_makes_demand_flat():
    demand = demand_w(household(always_on_w=5000), CALENDAR, SHAPE)
    np.testing.assert_allclose(demand, 1900e3 / 8760)


def test_a_home_without_demand_draws_nothing():
    assert not demand_w(household(demand_kwh_per_year=0), CALENDAR, SHAPE).any()


def test_evenings_draw_more_than_nights_on_the_wall_clock_in_summer_too():
    demand = demand_w(household(), CALENDAR, SHAPE)
    summer = CALENDAR.month == 7
    assert at_clock(demand, 19, summer) > 1.5 * at_clock(demand, 3, summer)


def test_winter_draws_more_than_summer_on_either_side_of_the_equator():
    north = demand_w(household(), CALENDAR, SHAPE)
    south = demand_w(household(), CALENDAR, SHAPE, southern=True)
    january, july = CALENDAR.month == 1, CALENDAR.month == 7
    assert north[january].mean() > north[july].mean()
    assert south[january].mean() < south[july].mean()
    assert year_kwh(south) == pytest.approx(1900)


def test_an_empty_flat_on_weekdays_draws_less_at_noon_and_more_in_the_evening():
    plain = demand_w(household(), CALENDAR, SHAPE)
    away = household(at_home=AtHome(weekday=((6, 8), (17, 23)), weekend=((8, 23),)))
    moved = demand_w(away, CALENDAR, SHAPE)
    assert at_clock(moved, 12, WEEKDAY) < 0.7 * at_clock(plain, 12, WEEKDAY)
    assert at_clock(moved, 19, WEEKDAY) > at_clock(plain, 19, WEEKDAY)
    assert year_kwh(moved) == pytest.approx(1900)
    assert moved[WEEKDAY].sum() == pytest.approx(plain[WEEKDAY].sum())


def test_hours_at_home_given_for_the_weekend_alone_leave_weekdays_as_they_are():
    plain = demand_w(household(), CALENDAR, SHAPE)
    moved = demand_w(household(at_home=AtHome(weekday=(), weekend=((8, 12),))), CALENDAR, SHAPE)
    np.testing.assert_allclose(moved[WEEKDAY], plain[WEEKDAY])
    assert not np.allclose(moved[~WEEKDAY], plain[~WEEKDAY])


def test_a_span_over_midnight_and_part_hours_count():
    late = household(at_home=AtHome(weekday=((22.5, 2),), weekend=()))
    demand, plain = demand_w(late, CALENDAR, SHAPE), demand_w(household(), CALENDAR, SHAPE)
    gain = [at_clock(demand, hour, WEEKDAY) / at_clock(plain, hour, WEEKDAY) for hour in (1, 22, 12)]
    assert gain[0] > gain[1] > gain[2]


def test_a_machine_moves_its_energy_to_its_usual_hour():
    washing = Machine(name="washing", kwh_a_run=0.9, runs_per_week=7, usual_hour=12)
    plain, with_noon = (demand_w(household(machines=m), CALENDAR, SHAPE) for m in ((), (washing,)))
    assert year_kwh(with_noon) == pytest.approx(1900)
    rise = at_clock(with_noon, 12) - at_clock(plain, 12)
    later = at_clock(with_noon, 13) - at_clock(plain, 13)
    # 0.65 of 0.9 kWh heats in the first hour, the rest runs over two, each day; less what the home's rest gives up
    assert 600 < rise < 0.825 * 900
    assert 50 < later < 0.175 * 900


def test_machines_that_would_need_more_than_the_year_holds_are_cut_to_it():
    hungry = Machine(name="sauna", kwh_a_run=20, runs_per_week=14, usual_hour=23)
    demand = demand_w(household(machines=(hungry,)), CALENDAR, SHAPE)
    assert year_kwh(demand) == pytest.approx(1900)
    assert at_clock(demand, 12) == pytest.approx(60)


def test_own_day_repeats_on_the_wall_clock():
    demand = demand_w(household(values_w=tuple(float(h) for h in range(24))), CALENDAR, SHAPE)
    np.testing.assert_array_equal(demand, np.floor(CALENDAR.clock_h))


def test_own_week_begins_on_monday():
    demand = demand_w(household(values_w=tuple(float(h) for h in range(168))), CALENDAR, SHAPE)
    monday_nine = (CALENDAR.weekday == 0) & (CALENDAR.clock_h == 9)
    sunday_nine = (CALENDAR.weekday == 6) & (CALENDAR.clock_h == 9)
    assert set(demand[monday_nine]) == {9.0}
    assert set(demand[sunday_nine]) == {153.0}


def test_own_hours_are_taken_as_they_are_and_a_leap_day_is_left_out():
    values = np.arange(8760.0)
    np.testing.assert_array_equal(demand_w(household(values_w=tuple(values)), CALENDAR, SHAPE), values)
    leap = np.insert(values, (31 + 28) * 24, np.full(24, -1.0))
    np.testing.assert_array_equal(demand_w(household(values_w=tuple(leap)), CALENDAR, SHAPE), values)


def test_own_values_replace_the_yearly_figure():
    demand = demand_w(household(demand_kwh_per_year=9999, values_w=(100.0,) * 24), CALENDAR, SHAPE)
    assert year_kwh(demand) == pytest.approx(876)


def test_another_number_of_own_values_is_refused():
    with pytest.raises(ContradictionError) as caught:
        demand_w(household(values_w=(100.0,) * 25), CALENDAR, SHAPE)
    assert caught.value.given == 25


def day_shape(demand, month, weekday):
    """The first such day of the month, 24 clock hours relative to its mean."""
    rows = np.flatnonzero((CALENDAR.month == month) & (CALENDAR.weekday == weekday))[:24]
    by_clock = demand[rows][np.argsort(CALENDAR.clock_h[rows])]
    return by_clock / by_clock.mean()


def test_each_kind_of_day_and_month_takes_its_own_column_of_the_shape():
    demand = demand_w(household(always_on_w=0), CALENDAR, SHAPE)
    for weekday, kind in ((0, 0), (4, 0), (5, 1), (6, 2)):
        column = SHAPE.by_month_kind_hour[1, kind]
        np.testing.assert_allclose(day_shape(demand, 2, weekday), column / column.mean())


def test_a_southern_july_day_runs_like_a_northern_january_day():
    south = demand_w(household(always_on_w=0), CALENDAR, SHAPE, southern=True)
    column = SHAPE.by_month_kind_hour[0, 0]
    # The last hour before midnight of summer time belongs to the day before in standard time: its factor is another.
    np.testing.assert_allclose(day_shape(south, 7, 2), column / column.mean(), rtol=5e-3)


def plain_demand_w(home):
    """The same, hour by hour of the calendar, as it is told in words."""
    mean_w = home.demand_kwh_per_year * 1000 / 8760
    floor = min(home.always_on_w, mean_w)
    month, kind = CALENDAR.month - 1, np.clip(CALENDAR.weekday - 4, 0, 2)
    shape = SHAPE.by_month_kind_hour[month, kind, CALENDAR.clock_h.astype(int)]
    shape = shape * np.polynomial.polynomial.polyval(CALENDAR.day_of_year, SHAPE.day_polynomial)
    rest = np.maximum(mean_w * shape / shape.mean() - floor, 0)
    for rows, spans in ((WEEKDAY, home.at_home.weekday), (~WEEKDAY, home.at_home.weekend)):
        begins = CALENDAR.clock_h[rows]
        about = sum(np.clip(np.minimum(begins + 1, end) - np.maximum(begins, start), 0, 1) for start, end in spans)
        weighted = rest[rows] * (0.35 + 0.65 * about)
        rest[rows] = weighted * rest[rows].sum() / weighted.sum()
    machines = np.zeros(8760)
    for one in home.machines:
        machines += (CALENDAR.clock_h == one.usual_hour) * (0.65 + 0.175) * one.kwh_a_run * one.runs_per_week / 7 * 1000
        machines += (CALENDAR.clock_h == one.usual_hour + 1) * 0.175 * one.kwh_a_run * one.runs_per_week / 7 * 1000
    machines *= min((mean_w - floor) / max(machines.mean(), 1e-9), 1)
    return floor + machines + rest * (mean_w - floor - machines.mean()) / rest.mean()


@pytest.mark.parametrize("machines", [(), (("washing", 0.9, 4, 19),), (("washing", 0.9, 4, 7), ("car", 12, 5, 2))])
@pytest.mark.parametrize("weekday", [((6, 8), (17, 23)), ((0, 5.5), (9.25, 9.75)), ()])
def test_demand_by_hours_of_the_clock_is_that_of_the_plain_way(machines, weekday):
    named = tuple(Machine(name=n, kwh_a_run=kwh, runs_per_week=runs, usual_hour=at) for n, kwh, runs, at in machines)
    home = household(machines=named, at_home=AtHome(weekday=weekday, weekend=((8, 23),)))
    np.testing.assert_allclose(demand_w(home, CALENDAR, SHAPE), plain_demand_w(home), rtol=1e-9)
