"""Which sets are listed, which gave way to them, and which were refused on a closer look?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from service.api.answers.shortlist_home import ShortlistHome
from service.api.answers.shortlist_set import ListedSet, listed_set
from service.core.errors import ContradictionError
from service.core.model.finding import Finding
from service.core.shortlist import REFUSED, Candidate, Offer, Screen, behind, chosen
from service.core.shortlist.screen import MOST_LOOKED

# So many closer looks for each set that is listed: some are refused only then.
_LOOKS = 3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Found:
    """The sets listed, those that were refused on a closer look, the candidates of each advert, and who was asked.

    ``gave_way``: of each rank the sets that gave way to it or a better one. ``doubles``: as of ``doubles_of``.
    """

    home: ShortlistHome
    limit: int
    listed: Sequence[ListedSet]
    gave_way: Mapping[int, Sequence[Candidate]]
    doubles: Mapping[str, str]
    refused: Mapping[tuple[str, ...], Finding | None]
    best: Mapping[str, Candidate]
    screen: Screen
    sets: int


def found_of(home: ShortlistHome, offers: Sequence[Offer], limit: int, doubles: Mapping[str, str]) -> Found:
    """Look closer at the best until so many are found that nothing refuses; those with a mendable refusal come last."""
    screen = Screen(home.at_home, home.rooms, home.costs, home.terms, offers)
    screened = screen.screened()
    found: list[ListedSet] = []
    refused: dict[tuple[str, ...], Finding | None] = {}
    best: dict[str, Candidate] = {}
    for candidate in screened.candidates:
        for advert in candidate.adverts:
            best.setdefault(advert, candidate)

    def counts(candidate: Candidate) -> bool:
        try:
            one = listed_set(candidate, home)
        except ContradictionError:
            refused[candidate.adverts] = None
            return False
        if one.hopeless is not None:
            refused[candidate.adverts] = one.hopeless
            return False
        found.append(one)
        return one.fit < REFUSED or candidate.fit == REFUSED

    choice = chosen(screened.candidates, limit, min(_LOOKS * limit, MOST_LOOKED), counts)
    listed = sorted(found, key=lambda one: _order(one, home))[:limit]
    return Found(
        home=home, limit=limit, listed=listed, gave_way=_gave_way(listed, choice.gave_way), doubles=doubles,
        refused=refused, best=best, screen=screen, sets=screened.sets,
    )  # fmt: skip


def _order(one: ListedSet, home: ShortlistHome) -> tuple[object, ...]:
    """By the row of places, then by what was told; of equal ones the cheaper, what brings more, the fewer adverts."""
    row = behind(one.fit, tricky=one.candidate.tricky)
    gain = one.row.year_kwh if one.row.value is None else one.row.value
    wanted = one.wanted(home.terms.wish), one.row.outlay, -(gain.middle or 0.0)
    return row, *wanted, len(one.candidate.adverts), one.candidate.said, one.candidate.goods


def _gave_way(listed: Sequence[ListedSet], others: Sequence[Candidate]) -> dict[int, list[Candidate]]:
    """By rank: each set beside the first listed one that it has most adverts in common with."""
    found: dict[int, list[Candidate]] = {}
    for other in others:
        common = [len(set(other.adverts) & set(one.candidate.adverts)) for one in listed]
        if any(common):
            found.setdefault(common.index(max(common)) + 1, []).append(other)
    return found
