"""How is an assumption answered: what was taken, why, from where, and how far it moves the answer?"""

from collections.abc import Mapping
from functools import lru_cache
from typing import Literal, Self

from pydantic import Field
from pydantic.json_schema import SkipJsonSchema

from service.api.schemas import rounding as r
from service.api.schemas.base import Anything, Code, Out, Pointer, Text, Told, absent
from service.api.words import say
from service.core.model.assumption import Assumption, Assumptions, Json


class MovesReasonOut(Out):
    """Why an assumption has no figure of its own."""

    code: Code
    text: Text


class MovesOut(Out):
    """How far an assumption moves the answer when it is off by as much as it may be."""

    of: Literal["year_kwh"]
    share: r.Share


class AssumptionOut(Told):
    """A value that the caller did not give."""

    pointer: Pointer
    value: Anything = Field(description="What was taken.")
    code: Code
    text: Text
    source: str = Field(description="Where it comes from.")
    low: r.Figure | None = Field(description="The least that is plausible; null where no range is known.")
    high: r.Figure | None = Field(description="The most that is plausible; null where no range is known.")
    moves: MovesOut | SkipJsonSchema[None] = Field(
        default=None,
        exclude_if=absent,
        description="Only where `include` asks for it: at either end of its range, or with another common choice.",
    )

    moves_because: MovesReasonOut | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Why it moves nothing, or why no figure is made of it."
    )

    @classmethod
    def of(cls, assumption: Assumption, text: str, share: float | None, reason: str | None = None) -> Self:
        """With its sentence; ``share`` of the year's energy that it moves or the ``reason`` for none, where asked."""
        told = 0.0 if reason == "does_not_move_the_year" else share
        return cls(
            pointer=assumption.pointer,
            value=assumption.value,
            code=assumption.code,
            text=text,
            source=assumption.source,
            low=assumption.low,
            high=assumption.high,
            moves=None if told is None else MovesOut(of="year_kwh", share=told),
            moves_because=None
            if reason is None
            else MovesReasonOut(code=reason, text=say("assumptions", f"moves.{reason}")),
        )

    def at(self, pointer: str) -> Self:
        """The same of a thing that stands elsewhere in the request."""
        return self.model_copy(update={"pointer": pointer})


def assumptions_out(
    assumptions: Assumptions, moves: Mapping[str, float] | None = None, reasons: Mapping[str, str] | None = None
) -> list[AssumptionOut]:
    """All assumptions, in the order in which they were made; by pointer how far each moves the year, or why not."""
    if not moves and not reasons:
        return [_alone(one) for one in assumptions.by_pointer.values()]
    shares, because = moves or {}, reasons or {}
    return [
        AssumptionOut.of(one, _text_of(one, pointer.rpartition("/")[2]), shares.get(pointer), because.get(pointer))
        for pointer, one in assumptions.by_pointer.items()
    ]


def _alone(one: Assumption) -> AssumptionOut:
    """Without how far it moves the answer. Defaults are the same in most requests: they are put in words once."""
    value = one.value
    if isinstance(value, dict) or (isinstance(value, list) and value):
        return AssumptionOut.of(one, _text_of(one, one.pointer.rpartition("/")[2]), None)
    return _of_one_value(one.pointer, () if isinstance(value, list) else value, one.code, one.source, one.low, one.high)


@lru_cache(maxsize=1024, typed=True)  # some 1 kB each; typed, as 1 and true are told apart
def _of_one_value(
    pointer: str, value: str | float | tuple[()] | None, code: str, source: str, low: float | None, high: float | None
) -> AssumptionOut:
    """``value`` is () for the empty list."""
    said: Json = [] if isinstance(value, tuple) else value
    one = Assumption(pointer=pointer, value=said, code=code, source=source, low=low, high=high)
    return AssumptionOut.of(one, _text_of(one, pointer.rpartition("/")[2]), None)


def _text_of(assumption: Assumption, name: str) -> str:
    facts = {
        "value": assumption.value,
        "low": assumption.low,
        "high": assumption.high,
        "source": assumption.source,
        "name": name,
    }
    return say("assumptions", f"{assumption.code}.{name}", facts)
