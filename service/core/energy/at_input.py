"""How far would the year move with other limits of the inputs, other volts of the panels or another way of joining?

Asked where nobody told them, and only where the ratings lie near a limit: between the limits none of them moves a year.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import hypot

import numpy as np

from service.core.energy.chain import ArrayHours
from service.core.energy.sheet import diode_of_sheet
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumptions
from service.core.model.band import Z_90
from service.core.model.facts import Array, Input, Panel, Setup
from service.core.model.hours import Floats

_VOLTS, _CURRENTS = (
    ("open_circuit_voltage_v", "max_power_voltage_v"),
    ("short_circuit_current_a", "max_power_current_a"),
)
_LOWER, _UPPER, _CURRENT = ("tracking_min_v", "start_voltage_v"), ("tracking_max_v",), ("max_current_a",)
_ENDS = _LEAST, _AS_TAKEN, _MOST = 0, 1, 2
_OTHER_WAY = {"series": "parallel", "parallel": "series"}
# Near a limit: cells of 60 degrees have a tenth fewer volts at work, a dim morning an eighth fewer at no load. A current
# up to a third over its limit cuts next to 1 % of a year in central Europe. Judgement, by own runs: nearer than that no
# untold rating of single panels of 250 to 550 W moved more than 2 % of it.
_WARM, _DIM, _OVER = 0.88, 0.88, 1.3
_MOST_MOVED = 99.0  # times the year: where next to nothing comes of it


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AtInput:
    """What untold limits, volts and ways of joining may take, and what they may bring.

    Attributes:
        sd_share: relative standard deviations of the year's d.c. energy as far as the set's limit lets it through, to
            less and to more.
        moves_w: to less and to more, how far each hour's d.c. power of the set moves, weighted by their deviations: the
            sum of deviation times (power with the other choice less power as taken), (n,); None where nothing moves.
    """

    sd_share: tuple[float, float] = (0.0, 0.0)
    moves_w: tuple[Floats | None, Floats | None] = (None, None)


def more_volts(panel: Panel, pointer: str, ratio: float, assumptions: Assumptions) -> Panel:
    """The panel with so many times the volts, and as many times fewer amperes, as far as nobody told them."""
    assumed = assumptions.by_pointer
    changes = {
        name: getattr(panel, name) * factor
        for names, factor in ((_VOLTS, ratio), (_CURRENTS, 1.0 / ratio))
        for name in names
        if f"{pointer}/{name}" in assumed
    }
    return replace(panel, **changes)


def at_input(
    setup: Setup,
    hours: Sequence[ArrayHours],
    assumptions: Assumptions,
    dc_w_of: Callable[[Setup], Floats],
) -> AtInput:
    """What the year hangs on at the inputs, where nobody told it.

    Args:
        setup: the complete request.
        hours: its d.c. side.
        assumptions: which values nobody gave, and how far they reach.
        dc_w_of: (n,) d.c. power of a changed setup; asked twice of each group of values near a limit.

    Start voltage and lower end of the window move together, as do a panel's volts and amperes; upper end, limit of
    current and way of joining each alone. The ends of their ranges count as 10 and 90 % of cases.

    Raises:
        ContradictionError: as of ``dc_w_of``, but not for volts that make no curve, which are left out.
    """
    own_w = np.sum([one.dc_w for one in hours], axis=0)
    most_w = setup.inverter.set_limit_w / setup.inverter.weighted_efficiency_share
    own = float(np.minimum(own_w, most_w).sum())
    sd_share = [0.0, 0.0]
    moves_w: list[Floats | None] = [None, None]
    for group in _groups(setup, assumptions):
        found = [own_w, *(dc_w for one in group if (dc_w := _dc_w(one, dc_w_of)) is not None)]
        sums = [float(np.minimum(one, most_w).sum()) for one in found]
        for more, at in enumerate((int(np.argmin(sums)), int(np.argmax(sums)))):
            if at == 0:
                continue
            sd = (min(abs(sums[at] - own) / own, _MOST_MOVED) if own > 0.0 else _MOST_MOVED) / Z_90
            step = sd * (found[at] - own_w)
            before = moves_w[more]
            sd_share[more], moves_w[more] = hypot(sd_share[more], sd), step if before is None else before + step
    return AtInput(sd_share=(sd_share[0], sd_share[1]), moves_w=(moves_w[0], moves_w[1]))


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
    panels = [_ends_of(array.panel, f"/arrays/{at}/panel", assumptions) for at, array in enumerate(setup.arrays)]
    near: set[tuple[str, ...]] = set()
    for at, limits in enumerate(setup.inverter.inputs):
        on = [place for place, array in enumerate(setup.arrays) if array.input == at + 1]
        if on:
            loads = [
                _load([setup.arrays[place] for place in on], [panels[place][end] for place in on]) for end in _ENDS
            ]
            near.update(_near(limits, f"/inverter/inputs/{at}", assumptions, *loads))
    for names in (_LOWER, _UPPER, _CURRENT):
        if names in near:
            yield tuple(_with_inputs(setup, names, of) for of in (assumptions.low, assumptions.high))
    if _VOLTS in near:
        yield tuple(_with_panels(setup, [ends[end] for ends in panels]) for end in (_LEAST, _MOST))
    arrays = tuple(_joined_otherwise(array, f"/arrays/{at}", assumptions) for at, array in enumerate(setup.arrays))
    if any(one is not array for one, array in zip(arrays, setup.arrays, strict=True)):
        yield (replace(setup, arrays=arrays),)


def _near(
    limits: Input, pointer: str, assumptions: Assumptions, least: "_Load", middle: "_Load", most: "_Load"
) -> Iterator[tuple[str, ...]]:
    """Which groups lie near a limit of an input, with the panels' volts at the least, as taken, and at the most."""

    def end(of: Callable[[str, float], float], name: str) -> float:
        return of(f"{pointer}/{name}", getattr(limits, name))

    if middle.starts_late(*(end(assumptions.high, name) for name in _LOWER)):
        yield _LOWER
    if middle.most_v > end(assumptions.low, "tracking_max_v"):
        yield _UPPER
    if middle.amperes > _OVER * end(assumptions.low, "max_current_a"):
        yield _CURRENT
    late, cut = (
        least.starts_late(limits.tracking_min_v, limits.start_voltage_v),
        least.amperes > _OVER * limits.max_current_a,
    )
    if least != most and (late or cut or most.most_v > limits.tracking_max_v):
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


