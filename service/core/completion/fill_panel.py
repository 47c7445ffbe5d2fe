"""What is the complete datasheet of a panel of which only some figures were given?"""

from collections.abc import Mapping
from datetime import date
from math import sqrt
from typing import Any

from service.core.completion.fill_from_list import (
    CODED,
    Reach,
    facts_of,
    guess_by_code,
    named_by_list,
    points_by_code,
    reach,
)
from service.core.completion.node import Guess, Node
from service.core.completion.panel_mending import mended
from service.core.completion.panel_rules import (
    IMP,
    ISC,
    VMP,
    VOC,
    Known,
    ages_of,
    cells_guess,
    class_voltage,
    electric_points,
    formats_like,
)
from service.core.errors import ContradictionError
from service.core.identity import Candidate, PanelFacts, by_code
from service.core.identity.classes import CellClass, PanelFormat, Span, class_of
from service.core.model.bounds import BOUNDS
from service.core.model.facts import Panel
from service.core.model.panel_list import PanelList

# How far two spellings of one coefficient may differ, in % per K: what rounding on a label explains.
_SAME_COEFFICIENT = 0.02


def panel_of(node: Node, as_of: date, listed: PanelList) -> Panel:
    """The complete panel; every figure that was not given stands in the node's log, with its range.

    ``listed`` is the public list of panels.

    Raises:
        ContradictionError: given figures cannot belong to one panel; with an example of what could.
    """
    try:
        return _completed(node, as_of, listed)
    except ContradictionError as error:

        def again(given: Mapping[str, Any]) -> Panel:
            return _completed(Node(given, node.pointer, []), as_of, listed)

        raise mended(error, node.given, node.pointer, again) from error


def _completed(node: Node, as_of: date, listed: PanelList) -> Panel:
    age = node.get("age_years")
    facts = facts_of(node, None if age is None else as_of.year - round(age))
    coded = by_code(facts, listed)
    listed_kind = None if coded is None else coded.cell_kind
    kind_name = node.take("cell_kind", Guess(value=listed_kind, code=CODED) if listed_kind else None)
    known = _known(node, kind_name, facts.built)
    formats = formats_like(known)
    guessed = cells_guess(known, formats)
    if coded is not None and coded.cells_in_series is not None:
        guessed = Guess(value=coded.cells_in_series, code=CODED)
    cells = node.take("cells_in_series", guessed)
    kind = class_of(kind_name, known.rated_power_w / cells)
    guesses = _points(node, known, cells, guessed, kind, formats, facts, None if coded else listed)
    if coded is not None:
        guesses = points_by_code(coded, facts, guesses)
    points = {name: node.take(name, guesses.get(name)) for name in (VOC, ISC, VMP, IMP)}
    length, width, weight = _size(node, known.rated_power_w, formats)
    return Panel(
        rated_power_w=known.rated_power_w,
        open_circuit_voltage_v=points[VOC],
        short_circuit_current_a=points[ISC],
        max_power_voltage_v=points[VMP],
        max_power_current_a=points[IMP],
        cells_in_series=cells,
        voc_coefficient_pct_per_k=_coefficient(node, "voc", "v", points[VOC], kind.voc_pct_per_k, coded),
        isc_coefficient_pct_per_k=_coefficient(node, "isc", "a", points[ISC], kind.isc_pct_per_k, coded),
        power_coefficient_pct_per_k=node.take(
            "power_coefficient_pct_per_k",
            guess_by_code(coded, "power_coefficient_pct_per_k") or _span(kind.power_pct_per_k),
        ),
        max_system_voltage_v=node.get("max_system_voltage_v"),
        max_series_fuse_a=node.get("max_series_fuse_a"),
        cell_kind=kind_name,
        bifaciality_share=node.take("bifaciality_share"),
        length_mm=length,
        width_mm=width,
        weight_kg=weight,
        age_years=_age(node, formats, known.rated_power_w, as_of),
        power_tolerance_pct=_tolerance(node),
        connector=node.take("connector"),
        glass=node.take("glass"),
        history=node.take("history"),
        model_code=node.get("model_code"),
        connector_make=node.get("connector_make"),
        half_cells=node.get("half_cells"),
    )


def _known(node: Node, kind: str, built: int | None) -> Known:
    power = node.get("rated_power_w")
    if power is None:
        raise ContradictionError(
            node.at("rated_power_w"), "is missing; nothing can be said without it", accepted="watts on the label",
            example=410,
        )  # fmt: skip
    length, width = node.get("length_mm"), node.get("width_mm")
    return Known(
        rated_power_w=power,
        cell_kind=kind,
        cells_in_series=node.get("cells_in_series"),
        open_circuit_voltage_v=node.get(VOC),
        short_circuit_current_a=node.get(ISC),
        area_m2=None if length is None or width is None else length * width / 1e6,
        built=built,
    )


