"""Is what a cause costs told of the whole log, not of the clear days on which it was found?"""

import numpy as np
import pytest

from service.core.logbook.diagnosis.diagnose import _effect_of_level
from service.core.logbook.diagnosis.evidence import evidence_of
from service.core.logbook.diagnosis.frame import frame_of
from service.core.logbook.diagnosis.set_model import dc_of_arrays, in_steps, scene_of, set_model
from service.core.logbook.diagnosis.sky_light import cloudless_weather
from service.core.logbook.diagnosis.undeclared_shade import side_and_height
from service.core.logbook.series import LoggedSeries
from service.core.model.hours import Bools, Floats
from tests.made_logs import a_log

AUTUMN_S, DAYS, STEP_S = 1_756_677_600, 110, 900  # 1 September 2025, 00:00 in Munich


@pytest.mark.parametrize(("seed", "step_s", "days"), [(2, 900, 91), (4, 900, 91), (2, 300, 60)])
def test_a_lower_limit_costs_no_more_than_it_takes_of_the_whole_log(seed: int, step_s: int, days: int) -> None:
    log = a_log("limit_lower_than_stated", seed, step_s=step_s, days=days)
    told = evidence_of(log.series, log.setup, log.climate).costs["limit_lower_than_stated"]
    assert 0.6 * log.disturbance_share < told < 1.1 * log.disturbance_share


@pytest.mark.parametrize(("seed", "step_s", "days"), [(2, 900, 91), (4, 900, 91), (2, 300, 60), (4, 300, 60)])
def test_heat_never_brings_energy(seed: int, step_s: int, days: int) -> None:
    log = a_log("heat_derating", seed, step_s=step_s, days=days)
    told = evidence_of(log.series, log.setup, log.climate).costs["heat_derating"]
    assert 0.4 * log.disturbance_share < told < 1.4 * log.disturbance_share


def autumn() -> tuple[LoggedSeries, Floats, Bools]:
    """A set's autumn, quarter-hours, dimmed evenly by day until its last month; and where afternoons are."""
    log = a_log(None)
    count = DAYS * 86_400 // STEP_S
    at = AUTUMN_S + STEP_S * np.arange(count)
    blank = LoggedSeries(start_s=at, step_s=STEP_S, energy_wh=np.zeros(count), time_zone="Europe/Berlin")
    model = set_model(log.setup)
    frame = frame_of(blank, log.climate, model.rated_w)
    scene = scene_of(model, frame.parts, cloudless_weather(frame.parts, log.climate))
    free = model.ac_w(np.asarray(sum(dc_of_arrays(model, scene))))
    power = in_steps(np.minimum(free, model.limit_w), frame.parts.at, count, frame.part_share)
    rng = np.random.default_rng(3)
    cloud = 1.0 - np.repeat(np.arange(DAYS) < 80, 96) * rng.uniform(0.0, 0.7, count)
    side, _ = side_and_height(frame.parts, count)
    return blank, power * cloud, side > 30.0


def test_a_shade_that_late_clear_days_show_costs_what_it_took_since_summer() -> None:
    log = a_log(None)
    series, power, shaded = autumn()
    kept = power * np.where(shaded, 0.4, 1.0)
    lost = 1.0 - kept.sum() / power.sum()
    logged = LoggedSeries(
        start_s=series.start_s, step_s=STEP_S, energy_wh=kept * STEP_S / 3600, time_zone=series.time_zone
    )
    told = evidence_of(logged, log.setup, log.climate).costs["undeclared_shade"]
    assert told == pytest.approx(lost, rel=0.25)


@pytest.mark.parametrize(("before", "told"), [(-0.43, 1.0 / 3.0), (-0.03, 0.05)])
def test_a_level_that_was_as_low_before_a_step_costs_all_the_time(before: float, told: float) -> None:
    named = {"level_step": -0.22, "level_step_sureness": 6.4, "level_before": before, "step_at_share": 0.85}
    assert _effect_of_level(np.log(2.0 / 3.0), named.__getitem__) == pytest.approx(told, abs=0.001)
