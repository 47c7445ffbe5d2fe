"""Which panel is it?"""

from collections.abc import Mapping
from dataclasses import fields
from datetime import date
from typing import Any

from service.api.answers.question import dated, day_of
from service.api.deps import Deps
from service.api.schemas.panel_identity import (
    CandidateOut,
    IdentityDoubtOut,
    IdentityOut,
    PanelIdentityIn,
    PanelIdentityOut,
    ReadingOut,
    claim_out,
    ranges_out,
)
from service.api.schemas.reading import read_body
from service.core.identity import (
    Candidate,
    IdentityDoubt,
    LabelRead,
    PanelFacts,
    code_doubts,
    identify,
    read_label,
    read_next,
    sheet_doubts,
    with_label,
    without_points,
)
from service.core.model.bounds import BOUNDS
from service.core.model.facts import Panel

_PANEL = {f.name for f in fields(Panel)}


def panel_identity(body: bytes, deps: Deps) -> PanelIdentityOut:
    """The answer of /v1/panel-identity."""
    request = read_body(PanelIdentityIn, body)
    as_of = day_of(request.as_of, deps)
    claims = read_label(request.label_text) if request.label_text else ()
    label = with_label(_facts(request.given(), as_of), claims)
    table = deps.default_tables.panels
    own = sheet_doubts(label.facts)
    doubts = [*label.doubts, *own, *code_doubts(label.facts, table)]
    if request.label_text and not claims:
        doubts.append(IdentityDoubt(code="nothing_read", what="label_text"))
    identified = identify(label.facts, table, label.read, doubted=bool(own))
    if not identified.candidates and label.facts.rated_power_w is not None:
        doubts.append(IdentityDoubt(code="nothing_agrees", what="rated_power_w", measured=label.facts.rated_power_w))
        label = without_points(label)  # what was read contradicts the build: the build alone is told
        identified = identify(label.facts, table, label.read)
    known = frozenset(label.also)
    return PanelIdentityOut(
        identity=IdentityOut(
            candidates=[
                CandidateOut.of(one, share, _panel(one, label, request.age_years))
                for one, share in identified.candidates
            ],
            ranges=ranges_out(identified.ranges),
            claims=[claim_out(claim) for claim in claims],
            doubts=[IdentityDoubtOut.of(doubt) for doubt in doubts],
            read_next=[ReadingOut.of(one) for one in read_next(label.facts, identified, known)],
        ),
        **dated(as_of, deps),
    )


def _facts(given: Mapping[str, Any], as_of: date) -> PanelFacts:
    names = {f.name for f in fields(PanelFacts)}
    age = given.get("age_years")
    return PanelFacts(
        **{name: value for name, value in given.items() if name in names},
        built=None if age is None else as_of.year - round(age),
    )


def _panel(one: Candidate, label: LabelRead, age_years: float | None) -> dict[str, Any]:
    """What was given or read of the panel, with the build's cells: nothing that was only guessed."""
    said = {f.name: getattr(label.facts, f.name) for f in fields(label.facts) if f.name in _PANEL}
    panel = {**said, **label.also, "age_years": age_years, "rated_power_w": one.rated_power_w}
    panel["cells_in_series"] = one.cells_in_series if _sendable(one.cells_in_series) else None
    plain = {name: list(value) if isinstance(value, tuple) else value for name, value in panel.items()}
    return {name: value for name, value in plain.items() if value is not None}


def _sendable(cells: int | None) -> bool:
    """Some thin film of the list has more cells in series than a request takes."""
    return cells is not None and cells <= BOUNDS["cells_in_series"].high
