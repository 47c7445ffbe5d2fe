"""An invented rule card for tests, with changes by keyword."""

from dataclasses import replace
from datetime import date
from typing import Any

from service.core.rules import CardSource, Notify, RuleCard


def card(**changes: Any) -> RuleCard:
    """Nordland (invented): 800 W at most per meter, household plug with conditions, told afterwards."""
    base = RuleCard(
        id="XN", country="Nordland", region="all", status="in_force", published_on="2026-01-15",
        valid_from=date(2026, 2, 1), valid_to=None, checked_on=date(2026, 6, 1), statement="Up to 800 W by plug.",
        ac_cap_w=800, ac_cap_unit="W", ac_cap_inclusive=True, ac_cap_scope="meter", ac_tiers=(), advisory_cap=None,
        panel_cap_wp=None, panel_cap_by_plug=(), plug="household_with_conditions",
        notify=Notify(who="grid operator", when="within a month", before_or_after="after", cost="free", needed="yes"),
        export_payment="unpaid", metering="A two-way meter.", reversing_meter="unclear", tenant="Ask.",
        sets_per_meter="none found", certificate_expected=("EN 50549-1 / XN 12 (grid protection)", "XN 7 (set)"),
        notes="", confidence="high",
        sources=(CardSource(title_or_body="Nordland regulator", year=2026, says="800 W", seen="read"),),
        conflicts="none found", advice="Not a permission.",
    )  # fmt: skip
    return replace(base, **changes)
