"""Outside values: what a limit cuts of light and power measured in minutes, and what hourly means tell of it.

Data and licences: tests/reference/measured/SOURCES.md. The truth is the sum of what the limit cuts of each short step.
True agreement, in per cent of the energy cut: hourly means -2 to -27, the hour's own spread in two halves -3 to +1, the
service's model of the spread -1 to -9 and once -22 (one day of broken cloud; its hours are wilder than any rule by the
hour's mean could tell). The model's size was chosen on the 5-minute week; minutes and quarter-hours are apart from it.
"""

import pytest

from service.bench.measured import FOLDER
from service.bench.measured_systems import Clipping, clipping

CASES = clipping(FOLDER)


def named(one: Clipping) -> str:
    return f"{one.where}, cut at {one.limit:g}"


@pytest.mark.parametrize("case", CASES, ids=named)
def test_hourly_means_hide_what_a_limit_cuts(case: Clipping) -> None:
    assert case.hourly_pct < -1.0


@pytest.mark.parametrize("case", CASES, ids=named)
def test_two_halves_with_the_hour_s_own_spread_tell_it(case: Clipping) -> None:
    assert abs(case.own_spread_pct) <= 3.5
    assert abs(case.own_spread_pct) < 0.4 * abs(case.hourly_pct)


@pytest.mark.parametrize("case", [case for case in CASES if case.model_pct is not None], ids=named)
def test_the_spread_by_the_hour_s_part_of_the_cloudless_light_is_no_farther_off_and_not_beyond(case: Clipping) -> None:
    assert case.model_pct is not None
    assert case.hourly_pct <= case.model_pct <= 1.0


def test_on_a_week_of_five_minutes_it_finds_most_of_what_hourly_means_hide() -> None:
    week = [case for case in CASES if case.where.startswith("5 minutes")]
    assert all(abs(case.model_pct or 0.0) < 0.5 * abs(case.hourly_pct) for case in week)
