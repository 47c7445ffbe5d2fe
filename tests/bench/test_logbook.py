"""Does the bench of logs judge what it says it does?"""

import numpy as np
import pytest

from service.bench.logbook import Judged, LogbookReport, _judged
from service.bench.logbook_faults import FAULTS
from service.bench.logbook_places import JUDGED, LEARNED
from service.bench.logbook_training import LEFT_OUT, fitted_case, sample, samples, wish
from service.core.logbook.diagnosis import evidence_of
from service.core.logbook.diagnosis.weighing import weighed
from service.data.log_causes import load_cause_weights
from tests.made_logs import a_log


def judged(**changes: object) -> Judged:
    """One healthy log of which nothing was said."""
    base = {
        "fault": None, "size_share": 0.0, "days": 91, "alone": (False, None), "weather": (False, None),
        "plane_error_deg": 2.0, "cpu_ms": 50.0,
    }  # fmt: skip
    return Judged(**{**base, **changes})  # type: ignore[arg-type]


def test_the_places_that_are_judged_are_not_those_that_were_learned_from() -> None:
    assert not set(JUDGED) & set(LEARNED)
    assert not set(JUDGED.values()) & set(LEARNED.values())


def test_the_same_seed_makes_the_same_log_and_the_same_judgement() -> None:
    weights = load_cause_weights()
    first, again = (_judged("input_dead", 7, 3, weights) for _ in range(2))
    assert (first.size_share, first.alone, first.weather) == (again.size_share, again.alone, again.weather)


def test_the_report_counts_false_alarms_and_rightly_named_faults() -> None:
    report = LogbookReport(
        judged=(
            judged(),
            judged(alone=(True, "dirt_drift")),
            judged(fault="input_dead", size_share=0.5, alone=(True, "input_dead"), weather=(True, "dirt_drift")),
        )
    )
    text = str(report)
    assert "false alarms of 2 healthy logs: 1 alone, 0 with weather" in text
    line = next(line for line in text.splitlines() if line.startswith("input_dead"))
    assert line.split() == ["input_dead", "1", "1.00", "1.00", "1.00", "0.00"]


@pytest.mark.parametrize("fault", FAULTS)
def test_every_fault_leaves_its_trace_and_spares_the_twin_s_sky(fault: str) -> None:
    days = 365 if fault == "fast_ageing" else 42
    log, twin = a_log(fault, days=days, step_s=3600), a_log(None, days=days, step_s=3600)
    assert log.disturbance_share >= 0.01
    assert twin.disturbance_share == 0.0
    assert log.detail or fault in ("input_dead", "bypass_section_lost")


def test_the_table_weighs_quantities_that_the_evidence_has() -> None:
    for hours, step_s in (("hours", 3600), ("days", 86_400)):
        log = a_log(None, days=91, step_s=step_s, weather="own")
        known = weighed(evidence_of(log.series, log.setup, log.climate, log.weather).named)
        for name, case in load_cause_weights().cases.items():
            if name.startswith(hours):
                assert set(case.quantities) <= set(known)
                assert not set(case.quantities) & set(LEFT_OUT)


def test_a_dead_input_is_made_of_sets_with_two() -> None:
    for seed in range(1, 9):
        assert len(a_log("input_dead", seed, days=21, step_s=3600).setup.arrays) == 2


def test_samples_made_in_parts_are_those_made_at_once() -> None:
    whole = samples(3, 5, LEARNED, daily=True)
    parts = samples(1, 5, LEARNED, daily=True) + samples(2, 5, LEARNED, daily=True, first=1)
    assert repr(whole) == repr(parts)


def test_weights_tell_two_made_up_causes_apart() -> None:
    rng = np.random.default_rng(5)
    made = [sample(rng, LEARNED, wish(rng)) for _ in range(6)]
    assert all(one.named for one in made)
    case = fitted_case([one for one in made if one.step_s <= 3600], by_the_hour=True, with_weather=False)
    assert np.isfinite(case.weight).all()
    assert 0.3 <= case.alarm_from_share <= 0.9
