"""What do a late start and a limited current cost over the year, in hours, energy and money?"""

from dataclasses import replace
from types import MappingProxyType

from service.core.compatibility import Compatibility
from service.core.energy import EnergyYear, next_to_nothing
from service.core.model.finding import WORST_FIRST, Fact, Finding, Verdict, worst


def told_over_the_year(
    compatibility: Compatibility, energy: EnergyYear, saving_per_kwh: float | None, currency: str | None
) -> Compatibility:
    """The same findings with hours, kWh and money of the year in their facts, and with why it is next to nothing.

    Args:
        compatibility: of the set.
        energy: its year; ``lost_kwh`` of the current limit is that of all inputs together, d.c.
        saving_per_kwh: what the first year saves over what it yields; None where no price is known.
        currency: of that saving.
    """

    def told(finding: Finding) -> Finding:
        if finding.verdict != Verdict.FITS_WITH_LOSS:
            return finding
        more: dict[str, Fact] = {}
        if finding.code == "start_voltage":
            at = int(finding.about.split("/")[2])
            more["hours_not_started"] = energy.arrays[at].hours_not_started
            more["variant"] = finding.facts.get("variant") or "over_the_year"
        elif finding.code == "operating_current":
            lost = float(energy.lost_kwh["current_limit"])
            more |= {"lost_kwh": lost, "variant": "over_the_year"}
            if saving_per_kwh is not None and currency is not None:
                more |= {"lost_money": lost * saving_per_kwh, "currency": currency, "variant": "over_the_year_worth"}
        return replace(finding, facts=MappingProxyType({**finding.facts, **more})) if more else finding

    return _with(replace(compatibility, findings=tuple(map(told, compatibility.findings))), next_to_nothing(energy))


def _with(compatibility: Compatibility, more: tuple[Finding, ...]) -> Compatibility:
    """With more findings, worst first, and the verdicts that they make."""
    if not more:
        return compatibility
    by_part = dict(compatibility.by_part)
    for one in more:
        by_part[one.part] = worst((one.verdict, by_part.get(one.part, one.verdict)))
    return replace(
        compatibility,
        verdict=worst(by_part.values()),
        by_part=MappingProxyType(by_part),
        findings=tuple(sorted((*compatibility.findings, *more), key=lambda one: WORST_FIRST.index(one.verdict))),
    )
