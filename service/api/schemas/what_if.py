"""How is a changed set answered: the change, its year, what of it is used at home?"""

from typing import Self

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.base import Code, Facts, Out, Text
from service.api.schemas.finding import OperationOut
from service.api.words import say
from service.core.appraisal import WhatIf
from service.core.model.finding import Verdict


class WhatIfReasonOut(Out):
    """Why no changed set is told: part_of_a_year or no_such_change."""

    code: Code
    text: Text

    @classmethod
    def of(cls, code: str) -> Self:
        """With its sentence."""
        return cls(code=code, text=say("what_if", f"because.{code}"))


class WhatIfOut(Out):
    """The set with one thing changed: as if the changed request had been asked."""

    code: Code
    patch: list[OperationOut] = Field(
        max_length=40,
        description="The change, as operations of RFC 6902 on the completed request (`include`: `used`).",
    )
    year_kwh: r.Kwh = Field(description="The middle of the year's energy with the change.")
    self_used_kwh: r.Kwh = Field(description="What of it is used at home.")
    verdict_then: Verdict = Field(
        description="Whether the changed set fits, all sides together. What nobody told is not taken for known; "
        "does_not_fit also where it is told as it was taken and then does not fit."
    )
    facts: Facts
    text: Text

    @classmethod
    def of(cls, one: WhatIf, year_kwh: float, self_used_kwh: float) -> Self:
        """With its sentence, beside the set as it is."""
        said = {
            **one.facts,
            "year_kwh": one.year_kwh,
            "year_change": _whole(one.year_kwh - year_kwh),
            "self_used_kwh": one.self_used_kwh,
            "used_change": _whole(one.self_used_kwh - self_used_kwh),
        }
        variant = one.facts.get("variant")
        what = say("what_if", f"{one.code}.{variant}" if variant else one.code, said)
        told = [what, say("what_if", "then", said)]
        if one.verdict_told:
            told.append(say("what_if", f"verdict.{one.verdict_then}"))
        return cls.from_core(one, facts=one.facts, text=" ".join(told))


def _whole(kwh: float) -> float:
    """Without a sign where there is nothing to say."""
    return round(kwh) + 0.0
