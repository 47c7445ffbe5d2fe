"""What is said of the second year of a log?"""

import numpy as np
import pytest

from service.core.logbook import second_year
from service.core.logbook.totals import SpanTotal

FIRST_DAY = int(np.datetime64("2024-03-01", "D").astype(np.int64))
YEAR_SD = 0.05


def days(count: int, share: float = 1.0, *, from_day: int = 365, known_share: float = 1.0) -> list[SpanTotal]:
    """Days of 2 kWh, from the day ``from_day`` on a share of that."""
    return [
        SpanTotal(
            first_day=FIRST_DAY + at, logged_kwh=2.0 * known_share, expected_kwh=2.0, known_share=known_share,
            ratio=share if at >= from_day else 1.0, joined=False,
        )
        for at in range(count)
    ]  # fmt: skip


@pytest.mark.parametrize("count", [0, 100, 365, 392])
def test_a_log_that_knows_fewer_than_four_weeks_of_both_years_has_no_letter(count: int) -> None:
    assert second_year(days(count), "climate", YEAR_SD) is None


@pytest.mark.parametrize(("share", "what"), [(0.7, "less"), (0.97, "about_the_same"), (1.4, "more")])
def test_two_years_tell_a_fall_from_a_duller_year(share: float, what: str) -> None:
    found = second_year(days(730, share), "climate", YEAR_SD)
    assert found is not None
    assert found.what == what
    assert found.change_share == pytest.approx(share - 1.0)
    assert found.before_kwh == pytest.approx(730.0)
    assert found.after_kwh == pytest.approx(730.0 * share)
    assert len(found.months) >= 12


def test_over_a_month_only_weather_lets_a_fall_of_a_sixth_be_seen() -> None:
    log = days(365 + 35, 0.84)
    by_climate, by_weather = (second_year(log, basis, YEAR_SD) for basis in ("climate", "weather"))
    assert by_climate is not None
    assert by_weather is not None
    assert (by_climate.what, by_weather.what) == ("cannot_tell", "less")
    assert by_weather.doubt_share < by_climate.doubt_share


def test_the_month_that_lost_most_is_named_where_the_others_did_not() -> None:
    july = days(730, 0.5, from_day=365 + 122)[: 365 + 153]
    later = [*july, *days(730)[365 + 153 :]]
    found = second_year(later, "climate", YEAR_SD)
    assert found is not None
    assert found.lowest is not None
    assert str(np.datetime64(found.lowest.first_day, "D")) == "2025-07-01"
    assert found.lowest.change_share == pytest.approx(-0.5)


def test_days_that_were_hardly_logged_are_left_out_in_both_years() -> None:
    log = days(730)
    gap = [one for one in days(730, known_share=0.1) if 400 <= one.first_day - FIRST_DAY < 500]
    found = second_year([*log[:400], *gap, *log[500:]], "climate", YEAR_SD)
    assert found is not None
    assert found.before_kwh == found.after_kwh == pytest.approx(2.0 * 265)
