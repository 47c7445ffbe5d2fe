"""Does the sun tell which way a railing faces? Notes are made from the library's sun, at other places of the world."""

from functools import cache

import numpy as np
import pandas as pd
import pvlib
import pytest

from service.core.errors import ContradictionError
from service.core.sky import calendar_of
from service.core.tilt import SunSeen, facing_of
from service.data.climate import load_climate

BALTIC, CAPE = (54.2, 12.3, "Europe/Berlin"), (-33.9, 18.5, "Africa/Johannesburg")
MAY, SEPTEMBER, DECEMBER = (5, 10), (9, 20), (12, 12)


@cache
def sun(place, date, year=2025):
    """Azimuth and height in every minute of the wall clock's day."""
    latitude, longitude, zone = place
    minutes = pd.date_range(f"{year}-{date[0]:02d}-{date[1]:02d}", periods=1440, freq="min", tz=zone)
    at = pvlib.solarposition.get_solarposition(minutes, latitude, longitude)
    return at["azimuth"].to_numpy(), at["apparent_elevation"].to_numpy()


def noted(place, date, azimuth, hides=None, year=2025):
    """What somebody at a railing notes down; ``hides`` is an obstacle by azimuth and height of the sun."""
    sun_azimuth, height = sun(place, date, year)
    lit = (np.abs((sun_azimuth - azimuth + 180) % 360 - 180) < 90) & (height > 0)
    if hides is not None:
        lit &= ~hides(sun_azimuth, height)
    minutes = np.flatnonzero(lit)
    return SunSeen(month=date[0], day=date[1], from_minute=int(minutes[0]), to_minute=int(minutes[-1]) + 1)


@cache
def tables(place):
    """The clock and the sun's table of a place."""
    latitude, longitude, zone = place
    return calendar_of(zone, longitude), load_climate().at(latitude, longitude, None).sun_days


def facing(place, *notes):
    return facing_of(notes, *tables(place), *place[:2])


def apart(one, other):
    return abs((one - other + 180) % 360 - 180)


def within(azimuth, found):
    return (azimuth - found.low_azimuth_deg) % 360 <= (found.high_azimuth_deg - found.low_azimuth_deg) % 360


@pytest.mark.parametrize("place", [BALTIC, CAPE])
@pytest.mark.parametrize("turned", [-70, -40, 0, 30, 65])
def test_two_dates_fix_the_azimuth_to_a_few_degrees(place, turned):
    azimuth = ((180 if place is BALTIC else 0) + turned) % 360
    found = facing(place, noted(place, MAY, azimuth), noted(place, SEPTEMBER, azimuth))
    assert apart(found.azimuth_deg, azimuth) <= 3
    assert within(azimuth, found)
    assert not found.obstacles
    # Sure only where an edge beside it could not have looked alike: the sun was seen from end to end of its line.
    assert found.sure == (found.basis == "both_ends")
    assert found.sure == ((found.high_azimuth_deg - found.low_azimuth_deg) % 360 <= 12)


@pytest.mark.parametrize("late_minutes", [-5, 5])
def test_a_clock_that_is_some_minutes_off_moves_it_by_a_few_degrees_only(late_minutes):
    exact = noted(BALTIC, MAY, 150)
    off = SunSeen(month=5, day=10, from_minute=exact.from_minute + late_minutes, to_minute=exact.to_minute)
    assert apart(facing(BALTIC, off).azimuth_deg, 150) <= 3


def test_one_date_behind_a_house_leaves_a_range_that_holds_the_truth():
    def house(azimuth, height):
        return (azimuth < 115) & (height < 25)

    found = facing(BALTIC, noted(BALTIC, MAY, 150, house))
    assert not found.sure
    assert found.low_azimuth_deg <= 150 <= found.high_azimuth_deg
    assert found.obstacles == ()


def test_a_second_date_parts_the_railings_line_from_the_house():
    def house(azimuth, height):
        return (azimuth < 115) & (height < 25)

    found = facing(BALTIC, noted(BALTIC, MAY, 150, house), noted(BALTIC, SEPTEMBER, 150, house))
    assert found.basis == "fewest_obstacles"
    assert within(150, found)
    assert apart(found.azimuth_deg, 150) <= 3
    assert {one.appears for one in found.obstacles} == {True}
    for one in found.obstacles:  # at the house's edge or its roof
        assert one.azimuth_deg == pytest.approx(115, abs=2) or one.height_deg == pytest.approx(25, abs=2)


def test_notes_of_one_end_each_are_enough():
    morning, evening = noted(BALTIC, SEPTEMBER, 200), noted(BALTIC, MAY, 200)
    found = facing(
        BALTIC,
        SunSeen(month=9, day=20, from_minute=None, to_minute=morning.to_minute),
        SunSeen(month=5, day=10, from_minute=evening.from_minute, to_minute=None),
    )
    assert found.low_azimuth_deg - 1 <= 200 <= found.high_azimuth_deg + 1


