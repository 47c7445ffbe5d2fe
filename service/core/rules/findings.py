"""All that a rule card has to say of a set, as findings."""

from datetime import date

from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Finding
from service.core.rules.caps import local_cap_finding, panel_cap_finding
from service.core.rules.card import RuleCard
from service.core.rules.duties import certificate_finding, meter_finding, registration_finding
from service.core.rules.plugs import plug_finding


def rule_findings(setup: Setup, assumptions: Assumptions, card: RuleCard, as_of: date) -> tuple[Finding, ...]:
    """Every finding of this card about this set: local_cap, panel_cap, plug, registration, certificate, meter.

    ``plug``, ``local_cap`` and ``registration`` are made for any place; the others where there is something to say:
    a panel cap that was found, certificates or a meter that the request describes.
    """
    found = (
        local_cap_finding(setup, card, as_of, assumptions),
        panel_cap_finding(setup, card, as_of, assumptions),
        plug_finding(setup, card, as_of),
        registration_finding(setup, card, as_of),
        certificate_finding(setup, card, as_of),
        meter_finding(setup, assumptions, card, as_of),
    )
    return tuple(finding for finding in found if finding is not None)
