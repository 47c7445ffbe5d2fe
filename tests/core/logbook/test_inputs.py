"""What do inputs that were logged apart make together, where not all of them know the same time?"""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.logbook import Gap, Log, Reading, Rows, input_shares, log_of, read_log
from tests.logs import (
    CEILING,
    DAY_S,
    FIRST_S,
    HOUR_S,
    bell_w,
    counter_rows,
    log_from,
    power_rows,
    season,
    utc,
    without,
)

DAYS, STEP_S = 30, 900
A_DAY_KWH = power_rows(1).value.sum() / 1000.0
# Over the year as over the made-up logs: a bell a day, of which the inputs give 60 and 40 per cent.
YEAR_W = np.mean([bell_w(HOUR_S * np.arange(8760) + at) for at in range(30, HOUR_S, 60)], axis=0)
SHARES = input_shares([1, 2], [0.6 * YEAR_W, 0.4 * YEAR_W], 0)


def two(first: Rows, second: Rows) -> Log:
    return log_of([(1, first), (2, second)], [CEILING] * 2, utc(), SHARES)


def read(first: Rows, second: Rows, days: int = DAYS) -> Reading:
    return read_log(two(first, second), season(days), season(days), utc(), 800.0)


def rows_of(share: float, days: int = DAYS, step_s: int = STEP_S) -> Rows:
    return power_rows(days, step_s, share)


def one_gap(reading: Reading) -> Gap:
    (gap,) = reading.sorted.gaps
    return gap


def test_inputs_add_up_and_each_counts_where_its_own_log_knows_it() -> None:
    left, right = rows_of(0.6, 3), without(rows_of(0.4, 3), FIRST_S, FIRST_S + DAY_S)
    log = two(left, right)
    assert log.total.energy_wh.sum() == pytest.approx(left.value.sum() + right.value.sum())
    assert [one.input for one in read(left, right, 3).input_series] == [1, 2]


@pytest.mark.parametrize(("first_day", "last_day"), [(10, 18), (0, 7), (20, 30), (5, 30)])
def test_what_one_input_lacks_is_a_gap_of_that_input_and_worth_its_share_alone(first_day: int, last_day: int) -> None:
    """In the middle, where its log begins late and where it ends early."""
    right = without(rows_of(0.4), FIRST_S + first_day * DAY_S, FIRST_S + last_day * DAY_S)
    found = read(rows_of(0.6), right)
    lacks = last_day - first_day
    gap = one_gap(found)
    assert (gap.input, gap.kind, gap.begin_s) == (2, "connection_lost", FIRST_S + first_day * DAY_S)
    assert gap.missed_kwh.middle == pytest.approx(0.4 * lacks * A_DAY_KWH, rel=0.01)
    assert found.logged_kwh == pytest.approx((DAYS - 0.4 * lacks) * A_DAY_KWH)
    assert found.ratio == pytest.approx(1.0, abs=0.01)
    (note,) = (one for one in found.notes if one.code == "input_gaps")
    assert note.facts["input"] == 2
    assert note.facts["days"] == pytest.approx(lacks)
    assert note.facts["kwh"] == pytest.approx(0.4 * lacks * A_DAY_KWH, rel=0.01)


def test_what_an_input_lacks_is_reckoned_by_what_the_other_gave_on_those_days() -> None:
    """Eight dull days at a third of the light, of which the second input's log knows nothing."""
    dull = (FIRST_S + 10 * DAY_S, FIRST_S + 18 * DAY_S)
    left = rows_of(0.6)
    left = replace(left, value=np.where((left.at_s >= dull[0]) & (left.at_s < dull[1]), 0.33, 1.0) * left.value)
    gap = one_gap(read(left, without(rows_of(0.4), *dull)))
    assert gap.missed_kwh.middle == pytest.approx(0.33 * 0.4 * 8 * A_DAY_KWH, rel=0.08)


def test_what_both_lack_is_a_gap_of_the_set_and_told_once() -> None:
    lost = (FIRST_S + 10 * DAY_S, FIRST_S + 12 * DAY_S)
    found = read(without(rows_of(0.6), *lost), without(rows_of(0.4), lost[0], lost[1] + 3 * DAY_S))
    of_set, of_input = found.sorted.gaps
    assert (of_set.input, of_input.input) == (None, 2)
    assert of_set.missed_kwh.middle == pytest.approx(2 * A_DAY_KWH, rel=0.02)
    assert of_input.missed_kwh.middle == pytest.approx(3 * 0.4 * A_DAY_KWH, rel=0.02)


