"""Which cautions belong to this request? Those whose facts hold, or were left open where that is dangerous."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Protocol

from service.core.appraisal.caution_conditions import Bits, Conditions, State, Verdicts
from service.core.model.caution import CAUTION_STEPS, Caution

AT_MOST = 5  # a step; more is not read


class Checked(Protocol):
    """Anything with a code and a verdict: a finding, or a suspect of a log review with verdict ``suspected``."""

    @property
    def code(self) -> str:
        """What was checked."""

    @property
    def verdict(self) -> str:
        """How it turned out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenCautions:
    """The cautions to be said, in the order of steps and of urgency, and by step how many were kept back."""

    shown: tuple[Caution, ...]
    kept_back: Mapping[str, int]


# A caution, the bits that its conditions want, and whether they may be open; None: it is said always.
_Row = tuple[Caution, int | None, bool]


@dataclass(frozen=True, slots=True, eq=False)
class CautionTable:
    """Cautions with their conditions taken apart, to be chosen from again and again.

    ``_by_step``: what is always said first, then the worst.
    """

    cautions: tuple[Caution, ...]
    _conditions: Conditions
    _by_step: Mapping[str, tuple[_Row, ...]]

    @classmethod
    def of(cls, cautions: Iterable[Caution]) -> "CautionTable":
        """Take them apart."""
        table = tuple(cautions)
        conditions = Conditions.of(caution.needs for caution in table)
        by_step: dict[str, list[_Row]] = {}
        for caution in sorted(table, key=lambda one: (not one.always, one.rank)):
            wanted = None if caution.always else conditions.wanted(caution.needs)
            by_step.setdefault(caution.step, []).append((caution, wanted, caution.shown_if_open))
        return cls(table, conditions, {step: tuple(rows) for step, rows in by_step.items()})

    def states(self, given: Mapping[str, Any], verdicts: Verdicts) -> list[State]:
        """Of each caution: do its conditions hold together? One that fails decides, else one that is open does."""
        holds, passes = self._conditions.bits(given, verdicts)
        wanted = [self._conditions.wanted(caution.needs) for caution in self.cautions]
        return [
            State.HOLDS if holds & bits == bits else State.OPEN if passes & bits == bits else State.FAILS
            for bits in wanted
        ]

    def bits(self, given: Mapping[str, Any], verdicts: Verdicts) -> Bits | None:
        """All that the choice hangs on: the bits of the conditions; None without arrays, when none is looked at."""
        return self._conditions.bits(given, verdicts) if given.get("arrays") else None

    def fitting(self, bits: Bits | None, steps: Iterable[str]) -> dict[str, list[Caution]]:
        """Those that are said, by step, in the order in which they are chosen; without bits what always is."""
        if bits is None:
            return {step: [row[0] for row in self._by_step.get(step, ()) if row[1] is None] for step in steps}
        holds, passes = bits
        return {
            step: [
                caution
                for caution, wanted, if_open in self._by_step.get(step, ())
                if wanted is None or (passes if if_open else holds) & wanted == wanted
            ]
            for step in steps
        }


def chosen_cautions(
    cautions: CautionTable | Iterable[Caution],
    given: Mapping[str, Any],
    findings: Iterable[Checked],
    steps: Sequence[str] = CAUTION_STEPS,
) -> ChosenCautions:
    """Choose the cautions for a request.

    Args:
        cautions: the table; as a ``CautionTable`` where it is asked more than once.
        given: the request as the caller sent it, before anything was filled in. A pick-up check's ``panel`` is read
            as the first array's, and as used where no age is given.
        findings: what was checked, and how it turned out.
        steps: the steps that are wanted.

    Returns:
        Those that are said always, whose conditions hold, or that are open and to be shown then; at most five a step,
        the worst first, what is always said among them in any case. A request without arrays gets the latter only.
    """
    table = cautions if isinstance(cautions, CautionTable) else CautionTable.of(cautions)
    verdicts: dict[str, set[str]] = {}
    for finding in findings:
        verdicts.setdefault(finding.code, set()).add(str(finding.verdict))
    return _chosen(table, table.bits(_as_appraisal(given), verdicts), tuple(steps))


@lru_cache(maxsize=256)  # homes are much alike
def _chosen(table: CautionTable, bits: Bits | None, steps: tuple[str, ...]) -> ChosenCautions:
    shown: list[Caution] = []
    kept_back: dict[str, int] = {}
    for step, fitting in table.fitting(bits, steps).items():
        shown += sorted(fitting[:AT_MOST], key=lambda caution: caution.rank)
        if len(fitting) > AT_MOST:
            kept_back[step] = len(fitting) - AT_MOST
    return ChosenCautions(shown=tuple(shown), kept_back=kept_back)


def _as_appraisal(given: Mapping[str, Any]) -> Mapping[str, Any]:
    panel = given.get("panel")
    if not isinstance(panel, Mapping) or given.get("arrays"):
        return given
    aged = panel if panel.get("age_years") is not None else {**panel, "age_years": 1}
    return {**given, "arrays": [{"panel": aged}]}
