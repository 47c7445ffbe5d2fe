"""What of a shortlist's request was passed over, or cannot be as it was told? No rank hangs on it; it is only said."""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

from service.api.schemas.shortlist import ShortlistAdvertIn, ShortlistIn
from service.api.words import codes_of
from service.core.model.finding import Fact
from service.core.shortlist import Told, differing, places_of

# Somewhere it is tomorrow already.
_TOMORROW = timedelta(days=1)
# One town's ends lie no further apart. Judgement.
_SAME_PLACE_KM = 5.0
_MOST_NAMED = 5
# What a request calls the goods of adverts, and their way here.
_OF_ADVERTS = frozenset(("panel", "panels", "inverter", "fetching", "delivery", "freight"))

Said = tuple[str, dict[str, Fact]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What came beside a reading that counts: a text, and what it tells otherwise."""

    text: Told
    reading: Told


def remarks_of(advert: ShortlistAdvertIn, told: Told, beside: Beside | None, as_of: date) -> Iterator[Said]:
    """Of one advert, by code with the facts of the sentence."""
    if beside is not None:
        yield "text_not_read", {}
        differs = differing(beside.text, beside.reading)
        if differs:
            yield "text_differs", {"differs": _some_of([str(one) for one in differs])}
    if told.posted_on is not None and told.posted_on > as_of + _TOMORROW:
        yield "posted_ahead", {"posted_on": told.posted_on.isoformat(), "as_of": as_of.isoformat()}
    if advert.panel_count is not None and told.kind in {"panel", "inverter"}:
        yield "no_set", {}
    if unknown := _unknown_doubts(advert):
        yield "doubts_not_known", {"codes": _some_of(unknown)}


def odd_in_all(request: ShortlistIn, saints: Set[str]) -> Iterator[Said]:
    """Of the request beside its adverts, likewise; ``saints``: as of ``places_of``."""
    if not_listed := _not_of_the_outlay(request):
        yield "at_hand_not_listed", {"items": _some_of(not_listed)}
    if twice := _paid_for_by_adverts(request):
        yield "goods_in_outlay", {"items": _some_of(twice)}
    for place, least, most in _at_two_distances(request, saints)[:1]:
        yield "place_at_two_distances", {"place": place, "least": least, "most": most}


@cache
def known_doubts() -> frozenset[str]:
    """The doubts of the vocabulary."""
    return frozenset(codes_of("adverts", "doubt."))


def _unknown_doubts(advert: ShortlistAdvertIn) -> list[str]:
    named = (advert.reading.doubts if advert.reading else None) or ()
    return list(dict.fromkeys(doubt.code for doubt in named if doubt.code not in known_doubts()))


def _not_of_the_outlay(request: ShortlistIn) -> list[str]:
    """Of the things at hand those that no entry of the outlay names, as they were sent."""
    at_hand = (request.at_hand.items if request.at_hand else None) or ()
    items = {called(item.what) for item in (request.outlay.items if request.outlay else None) or ()}
    return list(dict.fromkeys(item for item in at_hand if called(item) not in items))


def _paid_for_by_adverts(request: ShortlistIn) -> list[str]:
    """Entries of the outlay that are called like what the sets' adverts cost already, as they were sent."""
    items = (request.outlay.items if request.outlay else None) or ()
    return list(dict.fromkeys(item.what for item in items if item.amount > 0 and called(item.what) in _OF_ADVERTS))


def called(thing: str) -> str:
    """What a thing is called as it is compared: without case, with single blanks.

    >>> called(" Roof  hooks") == called("roof hooks")
    True
    """
    return " ".join(thing.casefold().split())


def _at_two_distances(request: ShortlistIn, saints: Set[str]) -> list[tuple[str, float, float]]:
    """Places that adverts of one request put at unlike distances: the name first sent, the least and the most km."""
    places = places_of((advert.fetched_at for advert in request.adverts), saints)
    names: dict[str, str] = {}
    told: dict[str, list[float]] = {}
    for advert in request.adverts:
        place = places.get(advert.fetched_at or "")
        if place is not None and advert.fetched_at is not None and advert.distance_km is not None:
            names.setdefault(place, advert.fetched_at)
            told.setdefault(place, []).append(advert.distance_km)
    return [
        (names[place], min(km), max(km)) for place, km in told.items() if max(km) - min(km) > _SAME_PLACE_KM
    ]  # fmt: skip


def _some_of(names: Sequence[str]) -> str:
    """The first few, for a sentence."""
    return ", ".join(names[:_MOST_NAMED]) + (", ..." if len(names) > _MOST_NAMED else "")
