"""Which dated tables does completion draw on? Values handed in; core opens no files."""

from dataclasses import dataclass

from service.core.model.panel_list import PanelList
from service.core.model.price import Prices


@dataclass(frozen=True, slots=True, kw_only=True)
class DefaultTables:
    """What the service's dated tables know: household ``prices`` by area, and listed ``panels``."""

    prices: Prices
    panels: PanelList
