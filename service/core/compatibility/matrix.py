"""Which of many panels suit which of many inverters? Each pair as one panel alone on the first input."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from service.core.compatibility.panel_side import dangers, questions
from service.core.compatibility.question import InputLimits, Question
from service.core.compatibility.reach import SETTLED, Outcome
from service.core.compatibility.wiring import Curves, Wiring, strings_of
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array, Inverter, Panel, Setup
from service.core.model.finding import WORST_FIRST, Finding, Verdict, worst

# A row is what is asked of one panel, a column the input of one inverter that it is asked of.
Row = tuple[Question, ...]
Column = InputLimits


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """How one panel suits one inverter: the verdict of its panel side, and the finding that it hangs on.

    ``likely``: with the class's worst values where ratings were assumed. ``worst``: None where all fits.
    """

    verdict: Verdict
    likely: Verdict
    worst: Finding | None


# Not asked, or known and kept.
_NOTHING_AMISS = (SETTLED[Verdict.FITS], None)
_FITS = Pair(verdict=Verdict.FITS, likely=Verdict.FITS, worst=None)


class Dangers:
    """What can refuse panels as they hang, made up question by question as it is asked of inputs, and kept."""

    def __init__(self, parts: Sequence[Callable[[], tuple[Question, ...]]]) -> None:
        """``parts``: as of ``panel_side.dangers``. Two threads may make up the same part, which does no harm."""
        self._parts = parts
        self._made: dict[int, tuple[Question, ...]] = {}

    def refuse(self, column: Column) -> bool:
        """Does any of them refuse an input?"""
        return self.stand(column) == Verdict.DOES_NOT_FIT

    def stand(self, column: Column) -> Verdict:
        """How they stand to an input: refused, not known where the class's worst values refuse, else fits."""
        likely = Verdict.FITS
        for question in self._questions():
            outcome = question.outcome(column)
            if outcome is None:
                continue
            if outcome.verdict == Verdict.DOES_NOT_FIT:
                return Verdict.DOES_NOT_FIT
            if outcome.likely == Verdict.DOES_NOT_FIT:
                likely = Verdict.NOT_KNOWN
        return likely

    def refusal(self, column: Column) -> Finding | None:
        """The first finding that refuses an input; None where nothing is known to."""
        question, outcome = next(self._refusing(column), (None, None))
        return None if question is None or outcome is None else question.told(column, outcome)

    def _refusing(self, column: Column) -> Iterator[tuple[Question, Outcome]]:
        for question in self._questions():
            outcome = question.outcome(column)
            if outcome is not None and outcome.verdict == Verdict.DOES_NOT_FIT:
                yield question, outcome

    def _questions(self) -> Iterator[Question]:
        for at, part in enumerate(self._parts):
            if at not in self._made:
                self._made[at] = part()
            yield from self._made[at]


def row_of(
    base: Setup, assumptions: Assumptions, cells_c: tuple[float, float], panel: Panel, of_panel: Assumptions
) -> Row:
    """What is asked of one panel, with all that hangs on the panel alone at hand.

    Args:
        base: a complete set at the place; the panel takes the place of that in its first array, which stands there
            alone, and its inverter is not asked.
        assumptions: what of ``base`` beside arrays and inverter was assumed.
        cells_c: how hot the cells of such an array get and how cool they are in light, in C.
        panel: the one that is asked about.
        of_panel: what was assumed of the panel (``/arrays/0/panel/...``).
    """
    wiring = wired_alone(base, assumptions, cells_c, panel, of_panel)
    return questions(wiring, 0, wiring.strings())


def dangers_of(wiring: Wiring, array: Array | None = None) -> Dangers:
    """As ``row_of``, but only what can refuse; an array's own count and wiring count.

    Args:
        wiring: of a panel, ``wired_alone``.
        array: of that panel, in the place of the one it stands in there, joined in series or in parallel.
    """
    return Dangers(dangers(wiring, 0, wiring.strings() if array is None else (strings_of(0, array),)))


def wired_alone(
    base: Setup,
    assumptions: Assumptions,
    cells_c: tuple[float, float],
    panel: Panel,
    of_panel: Assumptions,
    curves: Curves | None = None,
) -> Wiring:
    """A panel in the first array of a set, which stands there alone; arguments as ``row_of``.

    ``curves``: what is known of the panel's curve already; it is added to.
    """
    hottest_c, cool_c = cells_c
    told = Assumptions({**assumptions.by_pointer, **of_panel.by_pointer})
    if len(base.arrays) > 1 or base.arrays[0].panel is not panel:
        base = replace(base, arrays=(replace(base.arrays[0], panel=panel),))
    return Wiring(base, told, (hottest_c,), curves or Curves(), (cool_c,))


def column_of(inverter: Inverter, of_inverter: Assumptions, index: int = 0) -> Column:
    """An input of an inverter, the first one unless said, with what was assumed of it (``/inverter/...``)."""
    return InputLimits(index, inverter.inputs[index], of_inverter, inverter.connector_make)


def matrix(rows: Iterable[Row], columns: Sequence[Column]) -> tuple[tuple[Pair, ...], ...]:
    """One row for each panel, one column for each inverter; each pair as ``check`` judges its panel side.

    A pair costs its comparisons, and the words of the one finding that it hangs on.
    """
    return tuple(tuple(_pair(row, column) for column in columns) for row in rows)


def _pair(row: Row, column: Column) -> Pair:
    found = [(question, outcome) for question in row if (outcome := question.outcome(column)) not in _NOTHING_AMISS]
    if not found:
        return _FITS
    question, heaviest = min(
        found, key=lambda one: (WORST_FIRST.index(one[1].verdict), WORST_FIRST.index(one[1].likely))
    )
    likely = worst(outcome.likely for _, outcome in found)
    return Pair(verdict=heaviest.verdict, likely=likely, worst=question.told(column, heaviest))
