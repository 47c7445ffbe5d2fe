"""Which place is meant: by the caller's name of it, and by the town that an advert names where it tells of fetching?

Adverts of the same goods from two towns are two adverts. A town is found by its capital letter or its digits, after a
small word of place and close behind the words of fetching; what is no town there only makes two adverts of one.
"""

import re
import unicodedata
from itertools import pairwise

from service.core.adverts import Advert, Reading

# Small words of the ten languages that stand before a town.
_AT = frozenset((
    "in", "im", "bei", "aus", "ab", "at", "near", "from", "te", "bij", "à", "près", "sur", "en", "cerca", "a", "presso",
    "vicino", "w", "we", "pod", "em", "perto", "v", "ve", "u", "i", "ved", "nær",
))  # fmt: skip
_HANDED_OVER = frozenset(("pickup", "either"))
_CLAUSE = re.compile(r"[^.,;:!?()\r\n]{0,60}")
_MOST_WORDS = 3  # "St. Anna am Moor" has more, but its first are enough


def place_of(name: str | None) -> str | None:
    """A place's name as it is compared: without case, with single blanks; None where nothing is left of it.

    >>> place_of(" Bad  Soden "), place_of("BAD SODEN"), place_of("  ")
    ('bad soden', 'bad soden', None)
    """
    return None if name is None else " ".join(unicodedata.normalize("NFKC", name).casefold().split()) or None


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
            found.append(word.casefold())
            left -= 1
        else:
            left = 0
    return found
