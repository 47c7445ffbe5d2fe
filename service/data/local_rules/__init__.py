"""What has been published about plug-in sets, place by place? Dated cards, one JSON file an area, and their loader."""

from service.data.local_rules.loader import BACKGROUND_AREAS, DEFAULT_AREA, cards_of, load_rule_cards, read_cards

__all__ = ["BACKGROUND_AREAS", "DEFAULT_AREA", "cards_of", "load_rule_cards", "read_cards"]