def test_single_rows_that_one_input_lost_are_told_with_their_energy() -> None:
    noon = FIRST_S + 5 * DAY_S + 12 * HOUR_S
    found = read(rows_of(0.6), without(rows_of(0.4), noon, noon + STEP_S))
    (note,) = (one for one in found.notes if one.code == "input_lost_rows")
    assert (note.count, note.facts["input"]) == (1, 2)
    assert note.facts["kwh"] == pytest.approx(0.4 * bell_w(np.array([noon]))[0] / 4000.0, rel=0.02)
    assert found.sorted.gaps == ()


def test_a_counter_that_ran_on_through_its_gap_lacks_nothing() -> None:
    right = without(counter_rows(DAYS, STEP_S), FIRST_S + 10 * DAY_S + 1, FIRST_S + 15 * DAY_S)
    found = read(counter_rows(DAYS, STEP_S), right)
    gap = one_gap(found)
    assert (gap.input, gap.kind, gap.missed_kwh.middle) == (2, "connection_lost", 0.0)
    assert gap.regained_kwh == pytest.approx(5 * A_DAY_KWH, rel=0.01)
    assert found.logged_kwh == pytest.approx(2 * DAYS * A_DAY_KWH)
    night = (found.log.total.begin_s % DAY_S) < 5 * HOUR_S
    assert found.log.total.energy_wh[night].sum() == pytest.approx(0.0, abs=1.0)


def test_a_counter_that_stood_still_through_its_gap_made_nothing() -> None:
    whole = counter_rows(DAYS, STEP_S)
    begin, end = FIRST_S + 10 * DAY_S, FIRST_S + 15 * DAY_S
    jump = np.interp([begin, end], whole.at_s, whole.value)
    still = replace(whole, value=np.where(whole.at_s >= end, whole.value - (jump[1] - jump[0]), whole.value))
    gap = one_gap(read(whole, without(still, begin + 1, end)))
    assert (gap.input, gap.kind) == (2, "set_off")
    # Half of what both give: the season is that of one bell, the set's level makes it two.
    assert gap.missed_kwh.middle == pytest.approx(5 * A_DAY_KWH, rel=0.25)


def test_an_input_with_panels_of_which_no_log_was_sent_is_told_and_not_expected() -> None:
    log = log_of([(1, rows_of(0.6))], [CEILING], utc(), SHARES)
    found = read_log(log, season(DAYS), season(DAYS), utc(), 800.0)
    assert found.ratio == pytest.approx(1.0, abs=0.01)
    assert [(one.code, one.facts["input"]) for one in found.notes] == [("input_without_log", 2)]
    assert found.series is None  # of the whole set nothing is known


def test_an_input_without_panels_that_gives_nothing_lacks_nothing() -> None:
    alone = input_shares([1], [YEAR_W], 0)
    nothing = without(rows_of(0.0), FIRST_S, FIRST_S + 20 * DAY_S)
    log = log_of([(1, rows_of(1.0)), (2, nothing)], [CEILING] * 2, utc(), alone)
    found = read_log(log, season(DAYS), season(DAYS), utc(), 800.0)
    assert (found.sorted.gaps, found.notes) == ((), ())
    assert found.ratio == pytest.approx(1.0, abs=0.01)


def test_logs_in_steps_of_their_own_add_up() -> None:
    found = read(rows_of(0.6), power_rows(DAYS, HOUR_S, 0.4))
    assert found.logged_kwh == pytest.approx(DAYS * A_DAY_KWH, rel=0.002)
    assert found.sorted.gaps == ()


STRETCH = st.tuples(st.integers(0, DAYS * 96), st.integers(1, 900))


@given(lost=st.lists(STRETCH, min_size=1, max_size=4), counter=st.booleans())
@settings(max_examples=15, deadline=None)
def test_rows_that_one_input_loses_never_change_what_the_other_gave(lost: list[tuple[int, int]], counter: bool) -> None:
    """The sum is that of each log by itself, whatever either of them lacks; what is missing is the loser's alone."""
    left = counter_rows(DAYS, STEP_S) if counter else rows_of(0.6)
    right = counter_rows(DAYS, STEP_S) if counter else rows_of(0.4)
    for first, count in lost:
        right = without(right, FIRST_S + first * STEP_S, FIRST_S + (first + count) * STEP_S)
    if not right.at_s.size:
        return
    alone = [log_from(one).total.energy_wh.sum() for one in (left, right)]
    found = read(left, right)
    assert 1000.0 * found.logged_kwh == pytest.approx(sum(alone), rel=1e-9)
    assert all(gap.input == 2 for gap in found.sorted.gaps)


def test_a_total_knows_nothing_of_inputs() -> None:
    found = log_from(power_rows(3)).total
    assert found.share is None
    assert found.whole.all()