def _load(arrays: Sequence[Array], panels: Sequence[Panel]) -> _Load:
    in_series = [1 if array.joined == "parallel" else array.count for array in arrays]
    volts = [panel.max_power_voltage_v * many for panel, many in zip(panels, in_series, strict=True)]
    open_v = [panel.open_circuit_voltage_v * many for panel, many in zip(panels, in_series, strict=True)]
    amperes = [p.max_power_current_a * a.count / many for p, a, many in zip(panels, arrays, in_series, strict=True)]
    if arrays[0].joined == "one_string":
        return _Load(sum(volts), sum(open_v), sum(volts), max(amperes))
    return _Load(min(volts), min(open_v), max(volts), sum(amperes))


def _ends_of(panel: Panel, pointer: str, assumptions: Assumptions) -> tuple[Panel, Panel, Panel]:
    """The panel with the fewest volts that it may have, as it was taken, and with the most."""
    least = most = 1.0
    for name in (*_VOLTS, *_CURRENTS):
        found = assumptions.by_pointer.get(f"{pointer}/{name}")
        if found is not None and found.low and found.high:
            ratios = [end / getattr(panel, name) for end in (found.low, found.high)]
            low, high = ratios if name in _VOLTS else [1.0 / ratio for ratio in reversed(ratios)]
            least, most = min(least, low), max(most, high)
    if least == most:
        return panel, panel, panel
    return more_volts(panel, pointer, least, assumptions), panel, more_volts(panel, pointer, most, assumptions)


def _with_inputs(setup: Setup, names: tuple[str, ...], of: Callable[[str, float], float]) -> Setup:
    inputs = tuple(
        replace(one, **{name: of(f"/inverter/inputs/{at}/{name}", getattr(one, name)) for name in names})
        for at, one in enumerate(setup.inverter.inputs)
    )
    return replace(setup, inverter=replace(setup.inverter, inputs=inputs))


def _with_panels(setup: Setup, panels: Sequence[Panel]) -> Setup:
    arrays = zip(setup.arrays, panels, strict=True)
    return replace(setup, arrays=tuple(replace(array, panel=panel) for array, panel in arrays))


def _joined_otherwise(array: Array, pointer: str, assumptions: Assumptions) -> Array:
    if array.count == 1 or array.joined not in _OTHER_WAY or f"{pointer}/joined" not in assumptions.by_pointer:
        return array
    return replace(array, joined=_OTHER_WAY[array.joined])