def at(date, from_clock=None, to_clock=None):
    """A note by its clock times."""
    minutes = [None if clock is None else int(clock[:2]) * 60 + int(clock[3:]) for clock in (from_clock, to_clock)]
    return SunSeen(month=date[0], day=date[1], from_minute=minutes[0], to_minute=minutes[1])


@pytest.mark.parametrize(("place", "azimuth", "notes"), [
    (BALTIC, 5, [at((9, 10), None, "19:30")]),  # the sun was there from 19:19 to 19:37
    ((40.6, -111.9, "America/Denver"), 305, [at((12, 23), None, "15:00"), at((12, 24), "15:00")]),
])  # fmt: skip
def test_of_a_pass_with_one_end_noted_nobody_knows_how_long_it_took(place, azimuth, notes):
    """The sun was taken to have been there already, or to be there still, by as much as a note may be off."""
    assert within(azimuth, facing(place, *notes))


def test_a_single_full_hour_may_be_rounded_to_it():
    found = facing(CAPE, at((2, 16), "06:00"))  # the sun rises at 6:22
    assert within(105, found)


SINGAPORE = (1.3, 103.8, "Asia/Singapore")


@pytest.mark.parametrize("year", [2023, 2024])
def test_the_sun_near_the_zenith_turns_by_much_from_year_to_year(year):
    """It leaves this railing at 13:27 in one year and at 13:14 in the next."""
    left = noted(SINGAPORE, (3, 23), 174.54, year=year).to_minute + 4
    found = facing(SINGAPORE, at((3, 23), "07:15", f"{left // 60:02d}:{left % 60:02d}"), at((9, 22), "07:00"))
    assert within(174.54, found)


def test_the_sun_at_midnight_is_refused():
    with pytest.raises(ContradictionError, match="the sun is down"):
        facing(BALTIC, SunSeen(month=12, day=12, from_minute=30, to_minute=None))


def test_a_sun_seen_east_south_and_north_west_of_one_railing_is_refused():
    azimuth, _ = sun(BALTIC, (6, 21))
    east, south, north_west = (int(np.argmin(np.abs(azimuth - at))) for at in (90, 200, 290))
    with pytest.raises(ContradictionError, match="no direction"):
        facing(
            BALTIC,
            SunSeen(month=6, day=21, from_minute=east, to_minute=north_west),
            SunSeen(month=6, day=21, from_minute=south, to_minute=None),
        )


def test_the_edge_of_a_building_is_never_taken_for_the_railing_for_sure():
    """The sun passes an upright edge at the same azimuth on every date, as it does the railing's own line."""

    def edge(azimuth, height):
        return azimuth > 180

    found = facing(BALTIC, noted(BALTIC, MAY, 120, edge), noted(BALTIC, SEPTEMBER, 120, edge))
    assert not found.sure
    assert within(120, found)
    assert found.basis == "fewest_obstacles"


@pytest.mark.parametrize("place", [BALTIC, CAPE])
def test_one_end_is_never_sure(place):
    for end in ("from_minute", "to_minute"):
        azimuth = 150 if place is BALTIC else 30
        minutes = {"from_minute": None, "to_minute": None, end: getattr(noted(place, MAY, azimuth), end)}
        found = facing(place, SunSeen(month=5, day=10, **minutes))
        assert not found.sure
        assert within(azimuth, found)
        assert (found.high_azimuth_deg - found.low_azimuth_deg) % 360 > 90


@pytest.mark.parametrize("place", [BALTIC, CAPE])
def test_one_date_is_never_sure(place):
    azimuth = 180 if place is BALTIC else 0
    for date in (MAY, SEPTEMBER, DECEMBER):
        found = facing(place, noted(place, date, azimuth), noted(place, date, azimuth))
        assert not found.sure
        assert within(azimuth, found)


def test_one_date_beside_a_building_admits_the_truth():
    def building(azimuth, height):
        return azimuth >= 320

    found = facing(CAPE, noted(CAPE, MAY, 30, building))
    assert not found.sure
    assert within(30, found)


def rounded(note, step):
    def nearest(minute):
        return None if minute is None else step * round(minute / step)

    return SunSeen(month=note.month, day=note.day, from_minute=nearest(note.from_minute),
                   to_minute=nearest(note.to_minute))  # fmt: skip


@pytest.mark.parametrize("step", [5, 10, 15, 30])
@pytest.mark.parametrize("azimuth", [110, 150, 180, 215, 250])
def test_the_range_of_rounded_notes_holds_the_truth(step, azimuth):
    notes = [rounded(noted(BALTIC, date, azimuth), step) for date in (MAY, SEPTEMBER, DECEMBER)]
    assert within(azimuth, facing(BALTIC, *notes[:2]))
    assert within(azimuth, facing(BALTIC, *notes))


