"""Which panels can it be, how sure is each, and how far do the ratings of all of them reach?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from service.core.identity.candidate import Candidate, Range
from service.core.identity.cell_sizes import any_panel, classes_like
from service.core.identity.classes import FORMATS
from service.core.identity.facts import POINTS, RATINGS, PanelFacts
from service.core.identity.listed import by_code, counts_listed, listed
from service.core.model.panel_list import PanelList

# What is left for panels that neither the list nor the classes hold, and how far a code or a label is believed: our
# own judgement. A code is written by whoever sells the panel; a label can be misread, or be another panel's.
UNLISTED_SHARE = 0.05
CODE_SHARE = 0.8
LABEL_SHARE = 0.9
DOUBTED_LABEL_SHARE = 0.5
MOST_CANDIDATES = 40  # beyond what any power has; a bound of the answer


@dataclass(frozen=True, slots=True, kw_only=True)
class Identified:
    """Candidates, surest first, each with its share; ``ranges`` reach over all of them."""

    candidates: tuple[tuple[Candidate, float], ...]
    ranges: Mapping[str, Range]


def identify(
    facts: PanelFacts, table: PanelList, read: frozenset[str] = frozenset(), *, doubted: bool = False
) -> Identified:
    """The candidates that agree with the facts.

    Args:
        facts: what is known, with what a label said; None where nobody said.
        table: the public list.
        read: names of the ratings that come from a label that was read.
        doubted: does that label contradict itself?

    Returns:
        Candidates from a label that gives a rating, from the list by code, from the list by its build, and from the
        classes of cell sizes; none where no power is known and no code led to one. A given rating stands as given. A
        further true fact never widens the range of a candidate.
    """
    coded = by_code(facts, table)
    others = agreeing(facts, table)
    if not others and coded is None:
        fallback = any_panel(facts)
        others = (fallback,) if fallback else ()
    shares = _shares(others, coded)
    pairs = [(_stated(one, facts, read), share) for one, share in shares]
    labelled = _labelled(pairs, facts, read)
    if labelled is not None:
        held = DOUBTED_LABEL_SHARE if doubted else LABEL_SHARE
        pairs = [(labelled, held), *((one, share * (1 - held)) for one, share in pairs)]
    ranked = sorted(pairs, key=lambda pair: (-pair[1], pair[0].key[1] or 0, pair[0].cell))[:MOST_CANDIDATES]
    return Identified(candidates=tuple(ranked), ranges=hull([one for one, _ in ranked]))


def agreeing(facts: PanelFacts, table: PanelList) -> tuple[Candidate, ...]:
    """Candidates by build alone, from the list and from the classes, in no order; "any other" at an unusual power."""
    if facts.rated_power_w is None:
        return ()
    counts = counts_listed(facts.rated_power_w, table)
    classes = classes_like(facts, counts)
    usual = any(low <= facts.rated_power_w <= high for low, high in (one.power_w for one in FORMATS))
    if not usual:
        rare = any_panel(facts)
        classes += (rare,) if rare else ()
    return listed(facts, table) + classes


def hull(candidates: Sequence[Candidate]) -> dict[str, Range]:
    """From the least to the greatest of all; likeliest is the first's. Empty where there is none."""
    if not candidates:
        return {}
    found = {}
    for name in RATINGS:
        ranges = [one.ranges[name] for one in candidates]
        found[name] = replace(
            ranges[0], low=min(r.low for r in ranges), high=max(r.high for r in ranges),
            entries=sum(r.entries for r in ranges),
        )  # fmt: skip
    return found


def _shares(others: Sequence[Candidate], coded: Candidate | None) -> list[tuple[Candidate, float]]:
    rest = 1 - UNLISTED_SHARE - (CODE_SHARE if coded else 0.0)
    total = sum(one.weight for one in others) or 1.0
    pairs = [(one, rest * one.weight / total) for one in others]
    return [(coded, CODE_SHARE), *pairs] if coded else pairs


def _stated(one: Candidate, facts: PanelFacts, read: frozenset[str]) -> Candidate:
    """A rating that was given or read stands as it is."""
    ranges = dict(one.ranges)
    for name in RATINGS:
        value = facts.rating(name)
        if value is not None:
            source = "label" if name in read else "given"
            ranges[name] = Range(low=value, likely=value, high=value, source=source)
    return replace(one, ranges=ranges)


def _labelled(pairs: Sequence[tuple[Candidate, float]], facts: PanelFacts, read: frozenset[str]) -> Candidate | None:
    """The panel of the label: what it says stands, what it does not say reaches over all that agree with it."""
    if not read & set(POINTS) or not pairs:
        return None
    surest = max(pairs, key=lambda pair: pair[1])[0]
    counts = {one.cells_in_series for one, _ in pairs}
    return replace(
        surest, found_in="label", cell="",
        cells_in_series=facts.cells_in_series if len(counts) > 1 else surest.cells_in_series,
        ranges=hull([surest, *(one for one, _ in pairs)]), weight=1.0, by_code=False,
        entries=sum(one.entries for one, _ in pairs), makers=max(one.makers for one, _ in pairs),
    )  # fmt: skip
