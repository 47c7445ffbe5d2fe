"""Which of many panels suit which of many inverters? Each pair as one panel alone on the first input."""

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from service.core.compatibility.panel_side import panel_side
from service.core.compatibility.wiring import Curves, Limits, Wiring
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array, Inverter, Panel, Setup
from service.core.model.finding import WORST_FIRST, Finding, Verdict, worst


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """How one panel suits one inverter: the verdict of its panel side, and the finding that it hangs on.

    ``likely``: with the class's worst values where ratings were assumed. ``worst``: None where all fits.
    """

    verdict: Verdict
    likely: Verdict
    worst: Finding | None


def matrix(
    base: Setup,
    assumptions: Assumptions,
    cells_c: tuple[float, float],
    panels: Sequence[tuple[Array, Assumptions]],
    inverters: Sequence[tuple[Inverter, Assumptions]],
    curves_of: Callable[[Panel], Curves] = lambda _: Curves(),
) -> tuple[tuple[Pair, ...], ...]:
    """One row for each panel, one column for each inverter; each pair as ``check`` judges its panel side.

    What hangs on the panel alone is computed once for its row.

    Args:
        base: a complete set at the place; its arrays and inverter are replaced by those of each pair.
        assumptions: what of ``base`` beside arrays and inverter was assumed.
        cells_c: how hot the cells of such an array get and how cool they are in light, in C.
        panels: arrays of one panel each, and what was assumed of the panel (``/arrays/0/panel/...``).
        inverters: and what was assumed of them (``/inverter/...``).
        curves_of: what is known of a panel's curve already; it is added to.
    """
    hottest_c, cool_c = cells_c
    rows = []
    numbers: dict[Hashable, int] = {}
    limits = [Limits(numbers) for _ in inverters]
    for array, of_panel in panels:
        curves = curves_of(array.panel)
        kept: dict[Hashable, Any] = {}
        row = []
        for (inverter, of_inverter), read in zip(inverters, limits, strict=True):
            setup = replace(base, arrays=(array,), inverter=inverter)
            told = {**assumptions.by_pointer, **of_panel.by_pointer, **of_inverter.by_pointer}
            wiring = Wiring(setup, Assumptions(told), (hottest_c,), curves, kept, read, (cool_c,))
            row.append(_pair(panel_side(wiring)))
        rows.append(tuple(row))
    return tuple(rows)


def _pair(findings: tuple[Finding, ...]) -> Pair:
    verdict = worst(one.verdict for one in findings)
    heaviest = None
    if verdict != Verdict.FITS:
        heaviest = min(
            (one for one in findings if one.verdict == verdict), key=lambda one: WORST_FIRST.index(one.likely)
        )
    return Pair(verdict=verdict, likely=worst(one.likely for one in findings), worst=heaviest)
