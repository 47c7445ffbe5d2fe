"""Is each cause found in a log that has it, and not in its healthy twin?"""

from collections.abc import Mapping
from types import MappingProxyType

import pytest

from service.core.logbook.diagnosis import Diagnosis, suspects
from service.data.log_causes import load_cause_weights
from tests.made_logs import a_log

WEIGHTS = load_cause_weights()
# The first seed whose fault moves 6 to 12 % of the energy, as its kind can, and days and steps in which it shows.
CASES: Mapping[str, tuple[int, int, int]] = MappingProxyType(
    {
        "input_dead": (1, 91, 900),
        "bypass_section_lost": (1, 91, 3600),
        "limit_lower_than_stated": (1, 91, 900),
        "undeclared_shade": (2, 91, 900),
        "plane_differs": (1, 91, 900),
        "dirt_drift": (3, 91, 900),
        "heat_derating": (1, 91, 900),
        "grid_trips": (1, 42, 300),
        "wet_trips": (1, 91, 900),
        "clock_shift": (1, 42, 900),
        "fast_ageing": (1, 365, 3600),
    }
)


def said(fault: str | None, cause: str, *, weather: bool) -> Diagnosis:
    """What is said of the case's log, or of its healthy twin."""
    seed, days, step_s = CASES[cause]
    log = a_log(fault, seed, days=days, step_s=step_s, weather="own")
    return suspects(log.series, log.setup, log.climate, WEIGHTS, log.weather if weather else None)


@pytest.mark.parametrize("cause", CASES)
def test_a_cause_is_named_first_where_weather_is_known(cause: str) -> None:
    found = said(cause, cause, weather=True)
    assert found.conclusion == "something_wrong"
    assert found.suspects[0].code == cause


@pytest.mark.parametrize("cause", CASES)
def test_nothing_is_said_against_the_healthy_twin(cause: str) -> None:
    assert said(None, cause, weather=True).conclusion == "nothing_unusual"


@pytest.mark.parametrize("cause", [one for one in CASES if one not in ("dirt_drift", "fast_ageing")])
def test_most_causes_are_found_without_weather(cause: str) -> None:
    assert said(cause, cause, weather=False).conclusion == "something_wrong"
    assert cause in [one.code for one in said(cause, cause, weather=False).suspects[:2]]
