"""How is advice answered: the decision with reasons and conditions, the steps, the cautions?"""

from enum import StrEnum
from typing import Self

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.base import Code, Facts, Out, Pointer, Text
from service.api.words import say
from service.core.appraisal import Choice, ChosenCautions, Condition, Decision, Reason, Step
from service.core.model.caution import Caution


class Severity(StrEnum):
    """How much harm a caution is about."""

    DANGER = "danger"
    WARNING = "warning"
    NOTE = "note"


class ReasonOut(Out):
    """Why the decision is what it is."""

    code: Code
    facts: Facts
    text: Text

    @classmethod
    def of(cls, reason: Reason) -> Self:
        """With its sentence."""
        return cls.from_core(reason, text=say("decisions", reason.code, reason.facts))


class ConditionOut(Out):
    """One thing on which the decision hangs."""

    code: Code
    facts: Facts
    text: Text
    pointer: Pointer | None
    who: str = Field(description="Who can see to it: you, electrician, seller, operator or landlord.", max_length=20)
    cost: r.Money | None

    @classmethod
    def of(cls, condition: Condition) -> Self:
        """With its sentence."""
        return cls.from_core(condition, text=say("decisions", f"condition.{condition.code}", condition.facts))


class DecisionOut(Out):
    """The decision, and what may be paid for the set at most."""

    verdict: Choice
    text: Text
    worth_up_to: r.Money | None
    because: list[ReasonOut] = Field(max_length=500)
    conditions: list[ConditionOut] = Field(max_length=500)

    @classmethod
    def of(cls, decision: Decision) -> Self:
        """With all sentences."""
        return cls(
            verdict=decision.verdict,
            text=say("decisions", f"verdict.{decision.verdict}"),
            worth_up_to=decision.worth_up_to,
            because=[ReasonOut.of(reason) for reason in decision.because],
            conditions=[ConditionOut.of(condition) for condition in decision.conditions],
        )


class StepOut(Out):
    """Something to do, with the moment for it."""

    code: Code
    when: str = Field(description="before_buying, at_the_door ... moving_out.", max_length=30)
    facts: Facts
    text: Text

    @classmethod
    def of(cls, step: Step) -> Self:
        """With its sentence."""
        return cls.from_core(step, text=say("steps", f"{step.code}.{step.facts.get('variant', '')}", step.facts))


class CautionOut(Out):
    """Something to mind, with the moment for it."""

    code: Code
    severity: Severity
    step: str = Field(max_length=30)
    text: Text

    @classmethod
    def of(cls, caution: Caution) -> Self:
        """With its sentence."""
        return cls.from_core(caution, text=say("cautions", caution.code))


def cautions_out(chosen: ChosenCautions) -> list[CautionOut]:
    """The chosen ones, in their order."""
    return [CautionOut.of(caution) for caution in chosen.shown]
