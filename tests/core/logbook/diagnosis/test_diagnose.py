"""What is wrong with the set, how sure is it, and what does it cost?"""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache, partial

import numpy as np
import pytest

from service.bench.logbook_set import MadeLog
from service.core.logbook.diagnosis import Diagnosis, Evidence, diagnose, evidence_of, suspects
from service.core.logbook.diagnosis.day_tops import Fall
from service.core.logbook.series import LoggedSeries
from service.core.model.weather import GivenWeather
from service.data.log_causes import load_cause_weights
from tests.made_logs import a_log

WEIGHTS = load_cause_weights()


def test_a_handful_of_days_proves_nothing() -> None:
    log = a_log(None)
    short = replace(log.series, start_s=log.series.start_s[:288], energy_wh=log.series.energy_wh[:288])
    found = suspects(short, log.setup, log.climate, WEIGHTS)
    assert found.conclusion == "cannot_tell"
    assert found.suspects == ()


@pytest.mark.parametrize("value", [0.0, float("nan")])
def test_a_log_of_nothing_is_not_judged(value: float) -> None:
    log = a_log(None)
    empty = replace(log.series, energy_wh=np.full(log.series.energy_wh.size, value))
    assert suspects(empty, log.setup, log.climate, WEIGHTS).conclusion == "cannot_tell"


def test_a_gap_at_night_changes_nothing() -> None:
    log = a_log("plane_differs")
    hour = (log.series.start_s / 3600.0 + log.climate.longitude_deg / 15.0) % 24.0
    night = (hour < 2.0) & (log.series.energy_wh == 0.0)
    gappy = replace(log.series, energy_wh=np.where(night, np.nan, log.series.energy_wh))
    whole = suspects(log.series, log.setup, log.climate, WEIGHTS)
    assert suspects(gappy, log.setup, log.climate, WEIGHTS) == whole


def test_weather_that_does_not_reach_the_log_leaves_the_judgement_to_clear_days() -> None:
    log = a_log("input_dead", weather="own")
    assert log.weather is not None
    elsewhere = replace(log.weather, begins_utc=np.datetime64("1999-01-01T00:00:00", "s"))
    found = suspects(log.series, log.setup, log.climate, WEIGHTS, elsewhere)
    alone = suspects(log.series, log.setup, log.climate, WEIGHTS)
    assert found.plane is not None
    assert alone.plane is not None
    assert found.plane.tilt_by_deg == alone.plane.tilt_by_deg


def test_weather_with_holes_is_used_where_it_is_known() -> None:
    log = a_log(None, weather="own")
    assert log.weather is not None
    assert log.weather.ghi_w_per_m2 is not None
    ghi = log.weather.ghi_w_per_m2.copy()
    ghi[200:260] = np.nan
    named = evidence_of(log.series, log.setup, log.climate, replace(log.weather, ghi_w_per_m2=ghi)).named
    full = evidence_of(log.series, log.setup, log.climate, log.weather).named
    assert named["w_level"] == pytest.approx(full["w_level"], abs=0.02)


def test_weather_measured_on_the_plane_is_turned_back_to_level_ground() -> None:
    log = a_log(None, weather="own")
    assert log.weather is not None
    plane = log.setup.arrays[0].plane
    level = replace(log.setup.arrays[0], plane=replace(plane, tilt_deg=0.0))
    setup = replace(log.setup, arrays=(level, *log.setup.arrays[1:]))
    on_plane = GivenWeather(
        begins_utc=log.weather.begins_utc, step_minutes=60, ghi_w_per_m2=None, dni_w_per_m2=None, dhi_w_per_m2=None,
        plane_w_per_m2=(np.asarray(log.weather.ghi_w_per_m2),), air_c=log.weather.air_c, wind_m_per_s=None,
    )  # fmt: skip
    named = evidence_of(log.series, setup, log.climate, on_plane).named
    direct = evidence_of(log.series, setup, log.climate, log.weather).named
    assert named["w_level"] == pytest.approx(direct["w_level"], abs=0.02)


def test_every_figure_that_is_shown_is_finite() -> None:
    for step_s in (300, 900, 3600, 86_400):
        log = a_log("input_dead", days=28, step_s=step_s, weather="nearby")
        for one in suspects(log.series, log.setup, log.climate, WEIGHTS, log.weather).suspects:
            assert np.isfinite([*one.evidence.values(), one.sureness_share, one.effect_share or 0.0]).all()


