"""What is the set with every demanded remedy in place? Each is made, and all is checked again before the next."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from service.core.appraisal.conditions import demanded_by
from service.core.appraisal.remedies import with_remedy
from service.core.compatibility import Compatibility
from service.core.model.assumption import Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Fact, Finding, Part, Remedy

Check = Callable[[Setup, Assumptions], Compatibility]

# More rounds than there are kinds of refusal: a set that still refuses after them is taken as it then is.
_ROUNDS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Mended:
    """A set with remedies in place, what was then found about it, and which remedies those are, in their order.

    ``remedies`` is empty, and all else as it was handed in, where nothing is demanded that a change of the request
    would mend.
    """

    setup: Setup
    assumptions: Assumptions
    compatibility: Compatibility
    remedies: tuple[tuple[Finding, Remedy], ...] = ()


def mended(setup: Setup, assumptions: Assumptions, compatibility: Compatibility, check: Check) -> Mended:
    """The set with the remedy in place that each finding demands.

    A panel-side change and one that a local rule demands do not touch each other's checks, so both are made at once;
    the circuit carries what the limit then lets through, and is asked after them. A remedy that no field of a request
    can hold (a fuse in each row) changes nothing here and stays a condition.

    Args:
        setup: the set as asked.
        assumptions: what of it was assumed; a value that a remedy replaces is assumed no longer.
        compatibility: its findings.
        check: asks for the findings of a changed set.
    """
    now = Mended(setup=setup, assumptions=assumptions, compatibility=compatibility)
    for _ in range(_ROUNDS):
        chosen = tuple(_next(now))
        if not chosen:
            break
        for finding, remedy in chosen:
            now = _with(now, finding, remedy)
        now = replace(now, compatibility=check(now.setup, now.assumptions))
    return replace(now, remedies=_lasting(now.remedies))


def _next(now: Mended) -> Iterator[tuple[Finding, Remedy]]:
    done = {_key(remedy) for _, remedy in now.remedies}
    found: dict[Part, tuple[Finding, Remedy]] = {}
    for finding in now.compatibility.findings:
        remedy = demanded_by(finding)
        if remedy is None or _key(remedy) in done or with_remedy(now.setup, now.assumptions, remedy) is None:
            continue
        found.setdefault(finding.part, (finding, remedy))
    first = [found[part] for part in (Part.LOCAL_RULE, Part.PANEL_SIDE) if part in found]
    yield from first or [found[part] for part in (Part.SOCKET_SIDE,) if part in found]


def _with(now: Mended, finding: Finding, remedy: Remedy) -> Mended:
    setup, assumptions = with_remedy(now.setup, now.assumptions, remedy) or (now.setup, now.assumptions)
    return replace(now, setup=setup, assumptions=assumptions, remedies=(*now.remedies, (finding, remedy)))


def _key(remedy: Remedy) -> tuple[str, str | None, Fact, Fact]:
    return remedy.code, remedy.pointer, remedy.new_value, remedy.facts.get("array")


def _lasting(remedies: tuple[tuple[Finding, Remedy], ...]) -> tuple[tuple[Finding, Remedy], ...]:
    """Of several values for one field only the last one."""
    by_field = {(r.pointer or f"{r.code} {r.facts.get('array')}"): (f, r) for f, r in remedies}
    return tuple(by_field.values())
