"""Which way do the panels really look, and is the clock right?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook.diagnosis import evidence_of
from tests.made_logs import a_log

SEEDS = (1, 2, 3, 4, 5, 6)


def test_three_months_of_healthy_logs_give_the_tilt_back() -> None:
    errors = []
    for seed in SEEDS:
        log = a_log(None, seed)
        plane = evidence_of(log.series, log.setup, log.climate).plane
        assert plane is not None
        errors.append(abs(plane.tilt_by_deg))
    assert np.median(errors) <= 5.0


def test_a_plane_that_was_stated_wrongly_is_found() -> None:
    errors = []
    for seed in SEEDS:
        log = a_log("plane_differs", seed)
        plane = evidence_of(log.series, log.setup, log.climate).plane
        assert plane is not None
        true, stated = log.true_planes[0], log.setup.arrays[0].plane
        errors.append(abs(stated.tilt_deg + plane.tilt_by_deg - true.tilt_deg))
    assert np.median(errors) <= 5.0


@pytest.mark.parametrize("hours", [8, -6])
def test_a_clock_that_is_many_hours_off_is_seen_before_anything_else(hours: int) -> None:
    log = a_log(None)
    shifted = replace(log.series, start_s=log.series.start_s + hours * 3600)
    named = evidence_of(shifted, log.setup, log.climate).named
    assert named["clock_coarse_h"] == abs(hours)
    assert named["misfit"] == pytest.approx(evidence_of(log.series, log.setup, log.climate).named["misfit"], abs=0.1)
