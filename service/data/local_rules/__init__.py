"""What has been published about plug-in sets, place by place? Dated cards, one JSON file an area, and their loader.

An operator's own cards, checked by the schema, stand in for the packaged ones of their area.
"""

from service.data.local_rules.loader import BACKGROUND_AREAS, DEFAULT_AREA, cards_of, load_rule_cards, read_cards
from service.data.local_rules.own import CardError, own_cards, with_own
from service.data.local_rules.schema import card_schema

__all__ = [
    "BACKGROUND_AREAS", "DEFAULT_AREA", "CardError", "card_schema", "cards_of", "load_rule_cards", "own_cards",
    "read_cards", "with_own",
]  # fmt: skip
