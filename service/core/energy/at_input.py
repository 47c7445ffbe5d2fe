"""How far would the year move with other limits of the inputs, other volts of the panels or another way of joining?

Asked where nobody told them, and only where the ratings lie near a limit: between the limits none of them moves a year.
"""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace

from service.core.energy.sheet import diode_of_sheet
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array, Input, Panel, Setup
from service.core.model.hours import Floats

_VOLTS, _CURRENTS = (
    ("open_circuit_voltage_v", "max_power_voltage_v"),
    ("short_circuit_current_a", "max_power_current_a"),
)
_AT_WORK, _AT_ENDS = (_VOLTS[1], _CURRENTS[1]), (_VOLTS[0], _CURRENTS[0])
_LOWER, _UPPER, _CURRENT = ("tracking_min_v", "start_voltage_v"), ("tracking_max_v",), ("max_current_a",)
_ENDS = range(3)
_Point = tuple[float, float, float]  # volts at work and at no load, amperes at work
_OTHER_WAY = {"series": "parallel", "parallel": "series"}
# Near a limit: warm cells have some 6 % fewer volts at work, a dim morning an eighth fewer at no load; a current that
# is a third over its limit cuts some 1 % of a year in central Europe. Judgement: of single panels of 250 to 550 W no
# untold rating that lies farther off moved more than 2 % of it (own runs).
# Cold ones reach a window's upper end from 2 % below on; past it an eighth more current than the limit cuts 4 to 14 %.
_WARM, _DIM, _COLD, _OVER = 0.94, 0.88, 0.98, 1.3


def more_volts(panel: Panel, names: Collection[str], ratio: float) -> Panel:
    """The panel with so many times the volts, and as many times fewer amperes, of the points named."""
    factors = {name: ratio if name in _VOLTS else 1.0 / ratio for name in names}
    return replace(panel, **{name: getattr(panel, name) * factor for name, factor in factors.items()})


def untold_points(pointer: str, assumptions: Assumptions) -> list[str]:
    """The points of the sheet of the panel at this pointer that nobody told."""
    return [name for name in (*_VOLTS, *_CURRENTS) if f"{pointer}/{name}" in assumptions.by_pointer]


def at_input(
    setup: Setup, assumptions: Assumptions, dc_w_of: Callable[[Setup], Floats]
) -> Iterator[tuple[Floats, ...]]:
    """What the set would do at its inputs with the other choices of what nobody told, group by group.

    Args:
        setup: the complete request.
        assumptions: which values nobody gave, and how far they reach.
        dc_w_of: (n,) d.c. power of a changed setup; asked twice of each group of values near a limit, or thrice.

    Returns:
        (n,) d.c. power at both ends of each group. Start voltage and lower end of the window move together, as do a
        panel's volts and amperes; upper end, limit of current and way of joining each alone. With the volts goes the
        kind of panel with the fewest cells on inputs that start late. Volts that make no curve are left out.
    """
    for group in _groups(setup, assumptions):
        yield tuple(dc_w for one in group if (dc_w := _dc_w(one, dc_w_of)) is not None)


def _dc_w(setup: Setup, dc_w_of: Callable[[Setup], Floats]) -> Floats | None:
    """None where its volts make no curve."""
    try:
        for array in setup.arrays:
            diode_of_sheet(array.panel)
    except ContradictionError:
        return None
    return dc_w_of(setup)


def _groups(setup: Setup, assumptions: Assumptions) -> Iterator[tuple[Setup, ...]]:
    """Of each group of untold values that lies near a limit the setups with its ends."""
    arrays = setup.arrays
    reach = [_reach(array.panel, f"/arrays/{at}/panel", assumptions) for at, array in enumerate(arrays)]
    near: set[tuple[str, ...]] = set()
    for at, limits in enumerate(setup.inverter.inputs):
        on = [place for place, array in enumerate(arrays) if array.input == at + 1]
        if on:
            loads = [
                _load([arrays[place] for place in on], [reach[place].points[end] for place in on]) for end in _ENDS
            ]
            near.update(_near(limits, f"/inverter/inputs/{at}", assumptions, *loads))
    for names in (_LOWER, _UPPER, _CURRENT):
        if names in near:
            yield tuple(_with_inputs(setup, names, of) for of in (assumptions.low, assumptions.high))
    volts = [_with_volts(setup, reach, end) for end in (0, 1)] if _VOLTS in near else []
    volts += _fewer_cells_that_start_late(setup, reach, assumptions)
    if volts:
        yield tuple(volts)
    others = tuple(_joined_otherwise(array, f"/arrays/{at}", assumptions) for at, array in enumerate(arrays))
    if any(one is not array for one, array in zip(others, arrays, strict=True)):
        yield (replace(setup, arrays=others),)
    for apart in _each_on_its_own(setup, assumptions):
        yield (replace(setup, arrays=apart),)