def test_one_input_s_log_is_compared_with_its_panels_alone() -> None:
    log = a_log(None, 1)
    if len(log.setup.arrays) == 1:
        log = a_log(None, 2)
    half = LoggedSeries(
        start_s=log.series.start_s, step_s=log.series.step_s, energy_wh=log.series.energy_wh / 2,
        time_zone=log.series.time_zone, input=1,
    )  # fmt: skip
    whole = evidence_of(log.series, log.setup, log.climate).named
    assert evidence_of(half, log.setup, log.climate).named["level"] == pytest.approx(whole["level"], abs=0.25)


def test_suspects_come_surest_first_and_show_their_evidence() -> None:
    log = a_log("input_dead")
    found = suspects(log.series, log.setup, log.climate, WEIGHTS)
    shares = [one.sureness_share for one in found.suspects]
    assert shares == sorted(shares, reverse=True)
    assert sum(shares) <= found.sureness_share + 1e-9
    assert all(one.evidence for one in found.suspects)


def first_days(log: MadeLog, days: int) -> LoggedSeries:
    """The beginning of a made-up log."""
    count = days * 86_400 // log.series.step_s
    return replace(log.series, start_s=log.series.start_s[:count], energy_wh=log.series.energy_wh[:count])


@pytest.mark.parametrize(("days", "told"), [(7, "nothing_unusual"), (14, "nothing_unusual"), (42, "something_wrong")])
def test_a_level_alone_is_no_alarm_before_three_weeks(days: int, told: str) -> None:
    log = a_log("input_dead", days=42, step_s=3600)
    found = suspects(first_days(log, days), log.setup, log.climate, WEIGHTS)
    assert found.conclusion == told


def test_no_suspect_is_shown_without_evidence_below_an_alarm(monkeypatch: pytest.MonkeyPatch) -> None:
    shares = {"nothing_unusual": 0.62, "wet_trips": 0.38}
    monkeypatch.setattr(diagnose, "sureness_of", lambda *_: shares)
    log = a_log(None, days=42, step_s=3600)
    steady = replace(log.series, energy_wh=np.where(log.series.energy_wh > 0.0, 100.0, 0.0))
    assert suspects(steady, log.setup, log.climate, WEIGHTS).suspects == ()
    shares["dirt_drift"] = 0.2  # which has some
    assert [one.code for one in suspects(log.series, log.setup, log.climate, WEIGHTS).suspects][-1] == "dirt_drift"


def test_no_alarm_is_decided_by_a_cause_that_nothing_of_its_own_speaks_for(monkeypatch: pytest.MonkeyPatch) -> None:
    shares = {"nothing_unusual": 0.05, "wet_trips": 0.9, "heat_derating": 0.05}
    monkeypatch.setattr(diagnose, "sureness_of", lambda *_: shares)
    log = a_log(None, days=42, step_s=3600)
    steady = replace(log.series, energy_wh=np.where(log.series.energy_wh > 0.0, 100.0, 0.0))
    found = suspects(steady, log.setup, log.climate, WEIGHTS)
    assert found.conclusion == "nothing_unusual"
    assert "wet_trips" not in {one.code for one in found.suspects}


@cache
def sound() -> tuple[MadeLog, Evidence]:
    log = a_log(None, days=42, step_s=3600)
    return log, evidence_of(log.series, log.setup, log.climate)


def told(monkeypatch: pytest.MonkeyPatch, shares: dict[str, float], step_s: int = 3600, **named: float) -> Diagnosis:
    """What is said by such scores of a sound log whose evidence says so besides."""
    log, evidence = sound()
    monkeypatch.setattr(diagnose, "sureness_of", lambda *_: shares)
    changed = replace(evidence, named={**evidence.named, **named}, fall=FALL if "fall" in named else None)
    monkeypatch.setattr(diagnose, "evidence_of", lambda *_: changed)
    return suspects(replace(log.series, step_s=step_s), log.setup, log.climate, WEIGHTS)


FALL = Fall(
    left_share=0.5, at_share=0.5, since_day=20_599, days_before=20, days_after=20, log_gain=30.0, log_ahead=20.0,
    sureness_share=0.95,
)  # fmt: skip
TRIPS = {"nothing_unusual": 0.06, "grid_trips": 0.9, "dirt_drift": 0.04}


@pytest.mark.parametrize("dips", [0.0, 0.004])
def test_unrest_at_high_output_alone_is_no_grid_trip(monkeypatch: pytest.MonkeyPatch, dips: float) -> None:
    side = {"sunny_lost_log": 0.2, "calm_lost_share": 0.1, "top_lost_share": 0.05, "clear_dip_energy_share": dips}
    found = told(monkeypatch, TRIPS, 900, **side)
    assert found.conclusion == "nothing_unusual"
    assert "grid_trips" not in {one.code for one in found.suspects}
    assert told(monkeypatch, TRIPS, 900, **{**side, "clear_dip_energy_share": 0.03}).conclusion == "something_wrong"


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_hours_name_no_trips_of_minutes(seed: int) -> None:
    log = a_log("grid_trips", seed, days=42, step_s=3600)
    found = suspects(log.series, log.setup, log.climate, WEIGHTS)
    assert "grid_trips" not in {one.code for one in found.suspects}


