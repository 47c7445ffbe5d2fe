"""How are local rules answered? Dated cards of what was published; never an opinion on the law."""

from datetime import date
from typing import Literal

from pydantic import Field

from service.api.schemas.base import Out


class AcTierOut(Out):
    """A further step of the a.c. cap."""

    plug: str
    max_w: float
    inclusive: bool
    condition: str


class AdvisoryCapOut(Out):
    """A figure of practice or of a guide; no rule."""

    w: float
    scope: str
    basis: str


class PanelCapOut(Out):
    """A cap on panel power for one kind of plug."""

    plug: str
    max_wp: float
    inclusive: bool
    basis: str


class NotifyOut(Out):
    """Who has to be told, when, and what it costs."""

    who: str
    when: str
    before_or_after: str
    cost: str
    needed: str


class CardSourceOut(Out):
    """What a card rests on, and whether it was read."""

    title_or_body: str
    year: int | None
    says: str
    seen: str


class RuleCardOut(Out):
    """One dated card. A cap of null is "none found", never "no limit"."""

    id: str
    country: str
    region: str
    status: str
    published_on: str | None
    valid_from: date | None
    valid_to: date | None
    checked_on: date
    statement: str
    ac_cap_w: float | None
    ac_cap_unit: str
    ac_cap_inclusive: bool | None
    ac_cap_scope: str | None
    ac_tiers: list[AcTierOut]
    advisory_cap: AdvisoryCapOut | None
    panel_cap_wp: float | None
    panel_cap_by_plug: list[PanelCapOut]
    plug: str
    notify: NotifyOut
    export_payment: str
    metering: str
    reversing_meter: str
    tenant: str
    sets_per_meter: str
    certificate_expected: list[str]
    notes: str
    confidence: str
    sources: list[CardSourceOut]
    conflicts: str
    advice: str


KeptBy = Literal["service", "operator"]
_KEPT_BY = "Are the cards packaged with the service, or did who runs it put own ones in their place?"


class AreaOut(Out):
    """One area for which cards are kept."""

    area: str = Field(description="ISO 3166 code; EU is background only, DEFAULT speaks where no card is kept.")
    country: str
    region: str
    status: list[str] = Field(description="Of each of its cards.")
    published_on: str | None = Field(description="Of the newest card that says it.")
    checked_on: date
    stale: bool = Field(description="Did nobody look at one of them for more than twelve months?")
    conflicts: list[str] = Field(description="Where what was published disagrees, both sides.")
    kept_by: KeptBy = Field(description=_KEPT_BY)
    path: str


class LocalRulesOut(Out):
    """The areas for which cards are kept."""

    areas: list[AreaOut]
    as_of: str
    service_version: str
    data_version: str


class LocalRuleOut(Out):
    """What has been published for this place?"""

    area: str = Field(description="The area that was asked for.")
    fell_back: bool = Field(description="Is the card that of a wider area?")
    as_of: str
    speaks: RuleCardOut = Field(description="The card that speaks on that day.")
    in_force: bool = Field(description="Was it in force then, as far as was read?")
    stale: bool = Field(description="Did nobody look for more than twelve months before that day?")
    kept_by: KeptBy = Field(description=_KEPT_BY)
    text: str = Field(description="Published on, by, last looked at; whether it may be stale, and what disagrees.")
    other_cards: list[RuleCardOut]
    service_version: str
    data_version: str