@dataclass(frozen=True, slots=True)
class _Reach:
    """How many times its volts a panel may have at the least and at the most, and volts at work, at no load, amperes.

    ``names``: the points of its sheet that move. ``points``: those three at the least volts, as taken, and at the most.
    """

    names: tuple[str, ...]
    ratios: tuple[float, float]
    points: tuple[_Point, _Point, _Point]


def _reach(panel: Panel, pointer: str, assumptions: Assumptions) -> _Reach:
    """A point at work of which one half was told is known by the power; untold pairs tell how far the volts reach."""
    names = set(untold_points(pointer, assumptions))
    if len(names.intersection(_AT_WORK)) == 1:
        names.difference_update(_AT_WORK)
    pairs = [name for pair in (_AT_WORK, _AT_ENDS) if names.issuperset(pair) for name in pair]
    least = most = 1.0
    for name in pairs or names:
        found, value = assumptions.by_pointer[f"{pointer}/{name}"], getattr(panel, name)
        if found.low and found.high:
            low, high = found.low / value, found.high / value
            if name not in _VOLTS:
                low, high = 1.0 / high, 1.0 / low
            least, most = min(least, low), max(most, high)
    as_taken = panel.max_power_voltage_v, panel.open_circuit_voltage_v, panel.max_power_current_a
    work, at_ends = _AT_WORK[0] in names, _AT_ENDS[0] in names

    def at(ratio: float) -> _Point:
        volts, amperes = (as_taken[0] * ratio, as_taken[2] / ratio) if work else (as_taken[0], as_taken[2])
        return volts, as_taken[1] * (ratio if at_ends else 1.0), amperes

    return _Reach(tuple(names), (least, most), (at(least), as_taken, at(most)))


def _near(
    limits: Input, pointer: str, assumptions: Assumptions, least: "_Load", middle: "_Load", most: "_Load"
) -> Iterator[tuple[str, ...]]:
    """Which groups lie near a limit of an input, with the panels' volts at the least, as taken, and at the most."""
    low, high, known = assumptions.low, assumptions.high, assumptions.by_pointer
    tracking_min, start, tracking_max, current = (f"{pointer}/{name}" for name in (*_LOWER, *_UPPER, *_CURRENT))
    if tracking_min in known or start in known:
        ends = high(tracking_min, limits.tracking_min_v), high(start, limits.start_voltage_v)
        if middle.starts_late(*ends):
            yield _LOWER
    if tracking_max in known and middle.most_v > low(tracking_max, limits.tracking_max_v):
        yield _UPPER
    # Held below its volts of most power a panel gives more amperes, and none by which an input could give way.
    over = 1.0 if middle.most_v > _COLD * limits.tracking_max_v else _OVER
    if current in known and middle.amperes > over * low(current, limits.max_current_a):
        yield _CURRENT
    if least == most:
        return
    late, over = least.starts_late(limits.tracking_min_v, limits.start_voltage_v), _OVER * limits.max_current_a
    if late or least.amperes > over or most.most_v > limits.tracking_max_v:
        yield _VOLTS


@dataclass(frozen=True, slots=True)
class _Load:
    """What an input meets in the sun: volts at work and at no load of its lowest string, and of its highest."""

    least_v: float
    least_open_v: float
    most_v: float
    amperes: float

    def starts_late(self, tracking_min_v: float, start_voltage_v: float) -> bool:
        """May warm panels lie below the window, or dim ones not start?"""
        return self.least_v * _WARM < tracking_min_v or self.least_open_v * _DIM < start_voltage_v


