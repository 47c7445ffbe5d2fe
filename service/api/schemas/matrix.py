"""How are many panels held against many inverters, and how is each pair answered?"""

from collections.abc import Iterable
from typing import Annotated, Any, Self

from pydantic import ConfigDict, Field

from service.api import fields as f
from service.api.schemas import rounding as r
from service.api.schemas.assumption import AssumptionOut
from service.api.schemas.base import Code, In, Out, Text
from service.api.schemas.contradictions import of_inverter, of_panel
from service.api.schemas.finding import sentence_of
from service.api.schemas.inverter import InverterIn
from service.api.schemas.mistakes import Found
from service.api.schemas.panel import PanelIn
from service.api.schemas.place import SiteIn
from service.api.words import say
from service.core.compatibility import Pair
from service.core.model.finding import Finding, Verdict

MOST = 50

SMALLEST: dict[str, Any] = {
    "site": {"latitude_deg": 54.2, "longitude_deg": 12.3},
    "panels": [{"rated_power_w": 410}],
    "inverters": [{"ac_power_w": 600}],
}


class MatrixIn(In):
    """Which of these panels suit which of these inverters? One panel alone on an input of each; panel side only."""

    model_config = ConfigDict(json_schema_extra={"examples": [SMALLEST]})

    site: SiteIn
    panels: Annotated[list[PanelIn], f.several("The rows: one to fifty panels.", 1, MOST)]
    inverters: Annotated[list[InverterIn], f.several("The columns: one to fifty inverters.", 1, MOST)]
    as_of: f.AsOf | None = None

    def contradict(self, found: Found) -> None:
        """Those of each candidate."""
        for at, panel in enumerate(self.panels):
            of_panel(panel, f"/panels/{at}", found)
        for at, inverter in enumerate(self.inverters):
            of_inverter(inverter, f"/inverters/{at}", found)


class WorstFindingOut(Out):
    """The finding on which a pair's verdict hangs; `/v1/compatibility` tells all of them, with what would mend them."""

    code: Code
    verdict: Verdict
    measured: r.Figure | None
    limit: r.Figure | None
    unit: str = Field(max_length=20)
    text: Text

    @classmethod
    def of(cls, finding: Finding) -> Self:
        """With its sentence."""
        return cls(
            code=finding.code, verdict=finding.verdict, measured=finding.measured, limit=finding.limit,
            unit=finding.unit, text=sentence_of(finding),
        )  # fmt: skip


class PairOut(Out):
    """How one panel suits one inverter."""

    verdict: Verdict
    likely: Verdict = Field(description="The verdict with the class's worst values, where ratings were assumed.")
    worst_finding: WorstFindingOut | None = Field(description="Null where all fits.")

    @classmethod
    def row(cls, pairs: Iterable[Pair]) -> "list[PairOut]":
        """One panel's pairs, with their sentences; what several share is told once."""
        told: dict[tuple[Verdict, Verdict, int], PairOut] = {}
        out = []
        for pair in pairs:
            key = pair.verdict, pair.likely, id(pair.worst)
            if key not in told:
                finding = None if pair.worst is None else WorstFindingOut.of(pair.worst)
                told[key] = cls(verdict=pair.verdict, likely=pair.likely, worst_finding=finding)
            out.append(told[key])
        return out


class MatrixOut(Out):
    """One row for each panel, one column for each inverter, in the order of the request."""

    text: Text
    matrix: list[list[PairOut]] = Field(max_length=MOST)
    assumptions: list[AssumptionOut] = Field(
        max_length=5000,
        description="What was assumed of the place, of each panel and each inverter, and of the array in which each "
        "panel is put (`/arrays/0`, as in a request of `/v1/compatibility`).",
    )
    as_of: str = Field(description="The day for which ages were counted.", max_length=10)
    service_version: str = Field(max_length=30)
    data_version: str = Field(max_length=30)


def matrix_text() -> str:
    """What the pairs are about."""
    return say("findings", "matrix")
