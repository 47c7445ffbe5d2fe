"""What was checked, and how did it turn out? Findings and remedies as codes and numbers; sentences come later."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType

from service.core.model.patch import Operation


class Verdict(StrEnum):
    """The outcome of one checked question. A missing rating that matters is NOT_KNOWN, never FITS."""

    FITS = "fits"
    FITS_WITH_LOSS = "fits_with_loss"
    DOES_NOT_FIT = "does_not_fit"
    NOT_KNOWN = "not_known"


class Part(StrEnum):
    """The side of the set that a finding is about."""

    PANEL_SIDE = "panel_side"
    SOCKET_SIDE = "socket_side"
    LOCAL_RULE = "local_rule"


# A proven refusal outranks an open question, which outranks a loss (fail closed).
WORST_FIRST = (Verdict.DOES_NOT_FIT, Verdict.NOT_KNOWN, Verdict.FITS_WITH_LOSS, Verdict.FITS)


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """The verdict of the whole: the worst of its parts; of nothing at all, NOT_KNOWN.

    >>> str(worst([Verdict.FITS, Verdict.NOT_KNOWN, Verdict.FITS_WITH_LOSS]))
    'not_known'
    """
    return min(verdicts, key=WORST_FIRST.index, default=Verdict.NOT_KNOWN)


Fact = str | float | int | bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """What would turn a refusal into something better: set ``pointer`` (RFC 6901) to ``new_value`` and ask again.

    ``verdict_then`` is computed by asking again, never asserted. ``who``: you, electrician, seller, operator.
    ``pointer`` is None where the remedy changes no field (ask somebody), or several by the operations of ``patch``.
    ``year_kwh_change`` is None until priced.
    """

    code: str
    pointer: str | None
    new_value: Fact
    unit: str
    who: str
    verdict_then: Verdict
    year_kwh_change: float | None = None
    patch: tuple[Operation, ...] = ()
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One checked question: verdict, measured value beside its limit, why, and from which source.

    ``likely`` is the verdict with the class's worst value where a rating was assumed. ``about`` is an RFC 6901
    pointer into the completed request; ``input`` counts from 1. No prose in here: ``facts`` fill the sentence.
    """

    code: str
    part: Part
    verdict: Verdict
    likely: Verdict
    about: str
    input: int | None = None
    measured: float | None = None
    limit: float | None = None
    unit: str = ""
    facts: Mapping[str, Fact] = field(default_factory=lambda: MappingProxyType({}))
    source: str = ""
    remedies: tuple[Remedy, ...] = ()
