"""How is it asked which panel it is, and how answered: candidates, ranges, claims of a label, doubts, what to read?"""

from collections.abc import Mapping
from typing import Annotated, Any, Literal, Self

from pydantic import ConfigDict, Field
from pydantic.json_schema import WithJsonSchema

from service.api import fields as f
from service.api.schemas import rounding as r
from service.api.schemas.base import Anything, Code, In, Out, Pointer, Text
from service.api.schemas.mistakes import Found, Mistake
from service.api.words import say
from service.core.identity import LONGEST_LABEL, Candidate, Claim, IdentityDoubt, Range, Reading

LabelText = Annotated[
    str,
    Field(
        strict=True,
        min_length=1,
        max_length=LONGEST_LABEL,
        description="What stands on the label, pasted or typed; several lines are fine. English, German, French, "
        "Spanish, Italian and Dutch names of ratings are read.",
        examples=["Pmax 330 W\nVoc 40.9 V\nIsc 10.25 A"],
    ),
]


class PanelIdentityIn(In):
    """Which panel is it? What is known of one panel; its power, its model code or its label's text must be there."""

    model_config = ConfigDict(
        json_schema_extra={
            "examples": [{"rated_power_w": 275, "length_mm": 1640, "width_mm": 992, "cells_visible": 60}],
            "anyOf": [{"required": [name]} for name in ("rated_power_w", "model_code", "label_text")],
        }
    )

    rated_power_w: f.RatedPowerW | None = None
    open_circuit_voltage_v: f.OpenCircuitVoltageV | None = None
    short_circuit_current_a: f.ShortCircuitCurrentA | None = None
    max_power_voltage_v: f.MaxPowerVoltageV | None = None
    max_power_current_a: f.MaxPowerCurrentA | None = None
    voc_coefficient_pct_per_k: f.VocCoefficientPctPerK | None = None
    isc_coefficient_pct_per_k: f.IscCoefficientPctPerK | None = None
    power_coefficient_pct_per_k: f.PowerCoefficientPctPerK | None = None
    cells_in_series: f.CellsInSeries | None = None
    cells_visible: f.CellsVisible | None = None
    cell_kind: f.CellKind | None = Field(default=None, description="Kind of the cells.")
    length_mm: f.LengthMm | None = None
    width_mm: f.WidthMm | None = None
    age_years: f.AgeYears | None = None
    model_code: f.ModelCode | None = None
    label_text: LabelText | None = None
    as_of: f.AsOf | None = None

    def contradict(self, found: Found) -> None:
        """One of the three by which a panel is looked for must be there."""
        if self.rated_power_w is None and self.model_code is None and self.label_text is None:
            problem = say("problems", "mistake.missing.identity")
            found.mistakes.append(Mistake(code="missing", pointer="/rated_power_w", problem=problem))


class RangeOut(Out):
    """A rating's range."""

    low: r.Figure
    likely: r.Figure
    high: r.Figure
    source: Literal["given", "label", "public_list", "cell_size_class"]
    entries: int = Field(ge=0, description="Entries of the public list that it rests on.")


Ranges = Annotated[
    dict[str, RangeOut], Field(max_length=20, description="By the name of the rating, as a panel's fields are named.")
]


