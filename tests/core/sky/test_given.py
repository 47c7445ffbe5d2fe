"""Weather of the caller's own: stamps, zones, leap years, gaps, and what is known of the light."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from service.core.errors import ContradictionError
from service.core.model.place import Cover, Plane
from service.core.sky import given_sky, plane_light, plane_light_given, typical_year
from tests.builders import array
from tests.climates import climate

ZONE = "Europe/Berlin"
CLIMATE = climate()
TYPICAL = typical_year(CLIMATE, ZONE)
GHI = [float(one) for one in TYPICAL.ghi_w_per_m2]
BERLIN_NEW_YEAR = "2025-01-01T00:00:00+01:00"
NAMES = ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2", "sun_zenith_deg", "sun_azimuth_deg", "air_c")


def sky_of(zone=ZONE, planes=(), **series):
    facts = {"first": BERLIN_NEW_YEAR, "step_minutes": 60, "stamp": "start", **series}
    if "times" in series:
        facts.pop("first"), facts.pop("step_minutes")
    return given_sky(facts, planes, 0.2, CLIMATE, zone, TYPICAL)


def same(one, other):
    return all(np.array_equal(getattr(one.sky, name), getattr(other.sky, name)) for name in NAMES)


def iso(begin, minutes, zone=UTC):
    return (begin + timedelta(minutes=minutes)).astimezone(zone).isoformat()


YEAR = sky_of(ghi_w_per_m2=GHI)
BEGIN = datetime(2024, 12, 31, 23, tzinfo=UTC)


def test_the_typical_year_given_back_is_the_typical_year():
    assert YEAR.whole_year
    for name in ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2", "clear_ghi_w_per_m2", "air_c", "flicker_share"):
        given, own = getattr(YEAR.sky, name), getattr(TYPICAL, name)
        assert given.sum() == pytest.approx(own.sum(), rel=2e-5), name
        assert np.abs(given - own).max() < 0.002 * np.abs(own).max(), name
    assert np.array_equal(YEAR.sky.calendar.clock_h, TYPICAL.calendar.clock_h)


@pytest.mark.parametrize(
    ("first", "stamp"),
    [("2025-01-01T00:30:00+01:00", "middle"), ("2025-01-01T01:00:00+01:00", "end"), ("2024-12-31T23:00:00Z", "start"),
     ("2025-01-01T00:00", "start"), ("2025-01-01T05:30:00+05:30", "end"), ("2024-12-31T18:30:00-05:00", "middle")],
)  # fmt: skip
def test_start_middle_and_end_stamps_in_whatever_zone_give_the_same_year(first, stamp):
    assert same(sky_of(first=first, stamp=stamp, ghi_w_per_m2=GHI), YEAR)


@pytest.mark.parametrize(("stamp", "later"), [("start", 0), ("middle", 30), ("end", 60)])
@pytest.mark.parametrize("zone", ["UTC", ZONE, "Asia/Kolkata", "America/St_Johns"])
def test_time_stamps_on_a_clock_with_summer_time_give_the_same_year(stamp, later, zone):
    times = [iso(BEGIN, 60 * at + later, ZoneInfo(zone)) for at in range(8760)]
    assert same(sky_of(times=times, stamp=stamp, ghi_w_per_m2=GHI), YEAR)


@pytest.mark.parametrize("step", [5, 15, 20, 30])
@pytest.mark.parametrize("stamp", ["start", "middle", "end"])
def test_finer_steps_mean_their_hours_whatever_their_stamps_mean(step, stamp):
    """Of a fortnight in June, each step with its hour's beam and diffuse light."""
    hours, begin = slice(24 * 151, 24 * 165), datetime(2025, 5, 31, 23, tzinfo=UTC)
    later = {"start": 0, "middle": step / 2, "end": step}[stamp]
    columns = {
        name: np.repeat(getattr(YEAR.sky, name)[hours], 60 // step).tolist()
        for name in ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2")
    }
    got = sky_of(first=iso(begin, later), step_minutes=step, stamp=stamp, **columns).sky
    for name in ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2"):
        assert getattr(got, name) == pytest.approx(getattr(YEAR.sky, name)[hours], abs=1e-9)
    assert np.array_equal(got.sun_zenith_deg, YEAR.sky.sun_zenith_deg[hours])


def test_hours_that_begin_at_half_past_keep_their_own_beginning():
    got = sky_of(first="2025-06-01T00:00:00+02:00", stamp="middle", ghi_w_per_m2=GHI[24 * 151 : 24 * 152])
    assert str(got.sky.calendar.utc[0]) == "2025-05-31T21:30:00"
    assert float(got.sky.calendar.clock_h[0]) == 23.5


def test_a_wall_clock_without_an_offset_is_read_as_the_place_s_summer_time():
    got = sky_of(first="2025-07-01T00:00", ghi_w_per_m2=GHI[24 * 181 : 24 * 182])
    assert got.from_utc == "2025-06-30T22:00:00Z"


def test_a_leap_year_loses_its_29_february_and_nothing_else():
    leap = [*GHI[: 59 * 24], *([500.0 * (8 <= h < 16) * 0.3 for h in range(24)]), *GHI[59 * 24 :]]
    got = sky_of(first="2024-01-01T00:00:00+01:00", ghi_w_per_m2=leap)
    assert got.whole_year
    assert got.leap_day_left_out
    assert got.sky.ghi_w_per_m2 == pytest.approx(YEAR.sky.ghi_w_per_m2, abs=1e-9)
    up = YEAR.sky.sun_zenith_deg < 85.0
    assert np.abs(got.sky.sun_zenith_deg - YEAR.sky.sun_zenith_deg)[up].max() < 0.4  # the sun of 2024's own days


def test_a_year_from_july_to_july_stands_on_the_rows_of_a_calendar_year():
    july = 181 * 24
    got = sky_of(first="2024-07-01T00:00:00+01:00", ghi_w_per_m2=GHI[july:] + GHI[:july])
    assert got.whole_year
    assert got.sky.ghi_w_per_m2 == pytest.approx(YEAR.sky.ghi_w_per_m2, abs=1e-9)


def test_of_more_than_a_year_the_last_counts():
    got = sky_of(first="2024-12-01T00:00:00+01:00", ghi_w_per_m2=[0.0] * 31 * 24 + GHI)
    assert got.hours_left_out > 0
    assert got.sky.ghi_w_per_m2 == pytest.approx(YEAR.sky.ghi_w_per_m2, abs=1e-9)


def test_times_of_daylight_alone_make_a_year():
    lit = [at for at, one in enumerate(GHI) if one > 0.0]
    got = sky_of(times=[iso(BEGIN, 60 * at) for at in lit], ghi_w_per_m2=[GHI[at] for at in lit])
    assert got.whole_year
    assert np.array_equal(got.sky.ghi_w_per_m2, YEAR.sky.ghi_w_per_m2)


def test_an_hour_short_of_a_year_is_a_year_and_a_day_short_is_none():
    assert sky_of(ghi_w_per_m2=GHI[:-1]).whole_year
    part = sky_of(ghi_w_per_m2=GHI[:-24])
    assert not part.whole_year
    assert part.sky.ghi_w_per_m2.size == 8760 - 24


def test_a_short_gap_is_filled_by_the_hours_beside_and_told():
    day = 24 * 170
    holed = [None if day + 10 <= at < day + 13 else one for at, one in enumerate(GHI)]
    got = sky_of(ghi_w_per_m2=holed)
    [gap] = got.gaps
    assert (gap.what, gap.from_utc, gap.hours, gap.daylight_hours) == ("light", "2025-06-20T09:00:00Z", 3, 3)
    parts = got.sky.ghi_w_per_m2 / np.maximum(got.sky.clear_ghi_w_per_m2, 1.0)
    ends = sorted([parts[day + 9], parts[day + 13]])
    assert all(ends[0] - 1e-9 <= one <= ends[1] + 1e-9 for one in parts[day + 10 : day + 13])


def test_light_that_is_missing_by_night_is_no_gap():
    dark = [None if one == 0.0 else one for one in GHI]
    got = sky_of(ghi_w_per_m2=dark)
    assert got.gaps == ()
    assert got.whole_year
    assert np.array_equal(got.sky.ghi_w_per_m2, YEAR.sky.ghi_w_per_m2)


@pytest.mark.parametrize(("hours", "daylight"), [(range(9, 13), 4), (range(15, 33), None)])
def test_a_long_gap_is_refused_also_across_a_night(hours, daylight):
    gone = {24 * 170 + hour for hour in hours}
    with pytest.raises(ContradictionError, match="hours of daylight in a row") as refused:
        sky_of(ghi_w_per_m2=[None if at in gone else one for at, one in enumerate(GHI)])
    assert refused.value.pointer == "/weather/series/ghi_w_per_m2"
    assert daylight is None or f"{daylight} hours" in refused.value.problem


def test_too_many_short_gaps_are_refused():
    with pytest.raises(ContradictionError, match="too many gaps"):
        sky_of(ghi_w_per_m2=[None if at % 24 == 11 else one for at, one in enumerate(GHI)])


def test_a_single_day_may_lack_an_hour():
    day = GHI[24 * 170 : 24 * 171]
    got = sky_of(
        first="2025-06-20T00:00:00+01:00", ghi_w_per_m2=[None if at == 12 else one for at, one in enumerate(day)]
    )
    assert [gap.hours for gap in got.gaps] == [1]


def test_air_and_wind_of_which_no_hour_is_known_are_refused_and_not_taken_as_frost():
    """One quarter-hour in each hour: too few for its mean, and yet something was told."""
    steps, sparse = np.repeat(GHI[:20], 4).tolist(), [-3.0 if at % 4 == 0 else None for at in range(80)]
    for name in ("air_c", "wind_m_per_s"):
        with pytest.raises(ContradictionError, match="no whole hour") as refused:
            sky_of(step_minutes=15, ghi_w_per_m2=steps, **{name: sparse})
        assert refused.value.pointer == f"/weather/series/{name}"


def test_air_and_wind_are_read_straight_over_a_day_and_refused_beyond():
    air = [float(at % 24) for at in range(8760)]
    got = sky_of(ghi_w_per_m2=GHI, air_c=[None if 100 <= at < 110 else one for at, one in enumerate(air)])
    assert [gap.what for gap in got.gaps] == ["air"]
    assert got.sky.air_c[100:110] == pytest.approx(np.linspace(air[99], air[110], 12)[1:-1])
    with pytest.raises(ContradictionError, match="30 hours in a row"):
        sky_of(ghi_w_per_m2=GHI, wind_m_per_s=[None if 100 <= at < 130 else 2.0 for at in range(8760)])


def test_an_hour_counts_as_known_from_half_of_its_steps_on():
    steps = np.repeat(GHI[24 * 151 : 24 * 153], 4).astype(object)
    steps[4 * 12 : 4 * 12 + 2] = None
    assert sky_of(first="2025-06-01T00:00:00+01:00", step_minutes=15, ghi_w_per_m2=list(steps)).gaps == ()
    steps[4 * 12 + 2] = None
    got = sky_of(first="2025-06-01T00:00:00+01:00", step_minutes=15, ghi_w_per_m2=list(steps))
    assert [gap.hours for gap in got.gaps] == [1]


@pytest.mark.parametrize("first", ["2025-01-01T12:00:00+01:00", "2025-07-01T18:00:00Z"])
def test_light_while_the_sun_is_down_is_refused(first):
    with pytest.raises(ContradictionError, match="sun is down"):
        sky_of(first=first, ghi_w_per_m2=GHI)


def test_more_light_than_a_cloudless_sky_is_refused():
    with pytest.raises(ContradictionError, match="cloudless"):
        sky_of(ghi_w_per_m2=[min(3.6 * one, 1700.0) for one in GHI])


@pytest.mark.parametrize(
    ("times", "pointer"),
    [(["2025-06-01T10:00Z", "2025-06-01T10:00Z"], "times/1"),
     (["2025-06-01T10:00Z", "2025-06-01T09:00Z"], "times/1"),
     (["2025-06-01T10:00Z", "2025-06-01T11:00Z", "2025-06-01T12:20Z"], "times/2"),
     (["2025-06-01T10:00Z", "2025-06-01T10:07Z", "2025-06-01T10:14Z"], "times"),
     (["2025-06-01T10:00Z"], "times"),
     (["2025-06-01T10:00Z", "2025-06-01T10:01Z", "2035-06-01T10:01Z"], "times/2"),
     (["2025-06-01T10:00Z", "2025-06-01T11:00"], "times/1")],
)  # fmt: skip
def test_times_that_are_no_even_steps_are_refused_where_they_stand(times, pointer):
    with pytest.raises(ContradictionError) as refused:
        sky_of(times=times, ghi_w_per_m2=[300.0] * len(times))
    assert refused.value.pointer == f"/weather/series/{pointer}"
    assert refused.value.accepted
    assert refused.value.example


def test_steps_that_make_no_hour_are_refused():
    with pytest.raises(ContradictionError) as refused:
        sky_of(step_minutes=7, ghi_w_per_m2=[0.0] * 20)
    assert refused.value.pointer == "/weather/series/step_minutes"


def test_beam_and_diffuse_light_close_to_the_sum_whichever_was_given():
    both = {"ghi_w_per_m2": GHI, "dni_w_per_m2": TYPICAL.dni_w_per_m2.tolist()}
    other = {"ghi_w_per_m2": GHI, "dhi_w_per_m2": TYPICAL.dhi_w_per_m2.tolist()}
    for series in (both, other):
        sky = sky_of(**series).sky
        assert sky.dni_w_per_m2.sum() == pytest.approx(TYPICAL.dni_w_per_m2.sum(), rel=1e-3)
        assert sky.dhi_w_per_m2.sum() == pytest.approx(TYPICAL.dhi_w_per_m2.sum(), rel=1e-3)


def test_a_sensor_s_small_negative_night_is_nought():
    got = sky_of(ghi_w_per_m2=[-3.0 if one == 0.0 else one for one in GHI])
    assert same(got, YEAR)


def test_light_on_a_plane_tells_nearly_the_level_ground_s():
    """There and back again: the year's sum within 3 %, south at 35 degrees."""
    plane = Plane(tilt_deg=35, azimuth_deg=180)
    on_plane = plane_light(TYPICAL, array(plane=plane), 0.2).open_w_per_m2
    got = sky_of(planes=(plane,), plane_w_per_m2=[on_plane.tolist()])
    assert got.sky.plane_w_per_m2[0] == pytest.approx(on_plane, abs=1e-9)
    assert got.sky.ghi_w_per_m2.sum() == pytest.approx(TYPICAL.ghi_w_per_m2.sum(), rel=0.03)


def test_snow_goes_by_the_cold_of_the_air_that_was_given():
    """A flat panel loses 12 % of months below -5 C, none above 5 C, half of that at 0 C."""
    for air, share in ((-20.0, 0.12), (0.0, 0.06)):
        assert sky_of(ghi_w_per_m2=GHI, air_c=[air] * 8760).sky.snow_share == pytest.approx(np.full(8760, share))
    assert sky_of(ghi_w_per_m2=GHI, air_c=[35.0] * 8760).sky.snow_share is None
    march = slice(59 * 24, 90 * 24)
    cold_march = [-10.0 if march.start <= at < march.stop else 20.0 for at in range(8760)]
    snow = sky_of(ghi_w_per_m2=GHI, air_c=cold_march).sky.snow_share
    assert snow[march] == pytest.approx(np.full(31 * 24, 0.12))
    assert snow.sum() == pytest.approx(31 * 24 * 0.12)


def test_without_air_snow_goes_by_the_typical_year():
    assert np.array_equal(YEAR.sky.snow_share, TYPICAL.snow_share)
    on_plane = sky_of(planes=(Plane(tilt_deg=0, azimuth_deg=180),), plane_w_per_m2=[GHI], air_c=[-20.0] * 8760)
    assert on_plane.sky.snow_share is None  # the sensor lay under it as well


COLD = [8.0 - 14.0 * float(np.cos((at - 300) / 8760 * 2 * np.pi)) + at % 7 for at in range(8760)]


def part_of_cold(begin, end, **series):
    first = iso(BEGIN, 60 * begin)
    return sky_of(first=first, ghi_w_per_m2=GHI[begin:end], air_c=COLD[begin:end], **series)


def test_a_month_alone_lies_under_the_snow_that_it_has_in_its_year():
    year = sky_of(ghi_w_per_m2=GHI, air_c=COLD).sky.snow_share
    begin = 0
    for days in (31, 28, 31):
        got = part_of_cold(begin, begin + 24 * days)
        assert got.sky.snow_share == pytest.approx(year[begin : begin + 24 * days], rel=1e-9)
        assert got.rest_of_months_h == 0
        begin += 24 * days
    most = part_of_cold(0, 8016)  # January to November
    assert most.sky.snow_share == pytest.approx(year[:8016], rel=1e-9)
    assert year[0] > 0.05


def test_the_rest_of_a_month_is_as_cold_as_the_place_s():
    """Of February the first half, of a leap year's 29 days; March not at all."""
    cold = [-7.0] * (14 * 24)
    got = sky_of(first="2024-02-01T00:00:00+01:00", ghi_w_per_m2=GHI[31 * 24 : 45 * 24], air_c=cold)
    mean = (14 * -7.0 + 15 * CLIMATE.air_c[1]) / 29
    assert got.sky.snow_share == pytest.approx(np.full(14 * 24, np.clip((5 - mean) / 10, 0, 1) * 0.12))
    assert got.rest_of_months_h == 15 * 24
    warm = sky_of(first=JUNE_FIRST, ghi_w_per_m2=GHI[JUNE][:240], air_c=[20.0] * 240)
    assert warm.sky.snow_share is None
    assert warm.rest_of_months_h == 0


def test_a_part_without_air_lies_under_the_snow_of_the_typical_year():
    got = sky_of(ghi_w_per_m2=GHI[:1000])
    assert np.array_equal(got.sky.snow_share, TYPICAL.snow_share[:1000])
    assert got.rest_of_months_h == 0
    plane = (Plane(tilt_deg=0, azimuth_deg=180),)
    assert sky_of(planes=plane, plane_w_per_m2=[GHI[:1000]], air_c=[-9.0] * 1000).sky.snow_share is None


def test_shorter_steps_tell_how_the_light_comes_and_goes_in_their_hour():
    """Quarter-hours of 200 and 600 W/m2 in turn: half of the mean, whatever the rule for hours would say."""
    steps = np.repeat(GHI[24 * 151 : 24 * 152], 4)
    noon = 4 * 12
    steps[noon : noon + 4] = [200.0, 600.0, 200.0, 600.0]
    got = sky_of(first="2025-06-01T00:00:00+01:00", step_minutes=15, ghi_w_per_m2=steps.tolist()).sky
    assert got.flicker_share[12] == pytest.approx(0.5)
    assert got.flicker_share[13] == pytest.approx(0.0, abs=1e-6)


def test_of_light_on_the_panels_plane_only_cover_and_glass_take():
    plane = Plane(tilt_deg=35, azimuth_deg=180)
    on_plane = plane_light(TYPICAL, array(plane=plane), 0.2).open_w_per_m2
    sky = sky_of(planes=(plane,), plane_w_per_m2=[on_plane.tolist()]).sky
    covered = array(plane=plane, cover=Cover(material="glass", light_through_share=0.8))
    got = plane_light_given(sky, covered, sky.plane_w_per_m2[0], 0.2)
    assert np.array_equal(got.after_shade_w_per_m2, got.open_w_per_m2)
    assert got.after_cover_w_per_m2 == pytest.approx(0.8 * on_plane)
    assert 0.94 < got.effective_w_per_m2.sum() / got.after_cover_w_per_m2.sum() < 0.99
    own = plane_light(TYPICAL, covered, 0.2)
    assert got.effective_w_per_m2.sum() == pytest.approx(own.effective_w_per_m2.sum(), rel=0.005)


LEVEL = {name: getattr(TYPICAL, name) for name in ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2")}
JUNE = slice(24 * 151, 24 * 181)
JUNE_FIRST = "2025-06-01T00:00:00+01:00"


def scaled(rows=slice(None), **factors):
    return {name: (factors.get(name[:3], 1.0) * column[rows]).tolist() for name, column in LEVEL.items()}


DAY = slice(24 * 151, 24 * 152)
OTHER_UNITS = [(1e-3, "kW/m2"), (3.6e-3, "MJ/m2 an hour"), (0.0, "gives")]


@pytest.mark.parametrize(
    ("first", "rows", "factor", "unit"),
    [(BERLIN_NEW_YEAR, slice(None), *one) for one in OTHER_UNITS]
    + [(JUNE_FIRST, JUNE, *one) for one in OTHER_UNITS]
    + [(JUNE_FIRST, DAY, *one) for one in OTHER_UNITS if one[0] != 3.6e-3],
)
def test_light_in_another_unit_is_refused_with_the_likely_one(first, rows, factor, unit):
    with pytest.raises(ContradictionError, match="far less light") as refused:
        sky_of(first=first, **scaled(rows, ghi=factor, dni=factor, dhi=factor))
    assert refused.value.problem.endswith(unit)
    assert "W/m2" in refused.value.accepted


def test_a_plane_s_light_in_kw_is_refused_and_that_of_a_dark_balcony_is_not():
    plane = (Plane(tilt_deg=90, azimuth_deg=0),)
    assert sky_of(planes=plane, plane_w_per_m2=[(0.1 * TYPICAL.dhi_w_per_m2).tolist()]).whole_year
    with pytest.raises(ContradictionError, match="plane_w_per_m2 than any sky"):
        sky_of(planes=plane, plane_w_per_m2=[(1e-3 * TYPICAL.ghi_w_per_m2).tolist()])


def test_ten_days_of_the_thickest_cloud_are_taken():
    """0.18 of the light outside the air: the dullest ten days in a row of Potsdam's typical year."""
    winter = TYPICAL.extraterrestrial_w_per_m2 * np.maximum(np.cos(np.radians(TYPICAL.sun_zenith_deg)), 0.0)
    assert sky_of(ghi_w_per_m2=(0.18 * winter[:240]).tolist()).sky.ghi_w_per_m2.sum() > 0.0


@pytest.mark.parametrize(
    ("factors", "pointer"),
    [({"dni": 1.5}, "/weather/series/dni_w_per_m2"), ({"dhi": 3.0}, "/weather/series/dhi_w_per_m2"),
     ({"dni": 0.0}, "/weather/series/dni_w_per_m2"), ({"ghi": 0.3}, "/weather")],
)  # fmt: skip
@pytest.mark.parametrize(("first", "rows"), [(BERLIN_NEW_YEAR, slice(None)), (JUNE_FIRST, JUNE)])
def test_columns_that_do_not_close_are_refused_with_their_sums(factors, pointer, first, rows):
    with pytest.raises(ContradictionError, match="does not close") as refused:
        sky_of(first=first, **scaled(rows, **factors))
    assert refused.value.pointer == pointer
    for name in ("ghi", "dhi"):
        kwh = factors.get(name, 1.0) * LEVEL[f"{name}_w_per_m2"][rows].sum() / 1000.0
        assert f"{name} {kwh:.4g}" in refused.value.given
    if pointer != "/weather":  # without the column in doubt it closes
        assert sky_of(first=first, **{**scaled(rows, **factors), pointer.rsplit("/", 1)[1]: None})


def test_more_diffuse_light_than_there_is_light_is_refused_without_a_beam_too():
    with pytest.raises(ContradictionError, match="does not close") as refused:
        sky_of(ghi_w_per_m2=GHI, dhi_w_per_m2=[2.0 * one for one in GHI])
    assert refused.value.pointer == "/weather/series/dhi_w_per_m2"


def test_instruments_that_differ_a_little_are_taken():
    """Two stations some kilometres apart: 11 % of a day of broken cloud was measured at Albuquerque."""
    assert sky_of(**scaled(dni=1.05)).whole_year
    day = slice(24 * 170, 24 * 171)
    assert sky_of(first="2025-06-20T00:00:00+01:00", **scaled(day, dni=1.11, dhi=1.11))


def test_a_few_hours_around_sunrise_are_taken_as_they_are():
    """Half an hour of beam in an hour, and a column rounded to whole watts: sums tell nothing there."""
    assert sky_of(
        first="2025-06-20T01:00:00+01:00", ghi_w_per_m2=[0, 0, 2, 40, 90], dni_w_per_m2=[0, 0, 9, 30, 90],
        dhi_w_per_m2=[0, 0, 1, 12, 30],
    )  # fmt: skip


def test_a_month_and_a_year_are_held_to_less_than_a_day():
    clear = TYPICAL.clear_ghi_w_per_m2
    assert sky_of(first=JUNE_FIRST, ghi_w_per_m2=(1.3 * clear[JUNE][:72]).tolist())
    assert sky_of(ghi_w_per_m2=(1.1 * clear).tolist()).whole_year
    with pytest.raises(ContradictionError, match=r"than a cloudless sky gives$"):
        sky_of(ghi_w_per_m2=(1.25 * clear).tolist())
    dull_but_for_june = 0.5 * clear
    dull_but_for_june[JUNE] = 1.36 * clear[JUNE]
    with pytest.raises(ContradictionError, match=r"cloudless sky gives in 2025-06$"):
        sky_of(ghi_w_per_m2=dull_but_for_june.tolist())


@pytest.mark.parametrize("names", [("dni_w_per_m2", "dhi_w_per_m2"), ("dni_w_per_m2",), ("dhi_w_per_m2",)])
def test_columns_that_tell_nothing_are_as_none(names):
    others = {"dni_w_per_m2", "dhi_w_per_m2"} - set(names)
    kept = {"ghi_w_per_m2": GHI, **{name: LEVEL[name].tolist() for name in others}}
    got = sky_of(**kept, **{name: [None] * 8760 for name in names})
    assert same(got, sky_of(**kept))
    assert got.gaps == ()
    assert got.split_by_model == (not others)


@pytest.mark.parametrize("names", [("air_c",), ("wind_m_per_s",), ("air_c", "wind_m_per_s")])
def test_air_and_wind_that_tell_nothing_are_as_none(names):
    got = sky_of(ghi_w_per_m2=GHI, **{name: [None] * 8760 for name in names})
    assert same(got, YEAR)
    assert np.array_equal(got.sky.wind_m_per_s, YEAR.sky.wind_m_per_s)
    assert (got.air_given, got.wind_given, got.gaps) == (False, False, ())


@pytest.mark.parametrize("name", ["dni_w_per_m2", "dhi_w_per_m2"])
@pytest.mark.parametrize("hours", [range(9, 15), None], ids=["a long gap", "many short ones"])
def test_a_gap_is_refused_at_the_column_that_has_it(name, hours):
    gone = {24 * 170 + hour for hour in hours} if hours else {at for at in range(8760) if at % 24 == 11}
    columns = {one: values.tolist() for one, values in LEVEL.items()}
    columns[name] = [None if at in gone else one for at, one in enumerate(columns[name])]
    with pytest.raises(ContradictionError, match=r"in a row|too many gaps") as refused:
        sky_of(**columns)
    assert refused.value.pointer == f"/weather/series/{name}"
    assert sky_of(**{**columns, name: None}).gaps == ()


@pytest.mark.parametrize(("tilt_deg", "azimuth_deg"), [(35, 180), (90, 180), (90, 90), (90, 0), (60, 0)])
def test_more_light_on_a_plane_than_sun_clouds_and_snow_send_is_refused(tilt_deg, azimuth_deg):
    plane = Plane(tilt_deg=tilt_deg, azimuth_deg=azimuth_deg)
    bright = plane_light(typical_year(climate(clear_sky_index=np.full(12, 1.0)), ZONE), array(plane=plane), 0.8)
    given = bright.open_w_per_m2  # a year of clear days above snow
    assert sky_of(planes=(plane,), plane_w_per_m2=[given.tolist()]).whole_year
    with pytest.raises(ContradictionError, match="plane_w_per_m2/0 than a cloudless sky"):
        sky_of(planes=(plane,), plane_w_per_m2=[(2.5 * given).tolist()])


def in_a_dull_year(rows, light):
    """Half of the typical light, but for these rows."""
    values = [0.5 * one for one in GHI]
    for at in rows:
        values[at] = light(values[at])
    return values


@pytest.mark.parametrize("rows", [[24 * 9 + 12], [24 * 200 + 12], [24 * 3 + 11, 24 * 9 + 12]])
def test_an_hour_that_cannot_be_is_refused_within_a_year_at_its_row(rows):
    values = in_a_dull_year(rows, lambda _: 1800.0)
    with pytest.raises(ContradictionError, match=r"begins the hour from .* than a cloudless sky gives$") as refused:
        sky_of(ghi_w_per_m2=values)
    assert refused.value.pointer == f"/weather/series/ghi_w_per_m2/{rows[0]}"
    assert refused.value.given == "1800 W/m2"
    assert refused.value.accepted
    for at in rows:
        values[at] = refused.value.example
    assert sky_of(ghi_w_per_m2=values).whole_year


def test_a_day_of_which_each_hour_can_be_and_the_sum_cannot_is_refused_where_it_begins():
    day = slice(24 * 9, 24 * 10)
    values = np.array(in_a_dull_year([], float))
    clear = TYPICAL.clear_ghi_w_per_m2[day]
    values[day] = np.where(clear > 0.0, 1.32 * clear + 90.0, 0.0)
    with pytest.raises(ContradictionError, match=r"begins the 24 hours from .* than a cloudless sky gives$") as refused:
        sky_of(ghi_w_per_m2=values.tolist())
    assert abs(int(refused.value.pointer.rpartition("/")[2]) - day.start) < 24


def test_the_row_is_that_of_the_series_whatever_its_steps():
    noon = 24 * 9 + 12
    finer = np.repeat(in_a_dull_year([noon], lambda _: 1800.0), 4).tolist()
    with pytest.raises(ContradictionError, match="the hour") as refused:
        sky_of(step_minutes=15, ghi_w_per_m2=finer)
    assert refused.value.pointer == f"/weather/series/ghi_w_per_m2/{4 * noon}"


def test_the_row_is_counted_among_the_times_that_there_are():
    values = in_a_dull_year([24 * 9 + 12], lambda _: 1800.0)
    kept = [at for at in range(8760) if at not in (24 * 5 + 1, 24 * 6 + 12)]
    with pytest.raises(ContradictionError, match="the hour") as refused:
        sky_of(times=[iso(BEGIN, 60 * at) for at in kept], ghi_w_per_m2=[values[at] for at in kept])
    assert refused.value.pointer == f"/weather/series/ghi_w_per_m2/{24 * 9 + 12 - 2}"


def test_an_hour_on_a_plane_that_cannot_be_is_refused_there():
    plane = Plane(tilt_deg=35, azimuth_deg=180)
    given = (0.5 * plane_light(TYPICAL, array(plane=plane), 0.2).open_w_per_m2).tolist()
    given[24 * 9 + 12] = 2500.0
    with pytest.raises(ContradictionError, match="the hour") as refused:
        sky_of(planes=(plane,), plane_w_per_m2=[given])
    assert refused.value.pointer == f"/weather/series/plane_w_per_m2/0/{24 * 9 + 12}"


@pytest.mark.parametrize(("latitude", "height", "zone"), [
    (52.0, 50.0, ZONE), (47.0, 2500.0, ZONE), (65.0, 50.0, "Europe/Helsinki"), (-16.0, 3500.0, "America/La_Paz"),
    (19.0, 10.0, "Asia/Kolkata"),
])  # fmt: skip
@pytest.mark.parametrize("later_h", [-1, 0, 1])
def test_cloudless_years_of_mountains_low_suns_and_clocks_an_hour_off_are_taken(latitude, height, zone, later_h):
    place = climate(latitude_deg=latitude, longitude_deg=15.0, elevation_m=height, clear_sky_index=np.full(12, 1.0))
    year = typical_year(place, zone)
    first = str(year.calendar.utc[0].astype("datetime64[s]") + np.timedelta64(later_h, "h")) + "Z"
    facts = {"first": first, "step_minutes": 60, "stamp": "start", "ghi_w_per_m2": year.ghi_w_per_m2.tolist()}
    assert given_sky(facts, (), 0.2, place, zone, year).sky.ghi_w_per_m2.max() > 500.0


def test_light_that_bright_clouds_raise_for_minutes_is_taken():
    """Of a minute in three 1.3 times the light, in sunny hours of a June week, and much less in the others."""
    week = slice(24 * 160, 24 * 167)
    clear = np.repeat(TYPICAL.clear_ghi_w_per_m2[week], 60)
    minutes = np.where(np.arange(clear.size) % 3 == 0, 1.3, 0.9) * clear
    got = sky_of(first="2025-06-10T00:00:00+01:00", step_minutes=1, ghi_w_per_m2=minutes.tolist())
    assert got.sky.ghi_w_per_m2.max() > 800.0


@pytest.mark.parametrize("offset", [2.0, 10.0])
def test_the_zero_of_a_sensor_is_no_wrong_clock(offset):
    week = slice(0, 7 * 24)
    assert sky_of(ghi_w_per_m2=[one + offset for one in GHI[week]]).sky.ghi_w_per_m2.size == 7 * 24


def test_twilight_of_a_polar_winter_is_no_wrong_clock():
    place = climate(latitude_deg=69.0, longitude_deg=33.0)
    year = typical_year(place, "Europe/Moscow")
    facts = {"first": "2025-12-08T00:00:00+03:00", "step_minutes": 60, "stamp": "start",
             "ghi_w_per_m2": [4.0 if at % 24 in {11, 12, 13} else 0.0 for at in range(10 * 24)]}  # fmt: skip
    assert given_sky(facts, (), 0.2, place, "Europe/Moscow", year).sky.ghi_w_per_m2.max() == 4.0
