"""What has been published for this place, and does the set stay inside it?"""

from service.core.rules.caps import most_panel_w
from service.core.rules.card import STATUSES, AcTier, AdvisoryCap, CardSource, Notify, PanelCap, RuleCard
from service.core.rules.choice import NO_CONFLICT, card_facts, card_for, in_force, is_stale
from service.core.rules.findings import rule_findings
from service.core.rules.plugs import described_plug

__all__ = [
    "NO_CONFLICT", "STATUSES", "AcTier", "AdvisoryCap", "CardSource", "Notify", "PanelCap", "RuleCard", "card_facts",
    "card_for", "described_plug", "in_force", "is_stale", "most_panel_w", "rule_findings",
]  # fmt: skip
