"""What does each remedy cost in energy? Asked again with the remedy in place."""

from collections.abc import Callable
from dataclasses import replace

from service.core.compatibility import Compatibility
from service.core.model.facts import Setup
from service.core.model.finding import Fact, Finding, Remedy
from service.core.model.pointer import replaced_at

# The year's energy hangs on these parts of a request only.
_ENERGY_PARTS = ("/site/", "/arrays/", "/inverter/", "/downtime_days_per_year")


def priced_remedies(compatibility: Compatibility, setup: Setup, year_kwh: Callable[[Setup], float]) -> Compatibility:
    """The same findings with ``year_kwh_change`` filled in.

    Args:
        compatibility: with remedies that name a pointer and a new value.
        setup: the setup that was checked.
        year_kwh: the middle energy of a year of a setup, in kWh; asked once for the setup, where at all, and once for
            each change that energy can depend on.

    Returns:
        A remedy that changes no field (ask somebody) keeps None; one that energy does not depend on gets 0.
    """
    known: dict[tuple[str, Fact] | None, float] = {}

    def asked(key: tuple[str, Fact] | None) -> float:
        if key not in known:
            known[key] = year_kwh(setup if key is None else replaced_at(setup, *key))
        return known[key]

    def priced(remedy: Remedy) -> Remedy:
        if remedy.pointer is None:
            return remedy
        if not f"{remedy.pointer}/".startswith(_ENERGY_PARTS) and remedy.pointer not in _ENERGY_PARTS:
            return replace(remedy, year_kwh_change=0.0)
        return replace(remedy, year_kwh_change=asked((remedy.pointer, remedy.new_value)) - asked(None))

    def with_prices(finding: Finding) -> Finding:
        if not finding.remedies:
            return finding
        return replace(finding, remedies=tuple(priced(remedy) for remedy in finding.remedies))

    return replace(compatibility, findings=tuple(with_prices(finding) for finding in compatibility.findings))
