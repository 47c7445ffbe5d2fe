"""Which of many panels suit which of many inverters? Each pair as one panel alone on the first input."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from service.core.compatibility.panel_side import questions
from service.core.compatibility.question import InputLimits, Question
from service.core.compatibility.wiring import Curves, Wiring
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


_FITS = Pair(verdict=Verdict.FITS, likely=Verdict.FITS, worst=None)


def matrix(
    base: Setup,
    assumptions: Assumptions,
    cells_c: tuple[float, float],
    panels: Sequence[tuple[Array, Assumptions]],
    inverters: Sequence[tuple[Inverter, Assumptions]],
    curves_of: Callable[[Panel], Curves] = lambda _: Curves(),
) -> tuple[tuple[Pair, ...], ...]:
    """One row for each panel, one column for each inverter; each pair as ``check`` judges its panel side.

    What hangs on the panel alone is computed once for its row, a limit is read once for its column; a pair costs its
    comparisons, and the words of the one finding that it hangs on.

    Args:
        base: a complete set at the place; its arrays are replaced by that of each panel, its inverter is not asked.
        assumptions: what of ``base`` beside arrays and inverter was assumed.
        cells_c: how hot the cells of such an array get and how cool they are in light, in C.
        panels: arrays of one panel each, and what was assumed of the panel (``/arrays/0/panel/...``).
        inverters: and what was assumed of them (``/inverter/...``).
        curves_of: what is known of a panel's curve already; it is added to.
    """
    hottest_c, cool_c = cells_c
    columns = [InputLimits(0, inverter.inputs[0], of_inverter) for inverter, of_inverter in inverters]
    rows = []
    for array, of_panel in panels:
        told = Assumptions({**assumptions.by_pointer, **of_panel.by_pointer})
        wiring = Wiring(replace(base, arrays=(array,)), told, (hottest_c,), curves_of(array.panel), (cool_c,))
        asked = questions(wiring, 0, wiring.strings())
        rows.append(tuple(_pair(asked, limits) for limits in columns))
    return tuple(rows)


def _pair(asked: Sequence[Question], limits: InputLimits) -> Pair:
    found = [(question, outcome) for question in asked if (outcome := question.outcome(limits)) is not None]
    if all(outcome.verdict is Verdict.FITS for _, outcome in found):
        return _FITS
    question, heaviest = min(
        found, key=lambda one: (WORST_FIRST.index(one[1].verdict), WORST_FIRST.index(one[1].likely))
    )
    likely = worst(outcome.likely for _, outcome in found)
    return Pair(verdict=heaviest.verdict, likely=likely, worst=question.told(limits, heaviest))
