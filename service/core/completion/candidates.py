"""What is each of many panels, and each of many inverters, as far as was said of it? Completed apart, not by pairs."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from service.core.completion.fill_arrays import arrays_of
from service.core.completion.fill_inverter import input_count_of, inverter_of
from service.core.completion.node import Node
from service.core.completion.tables import DefaultTables
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Array, Inverter

_PANEL, _INVERTER = "/arrays/0/panel", "/inverter"


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidates:
    """Complete panels and inverters, each with what was assumed of it.

    Each panel is alone in its array, and pointers are those of a request for one such pair: ``/arrays/0/panel/...`` and
    ``/inverter/...``.
    """

    panels: tuple[tuple[Array, Assumptions], ...]
    inverters: tuple[tuple[Inverter, Assumptions], ...]


def complete_candidates(given: Mapping[str, Any], like: Array, as_of: date, tables: DefaultTables) -> Candidates:
    """Fill what the ``panels`` and ``inverters`` of a request leave open, as for one panel beside one inverter.

    Args:
        given: the sparse request.
        like: the array in which each panel is put.
        as_of: the day of the question.
        tables: what defaults draw on.

    Raises:
        ContradictionError: parts of one of them exclude each other; its pointer is that of the candidate.
    """
    panels = tuple(_panel(one, at, like, as_of, tables) for at, one in enumerate(given["panels"]))
    inverters = tuple(_inverter(one, at) for at, one in enumerate(given["inverters"]))
    return Candidates(panels=panels, inverters=inverters)


def _panel(
    given: Mapping[str, Any], at: int, like: Array, as_of: date, tables: DefaultTables
) -> tuple[Array, Assumptions]:
    log: list[Assumption] = []
    node = Node({"panel": given, "mount": like.mount}, "/arrays/0", log)
    try:
        (array,) = arrays_of([node], 1, as_of, tables.panels)
    except ContradictionError as error:
        raise _at(error, _PANEL, f"/panels/{at}") from error
    of_panel = [one for one in log if one.pointer.startswith(f"{_PANEL}/")]
    return replace(like, panel=array.panel), Assumptions.of(of_panel)


def _inverter(given: Mapping[str, Any], at: int) -> tuple[Inverter, Assumptions]:
    log: list[Assumption] = []
    node = Node(given, _INVERTER, log)
    try:
        inverter = inverter_of(node, input_count_of(node, [Node({}, "/arrays/0", [])]))
    except ContradictionError as error:
        raise _at(error, _INVERTER, f"/inverters/{at}") from error
    return inverter, Assumptions.of(log)


def _at(error: ContradictionError, before: str, now: str) -> ContradictionError:
    return ContradictionError(
        now + error.pointer.removeprefix(before), error.problem, given=error.given, accepted=error.accepted,
        example=error.example,
    )  # fmt: skip
