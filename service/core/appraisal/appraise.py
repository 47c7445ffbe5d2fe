"""Is this set worth buying for this home? Decision, steps and cautions out of what the other rooms found."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from service.core.appraisal.cautions import CautionTable, ChosenCautions, chosen_cautions
from service.core.appraisal.decided import Again, decided
from service.core.appraisal.decision import Decision
from service.core.appraisal.open_facts import YearKwh
from service.core.appraisal.steps import Step, steps_of
from service.core.compatibility import Compatibility
from service.core.energy import EnergyYear
from service.core.fixing import FixingForces, fixing_forces
from service.core.model.assumption import Assumptions
from service.core.model.caution import Caution
from service.core.model.facts import Setup
from service.core.worth import Worth


@dataclass(frozen=True, slots=True, kw_only=True)
class Appraisal:
    """The decision with its reasons and conditions, the steps in order, and the cautions chosen."""

    decision: Decision
    steps: tuple[Step, ...]
    cautions: ChosenCautions


def appraise(  # noqa: PLR0913  each room hands in what it found
    *,
    given: Mapping[str, Any],
    setup: Setup,
    assumptions: Assumptions,
    compatibility: Compatibility,
    energy: EnergyYear,
    worth: Worth | None,
    cautions: CautionTable | Iterable[Caution],
    year_kwh: YearKwh | None = None,
    again: Again | None = None,
    fixing: Callable[[Setup, Assumptions], FixingForces] = fixing_forces,
) -> Appraisal:
    """Decide, and say what to do and what to mind.

    Args:
        given: the request as sent, before anything was filled in (cautions are chosen by it).
        setup: the completed request.
        assumptions: what was assumed in it.
        compatibility: findings, worst first; with priced remedies where wanted.
        energy: the year.
        worth: the account; None where no price per kWh is known.
        cautions: the table to choose from.
        year_kwh: the year's middle energy of a setup, in kWh; asked only where an open plane could turn the answer.
        again: asks for the set with the demanded remedies in place; decision and steps are then about that one.
        fixing: the storm's forces on a set, where they may be at hand.
    """
    found = decided(setup, assumptions, compatibility, energy, worth, year_kwh, again)
    now = found.mended
    return Appraisal(
        decision=found.decision,
        steps=steps_of(
            now.setup, now.assumptions, now.compatibility, found.energy, found.decision, found.demanded, fixing
        ),
        cautions=chosen_cautions(cautions, given, compatibility.findings),
    )