def _load(arrays: Sequence[Array], points: Sequence[_Point]) -> _Load:
    if len(arrays) == 1:
        array, (work_v, open_v, amperes) = arrays[0], points[0]
        many, strings = (1, array.count) if array.joined == "parallel" else (array.count, 1)
        return _Load(work_v * many, open_v * many, work_v * many, amperes * strings)
    alone = [_load([array], [point]) for array, point in zip(arrays, points, strict=True)]
    volts, amperes_of = [one.most_v for one in alone], [one.amperes for one in alone]
    if arrays[0].joined == "one_string":
        return _Load(sum(volts), sum(one.least_open_v for one in alone), sum(volts), max(amperes_of))
    return _Load(min(volts), min(one.least_open_v for one in alone), max(volts), sum(amperes_of))


def _fewer_cells_that_start_late(setup: Setup, reach: Sequence[_Reach], assumptions: Assumptions) -> Iterator[Setup]:
    """The set with the middle volts of the kind of panel with the fewest cells, on inputs that start at the latest.

    Each alone starts in time, as fewer cells meet the usual window or the usual cells a late one. Both are met: where
    one is told, the other's range holds them.
    """
    fewer = [_of_fewest_cells(f"/arrays/{at}/panel", one, assumptions) for at, one in enumerate(reach)]
    if min(fewer) == 1.0:
        return
    arrays = [
        replace(array, panel=more_volts(array.panel, one.names, ratio))
        for array, one, ratio in zip(setup.arrays, reach, fewer, strict=True)
    ]
    changed = _with_inputs(replace(setup, arrays=tuple(arrays)), _LOWER, assumptions.high)
    for number, (limits, before) in enumerate(zip(changed.inverter.inputs, setup.inverter.inputs, strict=True), 1):
        on = [array for array in arrays if array.input == number]
        points = [
            (one.panel.max_power_voltage_v, one.panel.open_circuit_voltage_v, one.panel.max_power_current_a)
            for one in on
        ]
        if not on or limits == before:
            continue
        load = _load(on, points)  # at rated power: what warm or dim hours alone lose is 1 % of a year
        if load.least_v < limits.tracking_min_v or load.least_open_v < limits.start_voltage_v:
            yield changed
            return


def _of_fewest_cells(pointer: str, reach: _Reach, assumptions: Assumptions) -> float:
    """The volts of the kind with the fewest cells over those taken; 1 where volts or cells are known."""
    cells = assumptions.by_pointer.get(f"{pointer}/cells_in_series")
    if not reach.names or cells is None or not isinstance(cells.value, int | float) or not cells.low:
        return 1.0
    return max(cells.low / cells.value, reach.ratios[0])


def _with_volts(setup: Setup, reach: Sequence[_Reach], end: int) -> Setup:
    arrays = tuple(
        replace(array, panel=more_volts(array.panel, one.names, one.ratios[end]))
        for array, one in zip(setup.arrays, reach, strict=True)
    )
    return replace(setup, arrays=arrays)


def _with_inputs(setup: Setup, names: tuple[str, ...], of: Callable[[str, float], float]) -> Setup:
    inputs = tuple(
        replace(one, **{name: of(f"/inverter/inputs/{at}/{name}", getattr(one, name)) for name in names})  # type: ignore[arg-type]
        for at, one in enumerate(setup.inverter.inputs)
    )
    return replace(setup, inverter=replace(setup.inverter, inputs=inputs))


def _joined_otherwise(array: Array, pointer: str, assumptions: Assumptions) -> Array:
    if array.count == 1 or array.joined not in _OTHER_WAY or f"{pointer}/joined" not in assumptions.by_pointer:
        return array
    return replace(array, joined=_OTHER_WAY[array.joined])


def _each_on_its_own(setup: Setup, assumptions: Assumptions) -> Iterator[tuple[Array, ...]]:
    """The panels on an input each, where nobody told how they are joined or where, and there are inputs for all."""
    panels, told = sum(array.count for array in setup.arrays), assumptions.by_pointer
    if not len(setup.arrays) < panels <= len(setup.inverter.inputs):
        return
    for at, array in enumerate(setup.arrays):
        if f"/arrays/{at}/input" not in told or (array.count > 1 and f"/arrays/{at}/joined" not in told):
            return
    each = (array for array in setup.arrays for _ in range(array.count))
    yield tuple(replace(array, count=1, joined="parallel", input=at) for at, array in enumerate(each, 1))
