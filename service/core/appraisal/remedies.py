"""What does each remedy cost in energy? Asked again with the remedy in place."""

from collections.abc import Callable
from dataclasses import replace

from service.core.compatibility import Compatibility
from service.core.model.facts import Setup
from service.core.model.finding import Fact, Finding, Remedy
from service.core.model.pointer import replaced_at

# The year's energy hangs on these parts of a request only.
_ENERGY_PARTS = ("/site/", "/arrays/", "/inverter/", "/downtime_days_per_year/")


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

    def asked(key: tuple[str, Fact] | None, changed: Setup) -> float:
        if key not in known:
            known[key] = year_kwh(changed)
        return known[key]

    def priced(remedy: Remedy) -> Remedy:
        if remedy.pointer is not None and not f"{remedy.pointer}/".startswith(_ENERGY_PARTS):
            return replace(remedy, year_kwh_change=0.0)
        changed = _changed(setup, remedy)
        if changed is None:
            return remedy
        key = (remedy.pointer or f"{remedy.code} {remedy.facts.get('array')}", remedy.new_value)
        return replace(remedy, year_kwh_change=asked(key, changed) - asked(None, setup))

    def with_prices(finding: Finding) -> Finding:
        if not finding.remedies:
            return finding
        return replace(finding, remedies=tuple(priced(remedy) for remedy in finding.remedies))

    return replace(compatibility, findings=tuple(with_prices(finding) for finding in compatibility.findings))


def _changed(setup: Setup, remedy: Remedy) -> Setup | None:
    """The setup with the remedy in place; None where it changes nothing that a request states."""
    if remedy.pointer is not None:
        return replaced_at(setup, remedy.pointer, remedy.new_value)
    return _panels_spread(setup, remedy) if remedy.code == "one_panel_per_input" else None


def _panels_spread(setup: Setup, remedy: Remedy) -> Setup | None:
    """An array's panels on inputs of their own: ``facts`` name the array and the inputs that it moves to."""
    targets = [int(number) for number in str(remedy.facts.get("to_inputs", "")).split(", ") if number.isdigit()]
    found = next((i for i, a in enumerate(setup.arrays) if a.name == remedy.facts.get("array") and a.count > 1), None)
    if found is None or not targets:
        return None
    single = replace(setup.arrays[found], count=1, joined="series")
    kept = (*setup.arrays[:found], single, *setup.arrays[found + 1 :])
    return replace(setup, arrays=(*kept, *(replace(single, input=number) for number in targets)))
