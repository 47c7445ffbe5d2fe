"""Asks the compatibility room about a set of the scenario, with changes and assumptions by keyword."""

from datetime import date
from typing import Any

from service.core.compatibility import Compatibility, check
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.finding import Finding
from service.core.rules import card_for
from service.data.local_rules import cards_of
from tests import builders

AS_OF = date(2026, 11, 25)


def assumed(pointer: str, value: Any = None, low: float | None = None, high: float | None = None) -> Assumption:
    """An assumption of a class's range."""
    return Assumption(pointer=pointer, value=value, code="panel_class", source="", low=low, high=high)


def answer(*assumptions: Assumption, hottest_cell_c: float = 60, **changes: Any) -> Compatibility:
    """The room's answer about ``builders.setup(**changes)`` under the card of its area."""
    setup = builders.setup(**changes)
    card = card_for(cards_of(setup.site.rule_area), AS_OF)
    return check(setup, Assumptions.of(assumptions), (hottest_cell_c,) * len(setup.arrays), card, AS_OF)


def one(code: str, compatibility: Compatibility, about: str | None = None) -> Finding:
    """The first finding of a code (worst first), or the one about a pointer."""
    return next(f for f in compatibility.findings if f.code == code and about in (None, f.about))


def alone(**panel: Any) -> dict[str, Any]:
    """One array of one panel on input 1, as a change for ``answer``."""
    return {"arrays": (builders.array(panel=builders.panel(**panel)),)}


def inputs(**limits: Any) -> dict[str, Any]:
    """Two inputs with these limits, as a change for ``answer``."""
    one_input = builders.one_input(**limits)
    return {"inverter": builders.inverter(inputs=(one_input, one_input))}
