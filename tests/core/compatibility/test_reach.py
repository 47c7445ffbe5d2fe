"""What can be said of a figure that nobody gave."""

import pytest

from service.core.compatibility.reach import Reach, at_least, at_most, combined, exactly, rating
from service.core.model.assumption import Assumptions
from service.core.model.finding import Verdict
from tests.core.compatibility.ask import assumed

CLASS = Reach(50.0, 60.0, 65.0, ("/limit",))


@pytest.mark.parametrize(
    ("measured", "verdict", "likely"),
    [(49.0, "not_known", "fits"), (55.0, "not_known", "does_not_fit"), (66.0, "does_not_fit", "does_not_fit")],
)
def test_an_assumed_limit_never_fits_and_refuses_only_beyond_its_kindest_value(
    measured: float, verdict: str, likely: str
) -> None:
    outcome = at_most(exactly(measured), CLASS)
    assert (outcome.verdict, outcome.likely, outcome.missing) == (verdict, likely, ("/limit",))


def test_a_missing_limit_without_a_class_leaves_all_open() -> None:
    outcome = at_most(exactly(10.0), rating(Assumptions.of([]), "/limit", None))
    assert (outcome.verdict, outcome.likely) == ("not_known", "not_known")


def test_an_assumed_value_without_a_range_proves_nothing() -> None:
    guess = rating(Assumptions.of([assumed("/limit", 60.0)]), "/limit", 60.0)
    assert at_most(exactly(1000.0), guess).verdict == Verdict.NOT_KNOWN


def test_the_worst_measured_value_makes_the_likely_verdict() -> None:
    measured = Reach(35.0, 40.0, 45.0, ("/measured",))
    assert at_most(measured, exactly(44.0)).likely == "does_not_fit"
    assert at_least(measured, exactly(36.0)).likely == "does_not_fit"
    assert at_least(measured, exactly(35.0)).likely == "fits"


def test_known_figures_are_judged_at_the_edge_as_fitting() -> None:
    assert at_most(exactly(60.0), exactly(60.0)).verdict == "fits"
    assert at_least(exactly(60.0), exactly(60.0)).verdict == "fits"


def test_a_loss_is_never_called_proven_while_a_rating_is_missing() -> None:
    assert at_most(exactly(66.0), CLASS, Verdict.FITS_WITH_LOSS).verdict == "not_known"


def test_the_range_of_a_product_is_at_its_corners() -> None:
    volts, per_k = Reach(38.0, 40.0, 42.0, ("/v",)), Reach(-0.35, -0.28, -0.24, ("/c",))
    cold = combined(lambda v, c: v * (1 - 0.4 * c), volts, per_k)
    assert cold.low == pytest.approx(38.0 * 1.096)
    assert cold.value == pytest.approx(40.0 * 1.112)
    assert cold.high == pytest.approx(42.0 * 1.14)
    assert cold.missing == ("/v", "/c")


def test_one_part_without_a_range_leaves_the_whole_without() -> None:
    cold = combined(lambda v, c: v * c, Reach(38.0, 40.0, 42.0, ("/v",)), Reach(None, 2.0, None, ("/c",)))
    assert (cold.low, cold.value, cold.high) == (None, 80.0, None)
