"""Which place is meant: by the caller's name of it, and by the town that an advert names where it tells of fetching?

Adverts of the same goods from two towns are two adverts. A town is found by its capital letter or its digits, after a
small word of place and close behind the words of fetching; what is no town there only makes two adverts of one.
"""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from itertools import pairwise

from service.core.adverts import Advert, Reading

# Small words of the ten languages that stand before a town.
_AT = frozenset((
    "in", "im", "bei", "aus", "ab", "at", "near", "from", "te", "bij", "à", "près", "sur", "en", "cerca", "a", "presso",
    "vicino", "w", "we", "pod", "em", "perto", "v", "ve", "u", "i", "ved", "nær",
))  # fmt: skip
_HANDED_OVER = frozenset(("pickup", "either"))
_CLAUSE = re.compile(r"[^.,;:!?()\r\n]{0,60}")
_SPELLED_OUT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "æ": "ae", "ø": "oe", "å": "aa"})
_SAINT = re.compile(r"\b(?:sankt |st\. ?)")
# With the sign of the country or without; as the ten countries write them, but those behind the name or with letters.
_CODED = re.compile(
    r"(?:[a-z]{1,3}[- ]{1,2})?(?P<code>\d{2}-\d{3}|\d{3} \d{2}|\d{4}-\d{3}|\d{4,5}) (?P<town>[^\d]*[^\W\d_]{2}[^\d]*)"
)
_MOST_WORDS = 3  # "St. Anna am Moor" has more, but its first are enough


def place_of(name: str | None) -> str | None:
    """A place's name as it is compared: without case, with single blanks; None where nothing is left of it.

    Umlauts count as they are spelled out, "Sankt" as its short form.

    >>> place_of(" Bad  Söden "), place_of("BAD SOEDEN"), place_of("Sankt Soden"), place_of("  ")
    ('bad soeden', 'bad soeden', 'st soden', None)
    """
    return None if name is None else _SAINT.sub("st ", " ".join(_spelled(name).split())) or None


def places_of(names: Iterable[str | None]) -> Mapping[str, str]:
    """The place of each name, as of ``place_of``, without the postcode before it where all codes of the name agree.

    Towns of one name and two codes are two, and nobody can say which of them is meant without a code.

    >>> dict(places_of(["18055 Nordmole", "Nordmole", "47110 Kai", "47120 Kai"])).values()
    dict_values(['nordmole', 'nordmole', '47110 kai', '47120 kai'])
    """
    places = {name: place for name in names if name is not None and (place := place_of(name)) is not None}
    codes: dict[str, set[str]] = {}
    for place in places.values():
        if coded := _CODED.fullmatch(place):
            codes.setdefault(coded["town"], set()).add(coded["code"])

    def bare(place: str) -> str:
        coded = _CODED.fullmatch(place)
        return coded["town"] if coded and len(codes[coded["town"]]) == 1 else place

    return {name: bare(place) for name, place in places.items()}


def towns_of(advert: Advert, reading: Reading) -> frozenset[str]:
    """The words of towns that an advert names behind its words of fetching; empty where it names none."""
    found: set[str] = set()
    for claim in reading.claims:
        if claim.what == "delivery" and claim.value in _HANDED_OVER:
            text = advert.title if claim.field == "title" else advert.body
            clause = _CLAUSE.match(text, claim.end)
            found.update(_towns([*claim.words.split()[-1:], *(clause.group().split() if clause else ())]))
    return frozenset(found)


def far_apart(one: frozenset[str], other: frozenset[str]) -> bool:
    """Do both name towns, and none in common?"""
    return bool(one) and bool(other) and one.isdisjoint(other)


def _towns(words: list[str]) -> list[str]:
    """The words after a small word of place, as long as they are written as names are.

    >>> _towns("Abholung nach Absprache in 40210 Nordmole möglich".split())
    ['40210', 'nordmole']
    """
    found: list[str] = []
    left = 0
    for before, word in pairwise(words):
        if before.casefold() in _AT:
            left = _MOST_WORDS
        if left and (word[0].isupper() or word[0].isdigit()):
            found.append(_spelled(word))
            left -= 1
        else:
            left = 0
    return found


def _spelled(name: str) -> str:
    """Without case and signs that nobody sees, umlauts and their like spelled out."""
    seen = "".join(sign for sign in unicodedata.normalize("NFKC", name) if unicodedata.category(sign) != "Cf")
    return unicodedata.normalize("NFKC", seen).casefold().translate(_SPELLED_OUT)
