"""What has to be announced, shown and metered, as published?"""

from datetime import date

from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Finding, Verdict
from service.core.rules.card import RuleCard
from service.core.rules.choice import card_facts, in_force, rule_finding
from service.core.rules.standards import meets


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

    A certificate meets an expectation where it names the same standard, whole: see ``standards``. Everything else is
    ``not_known``: whether another paper counts is for the operator to say.
    """
    if not setup.inverter.certificates:
        return None
    missing = [wanted for wanted in card.certificate_expected if not meets(wanted, setup.inverter.certificates)]
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
