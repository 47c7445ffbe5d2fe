"""How is the fixing of panels written in a request, and how is the wind on them answered?"""

from typing import Annotated, Self

from pydantic import Field

from service.api import fields as f
from service.api.schemas import rounding as r
from service.api.schemas.base import Code, Facts, In, Out, Pointer, Text, Told
from service.api.words import say
from service.core.fixing import SOURCE, ArrayForces, FixingForces, Note, above_the_standard

BuildingHeightM = Annotated[float, f.bounded("building_height_m")]
CapacityPerPanelN = Annotated[float, f.bounded("capacity_per_panel_n")]
BallastPerPanelKg = Annotated[float, f.bounded("ballast_per_panel_kg")]
RailingHeightM = Annotated[float, f.bounded("railing_height_m")]
RailingLengthM = Annotated[float, f.bounded("railing_length_m")]
LowLeanOutDeg = Annotated[float, f.bounded("low_lean_out_deg")]
HighLeanOutDeg = Annotated[float, f.bounded("high_lean_out_deg")]


class FixingIn(In):
    """What holds the panels of an array, as far as it is known. What a fixing carries is never guessed."""

    building_height_m: BuildingHeightM | None = None
    capacity_per_panel_n: CapacityPerPanelN | None = None
    ballast_per_panel_kg: BallastPerPanelKg | None = None
    railing_height_m: RailingHeightM | None = None
    railing_length_m: RailingLengthM | None = None
    low_lean_out_deg: LowLeanOutDeg | None = None
    high_lean_out_deg: HighLeanOutDeg | None = None


class NewtonsBandOut(Out):
    """A force; ``cautious`` is the greatest."""

    cautious: r.Newtons = Field(description="In the corner, with all that is open taken as the worse.")
    middle: r.Newtons = Field(description="At an ordinary place, with what was given or is usual.")
    hopeful: r.Newtons = Field(description="At a sheltered place, with all that is open taken as the better.")


class PascalsBandOut(Out):
    """A gust pressure; ``cautious`` is the greatest."""

    cautious: r.Newtons
    middle: r.Newtons
    hopeful: r.Newtons


class KilogramsBandOut(Out):
    """A weight; ``cautious`` is the greatest."""

    cautious: r.Kilograms
    middle: r.Kilograms
    hopeful: r.Kilograms


class TimesBandOut(Out):
    """One force over another; ``cautious`` is the greatest."""

    cautious: r.Times
    middle: r.Times
    hopeful: r.Times


class FixingNoteOut(Out):
    """One thing to mind about holding the panels; no verdict."""

    code: Code
    facts: Facts
    text: Text

    @classmethod
    def of(cls, note: Note) -> Self:
        """With its sentence."""
        variant = note.facts.get("variant")
        return cls.from_core(note, text=say("fixing", f"{note.code}.{variant}" if variant else note.code, note.facts))


class ArrayFixingOut(Out):
    """The wind on one panel of an array, as an order of magnitude."""

    about: Pointer
    name: str = Field(max_length=60)
    mount: str = Field(max_length=30)
    reference_height_m: r.Metres = Field(description="The height whose gusts count.")
    pressure_pa: PascalsBandOut
    area_m2: r.Times = Field(description="Of one panel.")
    weight_n: r.Newtons = Field(description="Of one panel.")
    push_n: NewtonsBandOut = Field(description="On one panel, square to it, towards what holds it.")
    pull_n: NewtonsBandOut = Field(description="On one panel, square to it, away from what holds it.")
    pull_over_weight: TimesBandOut
    capacity_n: r.Newtons | None = Field(description="What was stated of one panel's fixings; null where nobody did.")
    capacity_used_share: TimesBandOut | None = Field(
        description="The greater of push and pull over that. At or below 1 it still proves nothing."
    )
    ballast_kg: KilogramsBandOut | None = Field(
        description="For what stands: weights on one panel against sliding and lifting. Null for what hangs."
    )
    ballast_given_kg: r.Kilograms | None
    clause: str = Field(description="Where the coefficients are read.")
    text: Text
    notes: list[FixingNoteOut] = Field(max_length=20)

    @classmethod
    def of(cls, forces: ArrayForces) -> Self:
        """With its sentences."""
        facts = {
            "push": forces.push_n.middle, "push_most": forces.push_n.cautious,
            "pull": forces.pull_n.middle, "pull_most": forces.pull_n.cautious,
            "weight": forces.weight_n, "height": forces.reference_height_m, "times": forces.pull_over_weight.middle,
            "ballast": forces.ballast_kg.middle if forces.ballast_kg else None,
            "ballast_most": forces.ballast_kg.cautious if forces.ballast_kg else None,
        }  # fmt: skip
        return cls.from_core(
            forces,
            about=f"/arrays/{forces.at}",
            text=say("fixing", "forces.standing" if forces.ballast_kg else "forces", facts),
            notes=[FixingNoteOut.of(note) for note in forces.notes],
        )


class FixingOut(Told):
    """What does a storm do to the panels? Orders of magnitude beside what was stated; never a verdict."""

    arrays: list[ArrayFixingOut] = Field(max_length=8)
    not_looked_at: list[Pointer] = Field(max_length=50, description="What nobody described.")
    source: str = Field(description="The standard that the figures are made by.")
    caution: Text

    @classmethod
    def of(cls, forces: FixingForces) -> Self:
        """With all sentences."""
        high = above_the_standard(forces)
        return cls(
            arrays=[ArrayFixingOut.of(one) for one in forces.arrays],
            not_looked_at=list(forces.not_looked_at),
            source=SOURCE,
            caution=say("fixing", "caution.above_the_standard" if high else "caution"),
        )
