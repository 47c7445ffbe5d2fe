"""What must the sellers of a set be asked, so that its open findings close?"""

from collections.abc import Collection, Iterable, Mapping

from service.core.model.finding import Finding, Verdict
from service.core.shortlist.candidate import Candidate

# Ratings with a question of their own; of any other a picture of the label tells.
RATINGS_ASKED = frozenset({
    "open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v", "max_power_current_a",
    "voc_coefficient_pct_per_k", "bifaciality_share", "max_input_voltage_v", "tracking_min_v", "tracking_max_v",
    "start_voltage_v", "max_current_a", "max_short_circuit_current_a", "input_count",
})  # fmt: skip
LABEL_PHOTO = "label_photo"
_IF_TWO_SIDED, _HOW_TWO_SIDED = "bifaciality_share", "bifaciality_pct"
_ASKED = RATINGS_ASKED | {_HOW_TWO_SIDED}
# From so many on a picture of the label spares the seller from reading them out: it is asked for first. Judgement.
_MANY = 3


def questions_of(
    candidate: Candidate,
    findings: Iterable[Finding],
    told: Mapping[str, Iterable[str]],
    two_sided: Collection[str] = (),
) -> list[tuple[str, str]]:
    """Advert and code of every question, advert by advert as the set names them.

    Of one advert first a picture of the label, where it spares the seller many; then what refuses the set with the
    worst values usual, what hangs on what it said alone, and the rest.

    ``told``: of each advert the codes that hang on what it said alone. ``two_sided``: adverts that say so; they are
    asked how much, not whether.
    """
    found = tuple(findings)
    all_open = _open_ratings(candidate, found, two_sided)
    deciding = _open_ratings(candidate, filter(_likely_refuses, found), two_sided)
    return [
        (advert, code)
        for advert in candidate.adverts
        for code in _each_once(deciding.get(advert, ()), told.get(advert, ()), all_open.get(advert, ()))
    ]


def ratings_that_decide(findings: Iterable[Finding]) -> tuple[str, ...]:
    """The names of what was not told and refuses the set with the worst values usual, each once."""
    pointers = (pointer for finding in findings if _likely_refuses(finding) for pointer in _missing(finding))
    return tuple(dict.fromkeys(pointer.rpartition("/")[2] for pointer in pointers))


def only_untold(findings: Iterable[Finding]) -> bool:
    """Does nothing refuse the set but the worst values usual of what was not told?"""
    against = [finding for finding in findings if Verdict.DOES_NOT_FIT in {finding.verdict, finding.likely}]
    return all(_likely_refuses(finding) and bool(_missing(finding)) for finding in against)


def _likely_refuses(finding: Finding) -> bool:
    return finding.likely == Verdict.DOES_NOT_FIT != finding.verdict


def _missing(finding: Finding) -> list[str]:
    pointers = finding.facts.get("missing_pointers")
    return pointers.split(", ") if isinstance(pointers, str) else []


def _open_ratings(
    candidate: Candidate, findings: Iterable[Finding], two_sided: Collection[str]
) -> dict[str, list[str]]:
    """Of each advert the codes of the ratings that the findings hang on; what is at hand the caller can look up."""
    found: dict[str, list[str]] = {}
    for finding in findings:
        for pointer in _missing(finding):
            advert, rating = _seller(candidate, pointer), pointer.rpartition("/")[2]
            if rating == _IF_TWO_SIDED and advert in two_sided:
                rating = _HOW_TWO_SIDED
            if advert is not None:
                found.setdefault(advert, []).append(rating if rating in _ASKED else LABEL_PHOTO)
    return {advert: list(dict.fromkeys(codes)) for advert, codes in found.items()}


def _each_once(*codes_in_turn: Iterable[str]) -> list[str]:
    """The codes of one advert, each once, the first first.

    >>> _each_once(["quantity"], ["max_power_voltage_v", "max_power_current_a", "voc_coefficient_pct_per_k"])[:2]
    ['label_photo', 'quantity']
    """
    codes = list(dict.fromkeys(code for some in codes_in_turn for code in some))
    if sum(code in RATINGS_ASKED for code in codes) >= _MANY and LABEL_PHOTO not in codes:
        codes.insert(0, LABEL_PHOTO)
    return codes


def _seller(candidate: Candidate, pointer: str) -> str | None:
    """The advert of the panel or inverter that an RFC 6901 pointer leads to; None of anything else, or at hand."""
    parts = pointer.split("/")[1:]
    if parts[0] == "inverter":
        return candidate.inverter.advert
    if parts[0] == "arrays" and parts[2:3] == ["panel"] and len(parts) > 3:
        return candidate.panels[candidate.layout[int(parts[1])].kind].offer.advert
    return None
