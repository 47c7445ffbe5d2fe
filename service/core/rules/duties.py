"""What has to be announced, shown and metered, as published?"""

import re
from datetime import date

from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Finding, Verdict
from service.core.rules.card import RuleCard
from service.core.rules.choice import card_facts, in_force, rule_finding


def registration_finding(setup: Setup, card: RuleCard, as_of: date) -> Finding:
    """Who has to be told, when, and at what cost? ``fits`` says that the duty is known, not that it was done."""
    known = card.notify.needed != "unknown"
    likely = Verdict.FITS if known else Verdict.NOT_KNOWN
    verdict = likely if in_force(card, as_of) else Verdict.NOT_KNOWN
    facts = card_facts(card, setup.site.rule_area, as_of) | {
        "who": card.notify.who,
        "when": card.notify.when,
        "before_or_after": card.notify.before_or_after,
        "cost": card.notify.cost,
        "needed": card.notify.needed,
        "variant": "none_asked" if verdict == Verdict.FITS and card.notify.needed == "no" else "",
    }
    return rule_finding(card, "registration", (verdict, likely), "/site/rule_area", facts)


def certificate_finding(setup: Setup, card: RuleCard, as_of: date) -> Finding | None:
    """Does the inverter carry the proofs that the card names? None where no certificate was described.

    A certificate meets an expectation where one name contains the other, spaces and case aside; everything else is
    ``not_known``: whether another paper counts is for the operator to say.
    """
    if not setup.inverter.certificates:
        return None
    given = [_plain(name) for name in setup.inverter.certificates]
    missing = [wanted for wanted in card.certificate_expected if not _met(wanted, given)]
    likely = Verdict.FITS if card.certificate_expected and not missing else Verdict.NOT_KNOWN
    verdict = likely if in_force(card, as_of) else Verdict.NOT_KNOWN
    facts = card_facts(card, setup.site.rule_area, as_of) | {
        "given": "; ".join(setup.inverter.certificates),
        "expected": "; ".join(card.certificate_expected) or "none found",
        "not_shown": "; ".join(missing) or "none",
    }
    return rule_finding(card, "certificate", (verdict, likely), "/inverter/certificates", facts)


def meter_finding(setup: Setup, assumptions: Assumptions, card: RuleCard, as_of: date) -> Finding | None:
    """Can the meter count what is sent out, as the card asks? None where the meter was not described."""
    counts = setup.meter.counts
    if counts == "not_known" or assumptions.assumed("/meter/counts"):
        return None
    likely = _meter_verdict(setup, card)
    settled = in_force(card, as_of) or (likely == Verdict.FITS and counts != "reversing")
    verdict = likely if settled else Verdict.NOT_KNOWN
    facts = card_facts(card, setup.site.rule_area, as_of) | {
        "counts": counts,
        "reversing_meter": card.reversing_meter,
        "published_metering": card.metering,
        "export_payment": card.export_payment,
        "variant": counts,
    }
    return rule_finding(card, "meter", (verdict, likely), "/meter/counts", facts)


def _meter_verdict(setup: Setup, card: RuleCard) -> Verdict:
    if setup.meter.counts == "two_way" or setup.inverter.export_limit_w == 0:
        return Verdict.FITS
    if setup.meter.counts == "one_way":
        return Verdict.NOT_KNOWN
    return {"tolerated": Verdict.FITS, "not_admitted": Verdict.DOES_NOT_FIT}.get(
        card.reversing_meter, Verdict.NOT_KNOWN
    )


def _met(wanted: str, given: list[str]) -> bool:
    """One expectation, met by any of its alternatives ("A / B"); remarks in brackets are left out."""
    bare = re.sub(r"\([^)]*\)", "", wanted)
    names = [_plain(name) for name in bare.split(" / ")]
    return any(
        name in shown or (shown in name and len(shown) > 3 and any(c.isdigit() for c in shown))
        for name in names
        if name
        for shown in given
    )


def _plain(name: str) -> str:
    return re.sub(r"[^a-z0-9]", "", name.lower())
