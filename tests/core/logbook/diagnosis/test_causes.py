"""Is each cause found in a log that has it, and not in its healthy twin?"""

from collections.abc import Mapping
from types import MappingProxyType

import pytest

from service.core.logbook.diagnosis import Diagnosis, suspects
from service.data.log_causes import load_cause_weights
from tests.made_logs import a_log

WEIGHTS = load_cause_weights()
# The first seed whose fault moves a tenth of the energy (ageing a twelfth, an input or a clock a quarter), and days
# and steps in which it shows.
CASES: Mapping[str, tuple[int, int, int]] = MappingProxyType(
    {
        "input_dead": (1, 91, 900),
        "bypass_section_lost": (1, 91, 3600),
        "limit_lower_than_stated": (2, 91, 900),
        "undeclared_shade": (6, 91, 900),
        "plane_differs": (1, 91, 900),
        "dirt_drift": (11, 91, 900),
        "heat_derating": (3, 91, 900),
        "grid_trips": (1, 42, 300),
        "wet_trips": (3, 91, 900),
        "clock_shift": (1, 42, 900),
        "fast_ageing": (8, 365, 3600),
    }
)


def said(fault: str | None, cause: str, *, weather: bool) -> Diagnosis:
    """What is said of the case's log, or of its healthy twin."""
    seed, days, step_s = CASES[cause]
    log = a_log(fault, seed, days=days, step_s=step_s, weather="own")
    return suspects(log.series, log.setup, log.climate, WEIGHTS, log.weather if weather else None)


@pytest.mark.parametrize("cause", [one for one in CASES if one != "dirt_drift"])
def test_a_cause_is_named_first_where_weather_is_known(cause: str) -> None:
    found = said(cause, cause, weather=True)
    assert found.conclusion == "something_wrong"
    assert found.suspects[0].code == cause


def test_dirt_is_found_and_among_the_first_two_where_it_may_be_a_lost_section_as_well() -> None:
    found = said("dirt_drift", "dirt_drift", weather=True)
    assert found.conclusion == "something_wrong"
    assert "dirt_drift" in [one.code for one in found.suspects[:2]]


@pytest.mark.parametrize("cause", CASES)
def test_nothing_is_said_against_the_healthy_twin(cause: str) -> None:
    assert said(None, cause, weather=True).conclusion == "nothing_unusual"


def test_most_causes_are_named_without_weather_too() -> None:
    found = {cause: said(cause, cause, weather=False) for cause in CASES}
    named = [
        cause for cause, one in found.items()
        if one.conclusion == "something_wrong" and one.suspects[0].code == cause
    ]  # fmt: skip
    assert len(named) >= 7, named
