"""What does each remedy cost in energy? Asked again with the remedy in place."""

from collections.abc import Callable
from dataclasses import replace

from service.core.compatibility import Compatibility
from service.core.completion import with_mismatch_again
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Fact, Finding, Remedy
from service.core.model.patch import patched
from service.core.model.pointer import replaced_at

_NOTHING_ASSUMED = Assumptions({})
# The other sets' own energy is not reckoned, so what is lost with them is not known.
_OTHERS_OUT = frozenset({"other_sets_out", "other_sets_out_and_lower_limit"})
# The year's energy hangs on these parts of a request only.
_ENERGY_PARTS = ("/site/", "/arrays/", "/inverter/", "/downtime_days_per_year/")
_EXPORT_LIMIT = "/inverter/export_limit_w"


def priced_remedies(
    compatibility: Compatibility,
    setup: Setup,
    year_kwh: Callable[[Setup], float],
    assumptions: Assumptions = _NOTHING_ASSUMED,
) -> Compatibility:
    """The same findings with ``year_kwh_change`` filled in.

    Args:
        compatibility: with remedies that name a pointer and a new value.
        setup: the setup that was checked.
        year_kwh: the middle energy of a year of a setup, in kWh; asked once for the setup, where at all, and once for
            each change that energy can depend on.
        assumptions: what of the setup was assumed; a remedy may settle some of it.

    Returns:
        A remedy that changes no field (ask somebody) or takes other sets out of use keeps None; one that energy does
        not depend on gets 0.
    """
    known: dict[tuple[str, Fact] | None, float] = {}

    def asked(key: tuple[str, Fact] | None, changed: Setup) -> float:
        if key not in known:
            known[key] = year_kwh(changed)
        return known[key]

    def priced(remedy: Remedy) -> Remedy:
        if remedy.code in _OTHERS_OUT:
            return remedy
        if not touches_energy(remedy):
            return replace(remedy, year_kwh_change=0.0)
        changed = with_remedy(setup, assumptions, remedy)
        if changed is None:
            return remedy
        key = (remedy.pointer or f"{remedy.code} {remedy.facts.get('array')} {remedy.patch}", remedy.new_value)
        return replace(remedy, year_kwh_change=asked(key, changed[0]) - asked(None, setup))

    def with_prices(finding: Finding) -> Finding:
        if not finding.remedies:
            return finding
        return replace(finding, remedies=tuple(priced(remedy) for remedy in finding.remedies))

    return replace(compatibility, findings=tuple(with_prices(finding) for finding in compatibility.findings))


def priced_by_the_set_alone(compatibility: Compatibility, setup: Setup) -> bool:
    """Is what the remedies cost in energy the same in every home? A limit on sending out throws away what is not used.

    Args:
        compatibility: with the remedies to be priced.
        setup: the setup that was checked.
    """
    limited = setup.inverter.export_limit_w is not None
    return not limited and not any(
        _EXPORT_LIMIT in (remedy.pointer, *(one.path for one in remedy.patch))
        for finding in compatibility.findings
        for remedy in finding.remedies
    )


def touches_energy(remedy: Remedy) -> bool:
    """Could the year's energy hang on what the remedy changes?"""
    return remedy.pointer is None or f"{remedy.pointer}/".startswith(_ENERGY_PARTS)


def with_remedy(setup: Setup, assumptions: Assumptions, remedy: Remedy) -> tuple[Setup, Assumptions] | None:
    """The setup with the remedy in place, and what of it is still assumed; None where no request can state it.

    A value that the remedy replaces is assumed no longer. Of a panel moved to an input of its own all is assumed that
    was assumed of its array. A mismatch that was assumed goes by the panels that then share an input.
    """
    found = _put_in_place(setup, assumptions, remedy)
    return None if found is None else with_mismatch_again(*found)


def _put_in_place(setup: Setup, assumptions: Assumptions, remedy: Remedy) -> tuple[Setup, Assumptions] | None:
    if remedy.pointer is not None:
        known = {p: a for p, a in assumptions.by_pointer.items() if p != remedy.pointer}
        same = len(known) == len(assumptions.by_pointer)
        return replaced_at(setup, remedy.pointer, remedy.new_value), assumptions if same else Assumptions(known)
    if remedy.code == "one_panel_per_input":
        return _panels_spread(setup, assumptions, remedy)
    if not remedy.patch:
        return None
    replaced = tuple(one.path for one in remedy.patch)
    left = {p: a for p, a in assumptions.by_pointer.items() if not p.startswith(replaced)}
    return patched(setup, remedy.patch), Assumptions(left)


def _panels_spread(setup: Setup, assumptions: Assumptions, remedy: Remedy) -> tuple[Setup, Assumptions] | None:
    """An array's panels on inputs of their own: ``facts`` name the array and the inputs that it moves to."""
    targets = [int(number) for number in str(remedy.facts.get("to_inputs", "")).split(", ") if number.isdigit()]
    found = next((i for i, a in enumerate(setup.arrays) if a.name == remedy.facts.get("array") and a.count > 1), None)
    if found is None or not targets:
        return None
    known = dict(assumptions.by_pointer)
    joined = setup.arrays[found].joined
    single = replace(setup.arrays[found], count=1, joined=joined if joined == "one_string" else "series")
    before = f"/arrays/{found}/"
    of_array = [one for pointer, one in known.items() if pointer.startswith(before)]
    for at in range(len(targets)):
        for one in of_array:
            pointer = f"/arrays/{len(setup.arrays) + at}/{one.pointer.removeprefix(before)}"
            known[pointer] = replace(one, pointer=pointer)
    kept = (*setup.arrays[:found], single, *setup.arrays[found + 1 :])
    spread = replace(setup, arrays=(*kept, *(replace(single, input=number) for number in targets)))
    return spread, Assumptions(known)
