"""What is each of many panels and inverters, and what is wrong with those that cannot be? All is told at once."""

from collections.abc import Callable, Iterator, Sequence
from copy import deepcopy
from datetime import date
from functools import partial
from itertools import chain, islice
from typing import Any, TypeVar

from pydantic import ValidationError

from service.api.answers.question import day_of
from service.api.deps import Deps, Stand, Told
from service.api.schemas.assumption import AssumptionOut, assumptions_out
from service.api.schemas.contradictions import contradictions_of_inverter, contradictions_of_panel
from service.api.schemas.inverter import InverterIn
from service.api.schemas.matrix import MOST, MatrixIn
from service.api.schemas.mistakes import MOST_MISTAKES, Mistake, RefusedRequest, mistake_of
from service.api.schemas.panel import PanelIn
from service.api.schemas.reading import read_value
from service.core.compatibility import Column, Row, column_of, row_of
from service.core.completion import INVERTER, PANEL, inverter_alone, moved_to, panel_alone
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumptions

C = TypeVar("C", PanelIn, InverterIn)

# What the panel side reads of a panel and of an inverter's first input.
_READ_OF_PANEL = tuple(
    f"{PANEL}/{name}"
    for name in (
        "open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v", "max_power_current_a",
        "cells_in_series", "cell_kind", "voc_coefficient_pct_per_k", "isc_coefficient_pct_per_k",
        "power_coefficient_pct_per_k", "bifaciality_share", "glass", "connector",
    )
)  # fmt: skip
_READ_OF_INVERTER = (f"{INVERTER}/input_count", f"{INVERTER}/inputs/0/")


def read_candidates(value: Any, deps: Deps) -> MatrixIn:
    """The request that a JSON value holds.

    Raises:
        RefusedRequest: all that is wrong with it, contradictions of single candidates among it.
    """
    try:
        return read_value(MatrixIn, value)
    except RefusedRequest as refused:
        told = {mistake.pointer for mistake in refused.mistakes}
        more = [mistake for mistake in _contradictions(value, deps) if mistake.pointer not in told]
        raise RefusedRequest(refused.code, (*refused.mistakes, *more), **refused.facts) from None


def contradicting(value: Any, deps: Deps) -> RefusedRequest:
    """The refusal of a request that could be read and whose candidates could not all be completed."""
    return RefusedRequest("contradiction", tuple(_contradictions(value, deps)))


def rows_of(request: MatrixIn, stand: Stand, as_of: date, deps: Deps) -> list[Told[Row]]:
    """What is asked of each panel at the place, and what was assumed of it; of panels asked about lately it is kept.

    Raises:
        ContradictionError: figures of a panel exclude each other.
    """

    def row(one: PanelIn) -> Told[Row]:
        panel, assumed = panel_alone(one.given(), as_of, deps.default_tables)
        asked = row_of(stand.setup, stand.assumptions, stand.cells_c, panel, assumed)
        return asked, _assumed(assumed, _READ_OF_PANEL)

    site = request.site.model_dump_json()
    return [deps.rows.get((site, as_of, one.model_dump_json()), partial(row, one)) for one in request.panels]


def columns_of(request: MatrixIn, deps: Deps) -> list[Told[Column]]:
    """The input of each inverter, and what was assumed of it; of inverters asked about lately it is kept.

    Raises:
        ContradictionError: limits of an inverter exclude each other.
    """

    def column(one: InverterIn) -> Told[Column]:
        inverter, assumed = inverter_alone(one.given())
        return column_of(inverter, assumed), _assumed(assumed, _READ_OF_INVERTER)

    return [deps.columns.get(one.model_dump_json(), partial(column, one)) for one in request.inverters]


def at_place(found: Sequence[Told[Row]] | Sequence[Told[Column]], name: str, before: str) -> Iterator[AssumptionOut]:
    """What was assumed of each candidate, at its place in the list of that name."""
    for at, (_, assumed) in enumerate(found):
        for one in assumed:
            yield one.at(f"/{name}/{at}{one.pointer.removeprefix(before)}")


def _assumed(assumptions: Assumptions, read: tuple[str, ...]) -> tuple[AssumptionOut, ...]:
    found = (one for pointer, one in assumptions.by_pointer.items() if pointer.startswith(read))
    return tuple(assumptions_out(Assumptions.of(found)))


def _contradictions(value: Any, deps: Deps) -> list[Mistake]:
    """The contradictions of each candidate, in the order of the request, as far as it can be read."""
    if not isinstance(value, dict):
        return []
    as_of = _day(value, deps)

    def of_panel(panel: PanelIn) -> None:
        panel_alone(panel.given(), as_of, deps.default_tables)

    def of_inverter(inverter: InverterIn) -> None:
        inverter_alone(inverter.given())

    found = chain(
        _of_each(value, "panels", PanelIn, contradictions_of_panel, of_panel),
        _of_each(value, "inverters", InverterIn, contradictions_of_inverter, of_inverter),
    )
    return list(islice(found, MOST_MISTAKES + 1))


def _of_each(
    value: dict[str, Any],
    name: str,
    model: type[C],
    pairs: Callable[[C, str], list[Mistake]],
    complete: Callable[[C], object],
) -> Iterator[Mistake]:
    """Of each candidate in a list: values that exclude each other in pairs; where none do, what completing it meets."""
    candidates = value.get(name)
    for at, one in enumerate(candidates[:MOST] if isinstance(candidates, list) else ()):
        candidate, whole = _readable(model, one)
        if candidate is None:
            continue
        found = pairs(candidate, f"/{name}/{at}")
        yield from found
        if whole and not found:
            try:
                complete(candidate)
            except ContradictionError as error:
                yield mistake_of(moved_to(error, f"/{name}/{at}"))


def _readable(model: type[C], one: Any) -> tuple[C | None, bool]:
    """A candidate without its mistakes, and whether these are but unknown names: then nothing that it said is lost."""
    try:
        return model.model_validate(one), True
    except ValidationError as error:
        mistakes = error.errors(include_url=False, include_context=False)
    rest = deepcopy(one)
    for mistake in mistakes:
        _leave_out(rest, mistake["loc"])
    try:
        return model.model_validate(rest), all(mistake["type"] == "extra_forbidden" for mistake in mistakes)
    except ValidationError:
        return None, False


def _leave_out(node: Any, place: tuple[int | str, ...]) -> None:
    for part in place[:-1]:
        try:
            node = node[part]
        except (KeyError, IndexError, TypeError):
            return
    if isinstance(node, dict):
        node.pop(place[-1], None)


def _day(value: dict[str, Any], deps: Deps) -> date:
    try:
        return day_of(value.get("as_of"), deps)
    except (TypeError, ValueError):
        return deps.today()
