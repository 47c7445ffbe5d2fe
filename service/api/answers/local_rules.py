"""What has been published for this place?"""

from datetime import date

from service.api.answers.question import editions
from service.api.deps import Deps
from service.api.schemas.local_rules import AreaOut, KeptBy, LocalRuleOut, LocalRulesOut, RuleCardOut
from service.api.words import say
from service.core.errors import UnknownAreaError
from service.core.rules import NO_CONFLICT, RuleCard, card_facts, card_for, in_force, is_stale
from service.data.local_rules import DEFAULT_AREA, cards_of


def local_rules(as_of: date, deps: Deps) -> LocalRulesOut:
    """The answer of GET /v1/local-rules, as old as the cards are on that day."""
    areas = [
        AreaOut(
            area=area,
            country=cards[0].country,
            region=cards[0].region,
            status=[card.status for card in cards],
            published_on=max((card.published_on for card in cards if card.published_on), default=None),
            checked_on=min(card.checked_on for card in cards),
            stale=any(is_stale(card, as_of) for card in cards),
            conflicts=list(dict.fromkeys(card.conflicts for card in cards if card.conflicts != NO_CONFLICT)),
            kept_by=_kept_by(area, deps),
            path=f"/v1/local-rules/{area}",
        )
        for area, cards in deps.rule_cards.items()
    ]
    return LocalRulesOut(areas=areas, as_of=as_of.isoformat(), **editions(deps))


def local_rule(area: str, as_of: date, deps: Deps) -> LocalRuleOut:
    """The answer of GET /v1/local-rules/{area}: the area's own cards, else its country's.

    Raises:
        UnknownAreaError: neither is kept.
    """
    cards = deps.rule_cards.get(area) or cards_of(area, deps.rule_cards)
    if area != area.upper() or cards[0].id == DEFAULT_AREA != area:
        raise UnknownAreaError(area)
    speaks = card_for(cards, as_of)
    return LocalRuleOut(
        area=area,
        fell_back=speaks.id != area,
        as_of=as_of.isoformat(),
        speaks=RuleCardOut.from_core(speaks),
        in_force=in_force(speaks, as_of),
        stale=is_stale(speaks, as_of),
        kept_by=_kept_by(speaks.id, deps),
        text=_told(speaks, area, as_of),
        other_cards=[RuleCardOut.from_core(card) for card in cards if card is not speaks],
        **editions(deps),
    )


def _kept_by(area: str, deps: Deps) -> KeptBy:
    return "operator" if area in deps.own_areas else "service"


def _told(card: RuleCard, area: str, as_of: date) -> str:
    """When and by whom it was published, whether it may be stale, and where sources disagree."""
    facts = card_facts(card, area, as_of)
    keys = ["published", *(["stale"] if facts["stale"] else []), *(["conflicts"] if facts["disputed"] else [])]
    return " ".join(say("cards", key, facts) for key in keys)