def _points(
    node: Node, known: Known, cells: int, guessed: Guess, kind: CellClass, formats: tuple[PanelFormat, ...],
    facts: PanelFacts, listed: PanelList | None,
) -> dict[str, Guess]:  # fmt: skip
    if known.cells_in_series is not None or guessed.low is None or guessed.high is None:
        span = Span(cells, cells, cells)
    else:
        span = Span(cells, guessed.low, guessed.high)
    current = None
    if formats:
        current = Span(
            0.0,
            min(f.short_circuit_current_a[0] for f in formats),
            max(f.short_circuit_current_a[1] for f in formats),
        )
    voltage = class_voltage(known, span, kind, formats)
    reached = reach(facts, known, kind, formats, listed, Reach(voltage=voltage, current=current))
    given = {name: node.get(name) for name in (VOC, ISC, VMP, IMP)}
    guesses = electric_points(given, known.rated_power_w, kind, reached.voltage, reached.current, node.pointer)
    return named_by_list(guesses, reached)


def _span(span: Span) -> Guess:
    return Guess(value=span.middle, low=span.low, high=span.high)


_SIGNS = {"v": "V", "mv": "mV", "a": "A", "ma": "mA"}


def _coefficient(node: Node, quantity: str, unit: str, reference: float, span: Span, coded: Candidate | None) -> float:
    """In % per K: as given, or turned from V, mV, A or mA per K, or of the class; both given must agree."""
    relative, absolute = f"{quantity}_coefficient_pct_per_k", f"{quantity}_coefficient_{unit}_per_k"
    given_relative, given_absolute = node.get(relative), node.get(absolute)
    thousandths = f"{quantity}_coefficient_m{unit}_per_k"
    if given_absolute is None and (given := node.get(thousandths)) is not None:
        absolute, given_absolute = thousandths, given
        reference, unit = 1000 * reference, f"m{unit}"
    if given_absolute is None:
        return float(node.take(relative, guess_by_code(coded, relative) or _span(span)))
    turned = float(given_absolute / reference * 100)
    if given_relative is not None:
        if abs(given_relative - turned) > max(_SAME_COEFFICIENT, 0.1 * abs(given_relative)):
            raise ContradictionError(
                node.at(absolute), f"and {relative} do not agree", given=given_absolute,
                accepted=f"one of the two; {given_relative:g} %/K is {given_relative / 100 * reference:.4f} "
                f"{_SIGNS[unit]}/K here", example=round(given_relative / 100 * reference, 4),
            )  # fmt: skip
        return float(given_relative)
    bounds = BOUNDS[relative]
    if not bounds.low <= turned <= bounds.high:
        raise ContradictionError(
            node.at(absolute), f"is {turned:.3g} % per K of {reference:g} {_SIGNS[unit]}", given=given_absolute,
            accepted=f"{bounds.low:g} to {bounds.high:g} % per K", example=round(span.middle / 100 * reference, 4),
        )  # fmt: skip
    return turned


def _size(node: Node, power: float, formats: tuple[PanelFormat, ...]) -> tuple[float, float, float]:
    if formats:
        length = _among(formats[0].length_mm, [f.length_mm for f in formats], 0.04)
        width = _among(formats[0].width_mm, [f.width_mm for f in formats], 0.04)
    else:  # some 200 W a square metre, half as long again as wide
        side = sqrt(power / 200 / 1.5) * 1000
        width = _in_bounds("width_mm", side, 0.25)
        length = _in_bounds("length_mm", 1.5 * side, 0.25)
    taken = node.take("length_mm", length), node.take("width_mm", width)
    if formats and node.get("length_mm") is None and node.get("width_mm") is None:
        weight = _among(formats[0].weight_kg, [f.weight_kg for f in formats], 0.15)
    else:
        weight = _in_bounds("weight_kg", 11 * taken[0] * taken[1] / 1e6, 0.25)
    return *taken, node.take("weight_kg", weight)


def _among(value: float, rivals: list[float], slack: float) -> Guess:
    low, high = round((1 - slack) * min(rivals), 1), round((1 + slack) * max(rivals), 1)
    return Guess(value=round(value, 1), low=low, high=high)


def _in_bounds(name: str, value: float, slack: float) -> Guess:
    bounds = BOUNDS[name]
    value = min(max(value, bounds.low), bounds.high)
    return _among(value, [value], slack)


def _age(node: Node, formats: tuple[PanelFormat, ...], rated_power_w: float, as_of: date) -> float:
    """Nobody tells that it is unused: as old as panels of its format are, and no surer; else of middle age."""
    guess = None
    if node.get("history") == "unused":
        guess = Guess(value=0.0, code="taken_as_new")
    elif formats:
        low, high = ages_of(formats, rated_power_w, as_of.year)
        guess = Guess(value=(low + high) / 2, code="made_then", low=low, high=high)
    return float(node.take("age_years", guess))


def _tolerance(node: Node) -> tuple[float, float]:
    low, high = node.take("power_tolerance_pct")
    if low > high:
        raise ContradictionError(
            node.at("power_tolerance_pct"), "has its least above its most", given=[low, high],
            accepted="least first, such as [0, 3]", example=[0, 3],
        )  # fmt: skip
    return low, high
