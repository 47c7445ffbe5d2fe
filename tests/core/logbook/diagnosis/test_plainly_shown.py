"""Are a shadow that has grown since last year and an inverter off at low voltage found, each beside what it is not?"""

from dataclasses import replace

import numpy as np
import pytest

from service.bench.logbook_places import climate_at
from service.bench.logbook_set import MadeLog, Wish, made_log
from service.core.logbook.diagnosis import evidence_of, suspects
from service.data.log_causes import load_cause_weights
from tests.made_logs import PLACE, a_log

WEIGHTS = load_cause_weights()
TWO_YEARS, HALF_MORE = 730, 545


@pytest.mark.parametrize(("seed", "days", "step_s"), [(1, TWO_YEARS, 3600), (2, HALF_MORE, 3600), (5, TWO_YEARS, 900)])
def test_a_shadow_that_has_grown_is_named_first_with_its_side(seed: int, days: int, step_s: int) -> None:
    log = a_log("shade_grown", seed, days=days, step_s=step_s)
    found = suspects(log.series, log.setup, log.climate, WEIGHTS)
    assert found.conclusion == "something_wrong"
    first = found.suspects[0]
    assert first.code == "shade_grown"
    assert first.effect_share is not None
    assert 0.01 < first.effect_share < 0.3
    grown = evidence_of(log.series, log.setup, log.climate).grown
    assert grown is not None
    assert grown.side == (-1.0 if log.detail["low_deg"] < 180.0 and log.detail["high_deg"] < 180.0 else 1.0)


@pytest.mark.parametrize("fault", [None, "undeclared_shade", "plane_differs", "bypass_section_lost"])
def test_what_stood_there_a_year_ago_has_not_grown(fault: str | None) -> None:
    log = a_log(fault, 1, days=TWO_YEARS, step_s=3600)
    assert evidence_of(log.series, log.setup, log.climate).grown is None


def test_within_a_year_nothing_is_said_of_growth() -> None:
    log = a_log("shade_grown", 1, days=TWO_YEARS, step_s=3600)
    year = 365 * 24
    first = replace(log.series, start_s=log.series.start_s[:year], energy_wh=log.series.energy_wh[:year])
    assert evidence_of(first, log.setup, log.climate).grown is None


def close(seed: int, days: int, step_s: int, *, off: bool) -> MadeLog:
    """A set whose voltage is close to what the inverter wants, which is off below it or knows nothing of it."""
    climate, time_zone = climate_at(*PLACE)
    wish = Wish(fault="low_voltage_off", days=days, step_s=step_s, weather="own")
    log = made_log(np.random.default_rng(seed), climate, time_zone, "Munich", wish)
    return log if off else replace(a_log(None, seed, days=days, step_s=step_s, weather="own"))


CLOSE = [(1, 91, 900), (4, 91, 900), (6, 182, 3600), (6, 49, 300)]


@pytest.mark.parametrize(("seed", "days", "step_s"), CLOSE)
def test_an_inverter_off_at_low_voltage_is_told_with_both_voltages(seed: int, days: int, step_s: int) -> None:
    log = close(seed, days, step_s, off=True)
    assert log.disturbance_share >= 0.1
    found = suspects(log.series, log.setup, log.climate, WEIGHTS, log.weather)
    assert found.conclusion == "something_wrong"
    first = found.suspects[0]
    assert first.code == "low_voltage_off"
    assert first.evidence["string_v"] == pytest.approx(first.evidence["wanted_v"], rel=0.08)
    assert first.effect_share == pytest.approx(log.disturbance_share, rel=0.6)


@pytest.mark.parametrize(("seed", "days", "step_s"), CLOSE)
def test_a_close_window_alone_is_no_fault(seed: int, days: int, step_s: int) -> None:
    window = close(seed, days, step_s, off=True).setup.inverter.inputs[0]
    log = close(seed, days, step_s, off=False)
    inputs = (window,) * log.setup.inverter.input_count
    setup = replace(log.setup, inverter=replace(log.setup.inverter, inputs=inputs))
    for weather in (None, log.weather):
        assert evidence_of(log.series, setup, log.climate, weather).low_voltage is None
