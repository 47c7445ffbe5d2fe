"""How is a finding of this room put together?"""

from collections.abc import Mapping
from types import MappingProxyType

from service.core.compatibility.reach import Outcome
from service.core.model.finding import Fact, Finding, Part, Verdict


def made(
    code: str,
    part: Part,
    outcome: Outcome,
    about: str,
    *,
    source: str,
    input_number: int | None = None,
    numbers: tuple[float | None, float | None, str] = (None, None, ""),
    facts: Mapping[str, Fact] | None = None,
) -> Finding:
    """A finding; ``numbers`` are measured, limit and unit. The missing ratings go into the facts, by their names.

    A limit that was assumed is no limit: it is left out of ``limit`` and stands in the facts as ``assumed_limit``.
    """
    measured, limit, unit = numbers
    more: dict[str, Fact] = dict(facts or {})
    if outcome.missing:
        more["missing"] = ", ".join(dict.fromkeys(pointer.rsplit("/", 1)[1] for pointer in outcome.missing))
        more["missing_pointers"] = ", ".join(outcome.missing)
    if outcome.verdict == Verdict.DOES_NOT_FIT and limit is not None:
        more.setdefault("variant", "measured")
    return Finding(
        code=code, part=part, verdict=outcome.verdict, likely=outcome.likely, about=about, input=input_number,
        measured=measured, limit=limit, unit=unit, facts=MappingProxyType(more), source=source,
    )  # fmt: skip
