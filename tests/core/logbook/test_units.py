"""Which stretches of a log are in another unit, and which only look like it?"""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.logbook import Ceiling, Rows, log_of
from service.core.model.hours import Floats, Ints
from tests.logs import CEILING, DAY_S, FIRST_S, HOUR_S, counter_rows, log_from, notes_of, power_rows, utc

DAYS = 30


def day_of(rows: Rows) -> Ints:
    return np.asarray((rows.at_s - FIRST_S) // DAY_S)


def under_a_sky(rows: Rows, seed: int) -> Rows:
    """The same rows under a sky that changes from day to day, each value rounded as a log is."""
    sky = np.random.default_rng(seed).choice([1.0, 0.8, 0.4, 0.12], DAYS + 2)[day_of(rows)]
    return replace(rows, value=np.round(rows.value * sky, 1))


def counted(energy: Rows) -> Rows:
    """The counter of rows of energy."""
    at = np.append(energy.at_s, energy.at_s[-1] + energy.at_s[1] - energy.at_s[0])
    value = 412_300.0 + np.concatenate([[0.0], np.cumsum(energy.value)])
    return replace(energy, kind="counter", at_s=at, value=value)


def logged(kind: str, step_s: int, seed: int) -> Rows:
    made = under_a_sky(power_rows(DAYS, step_s), seed)
    if kind == "power":
        return replace(made, kind="power", value=made.value * HOUR_S / step_s)
    return counted(made) if kind == "counter" else made


@given(
    kind=st.sampled_from(["interval", "power", "counter"]),
    step_s=st.sampled_from([900, HOUR_S, DAY_S]),
    first=st.integers(0, DAYS - 3),
    days=st.integers(2, DAYS),
    by=st.sampled_from([0.001, 1000.0]),
    seed=st.integers(0, 5),
)
@settings(deadline=None)
def test_any_stretch_of_days_in_the_other_unit_gives_the_same_energy(
    kind: str, step_s: int, first: int, days: int, by: float, seed: int
) -> None:
    rows = logged("interval" if step_s == DAY_S and kind == "power" else kind, step_s, seed)
    inside = (day_of(rows) >= first) & (day_of(rows) < first + days)
    log = log_from(replace(rows, value=np.where(inside, rows.value * by, rows.value)))
    assert log.total.energy_wh.sum() == pytest.approx(log_from(rows).total.energy_wh.sum(), rel=0.01)
    assert ("unit_too_small" if by < 1.0 else "unit_too_large") in notes_of(log)


@pytest.mark.parametrize("by", [0.001, 1000.0])
@pytest.mark.parametrize("kind", ["interval", "power", "counter"])
def test_a_single_day_and_stretches_that_begin_and_end_within_days_are_read_too(kind: str, by: float) -> None:
    rows = logged(kind, 900, 1)
    noon, morning = FIRST_S + 6 * DAY_S + 12 * HOUR_S, FIRST_S + 21 * DAY_S + 7 * HOUR_S
    since_noon = (rows.at_s >= noon) & (day_of(rows) < 9)
    for inside in (day_of(rows) == 17, since_noon, rows.at_s >= morning, rows.at_s < morning):
        log = log_from(replace(rows, value=np.where(inside, rows.value * by, rows.value)))
        assert log.total.energy_wh.sum() == pytest.approx(log_from(rows).total.energy_wh.sum(), rel=0.01)


def test_a_finding_tells_how_many_when_and_by_what() -> None:
    rows = power_rows(DAYS)
    low = ((day_of(rows) >= 4) & (day_of(rows) < 9)) | (day_of(rows) == 20)
    [note] = log_from(replace(rows, value=np.where(low, rows.value / 1000.0, rows.value))).notes
    assert (note.code, note.count) == ("unit_too_small", np.count_nonzero(low & (rows.value > 0.0)))
    assert note.facts == {"times": 1000.0, "dates": "2025-05-05 to 2025-05-09, 2025-05-21"}


def noise(rows: Rows, seed: int = 3) -> Floats:
    """What a meter shows of a set that stands still: some tenths of a watt, by day and night."""
    return np.asarray(np.round(np.random.default_rng(seed).uniform(0.0, 0.08, rows.value.size), 3))


@pytest.mark.parametrize("share", [0.0, 0.002, None, 0.05, 0.003])
def test_days_on_which_the_set_hardly_gives_are_no_other_unit(share: float | None) -> None:
    rows = power_rows(DAYS)
    dead = (day_of(rows) >= 10) & (day_of(rows) < 22)
    low = noise(rows) if share is None else np.round(rows.value * share)
    log = log_from(replace(rows, value=np.where(dead, low, rows.value)))
    assert log.total.energy_wh.sum() == pytest.approx(rows.value[~dead].sum() + low[dead].sum(), rel=1e-6)
    assert not notes_of(log)


def test_healthy_rows_beside_many_impossible_ones_are_not_divided() -> None:
    rows = power_rows(DAYS)
    value = rows.value.copy()
    errors = np.flatnonzero((rows.at_s % DAY_S == 12 * HOUR_S) | (rows.at_s % DAY_S == 15 * HOUR_S))
    value[errors] = 65_535.0
    log = log_from(replace(rows, value=value))
    assert notes_of(log) == {"impossible": errors.size}
    assert log.total.energy_wh.sum() == pytest.approx(rows.value.sum() - rows.value[errors].sum())


def test_one_day_that_may_be_either_is_left_out_and_told() -> None:
    at = FIRST_S + DAY_S * np.arange(20)
    value = np.array([2900.0 + 37 * at for at in range(20)])
    value[7] = 3.0  # kWh, or a day on which the set was all but off: written as fine as the others
    log = log_from(Rows(kind="interval", at_s=at, value=value, stamp="start"))
    assert notes_of(log) == {"unit_in_doubt": 1}
    assert log.total.energy_wh.sum() == pytest.approx(value.sum() - 3.0)


def test_one_day_that_is_written_finer_than_the_others_is_in_the_other_unit() -> None:
    at = FIRST_S + DAY_S * np.arange(20)
    value = np.array([2900.0 + 37 * at for at in range(20)])
    mixed = np.where(np.arange(20) == 7, value / 1000.0, value)
    log = log_from(Rows(kind="interval", at_s=at, value=mixed, stamp="start"))
    assert log.total.energy_wh.sum() == pytest.approx(value.sum())


def test_a_counter_set_back_to_a_thousandth_by_chance_stays_in_its_unit() -> None:
    rows = counter_rows(DAYS)
    at = 10 * 96 + 50
    set_back = rows.value - rows.value[at + 1] + rows.value[at] / 1000.0
    value = np.where(np.arange(rows.value.size) > at, set_back, rows.value)
    log = log_from(replace(rows, value=value))
    assert notes_of(log) == {"counter_reset": 1}


MONTHS = np.array([38, 52, 58, 59, 60, 54, 44, 28, 14.0])
BEGINS = np.arange("2025-03", "2025-12", dtype="datetime64[M]").astype("datetime64[s]").astype(np.int64)


def months(kwh: Floats) -> Rows:
    return Rows(kind="month", at_s=BEGINS, value=1000.0 * kwh, stamp="start")


@pytest.mark.parametrize(("at", "told"), [(2, 580.0), (4, 600.0), (5, 540.0)])
def test_a_month_with_a_digit_too_many_is_left_out_and_told_and_never_made_a_thousandth(at: int, told: float) -> None:
    kwh = MONTHS.copy()
    kwh[at] = told
    log = log_of([(None, months(kwh))], [replace(CEILING, usual_w=62.0)], utc())
    assert log.total.energy_wh.sum() / 1000.0 == pytest.approx(MONTHS.sum() - MONTHS[at])
    [note] = log.notes
    assert note.count == 1
    assert (note.code, note.facts.get("kwh", told)) == ("too_much_for_the_sun", told)


def test_a_month_with_a_digit_too_few_counts_and_is_told() -> None:
    kwh = np.where(np.arange(9) == 3, 5.9, MONTHS)
    log = log_of([(None, months(kwh))], [replace(CEILING, usual_w=62.0)], utc())
    assert log.total.energy_wh.sum() / 1000.0 == pytest.approx(kwh.sum())
    assert notes_of(log) == {"far_below_the_others": 1}


@pytest.mark.parametrize("by", [0.001, 1000.0])
def test_months_in_the_other_unit_are_read_in_it(by: float) -> None:
    kwh = np.where(np.arange(9) >= 6, MONTHS * by, MONTHS)
    log = log_of([(None, months(kwh))], [replace(CEILING, usual_w=62.0)], utc())
    assert log.total.energy_wh.sum() / 1000.0 == pytest.approx(MONTHS.sum())


def test_limits_follow_the_year_where_its_course_is_known() -> None:
    by_day = 1000.0 + np.arange(365.0)
    known = Ceiling(most_w=800.0, usual_w=50.0, usual_days_wh=by_day, clear_days_wh=2.0 * by_day)
    first_of_march = np.array([FIRST_S // DAY_S - 61])
    assert known.usual_wh(first_of_march).tolist() == [1059.0]
    assert known.clear_wh(first_of_march).tolist() == [2118.0]
    assert CEILING.usual_wh(first_of_march).tolist() == [24 * 90.0]


def test_a_month_below_nought_is_left_out() -> None:
    log = log_of([(None, months(np.where(np.arange(9) == 3, -3.0, MONTHS)))], [replace(CEILING, usual_w=62.0)], utc())
    assert log.total.energy_wh.sum() / 1000.0 == pytest.approx(MONTHS.sum() - MONTHS[3])
    assert notes_of(log) == {"impossible": 1}


def as_the_sun_gives(rows: Rows, step_s: int) -> Rows:
    """The made-up rows of days have noon's power all day: a third of it is what a day gives."""
    return replace(rows, value=np.round(rows.value / np.pi, 1)) if step_s == DAY_S else rows


@pytest.mark.parametrize("chain", [0.03, 0.2, 0.4])
@pytest.mark.parametrize(("kind", "step_s"), [("power", 900), ("interval", HOUR_S), ("interval", DAY_S)])
def test_rows_within_the_rating_stay_although_the_set_as_told_would_give_far_less(
    chain: float, kind: str, step_s: int
) -> None:
    rows = as_the_sun_gives(logged(kind, step_s, 2), step_s)
    days = chain * np.full(365, 24.0 * CEILING.usual_w)
    told = replace(CEILING, usual_w=chain * CEILING.usual_w, usual_days_wh=days, clear_days_wh=2.0 * days)
    log = log_of([(None, rows)], [told], utc())
    assert log.total.energy_wh.sum() == pytest.approx(log_from(rows).total.energy_wh.sum())
    assert not {"unit_too_large", "unit_in_doubt"} & notes_of(log).keys()


MEAN_DAY_WH = 24.0 * CEILING.usual_w
WINTER = replace(CEILING, usual_w=2.0 * CEILING.usual_w, usual_days_wh=np.full(365, MEAN_DAY_WH))
BLACK = replace(CEILING, usual_days_wh=np.full(365, MEAN_DAY_WH), dullest_days_wh=np.full(365, 0.001 * MEAN_DAY_WH))


@pytest.mark.parametrize("ceiling", [WINTER, BLACK])
@pytest.mark.parametrize("share", [0.0006, 0.001, 0.002])
@pytest.mark.parametrize(("kind", "step_s"), [("interval", HOUR_S), ("power", 900), ("interval", DAY_S)])
@pytest.mark.parametrize("days", [1, 4])
def test_days_under_snow_and_black_ones_count_as_they_stand(
    ceiling: Ceiling, share: float, kind: str, step_s: int, days: int
) -> None:
    rows = as_the_sun_gives(logged(kind, step_s, 3), step_s)
    low = (day_of(rows) >= 12) & (day_of(rows) < 12 + days)
    value = np.where(low, np.round(rows.value * share, 1), rows.value)
    log = log_of([(None, replace(rows, value=value))], [ceiling], utc())
    whole = log_of([(None, replace(rows, value=np.where(low, 0.0, rows.value)))], [ceiling], utc())
    hours = step_s / HOUR_S if kind == "power" else 1.0
    assert log.total.energy_wh.sum() == pytest.approx(whole.total.energy_wh.sum() + value[low].sum() * hours)
    assert not notes_of(log)


@pytest.mark.parametrize("ceiling", [WINTER, BLACK])
def test_in_winter_too_days_that_are_written_finer_are_in_the_other_unit(ceiling: Ceiling) -> None:
    rows = logged("interval", HOUR_S, 3)
    other = (day_of(rows) >= 12) & (day_of(rows) < 16)
    log = log_of([(None, replace(rows, value=np.where(other, rows.value / 1000.0, rows.value)))], [ceiling], utc())
    assert log.total.energy_wh.sum() == pytest.approx(rows.value.sum())
    assert "unit_too_small" in notes_of(log)
