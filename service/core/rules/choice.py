"""Which of an area's cards speaks on a given day, is it in force then, and is it old?"""

from collections.abc import Mapping, Sequence
from datetime import date
from types import MappingProxyType

from service.core.errors import UnknownAreaError
from service.core.model.finding import Fact, Finding, Part, Verdict
from service.core.rules.card import IN_FORCE, STATUSES, RuleCard

STALE_AFTER_DAYS = 365
NO_CONFLICT = "none found"


def in_force(card: RuleCard, as_of: date) -> bool:
    """Was this card in force on that day, as far as was read? Adopted, proposed or background cards never are.

    A start that was adopted for a day since past still needs somebody to look whether it came: not in force here.
    """
    started = card.valid_from is None or card.valid_from <= as_of
    ended = card.valid_to is not None and card.valid_to < as_of
    return card.status == IN_FORCE and started and not ended


def is_stale(card: RuleCard, as_of: date) -> bool:
    """Did nobody look for more than a year before that day?"""
    return (as_of - card.checked_on).days > STALE_AFTER_DAYS


def card_for(cards: Sequence[RuleCard], as_of: date) -> RuleCard:
    """The card that speaks on a day: the one in force, else the one whose time it is, else the firmest by status.

    Args:
        cards: the cards of one area, in any order.
        as_of: the day of the question.

    Raises:
        UnknownAreaError: there is no card at all.
    """
    if not cards:
        raise UnknownAreaError("")

    def order(card: RuleCard) -> tuple[bool, bool, int, int]:
        ended = card.valid_to is not None and card.valid_to < as_of
        waiting = card.valid_from is not None and card.valid_from > as_of
        started = 0 if card.valid_from is None else -card.valid_from.toordinal()
        return (not in_force(card, as_of), ended or waiting, STATUSES.index(card.status), started)

    return min(cards, key=order)


def published_by(card: RuleCard) -> str:
    """Whose publications the card rests on, by name; sources that were only carried over speak where no other does."""
    looked_at = [source for source in card.sources if source.seen != "carried_over"]
    return "; ".join(source.title_or_body for source in looked_at or card.sources) or "nobody found"


def card_facts(card: RuleCard, area_asked: str, as_of: date) -> dict[str, Fact]:
    """What every finding of a card says: published on, by whom, looked at when, in force or not, disputed or not."""
    return {
        "area": card.id,
        "area_asked": area_asked,
        "fell_back": card.id != area_asked,
        "status": card.status,
        "in_force": in_force(card, as_of),
        "published_on": card.published_on or "undated",
        "published_by": published_by(card),
        "checked_on": card.checked_on.isoformat(),
        "stale": is_stale(card, as_of),
        "confidence": card.confidence,
        "conflicts": card.conflicts,
        "disputed": card.conflicts != NO_CONFLICT,
    }


def rule_finding(
    card: RuleCard,
    code: str,
    verdicts: tuple[Verdict, Verdict],
    about: str,
    facts: Mapping[str, Fact],
    *,
    numbers: tuple[float | None, float | None, str] = (None, None, ""),
) -> Finding:
    """A finding of a card: ``verdicts`` are verdict and likely, ``numbers`` measured, limit and unit."""
    measured, limit, unit = numbers
    return Finding(
        code=code, part=Part.LOCAL_RULE, verdict=verdicts[0], likely=verdicts[1], about=about, measured=measured,
        limit=limit, unit=unit, facts=MappingProxyType(dict(facts)),
        source=f"rule card {card.id}, published on {facts['published_on']}, read on {facts['checked_on']}: "
               f"{facts['published_by']}",
    )  # fmt: skip
