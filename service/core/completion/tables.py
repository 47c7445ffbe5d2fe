"""Which dated tables does completion draw on? Values handed in; core opens no files."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from service.core.model.panel_list import PanelList, no_panels
from service.core.model.price import Prices
from service.core.rules import RuleCard


@dataclass(frozen=True, slots=True, kw_only=True)
class DefaultTables:
    """What the service's tables know: ``prices`` by area, ``rule_cards`` by ISO 3166 code, listed ``panels``."""

    prices: Prices
    rule_cards: Mapping[str, tuple[RuleCard, ...]] = field(default_factory=dict)
    panels: PanelList = field(default_factory=no_panels)

    def cards_of(self, area: str) -> tuple[RuleCard, ...]:
        """The cards of an area, else of its country; none where neither has any."""
        return self.rule_cards.get(area) or self.rule_cards.get(area.partition("-")[0], ())
