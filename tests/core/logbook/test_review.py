"""Is it doing what it should? The conclusion, the ratio, totals, the year to come."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook import (
    Conclusion,
    Diagnosis,
    Judged,
    Reading,
    Rows,
    SnowFacts,
    Suspect,
    beside_its_house,
    from_weather,
    judged,
    read_log,
)
from service.core.logbook.neighbours import Neighbour, from_neighbours
from service.core.model.band import Band, SpreadPart
from tests.logs import DAY_S, FIRST_S, HOUR_S, counter_rows, log_from, power_rows, season, utc, without

YEAR = Band(900.0, 1000.0, 1100.0)


def review(rows: Rows, days: int, *, alarm: bool = False) -> tuple[Reading, Judged]:
    reading = read_log(log_from(rows), season(days), season(days), utc(), 800.0)
    return reading, judged(reading, alarm, YEAR, 0.05)


def test_a_set_that_gives_what_was_to_be_expected_shows_nothing_unusual() -> None:
    reading, result = review(power_rows(60), 60)
    assert (result.conclusion, result.because) == (Conclusion.NOTHING_UNUSUAL, "within_band")
    assert reading.ratio == pytest.approx(1.0, abs=0.005)
    assert result.projected_year_kwh.middle == pytest.approx(1000.0, abs=5)


def test_half_of_it_over_two_months_is_something_wrong_without_any_cause() -> None:
    _, result = review(power_rows(60, share=0.4), 60)
    assert (result.conclusion, result.because) == (Conclusion.SOMETHING_WRONG, "less_than_expected")
    assert result.projected_year_kwh.middle < 800.0


def test_a_dull_week_proves_nothing() -> None:
    reading, result = review(power_rows(5, share=0.6), 5)
    assert result.conclusion is Conclusion.CANNOT_TELL
    assert reading.visible_share > 0.4


def test_a_cause_that_is_sure_enough_speaks_for_itself() -> None:
    assert review(power_rows(60), 60, alarm=True)[1].because == "cause_found"


def test_hardly_anything_logged_tells_nothing() -> None:
    assert review(power_rows(1), 1)[1].because == "too_little_logged"


def test_days_that_are_missing_are_not_low_days() -> None:
    # daily kWh 2.1, -, -, 2.2, 1.4 of 2.3, 2.5, 2.2, 2.4, 1.6 expected: 5.7 of 6.3
    expected = np.array([2.3, 2.5, 2.2, 2.4, 1.6]) * 1000.0
    base = season(5)
    by_day = np.concatenate([[0.0], expected, [0.0]])
    hours = base.hours_w * np.repeat(by_day / base.hours_w.reshape(-1, 24).sum(axis=1), 24)
    now = replace(base, hours_w=hours, low_w=hours, high_w=hours)
    rows = Rows(
        kind="interval", at_s=FIRST_S + DAY_S * np.array([0, 3, 4]), value=np.array([2100.0, 2200, 1400]), stamp="start"
    )
    reading = read_log(log_from(rows), now, now, utc(), 800.0)
    assert reading.ratio == pytest.approx(5.7 / 6.3, abs=5e-4)
    assert reading.expected_kwh.middle == pytest.approx(6.3, abs=1e-3)
    days = judged(reading, False, YEAR, 0.05).totals.days
    assert [round(day.known_share, 3) for day in days] == [1.0, 0.0, 0.0, 1.0, 1.0]
    assert [day.ratio is None for day in days] == [False, True, True, False, False]
    assert [gap.missed_kwh.middle > 1.0 for gap in reading.sorted.gaps] == [True]


def test_a_joint_reading_over_three_days_is_told_as_one_and_spread() -> None:
    rows = without(counter_rows(8), FIRST_S + 2 * DAY_S + 1, FIRST_S + 5 * DAY_S)
    _, result = review(rows, 8)
    assert [day.joined for day in result.totals.days] == [False, False, True, True, True, False, False, False]
    assert [day.ratio for day in result.totals.days] == pytest.approx([1.0] * 8, abs=0.01)


def test_the_more_days_the_surer() -> None:
    sds = [review(power_rows(days), days)[0].sd_share for days in (7, 30, 120)]
    assert sds[0] > sds[1] > sds[2] > 0.05


def test_weather_of_some_hours_makes_the_band_no_narrower_than_they_allow() -> None:
    base = season(60)
    day = np.arange(base.hours_w.size) // 24
    widths = []
    for days in (0, 3, 30, 62):
        now = from_weather(base, base.hours_w, day < days, [SpreadPart("weather_given", 0.05)], 0.15)
        reading = read_log(log_from(power_rows(60)), base, now, utc(), 800.0)
        widths.append(reading.sd_share)
        assert now.basis == ("weather" if days == 62 else "weather_in_part")
    alone = read_log(log_from(power_rows(60)), base, base, utc(), 800.0).sd_share
    short, told = season(4), np.arange(24 * 6) // 24  # the weather of a log of four days, and no more
    exact = from_weather(short, short.hours_w, (told > 0) & (told < 5), [SpreadPart("weather_given", 0.05)], 0.15)
    assert exact.basis == "weather"
    assert widths[0] == pytest.approx(alone)
    assert widths[1] == pytest.approx(alone, rel=0.05)
    assert widths[1] > widths[2] > widths[3]


def test_months_add_up_to_the_log() -> None:
    rows = power_rows(75)
    _, result = review(rows, 75)
    assert sum(month.logged_kwh for month in result.totals.months) == pytest.approx(rows.value.sum() / 1000)
    assert [month.first_day for month in result.totals.months] == [20209, 20240, 20270]
    assert result.totals.year_to_date is not None
    assert result.totals.year_to_date.logged_kwh == pytest.approx(rows.value.sum() / 1000)


def test_neighbours_under_the_same_dull_sky_tell_weather_from_fault() -> None:
    sky = np.random.default_rng(3).uniform(0.15, 1.1, 30)
    rows = power_rows(30)
    under = np.repeat(sky, 96)

    def neighbour(share: float) -> Neighbour:
        pieces = log_from(replace(rows, value=rows.value * under * share)).total
        return Neighbour(pieces=pieces, usable=~pieces.at_least, season=season(30))

    now = from_neighbours(season(30), [neighbour(share) for share in (0.97, 1.0, 1.04)])
    assert now is not None
    for share, conclusion in ((1.0, Conclusion.NOTHING_UNUSUAL), (0.66, Conclusion.SOMETHING_WRONG)):
        reading = read_log(log_from(replace(rows, value=rows.value * under * share)), season(30), now, utc(), 800.0)
        assert reading.ratio == pytest.approx(share, abs=0.02)
        assert judged(reading, False, YEAR, 0.05).conclusion is conclusion


def test_neighbours_that_know_few_of_the_days_are_no_measure() -> None:
    pieces = log_from(power_rows(5)).total
    one = Neighbour(pieces=pieces, usable=~pieces.at_least, season=season(30))
    assert from_neighbours(season(30), [one]) is None


def test_energy_by_night_is_told() -> None:
    rows = power_rows(10)
    shifted = replace(rows, at_s=rows.at_s + 7 * HOUR_S)
    assert "by_night" in {note.code for note in review(shifted, 11)[0].notes}


def test_what_the_whole_house_has_is_no_dead_input_but_a_shadow_of_its_own_is_one() -> None:
    reading, _ = review(power_rows(30), 30)
    beside = replace(reading, now=replace(reading.now, basis="peers"))

    def diagnosis(code: str) -> Diagnosis:
        one = Suspect(code=code, sureness_share=0.9, effect_share=0.4, evidence={})
        return Diagnosis(
            conclusion="something_wrong", sureness_share=0.95, suspects=(one,), plane=None, clear_days=9
        )  # fmt: skip

    assert beside_its_house(beside, diagnosis("input_dead")).conclusion == "nothing_unusual"
    assert beside_its_house(beside, diagnosis("undeclared_shade")).conclusion == "something_wrong"
    assert beside_its_house(reading, diagnosis("input_dead")).conclusion == "something_wrong"
    low = replace(beside, ratio=0.6)
    assert beside_its_house(low, diagnosis("input_dead")).conclusion == "something_wrong"


def silenced(days: int, since: int) -> Rows:
    rows = power_rows(days, HOUR_S)
    return replace(rows, value=np.where(rows.at_s >= FIRST_S + since * DAY_S, 0.0, rows.value))


@pytest.mark.parametrize(("days", "since"), [(30, 0), (90, 60), (20, 17)])
def test_a_set_that_gives_nothing_to_the_end_is_said_first_with_its_day(days: int, since: int) -> None:
    reading, result = review(silenced(days, since), days)
    assert (result.conclusion, result.because) == (Conclusion.SOMETHING_WRONG, "gives_nothing")
    assert reading.silent is not None
    assert reading.silent.days == days - since
    assert (reading.silent.since_s - FIRST_S) // DAY_S == since
    assert result.projected_year_kwh is None


def test_a_silence_of_two_days_or_one_that_is_over_is_told_among_the_gaps_only() -> None:
    assert review(silenced(30, 28), 30)[0].silent is None
    rows = power_rows(30, HOUR_S)
    day = (rows.at_s - FIRST_S) // DAY_S
    reading, result = review(replace(rows, value=np.where((day >= 10) & (day < 15), 0.0, rows.value)), 30)
    assert reading.silent is None
    assert [gap.kind for gap in reading.sorted.gaps] == ["set_off"]
    assert result.because != "gives_nothing"


def test_an_input_that_is_silent_goes_before_what_is_weighed() -> None:
    reading, _ = review(power_rows(60), 60)
    result = judged(reading, True, YEAR, 0.05, input_silent=True)
    assert (result.conclusion, result.because) == (Conclusion.SOMETHING_WRONG, "input_gives_nothing")


def test_a_turned_clamp_is_said_and_its_values_are_turned_back() -> None:
    rows = power_rows(30, HOUR_S)
    reading, result = review(replace(rows, value=-rows.value), 30)
    assert (result.conclusion, result.because) == (Conclusion.SOMETHING_WRONG, "turned_clamp")
    assert reading.ratio == pytest.approx(1.0, abs=0.005)


@pytest.mark.parametrize("rows", [
    replace(power_rows(30, HOUR_S), value=np.full(720, 100.0)),
    replace(power_rows(30, HOUR_S), at_s=power_rows(30, HOUR_S).at_s + 12 * HOUR_S),
])  # fmt: skip
def test_energy_in_the_dark_is_no_solar_log_and_nothing_is_reckoned_from_it(rows: Rows) -> None:
    reading, result = review(rows, 31)
    assert (result.conclusion, result.because) == (Conclusion.CANNOT_TELL, "not_a_solar_log")
    assert "not_a_solar_log" in {note.code for note in reading.notes}
    assert result.projected_year_kwh is None
    assert reading.sorted.gaps == ()
    assert reading.missed_kwh.middle == 0.0


@pytest.mark.parametrize("hours", [-3, -2, 2, 3])
def test_a_clock_that_is_off_by_some_hours_is_still_a_solar_log(hours: int) -> None:
    rows = power_rows(30, HOUR_S)
    assert not review(replace(rows, at_s=rows.at_s + hours * HOUR_S), 31)[0].no_sun


@pytest.mark.parametrize(("ratio", "told"), [(1.25, "nothing_unusual"), (0.95, "something_wrong")])
def test_a_set_above_its_season_lacks_no_part_of_its_panels(ratio: float, told: str) -> None:
    reading, _ = review(power_rows(30), 30)
    one = Suspect(code="bypass_section_lost", sureness_share=0.6, effect_share=0.2, evidence={})
    found = Diagnosis(
        conclusion="something_wrong", sureness_share=0.7, suspects=(one,), plane=None, clear_days=2
    )  # fmt: skip
    assert beside_its_house(replace(reading, ratio=ratio), found).conclusion == told


COLD, MILD = (-1.0,) * 12, (9.0,) * 12


@pytest.mark.parametrize(
    ("air_c", "tilt_deg", "still_days", "because"),
    [
        (COLD, 20.0, 12, "may_lie_under_snow"),
        (COLD, 20.0, 60, "gives_nothing"),
        (COLD, 90.0, 5, "may_lie_under_snow"),
        (COLD, 90.0, 12, "gives_nothing"),
        (MILD, 20.0, 12, "gives_nothing"),
    ],
)
def test_a_set_that_gives_nothing_in_snow_months_may_be_snowed_in(
    air_c: tuple[float, ...], tilt_deg: float, still_days: int, because: str
) -> None:
    reading, _ = review(silenced(90, 90 - still_days), 90)
    facts = SnowFacts(air_c=air_c, least_tilt_deg=tilt_deg)
    result = judged(reading, False, YEAR, 0.05, snow_facts=facts)
    assert result.because == because
    snow = because == "may_lie_under_snow"
    assert (result.conclusion is Conclusion.CANNOT_TELL) == snow
    assert (result.projected_year_kwh is not None) == snow


def test_a_store_that_gives_at_night_until_it_is_empty_is_told_from_another_meter() -> None:
    rows = power_rows(30, HOUR_S)
    hour = rows.at_s % DAY_S // HOUR_S
    store = np.where((hour >= 19) & (hour < 23), 150.0, np.where((hour >= 6) & (hour < 18), 0.6 * rows.value, 0.0))
    reading, result = review(replace(rows, value=store), 30)
    assert (result.conclusion, result.because) == (Conclusion.CANNOT_TELL, "store_behind_it")
    assert "store_behind_it" in {note.code for note in reading.notes}


def seen(share: float | None, sureness: float = 0.1) -> Diagnosis:
    return Diagnosis(
        conclusion="nothing_unusual", sureness_share=sureness, suspects=(), plane=None, clear_days=5,
        would_have_seen_share=share,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("whole", "because"),
    [
        (None, "weather_hides_it"),
        (seen(None), "weather_hides_it"),
        (seen(0.6), "weather_hides_it"),
        (seen(0.2), "clear_days_are_right"),
        (seen(0.2, sureness=0.7), "weather_hides_it"),
    ],
)
def test_clear_days_that_are_right_speak_for_a_week_whose_sum_tells_nothing(
    whole: Diagnosis | None, because: str
) -> None:
    reading, _ = review(power_rows(7), 7)
    assert reading.visible_share > 0.35
    result = judged(reading, False, YEAR, 0.05, whole=whole)
    assert result.because == because
    assert (result.conclusion is Conclusion.NOTHING_UNUSUAL) == (because == "clear_days_are_right")
    if because == "clear_days_are_right":
        assert result.visible_share == 0.2
