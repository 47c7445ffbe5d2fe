"""How is an error written? RFC 9457 problem details, one shape for all of them."""

from collections.abc import Sequence
from typing import Any, Literal

from pydantic import Field

from service.api.schemas.base import Out
from service.api.schemas.mistakes import MOST_MISTAKES, Mistake
from service.api.words import say, template_of


class MistakeOut(Out):
    """One mistake of a request, and what would be accepted instead."""

    code: str = Field(description="What kind of mistake; clients go by it.", examples=["out_of_range"])
    where: Literal["body", "query", "header", "path"] = Field(
        serialization_alias="in", description="In which part of the request."
    )
    pointer: str = Field(
        description="Where: an RFC 6901 pointer into the body (empty: all of it), or a parameter's or header's name.",
        examples=["/site/latitude_deg"],
    )
    given: str | None = Field(
        description="What was given, cut at 200 characters; null where nothing was.", examples=["91"]
    )
    problem: str = Field(description="What is wrong, for people.", examples=["is out of range"])
    accepted: str = Field(description="What is accepted, for people.", examples=["a number from -90 to 90"])
    example: str | None = Field(
        description="An example of what is accepted at the pointer: text as it is, all else as JSON; for an unknown "
        "field the nearest name that is known.",
        examples=["54.2"],
    )


class ProblemOut(Out):
    """What went wrong and what to do next (RFC 9457)."""

    type: str = Field(description="Page of this service that explains the problem.", examples=["/problems/not_found"])
    code: str = Field(description="Short name of the problem; clients go by it.", examples=["not_found"])
    title: str = Field(description="The problem in short; the same for every occurrence.")
    status: int = Field(ge=400, le=599, description="HTTP status.", examples=[404])
    detail: str = Field(description="What happened this time, and what to do next.")
    instance: str = Field(description="This occurrence: path and Request-Id.", examples=["/v1/energy#5f2c9a1b"])
    errors: list[MistakeOut] = Field(max_length=MOST_MISTAKES, description="The single mistakes of the request.")

    @classmethod
    def of(
        cls, code: str, status: int, instance: str, facts: dict[str, Any], mistakes: Sequence[Mistake]
    ) -> "ProblemOut":
        """The problem of this code, its sentences filled with ``facts``; mistakes beyond the fiftieth are cut."""
        kept = mistakes[:MOST_MISTAKES]
        key = f"detail.{code}"
        variant = ".cut" if len(mistakes) > len(kept) else ".one" if len(kept) == 1 else ""
        if template_of("problems", key + variant) is not None:
            key += variant
        return cls(
            type=f"/problems/{code}",
            code=code,
            title=say("problems", f"title.{code}"),
            status=status,
            detail=say("problems", key, {"count": len(kept), **facts}),
            instance=instance,
            errors=[
                MistakeOut(
                    code=one.code,
                    where=one.where,
                    pointer=one.pointer,
                    given=one.given,
                    problem=one.problem,
                    accepted=one.accepted,
                    example=one.example,
                )
                for one in kept
            ],
        )
