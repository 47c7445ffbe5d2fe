"""How is a finding answered: one checked question, its figures, and what would mend it?"""

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Annotated, Literal, Self

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.as_sent import change_of
from service.api.schemas.base import Anything, Code, Facts, InParts, Out, Pointer, Text, Told
from service.api.words import say
from service.core.compatibility import Compatibility
from service.core.model.finding import Fact, Finding, Part, Remedy, Verdict


class AddOut(Out):
    """An operation of RFC 6902 (JSON Patch) on the request, as it was sent: what is put there, or in its place."""

    op: Literal["add"]
    path: Pointer
    value: Anything


class CopyOut(Out):
    """Likewise: what is put there of what lies elsewhere."""

    op: Literal["copy"]
    path: Pointer
    source: Pointer = Field(serialization_alias="from")


class RemoveOut(Out):
    """Likewise: what is taken out."""

    op: Literal["remove"]
    path: Pointer


OperationOut = Annotated[AddOut | CopyOut | RemoveOut, Field(discriminator="op")]


class RemedyOut(Out):
    """What would turn a refusal into something better; the verdict was computed by asking again."""

    code: Code
    pointer: Pointer | None = Field(
        description="What to change in the request; null where it is no field of it, or more than one."
    )
    new_value: Anything = Field(description="The value to put there.")
    patch: list[OperationOut] = Field(
        max_length=40, description="What to change where it is more than one field, in this order (RFC 6902)."
    )
    unit: str = Field(max_length=20)
    who: str = Field(description="Who can do it: you, electrician, seller or operator.", max_length=20)
    verdict_then: Verdict = Field(
        description="The verdict with the change made; where somebody is to be asked, that with the worst that the "
        "answer may be, so that a better one can still fit."
    )
    year_kwh_change: r.Kwh | None = Field(description="What it changes in the year's energy; null where not computed.")
    facts: Facts
    text: Text

    @classmethod
    def of(cls, remedy: Remedy, finding: Finding, inputs: int) -> Self:
        """With its sentence, and the change as a request that describes so many inputs can hold it."""
        facts = {
            "finding": finding.code,
            "new_value": remedy.new_value,
            "unit": remedy.unit,
            "who": remedy.who,
            "verdict_then": str(remedy.verdict_then),
            **remedy.facts,
        }
        change = change_of(remedy, inputs)
        moved = {} if change is None else {"pointer": change.pointer, "patch": change.patch}
        text = say("remedies", _key(remedy.code, remedy.facts), facts)
        if remedy.code.startswith("ask_") and remedy.verdict_then == Verdict.DOES_NOT_FIT:
            text = f"{text} {say('remedies', 'at_worst_refused')}"
        return cls.from_core(remedy, facts=remedy.facts, text=text, **moved)


class FindingOut(Told):
    """One checked question: verdict, measured value beside its limit, why, and what would mend it."""

    code: Code
    part: Part
    verdict: Verdict
    likely: Verdict = Field(description="The verdict with the class's worst value, where a rating was assumed.")
    about: Pointer
    input: int | None = Field(ge=1, le=8, description="Input of the inverter, counted from 1.")
    measured: r.Figure | None
    limit: r.Figure | None
    unit: str = Field(max_length=20)
    facts: Facts
    text: Text
    source: str = Field(description="What the check rests on.")
    remedies: list[RemedyOut] = Field(max_length=20)

    @classmethod
    def of(cls, finding: Finding, inputs: int) -> Self:
        """With its sentences, for a request that describes so many inputs."""
        return cls.from_core(
            finding,
            facts=finding.facts,
            text=sentence_of(finding),
            remedies=[RemedyOut.of(remedy, finding, inputs) for remedy in finding.remedies],
        )


_NOTHING_SAID: Mapping[int, FindingOut] = MappingProxyType({})


class CompatibilityOut(InParts):
    """Does it all fit together? Findings with the worst first."""

    verdict: Verdict
    by_part: dict[str, Verdict] = Field(description="The sides of which something was looked at: panel_side ...")
    findings: list[FindingOut] = Field(max_length=400)
    not_looked_at: list[Pointer] = Field(
        max_length=50, description="What the request does not describe; it never enters the verdict."
    )

    @classmethod
    def of(cls, compatibility: Compatibility, inputs: int, said: Mapping[int, FindingOut] = _NOTHING_SAID) -> Self:
        """With all sentences, for a request that describes so many inputs.

        ``said`` are findings, by their identity, that were put into words before.
        """
        return cls(
            verdict=compatibility.verdict,
            by_part={str(part): verdict for part, verdict in compatibility.by_part.items()},
            findings=[said.get(id(one)) or FindingOut.of(one, inputs) for one in compatibility.findings],
            not_looked_at=list(compatibility.not_looked_at),
        )


def sentence_of(finding: Finding) -> str:
    """A finding in words."""
    facts = {
        "measured": finding.measured,
        "limit": finding.limit,
        "unit": finding.unit,
        "input": finding.input,
        "about": finding.about,
        **finding.facts,
    }
    return " ".join(
        (
            say("findings", _key(f"{finding.code}.{finding.verdict}", finding.facts), facts),
            *(say("cards", key, facts) for key in _said_after(finding)),
        )
    )


def _said_after(finding: Finding) -> Iterator[str]:
    """What a card's finding says last: that it may be stale, where sources or two rules disagree."""
    if finding.facts.get("stale") is True:
        yield "stale"
    if finding.code == "plug" and finding.facts.get("disputed") is True:
        yield "conflicts"
    if finding.code == "local_cap":
        yield from _of_the_watts(finding)
    if finding.facts.get("refused_by"):
        yield "refused_elsewhere"


def _of_the_watts(finding: Finding) -> Iterator[str]:
    """What the watts of a cap are: a setting below the plate, volt-amperes, and a figure that is practice only."""
    if finding.facts.get("turned_down") is True:
        yield "turned_down"
    if finding.limit is not None and finding.facts.get("unit") == "VA":
        yield "volt_amperes"
    if finding.facts.get("advisory_w"):
        yield "advisory"


def _key(code: str, facts: Mapping[str, Fact]) -> str:
    """The key of a sentence: with the variant where the facts name one."""
    variant = facts.get("variant")
    return f"{code}.{variant}" if variant else code
