"""By which plug may the set be connected, as published? And which kind of plug does the request mean?"""

from datetime import date

from service.core.model.facts import Setup
from service.core.model.finding import Finding, Verdict
from service.core.rules.card import RuleCard
from service.core.rules.choice import card_facts, in_force, rule_finding

PLUG_KINDS = ("household", "special_connector", "fixed")

# The words of the cards for each kind of plug of a request.
CARD_WORDS = {
    "household": ("household_with_conditions", "household_allowed"),
    "special_connector": ("special_connector",),
    "fixed": ("fixed_wiring_only",),
}

# What each word of the cards admits. "unclear" is settled by nobody but the operator.
_ADMITS = {
    "household_allowed": PLUG_KINDS,
    "household_with_conditions": PLUG_KINDS,
    "special_connector": ("special_connector", "fixed"),
    "fixed_wiring_only": ("fixed",),
    "unclear": (),
}


def described_plug(setup: Setup) -> str | None:
    """The kind of plug that the request describes; None where nobody said."""
    plug = None if setup.socket_circuit is None else setup.socket_circuit.plug
    return None if plug == "not_known" else plug


def plug_about(setup: Setup) -> str:
    """Pointer to the plug, or to the empty place where the circuit would stand."""
    return "/socket_circuit" if setup.socket_circuit is None else "/socket_circuit/plug"


def plug_finding(setup: Setup, card: RuleCard, as_of: date) -> Finding:
    """Does the card admit this kind of plug? Made for any place; a plug nobody described is taken as a household's.

    ``not_known`` without a card in force, or where the card leaves it unclear; ``does_not_fit`` where the card in
    force admits other kinds only. Never an opinion on the law.
    """
    described = described_plug(setup)
    plug = described or "household"
    admits = plug in _ADMITS[card.plug]
    decided = Verdict.FITS if admits else Verdict.DOES_NOT_FIT
    likely = Verdict.NOT_KNOWN if card.plug == "unclear" else decided
    verdict = likely if in_force(card, as_of) else Verdict.NOT_KNOWN
    facts = card_facts(card, setup.site.rule_area, as_of) | {
        "plug": plug,
        "plug_described": described is not None,
        "published_plug": card.plug,
        "statement": card.statement,
        "notes": card.notes,
        "variant": _variant(card, as_of),
    }
    return rule_finding(card, "plug", (verdict, likely), plug_about(setup), facts)


def _variant(card: RuleCard, as_of: date) -> str:
    """Which sentence of the verdict: no card in force, or a card in force that leaves the plug unclear."""
    return card.plug if in_force(card, as_of) else "no_card_in_force"