def test_what_speaks_for_a_cause_that_cannot_be_is_left_to_the_others_in_their_proportion(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    found = told(monkeypatch, {"nothing_unusual": 0.2, "grid_trips": 0.6, "dirt_drift": 0.2})
    assert found.sureness_share == pytest.approx(0.5)
    assert [one.sureness_share for one in found.suspects] == pytest.approx([0.5])


def test_a_lid_that_explains_nothing_is_no_heat_derating(monkeypatch: pytest.MonkeyPatch) -> None:
    shares = {"nothing_unusual": 0.1, "heat_derating": 0.9}
    assert told(monkeypatch, shares, heat_gain=0.002, heat_energy_share=0.001).suspects == ()
    assert told(monkeypatch, shares, heat_gain=0.2, heat_energy_share=0.03).conclusion == "something_wrong"


def test_a_section_that_takes_no_more_than_the_doubt_of_any_level_is_not_named(monkeypatch: pytest.MonkeyPatch) -> None:
    shares = {"nothing_unusual": 0.1, "bypass_section_lost": 0.9}
    of_four_panels = told(monkeypatch, shares, section_share=np.log(11 / 12))
    assert (of_four_panels.conclusion, of_four_panels.suspects) == ("nothing_unusual", ())
    assert told(monkeypatch, shares, section_share=np.log(5 / 6)).conclusion == "something_wrong"


def test_the_level_of_a_section_that_cannot_be_told_is_not_weighed(monkeypatch: pytest.MonkeyPatch) -> None:
    weighed: list[Mapping[str, float]] = []
    told(monkeypatch, TRIPS, section_share=np.log(11 / 12))
    monkeypatch.setattr(diagnose, "sureness_of", lambda named, *_: weighed.append(named) or TRIPS)
    log, _ = sound()
    suspects(log.series, log.setup, log.climate, WEIGHTS)
    assert all(np.isnan(value) for name, value in weighed[0].items() if "section" in name)
    assert np.isfinite(weighed[0]["level"])


def test_a_cause_that_takes_nothing_does_not_stand_before_a_fall_with_a_date(monkeypatch: pytest.MonkeyPatch) -> None:
    shares = {"nothing_unusual": 0.05, "heat_derating": 0.8, "input_dead": 0.15}
    takes = {"heat_derating": 0.001, "input_dead": 0.25}
    monkeypatch.setattr(diagnose, "_effect", lambda code, _: takes[code])
    found = told(monkeypatch, shares, fall=1.0, heat_gain=0.2)
    first = found.suspects[0]
    assert (first.code, first.since_day, found.conclusion) == ("input_dead", 20_599, "something_wrong")
    assert sum(one.sureness_share for one in found.suspects) <= found.sureness_share + 1e-9
    takes["heat_derating"] = 0.08
    costly = told(monkeypatch, shares, fall=1.0, heat_gain=0.2)
    assert costly.suspects[0].code == "heat_derating"


def test_one_of_several_logs_has_to_be_surer_and_is_not_asked_for_what_is_known_not_to_be(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    shares = {"nothing_unusual": 0.15, "dirt_drift": 0.75, "plane_differs": 0.1}
    log, evidence = sound()
    monkeypatch.setattr(diagnose, "sureness_of", lambda *_: shares)
    monkeypatch.setattr(diagnose, "evidence_of", lambda *_: evidence)
    judge = partial(suspects, log.series, log.setup, log.climate, WEIGHTS)
    assert judge().conclusion == "something_wrong"
    assert judge(tries=3).conclusion == "nothing_unusual"
    without = judge(excluded={"dirt_drift"})
    assert (without.conclusion, [one.code for one in without.suspects]) == ("nothing_unusual", ["plane_differs"])


def test_nearness_to_a_level_that_is_known_not_to_be_is_not_weighed(monkeypatch: pytest.MonkeyPatch) -> None:
    log, evidence = sound()
    weighed: list[Mapping[str, float]] = []
    monkeypatch.setattr(diagnose, "evidence_of", lambda *_: evidence)
    monkeypatch.setattr(diagnose, "sureness_of", lambda named, *_: weighed.append(named) or TRIPS)
    excluded = {"input_dead", "bypass_section_lost"}
    suspects(log.series, log.setup, log.climate, WEIGHTS, excluded=excluded)
    assert all(np.isnan(value) for name, value in weighed[0].items() if "dead" in name or "section" in name)
    assert np.isfinite(weighed[0]["level"])