def test_notes_of_quarter_hours_leave_a_wider_range():
    exact, coarse = (
        facing(BALTIC, *(rounded(noted(BALTIC, date, 180), step) for date in (MAY, SEPTEMBER))) for step in (1, 30)
    )
    assert exact.sure
    widths = [(one.high_azimuth_deg - one.low_azimuth_deg) % 360 for one in (exact, coarse)]
    assert widths[1] > widths[0] + 3


def test_the_azimuth_taken_lies_in_the_range():
    found = facing(BALTIC, SunSeen(month=5, day=10, from_minute=7 * 60 + 40, to_minute=16 * 60 + 2))
    assert within(found.azimuth_deg, found)
    assert 145 <= found.low_azimuth_deg <= 152
    assert 174 <= found.high_azimuth_deg <= 182


def test_a_sun_that_left_before_it_came_is_refused():
    with pytest.raises(ContradictionError, match="leave before it came"):
        facing(BALTIC, SunSeen(month=5, day=10, from_minute=16 * 60, to_minute=7 * 60 + 40))


EQUATOR, DENVER, FAR_NORTH = (
    (0.5, 32.5, "Africa/Kampala"),
    (40.6, -111.9, "America/Denver"),
    (61.5, 24, "Europe/Helsinki"),
)
SEEN_AT = [BALTIC, CAPE, EQUATOR, DENVER, FAR_NORTH]
SEEN_ON = [MAY, SEPTEMBER, DECEMBER, (2, 3), (7, 21)]


def an_observers(rng, place, azimuth, steps, clock_minutes):
    """Notes of two or three days, each time rounded to one of the steps; none of a day on which nothing is seen."""
    notes = []
    for date in rng.permutation(len(SEEN_ON))[: rng.integers(2, 4)]:
        sun_azimuth, height = sun(place, SEEN_ON[date])
        lit = np.flatnonzero((np.abs((sun_azimuth - azimuth + 180) % 360 - 180) < 90) & (height > 0))
        if lit.size < 60 or np.diff(lit).max() > 1:  # a railing to the north that sees it twice
            continue
        late = rng.integers(-clock_minutes, clock_minutes + 1)
        ends = [
            int(step * round((end + late) / step)) for end, step in zip(lit[[0, -1]], rng.choice(steps, 2), strict=True)
        ]
        notes.append(SunSeen(month=SEEN_ON[date][0], day=SEEN_ON[date][1], from_minute=ends[0], to_minute=ends[1]))
    return notes


@pytest.mark.parametrize("steps", [[5], [10], [15], [30], [1, 30], [5, 10, 15, 30]])
def test_honest_notes_are_never_refused_and_their_range_holds_the_truth(steps):
    """Places, dates and railings drawn, times rounded alike or each its own way, by a clock up to 5 minutes off."""
    rng, asked_about = np.random.default_rng(sum(steps)), 0
    while asked_about < 40:
        place, azimuth = SEEN_AT[rng.integers(len(SEEN_AT))], rng.uniform(0, 360)
        notes = an_observers(rng, place, azimuth, steps, 5)
        if notes:
            asked_about += 1
            assert within(azimuth, facing(place, *notes)), (place, azimuth, notes)


def test_a_full_hour_beside_an_exact_minute_may_be_rounded():
    """Both were taken for exact: no direction let the sun in at all of these times."""
    notes = [SunSeen(month=12, day=12, from_minute=720, to_minute=1140),
             SunSeen(month=8, day=21, from_minute=780, to_minute=1136)]  # fmt: skip
    assert within(246, facing(EQUATOR, *notes))


@pytest.mark.parametrize("azimuth", [110, 180, 235])
def test_times_in_full_hours_are_rounded_to_these(azimuth):
    notes = [rounded(noted(BALTIC, date, azimuth), 60) for date in (MAY, SEPTEMBER, DECEMBER)]
    assert within(azimuth, facing(BALTIC, *notes))


@pytest.mark.parametrize(("date", "year"), [((3, 29), 2026), ((4, 1), 2024), ((10, 26), 2024), ((10, 28), 2023)])
def test_beside_a_change_of_clocks_a_note_may_be_in_either_time(date, year):
    """The day of the change moves from year to year, and nobody says of which year a note is."""
    found = facing(BALTIC, noted(BALTIC, date, 150, year=year), noted(BALTIC, MAY, 150))
    assert within(150, found)


def test_an_exact_time_between_rounded_ones_keeps_its_own_worth():
    """One coarse time makes the others no coarser."""
    exact, coarse = noted(BALTIC, MAY, 180), rounded(noted(BALTIC, MAY, 180), 30)
    mixed = SunSeen(month=5, day=10, from_minute=exact.from_minute, to_minute=coarse.to_minute)
    widths = [
        (one.high_azimuth_deg - one.low_azimuth_deg) % 360
        for one in (facing(BALTIC, note, noted(BALTIC, DECEMBER, 180)) for note in (exact, mixed, coarse))
    ]
    assert widths == sorted(widths)
    assert widths[2] > widths[0]
