"""How far does a figure of a panel's curve move with the ratings that nobody gave?

Two kinds of ratings bear on such a figure. The ones that the question is about: without them it stays open, however
wide the margin. And the ones that only shape the curve between its points: they open the question only where somewhere
in their range the answer would be another.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from service.core.compatibility.reach import Outcome, Reach, exactly
from service.core.compatibility.wiring import Strings, Wiring
from service.core.model.facts import Panel
from service.core.model.finding import Verdict, worst

# What a curve is drawn from.
SHAPES = (
    "open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v", "max_power_current_a",
    "cells_in_series", "voc_coefficient_pct_per_k", "isc_coefficient_pct_per_k", "cell_kind",
)  # fmt: skip
# Kinds whose curve bends furthest from that of crystalline silicon, the kind that is taken where nobody said.
_OTHER_KINDS = ("cdte", "cigs", "amorphous")
# A figure further than this share from its limit is not moved across it by what only shapes the curve.
_FAR = 0.25


def moved(wiring: Wiring, strings: Strings, figure: Callable[[Panel], float], names: tuple[str, ...]) -> Reach:
    """The figure with its range over those of the named ratings that were assumed, each moved alone and summed."""
    value = figure(strings.panel)
    low = high = value
    missing: list[str] = []
    ranged = True
    for name in names:
        pointer = f"{strings.pointer}/panel/{name}"
        if name == "cell_kind":
            if not wiring.assumptions.assumed(pointer):
                continue
            ends: tuple[object, ...] = _OTHER_KINDS
            missing.append(pointer)
        else:
            reach = wiring.of_panel(strings, name)
            if not reach.missing:
                continue
            missing.extend(reach.missing)
            ends = (reach.low, reach.high)
        if None in ends:
            ranged = False
            continue
        changes = [figure(_with(strings.panel, name, end)) - value for end in ends]
        low, high = low + min(0.0, *changes), high + max(0.0, *changes)
    return Reach(low if ranged else None, value, high if ranged else None, tuple(dict.fromkeys(missing)))


def throughout(outcome: Outcome, reach: Callable[[], Reach], verdict: Callable[[Reach], Verdict]) -> Outcome:
    """An outcome on the ratings asked about, opened where what only shapes the curve would turn it.

    Args:
        outcome: with the shape of the curve taken as it is; returned as it is where it is open already.
        reach: the figure over what shapes the curve.
        verdict: of one known value of the figure.
    """
    if outcome.missing or outcome.verdict in (Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT):
        return outcome
    found = reach()
    if not found.missing:
        return outcome
    if found.low is None or found.high is None:
        return Outcome(Verdict.NOT_KNOWN, outcome.verdict, found.missing)
    verdicts = {verdict(exactly(end)) for end in (found.low, found.high)}
    return outcome if verdicts == {outcome.verdict} else Outcome(Verdict.NOT_KNOWN, worst(verdicts), found.missing)


def far_from(value: float | None, limit: float) -> bool:
    """Is a figure so far from its limit that the shape of the curve does not decide?"""
    return value is not None and abs(value - limit) > _FAR * abs(limit)


def _with(panel: Panel, name: str, end: object) -> Panel:
    change: dict[str, Any] = {name: round(end) if name == "cells_in_series" and isinstance(end, float | int) else end}
    return replace(panel, **change)