class CandidateOut(Out):
    """One panel that it can be."""

    panel: Annotated[dict[str, Any], WithJsonSchema({"$component": "PanelIn"})] = Field(
        description="What was given or read, with this build's cells: fit to be pasted into another request. A rating "
        "that nobody read is not in it."
    )
    ranges: Ranges
    sureness_share: r.Share
    found_in: Literal["label", "public_list", "class"]
    by_code: bool = Field(description="The model code led to it: a claim, no proof.")
    cell: str = Field(description="Size of the cells, empty where not known.", max_length=40)
    entries: int = Field(ge=0, description="Entries of the public list that agree.")
    makers: int = Field(ge=0, description="How many makers these entries come from.")
    text: Text
    source: str = Field(max_length=300)

    @classmethod
    def of(cls, one: Candidate, share: float, panel: Mapping[str, Any]) -> Self:
        """With its sentence."""
        key = f"{one.found_in}.by_code" if one.by_code else one.found_in
        facts = {"cells": one.cells_in_series, "cell": one.cell, "entries": one.entries, "makers": one.makers}
        variant = ".any" if one.cells_in_series is None or (one.found_in == "class" and not one.cell) else ""
        return cls.from_core(
            one,
            panel=dict(panel),
            ranges=ranges_out(one.ranges),
            sureness_share=share,
            text=say("identity", f"candidate.{key}{variant}", facts),
            source=say("identity", f"source.{one.found_in}"),
        )


class ClaimOut(Out):
    """One thing that the label says, with the words that say it."""

    what: Code
    value: Anything
    unit: str = Field(max_length=10)
    words: str = Field(max_length=200)
    start: int = Field(ge=0, description="First code point in `label_text` as it was sent.")
    end: int = Field(ge=0, description="Behind the last one.")
    at_standard: bool = Field(description="False: the figure holds at other than standard test conditions; not taken.")
    clear: bool = Field(description="False: another name waited for this figure and got none; not taken.")
    doubt: Code = Field(description="Why it was not taken; empty where nothing speaks against it.")
    column: int = Field(ge=1, description="Which model's it is, where the sheet has several.")
    columns: int = Field(ge=1, description="Of how many models.")


class IdentityDoubtOut(Out):
    """What does not hang together."""

    code: Code
    about: Pointer = Field(description="The field of this request that it is about.")
    measured: r.Figure | None
    low: r.Figure | None
    high: r.Figure | None
    unit: str = Field(max_length=20)
    text: Text

    @classmethod
    def of(cls, doubt: IdentityDoubt) -> Self:
        """With its sentence."""
        facts = {
            "measured": doubt.measured,
            "low": doubt.low,
            "high": doubt.high,
            "unit": doubt.unit,
            "name": say("identity", f"name.{doubt.what}"),
        }
        return cls.from_core(doubt, about=f"/{doubt.what}", text=say("identity", f"doubt.{doubt.code}", facts))


class ReadingOut(Out):
    """A thing to read on the label or count on the panel, the most telling first."""

    code: Code = Field(description="The field to send it in.")
    text: Text
    narrows_share: r.Share = Field(description="By what share it narrows the two ratings that decide about harm.")

    @classmethod
    def of(cls, reading: Reading) -> Self:
        """With its sentence."""
        return cls.from_core(reading, code=reading.what, text=say("identity", f"read.{reading.what}"))


class IdentityOut(Out):
    """Candidates, surest first; ``ranges`` reach over all of them and are empty where there is none."""

    candidates: list[CandidateOut] = Field(max_length=50)
    ranges: Ranges
    claims: list[ClaimOut] = Field(max_length=100)
    doubts: list[IdentityDoubtOut] = Field(max_length=100)
    read_next: list[ReadingOut] = Field(max_length=20)


class _Identity(Out):
    identity: IdentityOut


class PanelIdentityOut(_Identity):
    """Which panel is it?"""

    as_of: str = Field(description="The day from which the age was counted.", max_length=10)
    service_version: str = Field(max_length=30)
    data_version: str = Field(max_length=30)


def ranges_out(ranges: Mapping[str, Range]) -> dict[str, RangeOut]:
    """Ranges by name."""
    return {name: RangeOut.from_core(one) for name, one in ranges.items()}


def claim_out(claim: Claim) -> ClaimOut:
    """A claim as it is answered; its words on one line."""
    return ClaimOut.from_core(
        claim,
        at_standard=claim.at_standard,
        clear=claim.clear,
        words=" ".join("".join(c if c.isprintable() else " " for c in claim.words).split()),
    )
