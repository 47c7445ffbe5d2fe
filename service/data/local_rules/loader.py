"""Which rule cards are packaged, and which of them belong to an area?"""

import json
from collections.abc import Iterable, Mapping
from datetime import date
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from types import MappingProxyType
from typing import Any

from service.core.errors import UnknownAreaError
from service.core.rules import AcTier, AdvisoryCap, CardSource, Notify, PanelCap, RuleCard

DEFAULT_AREA = "DEFAULT"
BACKGROUND_AREAS = ("EU",)  # background to read, no place's own card


@cache
def load_rule_cards() -> Mapping[str, tuple[RuleCard, ...]]:
    """The packaged cards by area code, each area's in the order of its file (two where one follows the other)."""
    return read_cards(_files(files("service.data.local_rules") / "cards"))


def read_cards(card_files: Iterable[Traversable]) -> Mapping[str, tuple[RuleCard, ...]]:
    """Cards out of JSON files, one file an area, each a list of cards with the area's code as ``id``."""
    cards: dict[str, tuple[RuleCard, ...]] = {}
    for file in card_files:
        for card in cards_from_rows(json.loads(file.read_text(encoding="utf-8"))):
            cards[card.id] = (*cards.get(card.id, ()), card)
    return MappingProxyType(dict(sorted(cards.items())))


def cards_from_rows(rows: Iterable[Mapping[str, Any]]) -> tuple[RuleCard, ...]:
    """Cards out of rows as they stand in a file; a missing or an unknown column is a TypeError or KeyError."""
    return tuple(_card(row) for row in rows)


def cards_of(area: str, cards: Mapping[str, tuple[RuleCard, ...]] | None = None) -> tuple[RuleCard, ...]:
    """The cards that speak for an area: its own, else its country's, else the default's.

    A country whose rules are kept by region (BE) has no card of its own and falls back to the default; the cards'
    ``id`` tells what was used, and every finding says so (``fell_back``).

    >>> [card.id for card in cards_of("US-TX")]
    ['US']
    >>> [card.id for card in cards_of("BE")]
    ['DEFAULT']

    Raises:
        UnknownAreaError: not even a default is kept.
    """
    kept = load_rule_cards() if cards is None else cards
    parts = area.upper().split("-")
    for length in range(len(parts), 0, -1):
        code = "-".join(parts[:length])
        if code in kept and code not in BACKGROUND_AREAS:
            return kept[code]
    if DEFAULT_AREA not in kept:
        raise UnknownAreaError(area)
    return kept[DEFAULT_AREA]


def _files(folder: Traversable) -> list[Traversable]:
    return sorted((file for file in folder.iterdir() if file.name.endswith(".json")), key=lambda file: file.name)


def _card(row: Mapping[str, Any]) -> RuleCard:
    """One card; a missing or an unknown column is a TypeError."""
    made = {
        "valid_from": _day(row["valid_from"]),
        "valid_to": _day(row["valid_to"]),
        "checked_on": date.fromisoformat(row["checked_on"]),
        "ac_tiers": tuple(AcTier(**tier) for tier in row["ac_tiers"]),
        "advisory_cap": None if row["advisory_cap"] is None else AdvisoryCap(**row["advisory_cap"]),
        "panel_cap_by_plug": tuple(PanelCap(**cap) for cap in row["panel_cap_by_plug"]),
        "notify": Notify(**row["notify"]),
        "certificate_expected": tuple(row["certificate_expected"]),
        "sources": tuple(CardSource(**source) for source in row["sources"]),
    }
    return RuleCard(**{**row, **made})


def _day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)
