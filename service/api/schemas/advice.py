"""How is advice answered: the decision with reasons and conditions, the steps, the cautions?"""

from collections.abc import Mapping
from enum import StrEnum
from functools import lru_cache
from typing import Self

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.band import KwhBandOut, MoneyBandOut, YearsBandOut
from service.api.schemas.base import Anything, Code, Facts, Out, Pointer, Text, Told, packed, unpacked
from service.api.schemas.finding import OperationOut
from service.api.words import say
from service.core.appraisal import Choice, ChosenCautions, Condition, Decision, OnceMet, Reason, Step
from service.core.model.finding import Fact


class Severity(StrEnum):
    """How much harm a caution is about."""

    DANGER = "danger"
    WARNING = "warning"
    NOTE = "note"


class ReasonOut(Told):
    """Why the decision is what it is."""

    code: Code
    facts: Facts
    text: Text

    @classmethod
    def of(cls, reason: Reason) -> "ReasonOut":
        """With its sentence."""
        facts = packed(reason.facts)
        return cls.worded(reason.code, reason.facts) if facts is None else _reason_out(reason.code, facts)

    @classmethod
    def worded(cls, code: str, facts: Mapping[str, Fact]) -> Self:
        """The same, made anew."""
        return cls(code=code, facts=dict(facts), text=say("decisions", code, facts))


@lru_cache(maxsize=512)  # some 1 kB each
def _reason_out(code: str, facts: bytes) -> ReasonOut:
    return ReasonOut.worded(code, unpacked(facts))


class CostReasonOut(Out):
    """Why a condition costs what it does, or why that is not known."""

    code: Code
    text: Text


class ConditionOut(Out):
    """One thing on which the decision hangs."""

    code: Code
    facts: Facts
    text: Text
    pointer: Pointer | None
    patch: list[OperationOut] = Field(
        max_length=40, description="What to change where it is more than one field, in this order (RFC 6902)."
    )
    who: str = Field(description="Who can see to it: you, electrician, seller, operator or landlord.", max_length=20)
    cost: MoneyBandOut | None = Field(description="What it costs once; null where that is not known.")
    cost_per_year: MoneyBandOut | None = Field(
        description="What the first year's saving loses by it, after the conditions before it; below nought where it "
        "gains, null where no price per kWh is known."
    )
    cost_because: CostReasonOut

    @classmethod
    def of(cls, condition: Condition) -> Self:
        """With its sentence."""
        because = CostReasonOut(
            code=condition.cost_because, text=say("decisions", f"cost_because.{condition.cost_because}")
        )
        return cls.from_core(condition, text=_sentence(condition.code, condition.facts), cost_because=because)


def _sentence(code: str, facts: Mapping[str, Fact]) -> str:
    """A condition in words; of a variant where the facts name one."""
    return say("decisions", f"condition.{code}.{facts.get('variant') or ''}", facts)


class ChangeOut(Out):
    """What a condition sets in the request; the code is the condition's."""

    code: Code
    text: Text
    pointer: Pointer | None
    new_value: Anything = Field(description="What to put there; null where it is more than one field.")
    patch: list[OperationOut] = Field(
        max_length=40, description="What to change where it is more than one field, in this order (RFC 6902)."
    )

    @classmethod
    def of(cls, condition: Condition) -> Self:
        """With its sentence."""
        one_field = condition.facts.get("one_field")
        new_value = condition.facts.get("new_value") if one_field else None
        return cls.from_core(condition, text=_sentence(condition.code, condition.facts), new_value=new_value)


class OnceMetOut(Out):
    """The set with those conditions met that change it, and the figures that then hold: those of the decision."""

    text: Text
    changes: list[ChangeOut] = Field(max_length=100)
    year_kwh: KwhBandOut
    saving_first_year: MoneyBandOut | None
    discounted_payback_years: YearsBandOut | None
    net_present_value: MoneyBandOut | None
    worth_up_to: MoneyBandOut | None

    @classmethod
    def of(cls, met: OnceMet) -> Self:
        """With its sentence."""
        changes = [ChangeOut.of(condition) for condition in met.changes]
        return cls.from_core(met, text=say("decisions", "once_met"), changes=changes)


class DecisionOut(Out):
    """The decision, and what may be paid for the set at most."""

    verdict: Choice
    text: Text
    worth_up_to: r.Money | None = Field(
        description="The most outlay that is paid back, in the middle case. Texts say it in two digits, cut."
    )
    because: list[ReasonOut] = Field(max_length=500)
    conditions: list[ConditionOut] = Field(max_length=500)
    once_met: OnceMetOut | None = Field(
        description="What the decision and its figures are about, where conditions change the set; `energy`, `use` and "
        "`payback` of the answer stay those of the set as asked. Null where no condition changes it."
    )

    @classmethod
    def of(cls, decision: Decision) -> Self:
        """With all sentences."""
        return cls(
            verdict=decision.verdict,
            text=say("decisions", f"verdict.{decision.verdict}"),
            worth_up_to=decision.worth_up_to,
            because=[ReasonOut.of(reason) for reason in decision.because],
            conditions=[ConditionOut.of(condition) for condition in decision.conditions],
            once_met=decision.once_met and OnceMetOut.of(decision.once_met),
        )


class StepOut(Told):
    """Something to do, with the moment for it."""

    code: Code
    when: str = Field(description="before_buying, at_the_door ... moving_out.", max_length=30)
    who: str = Field(description="Who does it: you, electrician, seller or operator.", max_length=20)
    facts: Facts
    text: Text

    @classmethod
    def of(cls, step: Step) -> "StepOut":
        """With its sentence; before a demanded remedy stands what has to be done."""
        facts = packed(step.facts)
        if facts is None:
            return cls.worded(step.code, step.when, step.who, step.facts)
        return _step_out(step.code, step.when, step.who, facts)

    @classmethod
    def worded(cls, code: str, when: str, who: str, facts: Mapping[str, Fact]) -> Self:
        """The same, made anew."""
        text = say("steps", f"{code}.{facts.get('variant') or ''}", facts)
        demanded = facts.get("remedy")
        text = f"{_sentence(str(demanded), facts)} {text}" if demanded else text
        return cls(code=code, when=when, who=who, facts=dict(facts), text=text)


@lru_cache(maxsize=512)  # those of some dozen sets, 1 kB each
def _step_out(code: str, when: str, who: str, facts: bytes) -> StepOut:
    return StepOut.worded(code, when, who, unpacked(facts))


class CautionOut(Told):
    """Something to mind, with the moment for it."""

    code: Code
    severity: Severity
    step: str = Field(max_length=30)
    text: Text


def cautions_out(chosen: ChosenCautions) -> list[CautionOut]:
    """The chosen ones, in their order."""
    return [_caution_out(caution.code, caution.severity, caution.step) for caution in chosen.shown]


@lru_cache(maxsize=512)  # the table's; its sentences hold no figures
def _caution_out(code: str, severity: str, step: str) -> CautionOut:
    return CautionOut(code=code, severity=Severity(severity), step=step, text=say("cautions", code))
