"""What was published for a place, when, and by whom? A dated rule card, as plain values.

A card is information with a date, never an opinion on the law. A cap of None is "none found", never "no limit".
"""

from dataclasses import dataclass
from datetime import date

IN_FORCE = "in_force"

# From the firmest to the loosest: which card speaks where none is in force.
STATUSES = (
    IN_FORCE, "adopted_not_yet_in_force", "adopted_start_unknown", "passed_not_signed", "proposal", "none_found",
    "background",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class AcTier:
    """A further step of the a.c. cap: for which kind of plug, how many watts, under which condition (prose)."""

    plug: str
    max_w: float
    inclusive: bool
    condition: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AdvisoryCap:
    """A figure of practice or of a guide; no rule. ``scope``: circuit or meter."""

    w: float
    scope: str
    basis: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelCap:
    """A cap on panel power for one kind of plug."""

    plug: str
    max_wp: float
    inclusive: bool
    basis: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Notify:
    """Who has to be told, when, and what it costs. ``needed``: yes, no or unknown; ``before_or_after`` likewise."""

    who: str
    when: str
    before_or_after: str
    cost: str
    needed: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CardSource:
    """What a card rests on. ``seen``: read (an excerpt was read), secondary (quoted by others), carried_over."""

    title_or_body: str
    year: int | None
    says: str
    seen: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleCard:
    """One dated card.

    Attributes:
        id: ISO 3166 code, with region where rules differ within a country; EU (background only), DEFAULT.
        status: one of ``STATUSES``.
        published_on: date of the newest publication; year or month only where no more was read; None if undated.
        valid_from, valid_to: first and last day; None where not read.
        checked_on: the day on which somebody looked last.
        statement: the prose: what was published, when.
        ac_cap_w: cap on the inverter's output for connection by plug, in ``ac_cap_unit`` (W or VA); None: none found.
        ac_cap_inclusive: False means "less than".
        ac_cap_scope: meter, circuit, household or building; None is read as meter, the strictest that one home
            can see. A building's other sets are those that the request lists.
        ac_tiers, advisory_cap: further steps; figures that are no rule.
        panel_cap_wp, panel_cap_by_plug: caps on panel power; None: none found.
        plug: household_allowed, household_with_conditions, special_connector, fixed_wiring_only or unclear.
        export_payment: paid, unpaid, netted, depends or unknown.
        reversing_meter: tolerated, not_admitted or unclear: our reading of ``metering``.
        confidence: high, medium or low.
        conflicts: where sources disagree, both sides; "none found" where nobody did.
    """

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
    ac_tiers: tuple[AcTier, ...]
    advisory_cap: AdvisoryCap | None
    panel_cap_wp: float | None
    panel_cap_by_plug: tuple[PanelCap, ...]
    plug: str
    notify: Notify
    export_payment: str
    metering: str
    reversing_meter: str
    tenant: str
    sets_per_meter: str
    certificate_expected: tuple[str, ...]
    notes: str
    confidence: str
    sources: tuple[CardSource, ...]
    conflicts: str
    advice: str
