"""A remedy's price in energy is asked, not guessed."""

from dataclasses import replace

import pytest

from service.core.appraisal import priced_by_the_set_alone, priced_remedies
from service.core.model.finding import Part
from service.core.model.patch import Operation
from tests import builders
from tests.findings import REFUSED, compatibility, finding, remedy

SETUP = builders.setup()
_EXPORT_LIMIT = "/inverter/export_limit_w"


def limited(setup):
    """As much as the limit lets through."""
    return setup.inverter.set_limit_w


def priced(*remedies, setup=SETUP, year_kwh=limited):
    found = compatibility(finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=remedies))
    return [r.year_kwh_change for r in priced_remedies(found, setup, year_kwh).findings[0].remedies]


def test_a_lower_limit_costs_what_it_cuts_off():
    assert priced(remedy("lower_set_limit", "/inverter/set_limit_w", 600.0)) == [-200.0]


def test_what_energy_does_not_hang_on_costs_nothing_and_is_not_asked():
    asked = []
    changes = priced(
        remedy("smaller_breaker", "/socket_circuit/breaker_a", 13.0), year_kwh=lambda setup: asked.append(setup) or 1.0
    )
    assert changes == [0.0]
    assert asked == []


def test_a_question_to_somebody_has_no_price():
    assert priced(remedy("ask_seller")) == [None]


def test_panels_moved_to_inputs_of_their_own_are_counted_there():
    stacked = builders.setup(arrays=(builders.array(count=3, joined="series"),))
    spread = remedy("one_panel_per_input", None, 1, facts={"array": "left", "to_inputs": "2, 3"})
    seen = []

    def inputs(setup):
        seen.append([(array.input, array.count) for array in setup.arrays])
        return float(len(setup.arrays))

    assert priced(spread, setup=stacked, year_kwh=inputs) == [2.0]
    assert [(1, 1), (2, 1), (3, 1)] in seen


def test_each_change_is_asked_once():
    asked = []

    def counted(setup):
        asked.append(setup)
        return 1.0

    lower = remedy("lower_set_limit", "/inverter/set_limit_w", 600.0)
    priced(lower, lower, remedy("lower_set_limit", "/inverter/set_limit_w", 400.0), year_kwh=counted)
    assert len(asked) == 3  # as it is, at 600, at 400


@pytest.mark.parametrize(
    ("limit_w", "remedies", "alone"),
    [
        (None, [("lower_set_limit", "/inverter/set_limit_w", 600.0)], True),
        (None, [("ask_seller", None, None)], True),
        (None, [("lower_set_limit", "/inverter/set_limit_w", 600.0), ("export_limiter", _EXPORT_LIMIT, 0.0)], False),
        (200.0, [("lower_set_limit", "/inverter/set_limit_w", 600.0)], False),
    ],
)
def test_where_sending_out_is_limited_a_price_in_energy_hangs_on_the_home(limit_w, remedies, alone):
    setup = builders.setup(inverter=replace(SETUP.inverter, export_limit_w=limit_w))
    asked = [remedy(code, pointer, value) for code, pointer, value in remedies]
    found = compatibility(finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=asked))
    assert priced_by_the_set_alone(found, setup) is alone


def test_a_limit_on_sending_out_among_several_operations_hangs_on_the_home_too():
    patch = (Operation(op="add", path=_EXPORT_LIMIT, value=0.0),)
    both = replace(remedy("other_sets_out_and_lower_limit"), patch=patch)
    found = compatibility(finding("local_cap", Part.LOCAL_RULE, REFUSED, remedies=[both]))
    assert not priced_by_the_set_alone(found, SETUP)
