"""What is one of many panels, or one of many inverters, as far as was said of it? Completed apart, not by pairs."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from service.core.completion.fill_inverter import input_count_of, inverter_of
from service.core.completion.fill_panel import panel_of
from service.core.completion.node import Node
from service.core.completion.tables import DefaultTables
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Inverter, Panel

PANEL, INVERTER = "/arrays/0/panel", "/inverter"


def panel_alone(given: Mapping[str, Any], as_of: date, tables: DefaultTables) -> tuple[Panel, Assumptions]:
    """One panel, complete; what was assumed of it stands at ``PANEL``.

    Raises:
        ContradictionError: figures of the panel exclude each other.
    """
    log: list[Assumption] = []
    return panel_of(Node(given, PANEL, log), as_of, tables.panels), Assumptions.of(log)


def inverter_alone(given: Mapping[str, Any]) -> tuple[Inverter, Assumptions]:
    """One inverter, complete, as for one array on it; what was assumed of it stands at ``INVERTER``.

    Raises:
        ContradictionError: limits of the inverter exclude each other.
    """
    log: list[Assumption] = []
    node = Node(given, INVERTER, log)
    inverter = inverter_of(node, input_count_of(node, [Node({}, "/arrays/0", [])]))
    return inverter, Assumptions.of(log)


def moved_to(error: ContradictionError, pointer: str) -> ContradictionError:
    """The refusal of a candidate, told at its own place in the request."""
    before = PANEL if error.pointer.startswith(PANEL) else INVERTER
    return ContradictionError(
        pointer + error.pointer.removeprefix(before), error.problem, given=error.given, accepted=error.accepted,
        example=error.example,
    )  # fmt: skip
