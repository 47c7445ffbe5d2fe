"""What does a window that does not suit an array cost in the year?"""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from service.core.compatibility import Compatibility
from service.core.energy import EnergyYear
from service.core.model.finding import Fact, Finding, Verdict

# Findings about the volts that an input works at; their loss is one figure of the year.
_ABOUT_WINDOW = ("hot_voltage", "start_voltage")
# Less than this of an array's year is not worth a sentence.
_LEAST_SHARE = 0.001


def with_lost_energy(compatibility: Compatibility, energy: EnergyYear) -> Compatibility:
    """The same findings, with ``lost_kwh`` in the facts of each about the window that is not a plain ``fits``.

    That is the d.c. energy of the typical year which the array could give and the input does not draw because its
    voltage lies outside tracking or because the input has not started, with the ratings taken as they are.
    """
    lost = {
        f"/arrays/{at}": one.lost_to_window_kwh
        for at, one in enumerate(energy.arrays)
        if one.lost_to_window_kwh > _LEAST_SHARE * (one.year_kwh + one.lost_to_window_kwh)
    }

    def told(finding: Finding) -> Finding:
        if finding.code not in _ABOUT_WINDOW or finding.verdict == Verdict.FITS or finding.about not in lost:
            return finding
        facts: Mapping[str, Fact] = {**finding.facts, "lost_kwh": lost[finding.about]}
        return replace(finding, facts=MappingProxyType(dict(facts)))

    return replace(compatibility, findings=tuple(told(finding) for finding in compatibility.findings))
