"""Are steps and reasons that come again worded once, and never taken for one another?"""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.api.schemas.advice import ReasonOut, StepOut
from service.api.schemas.base import packed, unpacked
from service.core.appraisal import Reason, Step
from service.core.model.finding import Verdict

_FACTS = st.dictionaries(
    st.text(max_size=5),
    st.one_of(
        st.none(), st.booleans(), st.integers(-3, 3), st.sampled_from([0.0, -0.0, 1.0, 2.5]), st.text(max_size=3),
        st.lists(st.integers(0, 2), max_size=2),
    ),
    max_size=3,
)  # fmt: skip


@given(one=_FACTS, other=_FACTS)
def test_packed_facts_are_alike_only_where_values_and_kinds_are(one: dict[str, Any], other: dict[str, Any]) -> None:
    assert unpacked(packed(one) or b"") == one
    assert (packed(one) == packed(other)) == (repr(one) == repr(other))


def _step(facts: dict[str, Any]) -> StepOut:
    return StepOut.of(Step(code="no_such_step", when="before_buying", who="you", facts=facts))


def _reason(facts: dict[str, Any]) -> ReasonOut:
    return ReasonOut.of(Reason(code="no_such_reason", facts=facts))


@pytest.mark.parametrize("told", [_step, _reason])
@pytest.mark.parametrize("value", [1, 1.0, True, "1", None, 0.0, Verdict.FITS])
def test_what_is_told_again_is_told_as_it_was(told: Callable[[dict[str, Any]], Any], value: Any) -> None:
    for other in (1, 1.0, True, value):
        told({"amount": other})
    found = told({"amount": value}).facts["amount"]
    assert found == value
    assert isinstance(found, type(value))


@pytest.mark.parametrize("told", [_step, _reason])
def test_plain_facts_are_worded_once(told: Callable[[dict[str, Any]], Any]) -> None:
    assert told({"amount": 12.5}) is told({"amount": 12.5})
    assert told({"amount": 12.5}) is not told({"amount": 12})


def test_steps_that_differ_in_moment_or_doer_alone_are_told_apart() -> None:
    facts = {"amount": 3}
    steps = [Step(code="c", when=when, who=who, facts=facts) for when in ("a", "b") for who in ("you", "seller")]
    told = [StepOut.of(step) for step in steps]
    assert [(one.when, one.who) for one in told] == [(step.when, step.who) for step in steps]
